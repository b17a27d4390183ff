import fc from "fast-check";
import { expect, it } from "vitest";
import { share, sharesOf } from "../../src/stats/share.ts";

it("has no share of nothing, and a width at none and at all", () => {
  expect(share(0, 0)).toEqual({ count: 0, n: 0, share: null, low: null, high: null });
  expect(share(0, 1).low).toBe(0);
  expect(share(0, 1).high).toBeCloseTo(0.7935, 4);
  expect(share(1, 1).high).toBe(1);
  expect(share(1, 1).low).toBeCloseTo(0.2065, 4);
});

it("refuses what is not a share", () => {
  for (const [count, n] of [
    [-1, 5],
    [6, 5],
    [0.5, 2],
    [NaN, 2],
    [0, Infinity],
  ] as const)
    expect(() => share(count, n)).toThrow(RangeError);
});

it("holds the share, mirrors it, and narrows with n", () => {
  fc.assert(
    fc.property(fc.nat(500), fc.nat(500), (a, b) => {
      const n = a + b;
      fc.pre(n > 0);
      const s = share(a, n);
      const mirror = share(b, n);
      expect(s.low!).toBeGreaterThanOrEqual(0);
      expect(s.low!).toBeLessThanOrEqual(s.share!);
      expect(s.high!).toBeGreaterThanOrEqual(s.share!);
      expect(s.high!).toBeLessThanOrEqual(1);
      expect(s.low!).toBeCloseTo(1 - mirror.high!, 12);
      const more = share(4 * a, 4 * n);
      expect(more.high! - more.low!).toBeLessThan(s.high! - s.low!);
    }),
  );
});

it("counts every label, and leaves the unknown out of n", () => {
  const shares = sharesOf(["a", null, "b", "a"], ["a", "b", "c"]);
  expect(shares.map(({ label, count, n }) => [label, count, n])).toEqual([
    ["a", 2, 3],
    ["b", 1, 3],
    ["c", 0, 3],
  ]);
});
