/** Many looks: Holm's properties, and p-values that agree with their intervals. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tTail } from "../../src/stats/beta.ts";
import { chanceAllowed, holm, pOf, standing } from "../../src/stats/holm.ts";
import { t95 } from "../../src/stats/beta.ts";

const ps = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 30 });

describe("Holm's correction", () => {
  it("keeps the order, never makes a p-value smaller and never larger than Bonferroni's", () => {
    fc.assert(
      fc.property(ps, (list) => {
        const adjusted = holm(list);
        list.forEach((p, i) => {
          expect(adjusted[i]!).toBeGreaterThanOrEqual(p);
          expect(adjusted[i]!).toBeLessThanOrEqual(Math.min(1, list.length * p) + 1e-15);
          list.forEach((q, j) => {
            if (p < q) expect(adjusted[i]!).toBeLessThanOrEqual(adjusted[j]!);
          });
        });
      }),
    );
  });

  it("leaves a single line as it is, and gives ties the same", () => {
    expect(holm([0.03])).toEqual([0.03]);
    const [a, b] = holm([0.02, 0.02]);
    expect(a).toBe(0.04);
    expect(b).toBe(0.04);
  });

  it("says that lines at the very limit don't stand", () => {
    expect(standing([chanceAllowed])).toEqual([false]);
    expect(standing([0, 0])).toEqual([true, true]);
    expect(standing([1, 1])).toEqual([false, false]);
  });
});

describe("a p-value from an interval", () => {
  it("is under 0.05 just where the interval leaves 0 out", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 10, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        fc.option(fc.double({ min: 1, max: 300, noNaN: true })),
        (value, down, up, freedom) => {
          const [low, high] = [value - down, value + up];
          fc.pre(Math.min(Math.abs(low), Math.abs(high)) > 1e-6);
          expect(pOf({ value, low, high, freedom }) < 0.05).toBe(low > 0 || high < 0);
        },
      ),
    );
  });

  it("is that of the t-test it comes from", () => {
    const [value, se, freedom] = [3, 1.1, 6.5];
    const half = t95(freedom) * se;
    expect(pOf({ value, low: value - half, high: value + half, freedom })).toBeCloseTo(
      tTail(value / se, freedom),
      12,
    );
  });

  it("is 1 where nothing tells how far chance would go", () => {
    expect(pOf({ value: null, low: null, high: null, freedom: null })).toBe(1);
    expect(pOf({ value: 3, low: null, high: null, freedom: 4 })).toBe(1);
    expect(pOf({ value: 3, low: 3, high: 3, freedom: null })).toBe(1);
    expect(pOf({ value: 0, low: -1, high: 1, freedom: null })).toBe(1);
  });
});
