/**
 * Every measure that is compared, once: its name, unit and words, how it is taken of a row, and where it is shown. A new
 * measure is an entry here and nothing else; tables, sentences, pages and commands come from it.
 */
import type { Thresholds } from "../contact/thresholds.ts";
import { fewestForInterval } from "../stats/bootstrap.ts";
import {
  meanDifference,
  quantileDifference,
  shareDifference,
  spreadDifference,
  type Difference,
  type Sample,
} from "../stats/difference.ts";
import { buckets, categories, type Bucket, type EnrichedSwing } from "../swing/fields.ts";
import { capital } from "../swing/words.ts";
import type { UnitName } from "../units/index.ts";
import { isWellHit } from "../contact/bucket.ts";
import { inPlay, swungAt, towardPull } from "./swings.ts";

/** What is made of the values; a median, or an end of a distribution, by its p. */
export type MeasureKind =
  "mean" | "spread" | "share" | { readonly quantile: number; readonly fewest: number };

/**
 * Where a measure is shown: in the `gap` between two kinds of work (the tee-versus-live page, the command), among the
 * `changes` since the session before (the report, the drill report's page), for the whole `group` (the command), in
 * the chart of `reliability`, and over the sessions of a season (`progress`).
 */
export type MeasurePlace = "gap" | "changes" | "group" | "reliability" | "progress";

/** The median of power kept, or a bucket's share: what rests on the hitter's ceiling. */
export type CeilingFigure = "power_kept" | Bucket;

/** One measure. */
export interface Measure {
  readonly name: string;
  readonly title: string;
  readonly unit: UnitName;
  /** Which way a coach would call better; null: neither. */
  readonly better: "up" | "down" | null;
  readonly kind: MeasureKind;
  /** The rows it is taken over; balls in play when left out. */
  readonly over?: <R extends EnrichedSwing>(rows: readonly R[]) => readonly R[];
  /** A row's value; for a share 1 or 0. Null when unknown. */
  readonly value: (row: EnrichedSwing, thresholds: Thresholds) => number | null;
  readonly shown: readonly MeasurePlace[];
  /** What of it rests on the hitter's ceiling, which is itself an estimate. */
  readonly ceiling?: CeilingFigure;
}

type Numeric = "exit_velocity_mph" | "launch_angle_deg" | "carry_ft" | "power_kept";

const field =
  (name: Numeric) =>
  (row: EnrichedSwing): number | null =>
    row[name];

const oneIf = (yes: boolean | null): number | null => (yes === null ? null : Number(yes));

/** Share of the exit velocities below the top-end figure: that of the ceiling (DESIGN section 6). */
const topEnd = 0.95;
/** The top twentieth of fewer balls is the hardest one alone. */
const fewestForTopEnd = 20;

const shares = <L extends string>(
  labels: readonly L[],
  column: "category" | "bucket",
  better: (label: L) => "up" | "down" | null,
): Measure[] =>
  labels.map((label) => ({
    name: `share_${label.replace(/\W/g, "_")}`,
    title: `${capital(label)}${column === "category" ? "s" : ""}, share`,
    unit: "share",
    better: better(label),
    kind: "share",
    value: (row) => oneIf(row[column] === null ? null : row[column] === label),
    shown: ["gap"],
  }));

/** Every measure, in the order it is shown. */
export const measures: readonly Measure[] = [
  {
    name: "exit_velocity",
    title: "Exit velocity, mean",
    unit: "mph",
    better: "up",
    kind: "mean",
    value: field("exit_velocity_mph"),
    shown: ["gap", "changes", "group", "reliability", "progress"],
  },
  {
    name: "exit_velocity_top",
    title: "Exit velocity, top end",
    unit: "mph",
    better: "up",
    kind: { quantile: topEnd, fewest: fewestForTopEnd },
    value: field("exit_velocity_mph"),
    shown: ["gap"],
  },
  {
    name: "power_kept",
    title: "Power kept, median",
    unit: "share",
    better: "up",
    kind: { quantile: 0.5, fewest: fewestForInterval },
    value: field("power_kept"),
    ceiling: "power_kept",
    shown: ["gap", "changes", "group", "reliability"],
  },
  {
    name: "well_hit",
    title: "Clean or flush",
    unit: "share",
    better: "up",
    kind: "share",
    value: (row) => oneIf(isWellHit(row)),
    shown: ["changes", "progress"],
  },
  {
    name: "launch_angle",
    title: "Launch angle, mean",
    unit: "deg",
    better: null,
    kind: "mean",
    value: field("launch_angle_deg"),
    shown: ["gap", "changes", "group", "reliability", "progress"],
  },
  {
    name: "launch_spread",
    title: "Spread of launch angle",
    unit: "deg",
    better: "down",
    kind: "spread",
    value: field("launch_angle_deg"),
    shown: ["gap", "changes", "group", "reliability", "progress"],
  },
  {
    name: "spray_pull",
    title: "Spray toward the pull side, mean",
    unit: "deg",
    better: null,
    kind: "mean",
    value: towardPull,
    shown: ["gap"],
  },
  {
    name: "spray_spread",
    title: "Spread of spray angle",
    unit: "deg",
    better: "down",
    kind: "spread",
    value: towardPull,
    shown: ["gap"],
  },
  {
    name: "carry",
    title: "Carry, mean",
    unit: "ft",
    better: null,
    kind: "mean",
    value: field("carry_ft"),
    shown: ["gap", "changes", "progress"],
  },
  ...shares(categories, "category", (c) => (c === "line drive" ? "up" : c === "pop-up" ? "down" : null)),
  ...shares(buckets, "bucket", (b) => (b === "flush" ? "up" : b === "mishit" ? "down" : null)).map(
    (measure, i): Measure => ({ ...measure, ceiling: buckets[i]! }),
  ),
  {
    name: "line_drive_window",
    title: "Launched at line-drive angles, share",
    unit: "share",
    better: "up",
    kind: "share",
    value: ({ launch_angle_deg: angle }, { line_drive_from_deg: from, fly_from_deg: to }) =>
      oneIf(angle === null ? null : angle >= from && angle < to),
    shown: ["gap", "reliability"],
  },
  {
    name: "misses",
    title: "Misses of swings",
    unit: "share",
    better: "down",
    kind: "share",
    over: swungAt,
    value: (row) => oneIf(row.outcome === "miss"),
    shown: ["gap", "changes", "reliability", "progress"],
  },
];

/** The measures of one place, in the order they are shown. */
export const measuresIn = (place: MeasurePlace): Measure[] =>
  measures.filter(({ shown }) => shown.includes(place));

/**
 * The rows that a measure is taken over.
 * @example rowsOf(measures[0], []) // []
 */
export const rowsOf = <R extends EnrichedSwing>({ over }: Measure, rows: readonly R[]): readonly R[] =>
  over === undefined ? inPlay(rows) : over(rows);

/**
 * The difference of two samples, to − from, as a measure of a kind takes it.
 * @example differenceIn("mean", { values: [1, 2, 3] }, { values: [2, 3, 4] }).value // 1
 */
export function differenceIn(kind: MeasureKind, from: Sample, to: Sample): Difference {
  if (kind === "spread") return spreadDifference(from, to);
  if (kind === "share") return shareDifference(from, to);
  if (kind === "mean") return meanDifference(from, to);
  return quantileDifference(from, to, kind.quantile, kind.fewest);
}
