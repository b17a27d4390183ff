/** Lines over figures of unequal uncertainty, and the line that no single figure can pull, against published ones. */
import { describe, expect, it } from "vitest";
import { kendallVariance, sessionTrend, theilSen } from "../../src/stats/sessionTrend.ts";

/**
 * Thirteen trials of a vaccine: cases and non-cases, vaccinated and not, and the degrees of latitude. Colditz et al., J.
 * Am. Med. Assoc. 271, 1994, 698; the first ten rows as printed beside R's package for such regressions, the others from
 * memory.
 */
const trials = [
  [4, 119, 11, 128, 44],
  [6, 300, 29, 274, 55],
  [3, 228, 11, 209, 42],
  [62, 13536, 248, 12619, 52],
  [33, 5036, 47, 5761, 13],
  [180, 1361, 372, 1079, 44],
  [8, 2537, 10, 619, 19],
  [505, 87886, 499, 87892, 13],
  [29, 7470, 45, 7232, 27],
  [17, 1699, 65, 1600, 42],
  [186, 50448, 141, 27197, 18],
  [5, 2493, 3, 2338, 33],
  [27, 16886, 29, 17825, 33],
] as const;

describe("a random-effects regression of the thirteen trials on latitude", () => {
  const points = trials.map(([a, b, c, d, latitude]) => ({
    x: latitude,
    value: Math.log(a / (a + b) / (c / (c + d))),
    variance: 1 / a - 1 / (a + b) + 1 / c - 1 / (c + d),
  }));

  it("has the published line, error and interval", () => {
    const line = sessionTrend(points)!;
    // Restricted maximum likelihood with Knapp and Hartung's error, as the documentation of R's metafor prints them:
    // intercept 0.2515 (0.2839), latitude −0.0291 (0.0082), t −3.5483 on 11, p 0.0046, −0.0472 to −0.0111.
    expect(line.intercept).toBeCloseTo(0.2515, 4);
    expect(line.interceptError).toBeCloseTo(0.2839, 4);
    expect(line.slope).toBeCloseTo(-0.0291, 4);
    expect(line.se).toBeCloseTo(0.0082, 4);
    expect(line.slope / line.se).toBeCloseTo(-3.5483, 3);
    expect(line.freedom).toBe(11);
    expect(line.p).toBeCloseTo(0.0046, 4);
    expect(line.low).toBeCloseTo(-0.0472, 4);
    expect(line.high).toBeCloseTo(-0.0111, 4);
    // From memory, of the same documentation: 0.0764.
    expect(line.tau2).toBeCloseTo(0.0764, 3);
  });
});

describe("a median of slopes", () => {
  it("has the interval that Sen's formula gives on his own example", () => {
    // Sen, J. Am. Stat. Assoc. 63, 1968, 1379, section 5 takes x = 1, 2, 3, 4, 10, 12, 18 and
    // y = 9, 15, 19, 20, 45, 55, 78: slope 4, interval 3.71 to 4.25 at 93 %; figures from memory.
    const x = [1, 2, 3, 4, 10, 12, 18];
    const found = theilSen(x, [9, 15, 19, 20, 45, 55, 78])!;
    expect(found.slope).toBeCloseTo(4, 6);
    // At 95 % a place wider than at 93 % on either side.
    expect(found.low!).toBeLessThanOrEqual(3.71);
    expect(found.high!).toBeGreaterThanOrEqual(4.25);
    // S has variance 7·6·19/18.
    expect(kendallVariance(x)).toBeCloseTo(44.333, 3);
  });
});
