/**
 * How often a season's answer is right: simulated hitters of `claims/squad.ts`, which nothing in the kit was tuned to, who
 * come twice a week for eight weeks and hit 25 balls off a tee, by how much their days differ. Some stay as they are, the
 * others gain 3 mph evenly over the eight weeks.
 *
 * `npm run progress-simulation` writes progress-simulation.json; `-- --table` prints DEVELOPERS.md's table of it.
 */
import { fileURLToPath, pathToFileURL } from "node:url";
import { enrich } from "../src/contact/enrich.ts";
import { writeWhole } from "../src/library/write.ts";
import { progress } from "../src/season/progress.ts";
import { share } from "../src/stats/share.ts";
import type { Session } from "../src/swing/fields.ts";
import { sittingOf, squadOf } from "./claims/squad.ts";

/** Standard deviations of a day's mean, mph and °, and of the log of its spread. */
export const dayKinds = {
  "0.5 mph": { speed_mph: 0.5, angle_deg: 1, spread: 0.05 },
  "1 mph": { speed_mph: 1, angle_deg: 1.5, spread: 0.1 },
  "1.5 mph": { speed_mph: 1.5, angle_deg: 1.5, spread: 0.1 },
} as const;
export type DayKind = keyof typeof dayKinds;

/** The season. */
export const season = { weeks: 8, aWeek: 2, balls: 25, gain_mph: 3, seasons: 200, seed: 31000 } as const;

/** What one simulated hitter was told. */
export interface Told {
  /** Whether any line that stands is called improving, or declining. */
  readonly improving: boolean;
  readonly declining: boolean;
  /** Whether exit velocity off the tee was. */
  readonly speed: boolean;
  /** Whether its interval covers the truth, and how wide it is, mph. */
  readonly held: boolean;
  readonly width: number;
}

/** One hitter's season. */
export function simulated(seed: number, kind: DayKind, gain_mph: number): Told {
  const squad = squadOf(seed);
  const { luck, hitters } = squad;
  const trait = squad.traits[0]!;
  const spread = dayKinds[kind];
  const count = season.weeks * season.aWeek;
  const dates = Array.from({ length: count }, (_, s) => Math.floor(s / 2) * 7 + (s % 2) * 3);
  const sessions = dates.map(
    (day, s) =>
      ({
        session: `Day ${s + 1}`,
        date: new Date(Date.UTC(2025, 0, 6 + day)).toISOString().slice(0, 10),
      }) as Session,
  );
  const swings = sessions.flatMap(({ session }, s) =>
    sittingOf(
      squad,
      { ...trait, top_mph: trait.top_mph + (gain_mph * dates[s]!) / (7 * season.weeks) },
      { session, input: "tee", balls: season.balls },
      {
        speed: spread.speed_mph * luck.normal(),
        launch: spread.angle_deg * luck.normal(),
        spray: spread.angle_deg * luck.normal(),
        spread: Math.exp(spread.spread * luck.normal()),
        pitch: 0,
      },
    ),
  );
  const library = { swings, sessions, hitters, thresholds: null };
  const { lines } = progress({ ...library, swings: enrich(library) }, trait.name);
  const first = lines.find((l) => l.first)!;
  const truth = (gain_mph * first.weeks) / season.weeks;
  return {
    improving: lines.some((l) => l.verdict === "improving"),
    declining: lines.some((l) => l.verdict === "declining"),
    speed: first.verdict === "improving",
    held: first.change.low! <= truth && truth <= first.change.high!,
    width: first.change.high! - first.change.low!,
  };
}

/** One line of the table. */
export interface Found {
  readonly days: DayKind;
  readonly gain_mph: number;
  readonly seasons: number;
  readonly improving: number;
  readonly declining: number;
  readonly speed: number;
  readonly held: number;
  readonly width_mph: number;
}

/** So many seasons of a kind. */
export function simulateSeasons(
  days: DayKind,
  gain_mph: number,
  seasons: number = season.seasons,
  seed: number = season.seed,
): Found {
  const told = Array.from({ length: seasons }, (_, i) => simulated(seed + i, days, gain_mph));
  const count = (of: (t: Told) => boolean): number => told.filter(of).length;
  return {
    days,
    gain_mph,
    seasons,
    improving: count((t) => t.improving),
    declining: count((t) => t.declining),
    speed: count((t) => t.speed),
    held: count((t) => t.held),
    width_mph: Number((told.reduce((sum, t) => sum + t.width, 0) / seasons).toFixed(2)),
  };
}

/** The table of DEVELOPERS.md. */
export function simulationTable(found: readonly Found[]): string {
  const percent = (count: number, n: number): string => {
    const { share: s, low, high } = share(count, n);
    const of = (v: number | null): string => (100 * v!).toFixed(1);
    return `${of(s)} (${of(low)} to ${of(high)})`;
  };
  const rows = found.map(
    (f) =>
      `| ${f.days} | ${f.gain_mph} mph | ${percent(f.improving, f.seasons)} | ${percent(f.declining, f.seasons)} | ${percent(f.held, f.seasons)} | ${f.width_mph.toFixed(1)} mph |`,
  );
  return [
    "| days differ by | true gain | called improving | called declining | interval holds it | its width |",
    "| --- | --- | --- | --- | --- | --- |",
    ...rows,
  ].join("\n");
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const file = fileURLToPath(new URL("progress-simulation.json", import.meta.url));
  const found = [0, season.gain_mph].flatMap((gain) =>
    (Object.keys(dayKinds) as DayKind[]).map((days) => simulateSeasons(days, gain)),
  );
  if (!process.argv.includes("--table"))
    await writeWhole(file, [`${JSON.stringify({ season, found }, null, 2)}\n`]);
  process.stdout.write(`${simulationTable(found)}\n`);
}
