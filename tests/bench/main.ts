/** `npm run bench`: every bench of this folder in one table, or those named: `npm run bench -- flight`. */
import { table, type Row } from "./row.ts";

const benches: Readonly<Record<string, () => Promise<Row[]>>> = {
  flight: async () => (await import("./flight.ts")).benchFlight(),
  gap: async () => (await import("./gap.ts")).benchGap(),
  large: async () => (await import("./large.ts")).benchLarge(),
  report: async () => (await import("./report.ts")).benchReport(),
  pages: async () => (await import("./pages.ts")).benchPages(),
  enrich: async () => (await import("./enrich.ts")).benchEnrich(),
  add: async () => (await import("./add.ts")).benchAdd(),
  kills: async () => (await import("./add.ts")).benchKills(),
};

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !Object.hasOwn(benches, name));
if (unknown.length > 0) {
  console.error(`There is no bench ${unknown.join(", ")}, only ${Object.keys(benches).join(", ")}.`);
  process.exitCode = 2;
} else {
  const rows: Row[] = [];
  for (const [name, bench] of Object.entries(benches)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    if (process.stderr.isTTY) process.stderr.write(`${name} …\n`);
    rows.push(...(await bench()));
  }
  console.log(table(rows));
}
