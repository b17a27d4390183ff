/** Each view on a small table, held to answers worked out by hand. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changeSince } from "../../src/views/change.ts";
import { flipView } from "../../src/views/flip.ts";
import { headline } from "../../src/views/headline.ts";
import { laneShares, sideShares } from "../../src/views/lanes.ts";
import { liveView } from "../../src/views/live.ts";
import { sessionsInOrder } from "../../src/views/sessions.ts";
import { bucketShares, categoryShares } from "../../src/views/shares.ts";
import { meetsTarget, targetResult } from "../../src/views/target.ts";
import { teeView } from "../../src/views/tee.ts";
import { cellName, cells, zoneCells } from "../../src/views/zone.ts";
import { arbitrarySwing, numbersIn, swing, target } from "./rows.ts";

describe("shares of lanes, sides, categories and buckets", () => {
  const rows = [
    swing({ lane: "center", side: "middle", category: "line drive", bucket: "flush" }),
    swing({ lane: "center", side: "middle", category: "line drive", bucket: "clean" }),
    swing({ lane: "left line", side: "pull", category: "fly ball", bucket: "mishit" }),
    swing({ lane: "foul", category: "pop-up" }),
    swing({}),
  ];

  it("count what is known, foul balls in n of the lanes", () => {
    const lanes = laneShares(rows);
    expect(lanes.map((s) => [s.lane, s.count, s.n])).toEqual([
      ["left line", 1, 4],
      ["left-center", 0, 4],
      ["center", 2, 4],
      ["right-center", 0, 4],
      ["right line", 0, 4],
      ["foul", 1, 4],
    ]);
    expect(lanes[2]!.share).toBe(0.5);
    expect(sideShares(rows).map((s) => [s.side, s.count, s.n])).toEqual([
      ["pull", 1, 3],
      ["middle", 2, 3],
      ["opposite", 0, 3],
    ]);
    expect(categoryShares(rows).map((s) => s.count)).toEqual([0, 2, 0, 1, 1]);
    expect(bucketShares(rows).map((s) => [s.bucket, s.count, s.n])).toEqual([
      ["mishit", 1, 3],
      ["partial", 0, 3],
      ["clean", 1, 3],
      ["flush", 1, 3],
    ]);
  });
});

describe("the nine cells", () => {
  it("hold the balls met in them, mirrored for a left-handed batter", () => {
    const low = { contact_height_ft: 1.7, power_kept: 0.8, bucket: "partial" as const };
    const rows = [
      swing({ ...low, contact_side_ft: -0.6 }),
      swing({ ...low, contact_side_ft: 0.6, bats: "L", power_kept: 0.9, bucket: "flush" }),
      swing({ contact_side_ft: 0, contact_height_ft: 2.4, power_kept: null }),
      swing({ contact_side_ft: 0.1 }),
      swing({ outcome: "miss", exit_velocity_mph: null, contact_side_ft: 0, contact_height_ft: 2.4 }),
    ];
    const nine = zoneCells(rows, { height_in: 72 });
    expect(nine.map((c) => [c.row, c.column])).toEqual(cells.map((c) => [c.row, c.column]));
    expect(nine.map((c) => c.n)).toEqual([2, 0, 0, 0, 1, 0, 0, 0, 0]);
    expect(nine[0]!.power_kept.value).toBeCloseTo(0.85, 12);
    expect(nine[0]!.power_kept.low).toBeNull();
    expect(nine[0]!.well_hit).toMatchObject({ count: 1, n: 2 });
    expect(nine[4]!.power_kept).toMatchObject({ n: 0, value: null, reason: "no values" });
    expect(nine[4]!.exit_velocity_mph.value).toBe(80);
  });

  it("move with the hitter's height", () => {
    const ball = [swing({ contact_side_ft: 0, contact_height_ft: 2.05 })];
    expect(zoneCells(ball, { height_in: 76 })[1]!.n).toBe(1);
    expect(zoneCells(ball, { height_in: 50 })[7]!.n).toBe(1);
  });

  it("have names that differ", () => {
    expect(new Set(cells.map(cellName)).size).toBe(9);
  });
});

describe("tee", () => {
  const rows = [0, 1, 2, 3].map((i) =>
    swing({
      exit_velocity_mph: 70 + 4 * i,
      launch_angle_deg: 10 + i,
      spray_angle_deg: 2 * i,
      contact_depth_ft: i / 2,
      contact_side_ft: -i / 10,
      contact_height_ft: 2,
    }),
  );
  const view = teeView([
    ...rows,
    swing({ input: "flip" }),
    swing({ exit_velocity_mph: 76 }),
    swing({ outcome: "foul", exit_velocity_mph: null }),
  ]);

  it("sees tee swings alone", () => {
    expect(view).toMatchObject({ swings: 6, in_play: 5, unplaced: 1 });
    expect(view.exit_velocity_mph.value).toBeCloseTo(76, 12);
  });

  it("puts exit velocity against the contact point", () => {
    expect(view.place.forward.value).toBeCloseTo(8, 9);
    expect(view.place.outward.value).toBeCloseTo(-40, 9);
    expect(view.place.upward.value).toBeNull();
    const left = teeView(rows.map((r) => ({ ...r, bats: "L" as const })));
    expect(left.place.outward.value).toBeCloseTo(40, 9);
  });

  it("measures how alike the balls are", () => {
    // 10, 11, 12, 13 and 12: mean 11.6, squares 2.56 + 0.36 + 0.16 + 1.96 + 0.16 = 5.2, s² = 1.3
    expect(view.repeatability.launch_angle_deg.value).toBeCloseTo(Math.sqrt(1.3), 12);
    // 0, 2, 4, 6: mean 3, squares 9 + 1 + 1 + 9 = 20, s² = 20/3
    expect(view.repeatability.spray_angle_deg).toMatchObject({ n: 4 });
    expect(view.repeatability.spray_angle_deg.value).toBeCloseTo(Math.sqrt(20 / 3), 12);
  });
});

describe("flip", () => {
  it("reads timing as pull for each foot farther forward, the same for both sides of the plate", () => {
    const rows = (bats: "L" | "R", sign: number) =>
      [0, 1, 2, 3].map((i) =>
        swing({ input: "flip", bats, contact_depth_ft: i / 2, spray_angle_deg: sign * (5 + 6 * i) }),
      );
    const right = flipView([...rows("R", -1), swing({ input: "tee", contact_depth_ft: 9 })]);
    expect(right.timing.pull_deg_per_ft.value).toBeCloseTo(12, 9);
    expect(right.timing.depth_ft.value).toBeCloseTo(0.75, 12);
    // 0, 0.5, 1, 1.5: s² = (0.5625·2 + 0.0625·2)/3 = 1.25/3
    expect(right.timing.depth_spread_ft.value).toBeCloseTo(Math.sqrt(1.25 / 3), 12);
    // Pull 5, 11, 17, 23 at 0, 0.5, 1, 1.5 ft
    expect(right.timing.through).toEqual({ depth_ft: 0.75, pull_deg: 14 });
    expect(flipView([]).timing.through).toBeNull();
    expect(flipView(rows("L", 1)).timing.pull_deg_per_ft.value).toBeCloseTo(12, 9);
    expect(right.in_play).toBe(4);
  });
});

describe("live", () => {
  const live = (given: Parameters<typeof swing>[0]) => swing({ input: "live", ...given });
  const missed = { exit_velocity_mph: null, launch_angle_deg: null };
  const rows = [
    live({ pitch_type: "fastball", pitch_speed_mph: 72, exit_velocity_mph: 90, bucket: "flush" }),
    live({ pitch_type: "fastball", pitch_speed_mph: 79.9, exit_velocity_mph: 80, bucket: "mishit" }),
    live({
      pitch_type: "fastball",
      pitch_speed_mph: 80,
      outcome: "miss",
      ...missed,
      contact_side_ft: 1.5,
      contact_height_ft: 2.4,
    }),
    live({
      pitch_type: "curve",
      pitch_speed_mph: 65,
      outcome: "take",
      ...missed,
      contact_side_ft: 1.5,
      contact_height_ft: 2.4,
    }),
    live({ pitch_type: "curve", outcome: "foul", ...missed, contact_side_ft: 0, contact_height_ft: 2.4 }),
    live({ outcome: "miss", ...missed, contact_side_ft: 0.8, contact_height_ft: 2.4 }),
    swing({}),
  ];
  const view = liveView(rows, { height_in: 72 });

  it("counts outcomes of the pitches and misses of the swings", () => {
    expect(view).toMatchObject({ pitches: 6, swings: 5 });
    expect(view.outcomes.map((o) => [o.outcome, o.count])).toEqual([
      ["in_play", 2],
      ["foul", 1],
      ["miss", 2],
      ["take", 1],
    ]);
    expect(view.misses).toMatchObject({ count: 2, n: 5 });
    expect(view.exit_velocity_mph.value).toBe(85);
  });

  it("calls a swing at a ball off the zone a chase, and gives the edge the ball's radius", () => {
    // 1.5 ft is off the plate; 0.8 ft is less than a radius (0.121 ft) beyond its edge (0.708 ft).
    expect(view.chases).toMatchObject({ count: 1, n: 2 });
    expect(view.zone_swings).toMatchObject({ count: 2, n: 2 });
  });

  it("counts no chases where no taken pitch has a place", () => {
    const hit = liveView(rows.filter((r) => r.outcome !== "take"));
    expect(hit.chases).toMatchObject({ n: 0, share: null });
    expect(hit.zone_swings).toMatchObject({ n: 0, share: null });
  });

  it("groups by type, speed and place", () => {
    expect(view.by_pitch_type.map((g) => [g.pitch_type, g.pitches, g.misses.count])).toEqual([
      ["fastball", 3, 1],
      ["curve", 2, 0],
      [null, 1, 1],
    ]);
    expect(view.by_speed.map((g) => [g.low_mph, g.high_mph, g.pitches])).toEqual([
      [60, 70, 1],
      [70, 80, 2],
      [80, 90, 1],
      [null, null, 2],
    ]);
    expect(view.by_place.map((g) => g.pitches)).toEqual([0, 0, 0, 0, 1, 3, 0, 0, 0]);
  });

  it("tells each group's contact, of its balls in play, with the interval", () => {
    const [fastball, curve] = view.by_pitch_type;
    expect(fastball!.buckets.map((b) => [b.bucket, b.count, b.n])).toEqual([
      ["mishit", 1, 2],
      ["partial", 0, 2],
      ["clean", 0, 2],
      ["flush", 1, 2],
    ]);
    // Wilson's interval of 1 of 2, by hand: (0.5 + z²/4 ± z·√(1/8 + z²/16)) ÷ (1 + z²/2), z = 1.96.
    expect(fastball!.well_hit).toMatchObject({ count: 1, n: 2 });
    expect(fastball!.well_hit.low).toBeCloseTo(0.0945, 3);
    expect(fastball!.well_hit.high).toBeCloseTo(0.9055, 3);
    expect(curve!.well_hit).toMatchObject({ n: 0, share: null });
    expect(view.by_speed.map((g) => g.well_hit.n)).toEqual([0, 2, 0, 0]);
    expect(view.well_hit.n).toBe(2);
  });
});

describe("a drill's target", () => {
  const drives = target({
    drill: "drives",
    exit_velocity_mph_low: 75,
    launch_angle_deg_low: 8,
    launch_angle_deg_high: 20,
  });
  const ball = (given: Parameters<typeof swing>[0]) => swing({ drill: "drives", session: "a", ...given });

  it("is met inside the window, its ends included", () => {
    expect(meetsTarget(ball({ exit_velocity_mph: 75, launch_angle_deg: 20 }), drives)).toBe(true);
    expect(meetsTarget(ball({ launch_angle_deg: 20.1 }), drives)).toBe(false);
    expect(meetsTarget(ball({ outcome: "foul" }), drives)).toBe(false);
    expect(meetsTarget(ball({ outcome: "take" }), drives)).toBeNull();
    expect(meetsTarget(ball({}), target({ drill: "drives", spray_angle_deg_low: 0 }))).toBeNull();
    expect(meetsTarget(ball({}), target({ drill: "drives" }))).toBeNull();
  });

  it("gives met, attempts, interval and longest run in swing order, not across sessions", () => {
    const at = (minute: number) => `2024-05-01T10:${String(minute).padStart(2, "0")}:00`;
    const rows = [
      ball({ time: at(3), launch_angle_deg: 40 }),
      ball({ time: at(1) }),
      ball({ time: at(2) }),
      ball({ time: at(4), exit_velocity_mph: 60 }),
      ball({ time: at(5), outcome: "miss", exit_velocity_mph: null, launch_angle_deg: null }),
      ball({ time: at(6) }),
      ball({ time: at(7), session: "b" }),
      ball({ time: at(8), session: "b" }),
      ball({ time: at(9), outcome: "take" }),
      swing({ drill: "other" }),
    ];
    const result = targetResult(rows, drives);
    expect(result).toMatchObject({
      drill: "drives",
      count: 5,
      n: 8,
      attempts: 8,
      unjudged: 0,
      longest_run: 2,
    });
    // Wilson's, were it one day: 0.3057 to 0.8632. Of two days it is wider.
    expect(result.low!).toBeLessThan(0.3057);
    expect(result.high!).toBeGreaterThan(0.8632);
    const oneDay = targetResult(
      rows.map((r) => ({ ...r, session: "a" })),
      drives,
    );
    expect(oneDay.low).toBeCloseTo(0.3057, 4);
    expect(oneDay.high).toBeCloseTo(0.8632, 4);
    expect(result.window).toEqual([
      { measure: "exit_velocity_mph", low: 75, high: null, below: 1, within: 6, above: 0 },
      { measure: "launch_angle_deg", low: 8, high: 20, below: 0, within: 6, above: 1 },
    ]);
  });

  it("lets a swing it can't judge end a run and count in nothing", () => {
    const spray = target({ drill: "drives", spray_angle_deg_low: -10, spray_angle_deg_high: 10 });
    const rows = [0, 5, null, 3].map((spray_angle_deg) => ball({ spray_angle_deg }));
    expect(targetResult(rows, spray)).toMatchObject({ count: 3, n: 3, unjudged: 1, longest_run: 2 });
  });
});

describe("change since the session before", () => {
  const sessions = [
    { session: "new", date: "2024-05-08" },
    { session: "old", date: "2024-05-01" },
    { session: "older", date: "2024-04-01" },
  ];
  const day = (session: string, middle: number, input: "tee" | "live" = "tee") =>
    [-2, -1, 0, 1, 2, -1, 1, 0, 2, -2].map((d) =>
      swing({
        session,
        input,
        exit_velocity_mph: middle + d,
        launch_angle_deg: 12 + d,
        power_kept: 0.8,
        bucket: "clean",
      }),
    );
  const rows = [...day("new", 84), ...day("older", 60), ...day("old", 80), ...day("new", 70, "live")];

  it("compares the latest with the one before it, within the same input", () => {
    const changes = changeSince(rows, sessions);
    expect(changes.map((c) => [c.input, c.from.session, c.to.session])).toEqual([["tee", "old", "new"]]);
    const [ev] = changes[0]!.changes;
    expect(ev!.difference.value).toBeCloseTo(4, 12);
    expect(ev!.difference.low!).toBeGreaterThan(2);
    expect(ev!.difference.resampled).toBe("swings");
    expect(changes[0]!.changes.find((c) => c.measure === "well_hit")!.difference).toMatchObject({ value: 0 });
  });

  it("looks back from the session asked for", () => {
    expect(changeSince(rows, sessions, "old").map((c) => c.from.session)).toEqual(["older"]);
    expect(changeSince(rows, sessions, "older")).toEqual([]);
    expect(changeSince(rows, sessions, "nowhere")).toEqual([]);
  });

  it("orders sessions by date, else by their first swing", () => {
    const timed = [
      swing({ session: "b", time: "2024-05-01T12:00:00" }),
      swing({ session: "a", time: "2024-05-01T09:00:00" }),
      swing({ session: "c" }),
      swing({ session: null }),
    ];
    expect(sessionsInOrder(timed, []).map((s) => [s.session, s.date])).toEqual([
      ["c", null],
      ["a", "2024-05-01"],
      ["b", "2024-05-01"],
    ]);
  });
});

describe("the headline", () => {
  const many = (n: number, given: Parameters<typeof swing>[0]) =>
    Array.from({ length: n }, () => swing(given));
  const weak = [
    ...many(12, { contact_side_ft: 0.6, contact_height_ft: 1.5, power_kept: 0.7, bucket: "partial" }),
    ...many(14, { contact_side_ft: 0, contact_height_ft: 2.4, power_kept: 0.9, bucket: "clean" }),
  ];

  it("names the weakest well-sampled cell with its figures", () => {
    const { next, facts } = headline(weak, { zone: { height_in: 72 } });
    expect(next).toBe(
      "Work on next: balls met low and outside, clearly weaker than elsewhere (2 cells with 10 balls or more were compared). " +
        "70% of power kept (median) on 12 balls, 90% on the 14 met elsewhere; " +
        "held against the same kind of work on the same day, lower by 20 points.",
    );
    expect(facts).toContain("Clean or flush contact on 14 of 26 tee balls (35 to 71%).");
    expect(facts).toContain("Every one of 26 balls off the tee read 80 mph.");
  });

  it("names no cell that could be chance", () => {
    const noisy = weak.map((r, i) => ({ ...r, power_kept: i % 2 ? 0.6 : 0.98 }));
    const { next } = headline(noisy, { zone: { height_in: 72 } });
    expect(next).toBe(
      "No one thing to work on stands out in 26 swings: " +
        "none of the 2 cells of the zone with 10 balls or more is clearly weaker than the rest.",
    );
  });

  it("falls to the drill with the most room, and says which way it misses", () => {
    const drill = target({ drill: "away", launch_angle_deg_low: 20 });
    const rows = [...many(9, { drill: "away" }), ...many(3, { drill: "away", launch_angle_deg: 25 })];
    const { next } = headline(rows, { targets: [targetResult(rows, drill)] });
    expect(next).toBe(
      "Work on next: the drill “away”, target met on 3 of 12 (9 to 53%). Most often off: launched too low, 9 balls.",
    );
  });

  it("claims nothing from a handful", () => {
    const { next, facts } = headline(many(3, {}));
    expect(next).toContain("No one thing to work on stands out");
    expect(facts).toEqual(["3 balls off the tee, 80 mph on average: too few to say more."]);
    expect(headline([]).facts).toEqual([]);
  });

  it("gives each figure its count, good news first", () => {
    const rows = [...many(20, { bucket: "flush" }), ...many(20, { input: "live", bucket: "mishit" })];
    const { facts } = headline(rows);
    expect(facts[0]).toBe("Clean or flush contact on 20 of 20 tee balls (84 to 100%).");
    expect(facts.at(-1)).toBe("Clean or flush contact on 0 of 20 live balls (0 to 16%).");
    for (const fact of facts) expect(fact).toMatch(/\d+ (of \d+|balls?)/);
  });
});

it("nothing is ever NaN, on any rows the definitions allow", () => {
  const drill = target({
    drill: "drill",
    exit_velocity_mph_low: 70,
    spray_angle_deg_high: 10,
    contact_depth_ft_low: 1,
  });
  fc.assert(
    fc.property(fc.array(arbitrarySwing, { maxLength: 30 }), (rows) => {
      const targets = [targetResult(rows, drill)];
      const changes = changeSince(rows, []);
      const results = [
        teeView(rows),
        flipView(rows),
        liveView(rows),
        laneShares(rows),
        sideShares(rows),
        categoryShares(rows),
        bucketShares(rows),
        targets,
        changes,
      ];
      const bad = numbersIn(results).filter(([, value]) => !Number.isFinite(value));
      expect(bad).toEqual([]);
      const words = headline(rows, { targets, changes, system: "metric" });
      expect([...words.facts, words.next].join(" ")).not.toMatch(/NaN|undefined|Infinity|null/);
    }),
    { numRuns: 60 },
  );
});
