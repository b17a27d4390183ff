/** Where the balls came down. */
import { sharesOf, type Share } from "../stats/share.ts";
import { lanes, sides, type EnrichedSwing, type Lane, type Side } from "../swing/fields.ts";
import { sessionsOf } from "./swings.ts";

/**
 * The share of each lane among the balls whose bearing is known: left to right, foul last and counted in n.
 * @example laneShares([{ lane: "center" }, { lane: null }]).find((s) => s.lane === "center").n // 1
 */
export function laneShares(
  rows: readonly Pick<EnrichedSwing, "lane" | "session">[],
): ({ lane: Lane } & Share)[] {
  return sharesOf(
    rows.map((r) => r.lane),
    lanes,
    sessionsOf(rows),
  ).map(({ label, ...share }) => ({ lane: label, ...share }));
}

/**
 * The share of each side of fair territory among the fair balls whose side is known.
 * @example sideShares([{ side: "pull" }, { side: "pull" }, { side: "middle" }]).map((s) => s.count) // [2, 1, 0]
 */
export function sideShares(
  rows: readonly Pick<EnrichedSwing, "side" | "session">[],
): ({ side: Side } & Share)[] {
  return sharesOf(
    rows.map((r) => r.side),
    sides,
    sessionsOf(rows),
  ).map(({ label, ...share }) => ({ side: label, ...share }));
}
