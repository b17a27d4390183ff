import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ceilingAt, ceilingsOf, topExitVelocity } from "../../src/contact/ceiling.ts";
import { findLevel } from "../../src/contact/levels.ts";
import { defaultThresholds, thresholdsFrom } from "../../src/contact/thresholds.ts";
import type { Hitter, Swing } from "../../src/swing/fields.ts";
import { deg } from "../../src/units/index.ts";
import { ball, swing } from "./swings.ts";

const hitter = (level: string | null): Hitter => ({ hitter: "Hitter A", bats: "R", level, height_in: null });
const ceiling = (swings: Swing[], hitters: Hitter[] = [], fixed: Record<string, number> = {}) =>
  ceilingsOf(swings, hitters, defaultThresholds, fixed).get("Hitter A")!;
const level = findLevel("college")!.top_exit_velocity_mph;

describe("top-end exit velocity", () => {
  it("is the level's figure with no swings, and unknown without a level", () => {
    expect(topExitVelocity([], [], 10, 100)).toEqual({ top_mph: 100, n: 0, ownShare: 0, source: "level" });
    expect(topExitVelocity([], [], 10, null)).toEqual({
      top_mph: null,
      n: 0,
      ownShare: 0,
      source: "unknown",
    });
  });

  it("is drawn to the level with weight n/(n + 15)", () => {
    const of = (n: number) => topExitVelocity(new Array(n).fill(80), new Array(n).fill(10), 10, 100);
    expect(of(1).top_mph).toBeCloseTo((1 / 16) * 80 + (15 / 16) * 100, 9);
    expect(of(15).top_mph).toBeCloseTo(90, 9);
    expect(of(135).top_mph).toBeCloseTo(82, 9);
    expect(of(15).ownShare).toBeCloseTo(0.5, 9);
    expect(of(15).source).toBe("swings and level");
  });

  it("stands alone without a level once the swings weigh as much as one", () => {
    const of = (n: number) => topExitVelocity(new Array(n).fill(80), new Array(n).fill(10), 10, null).top_mph;
    expect(of(14)).toBeNull();
    expect(of(15)).toBeCloseTo(80, 9);
  });

  it("is the 95th percentile, linear between order statistics", () => {
    // 0, 1 … 100: the 95th percentile is 95; of 1 … 20, 19.05.
    const all = Array.from({ length: 101 }, (_, i) => i);
    const alone = (ev: number[]) =>
      topExitVelocity(
        ev,
        ev.map(() => 10),
        10,
        null,
      ).top_mph;
    expect(alone([...all].reverse())).toBeCloseTo(95, 9);
    expect(alone(Array.from({ length: 20 }, (_, i) => i + 1))).toBeCloseTo(19.05, 9);
  });

  it("straightens each swing by the cosine of its angle from the best one", () => {
    const angles = Array.from({ length: 30 }, (_, i) => -30 + 2.5 * i);
    const ev = angles.map((a) => 95 * Math.cos((a - 10) * deg));
    expect(topExitVelocity(ev, angles, 10, null).top_mph).toBeCloseTo(95, 9);
  });

  it("leaves out swings more than 45° from the best angle", () => {
    const edge = topExitVelocity([60, 60, 60, 60], [55, -35, 55.01, -35.01], 10, 100);
    expect(edge.n).toBe(2);
    expect(topExitVelocity([60], [80], 10, 100)).toEqual({
      top_mph: 100,
      n: 0,
      ownShare: 0,
      source: "level",
    });
  });

  it("lies between the swings' own figure and the level's", () => {
    const ev = fc.array(fc.double({ min: 20, max: 120, noNaN: true }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(ev, fc.double({ min: 40, max: 110, noNaN: true }), (speeds, figure) => {
        const angles = speeds.map(() => 10);
        const own = topExitVelocity(speeds, angles, 10, figure, thresholdsFrom({ ceiling_prior_swings: 0 }));
        const drawn = topExitVelocity(speeds, angles, 10, figure).top_mph!;
        expect(own.source).toBe("swings");
        expect(drawn).toBeGreaterThanOrEqual(Math.min(own.top_mph!, figure) - 1e-9);
        expect(drawn).toBeLessThanOrEqual(Math.max(own.top_mph!, figure) + 1e-9);
      }),
    );
  });
});

describe("ceiling at an angle", () => {
  it("falls off by the cosine, and has no value from 90° on", () => {
    const c = { top_mph: 100, angle_deg: 12 };
    expect(ceilingAt(c, 12)).toBe(100);
    expect(ceilingAt(c, 57)).toBeCloseTo(100 * Math.SQRT1_2, 9);
    expect(ceilingAt(c, -33)).toBeCloseTo(100 * Math.SQRT1_2, 9);
    expect(ceilingAt(c, -77.9)).toBeGreaterThan(0);
    expect(ceilingAt(c, -78)).toBeNull();
    expect(ceilingAt({ top_mph: null, angle_deg: 12 }, 12)).toBeNull();
  });
});

describe("ceilings of a library", () => {
  it("are apart by hitter and by input", () => {
    const swings = [
      ...Array.from({ length: 20 }, () => ball(80, 10)),
      ...Array.from({ length: 20 }, () => ball(90, 10, { input: "live" })),
      ball(70, 10, { hitter: "Hitter B" }),
    ];
    const all = ceilingsOf(swings, []);
    expect(all.get("Hitter A")!.tee!.top_mph).toBeCloseTo(80, 9);
    expect(all.get("Hitter A")!.live!.top_mph).toBeCloseTo(90, 9);
    expect(all.get("Hitter A")!.flip).toBeUndefined();
    expect(all.get("Hitter B")!.tee).toMatchObject({ n: 1, top_mph: null, source: "unknown" });
  });

  it("take in-play swings only", () => {
    const swings = [
      ball(80, 10),
      ball(99, 10, { outcome: "foul" }),
      swing({ outcome: "miss" }),
      ball(81, 10, { outcome: null }),
    ];
    expect(ceiling(swings, [hitter("college")]).tee!.n).toBe(2);
  });

  it("are the level's for a hitter who has only missed", () => {
    expect(ceiling([swing({ outcome: "miss" })], [hitter("college")]).tee).toEqual({
      top_mph: level,
      angle_deg: 10,
      angleSource: "assumed",
      n: 0,
      ownShare: 0,
      source: "level",
    });
  });

  it("treat a level the table hasn't as no level", () => {
    expect(ceiling([ball(80, 10)], [hitter("moon")]).tee!.source).toBe("unknown");
    expect(ceiling([ball(80, 10)], [hitter(null)]).tee!.source).toBe("unknown");
  });

  it("turn about the hitter's own attack angle, by input, where it was measured", () => {
    const swings = [
      ball(80, 10, { attack_angle_deg: 4 }),
      ball(80, 10, { attack_angle_deg: 6 }),
      ball(80, 10, { attack_angle_deg: 40 }),
      ball(80, 10),
      ball(80, 10, { input: "live" }),
    ];
    const own = ceiling(swings, [hitter("college")]);
    // The middle one: one odd reading doesn't turn the ceiling.
    expect(own.tee).toMatchObject({ angle_deg: 6, angleSource: "attack angle" });
    expect(own.live).toMatchObject({ angle_deg: 10, angleSource: "assumed" });
    const { top_mph } = own.tee!;
    expect(top_mph).toBeCloseTo((4 / 19) * (80 / Math.cos(4 * deg)) + (15 / 19) * level, 9);
  });

  it("give way to a fixed one", () => {
    const swings = [ball(80, 10), ball(80, 10, { input: "live" })];
    const own = ceiling(swings, [hitter("college")], { "Hitter A": 92 });
    expect(own.tee).toMatchObject({ top_mph: 92, source: "fixed", n: 1 });
    expect(own.live).toMatchObject({ top_mph: 92, source: "fixed" });
    expect(ceiling(swings, [], { toString: 92 } as Record<string, number>).tee!.source).toBe("unknown");
  });
});
