/** A randomization test against the first one that was published. */
import { expect, it } from "vitest";
import { signFlips } from "../../src/stats/randomization.ts";

/**
 * Darwin's fifteen pairs of maize plants, crossed less self-fertilized, in eighths of an inch; Fisher, The Design of
 * Experiments, 1935, section 21, goes through all 32 768 outcomes: 863 of them total 314 or more one way, so 1 726 either
 * way, 5.267 %. Figures from memory; that he compiled the 32 768 by hand: Odiase & Ogbonmwan, J. Math. Stat. 3, 2007, 116.
 */
const maize = [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48];

it("counts Fisher's outcomes of Darwin's maize", () => {
  expect(maize.reduce((a, b) => a + b)).toBe(314);
  const { n, p, exact } = signFlips(maize);
  expect([n, exact]).toEqual([15, true]);
  expect(p * 2 ** 15).toBeCloseTo(1726, 6);
  expect(p).toBeCloseTo(0.05267, 5);
});

it("comes to about the same where outcomes are drawn", () => {
  // Two more pairs without a difference double each outcome twice, and change no share.
  const { p, exact } = signFlips([...maize, 0, 0]);
  expect(exact).toBe(false);
  expect(Math.abs(p - 0.05267)).toBeLessThan(0.005);
});
