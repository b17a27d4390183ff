import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  collisionBatSpeed,
  collisionEfficiency,
  collisionExitVelocity,
  plateSpeed,
  swingPitchSpeed,
} from "../../src/contact/collision.ts";
import { thresholdsFrom } from "../../src/contact/thresholds.ts";

const speed = fc.double({ min: 1, max: 120, noNaN: true });
const q = fc.double({ min: 0, max: 0.5, noNaN: true });

describe("collision", () => {
  it("is turned around by its two inverses", () => {
    fc.assert(
      fc.property(speed, speed, q, (pitch, bat, e) => {
        const exit = collisionExitVelocity(pitch, bat, e);
        expect(collisionBatSpeed(exit, pitch, e)).toBeCloseTo(bat, 8);
        expect(collisionEfficiency(exit, pitch, bat)).toBeCloseTo(e, 8);
      }),
    );
  });

  it("is bat speed and a fifth off a tee", () => {
    expect(collisionExitVelocity(0, 70)).toBeCloseTo(84, 9);
  });
});

describe("pitch speed where the ball meets the bat", () => {
  const live = { input: "live", pitch_speed_mph: 84 } as const;

  it("is eleven twelfths of a release speed, and a plate speed as it stands", () => {
    expect(plateSpeed(84)).toBeCloseTo(77, 9);
    expect(swingPitchSpeed(live, { pitch_speed_at: "release" })).toBeCloseTo(77, 9);
    expect(swingPitchSpeed(live, { pitch_speed_at: "plate" })).toBe(84);
    expect(swingPitchSpeed(live, { pitch_speed_at: null })).toBe(84);
    expect(swingPitchSpeed(live, null)).toBe(84);
  });

  it("is nothing off a tee, and unknown when it was not measured", () => {
    expect(swingPitchSpeed({ input: "tee", pitch_speed_mph: 84 }, null)).toBe(0);
    expect(swingPitchSpeed({ input: "flip", pitch_speed_mph: null }, null)).toBeNull();
  });

  it("moves with a coach's own figure", () => {
    expect(plateSpeed(100, thresholdsFrom({ release_speed_lost_share: 0.1 }))).toBeCloseTo(90, 9);
  });
});
