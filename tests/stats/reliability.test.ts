import { randomLcg, randomNormal } from "d3";
import { mean, sampleCorrelation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { oneWayIcc, spearmanBrown, splitHalf, valuesFor } from "../../src/stats/reliability.ts";

const normal = randomNormal.source(randomLcg(0.7))(0, 1);
/** Members whose values have a true ICC. */
const members = (k: number, n: (i: number) => number, icc: number) =>
  Array.from({ length: k }, (_, i) => {
    const own = Math.sqrt(icc) * normal();
    return Array.from({ length: n(i) }, () => own + Math.sqrt(1 - icc) * normal());
  });

describe("the intraclass correlation", () => {
  it("comes back from values made with it, with equal and unequal numbers", () => {
    for (const n of [() => 20, (i: number) => 5 + (i % 30)]) {
      const icc = oneWayIcc(members(300, n, 0.3));
      expect(icc.value).toBeCloseTo(0.3, 1);
      expect(icc.low!).toBeLessThan(0.3);
      expect(icc.high!).toBeGreaterThan(0.3);
    }
  });

  it("covers the truth 19 times in 20", () => {
    let held = 0;
    for (let i = 0; i < 300; i++) {
      const icc = oneWayIcc(members(8, (m) => 15 + 5 * m, 0.1));
      if (icc.low! <= 0.1 && icc.high! >= 0.1) held++;
    }
    expect(held / 300).toBeGreaterThan(0.91);
    expect(held / 300).toBeLessThan(0.99);
  });

  it("is null where nothing varies or nothing is there, and 1 where members alone differ", () => {
    expect(oneWayIcc([]).value).toBeNull();
    expect(oneWayIcc([[1, 2, 3]]).value).toBeNull();
    expect(
      oneWayIcc([
        [4, 4],
        [4, 4],
      ]).value,
    ).toBeNull();
    expect(
      oneWayIcc([
        [4, 4],
        [7, 7],
      ]).value,
    ).toBe(1);
    expect(oneWayIcc([[4], [7]]).k).toBe(0);
  });
});

describe("within strata", () => {
  const strata = (k: number) => Array.from({ length: k }, (_, i) => `level ${i % 3}`);
  const apart = (list: number[][]) => list.map((values, i) => values.map((v) => v + 30 * (i % 3)));

  it("what the strata differ by is no member's: the correlation within comes back, by both ways", () => {
    const list = members(300, (i) => 10 + (i % 20), 0.2);
    const shifted = apart(list);
    expect(oneWayIcc(shifted).value!).toBeGreaterThan(0.95);
    const icc = oneWayIcc(shifted, strata(300));
    expect(icc.value).toBeCloseTo(0.2, 1);
    expect(icc.strata).toBe(3);
    const even = apart(members(300, () => 24, 0.2));
    const halves = splitHalf(even, strata(300));
    expect(spearmanBrown(halves.correlation!, 1 / 12)).toBeCloseTo(oneWayIcc(even, strata(300)).value!, 1);
  });

  it("covers the truth 19 times in 20", () => {
    let held = 0;
    for (let i = 0; i < 300; i++) {
      const icc = oneWayIcc(apart(members(9, (m) => 15 + 5 * m, 0.2)), strata(9));
      if (icc.low! <= 0.2 && icc.high! >= 0.2) held++;
    }
    expect(held / 300).toBeGreaterThan(0.91);
    expect(held / 300).toBeLessThan(0.99);
  });

  it("a member alone in its stratum is left out, and with all alone nothing is known", () => {
    const list = members(5, () => 12, 0.3);
    const [a, b, c, d, e] = list as [number[], number[], number[], number[], number[]];
    const icc = oneWayIcc([a, b, c, d, e], ["x", "x", "x", "x", "y"]);
    expect(icc).toEqual(oneWayIcc([a, b, c, d]));
    expect(oneWayIcc(list, ["1", "2", "3", "4", "5"])).toMatchObject({ k: 0, value: null, low: null });
    expect(splitHalf(list, ["1", "2", "3", "4", "5"]).correlation).toBeNull();
  });
});

describe("halves", () => {
  it("agree with the intraclass correlation, stepped down to one value", () => {
    const list = members(200, () => 24, 0.15);
    const halves = splitHalf(list);
    expect(halves.perHalf).toBeCloseTo(12, 9);
    expect(spearmanBrown(halves.correlation!, 1 / 12)).toBeCloseTo(oneWayIcc(list).value!, 1);
  });

  it("have the mean correlation over every way there is to halve, an odd value left out", () => {
    const few = [
      [1, 5, 2, 4],
      [3, 6, 8, 2, 7],
      [9, 4, 6, 8, 3, 7],
    ];
    const choose = (list: readonly number[], k: number): number[][] =>
      k === 0 ? [[]] : list.flatMap((v, i) => choose(list.slice(i + 1), k - 1).map((rest) => [v, ...rest]));
    /** Means of the first half and of the second, as often as each comes up; no value stands twice in a member. */
    const halvings = few.map((list) => {
      const half = Math.floor(list.length / 2);
      return choose(list, half).flatMap((first) =>
        choose(
          list.filter((v) => !first.includes(v)),
          half,
        ).map((second) => [mean(first), mean(second)] as const),
      );
    });
    expect(halvings.map((ways) => ways.length)).toEqual([6, 30, 20]);
    const all = halvings[0]!.flatMap((a) =>
      halvings[1]!.flatMap((b) =>
        halvings[2]!.map((c) => sampleCorrelation([a[0], b[0], c[0]], [a[1], b[1], c[1]])),
      ),
    );
    expect(splitHalf(few, undefined, 1, 20_000).correlation).toBeCloseTo(mean(all), 1.5);
  });

  it("need three members with four values", () => {
    expect(
      splitHalf([
        [1, 2, 3, 4],
        [1, 2, 3, 4],
        [1, 2, 3],
      ]),
    ).toMatchObject({ k: 2, correlation: null });
    expect(
      splitHalf([
        [1, 1, 1, 1],
        [1, 1, 1, 1],
        [1, 1, 1, 1],
      ]).correlation,
    ).toBeNull();
  });
});

it("values for a reliability are never reached from none", () => {
  expect(valuesFor(0.7, 0)).toBe(Infinity);
  expect(valuesFor(0.7, -0.1)).toBe(Infinity);
  expect(spearmanBrown(0.1, valuesFor(0.7, 0.1))).toBeCloseTo(0.7, 12);
});
