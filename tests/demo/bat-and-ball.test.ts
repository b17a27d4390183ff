/** The demo's collision, against what is known of one. */
import { describe, expect, it } from "vitest";
import { collide, grazingOffset, incomingSpin, type Meeting } from "../../data/demo/bat-and-ball.ts";
import { departureOf, turn, velocityOf } from "../../src/field/vector.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { deg, mph, rpm } from "../../src/units/index.ts";

const square: Meeting = {
  batSpeed: 70 * mph,
  attackAngle: 0,
  face: 0,
  path: 0,
  barrelDrop: 0,
  offset: 0,
  alongBarrel: 0,
  ballVelocity: [0, -90 * mph, 0],
  ballSpin: [0, 0, 0],
};

describe("collide", () => {
  it("gives A. M. Nathan's exit velocity (Am. J. Phys. 71, 2003, 134) for a squarely met pitch", () => {
    expect(departureOf(collide(square).velocity).speed / mph).toBeCloseTo(102, 6);
    const other = collide({ ...square, batSpeed: 75 * mph, ballVelocity: [0, -85 * mph, 0] });
    expect(departureOf(other.velocity).speed / mph).toBeCloseTo(107, 6);
  });

  it("loses exit velocity away from the bat's best place, as much toward the hands as toward the tip", () => {
    const speedAt = (alongBarrel: number): number =>
      departureOf(collide({ ...square, alongBarrel }).velocity).speed;
    expect(speedAt(0.05)).toBeLessThan(speedAt(0.02) - 1);
    expect(speedAt(-0.05)).toBeCloseTo(speedAt(0.05), 9);
  });

  it("lifts a ball met under its middle and gives it backspin, the more the further under", () => {
    const under = [0.2, 0.35].map((share) => collide({ ...square, offset: share * grazingOffset }));
    const over = collide({ ...square, offset: -0.2 * grazingOffset });
    expect(departureOf(under[0]!.velocity).launchAngle_deg).toBeGreaterThan(8);
    expect(departureOf(under[1]!.velocity).launchAngle_deg).toBeGreaterThan(
      departureOf(under[0]!.velocity).launchAngle_deg,
    );
    expect(under[1]!.backspin).toBeGreaterThan(under[0]!.backspin);
    expect(under[0]!.backspin).toBeGreaterThan(500 * rpm);
    expect(over.backspin).toBeCloseTo(-under[0]!.backspin, 6);
    expect(departureOf(over.velocity).launchAngle_deg).toBeCloseTo(
      -departureOf(under[0]!.velocity).launchAngle_deg,
      6,
    );
  });

  it("takes lift away from a fastball's own backspin, which is topspin on the way out", () => {
    const still = collide(square);
    const spinning = collide({ ...square, ballSpin: incomingSpin(2000) });
    expect(departureOf(spinning.velocity).launchAngle_deg).toBeLessThan(
      departureOf(still.velocity).launchAngle_deg - 1,
    );
    expect(spinning.backspin).toBeLessThan(0);
    expect(spinning.backspin).toBeGreaterThan(-2000 * rpm);
  });

  it("sends an early swing's ball to a right-handed batter's pull side, and slices a fly hit with a hanging barrel", () => {
    const early = collide({ ...square, face: -20 * deg, path: -20 * deg });
    expect(departureOf(early.velocity).sprayAngle_deg).toBeLessThan(-20);
    const fly = collide({ ...square, barrelDrop: 30 * deg, offset: 0.3 * grazingOffset });
    expect(fly.sidespin).toBeGreaterThan(300 * rpm);
    expect(departureOf(fly.velocity).sprayAngle_deg).toBeGreaterThan(2);
  });

  it("slides rather than grips on a glancing blow", () => {
    const offset = 0.93 * grazingOffset;
    const gripped = ((5 / 7) * 160 * mph * 0.93) / ballFor(null).radius;
    expect(collide({ ...square, offset }).backspin).toBeLessThan(0.8 * gripped);
    expect(collide({ ...square, offset: 0.3 * grazingOffset }).backspin).toBeCloseTo(
      (gripped * 0.3) / 0.93,
      6,
    );
  });
});

describe("launches and vectors", () => {
  it("come back as they went", () => {
    const { speed, launchAngle_deg, sprayAngle_deg } = departureOf(velocityOf(40, 23, -31));
    expect([speed, launchAngle_deg, sprayAngle_deg].map((x) => x.toFixed(9))).toEqual(
      [40, 23, -31].map((x) => x.toFixed(9)),
    );
  });

  it("turn by the right-hand rule", () => {
    const turned = turn([1, 0, 5], [0, 0, 1], Math.PI / 2);
    [0, 1, 5].forEach((x, i) => expect(turned[i]).toBeCloseTo(x, 12));
  });
});
