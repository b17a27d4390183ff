/** The bootstrap against the example it is known by, and its distributions against a reference library. */
import { jStat } from "jstat";
import { sampleCorrelation, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { fQuantile, incompleteBeta, t95 } from "../../src/stats/beta.ts";
import { group } from "../../src/stats/bootstrap.ts";
import { drawAnew } from "../../src/stats/twoStage.ts";

/** Fifteen law schools: mean admission score and mean grade. Efron & Tibshirani, 1993, table 3.1. */
const score = [576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594];
const grade = [3.39, 3.3, 2.81, 3.03, 3.44, 3.07, 3.0, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96];

describe("the fifteen law schools", () => {
  it("have a correlation of 0.776, with a bootstrap standard error of about 0.13", () => {
    expect(sampleCorrelation(score, grade)).toBeCloseTo(0.776, 3);
    expect(jStat.corrcoeff(score, grade)).toBeCloseTo(0.776, 3);
    const schools = group(score.map((_, i) => i));
    const [drawn] = drawAnew(
      [schools],
      ([rows], [n], out) => {
        const picked = Array.from(rows!.subarray(0, n));
        out[0] = sampleCorrelation(
          picked.map((i) => score[i]!),
          picked.map((i) => grade[i]!),
        );
      },
      1,
      7,
      3200,
    );
    // The book's table 6.1: 0.131 or 0.132 from 400 replications on.
    expect(sampleStandardDeviation(Array.from(drawn!))).toBeCloseTo(0.132, 2);
  });
});

describe("distributions, against jstat", () => {
  it.each([1, 1.5, 2, 3.7, 9, 28, 250])("Student's t with %d degrees of freedom", (freedom) => {
    expect(t95(freedom)).toBeCloseTo(jStat.studentt.inv(0.975, freedom), 6);
  });

  it.each([
    [0.975, 5, 18],
    [0.975, 18, 5],
    [0.5, 7, 900],
    [0.95, 1, 10],
    [0.025, 3, 3],
  ])("F at %d with %d and %d", (p, d1, d2) => {
    expect(fQuantile(p, d1, d2) / jStat.centralF.inv(p, d1, d2)).toBeCloseTo(1, 6);
  });

  it.each([
    [0.2, 0.5, 0.5],
    [0.7, 3, 8],
    [0.99, 40, 2],
  ])("the beta distribution at %d with %d and %d", (x, a, b) => {
    expect(incompleteBeta(x, a, b)).toBeCloseTo(jStat.beta.cdf(x, a, b), 10);
  });
});
