import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  plateDepth_ft,
  readFrom,
  straight,
  truthFrom,
  usualStand,
  type Placement,
} from "../../src/field/tracker.ts";
import { departureOf, velocityOf, type Vector } from "../../src/field/vector.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const placement: fc.Arbitrary<Placement> = fc.record({
  distance_ft: between(5, 40),
  offset_in: between(-60, 60),
  yaw_deg: between(-45, 45),
  tilt_deg: between(-45, 45),
  roll_deg: between(-45, 45),
});
const truth = fc.record({
  velocity: fc.tuple(between(-150, 150), between(-150, 150), between(-150, 150)),
  contact: fc.tuple(between(-3, 3), between(-2, 5), between(0, 6)),
});

describe("a reading from a misplaced tracker", () => {
  it("is undone by its inverse, whatever the placement and the scale", () => {
    fc.assert(
      fc.property(placement, truth, fc.boolean(), (p, was, scaled) => {
        const believed = { stand: usualStand, scaled };
        const back = truthFrom(readFrom(was, p, believed), p, believed);
        back.velocity.forEach((v, i) => expect(v).toBeCloseTo(was.velocity[i]!, 8));
        back.contact.forEach((v, i) => expect(v).toBeCloseTo(was.contact[i]!, 8));
      }),
    );
  });

  it("is the truth where the tracker stands as it believes", () => {
    const was = { velocity: velocityOf(90, 20, -15), contact: [0.3, 1.6, 2.4] as Vector };
    for (const scaled of [true, false]) {
      const read = readFrom(was, { ...usualStand, ...straight }, { stand: usualStand, scaled });
      read.contact.forEach((v, i) => expect(v).toBeCloseTo(was.contact[i]!, 12));
      expect(departureOf(read.velocity).speed).toBeCloseTo(90, 12);
    }
  });

  it("scales speeds and lengths where the scale comes from a wrong distance, and keeps the plate's edge", () => {
    const edge: Vector = [0.5, plateDepth_ft, 2];
    const far = { ...usualStand, ...straight, distance_ft: 18 };
    const read = readFrom({ velocity: [0, 90, 0], contact: edge }, far, { stand: usualStand, scaled: true });
    expect(departureOf(read.velocity).speed).toBeCloseTo((90 * 17) / 18, 9);
    expect(read.contact[0]).toBeCloseTo((0.5 * 17) / 18, 9);
    expect(read.contact[1]).toBeCloseTo(plateDepth_ft, 9);
  });

  it("puts the contact off by the whole difference where the scale is the tracker's own", () => {
    const far = { ...straight, distance_ft: 18, offset_in: 3 };
    const read = readFrom({ velocity: [0, 90, 0], contact: [0, 1.5, 2] }, far, {
      stand: usualStand,
      scaled: false,
    });
    expect(departureOf(read.velocity).speed).toBeCloseTo(90, 9);
    expect(read.contact[0]).toBeCloseTo(-0.25, 9);
    expect(read.contact[1]).toBeCloseTo(0.5, 9);
  });

  it("refuses a distance of nothing", () => {
    const at = { ...straight, distance_ft: 0, offset_in: 0 };
    const was = { velocity: [0, 1, 0], contact: [0, 0, 0] } as const;
    expect(() => readFrom(was, at, { stand: usualStand, scaled: true })).toThrow("above 0");
    expect(() => truthFrom(was, at, { stand: usualStand, scaled: false })).toThrow("above 0");
  });
});
