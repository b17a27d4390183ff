import fc from "fast-check";
import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { kitagawa, mixDoubt, mixOf, onGrid, roundToTotal, type MixSide } from "../../src/stats/split.ts";

const counts = fc.array(fc.nat(20), { minLength: 3, maxLength: 9 });

it("mix and rate add up to the difference, and each is 0 when its own side did not change", () => {
  const sides = fc.array(
    fc.tuple(fc.nat(20), fc.nat(20), fc.integer({ min: 40, max: 110 }), fc.integer({ min: 40, max: 110 })),
    {
      minLength: 1,
      maxLength: 9,
    },
  );
  fc.assert(
    fc.property(sides, (list) => {
      const [n, m] = [list.map((g) => g[0]), list.map((g) => g[1])];
      const total = (v: number[]) => v.reduce((a, b) => a + b, 0);
      fc.pre(total(n) > 0 && total(m) > 0);
      const sum = (k: number[], means: number[]) => k.map((c, i) => c * means[i]!);
      const [a, b] = [
        sum(
          n,
          list.map((g) => g[2]),
        ),
        sum(
          m,
          list.map((g) => g[3]),
        ),
      ];
      const { mix, rate } = kitagawa(n, a, m, b);
      expect(mix + rate).toBeCloseTo(total(b) / total(m) - total(a) / total(n), 9);
      // The same shares: no mix. The same means in every group: no rate.
      expect(
        kitagawa(
          n,
          a,
          n,
          sum(
            n,
            list.map((g) => g[3]),
          ),
        ).mix,
      ).toBeCloseTo(0, 9);
      expect(
        kitagawa(
          n,
          a,
          m,
          sum(
            m,
            list.map((g) => g[2]),
          ),
        ).rate,
      ).toBeCloseTo(0, 9);
      // The other way round, the signs turn.
      expect(kitagawa(m, b, n, a).mix).toBeCloseTo(-mix, 9);
    }),
  );
});

it("numbers on the grid add up exactly in any order", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -200, max: 200, noNaN: true }), { maxLength: 8 }), (list) => {
      const parts = list.map(onGrid);
      const forward = parts.reduce((a, b) => a + b, 0);
      expect(parts.reduceRight((a, b) => a + b, 0)).toBe(forward);
      list.forEach((v, i) => expect(Math.abs(v - parts[i]!)).toBeLessThan(2e-10));
    }),
  );
});

it("rounded parts add up to the rounded whole, each within one of its last digit", () => {
  fc.assert(
    fc.property(counts, fc.double({ min: -9, max: 9, noNaN: true }), (list, by) => {
      const parts = list.map((v) => v * by);
      const shown = roundToTotal(parts, 1);
      const total = parts.reduce((a, b) => a + b, 0);
      expect(shown.reduce((a, b) => a + b, 0)).toBeCloseTo(Math.round(total * 10) / 10, 8);
      shown.forEach((v, i) => expect(Math.abs(v - parts[i]!)).toBeLessThanOrEqual(0.1 + 1e-9));
    }),
  );
});

describe("the doubt of the mix", () => {
  const uniform = randomLcg(0.6);
  const normal = randomNormal.source(uniform)(0, 1);

  /** A side of n values in sessions of equal size: shares of the groups by session, and the groups' means. */
  const made = (n: number, means: readonly number[], sessions: readonly (readonly number[])[]): MixSide => {
    const group = Array.from({ length: n }, (_, i) => {
      let left = uniform();
      const shares = sessions[Math.floor((i * sessions.length) / n)]!;
      return Math.min(
        shares.findIndex((p) => (left -= p) < 0),
        shares.length - 1,
      );
    });
    return {
      group,
      value: group.map((g) => means[g]! + 8 * normal()),
      session: group.map((_, i) => Math.floor((i * sessions.length) / n)),
    };
  };
  const mixed = (groups: number, from: MixSide, to: MixSide): number => {
    const sums = ({ group, value }: MixSide) => {
      const [n, sum] = [Array<number>(groups).fill(0), Array<number>(groups).fill(0)];
      Array.from(group).forEach((g, i) => {
        n[g]!++;
        sum[g]! += value[i]!;
      });
      return [n, sum] as const;
    };
    return mixOf(...sums(from), ...sums(to));
  };

  it("has the variance of the mix, large signal or none", () => {
    for (const [means, to] of [
      [
        [90, 80, 84],
        [0.2, 0.5, 0.3],
      ],
      [
        [85, 85, 85],
        [0.2, 0.5, 0.3],
      ],
      [
        [90, 80, 84],
        [0.5, 0.25, 0.25],
      ],
    ] as const) {
      const [values, variances]: [number[], number[]] = [[], []];
      for (let i = 0; i < 1500; i++) {
        const sides = [made(60, means, [[0.5, 0.25, 0.25]]), made(60, means, [to])] as const;
        values.push(mixed(3, ...sides));
        variances.push(mixDoubt(3, ...sides)!.se ** 2);
      }
      const middle = values.reduce((a, b) => a + b) / values.length;
      const actual = values.reduce((a, v) => a + (v - middle) ** 2, 0) / values.length;
      const told = variances.reduce((a, b) => a + b) / variances.length;
      // What is not taken off, so that no variance is negative, leaves it a little large.
      expect(told / actual).toBeGreaterThan(0.9);
      expect(told / actual).toBeLessThan(1.35);
    }
  });

  it("counts three days a side by hand, as far as they differ by more than chance", () => {
    const days = [0, 0, 1, 1, 2, 2];
    const from = { value: [10, 14, 20, 24, 11, 13], group: [0, 0, 1, 1, 0, 0], session: days };
    const to = { value: [12, 16, 22, 26, 21, 23], group: [0, 0, 1, 1, 1, 1], session: [0, 0, 1, 1, 2, 1] };
    // Shares of the first group 2/3 and 1/3; means 12 and 22, 14 and 23, in the middle 13 and 22.5; variances of the
    // means 5/6 and 4, 4 and 7/6. x²·v(y), y²·v(x) and v(x)·v(y), multinomial over n − 1:
    const vy = (5 / 6 + 4 + 4 + 7 / 6) / 4;
    const [ofMeans, ofShares, both] = [vy / 9, (2 * (2 / 9) * 9.5 ** 2) / 5, (2 * (2 / 9) * vy) / 5];
    const within = ofMeans + ofShares;
    // What each day moves the mix by: ∓9.5/9 for two swings of the first group of the first side, ±9.5/9 · 2 for the
    // second's; on the other side days of three and of one swing of the second group, by 2/24 for their values too.
    const a = 9.5 / 9;
    const squares = a * a * (1 + 4 + 1) + (4 * a * a + (1.5 * a + 1 / 12) ** 2 + (0.5 * a - 1 / 12) ** 2);
    const between = (3 / 2) * squares;
    // Upper quartile of F(4, 8): 1.66 in any table; 1 − (1 − x)⁴·(1 + 4x) = 0.75 at x = F/(F + 2).
    const excess = between - 1.6642154 * within;
    const counted = within + excess;
    const doubt = mixDoubt(2, from, to)!;
    expect(doubt.se).toBeCloseTo(Math.sqrt(counted * (1 - both / within)), 6);
    expect(doubt.freedom).toBeCloseTo(counted ** 2 / (within ** 2 / 8 + (counted * excess) / 4), 5);
    // With one day on a side, how much days differ isn't known.
    const one = { ...from, session: days.map(() => 0) };
    const apart = { ...to, session: [0, 0, 1, 1, 1, 1] };
    const alone = Math.sqrt(within - both);
    expect(mixDoubt(2, one, apart)!.se).toBeCloseTo(alone, 10);
    expect(mixDoubt(2, apart, one)!.se).toBeCloseTo(alone, 10);
    // Days that are alike add nothing.
    const mixed = [0, 1, 0, 1, 2, 2];
    const alike = mixDoubt(2, { ...from, session: mixed }, { ...to, session: [0, 1, 0, 1, 0, 1] })!;
    expect(alike).toEqual(mixDoubt(2, one, { ...to, session: one.session }));
  });

  it("grows where days differ in their places, and not where whole days are better or worse", () => {
    const means = [95, 80];
    type Days = readonly (readonly number[])[];
    const even: Days = Array<readonly number[]>(6).fill([0.5, 0.5]);
    const apart = even.map((_, d) => (d % 2 === 0 ? [0.9, 0.1] : [0.1, 0.9]));
    const se = (side: (days: Days) => MixSide, days: Days) =>
      Array.from({ length: 40 }, () => mixDoubt(2, side(days), side(days))!.se).reduce((a, b) => a + b) / 40;
    const plain = (days: Days) => made(90, means, days);
    const shifted = (days: Days): MixSide => {
      const side = plain(days);
      const shifts = Array.from({ length: 6 }, () => 6 * normal());
      return { ...side, value: Array.from(side.value, (v, i) => v + shifts[side.session[i]!]!) };
    };
    expect(se(plain, apart) / se(plain, even)).toBeGreaterThan(1.5);
    expect(se(shifted, even) / se(plain, even)).toBeLessThan(1.25);
  });

  it("leaves out what is of no group, and is null with fewer than two of a group", () => {
    const [a, b] = [made(40, [90, 80], [[0.5, 0.5]]), made(40, [90, 80], [[0.3, 0.7]])];
    const more = (side: MixSide): MixSide => ({
      group: [-1, ...Array.from(side.group)],
      value: [1e6, ...Array.from(side.value)],
      session: [7, ...Array.from(side.session)],
    });
    expect(mixDoubt(2, more(a), more(b))).toEqual(mixDoubt(2, a, b));
    expect(mixDoubt(3, a, b)).toBeNull();
    // One of a group, or none, on either side.
    const few = { value: [90, 80, 81, 80], group: [0, 1, 1, 1], session: [0, 0, 0, 0] };
    const fewer = { ...few, group: [1, 1, 1, 1] };
    for (const side of [few, fewer])
      expect([mixDoubt(2, side, b), mixDoubt(2, a, side)], JSON.stringify(side)).toEqual([null, null]);
    // What rounding leaves of a million.
    const bit = 2 ** -26;
    const rounded = { value: [0, bit, 0, bit, 0].map((v) => 1e6 + v), session: [0, 0, 0, 0, 0] };
    const [mostlyFirst, mostlySecond] = [
      { ...rounded, group: [0, 0, 0, 1, 1] },
      { ...rounded, group: [0, 0, 1, 1, 1] },
    ];
    expect(mixDoubt(2, mostlyFirst, mostlySecond)).toBeNull();
    const same = (side: MixSide): MixSide => ({ ...side, value: Array.from(side.value, () => 80) });
    expect(mixDoubt(2, same(a), same(b))).toBeNull();
  });
});
