/** One figure of a list of values, with its count and its uncertainty. */
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
import { figureOf, intervalsOf, resampledOf, type Resampled } from "./twoStage.ts";

/** A figure with its 95 % interval; null where there are too few values, and `reason` says so. */
export interface Estimate {
  readonly n: number;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Why there is no value or no interval. */
  readonly reason: string | null;
}

/** An estimate from swings, with what its interval rests on. */
export interface SwingsEstimate extends Estimate {
  /** The standard error behind the interval, and its degrees of freedom; null where there is none. */
  readonly se: number | null;
  readonly freedom: number | null;
  /** What the interval knows of: sessions, or swings alone where they are all of one. Null without an interval. */
  readonly resampled: Resampled | null;
}

type Values = readonly (number | null)[];

/** The session of each value; none, or no name: all are of one. */
type Sessions = readonly (string | null)[] | undefined;

/**
 * The mean, with its bootstrap interval. Nulls are left out. Over several sessions the interval is that of the hitter on
 * any day (`twoStage.ts`), over one that of its swings.
 * @param values in any unit; the estimate is in the same
 * @param sessions the session of each value, as long as they
 * @example meanEstimate([88, 90, 92, 94, 96]).value // 92
 * @example meanEstimate([88, 90, 92, 94, 96], ["a", "a", "a", "b", "b"]).resampled // "sessions"
 * @example meanEstimate([]).reason // "no values"
 */
export function meanEstimate(
  values: Values,
  sessions?: Sessions,
  seed: number = defaultSeed,
): SwingsEstimate {
  return estimate(values, sessions, mean, seed);
}

/**
 * The standard deviation (n − 1), with its bootstrap interval. Nulls are left out.
 * @example spreadEstimate([1, 2, 3, 4, 5]).value // 1.5811
 * @example spreadEstimate([7]).reason // "one value has no spread"
 */
export function spreadEstimate(
  values: Values,
  sessions?: Sessions,
  seed: number = defaultSeed,
): SwingsEstimate {
  return estimate(values, sessions, spread, seed);
}

/**
 * A quantile, with its bootstrap interval. Nulls are left out.
 * @param p 0 to 1: 0.5 is the median
 * @param fewest no interval with fewer values than this
 * @throws RangeError when p lies outside
 * @example quantileEstimate([1, 2, 3, 4, 100], 0.5).value // 3
 */
export function quantileEstimate(
  values: Values,
  p: number,
  sessions?: Sessions,
  fewest: number = fewestForInterval,
  seed: number = defaultSeed,
): SwingsEstimate {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a quantile lies between 0 and 1, not at ${p}`);
  return estimate(values, sessions, quantile(p), seed, fewest);
}

function estimate(
  all: Values,
  sessions: Sessions,
  statistic: Statistic,
  seed: number,
  fewest: number = statistic === spread ? fewestForSpread : fewestForInterval,
): SwingsEstimate {
  const values: number[] = [];
  const names: (string | null)[] = [];
  all.forEach((value, i) => {
    if (value === null || !Number.isFinite(value)) return;
    values.push(value);
    names.push(sessions?.[i] ?? null);
  });
  const n = values.length;
  const ofSpread = statistic === spread;
  const none = { n, low: null, high: null, se: null, freedom: null, resampled: null };
  if (n === 0) return { ...none, value: null, reason: "no values" };
  if (n === 1 && ofSpread) return { ...none, value: null, reason: "one value has no spread" };
  const value = statistic(Float64Array.from(values), n);
  if (n < fewest) return { ...none, value, reason: tooFew(n) };
  const grouped = group(values, names);
  const resampled = resampledOf([grouped]);
  if (resampled === "sessions") {
    const [found] = intervalsOf([grouped], figureOf(statistic), [value], [1], seed);
    const { low, high, se, freedom } = found ?? { low: value, high: value, se: 0, freedom: n - 1 };
    const ends = ofSpread && value > 0 ? asFactors(value, low, high) : [low, high];
    return { n, value, low: ends[0]!, high: ends[1]!, se, freedom, resampled, reason: null };
  }
  const drawn = replicates(group(values), statistic, seed);
  const [low, high] = percentileInterval(drawn, n, ofSpread ? value : undefined);
  const se = spread(drawn, drawn.length) * Math.sqrt(n / (n - 1));
  return { n, value, low, high, se, freedom: n - 1, resampled, reason: null };
}

/** A spread is uncertain by a factor, and never below 0: its interval on the scale of its logarithm. */
function asFactors(value: number, low: number, high: number): [number, number] {
  return [value * Math.exp(low / value - 1), value * Math.exp(high / value - 1)];
}

const tooFew = (n: number): string => `${n} value${n === 1 ? " gives" : "s give"} no interval`;
