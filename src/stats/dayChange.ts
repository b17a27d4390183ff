/**
 * A change from one day to another, the days' own ups and downs counted. Two sessions alone know how swings differ and
 * not how days do; earlier sessions of the same work do, and `days.ts` says how well.
 */
import { t95 } from "./beta.ts";
import { changeStudentOf } from "./days.ts";
import type { Difference } from "./difference.ts";
import { z95 } from "./normal.ts";

/** Earlier sessions from which on the spread of days can be told. */
export const fewestDays = 3;

/** A figure of one earlier session. */
export interface DayFigure {
  readonly n: number;
  readonly value: number;
}

/**
 * A difference of two sessions with the spread of days added to both sides' errors. One swing's variance is what the
 * difference's own comes to over what its sizes make of it, so that it holds for a median or a share as for a mean.
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
  if (value === null || low === null || high === null || earlier.length < fewestDays) return null;
  const own = swings.freedom === null ? z95 : t95(swings.freedom);
  const [down, up] = [(value - low) / own, (high - value) / own];
  const swingsVariance = (down * down + up * up) / 2;
  const n = earlier.reduce((sum, day) => sum + day.n, 0);
  const middle = earlier.reduce((sum, day) => sum + day.n * day.value, 0) / n;
  const { se, freedom } = changeStudentOf(
    {
      sizes: earlier.map((day) => day.n),
      apart: earlier.map((day) => day.value - middle),
      within: swingsVariance / (1 / from.n + 1 / to.n) / n,
      freedom: swings.freedom ?? Math.max(1, from.n + to.n - 2),
    },
    [from.n, to.n],
  );
  // A share's interval is lopsided: days widen either side of it by as much.
  const days = Math.max(0, se * se - swingsVariance);
  const arm = (side: number): number => t95(freedom) * Math.sqrt(side * side + days);
  return {
    ...swings,
    low: Math.max(-most, value - arm(down)),
    high: Math.min(most, value + arm(up)),
    se,
    freedom,
    resampled: "sessions",
  };
}
