/** Shares: how many of how many, with the uncertainty that goes with so few and with days that differ. */
import { t95 } from "./beta.ts";
import { group } from "./bootstrap.ts";
import { z95 } from "./normal.ts";
import { meansUncertainty, resampledOf } from "./twoStage.ts";

/** A count out of n, with a 95 % interval. Null where there is nothing to take a share of. */
export interface Share {
  readonly count: number;
  readonly n: number;
  readonly share: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** Whether each value counts; null: unknown, and counts for nothing. */
export type Hits = readonly (boolean | null)[];

/** The session of each value; none, or no name: all are of one. */
export type SessionNames = readonly (string | null)[];

/**
 * A share of swings as they were hit, session by session. Its interval is the wider, end by end, of Wilson's and of the
 * one that counts sessions as `days.ts` says; of none and of all it is Wilson's.
 * @param sessions the session of each, as long as `hits`
 * @example shareOf([true, false, null, true]) // { count: 2, n: 3, share: 0.667, low: 0.208, high: 0.939 }
 * @example shareOf([true, true, false, false], ["a", "a", "b", "b"]).low < shareOf([true, true, false, false]).low // true
 */
export function shareOf(hits: Hits, sessions?: SessionNames): Share {
  const { values, names } = known(hits, sessions);
  const wilson = share(
    values.reduce((a, b) => a + b, 0),
    values.length,
  );
  const grouped = group(values, names);
  if (wilson.share === null || resampledOf([grouped]) === "swings") return wilson;
  const found = meansUncertainty([grouped]);
  const half = found === null ? 0 : t95(found.freedom) * found.se;
  return {
    ...wilson,
    low: Math.max(0, Math.min(wilson.low!, wilson.share - half)),
    high: Math.min(1, Math.max(wilson.high!, wilson.share + half)),
  };
}

/**
 * Hits as ones and zeros, the unknown left out, each with its session.
 * @example known([true, null, false], ["a", "b", "c"]) // { values: [1, 0], names: ["a", "c"] }
 */
export function known(hits: Hits, sessions?: SessionNames): { values: number[]; names: (string | null)[] } {
  const values: number[] = [];
  const names: (string | null)[] = [];
  hits.forEach((hit, i) => {
    if (hit === null) return;
    values.push(Number(hit));
    names.push(sessions?.[i] ?? null);
  });
  return { values, names };
}

/**
 * A share with Wilson's score interval, which stays inside 0 to 1 and has a width at 0 and at n of n. It knows of swings
 * alone: a share of swings that have sessions is `shareOf`'s.
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
 * @param sessions the session of each value
 * @example sharesOf(["a", "b", "a", null], ["a", "b", "c"]).map((s) => s.count) // [2, 1, 0]
 */
export function sharesOf<L extends string>(
  values: readonly (L | null)[],
  labels: readonly L[],
  sessions?: SessionNames,
): ({ label: L } & Share)[] {
  return labels.map((label) => ({
    label,
    ...shareOf(
      values.map((v) => (v === null ? null : v === label)),
      sessions,
    ),
  }));
}
