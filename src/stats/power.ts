/** How likely a test of so many figures finds a difference that is there. */
import { t95 } from "./beta.ts";
import { normalProbability } from "./normal.ts";

/** Steps of the sum over how large the estimated error may come out. */
const steps = 400;

/**
 * The chance that a two-sided test by Student's t at 95 % finds a difference: the noncentral t beyond its quantile, summed
 * over how large the standard error may come out.
 * Source: Cohen, Statistical Power Analysis for the Behavioral Sciences, 2nd ed. 1988, ch. 2.
 * @param shift the difference over its true standard error
 * @param freedom degrees of freedom, 1 or more
 * @example powerOfT(0, 14) // 0.05
 * @example powerOfT(2.828, 126) // 0.801
 */
export function powerOfT(shift: number, freedom: number): number {
  const reach = t95(freedom);
  // The estimated error over the true one: √(χ²/freedom), as good as nothing beyond these.
  const most = 1 + 8 / Math.sqrt(2 * freedom);
  const logAt = (s: number): number => (freedom - 1) * Math.log(s) - (freedom * s * s) / 2;
  const peak = logAt(Math.sqrt(Math.max(freedom - 1, 0.01) / freedom));
  let [sum, found] = [0, 0];
  for (let i = 0; i < steps; i++) {
    const s = ((i + 0.5) / steps) * most;
    const weight = Math.exp(logAt(s) - peak);
    sum += weight;
    found += weight * (normalProbability(shift - reach * s) + normalProbability(-shift - reach * s));
  }
  return found / sum;
}
