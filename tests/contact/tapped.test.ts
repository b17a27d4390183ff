import { describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { saysSomething, tappedLanes, tappedRow, type Tapped } from "../../src/contact/tapped.ts";
import { cellReader } from "../../src/reading/cells.ts";
import { swingFields, type EnrichedSwing, type Swing } from "../../src/swing/fields.ts";
import { swingTroubles } from "../../src/swing/rules.ts";

const at = { id: "hand-1", time: "2026-05-01T17:00:00", session: { session: "2026-05-01 by hand" } };
const ball: Tapped = {
  hitter: "Ana",
  bats: "R",
  input: "flip",
  drill: null,
  exit_velocity_mph: null,
  launch_angle_deg: null,
  lane: null,
  seen: null,
};

/** The row with its computed columns. */
function read(tapped: Tapped): EnrichedSwing {
  const typed = tappedRow(tapped, at);
  const swing = Object.fromEntries(
    swingFields.map((field): [string, unknown] => [field.name, cellReader(field)(typed[field.name] ?? "")]),
  ) as unknown as Swing;
  expect(swingTroubles(swing)).toEqual([]);
  return enrich({ swings: [swing], sessions: [], hitters: [] })[0]!;
}

describe("a tapped ball", () => {
  it("says something with any one of what can be tapped, and nothing without", () => {
    expect(saysSomething(ball)).toBe(false);
    const each: Partial<Tapped>[] = [
      { exit_velocity_mph: 0 },
      { launch_angle_deg: 0 },
      { lane: "center" },
      { seen: "miss" },
    ];
    for (const one of each) expect(saysSomething({ ...ball, ...one }), Object.keys(one)[0]).toBe(true);
    expect(saysSomething({ ...ball, ...Object.assign({}, ...each) })).toBe(true);
  });

  it("comes down in the lane that was seen, whoever hit it and however it curves", () => {
    for (const bats of ["R", "L", null] as const)
      for (const [speed, angle] of [
        [45, -8],
        [70, 14],
        [88, 28],
        [102, 38],
        [75, 60],
      ] as const)
        for (const lane of tappedLanes) {
          const tapped = { ...ball, bats, lane, exit_velocity_mph: speed, launch_angle_deg: angle };
          expect(read(tapped).lane, `${bats} ${speed} ${angle}`).toBe(lane);
        }
  });

  it("without a measured angle is no ball in play: nothing is guessed, and the note says what was seen", () => {
    const row = read({ ...ball, exit_velocity_mph: 92, lane: "left-center", seen: "line drive" });
    expect([row.outcome, row.exit_velocity_mph, row.launch_angle_deg, row.carry_ft, row.bucket]).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
    expect(row.note).toBe("by hand: line drive, left-center, 92 mph; no measured angle");
    expect(read({ ...ball, seen: "pop-up" }).note).toBe(
      "by hand: pop-up; no measured speed, no measured angle",
    );
  });

  it("keeps a miss without figures, and a foul with those that it has", () => {
    const miss = read({ ...ball, seen: "miss", exit_velocity_mph: 80, lane: "center" });
    expect([miss.outcome, miss.exit_velocity_mph, miss.note]).toEqual(["miss", null, "by hand"]);
    const foul = read({ ...ball, seen: "foul", exit_velocity_mph: 80 });
    expect([foul.outcome, foul.exit_velocity_mph, foul.note]).toEqual([
      "foul",
      80,
      "by hand; no measured angle",
    ]);
  });
});
