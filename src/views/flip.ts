/** Flip work: the ball moves, so beside place and repeatability there is timing. */
import { meanEstimate, spreadEstimate, type Estimate } from "../stats/estimate.ts";
import { slopeEstimate } from "../stats/slope.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { inPlay, ofInput, sessionsOf, towardPull } from "./swings.ts";
import { placeAndResult, type TeeView } from "./tee.ts";
import type { ZoneOptions } from "./zone.ts";

/** Where along its way the ball was met, and where that sent it. */
export interface Timing {
  /** Mean and spread of the contact depth, ft forward of the plate's rear point. */
  readonly depth_ft: Estimate;
  readonly depth_spread_ft: Estimate;
  /** ° of spray toward the pull side for each foot the ball is met farther forward. */
  readonly pull_deg_per_ft: Estimate;
  /** The point its line runs through: means over the balls that have both; null without one. */
  readonly through: { readonly depth_ft: number; readonly pull_deg: number } | null;
}

/** What flip work shows. */
export interface FlipView extends TeeView {
  readonly timing: Timing;
}

/**
 * The flip rows among the given: contact point against result, repeatability, and timing.
 * @param rows one hitter's swings; those of other inputs are left out
 * @example flipView([]).timing.pull_deg_per_ft.value // null
 */
export function flipView(rows: readonly EnrichedSwing[], options: ZoneOptions = {}): FlipView {
  const flips = ofInput(rows, "flip");
  const balls = inPlay(flips);
  const sessions = sessionsOf(balls);
  const depth = balls.map((r) => r.contact_depth_ft);
  return {
    ...placeAndResult(flips, options),
    timing: {
      depth_ft: meanEstimate(depth, sessions),
      depth_spread_ft: spreadEstimate(depth, sessions),
      pull_deg_per_ft: slopeEstimate(depth, balls.map(towardPull), sessions),
      through: middleOf(balls),
    },
  };
}

function middleOf(balls: readonly EnrichedSwing[]): Timing["through"] {
  const both = balls.flatMap((row) => {
    const pull = towardPull(row);
    return pull === null || row.contact_depth_ft === null ? [] : [{ depth: row.contact_depth_ft, pull }];
  });
  if (both.length === 0) return null;
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  return { depth_ft: mean(both.map((b) => b.depth)), pull_deg: mean(both.map((b) => b.pull)) };
}
