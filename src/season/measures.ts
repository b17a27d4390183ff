/** What is followed over a season: the registry's measures that are shown there, and what only evened swings have. */
import { median } from "d3-array";
import { fewestForInterval } from "../stats/bootstrap.ts";
import type { Thresholds } from "../contact/thresholds.ts";
import { measuresIn, rowsOf, type MeasureKind } from "../views/measures.ts";
import { inPlay } from "../views/swings.ts";
import type { UnitName } from "../units/index.ts";
import type { EvenedSwing } from "./evened.ts";

/** A measure followed over sessions. */
export interface SeasonMeasure {
  readonly name: string;
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down" | null;
  readonly kind: MeasureKind;
  /** Whether it is the measure that a season is first asked about; there is one. */
  readonly first: boolean;
  /** Values of one session's rows, the unknown left out. */
  readonly values: (rows: readonly EvenedSwing[], thresholds: Thresholds) => number[];
}

const likeAngle = (rows: readonly EvenedSwing[]): number[] =>
  inPlay(rows).flatMap(({ like_angle_mph }) => like_angle_mph ?? []);

/**
 * Values whose mean is that of the upper half of these, and whose spread is what that mean is uncertain by: the median, and
 * twice what each lies above it (the influence of each value; Huber, Robust Statistics, 1981, ch. 3).
 * @example upperHalf([1, 2, 3, 4]) // [2.5, 2.5, 3.5, 5.5]
 */
export function upperHalf(values: readonly number[]): number[] {
  const middle = median(values) ?? 0;
  return values.map((value) => middle + 2 * Math.max(0, value - middle));
}

/**
 * How hard the better half of a session's balls was hit, at like launch angles: mishits, which come and go and are told by
 * the buckets, are not in it. The least noisy measure of how hard a hitter swings, so the first that is asked.
 */
const power: SeasonMeasure = {
  name: "better_half_speed",
  title: "Exit velocity, better half",
  unit: "mph",
  better: "up",
  kind: "mean",
  first: true,
  values: (rows) => upperHalf(likeAngle(rows)),
};

/** The top end of it: what the ceiling is made of. */
export const topMeasure: SeasonMeasure = {
  ...power,
  name: "ceiling",
  title: "Ceiling",
  kind: { quantile: 0.95, fewest: 20 },
  first: false,
  values: likeAngle,
};

/** Every measure that is followed, the first one first. */
export const seasonMeasures: readonly SeasonMeasure[] = [
  power,
  ...measuresIn("progress").map((measure): SeasonMeasure => ({
    ...measure,
    first: false,
    values: (rows, thresholds) =>
      rowsOf(measure, rows).flatMap((row) => measure.value(row, thresholds) ?? []),
  })),
];

/** Swings that a session's figure takes. */
export const fewestInSession = fewestForInterval;
