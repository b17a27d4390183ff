/**
 * How the landing point of the kernel's last flight moves with everything it was computed from, found by carrying
 * the landing point's derivative backward along the flight (the adjoint of the equation of motion): one walk back,
 * cheaper than a flight, holds for all quantities at once.
 *
 * With p the landing point's derivative by the position, the same all along, its derivative by the velocity, m,
 * obeys dm/dt = −Jᵀm − p and is 0 at the ground; J is the derivative of the acceleration by the velocity. A
 * constant c of the model then moves the landing point by ∫ m · ∂(acceleration)/∂c dt.
 */
import { liftOffset } from "./coefficients.ts";
import { mostTrail, trail, trailSteps, trailWidth } from "./kernel.ts";
import * as room from "./room.ts";

const { given, landed } = room;

/** Numbers in one row of `slopes`. */
export const slopeWidth = 10;
/**
 * Derivatives of the landing's x, then of its y: by the height of the contact point (0); by the velocity x, y, z
 * (1 to 3); by the spin vector x, y, z, its lift alone (4 to 6); by the drag constants `given[9]` (7) and
 * `given[10]` (8); by the density, as a part of it (9).
 */
export const slopes = new Float64Array(2 * slopeWidth);

const tiny = 1e-300;
const pointWidth = 14;
/** What the walk back needs of the start, the middle and the end of a step: see `look`. */
const points = new Float64Array(3 * pointWidth);
/** The landing's derivative by the velocity, of its x and of its y, and by the position. */
const m = new Float64Array(6);
const p = new Float64Array(6);
/** −dm/dt at the five places of a step back where it is asked for. */
const k = new Float64Array(15);
/** The place of each: the end, the middle twice, the start twice. */
const placeOf = Uint8Array.of(2, 1, 1, 0, 0);

/** Fills `points` for the step that stands at `at` in the trail; its end too when `alsoEnd`. */
function look(at: number, alsoEnd: boolean): void {
  const ox = given[6]!;
  const oy = given[7]!;
  const oz = given[8]!;
  const lift = given[11]!;
  const saturation = given[12]!;
  for (let n = 0; n < 3; n++) {
    const q = n * pointWidth;
    if (n === 2 && !alsoEnd) break;
    const from = at + 1 + 4 * n;
    const ux = trail[from]! - given[13]!;
    const uy = trail[from + 1]! - given[14]!;
    const uz = trail[from + 2]!;
    const left = trail[from + 3]!;
    const u2 = ux * ux + uy * uy + uz * uz;
    const cx = oy * uz - oz * uy;
    const cy = oz * ux - ox * uz;
    const cz = ox * uy - oy * ux;
    const c = Math.sqrt(cx * cx + cy * cy + cz * cz) + tiny;
    const below = liftOffset * u2 + saturation * left * c + tiny;
    const L = (lift * left * u2) / below;
    const bend = (L * saturation * left) / (below * c);
    // The gradient of L: of its numerator, less L times that of its denominator (Ωᵀc is c × ω).
    const along = (2 * lift * left - 2 * L * liftOffset) / below;
    points[q] = ux;
    points[q + 1] = uy;
    points[q + 2] = uz;
    points[q + 3] = Math.sqrt(u2);
    points[q + 4] = cx;
    points[q + 5] = cy;
    points[q + 6] = cz;
    points[q + 7] = L;
    points[q + 8] = along * ux - bend * (cy * oz - cz * oy);
    points[q + 9] = along * uy - bend * (cz * ox - cx * oz);
    points[q + 10] = along * uz - bend * (cx * oy - cy * ox);
    points[q + 11] = given[9]! + given[10]! * left;
    points[q + 12] = bend;
    points[q + 13] = left;
  }
}

/** One step back of `h` seconds for one of the two coordinates. */
function stepBack(h: number, axis: number): void {
  const ox = given[6]!;
  const oy = given[7]!;
  const oz = given[8]!;
  const px = p[3 * axis]!;
  const py = p[3 * axis + 1]!;
  const pz = p[3 * axis + 2]!;
  const m0x = m[3 * axis]!;
  const m0y = m[3 * axis + 1]!;
  const m0z = m[3 * axis + 2]!;
  let mx = m0x;
  let my = m0y;
  let mz = m0z;
  // Runge and Kutta's classical four, then the derivative at the step's start for the cubic between.
  for (let s = 0; s < 5; s++) {
    if (s === 4) {
      mx = m0x + (h / 6) * (k[0]! + 2 * (k[3]! + k[6]!) + k[9]!);
      my = m0y + (h / 6) * (k[1]! + 2 * (k[4]! + k[7]!) + k[10]!);
      mz = m0z + (h / 6) * (k[2]! + 2 * (k[5]! + k[8]!) + k[11]!);
    } else if (s > 0) {
      const part = s === 3 ? h : h / 2;
      mx = m0x + part * k[3 * s - 3]!;
      my = m0y + part * k[3 * s - 2]!;
      mz = m0z + part * k[3 * s - 1]!;
    }
    const q = placeOf[s]! * pointWidth;
    const ux = points[q]!;
    const uy = points[q + 1]!;
    const uz = points[q + 2]!;
    const u = points[q + 3]!;
    const L = points[q + 7]!;
    const du = points[q + 11]! * u;
    const along = (points[q + 11]! * (ux * mx + uy * my + uz * mz)) / (u + tiny);
    const lifted = points[q + 4]! * mx + points[q + 5]! * my + points[q + 6]! * mz;
    k[3 * s] = px - du * mx - along * ux + L * (my * oz - mz * oy) + lifted * points[q + 8]!;
    k[3 * s + 1] = py - du * my - along * uy + L * (mz * ox - mx * oz) + lifted * points[q + 9]!;
    k[3 * s + 2] = pz - du * mz - along * uz + L * (mx * oy - my * ox) + lifted * points[q + 10]!;
  }
  m[3 * axis] = mx;
  m[3 * axis + 1] = my;
  m[3 * axis + 2] = mz;
  // The constants' integrals by Simpson's rule; m in the middle by the cubic through both ends.
  const row = axis * slopeWidth;
  for (let n = 0; n < 3; n++) {
    const weight = n === 1 ? (2 * h) / 3 : h / 6;
    if (n === 1) {
      mx = (m0x + mx) / 2 + (h / 8) * (k[0]! - k[12]!);
      my = (m0y + my) / 2 + (h / 8) * (k[1]! - k[13]!);
      mz = (m0z + mz) / 2 + (h / 8) * (k[2]! - k[14]!);
    } else if (n === 2) {
      mx = m0x;
      my = m0y;
      mz = m0z;
    }
    const q = n * pointWidth;
    const ux = points[q]!;
    const uy = points[q + 1]!;
    const uz = points[q + 2]!;
    const cx = points[q + 4]!;
    const cy = points[q + 5]!;
    const cz = points[q + 6]!;
    const L = points[q + 7]!;
    const lifted = cx * mx + cy * my + cz * mz;
    const bent = points[q + 12]! * lifted;
    const dragged = -points[q + 3]! * (ux * mx + uy * my + uz * mz);
    // m · (δω × u) is δω · (u × m), and the bend of L goes with δω · (u × c).
    slopes[row + 4] = slopes[row + 4]! + weight * (L * (uy * mz - uz * my) - bent * (uy * cz - uz * cy));
    slopes[row + 5] = slopes[row + 5]! + weight * (L * (uz * mx - ux * mz) - bent * (uz * cx - ux * cz));
    slopes[row + 6] = slopes[row + 6]! + weight * (L * (ux * my - uy * mx) - bent * (ux * cy - uy * cx));
    slopes[row + 7] = slopes[row + 7]! + weight * dragged;
    slopes[row + 8] = slopes[row + 8]! + weight * dragged * points[q + 13]!;
    slopes[row + 9] = slopes[row + 9]! + weight * (L * lifted + points[q + 11]! * dragged);
  }
}

/**
 * Fills `slopes` for the kernel's last flight, which has to have been traced.
 * @returns false when the flight wasn't traced, was too long for the trail, or ended where it began: then there are none.
 */
export function differentiate(): boolean {
  const steps = trailSteps[0]!;
  if (steps === 0 || steps > mostTrail) return false;
  slopes.fill(0);
  let rest = landed[2]!;
  for (let n = 0; n < steps; n++) rest -= trail[n * trailWidth]!;
  for (let axis = 0; axis < 2; axis++) {
    p[3 * axis] = axis === 0 ? 1 : 0;
    p[3 * axis + 1] = axis === 0 ? 0 : 1;
    p[3 * axis + 2] = -landed[4 + axis]! / landed[6]!;
    for (let i = 3 * axis; i < 3 * axis + 3; i++) m[i] = p[i]! * rest;
  }
  for (let n = steps - 1; n >= 0; n--) {
    const at = n * trailWidth;
    look(at, n === steps - 1);
    stepBack(trail[at]!, 0);
    stepBack(trail[at]!, 1);
    // This step's start is the end of the one before.
    for (let i = 0; i < pointWidth; i++) points[2 * pointWidth + i] = points[i]!;
  }
  for (let axis = 0; axis < 2; axis++) {
    const row = axis * slopeWidth;
    slopes[row] = p[3 * axis + 2]!;
    for (let i = 0; i < 3; i++) slopes[row + 1 + i] = m[3 * axis + i]!;
  }
  return true;
}
