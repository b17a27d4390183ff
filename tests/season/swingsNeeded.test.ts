/** A plan's number of sessions, against simulated ones. */
import { randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { progress } from "../../src/season/progress.ts";
import { pooledSpreads, powerOf, swingsNeeded } from "../../src/season/swingsNeeded.ts";
import { sessionTrend } from "../../src/stats/sessionTrend.ts";
import { randomFrom } from "../../src/stats/random.ts";
import { teeSeason } from "./rows.ts";

const line = (seed: number, days: number[] = [0, 7, 14, 21, 28, 35]) =>
  progress(
    { ...teeSeason(days, 25, () => 75, { seed }), hitters: [], thresholds: null },
    "Ines W.",
  ).lines.find((l) => l.first)!;

/** How often a change is told between two spells of sessions, by the season's own regression. */
function told(draw: (side: number) => number, variance: number, m: number, runs = 1500): number {
  let found = 0;
  for (let run = 0; run < runs; run++) {
    const points = [0, 1].flatMap((x) => Array.from({ length: m }, () => ({ x, value: draw(x), variance })));
    if (sessionTrend(points)!.p < 0.05) found++;
  }
  return found / runs;
}

describe("a plan", () => {
  it("gives as many sessions as find the change four times in five, and no fewer", () => {
    const needed = swingsNeeded(line(1), [line(2), line(3)], 1.5, 20)!;
    const { swing_sd, day_sd } = needed.spreads;
    const normal = randomNormal.source(randomFrom(11))(0, 1);
    const variance = swing_sd ** 2 / 20;
    const draw = (x: number): number => 1.5 * x + day_sd * normal() + Math.sqrt(variance) * normal();
    const m = needed.eachSide!;
    expect(told(draw, variance, m)).toBeGreaterThan(0.77);
    expect(told(draw, variance, m - 1)).toBeLessThan(0.83);
  });

  it("does so for shares, whose swings are yes or no", () => {
    const uniform = randomFrom(12);
    const spreads = { swing_sd: 0.5, day_sd: 0 };
    const sides = (m: number) => [
      { sessions: m, swings: 25 },
      { sessions: m, swings: 25 },
    ];
    let m = 2;
    while (powerOf(spreads, 0.2, sides(m)) < 0.8) m++;
    const draw = (x: number): number => {
      let hits = 0;
      for (let i = 0; i < 25; i++) if (uniform() < 0.4 + 0.2 * x) hits++;
      return hits / 25;
    };
    expect(told(draw, 0.25 / 25, m)).toBeGreaterThan(0.77);
    expect(told(draw, 0.25 / 25, m)).toBeLessThan(0.93);
  });

  it("leans on the group where a hitter has little, and asks for no more sessions than anybody plans", () => {
    const few = line(1, [0]);
    expect(few.day_sd).toBeNull();
    expect(pooledSpreads(few, [line(2)])!.day_sd).toBe(line(2).day_sd);
    expect(swingsNeeded(few, [], 0.01)!.eachSide).toBeNull();
    expect(pooledSpreads(null, [])).toBeNull();
    const plan = swingsNeeded(line(1), [], 2)!;
    expect(plan.more).not.toBeNull();
    expect(plan.more!).toBeLessThanOrEqual(plan.eachSide!);
  });
});
