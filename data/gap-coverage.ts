/**
 * How often the gap's intervals cover the truth: teams of hitters whose gaps are known (src/gap/simulate.ts).
 *
 * `npm run gap-coverage` writes gap-coverage.json, which the tee-versus-live page shows. It goes in rounds of a few teams a
 * line, and writes what it has after each: it may be stopped at any time. `-- --teams 200` asks for that many teams, which
 * takes a quarter of an hour.
 */
import { Command } from "commander";
import { fileURLToPath, pathToFileURL } from "node:url";
import { format, resolveConfig } from "prettier";
import { coverage, otherSettings, otherTeams, pooled, settings, team } from "../src/gap/simulate.ts";
import { writeWhole } from "../src/library/write.ts";

/** Teams of one round; each round has a seed of its own. */
const ofRound = 4;

const path = fileURLToPath(new URL("gap-coverage.json", import.meta.url));

async function write(
  teams: number,
  found: readonly { team: string; row: ReturnType<typeof coverage> }[],
): Promise<void> {
  const rows = found.flatMap(({ team: name, row }) => (name === team.name ? [row] : []));
  const others = found.flatMap(({ team: name, row }) => (name === team.name ? [] : [{ team: name, ...row }]));
  const round = (_: string, value: unknown): unknown =>
    typeof value === "number" ? Math.round(value * 1e4) / 1e4 : value;
  const about = `${teams} simulated teams of eight hitters a line. Invented; written by data/gap-coverage.ts.`;
  const text = JSON.stringify({ about, teams, rows, others }, round);
  await writeWhole(path, [await format(text, { ...(await resolveConfig(path)), filepath: path })]);
}

async function main(): Promise<void> {
  const { teams } = new Command()
    .option("--teams <count>", "teams behind each line", "60")
    .parse()
    .opts<{ teams: string }>();
  const asked = [team, ...otherTeams].flatMap((made) =>
    (made === team ? settings : otherSettings(made)).map((setting) => ({ made, setting })),
  );
  let found: { team: string; row: ReturnType<typeof coverage> }[] = [];
  for (let done = 0; done < Number(teams); done += ofRound) {
    const seed = 1 + done / ofRound;
    found = asked.map(({ made, setting }, i) => {
      const row = coverage(setting, ofRound, seed, made);
      return { team: made.name, row: done === 0 ? row : pooled(found[i]!.row, row) };
    });
    await write(done + ofRound, found);
    process.stderr.write(`${done + ofRound} of ${teams} teams\n`);
  }
}

const started = process.argv[1];
if (started !== undefined && import.meta.url === pathToFileURL(started).href) await main();
