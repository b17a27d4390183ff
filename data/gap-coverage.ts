/**
 * How often the gap's intervals hold the truth: teams of hitters whose gaps are known (src/gap/simulate.ts).
 *
 * `npm run gap-coverage` writes gap-coverage.json, which the tee-versus-live page shows. It takes some minutes.
 */
import { fileURLToPath, pathToFileURL } from "node:url";
import { format, resolveConfig } from "prettier";
import { coverage, otherSettings, otherTeams, settings, team } from "../src/gap/simulate.ts";
import { writeWhole } from "../src/library/write.ts";

/** How many teams stand behind each line. */
export const teams = 200;

async function main(): Promise<void> {
  const path = fileURLToPath(new URL("gap-coverage.json", import.meta.url));
  const asked = [team, ...otherTeams].flatMap((made) =>
    (made === team ? settings : otherSettings(made)).map((setting) => ({ made, setting })),
  );
  const found = asked.map(({ made, setting }, i) => {
    process.stderr.write(`${i + 1} of ${asked.length}\n`);
    return { team: made.name, ...coverage(setting, teams, 1, made) };
  });
  const rows = found.flatMap(({ team: name, ...row }) => (name === team.name ? [row] : []));
  const others = found.filter((row) => row.team !== team.name);
  const round = (_: string, value: unknown): unknown =>
    typeof value === "number" ? Math.round(value * 1e4) / 1e4 : value;
  const about = `${teams} simulated teams of eight hitters a line. Invented; written by data/gap-coverage.ts.`;
  const text = JSON.stringify({ about, teams, rows, others }, round);
  await writeWhole(path, [await format(text, { ...(await resolveConfig(path)), filepath: path })]);
}

const started = process.argv[1];
if (started !== undefined && import.meta.url === pathToFileURL(started).href) await main();
