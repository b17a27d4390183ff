/** Many looks at once: how far chance alone would go, and what of many lines stands when all were looked at. */
import { t95, tTail } from "./beta.ts";
import { confidence, z95 } from "./normal.ts";

/** What a single line may be wrong by, and all lines that a sentence was picked from together. */
export const chanceAllowed = 1 - confidence;

/**
 * Holm's adjusted p-values: what falls under `chanceAllowed` stands, and the chance that anything stands which is
 * nothing is no more than that, however many lines were looked at and however they hang together.
 * Source: Holm, Scand. J. Stat. 6, 1979, 65.
 * @param ps the p-value of every line that was looked at, 0 to 1
 * @returns in the same order
 * @example holm([0.01, 0.04, 0.03]) // [0.03, 0.06, 0.06]
 * @example holm([]) // []
 */
export function holm(ps: readonly number[]): number[] {
  const order = ps.map((_, i) => i).sort((a, b) => ps[a]! - ps[b]!);
  const adjusted = ps.map(() => 1);
  let least = 0;
  order.forEach((at, rank) => {
    least = Math.max(least, (ps.length - rank) * ps[at]!);
    adjusted[at] = Math.min(1, least);
  });
  return adjusted;
}

/**
 * Holm's adjusted p-values where some lines were given more of the chance allowed than others, before anything was
 * looked at. Even weights give `holm`.
 * Source: Holm, Scand. J. Stat. 6, 1979, 65, section 4.
 * @param weights of each line, more than 0
 * @returns in the same order
 * @example holmWeighted([0.01, 0.04, 0.03], [1, 1, 1]) // [0.03, 0.06, 0.06]
 * @example holmWeighted([0.04, 0.03], [4, 1]) // [0.05, 0.05]
 */
export function holmWeighted(ps: readonly number[], weights: readonly number[]): number[] {
  const order = ps.map((_, i) => i).sort((a, b) => ps[a]! / weights[a]! - ps[b]! / weights[b]!);
  const adjusted = ps.map(() => 1);
  let left = weights.reduce((sum, w) => sum + w, 0);
  let least = 0;
  for (const at of order) {
    least = Math.max(least, (ps[at]! * left) / weights[at]!);
    adjusted[at] = Math.min(1, least);
    left -= weights[at]!;
  }
  return adjusted;
}

/**
 * Which of many lines stand after Holm.
 * @example standing([0.001, 0.04, 0.03]) // [true, false, false]
 */
export function standing(ps: readonly number[]): boolean[] {
  return holm(ps).map((p) => p < chanceAllowed);
}

/** A figure with its 95 % interval. */
export interface WithInterval {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Degrees of freedom behind the interval; null: a normal one's. */
  readonly freedom: number | null;
}

/**
 * The p-value that goes with a 95 % interval: under 0.05 where the interval leaves 0 out, and only there. The
 * interval's arm on the side of 0 gives the standard error, so that a lopsided one (a share's) is read as it stands.
 * Source: Altman & Bland, BMJ 343, 2011, d2304.
 * @returns 1 where there is no interval, or one without a width: nothing then tells how far chance would go
 * @example pOf({ value: 2, low: 0, high: 5, freedom: null }) // 0.05
 * @example pOf({ value: 2, low: 2, high: 2, freedom: null }) // 1
 */
export function pOf({ value, low, high, freedom }: WithInterval): number {
  if (value === null || low === null || high === null || value === 0) return 1;
  const arm = value > 0 ? value - low : high - value;
  if (!(arm > 0)) return 1;
  const se = arm / (freedom === null ? z95 : t95(freedom));
  return tTail(value / se, freedom);
}
