/** Vectors of three, for the simulated collision and the tracker's turn. */
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

/** `a` turned about the unit vector `axis` by an angle in rad, by the right-hand rule (Rodrigues' formula). */
export function turn(a: Vector, axis: Vector, angle: number): Vector {
  const c = Math.cos(angle);
  return add(add(scale(a, c), scale(cross(axis, a), Math.sin(angle))), scale(axis, dot(axis, a) * (1 - c)));
}
