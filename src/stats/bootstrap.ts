/**
 * The bootstrap: how far a figure would move had other swings of the same kind been hit. Seeded, so that the
 * same rows always give the same interval.
 */
import { quickselect } from "d3";
import { t95 } from "./beta.ts";
import { normalProbability, normalQuantile } from "./normal.ts";
import { defaultSeed, randomFrom } from "./random.ts";

/** A figure of the first n values. It may reorder them; it must not keep them. */
export type Statistic = (values: Float64Array, n: number) => number;

/** How many resamples stand behind an interval. */
export const resamples = 2000;
/** With fewer values than this there is no interval: resampling a handful only repeats the handful. */
export const fewestForInterval = 5;
/** A spread asks for more: on 5 values of a bell curve its interval holds the truth 2 times in 3, on 10 about 6 in 7. */
export const fewestForSpread = 10;

/** Values laid out group by group: group k is values[starts[k]] to values[starts[k + 1]], the end left out. */
export interface Grouped {
  readonly values: Float64Array;
  readonly starts: Int32Array;
  readonly groups: number;
}

/**
 * Values in groups (swings in sessions). Values without a group's name make one group of their own.
 * @param values finite numbers
 * @param names the group of each value; none: one group
 * @example group([1, 2, 3], ["a", "b", "a"]).groups // 2
 */
export function group(values: readonly number[], names?: readonly (string | null)[]): Grouped {
  const members = new Map<string | null, number[]>();
  values.forEach((value, i) => {
    const name = names?.[i] ?? null;
    const list = members.get(name);
    if (list) list.push(value);
    else members.set(name, [value]);
  });
  const lists = [...members.values()];
  const starts = new Int32Array(lists.length + 1);
  lists.forEach((list, k) => (starts[k + 1] = starts[k]! + list.length));
  return { values: Float64Array.from(lists.flat()), starts, groups: lists.length };
}

/**
 * Room for one resample of a sample: groups drawn with replacement may all be the largest one.
 * @example roomFor(group([1, 2, 3], ["a", "b", "a"])).length // 4
 */
export function roomFor(sample: Grouped): Float64Array {
  let largest = 0;
  for (let k = 0; k < sample.groups; k++)
    largest = Math.max(largest, sample.starts[k + 1]! - sample.starts[k]!);
  return new Float64Array(Math.max(1, largest * sample.groups));
}

/**
 * Draws one resample: groups with replacement, then each drawn group's values with replacement. One group
 * alone is the ordinary bootstrap.
 * @param random uniform on 0 to 1
 * @returns how many values were put into `into`
 * @example resample(group([5, 5]), new Float64Array(2), Math.random) // 2
 */
export function resample(sample: Grouped, into: Float64Array, random: () => number): number {
  const { values, starts, groups } = sample;
  let n = 0;
  for (let k = 0; k < groups; k++) {
    const drawn = groups === 1 ? 0 : (random() * groups) | 0;
    const start = starts[drawn]!;
    const size = starts[drawn + 1]! - start;
    for (let i = 0; i < size; i++) into[n++] = values[start + ((random() * size) | 0)]!;
  }
  return n;
}

/**
 * A figure's value on each of many resamples, in the order drawn.
 * @param seed the same seed gives the same replicates
 * @example replicates(group([3, 3, 3]), mean, 1, 2) // [3, 3]
 */
export function replicates(
  sample: Grouped,
  statistic: Statistic,
  seed: number = defaultSeed,
  times: number = resamples,
): Float64Array {
  const random = randomFrom(seed);
  const room = roomFor(sample);
  const drawn = new Float64Array(times);
  for (let i = 0; i < times; i++) drawn[i] = statistic(room, resample(sample, room, random));
  return drawn;
}

/**
 * The difference of a figure between two samples (to − from) on each of many resamples of both.
 * @example differenceReplicates(group([1, 1]), group([4, 4]), mean, 1, 2) // [3, 3]
 */
export function differenceReplicates(
  from: Grouped,
  to: Grouped,
  statistic: Statistic,
  seed: number = defaultSeed,
  times: number = resamples,
): Float64Array {
  const random = randomFrom(seed);
  const [roomFrom, roomTo] = [roomFor(from), roomFor(to)];
  const drawn = new Float64Array(times);
  for (let i = 0; i < times; i++) {
    const before = statistic(roomFrom, resample(from, roomFrom, random));
    drawn[i] = statistic(roomTo, resample(to, roomTo, random)) - before;
  }
  return drawn;
}

/**
 * The 95 % interval that replicates give: their percentiles, taken a little further out for few values so
 * that the interval of a mean is as wide as Student's (Hesterberg, Am. Stat. 69, 2015, 371, "expanded
 * percentile").
 * @param values the replicates, all finite
 * @param n how many values a resample holds
 * @param observed the figure itself, for one whose resamples lean to a side as a spread's do: the percentiles
 *   are moved by the lean (Efron & Tibshirani, 1993, chapter 14, "bias-corrected")
 * @example percentileInterval(Float64Array.from({ length: 1001 }, (_, i) => i), 1e9) // [25, 975]
 */
export function percentileInterval(values: Float64Array, n: number, observed?: number): [number, number] {
  const sorted = values.slice().sort();
  const out = t95(n - 1) * Math.sqrt(n / (n - 1));
  const lean = observed === undefined ? 0 : 2 * leanOf(sorted, observed);
  return [
    quantileOf(sorted, normalProbability(lean - out)),
    quantileOf(sorted, normalProbability(lean + out)),
  ];
}

/** Where the figure itself lies among its resamples, as a standard normal quantile; ties count half. */
function leanOf(sorted: Float64Array, observed: number): number {
  let below = 0.5;
  for (const value of sorted) below += value < observed ? 1 : value === observed ? 0.5 : 0;
  return normalQuantile(below / (sorted.length + 1));
}

/**
 * Linear interpolation between order statistics (Hyndman & Fan's type 7) of sorted values.
 * @param p 0 to 1
 * @example quantileOf(Float64Array.of(1, 2, 4), 0.75) // 3.0
 */
export function quantileOf(sorted: Float64Array, p: number): number {
  const at = p * (sorted.length - 1);
  const below = Math.floor(at);
  const value = sorted[below]!;
  return value + (at - below) * ((sorted[below + 1] ?? value) - value);
}

/**
 * Arithmetic mean.
 * @example mean(Float64Array.of(1, 2, 6), 3) // 3
 */
export function mean(values: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]!;
  return sum / n;
}

/**
 * Standard deviation of a sample, n − 1 below the line, in two passes.
 * @example spread(Float64Array.of(1, 2, 3), 3) // 1
 */
export function spread(values: Float64Array, n: number): number {
  const middle = mean(values, n);
  let sum = 0;
  for (let i = 0; i < n; i++) sum += (values[i]! - middle) ** 2;
  return Math.sqrt(sum / (n - 1));
}

/**
 * The quantile p as a statistic (Hyndman & Fan's type 7), by selection: a resample needs no whole sort.
 * @param p 0 to 1
 * @example quantile(0.5)(Float64Array.of(3, 1, 2, 10), 4) // 2.5
 */
export function quantile(p: number): Statistic {
  return (values, n) => {
    const at = p * (n - 1);
    const below = Math.floor(at);
    // d3 types it for plain arrays; it swaps elements by index and no more.
    quickselect(values as unknown as number[], below, 0, n - 1);
    const value = values[below]!;
    if (below === at || below + 1 >= n) return value;
    let next = Infinity;
    for (let i = below + 1; i < n; i++) next = Math.min(next, values[i]!);
    return value + (at - below) * (next - value);
  };
}
