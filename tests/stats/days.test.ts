/** How often an interval over several sessions holds the hitter's own figure, days aside. */
import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { t95 } from "../../src/stats/beta.ts";
import { group } from "../../src/stats/bootstrap.ts";
import { studentOf } from "../../src/stats/days.ts";
import { share, shareOf } from "../../src/stats/share.ts";
import { meansUncertainty } from "../../src/stats/twoStage.ts";

const uniform = randomLcg(0.4);
const normal = randomNormal.source(uniform)(0, 1);

/** One side: the sessions' sizes are unequal, the largest many times the smallest. */
const side = (n: number, sessions: number, days: number, of: (mean: number) => number) => {
  const weights = Array.from({ length: sessions }, () => Math.exp(0.8 * normal()));
  const total = weights.reduce((a, b) => a + b, 0);
  const sizes = weights.map((w) => Math.max(1, Math.round((n * w) / total)));
  const values = sizes.flatMap((size) => {
    const day = days * normal();
    return Array.from({ length: size }, () => of(day));
  });
  return { values, names: sizes.flatMap((size, s) => Array<string>(size).fill(`${s}`)) };
};

const settings = [2, 3, 8].flatMap((sessions) =>
  [12, 45, 60].flatMap((n) =>
    n < 2 * sessions ? [] : [0, 0.17, 0.35].map((days) => ({ n, sessions, days })),
  ),
);

/** A mean of so many swings varies by this much, in the swings' own standard deviation. */
const runs = 400;
/** 92 % of 400, give or take two and a half standard errors. */
const least = 0.92 - 0.034;

describe("the mean of swings over unequal sessions", () => {
  it.each(settings)(
    "is held at $n swings, $sessions sessions, days of $days of a swing's spread",
    (setting) => {
      const { n, sessions, days } = setting;
      let [one, two] = [0, 0];
      for (let i = 0; i < runs; i++) {
        const [a, b] = [0, 0].map(() => {
          const { values, names } = side(n, sessions, days, (day) => day + normal());
          return group(values, names);
        }) as [ReturnType<typeof group>, ReturnType<typeof group>];
        const meanOf = ({ values }: { values: Float64Array }) =>
          values.reduce((s, v) => s + v, 0) / values.length;
        const alone = meansUncertainty([a])!;
        if (Math.abs(meanOf(a)) <= t95(alone.freedom) * alone.se) one++;
        const both = meansUncertainty([a, b])!;
        if (Math.abs(meanOf(a) - meanOf(b)) <= t95(both.freedom) * both.se) two++;
      }
      expect(one / runs).toBeGreaterThan(least);
      expect(two / runs).toBeGreaterThan(least);
      // Of many sessions no more than asked, where two or three can't tell that days are alike.
      if (sessions === 8 && days === 0.35) expect(one / runs).toBeLessThan(0.98);
    },
  );
});

describe("a share over unequal sessions", () => {
  it.each(settings)(
    "is held at $n swings, $sessions sessions, days of $days of a swing's spread",
    (setting) => {
      const { n, sessions, days } = setting;
      // Hit well when a swing's own quality and the day's lie above a line: 31 in 100 on all days together.
      const line = 0.5 * Math.sqrt(1 + days ** 2);
      let held = 0;
      for (let i = 0; i < runs; i++) {
        const { values, names } = side(n, sessions, days, (day) => Number(day + normal() > line));
        const { low, high } = shareOf(
          values.map((v) => v === 1),
          names,
        );
        if (low! <= 0.3085 && 0.3085 <= high!) held++;
      }
      expect(held / runs).toBeGreaterThan(least);
    },
  );

  it("is never surer than Wilson's, and is Wilson's of none and of all", () => {
    for (const count of [0, 1, 7, 20]) {
      const hits = Array.from({ length: 20 }, (_, i) => i < count);
      const names = hits.map((_, i) => `${i % 4}`);
      const [by, alone] = [shareOf(hits, names), share(count, 20)];
      expect(by.low!).toBeLessThanOrEqual(alone.low!);
      expect(by.high!).toBeGreaterThanOrEqual(alone.high!);
      if (count % 20 === 0) expect(by).toEqual(alone);
      expect(shareOf(hits)).toEqual(alone);
    }
  });
});

describe("what is known of the days", () => {
  const sizes = [15, 15, 15, 15, 15, 15, 15, 15];

  it("comes from the sessions alone when there are many that differ much", () => {
    const apart = [-6, 5, 2, -4, 7, -3, 1, -2];
    const { se, freedom } = studentOf([{ sizes, apart, within: 1 / 120, freedom: 112 }]);
    const squares = apart.reduce((s, v) => s + v * v, 0);
    expect(se / Math.sqrt(squares / 7 / 8)).toBeGreaterThan(0.9);
    expect(se / Math.sqrt(squares / 7 / 8)).toBeLessThan(1.1);
    expect(freedom).toBeGreaterThan(5);
    expect(freedom).toBeLessThan(10);
  });

  it("is little more than the swings' own where eight sessions are as alike as chance has them", () => {
    const apart = [0.2, -0.2, 0.3, -0.3, 0.1, -0.1, 0.25, -0.25];
    const { se, freedom } = studentOf([{ sizes, apart, within: 1 / 120, freedom: 112 }]);
    expect((t95(freedom) * se) / (t95(112) / Math.sqrt(120))).toBeLessThan(1.3);
    expect((t95(freedom) * se) / (t95(112) / Math.sqrt(120))).toBeGreaterThan(0.95);
  });

  it("counts one long session among short ones as little more than one day", () => {
    const apart = [0.5, -0.5, 0.5, -0.5];
    const even = studentOf([{ sizes: [20, 20, 20, 20], apart, within: 1 / 80, freedom: 76 }]);
    const uneven = studentOf([{ sizes: [68, 4, 4, 4], apart, within: 1 / 80, freedom: 76 }]);
    expect(uneven.se).toBeGreaterThan(1.15 * even.se);
  });
});
