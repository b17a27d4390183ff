/**
 * The integrator every flight goes through, written for speed: numbers in and out by typed arrays, nothing allocated
 * for a ball, and two balls side by side where there are many (data/flight-step.ts says why).
 *
 * The equation of the velocity holds no position (air and wind are the same everywhere), so a Runge-Kutta step
 * needs its stages for the velocity only, and the position is a quadrature over them. The last step is sized to end
 * at the ground, so no interpolation stands between the scheme and the landing.
 */
import * as room from "./lanes.ts";
import { startLane, stepOne, stepTwo } from "./step.ts";

// Bound anew, as the engine takes a module's own constants for constants, and imported ones not.
const { acceleration, decay, given, here, landed, next, plan } = room;
const {
  accelerationWidth,
  atEnd,
  atMiddle,
  decayWidth,
  givenWidth,
  landedWidth,
  lanes,
  planWidth,
  stateWidth,
} = room;

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
 * Of each lane's flight: jerk and snap of the climb at `here`, seconds to the ground, the longest step that is
 * allowed after one was taken again. In an array, as numbers between functions would each be put in a box of their own.
 */
const course = new Float64Array(lanes * 4);
/** Steps taken so far, whether it is rough, and whether it has landed. */
const steps = new Int32Array(lanes);
const isRough = new Uint8Array(lanes);
const isDown = new Uint8Array(lanes);

/** How long the next step may be, s. */
function reach(lane: number): number {
  const g = lane * givenWidth;
  const s = lane * stateWidth;
  const k = lane * accelerationWidth;
  // Drag and lift hold |u| and |ω × u|, which have a kink where they vanish; time from here to there, were the
  // acceleration constant, is |u|/|a|, and no step goes much of that way.
  const ux = here[s + 4]! - given[g + 13]!;
  const uy = here[s + 5]! - given[g + 14]!;
  const uz = here[s + 6]!;
  const a = acceleration[k]!;
  const b = acceleration[k + 1]!;
  const c = acceleration[k + 2]!;
  const ox = given[g + 6]!;
  const oy = given[g + 7]!;
  const oz = given[g + 8]!;
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
function sightGround(lane: number): number {
  const s = lane * stateWidth;
  const z = here[s + 3]!;
  const v = here[s + 6]!;
  const a = acceleration[lane * accelerationWidth + 2]!;
  const square = v * v - 2 * a * z;
  if (square < 0 || (a >= 0 && v >= 0)) return z < 0 && v < 0 ? -z / v : never;
  const root = Math.sqrt(square);
  const t = a < 0 ? -(v + root) / a : (2 * z) / (root - v);
  // One step of Newton's from the root of the parabola, where the slope is −root.
  const c3 = course[4 * lane]! / 6;
  const c4 = course[4 * lane + 1]! / 24;
  const tt = t * t;
  const r = t - (tt * (t * (c3 + c4 * t))) / (tt * (3 * c3 + 4 * c4 * t) - root - tiny);
  const doubt = 0.3 * Math.abs(t) + nearGround;
  return Math.max(t - doubt, Math.min(t + doubt, r));
}

/** Raises `landed[3]` to the highest point of the last step, by the quintic through both ends. */
function passTop(lane: number): void {
  const s = lane * stateWidth;
  const k = lane * accelerationWidth;
  const h = plan[lane * planWidth]!;
  const z = here[s + 3]!;
  const v = here[s + 6]!;
  const a0 = acceleration[k + 2]!;
  const c1 = h * v;
  const c2 = (h * h * a0) / 2;
  const r0 = next[s + 3]! - z - c1 - c2;
  const r1 = h * (next[s + 6]! - v) - 2 * c2;
  const r2 = h * h * (acceleration[k + atEnd + 2]! - a0);
  const c3 = 10 * r0 - 4 * r1 + r2 / 2;
  const c4 = -15 * r0 + 7 * r1 - r2;
  const c5 = 6 * r0 - 3 * r1 + r2 / 2;
  // Where the climb still grows at first, the top is looked for from the other end.
  let p = a0 < 0 ? v / (v - next[s + 6]!) : 1;
  for (let i = 0; i < 2; i++) {
    p -=
      (c1 + p * (2 * c2 + p * (3 * c3 + p * (4 * c4 + p * 5 * c5)))) /
      (2 * c2 + p * (6 * c3 + p * (12 * c4 + p * 20 * c5)));
  }
  const top = z + p * (c1 + p * (c2 + p * (c3 + p * (c4 + p * c5))));
  const highest = lane * landedWidth + 3;
  if (top > landed[highest]!) landed[highest] = top;
}

/** Puts `here` at the contact point, with the acceleration there. */
function begin(lane: number, rough: boolean): void {
  const s = lane * stateWidth;
  const g = lane * givenWidth;
  here[s] = 0;
  for (let i = 0; i < 6; i++) here[s + 1 + i] = given[g + i]!;
  decay[lane * decayWidth] = 1;
  course[4 * lane] = 0;
  course[4 * lane + 1] = 0;
  course[4 * lane + 3] = Infinity;
  steps[lane] = 0;
  isRough[lane] = rough ? 1 : 0;
  isDown[lane] = 0;
  landed[lane * landedWidth + 3] = here[s + 3]!;
  startLane(lane);
  const z = here[s + 3]!;
  const v = here[s + 6]!;
  const a = acceleration[lane * accelerationWidth + 2]!;
  if (z <= 0 && (v <= 0 || (a < 0 && v * v < 2 * a * z))) land(lane, 0);
}

/** Writes the step just taken down in `trail`; the first lane's. */
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
function accept(lane: number): void {
  const s = lane * stateWidth;
  const k = lane * accelerationWidth;
  const h = plan[lane * planWidth]!;
  const a0 = acceleration[k + 2]!;
  const am = acceleration[k + atMiddle + 2]!;
  const a1 = acceleration[k + atEnd + 2]!;
  course[4 * lane] = (a0 - 4 * am + 3 * a1) / h;
  course[4 * lane + 1] = (4 * (a0 - 2 * am + a1)) / (h * h);
  for (let i = 0; i < 3; i++) acceleration[k + i] = acceleration[k + atEnd + i]!;
  for (let i = 0; i < 7; i++) here[s + i] = next[s + i]!;
  decay[lane * decayWidth] = decay[lane * decayWidth + 2]!;
}

/** Notes the landing, `t` seconds from `here`. */
function land(lane: number, t: number): void {
  const s = lane * stateWidth;
  const k = lane * accelerationWidth;
  const to = lane * landedWidth;
  for (let i = 0; i < 3; i++) landed[to + 4 + i] = here[s + 4 + i]! + t * acceleration[k + i]!;
  landed[to] = here[s + 1]! + t * (here[s + 4]! + (t / 2) * acceleration[k]!);
  landed[to + 1] = here[s + 2]! + t * (here[s + 5]! + (t / 2) * acceleration[k + 1]!);
  landed[to + 2] = here[s]! + t;
  isDown[lane] = 1;
}

/** Notes a landing where the flight began. */
function stay(lane: number): void {
  begin(lane, false);
  land(lane, 0);
}

/** Ends a flight `t` seconds, hundredths at most, from `here`. */
function finish(lane: number, t: number): void {
  const s = lane * stateWidth;
  if (here[s]! + t < 0) {
    stay(lane);
    return;
  }
  const v = here[s + 6]!;
  const highest = lane * landedWidth + 3;
  if (v > 0)
    landed[highest] = Math.max(
      landed[highest]!,
      here[s + 3]! - (v * v) / (2 * acceleration[lane * accelerationWidth + 2]!),
    );
  land(lane, t);
}

/**
 * Decides on the next step of a lane's ball, or that it is down.
 * @returns whether it is down
 * @throws RangeError when the ball never comes down
 */
function prepare(lane: number): boolean {
  if (isDown[lane] === 1) return true;
  const s = lane * stateWidth;
  const z = here[s + 3]!;
  const v = here[s + 6]!;
  // Asked before the ground is sought, as the answer is there sooner.
  if (v < 0 && Math.abs(z) < -nearGround * v) {
    const square = v * v - 2 * acceleration[lane * accelerationWidth + 2]! * z;
    finish(lane, square < 0 ? -z / v : (2 * z) / (Math.sqrt(square) - v));
    return true;
  }
  const ground = sightGround(lane);
  if (Math.abs(ground) < nearGround) {
    finish(lane, ground);
    return true;
  }
  if (steps[lane]! >= mostSteps) throw new RangeError("the ball never comes down");
  const longest = Math.min((isRough[lane] === 1 ? roughStep : 1) * reach(lane), course[4 * lane + 3]!);
  // Steps of one length as far as the ground can be seen: no branch to guess wrong.
  plan[lane * planWidth] = Math.min(longest, ground / Math.max(1, Math.ceil(ground / longest)));
  return false;
}

/** Takes the step of a lane's ball, or sees to it that it is taken again, shorter. */
function settle(lane: number, traced: boolean): void {
  const s = lane * stateWidth;
  const h = plan[lane * planWidth]!;
  const rising = next[s + 6]! > 0;
  steps[lane] = steps[lane]! + 1;
  const dipped = here[s + 3]! > 0 && next[s + 3]! < 0 && rising;
  const tolerated = isRough[lane] === 1 ? roughDoubt * mostDoubt : mostDoubt;
  if ((plan[lane * planWidth + 1]! > tolerated || dipped) && Math.abs(h) > shortestStep) {
    course[4 * lane + 3] = Math.abs(h) / 2;
    return;
  }
  course[4 * lane + 3] = 2 * course[4 * lane + 3]!;
  if (here[s + 6]! > 0 && !rising) passTop(lane);
  if (traced) trace();
  accept(lane);
  // From under the ground it went up too little to come out of it.
  if (landed[lane * landedWidth + 3]! <= 0 && here[s + 6]! <= 0) stay(lane);
}

/**
 * Flies what stands in the first lane of `given` and leaves the first fall to z = 0 in `landed`. A ball that starts on or under the
 * ground and doesn't rise above it has landed where it starts. `rough` is a third quicker and good to some 0.05 ft,
 * for a flight that is only set beside another; `traced` leaves its steps in `trail`.
 * @throws RangeError when the ball never comes down.
 */
export function run(rough = false, traced = false): void {
  trailSteps[0] = 0;
  begin(0, rough);
  while (!prepare(0)) {
    stepOne();
    settle(0, traced);
  }
  if (traced && landed[2] === 0) trailSteps[0] = 0;
}

/**
 * Flies `n` balls, two at a time: a ball that has landed makes room for the next.
 * @param load puts ball `i` into a lane of `given`
 * @param done takes it out of that lane of `landed`
 * @throws RangeError when a ball never comes down, with which it was, from 0
 */
export function runMany(
  n: number,
  load: (i: number, lane: number) => void,
  done: (i: number, lane: number) => void,
  rough = false,
): void {
  const flying = [-1, -1];
  let waiting = 0;
  for (;;) {
    let aloft = 0;
    for (let lane = 0; lane < lanes; lane++) {
      for (;;) {
        if (flying[lane]! >= 0) {
          if (!prepare(lane)) {
            aloft++;
            break;
          }
          done(flying[lane]!, lane);
          flying[lane] = -1;
        }
        if (waiting === n) break;
        load(waiting, lane);
        begin(lane, rough);
        flying[lane] = waiting++;
      }
    }
    if (aloft === 0) return;
    stepTwo();
    for (let lane = 0; lane < lanes; lane++) if (flying[lane]! >= 0) settle(lane, false);
  }
}

/** Tells where the first lane's ball is after each of the steps of `h` seconds, until `tell` says to stop. */
export function march(h: number, tell: (t: number, x: number, y: number, z: number) => boolean): void {
  begin(0, false);
  const pieces = Math.max(1, Math.ceil(h / 0.25));
  while (tell(here[0]!, here[1]!, here[2]!, here[3]!)) {
    for (let i = 0; i < pieces; i++) {
      plan[0] = h / pieces;
      stepOne();
      accept(0);
    }
  }
}
