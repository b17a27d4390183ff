/** The quality of a contact. */
import type { Bucket } from "../swing/fields.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/**
 * The contact bucket: `flush` and `clean` ask for power and a useful launch angle, `partial` for some power.
 * Common practice, no source.
 * @param powerKept exit velocity ÷ ceiling
 * @param launchAngle_deg °
 * @example bucketOf(0.95, 15) // "flush"
 * @example bucketOf(0.95, 60) // "partial"
 */
export function bucketOf(
  powerKept: number,
  launchAngle_deg: number,
  thresholds: Thresholds = defaultThresholds,
): Bucket {
  const t = thresholds;
  if (
    powerKept >= t.flush_power_kept &&
    launchAngle_deg >= t.flush_from_deg &&
    launchAngle_deg <= t.flush_to_deg
  ) {
    return "flush";
  }
  if (
    powerKept >= t.clean_power_kept &&
    launchAngle_deg >= t.clean_from_deg &&
    launchAngle_deg <= t.clean_to_deg
  ) {
    return "clean";
  }
  return powerKept >= t.partial_power_kept ? "partial" : "mishit";
}
