import { defaultThresholds, thresholdsFrom } from "../../src/contact/thresholds.ts";
import { viewsOf } from "../../src/report/workViews.ts";
import { describe, expect, it } from "vitest";
import { liveView } from "../../src/views/live.ts";
import { earlyBy_ms, teePattern, timingView } from "../../src/views/timing.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { numbersIn, swing } from "./rows.ts";

/** Tee balls met 2 ft forward over the middle, half a foot farther for each foot inside, give or take 0.1 ft. */
const tee = (n: number, bats: "L" | "R" = "R"): EnrichedSwing[] =>
  Array.from({ length: n }, (_, i) => {
    const outside = ((i % 5) - 2) * 0.3;
    return swing({
      bats,
      contact_side_ft: bats === "R" ? outside : -outside,
      contact_height_ft: 2.5,
      contact_depth_ft: 2 - 0.5 * outside + (i % 2 === 0 ? 0.1 : -0.1),
      bat_speed_mph: 70,
    });
  });
const live = (forward: number, given: Partial<EnrichedSwing> = {}): EnrichedSwing =>
  swing({
    input: "live",
    contact_side_ft: 0,
    contact_height_ft: 2.5,
    contact_depth_ft: 2 + forward,
    pitch_speed_mph: 80,
    bat_speed_mph: 70,
    ...given,
  });

describe("timing", () => {
  it("knows the tee pattern, the same for both sides of the plate", () => {
    for (const bats of ["R", "L"] as const) {
      const pattern = teePattern(tee(20, bats))!;
      expect(pattern.depth_ft).toBeCloseTo(2, 6);
      expect(pattern.per_outward_ft).toBeCloseTo(-0.5, 6);
      expect(pattern.spread_ft).toBeCloseTo(0.105, 2);
      expect(pattern).toMatchObject({ n: 20, bat_speed_mph: 70, bat_speed_source: "measured" });
    }
  });

  it("tells early, on time and late, with the time that is", () => {
    const view = timingView([...tee(20), live(0.5), live(0.1), live(-0.15), live(-0.6)], "live");
    expect(view.balls.map((b) => b.timing)).toEqual(["early", "on time", "on time", "late"]);
    // Half a foot: the ball flies it in 4.26 ms at 80 mph, the bat in 4.87 ms at 70 mph.
    expect(earlyBy_ms(0.5, 80, 70)).toBeCloseTo(4.26 + 4.87, 2);
    expect(view.balls[0]!.early_ms).toBeCloseTo(9.13, 1);
    expect(view.early).toMatchObject({ count: 1, n: 4 });
    expect(view.on_time.count).toBe(2);
    expect(view.late.count).toBe(1);
  });

  it("judges an inside ball by the pattern inside", () => {
    const inside = live(0.3, { contact_side_ft: -0.6 });
    expect(timingView([...tee(20), inside], "live").balls[0]!.forward_ft).toBeCloseTo(0, 6);
  });

  it("groups by speed at the plate and by cell", () => {
    const sessions = [{ session: "r", pitch_speed_at: "release" as const }];
    const rows = [
      ...tee(20),
      live(0, { session: "r", pitch_speed_mph: 82 }),
      live(0),
      live(0, { pitch_speed_mph: null }),
    ];
    const view = timingView(rows, "live", { sessions, thresholds: defaultThresholds });
    expect(view.by_speed.map((b) => [b.low_mph, b.n])).toEqual([
      [70, 1],
      [80, 1],
      [null, 1],
    ]);
    expect(view.by_place.map((c) => c.n)).toEqual([0, 0, 0, 0, 3, 0, 0, 0, 0]);
    expect(view.notes).toEqual(["1 of 3 has no pitch speed, and so no time in ms."]);
  });

  it("without bat speeds goes by what the hardest tee balls need, and says so", () => {
    const rows = [...tee(20), live(0.5)].map((r) => ({ ...r, bat_speed_mph: null }));
    const view = timingView(rows, "live");
    expect(view.pattern).toMatchObject({ bat_speed_source: "from exit velocity" });
    expect(view.pattern!.bat_speed_mph).toBeCloseTo(80 / 1.2, 6);
    expect(view.notes.join(" ")).toMatch(/No bat speed was measured/);
  });

  it("without a tee pattern says what it takes", () => {
    const view = timingView([...tee(9), live(0)], "live");
    expect(view).toMatchObject({ pattern: null, n: 0, balls: [] });
    expect(view.notes).toEqual([
      "It takes 10 tee balls with a contact point to say what is early and what late.",
    ]);
    for (const [path, value] of numbersIn(view)) expect(Number.isFinite(value), path).toBe(true);
  });
});

describe("live work", () => {
  it("is grouped by pitcher, most thrown first, the unnamed last", () => {
    const rows = [
      live(0, { pitcher: "P" }),
      live(0),
      live(0),
      live(0, { pitcher: "Q" }),
      live(0, { pitcher: "Q" }),
    ];
    expect(liveView(rows).by_pitcher.map((p) => [p.pitcher, p.pitches])).toEqual([
      ["Q", 2],
      ["P", 1],
      [null, 2],
    ]);
  });

  it("bands speeds at the plate: a twelfth off those at release", () => {
    const rows = [live(0, { session: "r", pitch_speed_mph: 84 }), live(0, { pitch_speed_mph: 84 })];
    const sessions = [{ session: "r", pitch_speed_at: "release" as const }];
    const bands = liveView(rows, { sessions, thresholds: defaultThresholds }).by_speed;
    expect(bands.map((b) => b.low_mph)).toEqual([70, 80]);
    expect(liveView(rows).by_speed.map((b) => b.low_mph)).toEqual([80]);
  });

  it("takes off what the reader's own figures say that a pitch loses", () => {
    const rows = [live(0, { session: "r", pitch_speed_mph: 84 })];
    const thresholds = thresholdsFrom({ release_speed_lost_share: 0.3 });
    const sessions = [{ session: "r", pitch_speed_at: "release" as const }];
    // 84 mph less three tenths is 58.8 mph.
    expect(liveView(rows, { sessions, thresholds }).by_speed.map((b) => b.low_mph)).toEqual([50]);
    // @ts-expect-error: sessions without what a pitch loses are refused, so that neither is forgotten.
    expect(liveView(rows, { sessions }).by_speed.map((b) => b.low_mph)).toEqual([70]);
    expect(viewsOf(rows, { sessions, thresholds }).live!.by_speed.map((b) => b.low_mph)).toEqual([50]);
  });
});
