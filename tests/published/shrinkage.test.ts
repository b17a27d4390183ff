/** Pooling figures with their group, against the example it is known by. */
import { describe, expect, it } from "vitest";
import { shrinkageFactor } from "../../src/stats/randomEffects.ts";

/**
 * Hits of 18 hitters in their first 45 at-bats, and their share of hits in the rest of the season: Efron & Morris,
 * Sci. Am. 236(5), 1977, 119. The numbers alone, from memory.
 */
const first = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7].map((hits) => hits / 45);
const later = [
  0.346, 0.298, 0.276, 0.222, 0.273, 0.27, 0.263, 0.21, 0.269, 0.23, 0.264, 0.256, 0.303, 0.264, 0.226, 0.285,
  0.316, 0.2,
];

describe("Efron and Morris's eighteen hitters", () => {
  const mean = first.reduce((a, b) => a + b, 0) / first.length;
  const variance = (mean * (1 - mean)) / 45;

  it("have a mean of 0.265 and keep 0.212 of their distance from it", () => {
    expect(mean).toBeCloseTo(0.265, 3);
    // The article works from averages rounded to a thousandth; the counts themselves give 0.21 as well.
    expect(Math.abs(shrinkageFactor(first, variance) - 0.212)).toBeLessThan(0.003);
  });

  it("are foretold far better pooled than as they are", () => {
    const c = shrinkageFactor(first, variance);
    const off = (guess: readonly number[]): number =>
      guess.reduce((sum, v, i) => sum + (v - later[i]!) ** 2, 0);
    // The article: total squared error 0.077 as they are, 0.022 pooled.
    expect(off(first)).toBeCloseTo(0.077, 2);
    expect(off(first.map((v) => mean + c * (v - mean)))).toBeCloseTo(0.022, 2);
  });
});
