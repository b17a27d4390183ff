/**
 * A straight line through figures that each have an uncertainty of their own and differ by more than it: sessions over
 * time. A random-effects regression, and the line that no single session can pull (Theil and Sen) beside it.
 */
import { t95, tTail } from "./beta.ts";
import { z95 } from "./normal.ts";

/** One figure on a line. */
export interface LinePoint {
  /** Where it stands: time, or anything else that the figure may go with. */
  readonly x: number;
  readonly value: number;
  /** Its own variance, more than 0: of a session's mean, its swings' variance over their number. */
  readonly variance: number;
}

/** A line with its uncertainty. */
export interface SessionTrend {
  /** Figures that it goes through. */
  readonly k: number;
  /** Unit of the figures for each unit of x, with its 95 % interval. */
  readonly slope: number;
  readonly low: number;
  readonly high: number;
  /** Standard error of the slope, degrees of freedom, and the two-sided p-value. */
  readonly se: number;
  readonly freedom: number;
  readonly p: number;
  /** The line's height at x = 0, and its standard error. */
  readonly intercept: number;
  readonly interceptError: number;
  /** Variance of the figures about the line beyond their own: how much days differ, τ². */
  readonly tau2: number;
  /** The line at an x, with its 95 % interval. */
  readonly at: (x: number) => { readonly value: number; readonly low: number; readonly high: number };
}

/** Figures that a line with an uncertainty takes: two of its own, and one to tell how far off figures lie. */
const fewestForLine = 3;

/**
 * Random-effects regression of figures on one x: the variance beyond the figures' own by restricted maximum likelihood
 * (Fisher scoring), the line by weights 1/(variance + τ²), its error scaled by how far the figures truly lie off it, on
 * Student's t with k − 2 degrees of freedom. Where all figures are equally uncertain that is least squares with its
 * exact t, however much days differ.
 * Source: Raudenbush in Cooper & Hedges, Handbook of Research Synthesis, 1994, ch. 20 (the model); Knapp & Hartung, Stat.
 * Med. 22, 2003, 2693 (the error).
 * @returns null for fewer than three figures, or where no x differs
 * @throws RangeError when a variance is not above 0
 * @example sessionTrend([0, 1, 2, 3].map((x) => ({ x, value: 2 * x + (x % 2), variance: 1 }))).slope // 2.2
 * @example sessionTrend([]) // null
 */
export function sessionTrend(points: readonly LinePoint[]): SessionTrend | null {
  if (points.some(({ variance }) => !(variance > 0))) throw new RangeError("a variance must be above 0");
  const k = points.length;
  if (k < fewestForLine) return null;
  const middle = points.reduce((sum, { x }) => sum + x, 0) / k;
  // About their middle, so that sums keep their digits.
  const at = points.map((point) => ({ ...point, x: point.x - middle }));
  const reach = at.reduce((most, { x }) => Math.max(most, Math.abs(x)), 0);
  if (!(reach > 1e-9 * (1 + Math.abs(middle)))) return null;
  const tau2 = betweenVariance(at);
  const fit = weighted(at, tau2);
  const freedom = k - 2;
  // Figures that lie on the line to the last digit leave rounding alone.
  const scale = fit.weights.reduce((sum, w, i) => sum + w * fit.residuals[i]! ** 2, 0) / freedom;
  const { s0, s1, s2, det } = fit;
  const errorAt = (x: number): number => Math.sqrt((scale * (s2 - 2 * x * s1 + x * x * s0)) / det);
  const se = Math.sqrt((scale * s0) / det);
  const t = t95(freedom);
  const line = (x: number): number => fit.intercept + fit.slope * (x - middle);
  return {
    k,
    slope: fit.slope,
    low: fit.slope - t * se,
    high: fit.slope + t * se,
    se,
    freedom,
    p: se > 0 ? tTail(fit.slope / se, freedom) : fit.slope === 0 ? 1 : 0,
    intercept: line(0),
    interceptError: errorAt(-middle),
    tau2,
    at: (x) => {
      const half = t * errorAt(x - middle);
      return { value: line(x), low: line(x) - half, high: line(x) + half };
    },
  };
}

/** The line of given weights. */
function weighted(points: readonly LinePoint[], tau2: number) {
  const weights = points.map(({ variance }) => 1 / (variance + tau2));
  let [s0, s1, s2, y0, y1] = [0, 0, 0, 0, 0];
  points.forEach(({ x, value }, i) => {
    const w = weights[i]!;
    s0 += w;
    s1 += w * x;
    s2 += w * x * x;
    y0 += w * value;
    y1 += w * x * value;
  });
  const det = s0 * s2 - s1 * s1;
  const slope = (s0 * y1 - s1 * y0) / det;
  const intercept = (s2 * y0 - s1 * y1) / det;
  const residuals = points.map(({ x, value }) => value - intercept - slope * x);
  return { weights, s0, s1, s2, det, slope, intercept, residuals };
}

const mostSteps = 200;
const near = 1e-12;

/** τ² by restricted maximum likelihood, not below 0. */
function betweenVariance(points: readonly LinePoint[]): number {
  const usual = points.reduce((sum, { variance }) => sum + variance, 0) / points.length;
  let tau2 = usual;
  for (let step = 0; step < mostSteps; step++) {
    const { weights, s0, s1, s2, det, residuals } = weighted(points, tau2);
    // Sums of the squared and cubed weights by powers of x: traces of P and P², P the matrix that takes the line off.
    const [q0, q1, q2] = powers(points, weights, 2);
    const [c0, c1, c2] = powers(points, weights, 3);
    const w = (a0: number, a1: number, a2: number): number => (s2 * a0 - 2 * s1 * a1 + s0 * a2) / det;
    const trace = s0 - w(q0, q1, q2);
    const [m00, m01, m10, m11] = [
      (s2 * q0 - s1 * q1) / det,
      (s2 * q1 - s1 * q2) / det,
      (s0 * q1 - s1 * q0) / det,
      (s0 * q2 - s1 * q1) / det,
    ];
    const traceOfSquare = q0 - 2 * w(c0, c1, c2) + m00 * m00 + 2 * m01 * m10 + m11 * m11;
    const squares = residuals.reduce((sum, r, i) => sum + weights[i]! ** 2 * r * r, 0);
    const next = Math.max(0, tau2 + (squares - trace) / traceOfSquare);
    if (Math.abs(next - tau2) <= near * (usual + tau2)) return next;
    tau2 = next;
  }
  return tau2;
}

function powers(
  points: readonly LinePoint[],
  weights: readonly number[],
  power: number,
): [number, number, number] {
  const sums: [number, number, number] = [0, 0, 0];
  points.forEach(({ x }, i) => {
    const w = weights[i]! ** power;
    sums[0] += w;
    sums[1] += w * x;
    sums[2] += w * x * x;
  });
  return sums;
}

/** The median of the slopes between any two figures, with its interval. */
export interface PairwiseSlope {
  /** Slopes that it is the median of. */
  readonly pairs: number;
  readonly slope: number;
  /** 95 % interval; null where there are too few figures for one. */
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Theil's slope with Sen's interval: the median of the slopes between any two figures, and the slopes that lie so many
 * places off it as Kendall's score goes by chance (normal approximation; figures at the same x make no pair). No single
 * figure can pull it far. It takes figures for independent and equally uncertain.
 * Source: Theil, Proc. K. Ned. Akad. Wet. 53, 1950, 386; Sen, J. Am. Stat. Assoc. 63, 1968, 1379.
 * @returns null where no two x differ
 * @example theilSen([0, 1, 2, 3, 4], [0, 1, 2, 30, 4]).slope // 1
 * @example theilSen([1], [2]) // null
 */
export function theilSen(x: readonly number[], y: readonly number[]): PairwiseSlope | null {
  const slopes: number[] = [];
  for (let i = 0; i < x.length; i++)
    for (let j = i + 1; j < x.length; j++) if (x[i] !== x[j]) slopes.push((y[j]! - y[i]!) / (x[j]! - x[i]!));
  if (slopes.length === 0) return null;
  slopes.sort((a, b) => a - b);
  const pairs = slopes.length;
  const slope = (slopes[(pairs - 1) >> 1]! + slopes[pairs >> 1]!) / 2;
  const places = z95 * Math.sqrt(kendallVariance(x));
  const [from, to] = [(pairs - places) / 2, (pairs + places) / 2];
  // Sen's: the M₁th slope and the (M₂ + 1)th, counted from 1.
  const [low, high] = [Math.floor(from) - 1, Math.ceil(to)];
  if (low < 0 || high > pairs - 1) return { pairs, slope, low: null, high: null };
  return { pairs, slope, low: slopes[low]!, high: slopes[high]! };
}

/**
 * Variance of Kendall's score by chance, x alone tied.
 * Source: Kendall, Rank Correlation Methods, 4th ed. 1970, ch. 4.
 * @example kendallVariance([1, 2, 3, 4, 5]) // 16.667
 */
export function kendallVariance(x: readonly number[]): number {
  const tied = new Map<number, number>();
  for (const value of x) tied.set(value, (tied.get(value) ?? 0) + 1);
  const of = (n: number): number => n * (n - 1) * (2 * n + 5);
  return (of(x.length) - [...tied.values()].reduce((sum, t) => sum + of(t), 0)) / 18;
}
