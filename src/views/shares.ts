/** How the balls divide: by category, by contact bucket. */
import { sharesOf, type Share } from "../stats/share.ts";
import { buckets, categories, type Bucket, type Category, type EnrichedSwing } from "../swing/fields.ts";
import { sessionsOf } from "./swings.ts";

/**
 * The share of each category among the balls that have one; all five, in the fields' order.
 * @example categoryShares([]).length // 5
 */
export function categoryShares(
  rows: readonly Pick<EnrichedSwing, "category" | "session">[],
): ({ category: Category } & Share)[] {
  return sharesOf(
    rows.map((r) => r.category),
    categories,
    sessionsOf(rows),
  ).map(({ label, ...share }) => ({ category: label, ...share }));
}

/**
 * The share of each contact bucket among the balls that have one; all four, worst first.
 * @example bucketShares([{ bucket: "flush" }])[3] // { bucket: "flush", count: 1, n: 1, share: 1, low: 0.207, high: 1 }
 */
export function bucketShares(
  rows: readonly Pick<EnrichedSwing, "bucket" | "session">[],
): ({ bucket: Bucket } & Share)[] {
  return sharesOf(
    rows.map((r) => r.bucket),
    buckets,
    sessionsOf(rows),
  ).map(({ label, ...share }) => ({ bucket: label, ...share }));
}
