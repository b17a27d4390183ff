/** The variance of a product of two estimates against Goodman's formula. */
import { expect, it } from "vitest";
import { mixDoubt } from "../../src/stats/split.ts";

it("of two groups is Goodman's: x²·v(y) + y²·v(x) − v(x)·v(y)", () => {
  // Goodman, J. Am. Stat. Assoc. 55, 1960, 708, formula from memory; with two groups the mix is the product of the
  // change of the first's share and the difference of the groups' means. By hand:
  const side = (first: readonly number[], second: readonly number[]) => ({
    value: [...first, ...second],
    group: [...first.map(() => 0), ...second.map(() => 1)],
    session: [...first, ...second].map(() => 0),
  });
  const from = side([10, 12, 14, 16], [5, 7, 9, 11]);
  const to = side([11, 15], [4, 5, 6, 7, 8, 9]);
  // Shares of the first group 4/8 and 2/8; means 13 and 8, then 13 and 6.5; halves of the sides' differences 5 and 6.5.
  const x = 2 / 8 - 4 / 8;
  const y = (5 + 6.5) / 2;
  // Multinomial, over n − 1: 0.5·0.5/7 + 0.25·0.75/7.
  const vx = (0.25 + 0.1875) / 7;
  // Variances of the four means: 6.667/4, 6.667/4, 8/2, 3.5/6; the difference has a quarter of their sum.
  const vy = (20 / 3 / 4 + 20 / 3 / 4 + 8 / 2 + 3.5 / 6) / 4;
  const doubt = mixDoubt(2, from, to)!;
  expect(doubt.se ** 2).toBeCloseTo(x * x * vy + y * y * vx - vx * vy, 10);
  expect(doubt.freedom).toBe(12);
});
