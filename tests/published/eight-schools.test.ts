/** Pooling with the uncertainty of τ, against the example it is known by. */
import { describe, expect, it } from "vitest";
import { pooled } from "../../src/stats/randomEffects.ts";

/**
 * Coaching in eight schools: Rubin, J. Educ. Stat. 6, 1981, 377; Gelman et al., Bayesian Data Analysis, 3rd edition,
 * section 5.5. The effects and their standard errors are those of its table 5.2.
 */
const effects = [28, 8, -3, 7, -1, 1, 18, 12];
const errors = [15, 10, 16, 11, 9, 11, 10, 18];

/**
 * Its table 5.3: 2.5 %, median and 97.5 % of each school's effect, from 200 simulated draws, from memory; and, beside
 * them, the means and standard deviations that users of the same model and priors (flat on μ and τ) commonly print from
 * some thousand draws, from memory as well.
 */
const printed = [
  { low: -2, median: 10, high: 31, mean: 11.4, sd: 8.3 },
  { low: -5, median: 8, high: 23, mean: 7.9, sd: 6.3 },
  { low: -11, median: 7, high: 19, mean: 6.1, sd: 7.8 },
  { low: -7, median: 8, high: 21, mean: 7.6, sd: 6.5 },
  { low: -9, median: 5, high: 18, mean: 5.1, sd: 6.4 },
  { low: -7, median: 6, high: 28, mean: 6.1, sd: 6.7 },
  { low: -1, median: 10, high: 26, mean: 10.6, sd: 6.8 },
  { low: -6, median: 8, high: 33, mean: 8.5, sd: 7.9 },
];

describe("the eight schools", () => {
  const pool = () =>
    pooled(
      effects,
      errors.map((e) => e * e),
    )!;

  it.each(printed.map((row, i) => ({ school: "ABCDEFGH"[i]!, i, ...row })))(
    "school $school: mean $mean, standard deviation $sd",
    ({ i, mean, sd, median, low, high }) => {
      const { value, se, low: from, high: to } = pool().members[i]!;
      expect(Math.abs(value - mean)).toBeLessThan(0.5);
      expect(Math.abs(se - sd)).toBeLessThan(0.5);
      expect(Math.abs(value - median)).toBeLessThan(2);
      // The ends of 200 draws are uncertain by some points themselves.
      expect(Math.abs(from - low)).toBeLessThan(3);
      expect(Math.abs(to - high)).toBeLessThan(10);
    },
  );

  it("have a mean of about 8, and a τ that may be nearly nothing", () => {
    const found = pool();
    expect(Math.abs(found.mean.value - 8)).toBeLessThan(0.5);
    expect(found.tau.low).toBeLessThan(1);
    expect(found.tau.value).toBeGreaterThan(3.5);
    expect(found.tau.value).toBeLessThan(7);
    expect(found.tau.high).toBeGreaterThan(15);
    expect(found.tau.high).toBeLessThan(25);
  });
});
