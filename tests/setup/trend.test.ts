import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { simulate } from "../../data/drift-simulation.ts";
import { drift } from "../../src/setup/drift.ts";
import { fewestForTrend, offTrend } from "../../src/setup/trend.ts";

const normal = randomNormal.source(randomLcg(0.7))(0, 1);

describe("sessions against the line of the others", () => {
  it("cry wolf in at most 1 library in 20, however steep the trend and however much days share", () => {
    for (const [gained, shared] of [
      [0, 0],
      [0.6, 0],
      [2, 3],
    ] as const) {
      let alarms = 0;
      const runs = 400;
      for (let run = 0; run < runs; run++) {
        const points = Array.from({ length: 8 }, (_, s) => ({
          value: gained * s + shared * normal() + 0.5 * normal(),
          error: 0.5,
        }));
        if (offTrend(points).some((p) => p!.clear)) alarms++;
      }
      // 20 of 400, and two standard errors.
      expect(alarms, `${gained} ${shared}`).toBeLessThanOrEqual(29);
    }
  });

  it("find the one that lies far off, at the ends too, and no other", () => {
    for (const odd of [0, 4, 8]) {
      const points = Array.from({ length: 9 }, (_, s) => ({
        value: 0.6 * s + 0.2 * (s % 2) + (s === odd ? 8 : 0),
        error: 0.3,
      }));
      expect(offTrend(points).map((p) => p!.clear)).toEqual(points.map((_, s) => s === odd));
    }
  });

  it("say nothing of fewer than six", () => {
    const few = Array.from({ length: fewestForTrend - 1 }, () => ({ value: 0, error: 1 }));
    expect(offTrend(few).every((p) => p === null)).toBe(true);
  });
});

describe("a library's exit velocities", () => {
  const spoken = (seed: number, planted: Parameters<typeof simulate>[1], off_mph = 0) => {
    const { swings, sessions, chosen } = simulate(seed, planted);
    const rows = swings.map((s) =>
      s.session === chosen ? { ...s, exit_velocity_mph: s.exit_velocity_mph! + off_mph } : s,
    );
    const odd = drift(rows, sessions).sessions.filter((s) =>
      s.reasons.some((r) => /^Exit velocities/.test(r)),
    );
    return { odd, chosen };
  };

  it("are not called odd where days differ twice as much, nor where a team improves", () => {
    for (const planted of [{ days: 2 }, { gained_mph: 0.6 }]) {
      let alarms = 0;
      for (let seed = 1; seed <= 6; seed++)
        if (spoken(seed, { hitters: 10, sessions: 12, ...planted }).odd.length > 0) alarms++;
      expect(alarms, JSON.stringify(planted)).toBeLessThanOrEqual(1);
    }
  });

  it("are called odd in the session that lies 6 mph off, and nothing is held back for them", () => {
    for (let seed = 1; seed <= 6; seed++) {
      const { odd, chosen } = spoken(seed, { hitters: 8, sessions: 8, gained_mph: 0.6 }, -6);
      expect(odd.map((s) => s.session)).toEqual([chosen]);
      expect(odd[0]!.verdict).toBe("look again");
      expect(odd[0]!.reasons.join(" ")).toMatch(
        /under the hitters' own trend, for all hitters together: the tracker, the balls or the hitters/,
      );
    }
  });
});
