import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellOf, defaultZone, zoneEdges } from "../../src/field/zone.ts";

const met = (bats: "L" | "R" | null, side: number | null, height: number | null) => ({
  bats,
  contact_side_ft: side,
  contact_height_ft: height,
});

describe("the zone's lines", () => {
  it("are the plate's width in thirds, and the hitter's knees to belt and shoulders in thirds", () => {
    const { side_ft, height_ft } = zoneEdges(70);
    expect(side_ft.map((x) => x * 12)).toEqual([-8.5, -17 / 6, 17 / 6, 8.5].map((x) => expect.closeTo(x, 9)));
    expect(height_ft[0]).toBeCloseTo((0.27 * 70) / 12, 9);
    expect(height_ft[3]).toBeCloseTo((0.535 * 70) / 12, 9);
    expect(height_ft[2] - height_ft[1]).toBeCloseTo(height_ft[1] - height_ft[0], 9);
  });

  it("grow with the hitter, and take the table's height when it is unknown", () => {
    expect(zoneEdges(60).height_ft[3]).toBeLessThan(zoneEdges(72).height_ft[3]);
    expect(zoneEdges(null)).toEqual(zoneEdges(defaultZone.zone_hitter_height_in));
    expect(zoneEdges(null, { ...defaultZone, zone_top_share: 0.6 }).height_ft[3]).toBeCloseTo(
      (0.6 * 70) / 12,
      9,
    );
  });
});

describe("cells", () => {
  const { side_ft, height_ft } = zoneEdges(72);
  it("have inside on the batter's side of the plate", () => {
    expect(cellOf(met("R", -0.6, 2.4), 72)).toEqual({ row: 1, column: 0 });
    expect(cellOf(met("L", 0.6, 2.4), 72)).toEqual({ row: 1, column: 0 });
    expect(cellOf(met("R", 0.6, 2.4), 72)).toEqual({ row: 1, column: 2 });
    expect(cellOf(met("L", 0, 1.7), 72)).toEqual({ row: 0, column: 1 });
    expect(cellOf(met("L", 0, 3.1), 72)).toEqual({ row: 2, column: 1 });
  });

  it("give a ball on a line to the middle cell", () => {
    for (const x of [side_ft[1], side_ft[2]]) {
      for (const z of [height_ft[1], height_ft[2]]) {
        expect(cellOf(met("R", x, z), 72)).toEqual({ row: 1, column: 1 });
        expect(cellOf(met("L", x, z), 72)).toEqual({ row: 1, column: 1 });
      }
    }
    expect(cellOf(met("R", side_ft[1] - 1e-6, height_ft[2] + 1e-6), 72)).toEqual({ row: 2, column: 0 });
  });

  it("are open outward", () => {
    expect(cellOf(met("R", -2, 6), 72)).toEqual({ row: 2, column: 0 });
    expect(cellOf(met("R", 2, 0), 72)).toEqual({ row: 0, column: 2 });
  });

  it("are unknown without the batter's side, the contact's side or its height", () => {
    expect(cellOf(met(null, 0, 2))).toBeNull();
    expect(cellOf(met("R", null, 2))).toBeNull();
    expect(cellOf(met("R", 0, null))).toBeNull();
  });

  it("mirror with the batter", () => {
    const number = fc.double({ min: -5, max: 9, noNaN: true });
    fc.assert(
      fc.property(number, number, (x, z) => {
        expect(cellOf(met("L", -x, z), 72)).toEqual(cellOf(met("R", x, z), 72));
      }),
    );
  });
});
