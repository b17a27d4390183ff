import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bucketOf } from "../../src/contact/bucket.ts";
import { thresholdsFrom } from "../../src/contact/thresholds.ts";
import { buckets, type Bucket } from "../../src/swing/fields.ts";

describe("bucket", () => {
  it.each<[number, number, Bucket]>([
    [0.92, 15, "flush"],
    [0.9199, 15, "clean"],
    [0.92, -5, "flush"],
    [0.92, -5.01, "clean"],
    [0.92, 35, "flush"],
    [0.92, 35.01, "clean"],
    [0.85, 15, "clean"],
    [0.8499, 15, "partial"],
    [0.85, -15, "clean"],
    [0.85, -15.01, "partial"],
    [0.85, 45, "clean"],
    [0.85, 45.01, "partial"],
    [1.2, 60, "partial"],
    [0.7, 15, "partial"],
    [0.6999, 15, "mishit"],
    [0.7, -80, "partial"],
    [0.6999, -80, "mishit"],
    [0, 15, "mishit"],
  ])("power kept %f at %f° is %s", (power, angle, bucket) => {
    expect(bucketOf(power, angle)).toBe(bucket);
  });

  it("never falls as power kept grows at one angle", () => {
    const power = fc.double({ min: 0, max: 1.5, noNaN: true });
    fc.assert(
      fc.property(power, power, fc.double({ min: -90, max: 90, noNaN: true }), (a, b, angle) => {
        const order = (p: number) => buckets.indexOf(bucketOf(p, angle));
        expect(order(Math.max(a, b))).toBeGreaterThanOrEqual(order(Math.min(a, b)));
      }),
    );
  });

  it("moves with a coach's own figures", () => {
    const own = thresholdsFrom({ flush_power_kept: 0.95, partial_power_kept: 0.6 });
    expect(bucketOf(0.93, 10, own)).toBe("clean");
    expect(bucketOf(0.65, 10, own)).toBe("partial");
  });
});
