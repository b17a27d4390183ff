import fc from "fast-check";
import { expect, it } from "vitest";
import { kitagawa, onGrid, roundToTotal } from "../../src/stats/split.ts";

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
