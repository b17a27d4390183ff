/** Vectors of three in the tables' coordinates: x toward first base, y toward center field, z up; any one unit. */
import { deg } from "../units/index.ts";

export type Vector = readonly [number, number, number];

export const add = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const norm = (a: Vector): number => Math.sqrt(dot(a, a));
export const unit = (a: Vector): Vector => scale(a, 1 / norm(a));
/** The part of `a` across the unit vector `n`. */
export const across = (a: Vector, n: Vector): Vector => subtract(a, scale(n, dot(a, n)));

/**
 * `a` turned about the unit vector `axis` by an angle in rad, by the right-hand rule. Source: Rodrigues' formula.
 * @example turn([1, 0, 0], [0, 0, 1], Math.PI / 2) // [0, 1, 0]
 */
export function turn(a: Vector, axis: Vector, angle: number): Vector {
  const c = Math.cos(angle);
  return add(add(scale(a, c), scale(cross(axis, a), Math.sin(angle))), scale(axis, dot(axis, a) * (1 - c)));
}

/** A velocity as a tracker tells it. */
export interface Departure {
  /** In the velocity's unit. */
  readonly speed: number;
  readonly launchAngle_deg: number;
  readonly sprayAngle_deg: number;
}

/**
 * Speed, launch and spray angle of a velocity.
 * @example departureOf([0, 3, 3]) // { speed: 4.243, launchAngle_deg: 45, sprayAngle_deg: 0 }
 */
export function departureOf(velocity: Vector): Departure {
  const speed = norm(velocity);
  return {
    speed,
    launchAngle_deg: Math.asin(velocity[2] / speed) / deg,
    sprayAngle_deg: Math.atan2(velocity[0], velocity[1]) / deg,
  };
}

/**
 * The velocity of a speed, a launch and a spray angle.
 * @example velocityOf(10, 0, 90) // [10, 0, 0]
 */
export function velocityOf(speed: number, launchAngle_deg: number, sprayAngle_deg: number): Vector {
  const [up, round] = [launchAngle_deg * deg, sprayAngle_deg * deg];
  return [
    speed * Math.cos(up) * Math.sin(round),
    speed * Math.cos(up) * Math.cos(round),
    speed * Math.sin(up),
  ];
}
