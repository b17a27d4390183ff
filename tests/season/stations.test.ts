/** A plan of stations: who stands where, and why. */
import { describe, expect, it } from "vitest";
import type { ReadySwing } from "../../src/gap/rows.ts";
import type { HitterNeed, Need, Needs } from "../../src/season/needs.ts";
import { roundAtMost, roundsOf, stationsFor } from "../../src/season/stations.ts";
import { swing, target } from "../views/rows.ts";

const targets = [
  target({ drill: "Tee, middle", launch_angle_deg_low: 5 }),
  target({ drill: "Tee, away", launch_angle_deg_low: 0 }),
  target({ drill: "Flip", launch_angle_deg_low: 5 }),
  target({ drill: "no window" }),
];
const ready = (
  drill: string,
  input: "tee" | "flip" | "live",
  cell: number,
  n: number,
  hitter = "Ada",
): ReadySwing[] =>
  Array.from({ length: n }, () => ({
    ...swing({ drill, input, hitter }),
    plate_speed_mph: null,
    cell,
    date: "2025-03-03",
  }));
const rows = [
  ...ready("Tee, middle", "tee", 4, 30),
  ...ready("Tee, middle", "tee", 2, 12),
  ...ready("Tee, away", "tee", 2, 15),
  ...ready("Flip", "flip", 4, 20),
];
const place: Need = {
  kind: "place",
  cell: { cell: { row: 0, column: 2 } } as (Need & { kind: "place" })["cell"],
};
const gap: Need = { kind: "gap", largest: {}, n: { from: 1, to: 1 } } as unknown as Need;
const drill: Need = { kind: "drill", drill: { drill: "Flip" } } as unknown as Need;
const of = (hitter: string, need: Need | null, ...also: Need[]): HitterNeed => ({
  hitter,
  need,
  also,
  lines: 1,
  swings: 1,
});
const where = (...hitters: HitterNeed[]): Record<string, string> => {
  const needs: Needs = { hitters, lines: hitters.length };
  return Object.fromEntries(
    stationsFor(needs, rows, targets).flatMap((station) =>
      station.hitters.map(({ hitter }) => [hitter, station.drill]),
    ),
  );
};

describe("a plan of stations", () => {
  it("sends each hitter to the drill for what is clear, by what the balls show", () => {
    expect(where(of("a", place), of("b", drill), of("c", gap), of("d", gap, place))).toEqual({
      // Of the away tee's balls all were met there, of the middle's 12 in 42.
      a: "Tee, away",
      b: "Flip",
      c: "Flip",
      d: "Tee, away",
    });
  });

  it("sends who has nothing clear to the drill swung at least, and puts everybody somewhere once", () => {
    expect(where(of("Ada", null))).toEqual({ Ada: "Tee, away" });
    expect(Object.keys(where(of("Ada", null), of("Nobody", null), of("c", drill))).sort()).toEqual([
      "Ada",
      "Nobody",
      "c",
    ]);
  });

  it("has no station for a drill without a window, and none at all without a drill", () => {
    const needs: Needs = { hitters: [of("a", place)], lines: 1 };
    expect(stationsFor(needs, rows, targets).map((station) => station.drill)).not.toContain("no window");
    expect(stationsFor(needs, rows, [])).toEqual([]);
  });

  it("keeps to the coach's count in rounds that are never longer than allowed", () => {
    for (let swings = 0; swings <= 60; swings++) {
      const rounds = roundsOf(swings);
      expect(rounds.reduce((a, b) => a + b, 0)).toBe(swings);
      expect(Math.max(0, ...rounds)).toBeLessThanOrEqual(roundAtMost);
      if (rounds.length > 1) expect(rounds[0]! - rounds.at(-1)!).toBeLessThanOrEqual(1);
    }
  });
});
