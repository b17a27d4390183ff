/** A measure of one side and between two, with its uncertainty; the measures themselves stand in src/views/measures.ts. */
import { flagsOf } from "../contact/flags.ts";
import type { Thresholds } from "../contact/thresholds.ts";
import type { Difference } from "../stats/difference.ts";
import { meanEstimate, quantileEstimate, spreadEstimate, type Estimate } from "../stats/estimate.ts";
import { shareOf } from "../stats/share.ts";
import { ownCeilingReason } from "../views/sentences/gap.ts";
import { differenceIn, measuresIn, rowsOf, type Measure } from "../views/measures.ts";
import { widening, type CeilingSwings } from "./ceilingAnew.ts";
import type { ReadySwing } from "./rows.ts";

/** What is compared between two kinds of work, in the order it is shown. */
export const gapMeasures: readonly Measure[] = measuresIn("gap");

/** The name of a measure. */
export type MeasureName = string;

/**
 * The measure of a name.
 * @throws RangeError when there is none
 * @example measureNamed("carry").unit // "ft"
 */
export function measureNamed(name: MeasureName): Measure {
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
  measure: Measure,
  rows: readonly ReadySwing[],
  thresholds: Thresholds,
): MeasureSample {
  const values: number[] = [];
  const sessions: (string | null)[] = [];
  const used: ReadySwing[] = [];
  for (const row of rowsOf(measure, rows)) {
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
export function estimateOf(measure: Measure, sample: MeasureSample, ceilings?: CeilingBasis): Estimate {
  const found = underGivenCeiling(measure, sample);
  const { value } = found;
  if (value === null) return found;
  const by = widened(measure, [sample], ceilings);
  return by === 1
    ? found
    : { ...found, ...further(found, value, by, measure.kind === "share" ? [0, 1] : null) };
}

function underGivenCeiling({ kind }: Measure, { values, sessions }: MeasureSample): Estimate {
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
  measure: Measure,
  from: MeasureSample,
  to: MeasureSample,
  ceilings?: CeilingBasis,
): Difference {
  const { kind } = measure;
  const found = differenceIn(kind, from, to);
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
  { ceiling }: Measure,
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
