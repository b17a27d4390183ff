/** Shares: how many of how many, with the doubt that goes with so few. */
import { z95 } from "./normal.ts";

/** A count out of n, with a 95 % interval. Null where there is nothing to take a share of. */
export interface Share {
  readonly count: number;
  readonly n: number;
  readonly share: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * A share with Wilson's score interval, which stays inside 0 to 1 and has a width at 0 and at n of n.
 * Source: Wilson, J. Am. Stat. Assoc. 22, 1927, 209; Newcombe, Stat. Med. 17, 1998, 857 (method 3).
 * @param count how many, a whole number from 0 to n
 * @param n out of how many
 * @throws RangeError when the two are not such counts
 * @example share(81, 263) // { count: 81, n: 263, share: 0.3080, low: 0.2553, high: 0.3662 }
 * @example share(0, 0) // { count: 0, n: 0, share: null, low: null, high: null }
 */
export function share(count: number, n: number): Share {
  if (!Number.isInteger(count) || !Number.isInteger(n) || count < 0 || n < count)
    throw new RangeError(`${count} of ${n} is not a share`);
  if (n === 0) return { count, n, share: null, low: null, high: null };
  const p = count / n;
  const zz = z95 * z95;
  const middle = (p + zz / (2 * n)) / (1 + zz / n);
  const half = (z95 * Math.sqrt((p * (1 - p)) / n + zz / (4 * n * n))) / (1 + zz / n);
  return {
    count,
    n,
    share: p,
    // Rounding would leave 1e-17 where the formula gives the end itself.
    low: count === 0 ? 0 : middle - half,
    high: count === n ? 1 : middle + half,
  };
}

/**
 * The shares of several labels among the values that have one: every label in the order given, a zero
 * count included. A null value is unknown and counts for nothing.
 * @example sharesOf(["a", "b", "a", null], ["a", "b", "c"]).map((s) => s.count) // [2, 1, 0]
 */
export function sharesOf<L extends string>(
  values: readonly (L | null)[],
  labels: readonly L[],
): ({ label: L } & Share)[] {
  const known = values.filter((v) => v !== null);
  return labels.map((label) => ({ label, ...share(known.filter((v) => v === label).length, known.length) }));
}
