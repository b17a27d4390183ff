import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { differenceReplicates, group, percentileInterval, spread } from "../../src/stats/bootstrap.ts";
import {
  meanDifference,
  noClearChange,
  shareDifference,
  spreadDifference,
} from "../../src/stats/difference.ts";

const normal = randomNormal.source(randomLcg(0.11));
const many = (n: number, middle: number, spread = 5) => Array.from({ length: n }, normal(middle, spread));
const named = (sessions: string[], each: number) => sessions.flatMap((s) => Array<string>(each).fill(s));

describe("the difference of two means", () => {
  it("is to − from", () => {
    const d = meanDifference({ values: [1, 2, 3, 4, 5] }, { values: [11, 12, 13, 14, 15] });
    expect(d).toMatchObject({
      from: { n: 5, value: 3 },
      to: { n: 5, value: 13 },
      value: 10,
      resampled: "swings",
    });
    expect(noClearChange(d)).toBe(false);
  });

  it("says why it has none, or no interval", () => {
    expect(meanDifference({ values: [] }, { values: [1] })).toMatchObject({
      value: null,
      reason: "too few to compare: 0 and 1",
    });
    const few = meanDifference({ values: [1] }, { values: [9, null] });
    expect(few).toMatchObject({ value: 8, low: null, reason: "too few for an interval: 1 and 1" });
    expect(noClearChange(few)).toBe(true);
    expect(spreadDifference({ values: [1] }, { values: [1, 2] }).value).toBeNull();
  });

  it("resamples sessions only where both sides have two, and says which", () => {
    const values = many(40, 90);
    const two = named(["a", "b"], 20);
    const one = named(["c"], 40);
    expect(meanDifference({ values, sessions: two }, { values, sessions: two }).resampled).toBe("sessions");
    expect(meanDifference({ values, sessions: two }, { values, sessions: one }).resampled).toBe("swings");
    expect(meanDifference({ values, sessions: two }, { values }).resampled).toBe("swings");
  });

  it("knows that days differ: sessions that disagree widen the interval", () => {
    const days = named(["a", "b", "c", "d"], 25);
    const values = [80, 100, 80, 100].flatMap((middle) => many(25, middle, 2));
    const bySessions = meanDifference({ values, sessions: days }, { values, sessions: days });
    const bySwings = meanDifference({ values }, { values });
    expect(bySessions.high! - bySessions.low!).toBeGreaterThan(2 * (bySwings.high! - bySwings.low!));
  });

  it("seldom calls chance a change, and sees a large one", () => {
    let called = 0;
    for (let i = 0; i < 200; i++) {
      if (!noClearChange(meanDifference({ values: many(12, 90) }, { values: many(15, 90) }, i))) called++;
    }
    expect(called / 200).toBeLessThan(0.1);
    expect(called).toBeGreaterThan(0);
    expect(noClearChange(meanDifference({ values: many(30, 85) }, { values: many(30, 93) }))).toBe(false);
  });
});

describe("the difference of two shares", () => {
  const side = (days: readonly number[], each: number) => ({
    values: days.flatMap((hits) => Array.from({ length: each }, (_, i) => Number(i < hits))),
    sessions: days.flatMap((_, d) => Array<string>(each).fill(`day ${d}`)),
  });

  it("is never surer than Newcombe's of swings alone, and less sure the more the days differ", () => {
    const alone = shareDifference(
      { values: side([8, 8, 8], 20).values },
      { values: side([4, 4, 4], 20).values },
    );
    const alike = shareDifference(side([8, 8, 8], 20), side([4, 4, 4], 20));
    const unlike = shareDifference(side([2, 8, 14], 20), side([0, 4, 8], 20));
    expect([alone.resampled, alike.resampled, unlike.resampled]).toEqual(["swings", "sessions", "sessions"]);
    for (const d of [alike, unlike]) {
      expect(d.value).toBeCloseTo(-0.2, 12);
      expect(d.low!).toBeLessThanOrEqual(alone.low!);
      expect(d.high!).toBeGreaterThanOrEqual(alone.high!);
    }
    expect(unlike.low!).toBeLessThan(alike.low! - 0.1);
    expect(noClearChange(alone)).toBe(false);
    expect(noClearChange(unlike)).toBe(true);
  });

  it("has a width at none and all, and none of nothing", () => {
    const d = shareDifference({ values: [0, 0, 0] }, { values: [1, 1, 1] });
    expect(d.value).toBe(1);
    expect(d.low!).toBeLessThan(0.6);
    expect(d.high!).toBeLessThanOrEqual(1);
    expect(shareDifference({ values: [] }, { values: [1, 0] }).value).toBeNull();
  });
});

describe("the difference of two spreads", () => {
  const [from, to] = [many(60, 90, 4), many(40, 90, 8)];

  it("has the standard error of two standard deviations, and the bias-corrected interval of the smaller side", () => {
    const d = spreadDifference({ values: from }, { values: to });
    const own = (values: readonly number[]): number => spread(Float64Array.from(values), values.length);
    expect(d.value).toBeCloseTo(own(to) - own(from), 12);
    // Of normal values each has σ/√(2(n − 1)): any textbook.
    const wanted = Math.hypot(own(from) / Math.sqrt(2 * 59), own(to) / Math.sqrt(2 * 39));
    expect(d.se! / wanted).toBeGreaterThan(0.8);
    expect(d.se! / wanted).toBeLessThan(1.2);
    expect(d).toMatchObject({ freedom: 39, resampled: "swings" });
    const drawn = differenceReplicates(group(from), group(to), spread);
    expect([d.low, d.high]).toEqual(percentileInterval(drawn, 40, d.value!));
    expect(d.se).toBe(spread(drawn, drawn.length));
  });

  it("is sure where the values of a side are all one", () => {
    const same = { values: Array<number>(12).fill(5) };
    expect(spreadDifference(same, same)).toMatchObject({ value: 0, low: 0, high: 0, se: 0, freedom: null });
  });
});

it("no clear change is a question of zero alone", () => {
  expect(noClearChange({ low: -3, high: -1 })).toBe(false);
  expect(noClearChange({ low: 0, high: 1 })).toBe(true);
  expect(noClearChange({ low: null, high: null })).toBe(true);
});
