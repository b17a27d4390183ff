/**
 * A bat meeting a ball, in three dimensions: a sphere on a cylinder that grips. Coordinates as in the tables (x
 * toward first base, y toward center field, z up), SI, for a right-handed batter; a left-handed one is the mirror.
 *
 * Along the line from the bat's axis to the ball's middle the ball leaves with q·v_ball + (1 + q)·v_bat (A. M.
 * Nathan, Am. J. Phys. 71, 2003, 134). Across it the ball slides and grips: its surface ends at the bat's speed,
 * which takes 2/7 of the slip off the ball's speed and turns the rest into spin (solid sphere, mechanics), as far as
 * friction allows.
 */
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import {
  across,
  add,
  cross,
  dot,
  scale,
  subtract,
  turn,
  unit,
  norm,
  type Vector,
} from "../../src/field/vector.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { inch, rpm } from "../../src/units/index.ts";

/** Radius of the barrel, m: 2⅝ in across. Common practice for an adult bat, no source. */
const barrelRadius = (2.625 / 2) * inch;
/** How much q falls per square meter off the bat's best place: 0.006 per square inch. Invented, to look right. */
const fallOff = 0.006 / inch ** 2;
/** q at the far ends of the barrel. Invented. */
const leastQ = -0.1;

/** Friction of leather on the barrel: how much of the blow can act across it before the ball slides. Invented. */
const friction = 0.4;

/** The offset at which bat and ball only just touch, m. */
export const grazingOffset = barrelRadius + ballFor(null).radius;

/** A meeting of bat and ball. */
export interface Meeting {
  /** Bat's speed where it meets the ball, m/s, and its path above the horizontal, rad. */
  readonly batSpeed: number;
  readonly attackAngle: number;
  /** Where the bat's face points, and where the bat moves, seen from above, rad; negative to the pull side. */
  readonly face: number;
  readonly path: number;
  /** How far the barrel hangs below the hands, rad. */
  readonly barrelDrop: number;
  /** Ball's middle above the bat's axis, across their approach, m. */
  readonly offset: number;
  /** From the bat's best place along the barrel, m; negative toward the hands. */
  readonly alongBarrel: number;
  /** Ball's velocity, m/s, and its spin, rad/s. */
  readonly ballVelocity: Vector;
  readonly ballSpin: Vector;
}

/** The ball as it leaves. */
export interface Departure {
  readonly velocity: Vector;
  /** rad/s; backspin positive lifts, sidespin positive curves toward right field. */
  readonly backspin: number;
  readonly sidespin: number;
  /** Collision efficiency of this meeting. */
  readonly q: number;
}

/** How the ball leaves a meeting. */
export function collide(m: Meeting): Departure {
  const { radius } = ballFor(null);
  const q = Math.max(leastQ, defaultThresholds.collision_q - fallOff * m.alongBarrel ** 2);
  const barrel: Vector = [
    Math.cos(m.face) * Math.cos(m.barrelDrop),
    -Math.sin(m.face) * Math.cos(m.barrelDrop),
    -Math.sin(m.barrelDrop),
  ];
  const bat = scale(
    [
      Math.sin(m.path) * Math.cos(m.attackAngle),
      Math.cos(m.path) * Math.cos(m.attackAngle),
      Math.sin(m.attackAngle),
    ],
    m.batSpeed,
  );
  const approach = subtract(m.ballVelocity, bat);
  // The line of centers: against the approach, tilted up about the barrel by the offset.
  const head = unit(scale(across(approach, barrel), -1));
  const line = turn(head, barrel, Math.asin(m.offset / grazingOffset));

  const along = (1 + q) * dot(bat, line) - q * dot(m.ballVelocity, line);
  const slip = across(add(approach, cross(m.ballSpin, scale(line, -radius))), line);
  const pressed = along - dot(m.ballVelocity, line);
  const change = scale(slip, -Math.min(2 / 7, (friction * pressed) / norm(slip)));
  const velocity = add(add(scale(line, along), across(m.ballVelocity, line)), change);
  const spin = add(m.ballSpin, scale(cross(line, change), -2.5 / radius));

  const level = Math.hypot(velocity[0], velocity[1]);
  const aside: Vector = [velocity[1] / level, -velocity[0] / level, 0];
  return { velocity, backspin: dot(spin, aside), sidespin: -spin[2], q };
}

/** An incoming ball's spin vector, rad/s, from rpm of backspin (on the way in; negative for topspin). */
export function incomingSpin(backspin_rpm: number): Vector {
  // On the way in, backspin lifts a ball moving toward −y: that is a turn about −x.
  return [-backspin_rpm * rpm, 0, 0];
}
