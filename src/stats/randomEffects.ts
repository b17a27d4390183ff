/** Several figures of one kind, each with its own doubt: how much they truly differ, and each drawn toward the group. */
import { t95 } from "./beta.ts";
import { z95 } from "./normal.ts";

/** What a group of figures has in common. */
export interface RandomEffects {
  /** How many figures. */
  readonly k: number;
  /** Variance of the true values between members, τ²; 0 when the figures differ no more than their doubts. */
  readonly tau2: number;
  /** The group's mean, each member weighted by 1 ÷ (its variance + τ²), and its standard error. */
  readonly mean: number;
  readonly se: number;
  /** Cochran's Q: squared distances from the mean, in units of each figure's variance; about k − 1 when τ² is 0. */
  readonly q: number;
}

/**
 * Random effects by the moments of DerSimonian & Laird (Controlled Clin. Trials 7, 1986, 177).
 * @param effects one figure a member, in any unit
 * @param variances each figure's variance (its standard error squared), more than 0
 * @returns null for fewer than two members
 * @throws RangeError when the lists differ in length, or a variance is not above 0
 * @example derSimonianLaird([1, 3], [1, 1]) // { k: 2, tau2: 1, mean: 2, se: 1, q: 2 }
 */
export function derSimonianLaird(
  effects: readonly number[],
  variances: readonly number[],
): RandomEffects | null {
  if (effects.length !== variances.length)
    throw new RangeError(`${effects.length} figures and ${variances.length} variances`);
  if (variances.some((v) => !(v > 0))) throw new RangeError("a variance must be above 0");
  const k = effects.length;
  if (k < 2) return null;
  const fixed = variances.map((v) => 1 / v);
  const sum = total(fixed);
  const fixedMean = total(effects.map((y, i) => fixed[i]! * y)) / sum;
  const q = total(effects.map((y, i) => fixed[i]! * (y - fixedMean) ** 2));
  const c = sum - total(fixed.map((w) => w * w)) / sum;
  const tau2 = Math.max(0, (q - (k - 1)) / c);
  const weights = variances.map((v) => 1 / (v + tau2));
  const weight = total(weights);
  return {
    k,
    tau2,
    mean: total(effects.map((y, i) => weights[i]! * y)) / weight,
    se: Math.sqrt(1 / weight),
    q,
  };
}

const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** A figure drawn toward its group. */
export interface DrawnIn {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly se: number;
  /** The weight of the member's own figure, 0 to 1; the rest is the group's mean. */
  readonly own: number;
}

/**
 * Each figure drawn toward the group by empirical Bayes: own weight τ² ÷ (τ² + its variance). The interval
 * counts the doubt of the group's mean and not that of τ².
 * Source: Morris, J. Am. Stat. Assoc. 78, 1983, 47.
 * @param freedom each variance's degrees of freedom, for Student's t; none: the normal distribution
 * @example drawIn([1, 3], [1, 1], { k: 2, tau2: 1, mean: 2, se: 1, q: 2 })[0].value // 1.5
 */
export function drawIn(
  effects: readonly number[],
  variances: readonly number[],
  { tau2, mean, se }: RandomEffects,
  freedom?: readonly (number | null)[],
): DrawnIn[] {
  return effects.map((effect, i) => {
    const variance = variances[i]!;
    const own = tau2 / (tau2 + variance);
    const value = own * effect + (1 - own) * mean;
    const error = Math.sqrt(own * variance + (1 - own) ** 2 * se ** 2);
    const df = freedom?.[i] ?? null;
    const half = (df === null ? z95 : t95(df)) * error;
    return { value, low: value - half, high: value + half, se: error, own };
  });
}

/**
 * The share of its distance from the mean that each of k equally doubtful figures keeps: 1 − (k − 3)·σ² ÷ Σ(y − ȳ)²,
 * not below 0.
 * Source: Efron & Morris, Sci. Am. 236(5), 1977, 119; J. Am. Stat. Assoc. 70, 1975, 311.
 * @param effects at least four figures
 * @param variance σ², the variance of each
 * @example shrinkageFactor([0, 0, 2, 2], 1) // 0.75
 */
export function shrinkageFactor(effects: readonly number[], variance: number): number {
  const k = effects.length;
  if (k < 4) throw new RangeError(`${k} figures are too few to draw in: it takes four`);
  const mean = total(effects) / k;
  const squares = total(effects.map((y) => (y - mean) ** 2));
  return squares === 0 ? 0 : Math.max(0, 1 - ((k - 3) * variance) / squares);
}
