import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { farFromPlate, readFrom, straight, truthFrom, type Placement } from "../../src/field/tracker.ts";
import { departureOf, velocityOf, type Vector } from "../../src/field/vector.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const placement: fc.Arbitrary<Placement> = fc.record({
  distance_ft: between(-60, 60),
  offset_in: between(-300, 300),
  yaw_deg: between(-45, 45),
  tilt_deg: between(-45, 45),
  roll_deg: between(-45, 45),
});
/** Before, behind and beside the plate. */
const stands = [
  { distance_ft: 21.6, offset_in: -4.6 },
  { distance_ft: -13.7, offset_in: 31.4 },
  { distance_ft: 2.6, offset_in: 188 },
] as const;
const truth = fc.record({
  velocity: fc.tuple(between(-150, 150), between(-150, 150), between(-150, 150)),
  contact: fc.tuple(between(-3, 3), between(-2, 5), between(0, 6)),
});

describe("a reading from a misplaced tracker", () => {
  it("is undone by its inverse, whatever the placement and the scale", () => {
    fc.assert(
      fc.property(placement, truth, fc.constantFrom(...stands), fc.boolean(), (p, was, stand, scaled) => {
        fc.pre(farFromPlate(p) > 1);
        const believed = { stand, scaled };
        const back = truthFrom(readFrom(was, p, believed), p, believed);
        back.velocity.forEach((v, i) => expect(v).toBeCloseTo(was.velocity[i]!, 8));
        back.contact.forEach((v, i) => expect(v).toBeCloseTo(was.contact[i]!, 8));
      }),
    );
  });

  it("is the truth where the tracker stands as it believes", () => {
    const was = { velocity: velocityOf(90, 20, -15), contact: [0.3, 1.6, 2.4] as Vector };
    for (const stand of stands)
      for (const scaled of [true, false]) {
        const read = readFrom(was, { ...stand, ...straight }, { stand, scaled });
        read.contact.forEach((v, i) => expect(v).toBeCloseTo(was.contact[i]!, 12));
        expect(departureOf(read.velocity).speed).toBeCloseTo(90, 12);
      }
  });

  it("scales speeds and lengths where the scale comes from a wrong distance, and keeps the plate's point", () => {
    // On the line, before or behind: half a foot wide of the point reads as far as told over as far as it stands.
    for (const [told, stands] of [
      [20, 21],
      [-14, -13],
    ] as const) {
      const read = readFrom(
        { velocity: [0, 90, 0], contact: [0.5, 0, 2] },
        { ...straight, distance_ft: stands, offset_in: 0 },
        { stand: { distance_ft: told, offset_in: 0 }, scaled: true },
      );
      expect(departureOf(read.velocity).speed).toBeCloseTo((90 * told) / stands, 9);
      expect(read.contact[0]).toBeCloseTo((0.5 * told) / stands, 9);
      expect(read.contact[1]).toBeCloseTo(0, 9);
    }
  });

  it("turned, shifts a ball one way from before the plate and the other way from behind it", () => {
    // By hand: a ball over the plate's point, seen from 20 ft off the other way; 20 sin 2° = 0.698 ft.
    for (const [distance_ft, aside] of [
      [20, -0.698],
      [-20, 0.698],
    ] as const) {
      const stand = { distance_ft, offset_in: 0 };
      const read = readFrom(
        { velocity: [0, 90, 0], contact: [0, 0, 2] },
        { ...stand, ...straight, yaw_deg: 2 },
        { stand, scaled: false },
      );
      expect(read.contact[0]).toBeCloseTo(aside, 3);
      expect(departureOf(read.velocity).sprayAngle_deg).toBeCloseTo(2, 9);
    }
  });

  it("puts the contact off by the whole difference where the scale is the tracker's own", () => {
    const far = { ...straight, distance_ft: 22, offset_in: 3 };
    const read = readFrom({ velocity: [0, 90, 0], contact: [0, 1.5, 2] }, far, {
      stand: { distance_ft: 21, offset_in: 0 },
      scaled: false,
    });
    expect(departureOf(read.velocity).speed).toBeCloseTo(90, 9);
    expect(read.contact[0]).toBeCloseTo(-0.25, 9);
    expect(read.contact[1]).toBeCloseTo(0.5, 9);
  });

  it("takes no scale from a place on the plate's point", () => {
    const [at, stand] = [{ ...straight, distance_ft: 0, offset_in: 0 }, stands[0]];
    const was = { velocity: [0, 1, 0], contact: [0, 0, 0] } as const;
    expect(() => readFrom(was, at, { stand, scaled: true })).toThrow("stands off the plate");
    expect(() => truthFrom(was, { ...stand, ...straight }, { stand: at, scaled: true })).toThrow(
      "stands off the plate",
    );
    expect(readFrom(was, at, { stand: at, scaled: false })).toEqual(was);
  });
});
