import fc from "fast-check";
import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import {
  fewestForInterval,
  fewestForSpread,
  group,
  mean,
  percentileInterval,
  replicates,
  spread,
  type Statistic,
} from "../../src/stats/bootstrap.ts";
import { meanEstimate, quantileEstimate, spreadEstimate } from "../../src/stats/estimate.ts";
import { slopeEstimate } from "../../src/stats/slope.ts";
import { figureOf, intervalsOf } from "../../src/stats/twoStage.ts";

const normal = (seed: number) => randomNormal.source(randomLcg(seed))(90, 6);
const draw = (n: number, seed = 0.4) => Array.from({ length: n }, normal(seed));

describe("the mean", () => {
  it("is null with a reason on nothing, and has no interval on a handful", () => {
    expect(meanEstimate([])).toMatchObject({ n: 0, value: null, low: null, high: null, reason: "no values" });
    expect(meanEstimate([null, null]).n).toBe(0);
    expect(meanEstimate([7])).toMatchObject({
      n: 1,
      value: 7,
      low: null,
      high: null,
      reason: "1 value gives no interval",
    });
    expect(meanEstimate(Array(fewestForInterval - 1).fill(3)).low).toBeNull();
    expect(meanEstimate(Array(fewestForInterval).fill(3))).toMatchObject({
      n: 5,
      value: 3,
      low: 3,
      high: 3,
      reason: null,
    });
  });

  it("is the same for the same rows and differs with the seed only in its interval", () => {
    const values = draw(30);
    expect(meanEstimate(values)).toEqual(meanEstimate(values));
    const other = meanEstimate(values, undefined, 7);
    expect(other.value).toBe(meanEstimate(values).value);
    expect(other.low).not.toBe(meanEstimate(values).low);
  });

  it("leaves the unknown out", () => {
    expect(meanEstimate([1, null, 3]).value).toBe(2);
    expect(meanEstimate([1, null, 3]).n).toBe(2);
    expect(meanEstimate([1, NaN, 3, Infinity, -Infinity])).toMatchObject({
      n: 2,
      value: 2,
      reason: "2 values give no interval",
    });
  });

  it("has the standard error of a mean: s/√n, with n − 1 degrees of freedom", () => {
    // s = √(40/4) = 3.1623, over √5 1.4142; resampling loses a factor √(4/5), which would leave 1.265.
    const { se, freedom } = meanEstimate([88, 90, 92, 94, 96]);
    expect(se! / Math.SQRT2).toBeGreaterThan(0.95);
    expect(se! / Math.SQRT2).toBeLessThan(1.05);
    expect(freedom).toBe(4);
  });

  it("and the spread have no uncertainty where all values are one, over one session or several", () => {
    const values = Array<number>(12).fill(4);
    for (const sessions of [undefined, values.map((_, i) => (i < 5 ? "a" : "b"))]) {
      const none = { n: 12, se: 0, freedom: 11, resampled: sessions === undefined ? "swings" : "sessions" };
      expect(meanEstimate(values, sessions)).toMatchObject({ ...none, value: 4, low: 4, high: 4 });
      expect(spreadEstimate(values, sessions)).toMatchObject({ ...none, value: 0, low: 0, high: 0 });
    }
  });

  it("has an interval as wide as Student's", () => {
    // t interval by hand: mean 92, s = 3.1623, 92 ± 2.776·3.1623/√5 = ± 3.93; five values cap it at 88 to 96.
    const { low, high } = meanEstimate([88, 90, 92, 94, 96]);
    expect(low!).toBeGreaterThan(87.9);
    expect(low!).toBeLessThan(89.2);
    expect(high!).toBeLessThan(96.1);
    expect(high!).toBeGreaterThan(94.8);
    const many = draw(400);
    const e = meanEstimate(many);
    expect((e.high! - e.low!) / 2).toBeCloseTo((1.96 * spreadEstimate(many).value!) / 20, 1);
  });

  it("covers the truth about 19 times in 20, on few values too", () => {
    for (const n of [8, 20]) {
      const source = normal(0.7);
      let held = 0;
      for (let i = 0; i < 300; i++) {
        const { low, high } = meanEstimate(Array.from({ length: n }, source), undefined, i);
        if (low! <= 90 && high! >= 90) held++;
      }
      expect(held / 300).toBeGreaterThan(0.91);
      expect(held / 300).toBeLessThan(0.99);
    }
  });
});

describe("spread and quantile", () => {
  it("give the textbook values", () => {
    expect(spreadEstimate([2, 4, 4, 4, 5, 5, 7, 9]).value).toBeCloseTo(Math.sqrt(32 / 7), 12);
    expect(spreadEstimate([7])).toMatchObject({ n: 1, value: null, reason: "one value has no spread" });
    expect(quantileEstimate([4, 1, 3, 2], 0.25).value).toBe(1.75);
    expect(quantileEstimate([9], 0.95).value).toBe(9);
    expect(() => quantileEstimate([1], 1.2)).toThrow(RangeError);
  });

  it("holds the true spread about 9 times in 10 where it gives an interval", () => {
    const source = normal(0.2);
    let held = 0;
    for (let i = 0; i < 300; i++) {
      const { low, high } = spreadEstimate(Array.from({ length: 20 }, source), undefined, i);
      if (low! <= 6 && high! >= 6) held++;
    }
    expect(spreadEstimate(draw(fewestForSpread - 1)).low).toBeNull();
    expect(held / 300).toBeGreaterThan(0.86);
  });
});

describe("the slope", () => {
  it("is the line's, and null where there is none", () => {
    expect(slopeEstimate([0, 1, 2], [1, 4, 7]).value).toBeCloseTo(3, 12);
    expect(slopeEstimate([2, 2, 2, 2], [1, 4, 7, 9]).value).toBeNull();
    expect(slopeEstimate([0.1, 0.1, 0.1], [1, 4, 7]).value).toBeNull();
    expect(slopeEstimate([1, null, 2], [3, 4, null]).n).toBe(1);
  });

  it("has an interval that holds it", () => {
    const noise = normal(0.9);
    const x = Array.from({ length: 40 }, (_, i) => i / 10);
    const { low, high, value } = slopeEstimate(
      x,
      x.map((v) => 5 * v + noise()),
    );
    expect(low!).toBeLessThan(value!);
    expect(high!).toBeGreaterThan(value!);
    expect(low!).toBeLessThan(5);
    expect(high!).toBeGreaterThan(5);
  });
});

describe("the interval that replicates give", () => {
  // 0, 1 … 1000: the quantile p is 1000 p.
  const even = Float64Array.from({ length: 1001 }, (_, i) => i);

  it("lies as far out as Student's t of so many values", () => {
    // Five: 2.776 · √(5/4) = 3.104, and Φ(−3.104) = 0.00096 in any table of the normal.
    const [low, high] = percentileInterval(even, 5);
    expect(low).toBeCloseTo(0.96, 1);
    expect(high).toBeCloseTo(999.04, 1);
  });

  it("is moved by twice the lean of its resamples", () => {
    // 601 of 1002 lie below, ties by half: z = 0.2529. Φ(2 · 0.2529 ∓ 1.96): Φ(−1.4542) = 0.0730, Φ(2.4658) = 0.9932.
    const [low, high] = percentileInterval(even, 1e9, 600);
    expect(low).toBeCloseTo(73, 0);
    expect(high).toBeCloseTo(993.2, 0);
  });
});

describe("over several sessions", () => {
  const days = (shifts: readonly number[], each: number, seed: number) => {
    const source = normal(seed);
    return {
      values: shifts.flatMap((shift) => Array.from({ length: each }, () => shift + source())),
      sessions: shifts.flatMap((_, d) => Array<string>(each).fill(`day ${d}`)),
    };
  };
  const width = ({ low, high }: { low: number | null; high: number | null }): number => high! - low!;

  it("every interval widens with what the days differ by", () => {
    const shifts = [-9, 0, 9, 4, -4];
    const [alike, unlike] = [
      days(
        shifts.map(() => 0),
        12,
        0.3,
      ),
      days(shifts, 12, 0.3),
    ];
    const of = [
      (v: number[], s?: string[]) => meanEstimate(v, s),
      (v: number[], s?: string[]) => quantileEstimate(v, 0.5, s),
    ];
    for (const figure of of) {
      expect(figure(unlike.values, unlike.sessions).resampled).toBe("sessions");
      expect(width(figure(unlike.values, unlike.sessions))).toBeGreaterThan(
        1.5 * width(figure(unlike.values)),
      );
      expect(width(figure(alike.values, alike.sessions))).toBeLessThan(1.7 * width(figure(alike.values)));
      expect(width(figure(alike.values, alike.sessions))).toBeGreaterThan(0.9 * width(figure(alike.values)));
    }
    const spreads = days([0, 0, 0, 0, 0], 12, 0.6);
    const wild = spreads.values.map((v, i) => 90 + (v - 90) * [0.2, 1, 3, 0.5, 2][Math.floor(i / 12)]!);
    expect(width(spreadEstimate(wild, spreads.sessions))).toBeGreaterThan(1.3 * width(spreadEstimate(wild)));
    expect(spreadEstimate(wild, spreads.sessions).low!).toBeGreaterThan(0);
    const x = unlike.values.map((_, i) => i % 12);
    const tilted = x.map((v, i) => v * (1 + [-2, -1, 0, 1, 2][Math.floor(i / 12)]!) + unlike.values[i]! / 9);
    expect(width(slopeEstimate(x, tilted, unlike.sessions))).toBeGreaterThan(
      1.3 * width(slopeEstimate(x, tilted)),
    );
  });

  it("a mean's is about the mean, and a spread's by factors, so that it never reaches 0", () => {
    // Three days whose means and spreads lie far apart, about 0.
    const values = [-9, -7, -8, -7.5, -8.5, 0.5, 1, 0, 0.7, 0.3, 25, -9, 8, 14, 5];
    const sessions = values.map((_, i) => `day ${Math.floor(i / 5)}`);
    const plain = (statistic: Statistic) => {
      const value = statistic(Float64Array.from(values), values.length);
      return { value, ...intervalsOf([group(values, sessions)], figureOf(statistic), [value], [1])[0]! };
    };
    const [middle, own] = [plain(mean), plain(spread)];
    expect(meanEstimate(values, sessions)).toMatchObject({ low: middle.low, high: middle.high });
    expect(middle.value).toBeGreaterThan(0);
    expect(middle.low).toBeLessThan(0);
    expect(own.low).toBeLessThan(0);
    // A spread's relative error is its logarithm's: ln(1 + r) is r where that is small.
    const found = spreadEstimate(values, sessions);
    expect(Math.log(found.low! / own.value)).toBeCloseTo(own.low / own.value - 1, 9);
    expect(Math.log(found.high! / own.value)).toBeCloseTo(own.high / own.value - 1, 9);
  });

  it("without sessions a spread's is the bias-corrected one: its resamples are too small", () => {
    const values = draw(12);
    const { value, low, high } = spreadEstimate(values);
    const drawn = replicates(group(values), spread);
    expect([low, high]).toEqual(percentileInterval(drawn, 12, value!));
    expect(high!).toBeGreaterThan(percentileInterval(drawn, 12)[1]);
  });

  it("names of nobody are one session", () => {
    const { values } = days([0, 5], 10, 0.2);
    expect(
      meanEstimate(
        values,
        values.map(() => null),
      ),
    ).toEqual(meanEstimate(values));
    expect(
      meanEstimate(
        values,
        values.map(() => "a"),
      ),
    ).toEqual(meanEstimate(values));
    expect(meanEstimate(values).resampled).toBe("swings");
  });
});

it("is never NaN", () => {
  const values = fc.array(fc.option(fc.double({ min: -500, max: 500, noNaN: true })), { maxLength: 25 });
  const sound = (e: object) =>
    Object.values(e).forEach((v) => expect(typeof v === "number" ? Number.isFinite(v) : true).toBe(true));
  fc.assert(
    fc.property(values, values, (x, y) => {
      sound(meanEstimate(x));
      sound(spreadEstimate(x));
      sound(quantileEstimate(x, 0.95));
      sound(slopeEstimate(x, y));
    }),
    { numRuns: 60 },
  );
});
