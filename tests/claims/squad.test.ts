/** The made-up hitters are what they are said to be, and what is counted of them is counted right. */
import { deviation, mean, median } from "d3";
import { describe, expect, it } from "vitest";
import { lines } from "../../data/claims.ts";
import { Tally, verdictOf } from "../../data/claims/line.ts";
import { dayKinds, dayOf, Luck, sittingOf, squadOf, workOf, type Days } from "../../data/claims/squad.ts";
import { share } from "../../src/stats/share.ts";

const speeds = (input: "tee" | "live", seed: number): { speed: number; pitch: number; angle: number }[] => {
  const squad = squadOf(seed);
  return workOf(squad, squad.traits[0]!, input, Array<number>(200).fill(20), "none").flatMap((s) =>
    s.outcome === "in_play"
      ? [
          {
            speed: s.exit_velocity_mph!,
            pitch: s.pitch_speed_mph ?? 0,
            angle: s.launch_angle_deg!,
          },
        ]
      : [],
  );
};

describe("made-up hitters", () => {
  it("are the same from the same seed, and others from another", () => {
    expect(speeds("tee", 5).slice(0, 3)).toEqual(speeds("tee", 5).slice(0, 3));
    expect(speeds("tee", 5)[0]).not.toEqual(speeds("tee", 6)[0]);
  });

  it("hit live as off a tee, a fifth of the pitch's speed on top", () => {
    for (const seed of [1, 2, 3]) {
      const [tee, live] = [speeds("tee", seed), speeds("live", seed)];
      const own = live.map((b) => b.speed - 0.2 * b.pitch);
      // A mean of 4000 balls that vary by some 10 mph.
      expect(Math.abs(mean(own)! - mean(tee, (b) => b.speed)!)).toBeLessThan(0.7);
      expect(Math.abs(deviation(own)! - deviation(tee, (b) => b.speed)!)).toBeLessThan(0.7);
      expect(mean(live, (b) => b.pitch)!).toBeCloseTo(74, 0);
    }
  });

  it("lean in exit velocity and have heavy tails in launch angle", () => {
    for (const seed of [1, 2, 3]) {
      const balls = speeds("tee", seed);
      const list = balls.map((b) => b.speed);
      const [middle, by] = [mean(list)!, deviation(list)!];
      expect(mean(list, (v) => ((v - middle) / by) ** 3)!).toBeLessThan(-0.7);
      expect(middle).toBeLessThan(median(list)!);
      const [level, wide] = [mean(balls, (b) => b.angle)!, deviation(balls, (b) => b.angle)!];
      // A bell has 3.
      expect(mean(balls, (b) => ((b.angle - level) / wide) ** 4)!).toBeGreaterThan(4);
    }
  });

  it("have days that differ by as much as is said", () => {
    for (const days of ["none", "some", "much"] as Days[]) {
      const squad = squadOf(3);
      const means = Array.from({ length: 600 }, () => {
        const rows = sittingOf(
          squad,
          squad.traits[0]!,
          { session: "A", input: "tee", balls: 60 },
          dayOf(squad.luck, days),
        );
        return rows.flatMap((r) => r.exit_velocity_mph ?? []);
      });
      const within = deviation(means.flat())! ** 2 / 60;
      const between = deviation(means, (m) => mean(m)!)! ** 2 - within;
      expect(Math.sqrt(Math.max(0, between))).toBeGreaterThan(dayKinds[days].speed_mph - 0.6);
      expect(Math.sqrt(Math.max(0, between))).toBeLessThan(dayKinds[days].speed_mph + 0.6);
    }
  });

  it("split their swings into uneven sessions, none of them empty", () => {
    const luck = new Luck(1);
    for (const [whole, parts] of [
      [12, 2],
      [12, 8],
      [60, 3],
    ] as const) {
      const sizes = luck.uneven(whole, parts);
      expect(sizes.reduce((a, b) => a + b, 0)).toBe(whole);
      expect(Math.min(...sizes)).toBeGreaterThan(0);
      expect(new Set(sizes).size).toBeGreaterThan(1);
    }
  });
});

describe("what is counted", () => {
  it("is whether an interval covers the truth, and how often none was given", () => {
    const tally = new Tally();
    tally.holds("a", { low: 1, high: 2 }, 1.5);
    tally.holds("a", { low: 1, high: 2 }, 3);
    tally.holds("a", { low: null, high: null }, 3);
    expect(tally.counts.get("a")).toMatchObject({ count: 1, n: 2 });
    expect(tally.counts.get("a: no interval given")).toMatchObject({ count: 1, n: 3 });
  });

  it("is judged with the simulation's own chance", () => {
    const most = { most: 0.05 };
    expect(verdictOf(share(5, 100), most)).toBe("within");
    expect(verdictOf(share(7, 100), most)).toBe("near");
    expect(verdictOf(share(20, 100), most)).toBe("outside");
    expect(verdictOf(share(80, 100), { low: 0.92, high: 0.97 })).toBe("outside");
    expect(verdictOf(share(0, 0), most)).toBe("told");
  });

  it("comes from every line, at one small setting each", () => {
    for (const line of lines) {
      const tally = new Tally();
      line.run({ swings: 12, sessions: 2, days: "some" }, 1, tally);
      expect(
        [...tally.counts.values()].some(({ n }) => n > 0),
        line.name,
      ).toBe(true);
    }
    expect(new Set(lines.map((l) => l.name)).size).toBe(lines.length);
  });
});
