/** A flight as points along it, for drawing. */
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { fly, load, type Flight } from "./carry.ts";
import { march } from "./kernel.ts";
import { unmeasuredContact, type Launch } from "./launch.ts";

/** A point of a flight: s and m. */
export interface FlightPoint {
  readonly t: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/**
 * Follows a flight: tells where the ball is every `step_s` seconds, until `tell` says to stop. The ground is not in it.
 * @throws RangeError when the step isn't above zero, or a number isn't finite.
 */
export function follow(
  launch: Launch,
  air: Air,
  ball: Ball,
  step_s: number,
  tell: (t: number, x: number, y: number, z: number) => boolean,
): void {
  if (!(step_s > 0)) throw new RangeError(`a step of ${step_s} s isn't above zero`);
  load(launch, air, ball);
  march(step_s, tell);
}

/**
 * Points along a flight every `step_s` seconds, from the contact point to the landing point, which is the last
 * one and stands on the ground.
 * @param flight where it comes down, where that is known already
 * @throws RangeError when the step isn't above zero, or a number isn't finite.
 */
export function trajectory(
  launch: Launch,
  air: Air,
  ball: Ball,
  step_s: number,
  { hang, x, y }: Flight = fly(launch, air, ball),
): FlightPoint[] {
  const points: FlightPoint[] = [];
  follow(launch, air, ball, step_s, (t, px, py, pz) => {
    if (t >= hang) return false;
    points.push({ t, x: px, y: py, z: pz });
    return true;
  });
  const height = (launch.contact ?? unmeasuredContact)[2];
  points.push({ t: hang, x, y, z: hang === 0 ? height : 0 });
  return points;
}
