/** The quality of a contact. */
import { buckets, type Bucket } from "../swing/fields.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/**
 * The least power kept that a bucket asks for at a launch angle; Infinity where no power is enough.
 * @example leastFor("flush", 15) // 0.92
 * @example leastFor("flush", 60) // Infinity
 */
export function leastFor(bucket: Bucket, launchAngle_deg: number, t: Thresholds = defaultThresholds): number {
  if (bucket === "flush" && launchAngle_deg >= t.flush_from_deg && launchAngle_deg <= t.flush_to_deg)
    return t.flush_power_kept;
  if (bucket === "clean" && launchAngle_deg >= t.clean_from_deg && launchAngle_deg <= t.clean_to_deg)
    return t.clean_power_kept;
  if (bucket === "partial") return t.partial_power_kept;
  return bucket === "mishit" ? -Infinity : Infinity;
}

/** Best first. */
const downward = [...buckets].reverse();

/**
 * The contact bucket: `flush` and `clean` ask for power and a useful launch angle, `partial` for some power.
 * Common practice, no source.
 * @param powerKept the swing's own exit velocity ÷ ceiling
 * @param launchAngle_deg °
 * @example bucketOf(0.95, 15) // "flush"
 * @example bucketOf(0.95, 60) // "partial"
 */
export function bucketOf(
  powerKept: number,
  launchAngle_deg: number,
  thresholds: Thresholds = defaultThresholds,
): Bucket {
  return downward.find((bucket) => powerKept >= leastFor(bucket, launchAngle_deg, thresholds)) ?? "mishit";
}

/** Hit well: the two upper contact buckets. */
const wellHit = new Set<Bucket | null>(["clean", "flush"]);

/**
 * Whether the contact was clean or flush; null without a bucket.
 * @example isWellHit({ bucket: "partial" }) // false
 */
export function isWellHit(row: { readonly bucket: Bucket | null }): boolean | null {
  return row.bucket === null ? null : wellHit.has(row.bucket);
}
