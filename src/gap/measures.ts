/** What is compared between two kinds of work: every measure once, with how it is counted and put in doubt. */
import { flagsOf } from "../contact/flags.ts";
import type { Thresholds } from "../contact/thresholds.ts";
import { fewestForInterval } from "../stats/bootstrap.ts";
import {
  meanDifference,
  quantileDifference,
  shareDifference,
  spreadDifference,
  type Difference,
} from "../stats/difference.ts";
import { meanEstimate, quantileEstimate, spreadEstimate, type Estimate } from "../stats/estimate.ts";
import { shareOf } from "../stats/share.ts";
import { buckets, categories, type EnrichedSwing } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import { ownCeilingReason } from "../views/sentences/gap.ts";
import { inPlay, swungAt, towardPull } from "../views/swings.ts";
import { widening, type CeilingFigure, type CeilingSwings } from "./ceilingAnew.ts";
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
  /** What of it rests on the hitter's ceiling, which is itself an estimate. */
  readonly ceiling?: CeilingFigure;
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
    ceiling: "power_kept",
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
  ...shares(buckets, "bucket", (b) => (b === "flush" ? "up" : b === "mishit" ? "down" : null)).map(
    (measure, i): GapMeasure => ({ ...measure, ceiling: buckets[i]! }),
  ),
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
  /** The rows they are of, as `sampleOf` has them. */
  readonly rows?: readonly ReadySwing[];
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
  const used: ReadySwing[] = [];
  for (const row of measure.over(rows)) {
    const value = measure.value(row, thresholds);
    if (value === null || !Number.isFinite(value)) continue;
    values.push(value);
    sessions.push(row.session);
    used.push(row);
  }
  return { values, sessions, rows: used };
}

const hits = (values: readonly number[]): boolean[] => values.map((v) => v === 1);

/** What a hitter's ceilings rest on. */
export interface CeilingBasis {
  readonly swings: CeilingSwings;
  readonly thresholds: Thresholds;
}

/**
 * One measure of one side, with its interval, which counts sessions where there are several, and that a ceiling is an
 * estimate.
 * @param ceilings what the hitter's ceilings rest on; without it they are taken to be given
 * @example estimateOf(measureNamed("carry"), { values: [], sessions: [] }).value // null
 */
export function estimateOf(measure: GapMeasure, sample: MeasureSample, ceilings?: CeilingBasis): Estimate {
  const found = underGivenCeiling(measure, sample);
  const { value } = found;
  if (value === null) return found;
  const by = widened(measure, [sample], ceilings);
  return by === 1
    ? found
    : { ...found, ...further(found, value, by, measure.kind === "share" ? [0, 1] : null) };
}

function underGivenCeiling({ kind }: GapMeasure, { values, sessions }: MeasureSample): Estimate {
  if (kind === "spread") return spreadEstimate(values, sessions);
  if (kind === "mean") return meanEstimate(values, sessions);
  if (typeof kind === "object") return quantileEstimate(values, kind.quantile, sessions, kind.fewest);
  const { n, share, low, high } = shareOf(hits(values), sessions);
  return { n, value: share, low, high, reason: n === 0 ? "no values" : null };
}

/**
 * One measure's difference between two sides, to − from. Power kept and buckets of a kind of work with a ceiling of its
 * own are not compared: they are told by another stick.
 * @param ceilings what the hitter's ceilings rest on; without it they are taken to be given
 * @example differenceOf(measureNamed("carry"), { values: [], sessions: [] }, { values: [1], sessions: [null] }).value // null
 */
export function differenceOf(
  measure: GapMeasure,
  from: MeasureSample,
  to: MeasureSample,
  ceilings?: CeilingBasis,
): Difference {
  const { kind } = measure;
  const found =
    kind === "spread"
      ? spreadDifference(from, to)
      : kind === "share"
        ? shareDifference(from, to)
        : kind === "mean"
          ? meanDifference(from, to)
          : quantileDifference(from, to, kind.quantile, kind.fewest);
  const { value } = found;
  if (value === null || measure.ceiling === undefined) return found;
  const alone = [from, to].flatMap(({ rows = [] }) => rows.filter(hasOwnCeiling).slice(0, 1));
  if (alone.length > 0)
    return {
      ...found,
      value: null,
      low: null,
      high: null,
      se: null,
      freedom: null,
      reason: ownCeilingReason(alone.map(({ input }) => input)),
    };
  const by = widened(measure, [from, to], ceilings);
  if (by === 1) return found;
  const se = found.se === null ? null : by * found.se;
  return { ...found, ...further(found, value, by, kind === "share" ? [-1, 1] : null), se };
}

const hasOwnCeiling = (row: ReadySwing): boolean =>
  row.flags !== null && flagsOf(row).includes("own_ceiling");

/** How many times as wide the interval is for the ceiling being an estimate. */
function widened(
  { ceiling }: GapMeasure,
  samples: readonly MeasureSample[],
  basis: CeilingBasis | undefined,
): number {
  if (ceiling === undefined || basis === undefined) return 1;
  return widening(
    ceiling,
    samples.map(({ rows = [] }) => rows),
    basis.swings,
    basis.thresholds,
  );
}

/** An interval's ends so many times as far from the value, within limits. */
function further(
  { low, high }: Pick<Estimate, "low" | "high">,
  value: number,
  by: number,
  limits: readonly [number, number] | null,
): Pick<Estimate, "low" | "high"> {
  const [least, most] = limits ?? [-Infinity, Infinity];
  const put = (end: number | null): number | null =>
    end === null ? null : Math.min(most, Math.max(least, value + by * (end - value)));
  return { low: put(low), high: put(high) };
}
