/** A line's slope and its interval, held to a published data set and to another library's slope on the same draws. */
import { linearRegression } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { group, percentileInterval, resamples } from "../../src/stats/bootstrap.ts";
import { eachResample } from "../../src/stats/draws.ts";
import { defaultSeed } from "../../src/stats/random.ts";
import { slopeEstimate, slopeOf } from "../../src/stats/slope.ts";
import { intervalsOf } from "../../src/stats/twoStage.ts";

// Anscombe, Am. Stat. 27, 1973, 17, the first of his four: y = 3.00 + 0.500 x, the slope's standard error 0.118; data
// from memory.
const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];

describe("a slope", () => {
  it("is the published one", () => {
    expect(slopeOf(x, y)).toBeCloseTo(0.5, 3);
    // Student's t with 9 degrees of freedom: 0.5 ± 2.262 · 0.118, to what resampling pairs of eleven differs by.
    const { low, high, n } = slopeEstimate(x, y);
    expect(n).toBe(11);
    expect((high! - low!) / (2 * 2.262 * 0.118)).toBeGreaterThan(0.85);
    expect((high! - low!) / (2 * 2.262 * 0.118)).toBeLessThan(1.15);
  });

  it("keeps its digits wherever the figures lie, and whatever their unit", () => {
    const far = (values: number[]): number[] => values.map((v) => v + 2 ** 27);
    expect(slopeOf(far(x), far(y.map((v) => Math.round(v * 64) / 64)))).toBeCloseTo(
      slopeOf(
        x,
        y.map((v) => Math.round(v * 64) / 64),
      )!,
      9,
    );
    expect(
      slopeOf(
        x.map((v) => v * 1e-7),
        y,
      )! * 1e-7,
    ).toBeCloseTo(0.5001, 4);
  });

  it("is none where x varies by rounding alone", () => {
    const alike = [0.3, 0.1 + 0.2, 0.3, 0.1 + 0.2];
    expect(new Set(alike).size).toBe(2);
    expect(slopeOf(alike, [1, 2, 3, 5])).toBeNull();
  });
});

describe("a slope's interval", () => {
  const picked = (places: readonly number[], xs: readonly number[], ys: readonly number[]): number => {
    const differ = new Set(places.map((i) => xs[i])).size > 1;
    // A resample of one x many times over: the figure of all stands for it.
    const used = differ ? places : xs.map((_, i) => i);
    return linearRegression(used.map((i) => [xs[i]!, ys[i]!])).m;
  };
  // In the second, one resample in three is of one x alone; in the third, one in ten, which is their mean.
  const cases = [
    [x, y],
    [[...Array<number>(10).fill(0.1), 0.7], y],
    [[-1, ...Array<number>(9).fill(0), 1], y],
  ] as const;

  it.each(cases)("over one session is from the slopes of resampled pairs", (xs, ys) => {
    const drawn = new Float64Array(resamples);
    const all = { starts: Int32Array.of(0, 11), groups: 1 };
    eachResample([all], defaultSeed, resamples, (places, bounds, i) => {
      drawn[i] = picked(Array.from(places.subarray(bounds[0], bounds[1])), xs, ys);
    });
    const [low, high] = percentileInterval(drawn, 11);
    const found = slopeEstimate(xs, ys);
    expect(found.low).toBeCloseTo(low, 9);
    expect(found.high).toBeCloseTo(high, 9);
  });

  it.each(cases)("over several is that of any figure over several, the slope looked up plainly", (xs, ys) => {
    const sessions = xs.map((_, i) => `day ${i % 3}`);
    const numbers = group(
      xs.map((_, i) => i),
      sessions,
    );
    const [wanted] = intervalsOf(
      [numbers],
      ([side], [n], out) => (out[0] = picked(Array.from(side!.subarray(0, n)), xs, ys)),
      [slopeOf(xs, ys)!],
      [1],
    );
    const found = slopeEstimate(xs, ys, sessions);
    expect(found.low).toBeCloseTo(wanted!.low, 9);
    expect(found.high).toBeCloseTo(wanted!.high, 9);
    expect(found.low).not.toBe(slopeEstimate(xs, ys).low);
  });
});
