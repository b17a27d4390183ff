/**
 * How often the gap's intervals hold the truth: teams of hitters whose gaps are known (src/gap/simulate.ts).
 *
 * `npm run gap-coverage` writes gap-coverage.json, which the tee-versus-live page shows. It takes some minutes.
 */
import { writeFile } from "node:fs/promises";
import { pathToFileURL } from "node:url";
import { format, resolveConfig } from "prettier";
import { coverage, settings, type Coverage } from "../src/gap/simulate.ts";

/** How many teams stand behind each line. */
export const teams = 200;

async function main(): Promise<void> {
  const path = new URL("gap-coverage.json", import.meta.url);
  const rows: Coverage[] = [];
  for (const setting of settings) {
    rows.push(coverage(setting, teams));
    process.stderr.write(`${rows.length} of ${settings.length}\n`);
  }
  const round = (_: string, value: unknown): unknown =>
    typeof value === "number" ? Math.round(value * 1e4) / 1e4 : value;
  const about = `${teams} simulated teams of eight hitters a line. Invented; written by data/gap-coverage.ts.`;
  const text = JSON.stringify({ about, teams, rows }, round);
  await writeFile(
    path,
    await format(text, { ...(await resolveConfig(path.pathname)), filepath: path.pathname }),
  );
}

const started = process.argv[1];
if (started !== undefined && import.meta.url === pathToFileURL(started).href) await main();
