/** What a chart of swings says above itself: the one thing to see, counted. */
import type { Share } from "../../stats/share.ts";
import { flagsOf, type Flag } from "../../contact/flags.ts";
import { categories, type Category, type EnrichedSwing, type Lane } from "../../swing/fields.ts";
import { largest } from "../../swing/lists.ts";

/** The one with the most; null where two share it, or there is none. */
function mostOf<Of extends { readonly count: number }>(all: readonly Of[]): Of | null {
  const most = largest(
    all.map((one) => one.count),
    0,
  );
  const those = all.filter((one) => one.count === most);
  return most === 0 || those.length > 1 ? null : those[0]!;
}

/**
 * Above a spray chart: the lane with the most balls, counted. Of balls that are there it says nothing of chance.
 * @example sprayTitle([{ lane: "center", count: 3, n: 4 }, { lane: "foul", count: 1, n: 4 }]) // "Most to center: 3 of 4 balls"
 * @example sprayTitle([]) // "Where the balls came down"
 */
export function sprayTitle(
  shares: readonly ({ readonly lane: Lane } & Pick<Share, "count" | "n">)[],
): string {
  const most = mostOf(shares);
  return most === null || most.lane === "foul" || most.n < 2
    ? "Where the balls came down"
    : `Most to ${most.lane}: ${most.count} of ${most.n} balls`;
}

const plurals: Readonly<Record<Category, string>> = {
  "ground ball": "ground balls",
  "line drive": "line drives",
  bloop: "bloops",
  "fly ball": "fly balls",
  "pop-up": "pop-ups",
};

/**
 * Above a contact map: the category with the most balls, counted.
 * @example contactTitle([{ category: "bloop" }, { category: "bloop" }, { category: null }]) // "Most were bloops: 2 of 3"
 * @example contactTitle([]) // "How hard, how high"
 */
export function contactTitle(rows: readonly { readonly category: Category | null }[]): string {
  const counts = categories.map((name) => ({
    name,
    count: rows.filter(({ category }) => category === name).length,
  }));
  const most = mostOf(counts);
  return most === null || rows.length < 2
    ? "How hard, how high"
    : `Most were ${plurals[most.name]}: ${most.count} of ${rows.length}`;
}

/**
 * Above a contact map of one drill: how many met its target.
 * @example targetTitle({ drill: "High tee", count: 7, n: 12 }) // "High tee: 7 of 12 in the window"
 */
export const targetTitle = ({ drill, count, n }: { drill: string } & Pick<Share, "count" | "n">): string =>
  `${drill}: ${count} of ${n} in the window`;

/**
 * Why no ball of some swings can be called clean or flush.
 * @param rows swings of which none has a bucket
 * @example unratedReason([]) // "no ball in play"
 * @example unratedReason([{ flags: "no_ceiling" }]) // "too few swings for a ceiling"
 */
export function unratedReason(balls: readonly Pick<EnrichedSwing, "flags">[]): string {
  const has = (flag: Flag): boolean => balls.some((ball) => flagsOf(ball).includes(flag));
  if (balls.length === 0) return "no ball in play";
  if (has("no_ceiling")) return "too few swings for a ceiling";
  if (has("no_pitch_speed")) return "the pitch's speed is not known";
  return "no ball could be rated";
}

/**
 * Above a strip of swings: how many were hit well.
 * @example stripTitle({ count: 7, n: 12 }) // "Swing by swing: 7 of 12 clean or flush"
 * @example stripTitle({ count: 0, n: 0 }) // "Swing by swing"
 */
export const stripTitle = ({ count, n }: Pick<Share, "count" | "n">): string =>
  n === 0 ? "Swing by swing" : `Swing by swing: ${count} of ${n} clean or flush`;
