/**
 * The bootstrap: how far a figure would move had other swings of the same kind been hit. Seeded, so that the
 * same rows always give the same interval.
 */
import { t95 } from "./beta.ts";
import { eachResample, type Grouped, type Places } from "./draws.ts";
import { normalProbability, normalQuantile } from "./normal.ts";
import { defaultSeed } from "./random.ts";

export type { Grouped } from "./draws.ts";

/** A figure of values picked by their places: those at places[from] up to, not including, places[to]. */
export type Picked = (places: Places, from: number, to: number) => number;

/** A figure of the first n values. It may reorder them; it must not keep them. */
export interface Statistic {
  (values: Float64Array, n: number): number;
  /** The same figure of values picked from a sample, made ready once for many resamples. */
  readonly of: (sample: Float64Array) => Picked;
}

/** How many resamples stand behind an interval. */
export const resamples = 2000;
/** With fewer values than this there is no interval: resampling a handful only repeats the handful. */
export const fewestForInterval = 5;
/** A spread asks for more: on 5 values of a bell curve its interval covers the truth 2 times in 3, on 10 about 6 in 7. */
export const fewestForSpread = 10;

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
  const figure = statistic.of(sample.values);
  const drawn = new Float64Array(times);
  eachResample([sample], seed, times, (places, bounds, i) => {
    drawn[i] = figure(places, bounds[0]!, bounds[1]!);
  });
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
  const [before, after] = [statistic.of(from.values), statistic.of(to.values)];
  const drawn = new Float64Array(times);
  eachResample([from, to], seed, times, (places, bounds, i) => {
    drawn[i] = after(places, bounds[1]!, bounds[2]!) - before(places, bounds[0]!, bounds[1]!);
  });
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
  const out = t95(n - 1) * Math.sqrt(n / (n - 1));
  const lean = observed === undefined ? 0 : 2 * leanOf(values, observed);
  const [low, high] = quantilesOf(values, [normalProbability(lean - out), normalProbability(lean + out)]);
  return [low!, high!];
}

/** Where the figure itself lies among its resamples, as a standard normal quantile; ties count half. */
function leanOf(drawn: Float64Array, observed: number): number {
  let below = 0.5;
  for (const value of drawn) below += value < observed ? 1 : value === observed ? 0.5 : 0;
  return normalQuantile(below / (drawn.length + 1));
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

/** So many bins leave a few values in each. */
const bins = 1024;

/**
 * Several quantiles of values in any order (Hyndman & Fan's type 7): values are counted into even bins, and only
 * the bins that a quantile lies in are sorted.
 * @param ps each 0 to 1
 * @example quantilesOf(Float64Array.of(4, 1, 2), [0.5, 0.75]) // [2, 3.0]
 */
export function quantilesOf(values: Float64Array, ps: readonly number[]): number[] {
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  const width = bins / (most - least);
  // All alike, or too near or too far apart to be told by a bin's number.
  if (!(width > 0 && width < Infinity)) {
    const sorted = values.slice().sort();
    return ps.map((p) => quantileOf(sorted, p));
  }
  const counts = new Int32Array(bins + 1);
  for (let i = 0; i < values.length; i++) counts[((values[i]! - least) * width) | 0]!++;
  const at = (place: number): number => {
    let bin = 0;
    let before = 0;
    while (before + counts[bin]! <= place) before += counts[bin++]!;
    const inBin = new Float64Array(counts[bin]!);
    for (let i = 0, k = 0; k < inBin.length; i++)
      if ((((values[i]! - least) * width) | 0) === bin) inBin[k++] = values[i]!;
    return inBin.sort()[place - before]!;
  };
  return ps.map((p) => between(p * (values.length - 1), at, values.length));
}

/** The value at a place between two places. */
function between(at: number, value: (place: number) => number, n: number): number {
  const below = Math.floor(at);
  const low = value(below);
  return below === at || below + 1 >= n ? low : low + (at - below) * (value(below + 1) - low);
}

/**
 * Arithmetic mean.
 * @example mean(Float64Array.of(1, 2, 6), 3) // 3
 */
export const mean: Statistic = Object.assign(
  (values: Float64Array, n: number): number => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += values[i]!;
    return sum / n;
  },
  {
    of:
      (sample: Float64Array): Picked =>
      (places, from, to) =>
        meanOf(sample, places, from, to),
  },
);

/** Four sums side by side: one alone waits for itself at every value. */
function meanOf(sample: Float64Array, places: Places, from: number, to: number): number {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let i = from;
  for (; i + 3 < to; i += 4) {
    a += sample[places[i]!]!;
    b += sample[places[i + 1]!]!;
    c += sample[places[i + 2]!]!;
    d += sample[places[i + 3]!]!;
  }
  for (; i < to; i++) a += sample[places[i]!]!;
  return (a + b + c + d) / (to - from);
}

/**
 * Standard deviation of a sample, n − 1 below the line, in two passes.
 * @example spread(Float64Array.of(1, 2, 3), 3) // 1
 */
export const spread: Statistic = Object.assign(
  (values: Float64Array, n: number): number => {
    const middle = mean(values, n);
    let sum = 0;
    for (let i = 0; i < n; i++) sum += (values[i]! - middle) ** 2;
    return Math.sqrt(sum / (n - 1));
  },
  {
    of:
      (sample: Float64Array): Picked =>
      (places, from, to) => {
        const middle = meanOf(sample, places, from, to);
        let sum = 0;
        for (let i = from; i < to; i++) {
          const apart = sample[places[i]!]! - middle;
          sum += apart * apart;
        }
        return Math.sqrt(sum / (to - from - 1));
      },
  },
);

/**
 * The quantile p as a statistic (Hyndman & Fan's type 7). A resample's is found by counting how often each of the
 * sample's values was drawn, in their order: it needs no sort of its own.
 * @param p 0 to 1
 * @example quantile(0.5)(Float64Array.of(3, 1, 2, 10), 4) // 2.5
 */
export function quantile(p: number): Statistic {
  return Object.assign(
    (values: Float64Array, n: number): number => quantileOf(values.slice(0, n).sort(), p),
    { of: (sample: Float64Array): Picked => pickedQuantile(sample, p) },
  );
}

function pickedQuantile(sample: Float64Array, p: number): Picked {
  const order = Int32Array.from(sample, (_, i) => i).sort((a, b) => sample[a]! - sample[b]!);
  const sorted = Float64Array.from(order, (i) => sample[i]!);
  const counts = new Int32Array(sample.length);
  return (places, from, to) => {
    counts.fill(0);
    for (let i = from; i < to; i++) counts[places[i]!]!++;
    const n = to - from;
    const at = p * (n - 1);
    const below = Math.floor(at);
    // From the top, where most that is asked for lies: first the value next above, then the one at the place.
    let r = sample.length;
    let above = 0;
    while (above < n - below - 1) above += counts[order[--r]!]!;
    const next = r < sample.length ? sorted[r]! : NaN;
    while (above < n - below) above += counts[order[--r]!]!;
    const value = sorted[r]!;
    return below === at ? value : value + (at - below) * (next - value);
  };
}
