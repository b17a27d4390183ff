/**
 * Mixtures of Student's t: what is known of a figure where its own spread is uncertain too. Each component stands for
 * one size of that spread, weighted by how well it fits.
 */
import { gammaln } from "simple-statistics";
import { fQuantile, t95, tTail } from "./beta.ts";
import { confidence } from "./normal.ts";

/** One component. */
export interface Component {
  /** Its share; those of a mixture add up to 1. */
  readonly weight: number;
  readonly mean: number;
  /** Squared scale of its t. */
  readonly variance: number;
  /** Degrees of freedom; null: a normal distribution. */
  readonly freedom: number | null;
}

/** Steps of the search for a quantile: each halves what is left at worst. */
const steps = 60;

/**
 * Weights, known up to a factor by their logarithms, as shares of 1.
 * @example sharesOfLogs([0, 0]) // [0.5, 0.5]
 */
export function sharesOfLogs(logs: readonly number[]): number[] {
  const most = logs.reduce((a, b) => Math.max(a, b), -Infinity);
  const weights = logs.map((log) => Math.exp(log - most));
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / total);
}

/** How likely a mixture lies below a value. */
function below(components: readonly Component[]): (value: number) => number {
  const ready = components.map((c) => ({
    ...c,
    scale: Math.sqrt(c.variance),
    logBeta:
      c.freedom === null ? undefined : gammaln(c.freedom / 2) + gammaln(0.5) - gammaln((c.freedom + 1) / 2),
  }));
  return (value) =>
    ready.reduce((sum, { weight, mean, scale, freedom, logBeta }) => {
      if (scale === 0) return sum + weight * (value > mean ? 1 : value === mean ? 0.5 : 0);
      const z = (value - mean) / scale;
      const tail = tTail(z, freedom, logBeta) / 2;
      return sum + weight * (z > 0 ? 1 - tail : tail);
    }, 0);
}

/**
 * A quantile of a mixture.
 * @param p 0 < p < 1
 * @example mixtureQuantile([{ weight: 1, mean: 2, variance: 1, freedom: null }], 0.975) // 3.960
 */
export function mixtureQuantile(components: readonly Component[], p: number): number {
  const { mean, sd } = momentsOf(components);
  if (sd === 0) return mean;
  const probability = below(components);
  let [low, high] = [mean - sd, mean + sd];
  for (let reach = sd; probability(low) > p; low -= reach *= 2);
  for (let reach = sd; probability(high) < p; high += reach *= 2);
  let [atLow, atHigh] = [probability(low) - p, probability(high) - p];
  // The secant's step where it stays inside, its kept end's weight halved when it is kept twice (Illinois).
  for (let step = 0; step < steps && high - low > 1e-9 * sd; step++) {
    const middle = (low * atHigh - high * atLow) / (atHigh - atLow);
    const at = probability(middle) - p;
    if (Math.abs(at) < 1e-4 * Math.min(p, 1 - p)) return middle;
    if (at < 0) {
      [low, atLow] = [middle, at];
      atHigh /= 2;
    } else {
      [high, atHigh] = [middle, at];
      atLow /= 2;
    }
  }
  return (low + high) / 2;
}

/** Mean, and root of the mean squared scale with what the components' means differ by. */
function momentsOf(components: readonly Component[]): { mean: number; sd: number } {
  const sum = (of: (c: Component) => number): number =>
    components.reduce((total, c) => total + c.weight * of(c), 0);
  const mean = sum((c) => c.mean);
  return { mean, sd: Math.sqrt(sum((c) => c.variance + (c.mean - mean) ** 2)) };
}

/** The end of an interval, and one far out: of a Student's t they tell the degrees of freedom. */
const ends = [(1 + confidence) / 2, 0.9975] as const;

/**
 * The Student's t whose 95 % and 99.5 % intervals are those of a mixture about one mean: its scale is what is given
 * out as a standard error.
 * @example asStudent([{ weight: 1, mean: 0, variance: 4, freedom: 5 }]) // { se: 2.0, freedom: 5.0 }
 */
export function asStudent(components: readonly Component[]): { se: number; freedom: number } {
  const centred = components.filter((c) => c.variance > 0).map((c) => ({ ...c, mean: 0 }));
  if (centred.length === 0) return { se: 0, freedom: mostFreedom };
  const probability = below(centred);
  const [near, far] = ends.map((p) => reach(probability, 1 - p, momentsOf(centred).sd));
  const freedom = freedomFor(far! / near!);
  return { se: near! / t95(freedom), freedom };
}

/**
 * How far out a tail lies of something about 0. The tail's logarithm is nearly straight over the distance's, and the
 * secant there comes within a thousandth in three or four steps.
 */
function reach(probability: (value: number) => number, tail: number, sd: number): number {
  const excess = (log: number): number => Math.log(1 - probability(Math.exp(log))) - Math.log(tail);
  let [before, at] = [Math.log(1.5 * sd), Math.log(2.5 * sd)];
  let [wasOff, off] = [excess(before), excess(at)];
  for (let step = 0; step < steps && Math.abs(off) > 1e-4 && off !== wasOff; step++) {
    const next = at - Math.max(-1, Math.min(1, (off * (at - before)) / (off - wasOff)));
    [before, wasOff] = [at, off];
    [at, off] = [next, excess(next)];
  }
  return Math.exp(at);
}

const mostFreedom = 1000;

/** Degrees of freedom by how much farther the far end lies than the near one; the fewer, the farther. */
function freedomFor(ratio: number): number {
  let [few, many] = [0, table.length - 1];
  if (ratio >= table[few]!.ratio) return table[few]!.freedom;
  if (ratio <= table[many]!.ratio) return table[many]!.freedom;
  while (many - few > 1) {
    const middle = (few + many) >> 1;
    if (table[middle]!.ratio > ratio) few = middle;
    else many = middle;
  }
  const [a, b] = [table[few]!, table[many]!];
  const along = (a.ratio - ratio) / (a.ratio - b.ratio);
  return Math.exp(Math.log(a.freedom) + along * Math.log(b.freedom / a.freedom));
}

const table = Array.from({ length: 70 }, (_, i) => {
  const freedom = Math.min(mostFreedom, 1.105 ** i);
  return { freedom, ratio: Math.sqrt(fQuantile(2 * ends[1] - 1, 1, freedom)) / t95(freedom) };
});
