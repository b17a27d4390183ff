import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { trackerPlace } from "../../src/field/tracker.ts";
import {
  BadMeasurement,
  placementFrom,
  slopeAngle,
  standFromTapes,
  yawFromFarSight,
} from "../../src/setup/measured.ts";

describe("two tapes", () => {
  it("give back the place that they were stretched from", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -300, max: 300, noNaN: true }),
        fc.constantFrom(12, 60, 90),
        (distance_ft, offset_in, mark_ft) => {
          const [x, y] = trackerPlace({ distance_ft, offset_in });
          const a = mark_ft / Math.SQRT2;
          const found = standFromTapes({
            toFirst_ft: Math.hypot(x - a, y - a),
            toThird_ft: Math.hypot(x + a, y - a),
            mark_ft,
            beyond: y > a,
          });
          fc.pre(Math.abs(y - a) > 0.01);
          expect(found.distance_ft).toBeCloseTo(distance_ft, 6);
          expect(found.offset_in).toBeCloseTo(offset_in, 6);
        },
      ),
    );
  });

  it("say how much half an inch of tape moves the place: by hand, 0.43 in across and 0.61 in along", () => {
    // Half an inch on each, at a tracker on the line: along 0.5/√2 ÷ (45.2 ÷ 78.1) = 0.611 in; across 0.5/√2 ÷
    // (63.6 ÷ 78.1) = 0.434 in.
    const { distanceDoubt_ft, offsetDoubt_in } = standFromTapes({
      toFirst_ft: 78.06,
      toThird_ft: 78.06,
      mark_ft: 90,
    });
    expect(distanceDoubt_ft * 12).toBeCloseTo(0.61, 2);
    expect(offsetDoubt_in).toBeCloseTo(0.434, 2);
  });

  it("that meet nowhere, or are no lengths, are refused with a sentence", () => {
    expect(() => standFromTapes({ toFirst_ft: 20, toThird_ft: 20, mark_ft: 90 })).toThrow(/meet nowhere/);
    expect(() => standFromTapes({ toFirst_ft: 0, toThird_ft: 20, mark_ft: 90 })).toThrow(BadMeasurement);
  });
});

it("takes no place for granted", () => {
  expect(() => placementFrom({ offset_in: 3 })).toThrow(/no distance is taken for granted/);
});

describe("level and sight", () => {
  it("turn into angles", () => {
    expect(slopeAngle({ rise_in: 1, over_in: 57.29 })).toBeCloseTo(1, 3);
    expect(slopeAngle({ rise_in: -0.5, over_in: 12 })).toBeLessThan(0);
    expect(() => slopeAngle({ rise_in: 1, over_in: 0 })).toThrow(/above 0/);
  });

  it("aimed at the rubber's middle from beside the line, the tracker is turned", () => {
    // 6 in off over 42.08 ft: atan(0.5 ÷ 42.08) = 0.681°.
    expect(yawFromFarSight(6, 0, 42.08)).toBeCloseTo(0.681, 3);
    expect(yawFromFarSight(6, 6, 42.08)).toBeCloseTo(0, 9);
  });

  it("make a placement together", () => {
    const { placement, taped } = placementFrom({
      distance_ft: -13.7,
      offset_in: 2,
      tilt: { rise_in: 0.1, over_in: 12 },
      roll: { rise_in: -0.1, over_in: 12 },
      farSight_in: 10,
    });
    expect(taped).toBeNull();
    expect(placement.tilt_deg).toBeCloseTo(0.477, 3);
    expect(placement.roll_deg).toBeCloseTo(-0.477, 3);
    expect(placement.yaw_deg).toBeLessThan(0);
    // From behind the plate the sight is longer: 10 in less 2 over 74.2 ft.
    expect(placement.yaw_deg).toBeCloseTo(-0.515, 3);
    expect(() => placementFrom({ distance_ft: 61, farSight_in: 1 })).toThrow(/beyond the rubber/);
  });
});
