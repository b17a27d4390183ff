/**
 * What all hitters of a session show at once, against the line that their other sessions lie along. A team that improves
 * goes up session by session, and what all share on a day (the balls, the cold, the coach's word) differs as well: a
 * session is odd only where it leaves both behind.
 */
import { fQuantile } from "../stats/beta.ts";
import { confidence } from "../stats/normal.ts";

/** One session's shift in exit velocity, in the sessions' order. */
export interface Point {
  readonly value: number;
  readonly error: number;
}

/** A session against the line of the others. */
export interface OffTrend {
  readonly value: number;
  /** Its standard error: its own, what the others differ by beyond theirs, and the line's. */
  readonly error: number;
  /** Whether it lies off by more than chance, all sessions looked at together (Bonferroni). */
  readonly clear: boolean;
}

/** A line has two figures of its own; with fewer sessions than this, what days differ by can't be told beside it. */
export const fewestForTrend = 6;

/**
 * Each session against the least-squares line through the others: the deviation over its prediction error, a Student's t
 * with two degrees of freedom fewer than the others are (deleted residuals: Cook & Weisberg, Residuals and Influence in
 * Regression, 1982, section 2.2.1).
 * @param points sessions in their order
 * @returns null for each with fewer than six sessions
 * @example offTrend([]).length // 0
 * @example offTrend([0, 1.1, 1.9, 3, 12, 5.1, 5.9].map((value) => ({ value, error: 0.3 })))[4] // { value: 8.0, error: 0.3, clear: true }
 */
export function offTrend(points: readonly Point[]): (OffTrend | null)[] {
  const n = points.length;
  if (n < fewestForTrend) return points.map(() => null);
  const freedom = n - 3;
  const reach = Math.sqrt(fQuantile(1 - (1 - confidence) / n, 1, freedom));
  return points.map(({ value, error }, s): OffTrend => {
    const others = points.flatMap((p, at) => (at === s ? [] : [{ at, ...p }]));
    const middle = others.reduce((sum, o) => sum + o.at, 0) / others.length;
    const level = others.reduce((sum, o) => sum + o.value, 0) / others.length;
    const across = others.reduce((sum, o) => sum + (o.at - middle) ** 2, 0);
    const slope = others.reduce((sum, o) => sum + (o.at - middle) * (o.value - level), 0) / across;
    const left = others.reduce((sum, o) => sum + (o.value - level - slope * (o.at - middle)) ** 2, 0);
    const own = others.reduce((sum, o) => sum + o.error ** 2, 0) / others.length;
    const between = Math.max(0, left / freedom - own);
    const line = Math.max(left / freedom, own) * (1 / others.length + (s - middle) ** 2 / across);
    const off = value - level - slope * (s - middle);
    const wide = Math.sqrt(error ** 2 + between + line);
    return { value: off, error: wide, clear: Math.abs(off) > reach * wide };
  });
}
