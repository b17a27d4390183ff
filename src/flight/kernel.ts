/**
 * The integrator every flight goes through, written for speed: numbers in and out by typed arrays, nothing allocated
 * for a ball, and the step itself written out (data/flight-step.ts says why).
 *
 * The equation of the velocity holds no position (air and wind are the same everywhere), so a Runge-Kutta step
 * needs its stages for the velocity only, and the position is a quadrature over them. The last step is sized to end
 * at the ground, so no interpolation stands between the scheme and the landing.
 */
import * as room from "./room.ts";
import { start, step } from "./step.ts";

// Bound anew, as the engine takes a module's own constants for constants, and imported ones not.
const { acceleration, decay, given, here, landed, next, plan } = room;
const { atEnd, atMiddle } = room;

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

const tiny = 1e-300;
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
/** A rough flight's steps are longer by this, and their doubt may be more by that. */
const roughStep = 1.5;
const roughDoubt = 40;
/** Steps before a flight is given up: some minutes aloft. */
const mostSteps = 20_000;
/** Stands for the time to a ground that isn't in sight, s. */
const never = 1000;
/** So near the ground, s, the rest is a polynomial: its error is under 1e-6 m. */
const nearGround = 0.01;

/**
 * Of the flight: jerk and snap of the climb at `here`, seconds to the ground, the longest step that is
 * allowed after one was taken again. In an array, as numbers between functions would each be put in a box of their own.
 */
const course = new Float64Array(3);
/** Steps taken so far, whether it is rough, and whether it has landed. */
const steps = new Int32Array(1);
const isRough = new Uint8Array(1);
const isDown = new Uint8Array(1);

/** How long the next step may be, s. */
function reach(): number {
  // Drag and lift hold |u| and |ω × u|, which have a kink where they vanish; time from here to there, were the
  // acceleration constant, is |u|/|a|, and no step goes much of that way.
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
  const far = Math.max(shortestStep, Math.min(longestStep, boldness * Math.sqrt(Math.min(still, along))));
  return uz < turnSpeed && c > 0 ? Math.min(far, turnStep) : far;
}

/**
 * The seconds from `here` down to the ground along the local polynomial in the climb's acceleration, jerk and snap:
 * negative when already below, `never` when it isn't to be seen.
 */
function sightGround(): number {
  const z = here[3]!;
  const v = here[6]!;
  const a = acceleration[2]!;
  const square = v * v - 2 * a * z;
  if (square < 0 || (a >= 0 && v >= 0)) return z < 0 && v < 0 ? -z / v : never;
  const root = Math.sqrt(square);
  const t = a < 0 ? -(v + root) / a : (2 * z) / (root - v);
  // One step of Newton's from the root of the parabola, where the slope is −root.
  const c3 = course[0]! / 6;
  const c4 = course[1]! / 24;
  const tt = t * t;
  const r = t - (tt * (t * (c3 + c4 * t))) / (tt * (3 * c3 + 4 * c4 * t) - root - tiny);
  const doubt = 0.3 * Math.abs(t) + nearGround;
  return Math.max(t - doubt, Math.min(t + doubt, r));
}

/** Raises `landed[3]` to the highest point of the last step, by the quintic through both ends. */
function passTop(): void {
  const h = plan[0]!;
  const z = here[3]!;
  const v = here[6]!;
  const a0 = acceleration[2]!;
  const c1 = h * v;
  const c2 = (h * h * a0) / 2;
  const r0 = next[3]! - z - c1 - c2;
  const r1 = h * (next[6]! - v) - 2 * c2;
  const r2 = h * h * (acceleration[atEnd + 2]! - a0);
  const c3 = 10 * r0 - 4 * r1 + r2 / 2;
  const c4 = -15 * r0 + 7 * r1 - r2;
  const c5 = 6 * r0 - 3 * r1 + r2 / 2;
  // Where the climb still grows at first, the top is looked for from the other end.
  let p = a0 < 0 ? v / (v - next[6]!) : 1;
  for (let i = 0; i < 2; i++) {
    p -=
      (c1 + p * (2 * c2 + p * (3 * c3 + p * (4 * c4 + p * 5 * c5)))) /
      (2 * c2 + p * (6 * c3 + p * (12 * c4 + p * 20 * c5)));
  }
  const top = z + p * (c1 + p * (c2 + p * (c3 + p * (c4 + p * c5))));
  if (top > landed[3]!) landed[3] = top;
}

/** Puts `here` at the contact point, with the acceleration there. */
function begin(rough: boolean): void {
  here[0] = 0;
  for (let i = 0; i < 6; i++) here[1 + i] = given[i]!;
  decay[0] = 1;
  course[0] = 0;
  course[1] = 0;
  course[2] = Infinity;
  steps[0] = 0;
  isRough[0] = rough ? 1 : 0;
  isDown[0] = 0;
  landed[3] = here[3]!;
  start();
  const z = here[3]!;
  const v = here[6]!;
  const a = acceleration[2]!;
  if (z <= 0 && (v <= 0 || (a < 0 && v * v < 2 * a * z))) land(0);
}

/** Writes the step just taken down in `trail`. */
function trace(): void {
  const h = plan[0]!;
  const taken = trailSteps[0]!;
  if (taken < mostTrail) {
    const at = taken * trailWidth;
    trail[at] = h;
    for (let i = 0; i < 3; i++) {
      const v0 = here[4 + i]!;
      const v1 = next[4 + i]!;
      trail[at + 1 + i] = v0;
      trail[at + 5 + i] = (v0 + v1) / 2 + (h / 8) * (acceleration[i]! - acceleration[atEnd + i]!);
      trail[at + 9 + i] = v1;
    }
    for (let i = 0; i < 3; i++) trail[at + 4 * (i + 1)] = decay[i]!;
  }
  trailSteps[0] = taken + 1;
}

/** Makes the end of the last step the start of the next. */
function accept(): void {
  const h = plan[0]!;
  const a0 = acceleration[2]!;
  const am = acceleration[atMiddle + 2]!;
  const a1 = acceleration[atEnd + 2]!;
  course[0] = (a0 - 4 * am + 3 * a1) / h;
  course[1] = (4 * (a0 - 2 * am + a1)) / (h * h);
  for (let i = 0; i < 3; i++) acceleration[i] = acceleration[atEnd + i]!;
  for (let i = 0; i < 7; i++) here[i] = next[i]!;
  decay[0] = decay[2]!;
}

/** Notes the landing, `t` seconds from `here`. */
function land(t: number): void {
  for (let i = 0; i < 3; i++) landed[4 + i] = here[4 + i]! + t * acceleration[i]!;
  landed[0] = here[1]! + t * (here[4]! + (t / 2) * acceleration[0]!);
  landed[1] = here[2]! + t * (here[5]! + (t / 2) * acceleration[1]!);
  landed[2] = here[0]! + t;
  isDown[0] = 1;
}

/** Notes a landing where the flight began. */
function stay(): void {
  begin(false);
  land(0);
}

/** Ends a flight `t` seconds, hundredths at most, from `here`. */
function finish(t: number): void {
  if (here[0]! + t < 0) {
    stay();
    return;
  }
  const v = here[6]!;
  if (v > 0) landed[3] = Math.max(landed[3]!, here[3]! - (v * v) / (2 * acceleration[2]!));
  land(t);
}

/**
 * Decides on the next step, or that it is down.
 * @returns whether it is down
 * @throws RangeError when the ball never comes down
 */
function prepare(): boolean {
  if (isDown[0] === 1) return true;
  const z = here[3]!;
  const v = here[6]!;
  // Asked before the ground is sought, as the answer is there sooner.
  if (v < 0 && Math.abs(z) < -nearGround * v) {
    const square = v * v - 2 * acceleration[2]! * z;
    finish(square < 0 ? -z / v : (2 * z) / (Math.sqrt(square) - v));
    return true;
  }
  const ground = sightGround();
  if (Math.abs(ground) < nearGround) {
    finish(ground);
    return true;
  }
  if (steps[0]! >= mostSteps) throw new RangeError("the ball never comes down");
  const longest = Math.min((isRough[0] === 1 ? roughStep : 1) * reach(), course[2]!);
  // Steps of one length as far as the ground can be seen: no branch to guess wrong.
  plan[0] = Math.min(longest, ground / Math.max(1, Math.ceil(ground / longest)));
  return false;
}

/** Takes the step, or sees to it that it is taken again, shorter. */
function settle(traced: boolean): void {
  const h = plan[0]!;
  const rising = next[6]! > 0;
  steps[0] = steps[0]! + 1;
  const dipped = here[3]! > 0 && next[3]! < 0 && rising;
  const tolerated = isRough[0] === 1 ? roughDoubt * mostDoubt : mostDoubt;
  if ((plan[1]! > tolerated || dipped) && Math.abs(h) > shortestStep) {
    course[2] = Math.abs(h) / 2;
    return;
  }
  course[2] = 2 * course[2]!;
  if (here[6]! > 0 && !rising) passTop();
  if (traced) trace();
  accept();
  // From under the ground it went up too little to come out of it.
  if (landed[3]! <= 0 && here[6]! <= 0) stay();
}

/**
 * Flies what stands in `given` and leaves the first fall to z = 0 in `landed`. A ball that starts on or under the
 * ground and doesn't rise above it has landed where it starts. `rough` is a third quicker and good to some 0.05 ft,
 * for a flight that is only set beside another; `traced` leaves its steps in `trail`.
 * @throws RangeError when the ball never comes down.
 */
export function run(rough = false, traced = false): void {
  trailSteps[0] = 0;
  begin(rough);
  while (!prepare()) {
    step();
    settle(traced);
  }
  if (traced && landed[2] === 0) trailSteps[0] = 0;
}

/** Tells where the ball is after each of the steps of `h` seconds, until `tell` says to stop. */
export function march(h: number, tell: (t: number, x: number, y: number, z: number) => boolean): void {
  begin(false);
  const pieces = Math.max(1, Math.ceil(h / 0.25));
  while (tell(here[0]!, here[1]!, here[2]!, here[3]!)) {
    for (let i = 0; i < pieces; i++) {
      plan[0] = h / pieces;
      step();
      accept();
    }
  }
}
