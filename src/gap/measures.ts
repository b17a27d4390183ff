/** What is compared between two kinds of work: every measure once, with how it is counted and put in doubt. */
import type { Thresholds } from "../contact/thresholds.ts";
import { fewestForInterval, group, mean, quantile, spread, type Statistic } from "../stats/bootstrap.ts";
import {
  meanDifference,
  quantileDifference,
  shareDifference,
  spreadDifference,
  type Difference,
} from "../stats/difference.ts";
import { quantileEstimate, spreadEstimate, type Estimate } from "../stats/estimate.ts";
import { share } from "../stats/share.ts";
import { figureOf, intervalsOf, resampledOf } from "../stats/twoStage.ts";
import { buckets, categories, type EnrichedSwing } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import { inPlay, swungAt, towardPull } from "../views/swings.ts";
import type { ReadySwing } from "./rows.ts";

/** A median, or an end of a distribution, by its p. */
type Kind = "mean" | "spread" | "share" | { readonly quantile: number; readonly fewest: number };

/** One measure. */
export interface GapMeasure {
  readonly name: string;
  readonly title: string;
  readonly unit: UnitName;
  /** Which way a coach would call better; null: neither. */
  readonly better: "up" | "down" | null;
  readonly kind: Kind;
  /** The rows it is taken over. */
  readonly over: (rows: readonly ReadySwing[]) => readonly ReadySwing[];
  /** A row's value; for a share 1 or 0. Null when unknown. */
  readonly value: (row: ReadySwing, thresholds: Thresholds) => number | null;
}

type Numeric = "exit_velocity_mph" | "launch_angle_deg" | "carry_ft" | "power_kept";

const field =
  (name: Numeric) =>
  (row: ReadySwing): number | null =>
    row[name];

const oneIf = (yes: boolean | null): number | null => (yes === null ? null : Number(yes));

/** Share of the exit velocities below the top-end figure: that of the ceiling (DESIGN section 6). */
const topEnd = 0.95;
/** The top twentieth of fewer balls is the hardest one alone. */
const fewestForTopEnd = 20;

const ofBalls = { over: (rows: readonly ReadySwing[]) => inPlay(rows) };

const shares = <L extends string>(
  labels: readonly L[],
  column: "category" | "bucket",
  better: (label: L) => "up" | "down" | null,
): GapMeasure[] =>
  labels.map((label) => ({
    ...ofBalls,
    name: `share_${label.replace(/\W/g, "_")}`,
    title: `${label[0]!.toUpperCase()}${label.slice(1)}${column === "category" ? "s" : ""}, share`,
    unit: "share",
    better: better(label),
    kind: "share",
    value: (row: EnrichedSwing) => oneIf(row[column] === null ? null : row[column] === label),
  }));

/** Every measure, in the order it is shown. */
export const gapMeasures: readonly GapMeasure[] = [
  {
    ...ofBalls,
    name: "exit_velocity",
    title: "Exit velocity, mean",
    unit: "mph",
    better: "up",
    kind: "mean",
    value: field("exit_velocity_mph"),
  },
  {
    ...ofBalls,
    name: "exit_velocity_top",
    title: "Exit velocity, top end",
    unit: "mph",
    better: "up",
    kind: { quantile: topEnd, fewest: fewestForTopEnd },
    value: field("exit_velocity_mph"),
  },
  {
    ...ofBalls,
    name: "power_kept",
    title: "Power kept, median",
    unit: "share",
    better: "up",
    kind: { quantile: 0.5, fewest: fewestForInterval },
    value: field("power_kept"),
  },
  {
    ...ofBalls,
    name: "launch_angle",
    title: "Launch angle, mean",
    unit: "deg",
    better: null,
    kind: "mean",
    value: field("launch_angle_deg"),
  },
  {
    ...ofBalls,
    name: "launch_spread",
    title: "Spread of launch angle",
    unit: "deg",
    better: "down",
    kind: "spread",
    value: field("launch_angle_deg"),
  },
  {
    ...ofBalls,
    name: "spray_pull",
    title: "Spray toward the pull side, mean",
    unit: "deg",
    better: null,
    kind: "mean",
    value: towardPull,
  },
  {
    ...ofBalls,
    name: "spray_spread",
    title: "Spread of spray angle",
    unit: "deg",
    better: "down",
    kind: "spread",
    value: towardPull,
  },
  {
    ...ofBalls,
    name: "carry",
    title: "Carry, mean",
    unit: "ft",
    better: null,
    kind: "mean",
    value: field("carry_ft"),
  },
  ...shares(categories, "category", (c) => (c === "line drive" ? "up" : c === "pop-up" ? "down" : null)),
  ...shares(buckets, "bucket", (b) => (b === "flush" ? "up" : b === "mishit" ? "down" : null)),
  {
    ...ofBalls,
    name: "line_drive_window",
    title: "Launched at line-drive angles, share",
    unit: "share",
    better: "up",
    kind: "share",
    value: ({ launch_angle_deg: angle }, { line_drive_from_deg: from, fly_from_deg: to }) =>
      oneIf(angle === null ? null : angle >= from && angle < to),
  },
  {
    name: "misses",
    title: "Misses of swings",
    unit: "share",
    better: "down",
    kind: "share",
    over: (rows) => swungAt(rows),
    value: (row) => oneIf(row.outcome === "miss"),
  },
];

/** The name of a measure. */
export type MeasureName = string;

/**
 * The measure of a name.
 * @throws RangeError when there is none
 * @example measureNamed("carry").unit // "ft"
 */
export function measureNamed(name: MeasureName): GapMeasure {
  const found = gapMeasures.find((m) => m.name === name);
  if (found === undefined)
    throw new RangeError(
      `there is no measure named ${JSON.stringify(name)}; they are ${gapMeasures.map((m) => m.name).join(", ")}`,
    );
  return found;
}

/** A measure's values over rows, each with its session; unknown ones left out. */
export interface MeasureSample {
  readonly values: readonly number[];
  readonly sessions: readonly (string | null)[];
}

/**
 * The values a measure is taken of.
 * @example sampleOf(measureNamed("carry"), [], {}).values // []
 */
export function sampleOf(
  measure: GapMeasure,
  rows: readonly ReadySwing[],
  thresholds: Thresholds,
): MeasureSample {
  const values: number[] = [];
  const sessions: (string | null)[] = [];
  for (const row of measure.over(rows)) {
    const value = measure.value(row, thresholds);
    if (value === null || !Number.isFinite(value)) continue;
    values.push(value);
    sessions.push(row.session);
  }
  return { values, sessions };
}

const statisticOf = (kind: Kind): Statistic =>
  kind === "spread" ? spread : typeof kind === "object" ? quantile(kind.quantile) : mean;

/**
 * One measure of one side, with its interval: Wilson's for a share, the bootstrap's of sessions and swings for
 * the rest (a spread's of swings alone).
 * @example estimateOf(measureNamed("carry"), { values: [], sessions: [] }).value // null
 */
export function estimateOf(measure: GapMeasure, sample: MeasureSample): Estimate {
  const { kind } = measure;
  const n = sample.values.length;
  if (kind === "share") {
    const s = share(
      sample.values.reduce((a, b) => a + b, 0),
      n,
    );
    return { n, value: s.share, low: s.low, high: s.high, reason: n === 0 ? "no values" : null };
  }
  if (kind === "spread") return spreadEstimate(sample.values);
  const fewest = typeof kind === "object" ? kind.fewest : fewestForInterval;
  if (n < fewest) {
    const value = n === 0 ? null : statisticOf(kind)(Float64Array.from(sample.values), n);
    const few = n === 0 ? "no values" : `${n} value${n === 1 ? " gives" : "s give"} no interval`;
    return { n, value, low: null, high: null, reason: few };
  }
  const bySession = group(sample.values, sample.sessions);
  const alone = resampledOf([bySession]) === "swings";
  if (alone && typeof kind === "object") return quantileEstimate(sample.values, kind.quantile);
  const used = alone ? group(sample.values) : bySession;
  const statistic = statisticOf(kind);
  const value = statistic(used.values.slice(), n);
  const [doubt] = intervalsOf([used], figureOf(statistic), [value], [1]);
  return { n, value, low: doubt?.low ?? value, high: doubt?.high ?? value, reason: null };
}

/**
 * One measure's difference between two sides, to − from. A share has Newcombe's interval, and where sessions
 * are drawn the bootstrap's too, the wider of the two at each end.
 * @example differenceOf(measureNamed("carry"), { values: [], sessions: [] }, { values: [1], sessions: [null] }).value // null
 */
export function differenceOf(measure: GapMeasure, from: MeasureSample, to: MeasureSample): Difference {
  const { kind } = measure;
  if (kind === "spread") return spreadDifference(from, to);
  if (typeof kind === "object") return quantileDifference(from, to, kind.quantile, kind.fewest);
  const ofMeans = meanDifference(from, to);
  if (kind === "mean") return ofMeans;
  const count = ({ values }: MeasureSample) =>
    share(
      values.reduce((a, b) => a + b, 0),
      values.length,
    );
  const ofShares = shareDifference(count(from), count(to));
  if (ofMeans.resampled !== "sessions" || ofMeans.low === null || ofMeans.high === null) return ofShares;
  return {
    ...ofMeans,
    low: Math.max(-1, Math.min(ofMeans.low, ofShares.low ?? ofMeans.low)),
    high: Math.min(1, Math.max(ofMeans.high, ofShares.high ?? ofMeans.high)),
  };
}
