/** The incomplete beta function, and the quantiles of Fisher's F and Student's t that come from it. */
import { gammaln } from "simple-statistics";
import { confidence, normalProbability } from "./normal.ts";

/**
 * The regularised incomplete beta function, by its continued fraction (NIST Digital Library of Mathematical
 * Functions, 8.17.22), evaluated with Lentz's method.
 * @param x 0 to 1
 * @param a more than 0
 * @param b more than 0
 * @param logBeta the logarithm of B(a, b), for a caller who asks for the same a and b many times over
 * @example incompleteBeta(0.5, 2, 2) // 0.5
 */
export function incompleteBeta(
  x: number,
  a: number,
  b: number,
  logBeta: number = gammaln(a) + gammaln(b) - gammaln(a + b),
): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction converges fast below the mean only; above it, the mirror image.
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a, logBeta);
  const tiny = 1e-300;
  let d = 1 / notZero(1 - ((a + b) * x) / (a + 1), tiny);
  let c = 1;
  let fraction = d;
  for (let m = 1; m < 1000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / notZero(1 + even * d, tiny);
    c = notZero(1 + even / c, tiny);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / notZero(1 + odd * d, tiny);
    c = notZero(1 + odd / c, tiny);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  const front = a * Math.log(x) + b * Math.log1p(-x) - logBeta;
  return (Math.exp(front) / a) * fraction;
}

const notZero = (value: number, tiny: number): number => (Math.abs(value) < tiny ? tiny : value);

/**
 * Quantile of Fisher's F, by halving the beta variable that it is a function of.
 * @param p 0 < p < 1
 * @param d1 degrees of freedom above the line, more than 0
 * @param d2 degrees of freedom below it, more than 0
 * @example fQuantile(0.95, 5, 18) // 2.773
 */
export function fQuantile(p: number, d1: number, d2: number): number {
  // On a log scale of the odds: the beta variable itself would lose the far tails of few degrees of freedom.
  let [low, high] = [-80, 80];
  for (let step = 0; step < 80; step++) {
    const middle = (low + high) / 2;
    // Nothing lies between them any more.
    if (middle === low || middle === high) break;
    if (incompleteBeta(1 / (1 + Math.exp(-middle)), d1 / 2, d2 / 2) < p) low = middle;
    else high = middle;
  }
  return (Math.exp((low + high) / 2) * d2) / d1;
}

/**
 * The two-sided p-value of Student's t; of the normal distribution without degrees of freedom.
 * Source: NIST Digital Library of Mathematical Functions, 8.17 (the t distribution as an incomplete beta function).
 * @param t a figure over its standard error
 * @param freedom degrees of freedom, more than 0; null: the standard error is known
 * @param logBeta as in `incompleteBeta`, of freedom ÷ 2 and ½
 * @example tTail(12.706, 1) // 0.050
 * @example tTail(1.96, null) // 0.050
 */
export function tTail(t: number, freedom: number | null, logBeta?: number): number {
  if (freedom === null) return 2 * normalProbability(-Math.abs(t));
  return incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5, logBeta);
}

/**
 * The two-sided 95 % quantile of Student's t for any degrees of freedom, whole or not.
 * @param freedom 1 or more
 * @example t95(1) // 12.706
 * @example t95(2.5) // 3.575
 */
export function t95(freedom: number): number {
  const known = known95.get(freedom);
  if (known !== undefined) return known;
  const t = Math.sqrt(fQuantile(confidence, 1, freedom));
  // Whole ones recur: an interval of so many values asks for the same one every time.
  if (Number.isInteger(freedom) && known95.size < mostKnown) known95.set(freedom, t);
  return t;
}

const known95 = new Map<number, number>();
const mostKnown = 10_000;
