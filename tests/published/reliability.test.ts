/** Reliability against a published table, Spearman and Brown's formula, and a reference library's F ratio. */
import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import { oneWayIcc, spearmanBrown, valuesFor } from "../../src/stats/reliability.ts";

/** Six targets, each judged by four. Shrout & Fleiss, Psychol. Bull. 86, 1979, 420, table 2. */
const ratings = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];

describe("Shrout and Fleiss's six by four table", () => {
  const icc = oneWayIcc(ratings);

  it("has ICC(1,1) of 0.17 and ICC(1,4) of 0.44", () => {
    expect(icc).toMatchObject({ k: 6, n: 24, perMember: 4 });
    expect(icc.value).toBeCloseTo(0.17, 2);
    expect(spearmanBrown(icc.value!, 4)).toBeCloseTo(0.44, 2);
  });

  it("has the interval of its F ratio, from −0.13 to 0.72", () => {
    // The ends from memory; the same from the article's formula with the reference library's quantiles.
    expect(icc.low).toBeCloseTo(-0.13, 2);
    expect(icc.high).toBeCloseTo(0.72, 2);
    const f = jStat.anovafscore(...ratings);
    const low = f / jStat.centralF.inv(0.975, 5, 18);
    const high = f * jStat.centralF.inv(0.975, 18, 5);
    expect(icc.value).toBeCloseTo((f - 1) / (f + 3), 10);
    expect(icc.low).toBeCloseTo((low - 1) / (low + 3), 6);
    expect(icc.high).toBeCloseTo((high - 1) / (high + 3), 6);
  });
});

it("Spearman and Brown: a test twice as long as one of 0.6 has 0.75, and back", () => {
  // 2·0.6 ÷ 1.6, by hand.
  expect(spearmanBrown(0.6, 2)).toBeCloseTo(0.75, 12);
  expect(valuesFor(0.75, 0.6)).toBeCloseTo(2, 12);
});
