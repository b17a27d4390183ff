/**
 * How much a hitter's days differ, as far as a few sessions can tell, and what that does to a figure over all their
 * swings.
 *
 * Model, of one side: session j of n_j swings has the mean μ + day_j + noise, days of variance ρ²σ², swings of variance
 * σ². The figure is that of the swings as they are, Σ(n_j ÷ n) × session j, and what it stands for is μ: the hitter on
 * any day, not on these. Swings and sessions weigh differently in it only where sessions are of unequal size; both
 * aim at the same μ as long as the size of a session has nothing to do with how the day goes, and the plain mean is the
 * one that a reader can check. What unequal sizes cost is in its variance, σ²(1/n + ρ²·Σ(n_j/n)²): one long session
 * among short ones leaves little more than one day.
 *
 * ρ is not known, and of two or three sessions it can't be: its uncertainty is averaged over, on a grid, by how well
 * each ρ fits the sessions, under a half-Cauchy prior (Gelman, Bayesian Analysis 1, 2006, 515, who takes it where
 * groups are few). σ² has the usual prior 1/σ², so that given ρ the figure is Student's t.
 */
import { asStudent, sharesOfLogs, type Component } from "./mixture.ts";

/**
 * The middle of the prior on ρ: days that differ by a quarter of what swings do, about 2 mph of exit velocity.
 * A judgement, and its weight is gone by some eight sessions.
 */
const usualDays = 0.25;

/** ρ on a grid: none, then by three tenths more at each step; and the width that each stands for. */
const grid = (() => {
  const at = [0, ...Array.from({ length: 23 }, (_, i) => 0.03 * 1.3 ** i)];
  const edges = at.map((v, i) => (i === 0 ? 0 : (at[i - 1]! + v) / 2));
  return at.map((ratio, i) => {
    const width = (edges[i + 1] ?? ratio * 1.15) - edges[i]!;
    return { ratio, prior: Math.log(width / (1 + (ratio / usualDays) ** 2)) };
  });
})();

/** What the sessions of one side show of a figure. */
export interface Sessions {
  /** Swings of each session. */
  readonly sizes: readonly number[];
  /** Each session's own figure less that of all. */
  readonly apart: readonly number[];
  /** The variance of the figure of all, were days alike, and the degrees of freedom it is known with. */
  readonly within: number;
  readonly freedom: number;
}

/** A component of a t. */
type Known = Component & { readonly freedom: number };

/** Components that matter less are left out, or taken together with their neighbours. */
const leastWeight = 1e-4;
const mostComponents = 8;

/** What a variance is in parts: swings' variance so many times, and days' so many times. */
interface Weights {
  readonly swings: number;
  readonly days: number;
}

/** Of the figure of all the sessions' swings. */
function ofAll({ sizes }: Sessions): Weights {
  const n = sizes.reduce((a, b) => a + b, 0);
  return { swings: 1 / n, days: sizes.reduce((sum, size) => sum + (size / n) ** 2, 0) };
}

/** What is known of a distance of so many swings' and days' variances, as a mixture about 0. */
function dayUncertainty({ sizes, apart, within, freedom }: Sessions, weights: Weights): Known[] {
  const n = sizes.reduce((a, b) => a + b, 0);
  const all = freedom + sizes.length - 1;
  const swing = within * n;
  const found = grid.map(({ ratio, prior }) => {
    let [weight, sum, logs] = [0, 0, 0];
    const variances = sizes.map((size) => ratio ** 2 + 1 / size);
    variances.forEach((v, j) => {
      weight += 1 / v;
      sum += apart[j]! / v;
      logs += Math.log(v);
    });
    const middle = sum / weight;
    const residual = variances.reduce((total, v, j) => total + (apart[j]! - middle) ** 2 / v, 0);
    const scale = freedom * swing + residual;
    return {
      log: prior - (logs + Math.log(weight) + all * Math.log(scale)) / 2,
      variance: (scale / all) * (weights.swings + ratio ** 2 * weights.days),
    };
  });
  const shares = sharesOfLogs(found.map(({ log }) => log));
  return thinned(
    found.map(({ variance }, i) => ({ weight: shares[i]!, mean: 0, variance, freedom: all })),
    leastWeight,
    mostComponents,
  );
}

/** Neighbours taken together, in the order given, till each weighs enough; their weights still add up to 1. */
function thinned(components: readonly Known[], least: number, most: number): Known[] {
  const kept = components.filter(({ weight }) => weight >= least);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  const thin: Known[] = [];
  let open: Known | null = null;
  for (const c of kept) {
    const weight = c.weight / total;
    open =
      open === null
        ? { ...c, weight }
        : {
            ...c,
            weight: open.weight + weight,
            variance: (open.weight * open.variance + weight * c.variance) / (open.weight + weight),
            freedom: (open.weight * open.freedom + weight * c.freedom) / (open.weight + weight),
          };
    if (open.weight * most >= 1) {
      thin.push(open);
      open = null;
    }
  }
  if (open !== null) thin.push(open);
  return thin;
}

/**
 * The standard error of a figure over several sessions, or of the difference of one between two sides, and its degrees
 * of freedom: every interval over sessions comes from here.
 * @param sides the sessions of one side, or of each of two
 * @example studentOf([{ sizes: [10, 10], apart: [0.5, -0.5], within: 1, freedom: 18 }]) // { se: 0.87, freedom: 2.3 }
 */
export function studentOf(sides: readonly Sessions[]): { se: number; freedom: number } {
  return asStudent(sides.map((side) => dayUncertainty(side, ofAll(side))).reduce(summed));
}

/**
 * The same of a change from one session to another, where earlier sessions of the same work tell how much days differ:
 * its variance is σ²(1/a + 1/b) + 2ρ²σ².
 * @param earlier the earlier sessions
 * @param swings of the two sessions that are compared
 * @example changeStudentOf({ sizes: [10, 10, 10], apart: [0.5, -0.5, 0], within: 1, freedom: 27 }, [10, 10]).se > 2.4 // true
 */
export function changeStudentOf(
  earlier: Sessions,
  [a, b]: readonly [number, number],
): { se: number; freedom: number } {
  return asStudent(dayUncertainty(earlier, { swings: 1 / a + 1 / b, days: 2 }));
}

/** The sum of two independent things known by mixtures about 0; degrees of freedom by Welch and Satterthwaite. */
function summed(a: readonly Known[], b: readonly Known[]): Known[] {
  const sums = a.flatMap((x) =>
    b.map((y): Known => {
      const variance = x.variance + y.variance;
      const known = x.variance ** 2 / x.freedom + y.variance ** 2 / y.freedom;
      return {
        weight: x.weight * y.weight,
        mean: 0,
        variance,
        freedom: known > 0 ? variance ** 2 / known : x.freedom + y.freedom,
      };
    }),
  );
  return thinned(
    sums.sort((x, y) => x.variance - y.variance),
    0,
    mostComponents,
  );
}
