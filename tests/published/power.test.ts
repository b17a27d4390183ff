/** How many it takes: the chance of finding a difference, against published tables and a reference's printed example. */
import { expect, it } from "vitest";
import { powerOfT } from "../../src/stats/power.ts";

it("is Cohen's for two equal groups", () => {
  // Cohen, Psychol. Bull. 112, 1992, 155, table 2: 26, 64 and 393 a group find d = 0.8, 0.5 and 0.2 with 80 %; from memory.
  for (const [n, d] of [
    [26, 0.8],
    [64, 0.5],
    [393, 0.2],
  ] as const) {
    const power = (size: number): number => powerOfT(d * Math.sqrt(size / 2), 2 * size - 2);
    expect(power(n)).toBeGreaterThan(0.799);
    expect(power(n)).toBeLessThan(0.81);
    expect(power(n - 1)).toBeLessThan(0.803);
  }
});

it("is what the test is wrong by where there is nothing to find, on both sides", () => {
  for (const freedom of [3, 14, 60]) expect(powerOfT(0, freedom)).toBeCloseTo(0.05, 4);
});

it("is what R prints for its own example", () => {
  // power.t.test(n = 20, delta = 1, sd = 1): 0.8689528, on R's page of that function; from memory. R leaves out the far
  // side, which is nothing here.
  expect(powerOfT(Math.sqrt(10), 38)).toBeCloseTo(0.86895, 4);
});
