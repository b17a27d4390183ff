/** How alike one swing's ball is to the next. */
import { spreadEstimate, type Estimate } from "../stats/estimate.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { inPlay, sessionsOf } from "./swings.ts";

/** Standard deviations over the balls in play: the smaller, the more alike. */
export interface Repeatability {
  readonly launch_angle_deg: Estimate;
  readonly spray_angle_deg: Estimate;
  readonly exit_velocity_mph: Estimate;
}

/**
 * The spread of launch angle, spray angle and exit velocity of the balls in play.
 * @example repeatability([]).launch_angle_deg.value // null
 */
export function repeatability(rows: readonly EnrichedSwing[]): Repeatability {
  const balls = inPlay(rows);
  const of = (measure: keyof Repeatability): Estimate =>
    spreadEstimate(
      balls.map((r) => r[measure]),
      sessionsOf(balls),
    );
  return {
    launch_angle_deg: of("launch_angle_deg"),
    spray_angle_deg: of("spray_angle_deg"),
    exit_velocity_mph: of("exit_velocity_mph"),
  };
}
