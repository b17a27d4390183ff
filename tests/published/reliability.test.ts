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
  it("has ICC(1,1) of 0.17 and ICC(1,4) of 0.44", () => {
    const icc = oneWayIcc(ratings);
    expect(icc).toMatchObject({ k: 6, n: 24, perMember: 4 });
    expect(icc.value).toBeCloseTo(0.17, 2);
    expect(spearmanBrown(icc.value!, 4)).toBeCloseTo(0.44, 2);
  });

  it("has the interval of its F ratio, from −0.13 to 0.72", () => {
    const icc = oneWayIcc(ratings);
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

describe("Sokal and Rohlf's mosquitoes, two measurements of four females in each of three cages", () => {
  // Sokal & Rohlf, Biometry, box 10.1 (left wings); data and table from memory.
  const females = [
    [
      [58.5, 59.5],
      [77.8, 80.9],
      [84.0, 83.6],
      [70.1, 68.3],
    ],
    [
      [69.8, 69.8],
      [56.0, 54.5],
      [50.7, 49.3],
      [63.8, 65.8],
    ],
    [
      [56.6, 57.5],
      [77.8, 79.2],
      [69.9, 69.2],
      [62.1, 64.5],
    ],
  ];
  const cages = females.flatMap((list, c) => list.map(() => `cage ${c}`));

  it("have the variance between females within cages of the nested analysis: 94.942 beside 1.3017", () => {
    const icc = oneWayIcc(females.flat(), cages);
    expect(icc).toMatchObject({ k: 12, n: 24, strata: 3, perMember: 2 });
    expect(icc.value).toBeCloseTo(94.942 / (94.942 + 1.3017), 4);
    // F 146.88 on 9 and 12 degrees of freedom.
    const low = 146.88 / jStat.centralF.inv(0.975, 9, 12);
    expect(icc.low).toBeCloseTo((low - 1) / (low + 1), 4);
  });

  it("in one cage have the value of the plain one-way analysis", () => {
    expect(oneWayIcc(females[0]!, ["a", "a", "a", "a"])).toEqual(oneWayIcc(females[0]!));
  });
});

it("Spearman and Brown: a test twice as long as one of 0.6 has 0.75, and back", () => {
  // 2·0.6 ÷ 1.6, by hand.
  expect(spearmanBrown(0.6, 2)).toBeCloseTo(0.75, 12);
  expect(valuesFor(0.75, 0.6)).toBeCloseTo(2, 12);
});
