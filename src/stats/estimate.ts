/** One figure of a list of values, with its count and its doubt. */
import {
  fewestForInterval,
  fewestForSpread,
  group,
  mean,
  percentileInterval,
  quantile,
  replicates,
  spread,
  type Statistic,
} from "./bootstrap.ts";
import { defaultSeed } from "./random.ts";

/** A figure with its 95 % interval; null where there are too few values, and `reason` says so. */
export interface Estimate {
  readonly n: number;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly reason: string | null;
}

type Values = readonly (number | null)[];

const finite = (values: Values): number[] =>
  values.filter((v): v is number => v !== null && Number.isFinite(v));

/**
 * The mean, with its bootstrap interval. Nulls are left out.
 * @param values in any unit; the estimate is in the same
 * @example meanEstimate([88, 90, 92, 94, 96]).value // 92
 * @example meanEstimate([]) // { n: 0, value: null, low: null, high: null, reason: "no values" }
 */
export function meanEstimate(values: Values, seed: number = defaultSeed): Estimate {
  return estimate(finite(values), mean, seed);
}

/**
 * The standard deviation (n − 1), with its bootstrap interval. Nulls are left out.
 * @example spreadEstimate([1, 2, 3, 4, 5]).value // 1.5811
 * @example spreadEstimate([7]).reason // "one value has no spread"
 */
export function spreadEstimate(values: Values, seed: number = defaultSeed): Estimate {
  return estimate(finite(values), spread, seed);
}

/**
 * A quantile, with its bootstrap interval. Nulls are left out.
 * @param p 0 to 1: 0.5 is the median
 * @throws RangeError when p lies outside
 * @example quantileEstimate([1, 2, 3, 4, 100], 0.5).value // 3
 */
export function quantileEstimate(values: Values, p: number, seed: number = defaultSeed): Estimate {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a quantile lies between 0 and 1, not at ${p}`);
  return estimate(finite(values), quantile(p), seed);
}

function estimate(values: number[], statistic: Statistic, seed: number): Estimate {
  const n = values.length;
  const ofSpread = statistic === spread;
  const none = { n, low: null, high: null };
  if (n === 0) return { ...none, value: null, reason: "no values" };
  if (n === 1 && ofSpread) return { ...none, value: null, reason: "one value has no spread" };
  const value = statistic(Float64Array.from(values), n);
  if (n < (ofSpread ? fewestForSpread : fewestForInterval)) return { ...none, value, reason: tooFew(n) };
  const drawn = replicates(group(values), statistic, seed);
  const [low, high] = percentileInterval(drawn, n, ofSpread ? value : undefined);
  return { n, value, low, high, reason: null };
}

const tooFew = (n: number): string => `${n} value${n === 1 ? " gives" : "s give"} no interval`;
