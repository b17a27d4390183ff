/** Wilcoxon's rank sum, alone and within strata, against a handbook's example, hand work and every permutation there is. */
import { describe, expect, it } from "vitest";
import { normalProbability } from "../../src/stats/normal.ts";
import { rankDeviate, type Stratum } from "../../src/stats/ranks.ts";

const stratum = (asked: readonly number[], others: readonly number[]): Stratum => ({
  values: [...asked, ...others],
  asked: [...asked.map(() => true), ...others.map(() => false)],
});

describe("of one stratum it is Wilcoxon's rank sum", () => {
  // Hollander & Wolfe, Nonparametric Statistical Methods, 1973, p. 69 f.: permeability of the human chorioamnion at
  // term and between 12 and 26 weeks. Data as handed on in teaching code of the Indian Statistical Institute (RankSum.R).
  const term = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
  const before = [1.15, 0.88, 0.9, 0.74, 1.21];

  it("W = 90 of ranks, 35 beyond the least, 25 expected, variance 10 · 5 · 16 / 12", () => {
    expect(rankDeviate([stratum(term, before)])).toBeCloseTo((35 - 25) / Math.sqrt((10 * 5 * 16) / 12), 10);
  });

  it("whose large-sample p-value, one-sided, is 0.1103 (from memory of the same example)", () => {
    expect(1 - normalProbability(rankDeviate([stratum(term, before)])!)).toBeCloseTo(0.1103, 4);
  });

  it("and the other sample's with its sign turned", () => {
    expect(rankDeviate([stratum(before, term)])!).toBeCloseTo(-rankDeviate([stratum(term, before)])!, 12);
  });
});

it("ties share their mean rank, and the variance is that of the ranks as they are", () => {
  // By hand: ranks 1, 2.5, 2.5 and 4; the first two are 1.5 under 2 · 2.5, the variance 2 · 2 · 4.5 / (4 · 3).
  const tied = stratum([1, 2], [2, 3]);
  expect(rankDeviate([tied])).toBeCloseTo(-1.5 / Math.sqrt(1.5), 12);
  // Whichever of those that are tied comes first.
  expect(rankDeviate([stratum([2, 3], [1, 2])])).toBeCloseTo(1.5 / Math.sqrt(1.5), 12);
  // The last two: 1.5, 1.5, 3.5, 3.5, of which the first and the third are asked about.
  expect(rankDeviate([stratum([1, 2], [1, 2])])).toBe(0);
});

describe("of several strata it is van Elteren's", () => {
  const [three, four] = [stratum([1], [2, 3]), stratum([10, 20], [30, 40])];

  it("each stratum's excess and variance over its size and one, by hand", () => {
    // (1 − 2)/4 + (3 − 5)/5 = −0.65; 1 · 2/(12 · 4) + 2 · 2/(12 · 5) = 0.108333.
    expect(rankDeviate([three, four])).toBeCloseTo(-0.65 / Math.sqrt(1 / 24 + 1 / 15), 10);
  });

  it("knows nothing of what strata differ by, nor of the shape of the values", () => {
    const moved = { ...four, values: four.values.map((v) => Math.exp(v / 10) - 1000) };
    expect(rankDeviate([three, moved])).toBe(rankDeviate([three, four]));
    // A stratum with one side alone says nothing.
    expect(rankDeviate([three, four, stratum([7, 8], [])])).toBe(rankDeviate([three, four]));
  });

  it("has mean 0 and variance 1 over every way to choose who is asked about, ties and all", () => {
    const values = [
      [1, 2, 2, 3, 5],
      [4, 4, 4, 6],
    ] as const;
    const ways = (n: number, k: number): boolean[][] =>
      Array.from({ length: 2 ** n }, (_, bits) =>
        Array.from({ length: n }, (_, i) => ((bits >> i) & 1) === 1),
      ).filter((way) => way.filter(Boolean).length === k);
    const all = ways(5, 2).flatMap((first) =>
      ways(4, 2).map((second) =>
        rankDeviate([
          { values: values[0], asked: first },
          { values: values[1], asked: second },
        ])!,
      ),
    );
    expect(all).toHaveLength(60);
    const mean = all.reduce((a, b) => a + b, 0) / all.length;
    expect(mean).toBeCloseTo(0, 10);
    expect(all.reduce((a, b) => a + (b - mean) ** 2, 0) / all.length).toBeCloseTo(1, 10);
  });
});
