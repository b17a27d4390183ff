/** What kind of batted ball it was: by its launch angle, and by where and how fast its flight came down. */
import type { PlayingField } from "../field/fields.ts";
import { dirtEdge } from "../field/fields.ts";
import type { Flight } from "../flight/carry.ts";
import type { Category } from "../swing/fields.ts";
import { ft } from "../units/index.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/**
 * The category of a batted ball.
 *
 * Below the line-drive angle, a ball that lands on the infield dirt is a ground ball, else a line drive. Up to
 * the fly angle, a ball whose mean ground speed is low is a bloop, else a line drive. Above it, a ball that
 * lands on the dirt is a pop-up; within the shallow depth behind it, a bloop or, when steep, a pop-up; else a
 * fly ball. The speed and the depth grow with the base path. Common practice, no source.
 * @param launchAngle_deg °
 * @param flight carry in m, hang in s, bearing in rad (0 when there is no spray angle)

 */
export function categoryOf(
  launchAngle_deg: number,
  flight: Pick<Flight, "carry" | "hang" | "bearing">,
  field: PlayingField,
  thresholds: Thresholds = defaultThresholds,
): Category {
  const { carry, hang } = flight;
  const scale = field.basePath_ft / thresholds.reference_base_path_ft;
  if (launchAngle_deg < thresholds.line_drive_from_deg) {
    return carry < dirtEdge(field, flight.bearing) ? "ground ball" : "line drive";
  }
  if (launchAngle_deg < thresholds.fly_from_deg) {
    return carry < thresholds.bloop_speed_ft_s * ft * scale * hang ? "bloop" : "line drive";
  }
  const edge = dirtEdge(field, flight.bearing);
  if (carry <= edge) return "pop-up";
  if (carry > edge + thresholds.bloop_depth_ft * ft * scale) return "fly ball";
  return launchAngle_deg < thresholds.pop_up_from_deg ? "bloop" : "pop-up";
}
