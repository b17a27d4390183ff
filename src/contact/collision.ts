/**
 * Bat meets ball: exit velocity from the speeds of both. Speeds may be in any one unit.
 * Source: A. M. Nathan, Am. J. Phys. 71, 2003, 134.
 */
import type { Session, Swing } from "../swing/fields.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/**
 * Exit velocity of a squarely hit ball: q·v_pitch + (1 + q)·v_bat.
 * @param pitchSpeed where the ball meets the bat; 0 on a tee
 * @param batSpeed where the bat meets the ball
 * @param q collision efficiency
 * @example collisionExitVelocity(90, 70) // 102
 * @example collisionExitVelocity(85, 75) // 107
 */
export function collisionExitVelocity(
  pitchSpeed: number,
  batSpeed: number,
  q: number = defaultThresholds.collision_q,
): number {
  return q * pitchSpeed + (1 + q) * batSpeed;
}

/**
 * Bat speed that a squarely hit ball's exit velocity needs.
 * @example collisionBatSpeed(102, 90) // 70.0
 */
export function collisionBatSpeed(
  exitVelocity: number,
  pitchSpeed: number,
  q: number = defaultThresholds.collision_q,
): number {
  return (exitVelocity - q * pitchSpeed) / (1 + q);
}

/**
 * Collision efficiency that an exit velocity shows, q = (EV − v_bat) ÷ (v_pitch + v_bat); lower than the bat's
 * best where the ball was not met squarely.
 * @example collisionEfficiency(102, 90, 70) // 0.2
 */
export function collisionEfficiency(exitVelocity: number, pitchSpeed: number, batSpeed: number): number {
  return (exitVelocity - batSpeed) / (pitchSpeed + batSpeed);
}

/**
 * Collision efficiency of a bat and a ball: (e − r) ÷ (1 + r), r the ball's mass over the bat's effective mass.
 * @param restitution bat-ball coefficient of restitution e
 * @param ballMass kg, or the unit of the other mass
 * @param effectiveMass the bat's, where it meets the ball
 * @example batCollisionEfficiency(0.5, 0.145, 0.58) // 0.2
 */
export function batCollisionEfficiency(restitution: number, ballMass: number, effectiveMass: number): number {
  const r = ballMass / effectiveMass;
  return (restitution - r) / (1 + r);
}

/**
 * Speed of a pitch at the plate, from its speed at release: a twelfth less.
 * @example plateSpeed(96) // 88.0
 */
export function plateSpeed(releaseSpeed: number, thresholds: Thresholds = defaultThresholds): number {
  return releaseSpeed * (1 - thresholds.release_speed_lost_share);
}

/**
 * What pitch speeds at the plate are worked out with: where each session measured them, and what a pitch loses on its
 * way. Both or neither: a speed at release is not to be read by another's figures. With neither, speeds are those at the plate.
 */
export type PitchSpeedSource =
  | {
      readonly sessions: readonly Pick<Session, "session" | "pitch_speed_at">[];
      readonly thresholds: Thresholds;
    }
  | { readonly sessions?: undefined; readonly thresholds?: undefined };

/**
 * A swing's pitch speed where the ball meets the bat, mph, whichever way its session measured it; 0 on a tee,
 * null when unknown.
 * @example swingPitchSpeed({ input: "live", pitch_speed_mph: 96 }, { pitch_speed_at: "release" }) // 88.0
 * @example swingPitchSpeed({ input: "tee", pitch_speed_mph: null }, null) // 0
 * @example swingPitchSpeed({ input: "live", pitch_speed_mph: null }, null) // null
 */
export function swingPitchSpeed(
  swing: Pick<Swing, "input" | "pitch_speed_mph">,
  session: Pick<Session, "pitch_speed_at"> | null,
  thresholds: Thresholds = defaultThresholds,
): number | null {
  if (swing.input === "tee") return 0;
  if (swing.pitch_speed_mph === null) return null;
  return session?.pitch_speed_at === "release"
    ? plateSpeed(swing.pitch_speed_mph, thresholds)
    : swing.pitch_speed_mph;
}
