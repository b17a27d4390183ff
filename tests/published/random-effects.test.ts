/** Random effects against thirteen published trials. */
import { describe, expect, it } from "vitest";
import { derSimonianLaird } from "../../src/stats/randomEffects.ts";

/**
 * Thirteen trials of a vaccine: cases and non-cases, vaccinated and not. Colditz et al., J. Am. Med. Assoc. 271,
 * 1994, 698; the table from memory.
 */
const trials = [
  [4, 119, 11, 128],
  [6, 300, 29, 274],
  [3, 228, 11, 209],
  [62, 13536, 248, 12619],
  [33, 5036, 47, 5761],
  [180, 1361, 372, 1079],
  [8, 2537, 10, 619],
  [505, 87886, 499, 87892],
  [29, 7470, 45, 7232],
  [17, 1699, 65, 1600],
  [186, 50448, 141, 27197],
  [5, 2493, 3, 2338],
  [27, 16886, 29, 17825],
] as const;

describe("DerSimonian and Laird on the thirteen trials", () => {
  const effects = trials.map(([a, b, c, d]) => Math.log(a / (a + b) / (c / (c + d))));
  const variances = trials.map(([a, b, c, d]) => 1 / a - 1 / (a + b) + 1 / c - 1 / (c + d));

  it("finds the spread, the mean and its error", () => {
    const fit = derSimonianLaird(effects, variances)!;
    // τ² 0.3088 and mean −0.7141 are what DESIGN section 10 names; Q 152.233 and the error 0.1787, from memory.
    expect(fit.k).toBe(13);
    expect(fit.tau2).toBeCloseTo(0.3088, 4);
    expect(fit.mean).toBeCloseTo(-0.7141, 4);
    expect(fit.q).toBeCloseTo(152.233, 3);
    expect(fit.se).toBeCloseTo(0.1787, 4);
  });

  it("solves its own equation: Q with its weights is k − 1 on average when τ² is 0", () => {
    const alike = effects.map(() => -0.7);
    expect(derSimonianLaird(alike, variances)).toMatchObject({ tau2: 0, mean: expect.closeTo(-0.7, 10) });
  });
});
