/**
 * The integrator every flight goes through, written for speed: numbers in and out by typed arrays that live as
 * long as the module, nothing allocated for a ball.
 *
 * The equation of the velocity holds no position (air and wind are the same everywhere), so a Runge-Kutta step
 * needs its stages for the velocity only, and the position is a quadrature over them. The scheme is the one of
 * order 8 in 11 stages by Cooper and Verner (SIAM J. Numer. Anal. 9, 1972, 389); its nodes are Lobatto's.
 * The last step is sized to end at the ground, so no interpolation stands between the scheme and the landing.
 */
import { gravity } from "./air.ts";
import { liftOffset, spinDecay_s } from "./coefficients.ts";

/**
 * What a flight starts from, in this order: contact point x, y, z (m); velocity x, y, z (m/s); spin vector x, y, z
 * (rad/s); drag without spin, ρA/2m·Cd (1/m); the part of it that decays with the spin (1/m); ρA/2m·R;
 * lift slope·R (m); wind x, y (m/s).
 */
export const given = new Float64Array(15);

/** Where a flight ended: x, y (m), time (s), highest z (m), velocity x, y, z at landing (m/s). */
export const landed = new Float64Array(7);

/** Steps that `trail` has room for. */
export const mostTrail = 256;
export const trailWidth = 13;
/**
 * The steps of the last flight, each: its length (s), then for its start, its middle and its end the velocity and
 * what is left of the spin.
 */
export const trail = new Float64Array(mostTrail * trailWidth);
/** How many steps the last flight had; beyond `mostTrail` the trail holds the first ones only. */
export const trailSteps = new Int32Array(1);

const r21 = Math.sqrt(21);
const stages = 11;
const width = stages + 1;
/** The node of each stage: 0 the start, 1 and 3 Lobatto's inner ones, 2 the middle, 4 the end. */
const nodeOf = Uint8Array.of(0, 2, 2, 3, 3, 2, 1, 1, 2, 3, 4, 4);
const nodes = Float64Array.of(0, (7 - r21) / 14, 1 / 2, (7 + r21) / 14, 1);
const tiny = 1e-300;
/** Row s from s·width on: the weights of the stages before it; the last row is the step itself. */
const weights = new Float64Array(width * width);
(
  [
    [],
    [1 / 2],
    [1 / 4, 1 / 4],
    [1 / 7, (-7 - 3 * r21) / 98, (21 + 5 * r21) / 49],
    [(11 + r21) / 84, 0, (18 + 4 * r21) / 63, (21 - r21) / 252],
    [(5 + r21) / 48, 0, (9 + r21) / 36, (-231 + 14 * r21) / 360, (63 - 7 * r21) / 80],
    [
      (10 - r21) / 42,
      0,
      (-432 + 92 * r21) / 315,
      (633 - 145 * r21) / 90,
      (-504 + 115 * r21) / 70,
      (63 - 13 * r21) / 35,
    ],
    [1 / 14, 0, 0, 0, (14 - 3 * r21) / 126, (13 - 3 * r21) / 63, 1 / 9],
    [1 / 32, 0, 0, 0, (91 - 21 * r21) / 576, 11 / 72, (-385 - 75 * r21) / 1152, (63 + 13 * r21) / 128],
    [
      1 / 14,
      0,
      0,
      0,
      1 / 9,
      (-733 - 147 * r21) / 2205,
      (515 + 111 * r21) / 504,
      (-51 - 11 * r21) / 56,
      (132 + 28 * r21) / 245,
    ],
    [
      0,
      0,
      0,
      0,
      (-42 + 7 * r21) / 18,
      (-18 + 28 * r21) / 45,
      (-273 - 53 * r21) / 72,
      (301 + 53 * r21) / 72,
      (28 - 28 * r21) / 45,
      (49 - 7 * r21) / 18,
    ],
    [1 / 20, 0, 0, 0, 0, 0, 0, 49 / 180, 16 / 45, 49 / 180, 1 / 20],
  ] as const
).forEach((row, s) => row.forEach((value, j) => (weights[s * width + j] = value)));

/** Accelerations of the stages, x, y and z; the one at the end of a step is the first of the next. */
const ax = new Float64Array(width);
const ay = new Float64Array(width);
const az = new Float64Array(width);
/** What is left of the spin at each node of a step. */
const decay = new Float64Array(5);
/** Time, x, y, z and velocity x, y, z at the start of a step, and at its end. */
const here = new Float64Array(7);
const next = new Float64Array(7);
/** How far the step's own two values of its last acceleration are apart, m: what a step is judged by. */
const doubt = new Float64Array(1);

/** One step of `h` seconds from `here` to `next`; `first` when the acceleration at `here` isn't known yet. */
function step(h: number, from: number, to: number): void {
  const t = here[0]!;
  const vx0 = here[4]!;
  const vy0 = here[5]!;
  const vz0 = here[6]!;
  const ox = given[6]!;
  const oy = given[7]!;
  const oz = given[8]!;
  const drag = given[9]!;
  const spinDrag = given[10]!;
  const lift = given[11]!;
  const saturation = given[12]!;
  const wx = given[13]!;
  const wy = given[14]!;
  const left = Math.exp(-t / spinDecay_s);
  decay[0] = left;
  for (let n = 1; n < 5; n++) {
    // exp(-q) by its series: q is under 0.1, where six terms are good to 1e-10.
    const q = (nodes[n]! * h) / spinDecay_s;
    decay[n] = left * (1 - q * (1 - (q / 2) * (1 - (q / 3) * (1 - (q / 4) * (1 - (q / 5) * (1 - q / 6))))));
  }
  let px = vx0 / 20;
  let py = vy0 / 20;
  let pz = vz0 / 20;
  let fx = 0;
  let fy = 0;
  let fz = 0;
  for (let s = from; s <= to; s++) {
    const row = s * width;
    let kx = 0;
    let ky = 0;
    let kz = 0;
    for (let j = 0; j < s; j++) {
      const w = weights[row + j]!;
      kx += w * ax[j]!;
      ky += w * ay[j]!;
      kz += w * az[j]!;
    }
    const vx = vx0 + h * kx;
    const vy = vy0 + h * ky;
    const vz = vz0 + h * kz;
    const e = decay[nodeOf[s]!]!;
    const ux = vx - wx;
    const uy = vy - wy;
    const u2 = ux * ux + uy * uy + vz * vz;
    const cx = oy * vz - oz * uy;
    const cy = oz * ux - ox * vz;
    const cz = ox * uy - oy * ux;
    const D = (drag + spinDrag * e) * Math.sqrt(u2);
    // Cl·v²/(ω⊥ v) with S = Rω⊥/v put in: one division, and nothing to divide by zero but still air itself.
    const L =
      (lift * e * u2) / (liftOffset * u2 + saturation * e * Math.sqrt(cx * cx + cy * cy + cz * cz) + tiny);
    fx = L * cx - D * ux;
    fy = L * cy - D * uy;
    fz = L * cz - D * vz - gravity;
    if (s < stages) {
      ax[s] = fx;
      ay[s] = fy;
      az[s] = fz;
      if (s > 0) {
        const b = weights[stages * width + s]!;
        px += b * vx;
        py += b * vy;
        pz += b * vz;
      }
    } else {
      next[4] = vx;
      next[5] = vy;
      next[6] = vz;
    }
  }
  const last = stages - 1;
  doubt[0] = h * h * (Math.abs(fx - ax[last]!) + Math.abs(fy - ay[last]!) + Math.abs(fz - az[last]!));
  ax[stages] = fx;
  ay[stages] = fy;
  az[stages] = fz;
  next[0] = t + h;
  next[1] = here[1]! + h * px;
  next[2] = here[2]! + h * py;
  next[3] = here[3]! + h * pz;
}

/** Longest step, s, and how far a step may reach toward where |u| or |ω × u| would vanish: see `reach`. */
const longestStep = 1.4;
const shortestStep = 0.03;
const boldness = 0.7;
const turnStep = 0.1;
/** A step whose two last accelerations are further apart than this, in m, is taken again at half the length. */
const mostDoubt = 0.03;
/** Steps before a flight is given up: some minutes aloft. */
const mostSteps = 20_000;
/** Further ahead than this, s, the local polynomial says nothing of the ground. */
const sight = 2.5 * longestStep;
/** So near the ground, s, the rest is a polynomial: its error is under 1e-6 m. */
const nearGround = 0.01;

/**
 * How long the next step may be. Drag and lift hold |u| and |ω × u|, which have a kink where they vanish; time
 * from here to there, were the acceleration constant, is |u|/|a|, and no step goes much of that way.
 */
function reach(): number {
  const ux = here[4]! - given[13]!;
  const uy = here[5]! - given[14]!;
  const uz = here[6]!;
  const a = ax[0]!;
  const b = ay[0]!;
  const c = az[0]!;
  const ox = given[6]!;
  const oy = given[7]!;
  const oz = given[8]!;
  const px = oy * uz - oz * uy;
  const py = oz * ux - ox * uz;
  const pz = ox * uy - oy * ux;
  const qx = oy * c - oz * b;
  const qy = oz * a - ox * c;
  const qz = ox * b - oy * a;
  const still = (ux * ux + uy * uy + uz * uz) / (a * a + b * b + c * c + tiny);
  const along = (px * px + py * py + pz * pz + tiny) / (qx * qx + qy * qy + qz * qz + tiny);
  return Math.max(shortestStep, Math.min(longestStep, boldness * Math.sqrt(Math.min(still, along))));
}

/**
 * Seconds from `here` down to the ground along the local polynomial in the climb's acceleration, jerk and snap;
 * negative when already below, Infinity when the ground isn't in sight.
 */
function timeToGround(a: number, jerk: number, snap: number): number {
  const z = here[3]!;
  const v = here[6]!;
  const square = v * v - 2 * a * z;
  let t = Infinity;
  if (v <= 0) {
    if (square >= 0) t = (2 * z) / (Math.sqrt(square) - v);
    else if (z < 0) t = -z / v;
  } else if (a < 0 && square >= 0) t = -(v + Math.sqrt(square)) / a;
  if (!(t < sight)) return Infinity;
  let r = t;
  for (let i = 0; i < 3; i++) {
    const height = z + r * (v + r * (a / 2 + r * (jerk / 6 + (r * snap) / 24)));
    r -= height / (v + r * (a + r * (jerk / 2 + (r * snap) / 6)));
  }
  return Math.abs(r - t) < 0.3 * Math.abs(t) + nearGround ? r : t;
}

/** The highest point within the last step, by the quintic through height, climb and acceleration at both ends. */
function peak(h: number): number {
  const z = here[3]!;
  const v = here[6]!;
  const c1 = h * v;
  const c2 = (h * h * az[0]!) / 2;
  const r0 = next[3]! - z - c1 - c2;
  const r1 = h * (next[6]! - v) - 2 * c2;
  const r2 = h * h * (az[stages]! - az[0]!);
  const c3 = 10 * r0 - 4 * r1 + r2 / 2;
  const c4 = -15 * r0 + 7 * r1 - r2;
  const c5 = 6 * r0 - 3 * r1 + r2 / 2;
  let s = v / (v - next[6]!);
  for (let i = 0; i < 4; i++) {
    s -=
      (c1 + s * (2 * c2 + s * (3 * c3 + s * (4 * c4 + s * 5 * c5)))) /
      (2 * c2 + s * (6 * c3 + s * (12 * c4 + s * 20 * c5)));
  }
  return z + s * (c1 + s * (c2 + s * (c3 + s * (c4 + s * c5))));
}

/** Puts `here` at the contact point, with the acceleration there. */
function begin(): void {
  trailSteps[0] = 0;
  here[0] = 0;
  for (let i = 0; i < 6; i++) here[i + 1] = given[i]!;
  step(0, 0, 0);
}

/** Makes the end of the last step the start of the next, and writes the step down in `trail`. */
function accept(h: number): void {
  if (trailSteps[0]! < mostTrail) {
    const at = trailSteps[0]! * trailWidth;
    trail[at] = h;
    for (let i = 0; i < 3; i++) {
      trail[at + 1 + i] = here[4 + i]!;
      trail[at + 9 + i] = next[4 + i]!;
    }
    trail[at + 4] = decay[0]!;
    trail[at + 5] = (here[4]! + next[4]!) / 2 + (h / 8) * (ax[0]! - ax[stages]!);
    trail[at + 6] = (here[5]! + next[5]!) / 2 + (h / 8) * (ay[0]! - ay[stages]!);
    trail[at + 7] = (here[6]! + next[6]!) / 2 + (h / 8) * (az[0]! - az[stages]!);
    trail[at + 8] = decay[2]!;
    trail[at + 12] = decay[4]!;
  }
  trailSteps[0] = trailSteps[0]! + 1;
  ax[0] = ax[stages]!;
  ay[0] = ay[stages]!;
  az[0] = az[stages]!;
  for (let i = 0; i < 7; i++) here[i] = next[i]!;
}

function land(t: number, top: number): void {
  landed[0] = here[1]! + t * (here[4]! + (t / 2) * ax[0]!);
  landed[1] = here[2]! + t * (here[5]! + (t / 2) * ay[0]!);
  landed[2] = here[0]! + t;
  landed[3] = top;
  landed[4] = here[4]! + t * ax[0]!;
  landed[5] = here[5]! + t * ay[0]!;
  landed[6] = here[6]! + t * az[0]!;
}

/**
 * Flies what stands in `given` and leaves the first fall to z = 0 in `landed`. A ball that starts on or under the
 * ground and doesn't rise above it has landed where it starts. `rough` is a third quicker and good to some 0.05 ft,
 * for a flight that is only set beside another.
 * @throws RangeError when the ball never comes down.
 */
export function run(rough = false): void {
  const stretch = rough ? 1.5 : 1;
  const tolerated = rough ? 100 * mostDoubt : mostDoubt;
  begin();
  let top = here[3]!;
  let jerk = 0;
  let snap = 0;
  let allowed = Infinity;
  let risen = top > 0;
  for (let n = 0; n < mostSteps; n++) {
    const z = here[3]!;
    const v = here[6]!;
    const ground = timeToGround(az[0]!, jerk, snap);
    if (n === 0 && z <= 0 && (v <= 0 || (ground === Infinity && v * v + 2 * az[0]! * -z < 0))) {
      land(0, top);
      return;
    }
    if (ground < nearGround && ground > -nearGround) {
      if (v > 0) top = Math.max(top, z - (v * v) / (2 * az[0]!));
      land(ground, top);
      return;
    }
    let longest = Math.min(stretch * reach(), allowed);
    // A ball that falls but is lifted more than it weighs may turn up and down again: not within one step.
    if (v <= 0 && az[0]! > 0) longest = Math.min(longest, turnStep);
    const h = ground <= longest ? ground : ground <= 2 * longest ? ground / 2 : longest;
    step(h, 1, stages);
    const dipped = z > 0 && next[3]! < 0 && next[6]! > 0;
    if ((doubt[0]! > tolerated || dipped) && Math.abs(h) > shortestStep) {
      allowed = Math.abs(h) / 2;
      continue;
    }
    allowed *= 2;
    if (v > 0 && next[6]! <= 0) top = Math.max(top, peak(h));
    jerk = (az[0]! - 4 * az[8]! + 3 * az[stages]!) / h;
    snap = (4 * (az[0]! - 2 * az[8]! + az[stages]!)) / (h * h);
    accept(h);
    risen ||= here[3]! > 0;
    if (!risen && here[6]! <= 0) {
      begin();
      land(0, here[3]!);
      return;
    }
  }
  throw new RangeError("the ball never comes down");
}

/** Where the ball of `given` is after each of the steps of `h` seconds, told to `tell` until it says to stop. */
export function march(h: number, tell: (t: number, x: number, y: number, z: number) => boolean): void {
  begin();
  const pieces = Math.max(1, Math.ceil(h / 0.25));
  while (tell(here[0]!, here[1]!, here[2]!, here[3]!)) {
    for (let i = 0; i < pieces; i++) {
      step(h / pieces, 1, stages);
      accept(h / pieces);
    }
  }
}
