/** A marked part of a chart: into an address and back, and which swings lie in it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  BadMark,
  markedCharts,
  markedNamed,
  markedRows,
  markedText,
  type Ends,
  type Marked,
  type MarkedChart,
} from "../../src/views/marked.ts";
import { swing } from "./rows.ts";

const end = fc.option(
  fc.integer({ min: -4000, max: 4000 }).map((tenths) => tenths / 10),
  { nil: null },
);
const ends: fc.Arbitrary<Ends> = fc
  .tuple(end, end)
  .map(([a, b]) => (a !== null && b !== null && a > b ? { low: b, high: a } : { low: a, high: b }));
const part: fc.Arbitrary<Marked> = fc.record({
  chart: fc.constantFrom(...(Object.keys(markedCharts) as MarkedChart[])),
  x: ends,
  y: ends,
});

describe("a marked part", () => {
  it("comes out of an address as it went in, and needs no escaping there", () => {
    fc.assert(
      fc.property(part, (marked) => {
        const text = markedText(marked);
        expect(new URLSearchParams({ marked: text }).toString()).toBe(`marked=${text}`);
        // JSON has one zero.
        expect(JSON.stringify(markedNamed(text))).toBe(JSON.stringify(marked));
      }),
    );
  });

  it.each([
    ["", /not ""/],
    ["fence_1..2_3..4", /^a part is marked as in contact_80\.\.95_10\.\.30/],
    ["contact_80-95_10..30", /^a part is marked as/],
    ["contact_80..95", /^a part is marked as/],
    ["contact_95..80_10..30", /the lower comes first/],
    ["field_..0_300..200", /the lower comes first/],
    ["toString_..1_..1", /^a part is marked as/],
  ])("is refused as %s", (text, why) => {
    expect(() => markedNamed(text)).toThrow(BadMark);
    expect(() => markedNamed(text)).toThrow(why);
  });

  it("holds balls in play by where they came down: a 3-4-5 triangle, both ends within", () => {
    const bearing_deg = (Math.asin(3 / 5) * 180) / Math.PI;
    const rows = [
      swing({ swing_id: "right", carry_ft: 250, bearing_deg }),
      swing({ swing_id: "left", carry_ft: 250, bearing_deg: -bearing_deg }),
      swing({ swing_id: "center", carry_ft: 200, bearing_deg: 0 }),
      swing({ swing_id: "no direction", carry_ft: 200, bearing_deg: null }),
      swing({ swing_id: "foul", outcome: "foul", carry_ft: 200, bearing_deg: 0 }),
    ];
    const ids = (text: string): (string | null)[] =>
      markedRows(rows, markedNamed(text)).map(({ swing_id }) => swing_id);
    expect(ids("field_149.9..150.1_199.9..200.1")).toEqual(["right"]);
    expect(ids("field_..-149.9_..")).toEqual(["left"]);
    expect(ids("field_0..0_200..")).toEqual(["center"]);
    expect(ids("field_.._..")).toEqual(["right", "left", "center"]);
    expect(ids("field_.._200.2..")).toEqual([]);
    expect(markedRows(rows, null)).toEqual(rows);
  });

  it("holds balls in play by how hard and how high they were hit", () => {
    const rows = [
      swing({ swing_id: "hard", exit_velocity_mph: 95, launch_angle_deg: 30 }),
      swing({ swing_id: "high", exit_velocity_mph: 95, launch_angle_deg: 30.1 }),
      swing({ swing_id: "soft", exit_velocity_mph: 79.9, launch_angle_deg: 20 }),
      swing({ swing_id: "no angle", exit_velocity_mph: 90, launch_angle_deg: null }),
    ];
    const ids = markedRows(rows, markedNamed("contact_80..95_10..30")).map(({ swing_id }) => swing_id);
    expect(ids).toEqual(["hard"]);
  });
});
