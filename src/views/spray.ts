/** Where the balls go, how far and how well: what a player asks of a spray chart. */
import { quantileEstimate, type Estimate } from "../stats/estimate.ts";
import type { Share } from "../stats/share.ts";
import type { Category, EnrichedSwing, Lane, Side } from "../swing/fields.ts";
import { laneShares, sideShares } from "./lanes.ts";
import { inPlay, sessionsOf, wellHitShare } from "./swings.ts";

/** Balls that are meant to fly: on the others carry is where they first bounce. */
const flown = new Set<Category | null>(["line drive", "fly ball"]);

/** One hitter's balls in play, as a player reads them. */
export interface SprayView {
  readonly in_play: number;
  readonly lanes: readonly ({ readonly lane: Lane } & Share)[];
  readonly sides: readonly ({ readonly side: Side } & Share)[];
  /** Clean or flush, of those with a bucket. */
  readonly well_hit: Share;
  /** Median carry of line drives and fly balls. */
  readonly carry_ft: Estimate;
  /** The ball with the longest carry; null without one. */
  readonly farthest: EnrichedSwing | null;
}

/**
 * The balls in play among the rows: their directions, their carry, and how many were hit well.
 * @param rows one hitter's swings
 * @example sprayView([]).farthest // null
 */
export function sprayView(rows: readonly EnrichedSwing[]): SprayView {
  const balls = inPlay(rows);
  const carried = balls.filter((row) => row.carry_ft !== null);
  const far = carried.filter((row) => flown.has(row.category));
  return {
    in_play: balls.length,
    lanes: laneShares(balls),
    sides: sideShares(balls),
    well_hit: wellHitShare(balls),
    carry_ft: quantileEstimate(
      far.map((row) => row.carry_ft),
      0.5,
      sessionsOf(far),
    ),
    farthest: carried.reduce<EnrichedSwing | null>(
      (best, row) => (best === null || row.carry_ft! > best.carry_ft! ? row : best),
      null,
    ),
  };
}

/**
 * The balls with the longest carry, longest first.
 * @param most so many at the most
 * @example farthestBalls([{ carry_ft: 200 }, { carry_ft: null }, { carry_ft: 310 }], 5).map((b) => b.carry_ft) // [310, 200]
 */
export function farthestBalls<R extends Pick<EnrichedSwing, "carry_ft">>(
  balls: readonly R[],
  most: number,
): R[] {
  return balls
    .filter(({ carry_ft }) => carry_ft !== null)
    .sort((a, b) => b.carry_ft! - a.carry_ft!)
    .slice(0, most);
}
