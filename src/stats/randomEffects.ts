/** Several figures of one kind, each with its own uncertainty: how much they truly differ, and each pooled with the group. */
import { mixtureQuantile, sharesOfLogs } from "./mixture.ts";
import { confidence } from "./normal.ts";

/** What a group of figures has in common. */
export interface RandomEffects {
  /** How many figures. */
  readonly k: number;
  /** Variance of the true values between members, τ²; 0 when the figures differ no more than their uncertainty. */
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

/** One member's figure, pooled with the group's. */
export interface Pooled {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Standard deviation of what is known of it. */
  readonly se: number;
  /** The weight of the member's own figure, 0 to 1; the rest is the group's mean. */
  readonly own: number;
}

/** A group pooled. */
export interface PooledGroup {
  readonly members: readonly Pooled[];
  readonly mean: Omit<Pooled, "own">;
  /** How much members truly differ: standard deviation, with its 95 % interval. */
  readonly tau: { readonly value: number; readonly low: number; readonly high: number };
}

/** Steps of the grid on τ, and how far it goes: so many times what the figures differ by and are uncertain by. */
const tauSteps = 60;
const tauReach = 8;

/** A fit of figures by weights: each figure's expected value with its variance, and the log of the determinant of the fit's own. */
export interface WeightedFit {
  readonly fitted: readonly number[];
  readonly variances: readonly number[];
  readonly logDeterminant: number;
}

/** What figures are pooled toward: a fit of them by weights. */
export type Fitting = (effects: readonly number[], weights: readonly number[]) => WeightedFit;

const commonMean: Fitting = (effects, weights) => {
  const weight = total(weights);
  const mean = total(effects.map((y, j) => weights[j]! * y)) / weight;
  return {
    fitted: effects.map(() => mean),
    variances: effects.map(() => 1 / weight),
    logDeterminant: -Math.log(weight),
  };
};

/**
 * Each figure pooled with its group, the uncertainty of τ counted: averaged over τ on a grid, by how well each τ fits,
 * the prior flat on τ. Given τ a member's own weight is τ² ÷ (τ² + its variance), and the group's mean has its own
 * uncertainty. Intervals are those of the mixture. A flat prior wants three members; of two they hardly pool, since
 * nothing then bounds τ but the grid's end.
 * Source: Gelman et al., Bayesian Data Analysis, section 5.4 (the formulas); Gelman, Bayesian Analysis 1, 2006, 515
 * (the prior).
 * @param variances each figure's variance, more than 0. Where it is itself known from few degrees of freedom, that of
 *   the normal distribution with the same 95 % interval: then a figure that stays its own keeps its own interval
 * @returns null for fewer than two members
 * @throws RangeError as `derSimonianLaird`
 * @example pooled([1, 1, 1], [1, 1, 1]).members[0].value // 1.0
 * @example pooled([28, 8, -3, 7, -1, 1, 18, 12], [225, 100, 256, 121, 81, 121, 100, 324]).members[0].value // 11.4
 */
export function pooled(effects: readonly number[], variances: readonly number[]): PooledGroup | null {
  const start = derSimonianLaird(effects, variances);
  if (start === null) return null;
  const { members, tau, at } = pooledToward(effects, variances, commonMean);
  return { members, mean: at(0), tau };
}

/** Figures pooled toward what a fit expects of each. */
export interface PooledToward {
  readonly members: readonly Pooled[];
  /** How much members truly differ from what is expected of them: standard deviation, with its 95 % interval. */
  readonly tau: PooledGroup["tau"];
  /** What is expected of a member by the others and itself. */
  readonly at: (member: number) => Omit<Pooled, "own">;
}

/**
 * The same where each figure is pooled toward a fit of its own instead of one mean.
 * @param effects two at least
 * @throws RangeError as `derSimonianLaird`
 * @example pooledToward([1, 2], [1, 1], (y) => ({ fitted: y, variances: [0, 0], logDeterminant: 0 })).members[1].value // 2
 */
export function pooledToward(
  effects: readonly number[],
  variances: readonly number[],
  fit: Fitting,
): PooledToward {
  const first = fit(
    effects,
    variances.map((v) => 1 / v),
  );
  const start = derSimonianLaird(
    effects.map((y, i) => y - first.fitted[i]!),
    variances,
  )!;
  const most = tauReach * Math.sqrt(start.tau2 + total(variances) / variances.length);
  // Evenly in the square root: dense where τ is small.
  const taus = Array.from({ length: tauSteps + 1 }, (_, i) => most * (i / tauSteps) ** 2);
  const given = taus.map((tau, i) => {
    const width = (taus[i + 1] ?? tau) - (taus[i - 1] ?? tau);
    const weights = variances.map((v) => 1 / (v + tau * tau));
    const { fitted, variances: spread, logDeterminant } = fit(effects, weights);
    const off = total(effects.map((y, j) => Math.log(weights[j]!) - weights[j]! * (y - fitted[j]!) ** 2));
    return { tau, fitted, spread, log: Math.log(width) + (off + logDeterminant) / 2 };
  });
  const shares = sharesOfLogs(given.map(({ log }) => log));
  const average = (values: readonly number[]): number =>
    values.reduce((sum, value, i) => sum + shares[i]! * value, 0);
  const told = (of: (at: (typeof given)[number]) => { mean: number; variance: number }) => {
    const each = given.map(of);
    const components = each.flatMap((at, i) =>
      shares[i]! < leastShare ? [] : [{ weight: shares[i]!, ...at, freedom: null }],
    );
    const value = average(each.map(({ mean }) => mean));
    const [low, high] = [1 - confidence, 1 + confidence].map((p) => mixtureQuantile(components, p / 2));
    const se = Math.sqrt(average(each.map(({ mean, variance }) => variance + (mean - value) ** 2)));
    return { value, low: low!, high: high!, se };
  };
  const members = effects.map((effect, i): Pooled => {
    const v = variances[i]!;
    const own = ({ tau }: { tau: number }): number => (tau * tau) / (tau * tau + v);
    const figure = told((at) => ({
      mean: own(at) * effect + (1 - own(at)) * at.fitted[i]!,
      variance: own(at) * v + (1 - own(at)) ** 2 * at.spread[i]!,
    }));
    return { ...figure, own: average(given.map(own)) };
  });
  const quantile = (p: number): number => {
    let sum = 0;
    return taus[shares.findIndex((share) => (sum += share) >= p)] ?? most;
  };
  return {
    members,
    tau: { value: quantile(0.5), low: quantile((1 - confidence) / 2), high: quantile((1 + confidence) / 2) },
    at: (i) => told((at) => ({ mean: at.fitted[i]!, variance: at.spread[i]! })),
  };
}

/** A τ that fits so much less than the others is left out. */
const leastShare = 1e-4;

/**
 * The share of its distance from the mean that each of k equally uncertain figures keeps: 1 − (k − 3)·σ² ÷ Σ(y − ȳ)²,
 * not below 0.
 * Source: Efron & Morris, Sci. Am. 236(5), 1977, 119; J. Am. Stat. Assoc. 70, 1975, 311.
 * @param effects at least four figures
 * @param variance σ², the variance of each
 * @example shrinkageFactor([0, 0, 2, 2], 1) // 0.75
 */
export function shrinkageFactor(effects: readonly number[], variance: number): number {
  const k = effects.length;
  if (k < 4) throw new RangeError(`${k} figures are too few to pool: it takes four`);
  const mean = total(effects) / k;
  const squares = total(effects.map((y) => (y - mean) ** 2));
  return squares === 0 ? 0 : Math.max(0, 1 - ((k - 3) * variance) / squares);
}
