import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { laneEdges_deg, laneOf, sideEdges_deg, sideOf } from "../../src/field/lanes.ts";
import { lanes, type Lane, type Side } from "../../src/swing/fields.ts";

const mirrored: Record<Lane, Lane> = {
  "left line": "right line",
  "left-center": "right-center",
  center: "center",
  "right-center": "left-center",
  "right line": "left line",
  foul: "foul",
};

describe("lanes", () => {
  it.each<[number, Lane]>([
    [-45.001, "foul"],
    [-45, "left line"],
    [-27.001, "left line"],
    [-27, "left-center"],
    [-9.001, "left-center"],
    [-9, "center"],
    [0, "center"],
    [9, "center"],
    [9.001, "right-center"],
    [27, "right-center"],
    [27.001, "right line"],
    [45, "right line"],
    [45.001, "foul"],
    [180, "foul"],
    [-180, "foul"],
  ])("%f° is %s", (bearing, lane) => {
    expect(laneOf(bearing)).toBe(lane);
  });

  it("are fifths of fair territory, 18° each, from left to right", () => {
    const widths = laneEdges_deg.slice(1).map((edge, i) => edge - laneEdges_deg[i]!);
    expect(widths).toEqual([18, 18, 18, 18, 18]);
    const middles = laneEdges_deg.slice(1).map((edge, i) => laneOf((edge + laneEdges_deg[i]!) / 2));
    expect(middles).toEqual(lanes.slice(0, 5));
  });

  it("mirror", () => {
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (b) => {
        expect(laneOf(-b)).toBe(mirrored[laneOf(b)]);
      }),
    );
  });
});

describe("sides", () => {
  it.each<[number, "L" | "R" | null, Side | null]>([
    [-45, "R", "pull"],
    [-15.001, "R", "pull"],
    [-15, "R", "middle"],
    [15, "R", "middle"],
    [15.001, "R", "opposite"],
    [45, "R", "opposite"],
    [45.001, "R", null],
    [45, "L", "pull"],
    [15.001, "L", "pull"],
    [15, "L", "middle"],
    [-15, "L", "middle"],
    [-15.001, "L", "opposite"],
    [-45.001, "L", null],
    [0, null, null],
  ])("%f° for a %s batter is %s", (bearing, bats, side) => {
    expect(sideOf(bearing, bats)).toBe(side);
  });

  it("are thirds, and mirror with the batter", () => {
    expect(sideEdges_deg).toEqual([-45, -15, 15, 45]);
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (b) => {
        expect(sideOf(-b, "L")).toBe(sideOf(b, "R"));
      }),
    );
  });
});
