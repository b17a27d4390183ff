/** Bat meets ball, against Nathan's formula worked by hand (Am. J. Phys. 71, 2003, 134). */
import { describe, expect, it } from "vitest";
import { batCollisionEfficiency, collisionExitVelocity, plateSpeed } from "../../src/contact/collision.ts";

describe("collision, q = 0.2", () => {
  // 0.2 · 90 + 1.2 · 70 = 18 + 84; 0.2 · 85 + 1.2 · 75 = 17 + 90.
  it.each([
    [90, 70, 102],
    [85, 75, 107],
  ])("%d mph pitch, %d mph bat: %d mph", (pitch, bat, exit) => {
    expect(collisionExitVelocity(pitch, bat, 0.2)).toBeCloseTo(exit, 9);
    // The same q when none is given.
    expect(collisionExitVelocity(pitch, bat)).toBeCloseTo(exit, 9);
  });

  // Conservation of momentum and the definition of the coefficient of restitution, for a ball of mass m met by
  // a free body of mass M: v' = ((M e − m) v + M (1 + e) V) / (M + m).
  it("agrees with a two-body collision", () => {
    const [m, M, e, v, V] = [0.145, 0.7, 0.48, 38, 31];
    const byHand = ((M * e - m) * v + M * (1 + e) * V) / (M + m);
    expect(collisionExitVelocity(v, V, batCollisionEfficiency(e, m, M))).toBeCloseTo(byHand, 9);
  });

  // Common practice, no source: a 90 mph pitch crosses the plate at 82 to 83 mph.
  it("slows a 90 mph pitch to 82.5 at the plate", () => {
    expect(plateSpeed(90)).toBeCloseTo(82.5, 9);
  });
});
