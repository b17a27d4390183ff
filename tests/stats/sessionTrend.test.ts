import { randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { holm, holmWeighted } from "../../src/stats/holm.ts";
import { randomFrom } from "../../src/stats/random.ts";
import { sessionTrend, theilSen } from "../../src/stats/sessionTrend.ts";

describe("a line over sessions", () => {
  it("is least squares with its exact t where all are equally uncertain, however much days differ", () => {
    const y = [3, 5, 4, 8, 6, 9, 12, 10];
    const points = y.map((value, x) => ({ x, value, variance: 0.01 }));
    const line = sessionTrend(points)!;
    const middle = 3.5;
    const sxx = points.reduce((s, { x }) => s + (x - middle) ** 2, 0);
    const slope = points.reduce((s, { x, value }) => s + (x - middle) * value, 0) / sxx;
    const mean = y.reduce((a, b) => a + b) / 8;
    const left = points.reduce((s, { x, value }) => s + (value - mean - slope * (x - middle)) ** 2, 0);
    expect(line.slope).toBeCloseTo(slope, 10);
    expect(line.se).toBeCloseTo(Math.sqrt(left / 6 / sxx), 10);
    expect(sessionTrend(points.map((p) => ({ ...p, variance: 100 })))!.se).toBeCloseTo(line.se, 10);
    expect(line.at(middle).value).toBeCloseTo(mean, 10);
    expect(line.at(20).high - line.at(20).low).toBeGreaterThan(line.at(4).high - line.at(4).low);
  });

  it("holds its slope about 95 times in 100 over sessions of unequal size, and days that differ", () => {
    const normal = randomNormal.source(randomFrom(5))(0, 1);
    const sizes = [8, 40, 12, 25, 30, 10, 22, 35];
    let held = 0;
    for (let run = 0; run < 1000; run++) {
      const points = sizes.map((n, x) => ({
        x,
        value: 0.3 * x + 1.2 * normal() + (5 / Math.sqrt(n)) * normal(),
        variance: 25 / n,
      }));
      const { low, high } = sessionTrend(points)!;
      if (low <= 0.3 && high >= 0.3) held++;
    }
    expect(held).toBeGreaterThan(930);
    expect(held).toBeLessThan(970);
  });

  it("is none without a difference in time, with two sessions, or with a variance of nothing", () => {
    const point = { x: 1, value: 2, variance: 1 };
    expect(sessionTrend([point, point, point])).toBeNull();
    expect(sessionTrend([point, { ...point, x: 2 }])).toBeNull();
    expect(() => sessionTrend([{ ...point, variance: 0 }])).toThrow(RangeError);
    expect(theilSen([1, 1, 1], [1, 2, 3])).toBeNull();
    expect(theilSen([1, 2], [1, 2])).toEqual({ pairs: 1, slope: 1, low: null, high: null });
  });
});

describe("Holm with weights", () => {
  it("is Holm's with even ones, and lets a heavy line stand where an even one would not", () => {
    const ps = [0.03, 0.2, 0.004, 0.5];
    holmWeighted(ps, [1, 1, 1, 1]).forEach((p, i) => expect(p).toBeCloseTo(holm(ps)[i]!, 12));
    expect(holm([0.04, 0.6])[0]).toBeGreaterThan(0.05);
    expect(holmWeighted([0.04, 0.6], [0.9, 0.1])[0]).toBeLessThan(0.05);
  });
});
