/** How often the intervals hold the truth, where it is known. */
import { describe, expect, it } from "vitest";
import published from "../../data/gap-coverage.json" with { type: "json" };
import { coverage, settings } from "../../src/gap/simulate.ts";

describe("the published figures", () => {
  it("are those of the settings in the code, 200 teams each", () => {
    expect(published.teams).toBe(200);
    expect(
      published.rows.map(({ swings, sessions, day_sd_mph }) => ({ swings, sessions, day_sd_mph })),
    ).toEqual(settings);
    for (const row of published.rows) expect(row.hitters).toBe(1600);
  });

  it("hold the gap 92 to 97 times in 100, at 15 and at 30 swings a side, one and several sessions", () => {
    const many = published.rows.filter((row) => row.swings >= 15);
    expect(many).toHaveLength(24);
    for (const { held, ...setting } of many) {
      const percent = (name: keyof typeof held) => Math.round(100 * held[name].share!);
      for (const name of ["gap", "beyond pitch"] as const) {
        expect(held[name].n).toBe(1600);
        expect(percent(name), `${name} at ${JSON.stringify(setting)}`).toBeGreaterThanOrEqual(92);
        expect(percent(name), `${name} at ${JSON.stringify(setting)}`).toBeLessThanOrEqual(97);
      }
      // Parts made of products of two uncertain things err on the wide side, never on the narrow one.
      for (const name of ["pitch speed", "place", "bat speed", "contact"] as const)
        expect(percent(name), `${name} at ${JSON.stringify(setting)}`).toBeGreaterThanOrEqual(92);
    }
  });

  it("hold it as often at 5 swings a side, where the interval is wide", () => {
    for (const { held, width_mph, ...setting } of published.rows.filter((row) => row.swings === 5)) {
      expect(Math.round(100 * held.gap.share!), JSON.stringify(setting)).toBeGreaterThanOrEqual(92);
      expect(Math.round(100 * held.gap.share!), JSON.stringify(setting)).toBeLessThanOrEqual(97);
      expect(width_mph).toBeGreaterThan(20);
      // No nine cells, and no two groups of them, have five balls each.
      expect(held.place.n).toBe(0);
    }
  });

  it("say what one session leaves out: the hitter's own gap is held less often the more days differ", () => {
    const one = published.rows.filter((row) => row.sessions === 1 && row.swings === 30);
    const shares = one.map((row) => row.heldAcrossDays!.share!);
    expect(shares[0]!).toBeGreaterThan(0.92);
    expect(shares[1]!).toBeLessThan(shares[0]!);
    expect(shares[2]!).toBeLessThan(0.7);
  });
});

it("come back from a few teams made anew", () => {
  for (const [setting, teams] of [
    [{ swings: 15, sessions: 3, day_sd_mph: 1.5 }, 40],
    [{ swings: 15, sessions: 1, day_sd_mph: 0 }, 40],
    [{ swings: 5, sessions: 1, day_sd_mph: 0 }, 40],
  ] as const) {
    const { held, hitters } = coverage(setting, teams, 9);
    expect(hitters).toBe(8 * teams);
    // 320 intervals: 95 % give or take 2.4.
    expect(held.gap.share!).toBeGreaterThan(0.91);
    expect(held.gap.share!).toBeLessThan(0.99);
    expect(held["pitch speed"].share!).toBeGreaterThan(0.89);
  }
});
