/** The difference of a figure between two groups of swings, with its uncertainty. */
import {
  differenceReplicates,
  fewestForInterval,
  fewestForSpread,
  group,
  mean,
  percentileInterval,
  quantile,
  spread,
  type Statistic,
} from "./bootstrap.ts";
import { t95 } from "./beta.ts";
import { defaultSeed } from "./random.ts";
import { share, type Share } from "./share.ts";
import {
  figureOf,
  intervalsOf,
  meansUncertainty,
  resampledOf,
  type Uncertainty,
  type Resampled,
} from "./twoStage.ts";

export type { Resampled } from "./twoStage.ts";

/** Values with the session each belongs to; without sessions, or without their names, all are one. */
export interface Sample {
  readonly values: readonly (number | null)[];
  readonly sessions?: readonly (string | null)[];
}

/** to − from, with its 95 % interval. */
export interface Difference {
  readonly from: { readonly n: number; readonly value: number | null };
  readonly to: { readonly n: number; readonly value: number | null };
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** The standard error behind the interval, and its degrees of freedom; null where the interval has none. */
  readonly se: number | null;
  readonly freedom: number | null;
  /** `swings` where a side has one session: the days' own ups and downs are then not in the interval. */
  readonly resampled: Resampled | null;
  /** Why there is no value or no interval. */
  readonly reason: string | null;
}

/**
 * The difference of two means. The bootstrap resamples each side's sessions, then the swings within them,
 * and both sides' swings alone where either has a single session.
 * @param from values in any unit, with their sessions; nulls are left out
 * @param to values in the same unit
 * @example meanDifference({ values: [1, 2, 3, 4, 5] }, { values: [3, 4, 5, 6, 7] }).value // 2
 */
export function meanDifference(from: Sample, to: Sample, seed: number = defaultSeed): Difference {
  return difference(from, to, mean, seed);
}

/**
 * The difference of two medians, in the same way: a misread or two move it little.
 * @example medianDifference({ values: [1, 2, 30] }, { values: [2, 4, 6] }).value // 2
 */
export function medianDifference(from: Sample, to: Sample, seed: number = defaultSeed): Difference {
  return difference(from, to, quantile(0.5), seed);
}

/**
 * The difference of two standard deviations, in the same way.
 * @example spreadDifference({ values: [1, 2, 3] }, { values: [2, 4, 6] }).value // 1
 */
export function spreadDifference(from: Sample, to: Sample, seed: number = defaultSeed): Difference {
  return difference(from, to, spread, seed);
}

/**
 * The difference of a quantile, in the same way; an end of a distribution asks for more swings than its middle.
 * @param p 0 to 1
 * @param fewest no interval with fewer values than this on a side
 * @example quantileDifference({ values: [1, 2, 3] }, { values: [2, 4, 6] }, 0.5).value // 2
 */
export function quantileDifference(
  from: Sample,
  to: Sample,
  p: number,
  fewest: number = fewestForInterval,
  seed: number = defaultSeed,
): Difference {
  return difference(from, to, quantile(p), seed, fewest);
}

function difference(
  from: Sample,
  to: Sample,
  statistic: Statistic,
  seed: number,
  fewest: number = statistic === spread ? fewestForSpread : fewestForInterval,
): Difference {
  const ofSpread = statistic === spread;
  const [before, after] = [known(from), known(to)];
  const sides = [before, after].map(({ values }) => ({
    n: values.length,
    value: values.length < (ofSpread ? 2 : 1) ? null : statistic(Float64Array.from(values), values.length),
  })) as [Difference["from"], Difference["to"]];
  const [a, b] = sides;
  const open = { from: a, to: b, low: null, high: null, se: null, freedom: null, resampled: null };
  if (a.value === null || b.value === null)
    return { ...open, value: null, reason: `too few to compare: ${a.n} and ${b.n}` };
  const value = b.value - a.value;
  if (Math.min(a.n, b.n) < fewest)
    return { ...open, value, reason: `too few for an interval: ${a.n} and ${b.n}` };
  let samples = [group(before.values, before.sessions), group(after.values, after.sessions)];
  const resampled = resampledOf(samples);
  if (resampled === "swings") samples = [group(before.values), group(after.values)];
  const found =
    ofSpread && resampled === "swings"
      ? leaning(differenceReplicates(samples[0]!, samples[1]!, statistic, seed), Math.min(a.n, b.n), value)
      : intervalsOf(samples, figureOf(statistic), [value], samples.map(ownVariance), seed)[0]!;
  // Values that are all one on each side leave nothing to draw differently.
  const { low, high, se, freedom } = found ?? { low: value, high: value, se: 0, freedom: null };
  return { from: a, to: b, value, low, high, se, freedom, resampled, reason: null };
}

/** The bias-corrected percentiles: a spread's replicates lean to the small side. */
function leaning(drawn: Float64Array, n: number, value: number): Uncertainty | null {
  const se = spread(drawn, drawn.length);
  if (!(se > 0)) return null;
  const [low, high] = percentileInterval(drawn, n, value);
  return { low, high, se, freedom: n - 1 };
}

/** The variance of a side's mean, were its swings independent. */
const ownVariance = ({ values }: { values: Float64Array }): number =>
  spread(values, values.length) ** 2 / values.length;

/** The values there are, each with its session's name. */
function known(sample: Sample): { values: number[]; sessions: (string | null)[] } {
  const values: number[] = [];
  const sessions: (string | null)[] = [];
  sample.values.forEach((value, i) => {
    if (value === null || !Number.isFinite(value)) return;
    values.push(value);
    sessions.push(sample.sessions?.[i] ?? null);
  });
  return { values, sessions };
}

/**
 * The difference of two shares. Its interval is the wider, end by end, of Newcombe's from the two Wilson ones, which
 * has a width where a share is none or all, and of the one that counts sessions, where each side has several.
 * Source: Newcombe, Stat. Med. 17, 1998, 873 (method 10).
 * @param from hits as ones and zeros, with their sessions
 * @example shareDifference({ values: [1, 1, 0, 0] }, { values: [1, 0, 0, 0] }).value // -0.25
 * @example noClearChange(shareDifference({ values: [] }, { values: [1] })) // true
 */
export function shareDifference(from: Sample, to: Sample): Difference {
  const [a, b] = [known(from), known(to)];
  const ofSwings = newcombe(countOf(a.values), countOf(b.values));
  const samples = [group(a.values, a.sessions), group(b.values, b.sessions)];
  if (ofSwings.value === null || resampledOf(samples) === "swings") return ofSwings;
  const found = meansUncertainty(samples);
  if (found === null) return ofSwings;
  const { value } = ofSwings;
  const half = t95(found.freedom) * found.se;
  return {
    ...ofSwings,
    low: Math.max(-1, Math.min(ofSwings.low!, value - half)),
    high: Math.min(1, Math.max(ofSwings.high!, value + half)),
    ...found,
    resampled: "sessions",
  };
}

const countOf = (values: readonly number[]): Share =>
  share(
    values.reduce((sum, v) => sum + v, 0),
    values.length,
  );

/** Newcombe's interval. It knows nothing of sessions. */
function newcombe(from: Share, to: Share): Difference {
  const sides = { from: { n: from.n, value: from.share }, to: { n: to.n, value: to.share } };
  const open = { ...sides, se: null, freedom: null };
  if (from.share === null || to.share === null)
    return {
      ...open,
      value: null,
      low: null,
      high: null,
      resampled: null,
      reason: `too few to compare: ${from.n} and ${to.n}`,
    };
  const value = to.share - from.share;
  return {
    ...open,
    value,
    low: value - Math.hypot(to.share - to.low!, from.high! - from.share),
    high: value + Math.hypot(to.high! - to.share, from.share - from.low!),
    resampled: "swings",
    reason: null,
  };
}

/**
 * Whether a difference could be chance: its interval spans zero, or there is none.
 * @example noClearChange({ low: -1, high: 3 }) // true
 * @example noClearChange({ low: 2, high: 5 }) // false
 */
export function noClearChange(difference: Pick<Difference, "low" | "high">): boolean {
  const { low, high } = difference;
  return low === null || high === null || (low <= 0 && high >= 0);
}
