/** Holm's correction and the tails of Student's t, against what others print and compute. */
import { jStat } from "jstat";
import { expect, it } from "vitest";
import { tTail } from "../../src/stats/beta.ts";
import { holm, pOf } from "../../src/stats/holm.ts";

it("Holm's adjusted p-values are those of the Julia package MultipleTesting", () => {
  // The documented examples of `adjust(PValues([0.001, 0.01, 0.03, 0.5]), Holm())`, and of six tests of which
  // these are four (the two others with p = 1 change no other line).
  const ps = [0.001, 0.01, 0.03, 0.5];
  [0.004, 0.03, 0.06, 0.5].forEach((p, i) => expect(holm(ps)[i]).toBeCloseTo(p, 12));
  [0.006, 0.05, 0.12, 1].forEach((p, i) => expect(holm([...ps, 1, 1])[i]).toBeCloseTo(p, 12));
});

it("the tails of Student's t are those of jstat", () => {
  for (const freedom of [1, 2, 2.5, 7, 30, 400])
    for (const t of [0.1, 1, 2, 4.3, 9])
      expect(tTail(-t, freedom)).toBeCloseTo(2 * jStat.studentt.cdf(-t, freedom), 7);
});

it("a p-value from an interval is the trial's", () => {
  // Altman & Bland, BMJ 343, 2011, d2090 and d2304: 49% against 32%, a difference of 17 points; P = 0.032, 95% CI
  // 1.4 to 32.6.
  expect(Math.abs(pOf({ value: 17, low: 1.4, high: 32.6, freedom: null }) - 0.032)).toBeLessThan(0.001);
});
