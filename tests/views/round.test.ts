/** The round that goes on: where it begins, and how it is counted. */
import { describe, expect, it } from "vitest";
import { lastRound } from "../../src/views/round.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { swing, target } from "./rows.ts";

const at = (minute: number, second = 0): string =>
  `2025-04-01T17:${String(minute).padStart(2, "0")}:${String(second).padStart(2, "0")}`;
const scope = {
  sessions: [{ session: "a", date: "2025-04-01" }],
  targets: [target({ drill: "low", launch_angle_deg_low: 5, launch_angle_deg_high: 20 })],
  rest_min: 3,
};
const row = (minute: number, given: Partial<EnrichedSwing> = {}): EnrichedSwing =>
  swing({ session: "a", drill: "low", time: at(minute), ...given });
const roundOf = (...rows: readonly EnrichedSwing[]) => lastRound(rows, scope);

describe("the last round", () => {
  it("is counted against the drill's target, and in a row from the end", () => {
    const round = roundOf(
      row(1),
      row(1, { time: at(1, 10), launch_angle_deg: 40 }),
      row(2),
      row(2, { time: at(2, 20) }),
      row(3, { launch_angle_deg: 5 }),
    )!;
    expect(round).toMatchObject({ by: "target", met: 4, judged: 5, inARow: 3, hitter: "Robin Test" });
    expect(round.swings.map(({ mark }) => mark)).toEqual([true, false, true, true, true]);
  });

  it("begins anew with another hitter, another drill, other work, and after a rest", () => {
    expect(roundOf(row(1, { hitter: "B" }), row(2), row(3))!.swings).toHaveLength(2);
    expect(roundOf(row(1, { drill: "high" }), row(2), row(3))!.swings).toHaveLength(2);
    expect(roundOf(row(1, { input: "flip" }), row(2), row(3))!.swings).toHaveLength(2);
    expect(roundOf(row(1), row(3, { time: at(3, 59) }), row(7))!.swings).toHaveLength(1);
    expect(roundOf(row(1), row(3), row(5, { time: at(5, 59) }))!.swings).toHaveLength(3);
  });

  it("goes by the clock, however the rows stand, and by the rows where a clock is missing", () => {
    expect(roundOf(row(3), row(1, { launch_angle_deg: 50 }))!.last.time).toBe(at(3));
    const bare = roundOf(row(3, { time: null }), row(1, { launch_angle_deg: 50 }))!;
    expect(bare).toMatchObject({ met: 1, judged: 2, inARow: 0, last: { launch_angle_deg: 50 } });
  });

  it("takes the latest session, leaves takes out, and counts a miss as an attempt", () => {
    const older = row(50, { session: "z", time: "2025-03-01T20:00:00" });
    const missed = row(3, { outcome: "miss", exit_velocity_mph: null, launch_angle_deg: null });
    const round = roundOf(older, row(1), row(2, { outcome: "take" }), missed)!;
    expect(round).toMatchObject({ met: 1, judged: 2, inARow: 0, last: { outcome: "miss" } });
  });

  it("goes by clean and flush contact where the drill has no target, and doesn't judge what can't be", () => {
    const bare = { drill: null } as const;
    const round = roundOf(
      row(1, { ...bare, bucket: "flush" }),
      row(1, { ...bare, bucket: null, time: at(1, 30) }),
      row(2, { ...bare, bucket: "clean" }),
    )!;
    expect(round).toMatchObject({ by: "contact", target: null, met: 2, judged: 2, inARow: 1 });
    expect(roundOf()).toBeNull();
  });
});
