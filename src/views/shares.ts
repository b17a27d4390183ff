/** How the balls divide: by category, by contact bucket. */
import { sharesOf, type Share } from "../stats/share.ts";
import { buckets, categories, type Bucket, type Category, type EnrichedSwing } from "../swing/fields.ts";

/**
 * The share of each category among the balls that have one; all five, in the fields' order.
 * @example categoryShares([]).length // 5
 */
export function categoryShares(
  rows: readonly Pick<EnrichedSwing, "category">[],
): ({ category: Category } & Share)[] {
  return sharesOf(
    rows.map((r) => r.category),
    categories,
  ).map(({ label, ...share }) => ({ category: label, ...share }));
}

/**
 * The share of each contact bucket among the balls that have one; all four, worst first.
 * @example bucketShares([{ bucket: "flush" }])[3] // { bucket: "flush", count: 1, n: 1, share: 1, low: 0.207, high: 1 }
 */
export function bucketShares(rows: readonly Pick<EnrichedSwing, "bucket">[]): ({ bucket: Bucket } & Share)[] {
  return sharesOf(
    rows.map((r) => r.bucket),
    buckets,
  ).map(({ label, ...share }) => ({ bucket: label, ...share }));
}
