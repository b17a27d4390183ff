/** A change between two days, the days' own spread counted: how often it is called where nothing changed. */
import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { withDays, fewestDays } from "../../src/stats/dayChange.ts";
import { meansUncertainty } from "../../src/stats/twoStage.ts";
import { group } from "../../src/stats/bootstrap.ts";
import { t95 } from "../../src/stats/beta.ts";
import { pOf, standing } from "../../src/stats/holm.ts";
import type { Difference } from "../../src/stats/difference.ts";

const normal = randomNormal.source(randomLcg(0.7))(0, 1);

interface Day {
  readonly n: number;
  readonly value: number;
  readonly variance: number;
}

/** A day of 45 swings that vary by 8 mph, the day itself by so much. */
function dayOf(days: number, n = 45): Day {
  const own = days * normal();
  const values = Array.from({ length: n }, () => own + 8 * normal());
  const value = values.reduce((a, b) => a + b, 0) / n;
  return { n, value, variance: values.reduce((sum, v) => sum + (v - value) ** 2, 0) / (n - 1) };
}

/** The difference of two days as their swings give it. */
function between(from: Day, to: Day): Difference {
  const value = to.value - from.value;
  const se = Math.sqrt(from.variance / from.n + to.variance / to.n);
  const freedom = from.n + to.n - 2;
  const half = t95(freedom) * se;
  const ends = { value, low: value - half, high: value + half, se, freedom };
  return { from, to, ...ends, resampled: "swings", reason: null };
}

/** Tables of 14 lines in which nothing changed: lines that would be marked, and tables with one that stands after Holm. */
function falseAlarms(days: number, earlier: number, tables: number): { lines: number; stand: number } {
  let [lines, stand] = [0, 0];
  for (let t = 0; t < tables; t++) {
    const found = Array.from({ length: 14 }, () => {
      const all = Array.from({ length: earlier + 1 }, () => dayOf(days));
      return withDays(between(all.at(-2)!, all.at(-1)!), all.slice(0, -1))!;
    });
    lines += found.filter(({ low, high }) => low! > 0 || high! < 0).length;
    if (standing(found.map(pOf)).some(Boolean)) stand++;
  }
  return { lines: lines / (14 * tables), stand: stand / tables };
}

describe("a change between days", () => {
  it.each([
    [0, 3],
    [1.5, 3],
    [3, 3],
    [3, 7],
  ])("is marked in 5 lines of 100 at most, days of %s mph and %s earlier sessions", (days, earlier) => {
    const { lines, stand } = falseAlarms(days, earlier, 60);
    // 840 lines and 60 tables: 5 in 100, give or take 1.9 and 7.
    expect(lines).toBeLessThan(0.069);
    expect(stand).toBeLessThan(0.12);
  });

  it("that no days make stands", () => {
    const calm = [0, 0.3, -0.2, 0.1, 0.2].map((value) => ({ n: 45, value, variance: 64 }));
    const leap = withDays(between(calm.at(-1)!, { n: 45, value: 12, variance: 64 }), calm)!;
    expect(leap.low!).toBeGreaterThan(0);
    const wild = [0, 9, -8, 4, -3].map((value) => ({ n: 45, value, variance: 64 }));
    const same = withDays(between(wild.at(-1)!, { n: 45, value: 9, variance: 64 }), wild)!;
    expect(same.low!).toBeLessThan(0);
  });

  it("has no interval with fewer earlier sessions than days can be told from, nor without one of its own", () => {
    const days = [0, 1].map((value) => ({ n: 45, value, variance: 64 }));
    expect(days.length).toBeLessThan(fewestDays);
    expect(withDays(between(days[0]!, days[1]!), days)).toBeNull();
    const none = { ...between(days[0]!, days[1]!), low: null, high: null };
    expect(withDays(none, [...days, ...days])).toBeNull();
  });

  it("stays within a share's bounds, and both ends move out", () => {
    const share: Difference = {
      ...between({ n: 20, value: 0.9, variance: 0.09 }, { n: 20, value: 0.2, variance: 0.16 }),
      low: -0.85,
      high: -0.42,
      freedom: null,
    };
    const days = [0.9, 0.2, 0.7].map((value) => ({ n: 20, value }));
    const told = withDays(share, days, 1)!;
    expect(told.low!).toBeGreaterThanOrEqual(-1);
    expect(told.low!).toBeLessThan(-0.85);
    expect(told.high!).toBeGreaterThan(-0.42);
  });

  it("goes by the same days as an interval over those sessions does", () => {
    // Of two equal sessions a mean has σ²/2n + τ²/2 and their change σ²·2/n + 2τ²: twice the standard error.
    const sessions = [-3, 1, 2].map((shift) => Array.from({ length: 40 }, (_, i) => shift + 8 * Math.sin(i)));
    const names = sessions.flatMap((list, s) => list.map(() => `${s}`));
    const mean = meansUncertainty([group(sessions.flat(), names)])!;
    const days = sessions.map((list): Day => {
      const value = list.reduce((a, b) => a + b, 0) / list.length;
      const squares = list.reduce((sum, v) => sum + (v - value) ** 2, 0);
      return { n: list.length, value, variance: squares / (list.length - 1) };
    });
    const change = withDays(between(days[1]!, days[2]!), days)!;
    // Three sessions: σ²/3n + τ²/3 against 2σ²/n + 2τ², six times the variance.
    expect(change.se! / mean.se).toBeCloseTo(Math.sqrt(6), 1);
  });
});
