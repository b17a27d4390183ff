/** Intervals of shares, their differences and the quantiles behind them, against published values. */
import { describe, expect, it } from "vitest";
import { t95 } from "../../src/stats/beta.ts";
import { shareDifference } from "../../src/stats/difference.ts";
import { normalProbability, normalQuantile } from "../../src/stats/normal.ts";
import { share } from "../../src/stats/share.ts";

describe("Wilson's interval", () => {
  // Newcombe, "Two-sided confidence intervals for the single proportion", Stat. Med. 17, 1998, 857, table I, method 3.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("of %i out of %i", (count, n, low, high) => {
    const interval = share(count, n);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });
});

/** A count out of n, as a sample. */
const counted = (count: number, n: number) => ({
  values: Array.from({ length: n }, (_, i) => Number(i < count)),
});

describe("Newcombe's interval of a difference", () => {
  // Newcombe, "Interval estimation for the difference between independent proportions", Stat. Med. 17, 1998,
  // 873, table II, method 10; the values from memory.
  it.each([
    [56, 70, 48, 80, 0.0524, 0.3339],
    [9, 10, 3, 10, 0.1705, 0.809],
    [6, 7, 2, 7, 0.0582, 0.8062],
    [5, 56, 0, 29, -0.0381, 0.1926],
    [0, 10, 0, 10, -0.2775, 0.2775],
  ])("of %i/%i and %i/%i", (a, m, b, n, low, high) => {
    const d = shareDifference(counted(b, n), counted(a, m));
    expect(d.low).toBeCloseTo(low, 4);
    expect(d.high).toBeCloseTo(high, 4);
  });
});

describe("quantiles", () => {
  // Any table of the normal distribution and of Student's t (two-sided 5 %).
  it.each([
    [0.975, 1.959964],
    [0.95, 1.644854],
    [0.995, 2.575829],
    [0.5, 0],
    [0.001, -3.090232],
  ])("normal at %d", (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 6);
    expect(normalProbability(z)).toBeCloseTo(p, 7);
  });

  it.each([
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [4, 2.776],
    [5, 2.571],
    [9, 2.262],
    [10, 2.228],
    [30, 2.042],
    [120, 1.98],
  ])("Student's t with %i degrees of freedom", (freedom, t) => {
    expect(Math.abs(t95(freedom) - t)).toBeLessThan(0.001);
  });
});
