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
 * The steps of the last flight that was traced, each: its length (s), then for its start, its middle and its end the velocity and
 * what is left of the spin.
 */
export const trail = new Float64Array(mostTrail * trailWidth);
/** How many steps it had; beyond `mostTrail` the trail holds the first ones only. */
export const trailSteps = new Int32Array(1);

const r21 = Math.sqrt(21);
const stages = 11;
const width = stages + 1;
/** The node of each stage: 0 the start, 1 and 3 Lobatto's inner ones, 2 the middle, 4 the end. */
const nodeOf = Uint8Array.of(0, 2, 2, 3, 3, 2, 1, 1, 2, 3, 4, 4);
const tiny = 1e-300;
/** What each stage, and last the step itself, takes of the accelerations of the stages before it. */
const rows: readonly (readonly number[])[] = [
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
];
/** The rows' weights without their zeros, where each row begins, and the place of each weight's acceleration. */
const weights = Float64Array.from(rows.flat().filter((w) => w !== 0));
const rowStart = Int32Array.from(
  rows,
  (_, s) =>
    rows
      .slice(0, s)
      .flat()
      .filter((w) => w !== 0).length,
);
const placeOf = Int32Array.from(rows.flatMap((row) => row.flatMap((w, j) => (w === 0 ? [] : [3 * j]))));
/** What the position takes of the velocities of the stages. */
const quadrature = Float64Array.from(rows[stages]!);

/** Accelerations of the stages, x, y, z by turns; the one at the end of a step is the first of the next. */
const acceleration = new Float64Array(3 * width);
const atEnd = 3 * stages;
const atMiddle = 3 * 8;
/** What is left of the spin at each node of a step. */
const decay = new Float64Array(5);
/** Time, x, y, z and velocity x, y, z at the start of a step, and at its end. */
const here = new Float64Array(7);
const next = new Float64Array(7);
/**
 * The length of the step to take, s; how far the step's own two values of its last acceleration are apart, m; the
 * time to the ground, s; the jerk and the snap of the climb at `here`. In an array, as numbers between functions
 * would each be put in a box of their own.
 */
const plan = new Float64Array(5);

/** One step of `plan[0]` seconds from `here` to `next`, from stage `from` to stage `to`, the 11th being its end. */
function step(from: number, to: number): void {
  const h = plan[0]!;
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
  // exp(−q) by its series, even and odd terms apart: q is under 0.05 even for the longest step.
  const left = decay[0]!;
  const q = h * (0.5 / spinDecay_s);
  const q2 = q * q;
  const half = 1 - q * (1 + q2 * (1 / 6 + q2 * (1 / 120))) + q2 * (1 / 2 + q2 * (1 / 24));
  const p = q * Math.sqrt(3 / 7);
  const p2 = p * p;
  const even = 1 + p2 * (1 / 2 + p2 * (1 / 24));
  const odd = p * (1 + p2 * (1 / 6 + p2 * (1 / 120)));
  const middle = left * half;
  decay[1] = middle * (even + odd);
  decay[2] = middle;
  decay[3] = middle * (even - odd);
  decay[4] = middle * half;
  let px = vx0 / 20;
  let py = vy0 / 20;
  let pz = vz0 / 20;
  for (let s = from; s <= to; s++) {
    let kx = 0;
    let ky = 0;
    let kz = 0;
    const end = s === stages ? weights.length : rowStart[s + 1]!;
    for (let i = rowStart[s]!; i < end; i++) {
      const w = weights[i]!;
      const j = placeOf[i]!;
      kx += w * acceleration[j]!;
      ky += w * acceleration[j + 1]!;
      kz += w * acceleration[j + 2]!;
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
    const k = 3 * s;
    acceleration[k] = L * cx - D * ux;
    acceleration[k + 1] = L * cy - D * uy;
    acceleration[k + 2] = L * cz - D * vz - gravity;
    if (s === stages) {
      next[4] = vx;
      next[5] = vy;
      next[6] = vz;
    } else if (s > 0) {
      const b = quadrature[s]!;
      px += b * vx;
      py += b * vy;
      pz += b * vz;
    }
  }
  plan[1] =
    h *
    h *
    (Math.abs(acceleration[atEnd]! - acceleration[atEnd - 3]!) +
      Math.abs(acceleration[atEnd + 1]! - acceleration[atEnd - 2]!) +
      Math.abs(acceleration[atEnd + 2]! - acceleration[atEnd - 1]!));
  next[0] = here[0]! + h;
  next[1] = here[1]! + h * px;
  next[2] = here[2]! + h * py;
  next[3] = here[3]! + h * pz;
}

/** The longest step and the shortest, s. */
const longestStep = 1.5;
const shortestStep = 0.03;
/** How much of the way to where |u| or |ω × u| would vanish a step may go: see `reach`. */
const boldness = 0.7;
/** Step, s, of a ball that climbs by less than this, m/s, and is lifted by more than it weighs: it may turn and turn. */
const turnStep = 0.1;
const turnSpeed = 1;
/** A step whose two last accelerations are further apart than this, in m, is taken again at half the length. */
const mostDoubt = 0.08;
/** Steps before a flight is given up: some minutes aloft. */
const mostSteps = 20_000;
/** Further ahead than this, s, the local polynomial says nothing of the ground. */
const sight = 2.5 * longestStep;
/** So near the ground, s, the rest is a polynomial: its error is under 1e-6 m. */
const nearGround = 0.01;

/**
 * Puts into `plan[0]` how long the next step may be. Drag and lift hold |u| and |ω × u|, which have a kink where they
 * vanish; time from here to there, were the acceleration constant, is |u|/|a|, and no step goes much of that way.
 */
function reach(): void {
  const ux = here[4]! - given[13]!;
  const uy = here[5]! - given[14]!;
  const uz = here[6]!;
  const a = acceleration[0]!;
  const b = acceleration[1]!;
  const c = acceleration[2]!;
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
  plan[0] = Math.max(shortestStep, Math.min(longestStep, boldness * Math.sqrt(Math.min(still, along))));
  if (uz < turnSpeed && c > 0) plan[0] = Math.min(plan[0]!, turnStep);
}

/**
 * Puts into `plan[2]` the seconds from `here` down to the ground along the local polynomial in the climb's
 * acceleration, jerk and snap: negative when already below, Infinity when the ground isn't in sight.
 */
function sightGround(): void {
  const z = here[3]!;
  const v = here[6]!;
  const a = acceleration[2]!;
  const square = v * v - 2 * a * z;
  let t = Infinity;
  if (v <= 0) {
    if (square >= 0) t = (2 * z) / (Math.sqrt(square) - v);
    else if (z < 0) t = -z / v;
  } else if (a < 0 && square >= 0) t = -(v + Math.sqrt(square)) / a;
  plan[2] = Infinity;
  if (!(t < sight)) return;
  const c2 = a / 2;
  const c3 = plan[3]! / 6;
  const c4 = plan[4]! / 24;
  let r = t;
  for (let i = 0; i < 3; i++) {
    r -= (z + r * (v + r * (c2 + r * (c3 + r * c4)))) / (v + r * (a + r * (3 * c3 + r * 4 * c4)));
  }
  plan[2] = Math.abs(r - t) < 0.3 * Math.abs(t) + nearGround ? r : t;
}

/** Raises `landed[3]` to the highest point of the last step, by the quintic through both ends. */
function passTop(): void {
  const h = plan[0]!;
  const z = here[3]!;
  const v = here[6]!;
  const c1 = h * v;
  const c2 = (h * h * acceleration[2]!) / 2;
  const r0 = next[3]! - z - c1 - c2;
  const r1 = h * (next[6]! - v) - 2 * c2;
  const r2 = h * h * (acceleration[atEnd + 2]! - acceleration[2]!);
  const c3 = 10 * r0 - 4 * r1 + r2 / 2;
  const c4 = -15 * r0 + 7 * r1 - r2;
  const c5 = 6 * r0 - 3 * r1 + r2 / 2;
  // Where the climb still grows at first, the top is looked for from the other end.
  let s = acceleration[2]! < 0 ? v / (v - next[6]!) : 1;
  for (let i = 0; i < 4; i++) {
    s -=
      (c1 + s * (2 * c2 + s * (3 * c3 + s * (4 * c4 + s * 5 * c5)))) /
      (2 * c2 + s * (6 * c3 + s * (12 * c4 + s * 20 * c5)));
  }
  const top = z + s * (c1 + s * (c2 + s * (c3 + s * (c4 + s * c5))));
  if (top > landed[3]!) landed[3] = top;
}

/** Puts `here` at the contact point, with the acceleration there. */
function begin(): void {
  trailSteps[0] = 0;
  here[0] = 0;
  for (let i = 0; i < 6; i++) here[i + 1] = given[i]!;
  decay[0] = 1;
  plan[0] = 0;
  plan[3] = 0;
  plan[4] = 0;
  step(0, 0);
}

/** Writes the step just taken down in `trail`. */
function trace(): void {
  const h = plan[0]!;
  const steps = trailSteps[0]!;
  if (steps < mostTrail) {
    const at = steps * trailWidth;
    trail[at] = h;
    for (let i = 0; i < 3; i++) {
      const v0 = here[4 + i]!;
      const v1 = next[4 + i]!;
      trail[at + 1 + i] = v0;
      trail[at + 5 + i] = (v0 + v1) / 2 + (h / 8) * (acceleration[i]! - acceleration[atEnd + i]!);
      trail[at + 9 + i] = v1;
    }
    trail[at + 4] = decay[0]!;
    trail[at + 8] = decay[2]!;
    trail[at + 12] = decay[4]!;
  }
  trailSteps[0] = steps + 1;
}

/** Makes the end of the last step the start of the next. */
function accept(): void {
  const h = plan[0]!;
  const a0 = acceleration[2]!;
  const am = acceleration[atMiddle + 2]!;
  const a1 = acceleration[atEnd + 2]!;
  plan[3] = (a0 - 4 * am + 3 * a1) / h;
  plan[4] = (4 * (a0 - 2 * am + a1)) / (h * h);
  for (let i = 0; i < 3; i++) acceleration[i] = acceleration[atEnd + i]!;
  for (let i = 0; i < 7; i++) here[i] = next[i]!;
  decay[0] = decay[4]!;
}

/** Notes the landing, `t` seconds from `here`. */
function land(t: number): void {
  for (let i = 0; i < 3; i++) landed[4 + i] = here[4 + i]! + t * acceleration[i]!;
  landed[0] = here[1]! + t * (here[4]! + (t / 2) * acceleration[0]!);
  landed[1] = here[2]! + t * (here[5]! + (t / 2) * acceleration[1]!);
  landed[2] = here[0]! + t;
}

/** Notes a landing where the flight began. */
function stay(): void {
  begin();
  landed[3] = here[3]!;
  land(0);
}

/**
 * Flies what stands in `given` and leaves the first fall to z = 0 in `landed`. A ball that starts on or under the
 * ground and doesn't rise above it has landed where it starts. `rough` is a third quicker and good to some 0.05 ft,
 * for a flight that is only set beside another; `traced` leaves its steps in `trail`.
 * @throws RangeError when the ball never comes down.
 */
export function run(rough = false, traced = false): void {
  const stretch = rough ? 1.5 : 1;
  const tolerated = rough ? 40 * mostDoubt : mostDoubt;
  begin();
  landed[3] = here[3]!;
  let allowed = Infinity;
  for (let n = 0; n < mostSteps; n++) {
    const z = here[3]!;
    const v = here[6]!;
    const a = acceleration[2]!;
    if (n === 0 && z <= 0 && (v <= 0 || (a < 0 && v * v < 2 * a * z))) {
      land(0);
      return;
    }
    sightGround();
    const ground = plan[2]!;
    if (ground < nearGround && ground > -nearGround) {
      if (here[0]! + ground < 0) {
        stay();
        return;
      }
      if (v > 0) landed[3] = Math.max(landed[3]!, z - (v * v) / (2 * a));
      land(ground);
      return;
    }
    reach();
    const longest = Math.min(stretch * plan[0]!, allowed);
    const h = ground <= longest ? ground : ground <= 2 * longest ? ground / 2 : longest;
    plan[0] = h;
    step(1, stages);
    const dipped = z > 0 && next[3]! < 0 && next[6]! > 0;
    if ((plan[1]! > tolerated || dipped) && Math.abs(h) > shortestStep) {
      allowed = Math.abs(h) / 2;
      continue;
    }
    allowed *= 2;
    if (v > 0 && next[6]! <= 0) passTop();
    if (traced) trace();
    accept();
    if (landed[3]! <= 0 && here[6]! <= 0) {
      // From under the ground it went up too little to come out of it.
      stay();
      return;
    }
  }
  throw new RangeError("the ball never comes down");
}

/** Tells where the ball of `given` is after each of the steps of `h` seconds, until `tell` says to stop. */
export function march(h: number, tell: (t: number, x: number, y: number, z: number) => boolean): void {
  begin();
  const pieces = Math.max(1, Math.ceil(h / 0.25));
  while (tell(here[0]!, here[1]!, here[2]!, here[3]!)) {
    for (let i = 0; i < pieces; i++) {
      plan[0] = h / pieces;
      step(1, stages);
      accept();
    }
  }
}
