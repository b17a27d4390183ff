/** The two quantiles that intervals are built on. */
import { probit } from "simple-statistics";

/** The share of intervals that are meant to hold the true value. Every interval of the kit is a 95 % one. */
export const confidence = 0.95;

/** The two-sided standard normal quantile for `confidence`. */
export const z95 = normalQuantile((1 + confidence) / 2);

/**
 * Standard normal quantile. `probit` of simple-statistics is good to 4.5e-4; two Newton steps on the
 * distribution function finish it.
 * @param p a probability, 0 < p < 1
 * @example normalQuantile(0.975) // 1.959964
 */
export function normalQuantile(p: number): number {
  let z = probit(p);
  for (let step = 0; step < 2; step++) z -= (normalProbability(z) - p) / normalDensity(z);
  return z;
}

function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/**
 * Standard normal distribution function, good to about 1e-15: Marsaglia's series (J. Stat. Software 11(4),
 * 2004) near the middle, where everything asked of it here lies, and the plain limits beyond 7.
 * @example normalProbability(1.959964) // 0.975
 */
export function normalProbability(z: number): number {
  if (z <= -7) return 0;
  if (z >= 7) return 1;
  let sum = z;
  let term = z;
  for (let i = 3; Math.abs(term) > 1e-17 * Math.abs(sum); i += 2) {
    term *= (z * z) / i;
    sum += term;
  }
  return 0.5 + sum * normalDensity(z);
}

/**
 * The two-sided 95 % quantile of Student's t, by the Cornish-Fisher expansion (Abramowitz & Stegun 26.7.5):
 * to 0.001 from four degrees of freedom up.
 * @param freedom degrees of freedom, 1 or more
 * @example t95(10) // 2.228
 */
export function t95(freedom: number): number {
  const z = z95;
  const terms = [
    (z ** 3 + z) / 4,
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96,
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384,
    (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / 92160,
  ];
  return terms.reduce((t, term, i) => t + term / freedom ** (i + 1), z);
}
