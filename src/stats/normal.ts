/** The normal distribution that intervals are built on. */
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
