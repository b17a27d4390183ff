/**
 * A change from one day to another, the days' own ups and downs counted. Two sessions alone know how swings differ and
 * not how days do; earlier sessions of the same work do.
 *
 * The sessions' figures vary by σ²/n each (swings) and τ² (days). σ² comes from the two sessions compared, their
 * figures' variance over what its sizes make of one swing's; τ² is what the earlier sessions' figures vary by beyond
 * their own σ²/n, at least 0 (one-way analysis of variance, method of moments: Searle, Casella & McCulloch, Variance
 * Components, 1992, section 3.6). The change has se² + 2τ², with Satterthwaite's degrees of freedom (Biometrics Bull. 2,
 * 1946, 110), k − 1 for the days' part. With few days a small spread is luck as often as not, so that part counts for
 * at least `leastDayPart` of the variance there: from three earlier sessions only a large change stands.
 */
import { t95 } from "./beta.ts";
import type { Difference } from "./difference.ts";
import { z95 } from "./normal.ts";

/** Earlier sessions from which on the spread of days can be told. */
export const fewestDays = 3;

/**
 * Of tables of 14 lines in which nothing changed, days differing by 3 mph and 45 swings of 8 mph a day, 1 in 100 had a
 * line that stood after Holm at 0.7 and three earlier sessions; at 0.5, 6 in 100.
 */
const leastDayPart = 0.7;

/** A figure of one earlier session. */
export interface DayFigure {
  readonly n: number;
  readonly value: number;
}

/**
 * A difference of two sessions with the spread of days added to both sides' errors.
 * @param swings the difference as the swings of the two sessions give it
 * @param earlier the same figure in the sessions before the later one, the earlier of the two among them
 * @param most the ends that the difference can't pass: 1 for a share
 * @returns null where days can't be told: under three earlier sessions, or no interval to begin with
 * @example withDays({ value: 1, low: -1, high: 3, freedom: null, from: { n: 9 }, to: { n: 9 } }, []) // null
 */
export function withDays(
  swings: Difference,
  earlier: readonly DayFigure[],
  most = Infinity,
): Difference | null {
  const { value, low, high, from, to } = swings;
  const k = earlier.length;
  if (value === null || low === null || high === null || k < fewestDays) return null;
  const own = swings.freedom === null ? z95 : t95(swings.freedom);
  const [down, up] = [(value - low) / own, (high - value) / own];
  const swingsVariance = (down * down + up * up) / 2;
  const ofOne = swingsVariance / (1 / from.n + 1 / to.n);
  const middle = earlier.reduce((sum, d) => sum + d.value, 0) / k;
  const seen = earlier.reduce((sum, d) => sum + (d.value - middle) ** 2, 0) / (k - 1);
  const swingsOwn = earlier.reduce((sum, d) => sum + ofOne / d.n, 0) / k;
  const days = 2 * Math.max(0, seen - swingsOwn);
  const variance = swingsVariance + days;
  const daily = Math.max(2 * seen, leastDayPart * variance);
  const least = daily ** 2 / (k - 1) + swingsVariance ** 2 / (swings.freedom ?? Infinity);
  const freedom = variance > 0 ? Math.max(k - 1, variance ** 2 / least) : k - 1;
  const arm = (se: number): number => t95(freedom) * Math.sqrt(se * se + days);
  return {
    ...swings,
    low: Math.max(-most, value - arm(down)),
    high: Math.min(most, value + arm(up)),
    se: Math.sqrt(variance),
    freedom,
    resampled: "sessions",
  };
}
