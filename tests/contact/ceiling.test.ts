import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ceilingAt, ceilingFor, ceilingsOf, topExitVelocity } from "../../src/contact/ceiling.ts";
import { findLevel } from "../../src/contact/levels.ts";
import { derivedAt, derivedShape } from "../../src/contact/shape.ts";
import { defaultThresholds, thresholdsFrom } from "../../src/contact/thresholds.ts";
import type { Hitter, Swing } from "../../src/swing/fields.ts";
import { ball as anyBall, sessionOf, swing } from "./swings.ts";

/** From the right side. */
const ball = (ev: number, angle: number, given: Partial<Swing> = {}): Swing =>
  anyBall(ev, angle, { bats: "R", ...given });

const hitter = (level: string | null): Hitter => ({ hitter: "Hitter A", bats: "R", level, height_in: null });
const ceiling = (swings: Swing[], hitters: Hitter[] = [], fixed: Record<string, number> = {}) =>
  ceilingsOf(swings, { sessions: [], hitters }, defaultThresholds, fixed).byHitter.get("Hitter A")!;
/** Where the derived shape is 1. */
const best = -2;
const { collision_q: q } = defaultThresholds;
const level = findLevel("college")!.top_exit_velocity_mph;

describe("top-end exit velocity", () => {
  it("is the level's figure with no swings, and unknown without a level", () => {
    expect(topExitVelocity([], [], derivedShape, 100)).toEqual({
      top_mph: 100,
      n: 0,
      ownShare: 0,
      source: "level",
    });
    expect(topExitVelocity([], [], derivedShape, null)).toEqual({
      top_mph: null,
      n: 0,
      ownShare: 0,
      source: "unknown",
    });
  });

  it("is drawn to the level with weight n/(n + 15)", () => {
    const of = (n: number) =>
      topExitVelocity(new Array(n).fill(80), new Array(n).fill(best), derivedShape, 100);
    expect(of(1).top_mph).toBeCloseTo((1 / 16) * 80 + (15 / 16) * 100, 9);
    expect(of(15).top_mph).toBeCloseTo(90, 9);
    expect(of(135).top_mph).toBeCloseTo(82, 9);
    expect(of(15).ownShare).toBeCloseTo(0.5, 9);
    expect(of(15).source).toBe("swings and level");
  });

  it("stands alone without a level once the swings weigh as much as one", () => {
    const of = (n: number) =>
      topExitVelocity(new Array(n).fill(80), new Array(n).fill(best), derivedShape, null).top_mph;
    expect(of(14)).toBeNull();
    expect(of(15)).toBeCloseTo(80, 9);
  });

  it("is the 95th percentile, linear between order statistics", () => {
    // 0, 1 … 100: the 95th percentile is 95; of 1 … 20, 19.05.
    const all = Array.from({ length: 101 }, (_, i) => i);
    const alone = (ev: number[]) =>
      topExitVelocity(
        ev,
        ev.map(() => best),
        derivedShape,
        null,
      ).top_mph;
    expect(alone([...all].reverse())).toBeCloseTo(95, 9);
    expect(alone(Array.from({ length: 20 }, (_, i) => i + 1))).toBeCloseTo(19.05, 9);
  });

  it("straightens each swing by the shape at its angle", () => {
    const offs = Array.from({ length: 26 }, (_, i) => -30 + 2.5 * i);
    const ev = offs.map((off) => 95 * derivedAt(off, q));
    expect(topExitVelocity(ev, offs, derivedShape, null).top_mph).toBeCloseTo(95, 9);
  });

  it("leaves out swings outside the range", () => {
    const edge = topExitVelocity([60, 60, 60, 60], [-30, 35, -30.01, 35.01], derivedShape, 100);
    expect(edge.n).toBe(2);
    expect(topExitVelocity([60], [50], derivedShape, 100)).toEqual({
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
        const offs = speeds.map(() => best);
        const alone = thresholdsFrom({ ceiling_prior_swings: 0 });
        const own = topExitVelocity(speeds, offs, derivedShape, figure, alone);
        const drawn = topExitVelocity(speeds, offs, derivedShape, figure).top_mph!;
        expect(own.source).toBe("swings");
        expect(drawn).toBeGreaterThanOrEqual(Math.min(own.top_mph!, figure) - 1e-9);
        expect(drawn).toBeLessThanOrEqual(Math.max(own.top_mph!, figure) + 1e-9);
      }),
    );
  });
});

describe("ceiling at an angle", () => {
  it("falls off by the shape, and has no value outside its range", () => {
    const c = { top_mph: 100, angle_deg: 12 };
    const at = (angle: number) => ceilingAt(c, derivedShape, angle);
    expect(at(10)).toBeCloseTo(100, 9);
    expect(at(40)).toBeCloseTo(100 * derivedAt(28, q), 9);
    expect(at(47)).toBeGreaterThan(0);
    expect(at(47.01)).toBeNull();
    expect(at(-18)).toBeGreaterThan(0);
    expect(at(-18.01)).toBeNull();
    expect(ceilingAt({ top_mph: null, angle_deg: 12 }, derivedShape, 12)).toBeNull();
  });
});

/** 20 alike, where the shape is 1. */
const twenty = (ev: number, given: Partial<Swing> = {}) =>
  Array.from({ length: 20 }, () => ball(ev, 8, given));
const live = (pitch_speed_mph: number | null, given: Partial<Swing> = {}): Partial<Swing> => ({
  input: "live",
  pitch_speed_mph,
  ...given,
});

describe("ceilings of a library", () => {
  it("are one for a hitter, from all kinds of work, the pitch's part taken out", () => {
    const swings = [
      ...twenty(80),
      ...twenty(80 + q * 70, live(70)),
      ...twenty(80 + q * 15, { input: "flip", pitch_speed_mph: 15 }),
    ];
    const own = ceiling(swings).R!;
    expect(own.together).toMatchObject({ n: 60, source: "swings" });
    expect(own.together.top_mph).toBeCloseTo(80, 9);
    expect(own.alone).toEqual({});
  });

  it("take a pitch measured at release for what is left of it at the plate", () => {
    const sessions = [sessionOf("s1", { pitch_speed_at: "release" })];
    const swings = twenty(80 + q * 66, live(72, { session: "s1" }));
    const all = ceilingsOf(swings, { sessions, hitters: [] });
    expect(all.byHitter.get("Hitter A")!.R!.together.top_mph).toBeCloseTo(80, 9);
  });

  it("are apart by hitter and by side of the plate, the listed side where a swing has none", () => {
    const swings = [
      ...twenty(80),
      ...twenty(70, { bats: "L" }),
      ...twenty(60, { bats: null, hitter: "Hitter B" }),
      ...twenty(62, { bats: null, hitter: "Hitter C" }),
      ball(70, 8, { hitter: "Hitter D" }),
    ];
    const listed: Hitter[] = [{ ...hitter(null), hitter: "Hitter B", bats: "L" }];
    const all = ceilingsOf(swings, { sessions: [], hitters: listed }).byHitter;
    expect(all.get("Hitter A")!.R!.together.top_mph).toBeCloseTo(80, 9);
    expect(all.get("Hitter A")!.L!.together.top_mph).toBeCloseTo(70, 9);
    expect(Object.keys(all.get("Hitter B")!)).toEqual(["L"]);
    expect(Object.keys(all.get("Hitter C")!)).toEqual(["unknown"]);
    expect(all.get("Hitter D")!.R!.together).toMatchObject({ n: 1, top_mph: null, source: "unknown" });
  });

  it("leave a kind of work its own where most of its pitch speeds are unknown, with the pitch's part in it", () => {
    const swings = [...twenty(80), ...twenty(92, live(null)), ball(99, 8, live(70))];
    const all = ceilingsOf(swings, { sessions: [], hitters: [] });
    const own = all.byHitter.get("Hitter A")!.R!;
    expect(own.together.n).toBe(20);
    expect(own.alone.live).toMatchObject({ n: 21 });
    expect(own.alone.live!.top_mph).toBeCloseTo(92, 6);
    expect(ceilingFor(all, "Hitter A", "R", "live", 70)).toEqual({
      ceiling: own.alone.live,
      pitchSpeed_mph: 0,
      alone: true,
    });
    expect(ceilingFor(all, "Hitter A", "R", "tee", 0)).toEqual({
      ceiling: own.together,
      pitchSpeed_mph: 0,
      alone: false,
    });
    expect(ceilingFor(all, "Hitter A", "L", "tee", 0)).toBeUndefined();
  });

  it("take their shape from kinds of work with a ceiling of their own, too", () => {
    const offs = Array.from({ length: 60 }, (_, i) => -20 + i);
    const swings = offs.map((angle) => ball(90, angle, live(null)));
    const { n } = ceilingsOf(swings, { sessions: [], hitters: [] }).shape;
    expect(n.reduce((a, b) => a + b, 0)).toBe(60);
  });

  it("leave out the balls without a pitch speed where no more than half lack one", () => {
    const swings = [...twenty(80), ...twenty(94, live(70)), ...twenty(120, live(null))];
    const all = ceilingsOf(swings, { sessions: [], hitters: [] });
    const own = all.byHitter.get("Hitter A")!.R!;
    expect(own.together.n).toBe(40);
    expect(own.together.top_mph).toBeCloseTo(80, 9);
    expect(own.alone).toEqual({});
    expect(ceilingFor(all, "Hitter A", "R", "live", null)!.pitchSpeed_mph).toBeNull();
  });

  it("take in-play swings only", () => {
    const swings = [
      ball(80, 10),
      ball(99, 10, { outcome: "foul" }),
      swing({ outcome: "miss" }),
      ball(81, 10, { outcome: null }),
    ];
    expect(ceiling(swings, [hitter("college")]).R!.together.n).toBe(2);
  });

  it("are the level's for a hitter who has only missed", () => {
    expect(ceiling([swing({ outcome: "miss", bats: "R" })], [hitter("college")]).R!.together).toEqual({
      top_mph: level,
      angle_deg: 10,
      angleSource: "assumed",
      n: 0,
      ownShare: 0,
      source: "level",
    });
  });

  it("treat a level the table hasn't as no level", () => {
    expect(ceiling([ball(80, 10)], [hitter("moon")]).R!.together.source).toBe("unknown");
    expect(ceiling([ball(80, 10)], [hitter(null)]).R!.together.source).toBe("unknown");
  });

  it("turn about the hitter's own attack angle where it was measured", () => {
    const swings = [
      ball(80, 4, { attack_angle_deg: 4 }),
      ball(80, 4, { attack_angle_deg: 6 }),
      ball(80, 4, { attack_angle_deg: 40 }),
      ball(80, 4),
      ball(80, 4, { bats: "L" }),
    ];
    const own = ceiling(swings, [hitter("college")]);
    // The middle one: one odd reading doesn't turn the ceiling.
    expect(own.R!.together).toMatchObject({ angle_deg: 6, angleSource: "attack angle" });
    expect(own.L!.together).toMatchObject({ angle_deg: 10, angleSource: "assumed" });
    expect(own.R!.together.top_mph).toBeCloseTo((4 / 19) * 80 + (15 / 19) * level, 9);
  });

  it("give way to a fixed one", () => {
    const swings = [ball(80, 10), ball(80, 10, live(null))];
    const own = ceiling(swings, [hitter("college")], { "Hitter A": 92 }).R!;
    expect(own.together).toMatchObject({ top_mph: 92, source: "fixed", n: 1 });
    expect(own.alone.live).toMatchObject({ top_mph: 92, source: "fixed" });
    const other = ceiling(swings, [], { toString: 92 } as Record<string, number>).R!;
    expect(other.together.source).toBe("unknown");
  });
});
