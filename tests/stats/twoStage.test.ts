import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { t95 } from "../../src/stats/beta.ts";
import { group, mean, spread, type Grouped } from "../../src/stats/bootstrap.ts";
import { meanDifference, quantileDifference } from "../../src/stats/difference.ts";
import { studentOf } from "../../src/stats/days.ts";
import { drawAnew, figureOf, intervalsOf, meansUncertainty, resampledOf } from "../../src/stats/twoStage.ts";

const normal = randomNormal.source(randomLcg(0.3))(0, 1);
const days = (k: number, each: number, daySd: number) => {
  const shifts = Array.from({ length: k }, () => daySd * normal());
  const values = shifts.flatMap((shift) => Array.from({ length: each }, () => shift + 8 * normal()));
  return { values, sessions: shifts.flatMap((_, i) => Array<string>(each).fill(`day ${i}`)) };
};

describe("drawing anew", () => {
  it("is the same for the same seed, and another for another", () => {
    const sample = group([1, 2, 3, 4, 5, 6], ["a", "a", "b", "b", "c", "c"]);
    const [a] = drawAnew([sample], figureOf(mean), 1, 3, 50);
    const [b] = drawAnew([sample], figureOf(mean), 1, 3, 50);
    const [c] = drawAnew([sample], figureOf(mean), 1, 4, 50);
    expect(a).toEqual(b);
    expect(a).not.toEqual(c);
  });

  it("knows of sessions only where each side has two", () => {
    expect(resampledOf([{ groups: 2 }])).toBe("sessions");
    expect(resampledOf([{ groups: 1 }])).toBe("swings");
    expect(resampledOf([{ groups: 3 }, { groups: 1 }])).toBe("swings");
  });
});

describe("intervals of swings alone", () => {
  it("have the standard error of two means, and Welch's degrees of freedom", () => {
    const [a, b] = [Array.from({ length: 12 }, normal), Array.from({ length: 40 }, () => 3 * normal())];
    const variance = (v: number[]) => spread(Float64Array.from(v), v.length) ** 2 / v.length;
    const [va, vb] = [variance(a), variance(b)];
    const d = meanDifference({ values: a }, { values: b });
    expect(d.se! / Math.sqrt(va + vb)).toBeCloseTo(1, 1);
    expect(d.freedom).toBeCloseTo((va + vb) ** 2 / (va ** 2 / 11 + vb ** 2 / 39), 6);
  });
});

describe("intervals that know of sessions", () => {
  it("have the spread of the sessions' means when days differ much", () => {
    const [a, b] = [days(6, 40, 20), days(6, 40, 20)];
    const meansOf = ({ values }: { values: number[] }) =>
      Array.from({ length: 6 }, (_, i) => mean(Float64Array.from(values.slice(40 * i, 40 * i + 40)), 40));
    const variance = [a, b]
      .map(meansOf)
      .reduce((sum, m) => sum + spread(Float64Array.from(m), 6) ** 2 / 6, 0);
    const d = meanDifference(a, b);
    expect(d.resampled).toBe("sessions");
    expect(d.se! / Math.sqrt(variance)).toBeGreaterThan(0.95);
    expect(d.se! / Math.sqrt(variance)).toBeLessThan(1.05);
    expect(d.freedom!).toBeLessThan(11);
  });

  it("cover the truth 19 times in 20 or more, whether days differ or not, and are no wider than it takes", () => {
    for (const daySd of [0, 3]) {
      let [held, width] = [0, 0];
      const runs = 250;
      for (let i = 0; i < runs; i++) {
        const d = meanDifference(days(3, 8, daySd), days(3, 8, daySd), i);
        if (d.low! <= 0 && d.high! >= 0) held++;
        width += d.high! - d.low!;
      }
      expect(held / runs).toBeGreaterThan(0.92);
      // Three days a side can't tell that days are alike, which widens what swings of spread 8 alone would leave.
      const alone = 2 * t95(46) * 8 * Math.sqrt(2 / 24);
      expect(width / runs / alone).toBeLessThan(daySd === 0 ? 1.6 : 2.1);
    }
  });

  it("hold it as often with five swings a side, where days differ by as much as swings do", () => {
    let held = 0;
    const runs = 250;
    for (let i = 0; i < runs; i++) {
      const side = () => {
        const { values, sessions } = days(2, 3, 8);
        return { values: values.slice(1), sessions: sessions.slice(1) };
      };
      const d = meanDifference(side(), side(), i);
      expect(d.resampled).toBe("sessions");
      if (d.low! <= 0 && d.high! >= 0) held++;
    }
    expect(held / runs).toBeGreaterThan(0.89);
  });

  it("rest on the sessions of the sides that vary", () => {
    const [a, b] = [days(4, 10, 20), days(4, 10, 20)];
    const none = { values: a.values.map(() => 0), sessions: a.sessions };
    // Three degrees of freedom a side, were the days all there is; how much days differ as a rule adds a little.
    const one = meanDifference(none, b).freedom!;
    expect(one).toBeLessThan(5.5);
    expect(meanDifference(a, b).freedom!).toBeGreaterThan(5.5);
  });

  it("are never much narrower than those of swings alone, however alike the days look", () => {
    // Two sessions a side with the very same mean: sessions alone would have no spread at all.
    const values = Array.from({ length: 20 }, normal);
    const twice = {
      values: [...values, ...values],
      sessions: Array.from({ length: 40 }, (_, i) => (i < 20 ? "a" : "b")),
    };
    const [by, alone] = [
      meanDifference(twice, twice),
      meanDifference({ values: twice.values }, { values: twice.values }),
    ];
    expect((by.high! - by.low!) / (alone.high! - alone.low!)).toBeGreaterThan(0.9);
  });

  it("are null where every resample is the same", () => {
    const same = group([5, 5, 5, 5, 5]);
    expect(intervalsOf([same], figureOf(mean), [5], [0])).toEqual([null]);
    // Or differs by rounding alone, of a million or about 0.
    const apart = (middle: number, by: number) =>
      group(Array.from({ length: 12 }, (_, i) => middle + (i % 2 === 0 ? -by : by)));
    const of = (sample: Grouped) => intervalsOf([sample], figureOf(mean), [mean(sample.values, 12)], [1])[0];
    expect([of(apart(1e6, 1e-8)), of(apart(0, 1e-17))]).toEqual([null, null]);
    expect([of(apart(1e6, 1)), of(apart(0, 1e-9))]).not.toContain(null);
  });
});

describe("uncertainty of means, without drawing", () => {
  /** What the definition gives: sessions' means about the mean of all, and the swings' own variance over n. */
  const byHand = (values: readonly number[], each: number, small: boolean) => {
    const n = values.length;
    const groups = n / each;
    const all = values.reduce((a, b) => a + b, 0) / n;
    const squares = (list: readonly number[], about: number) =>
      list.reduce((sum, v) => sum + (v - about) ** 2, 0);
    const lists = Array.from({ length: groups }, (_, i) => values.slice(i * each, (i + 1) * each));
    const means = lists.map((list) => list.reduce((a, b) => a + b, 0) / each);
    const within = lists.reduce((sum, list, i) => sum + squares(list, means[i]!), 0);
    const freedom = small ? n - 1 : n - groups;
    return studentOf([
      {
        sizes: lists.map(() => each),
        apart: means.map((m) => m - all),
        within: (small ? squares(values, all) : within) / freedom / n,
        freedom,
      },
    ]);
  };
  const values = [61, 74, 70, 66, 81, 59, 72, 77, 68, 63, 79, 70, 65, 73, 76, 60];

  it.each([
    [8, 4, "fewer than ten swings", true],
    [10, 5, "ten swings", false],
    [16, 1, "one swing a session", true],
    [16, 2, "two swings a session", false],
  ])("of %d swings, %d a session: %s", (n, each, _, small) => {
    const some = values.slice(0, n);
    const found = meansUncertainty([
      group(
        some,
        some.map((_v, i) => `day ${Math.floor(i / each)}`),
      ),
    ])!;
    const [wanted, other] = [byHand(some, each, small), each === 1 ? null : byHand(some, each, !small)];
    expect(found.se).toBeCloseTo(wanted.se, 9);
    expect(found.freedom).toBeCloseTo(wanted.freedom, 9);
    if (other !== null) expect(Math.abs(found.se / other.se - 1)).toBeGreaterThan(1e-4);
  });

  it("where swings of one session are all alike, a fiftieth of all there is counts as the swings' own", () => {
    const sessions = values.slice(0, 12).map((_, i) => (i < 6 ? "a" : "b"));
    const found = meansUncertainty([
      group([...Array<number>(6).fill(50), ...Array<number>(6).fill(70)], sessions),
    ])!;
    // Squares about 60: 12 · 100.
    const wanted = studentOf([
      { sizes: [6, 6], apart: [-10, 10], within: (0.02 * 1200) / 10 / 12, freedom: 10 },
    ]);
    expect(found.se).toBeCloseTo(wanted.se, 9);
    expect(found.freedom).toBeCloseTo(wanted.freedom, 9);
  });

  it("two sessions on each side are enough to be counted, and one on either is not", () => {
    const sessions = values.map((_, i) => (i % 2 === 0 ? "a" : "b"));
    const of = (sides: readonly string[][]) =>
      meanDifference({ values, sessions: sides[0]! }, { values, sessions: sides[1]! });
    const one = values.map(() => "a");
    expect(
      [of([sessions, sessions]), of([sessions, one]), of([one, sessions])].map((d) => d.resampled),
    ).toEqual(["sessions", "swings", "swings"]);
    // Two days show little of how much days differ.
    expect(of([sessions, sessions]).freedom!).toBeLessThan(of([one, one]).freedom! / 2);
  });
});

it("an end of a distribution asks for more swings than its middle", () => {
  const values = Array.from({ length: 15 }, normal);
  expect(quantileDifference({ values }, { values }, 0.95, 20).reason).toBe(
    "too few for an interval: 15 and 15",
  );
  expect(quantileDifference({ values }, { values }, 0.5).low).not.toBeNull();
});
