/** How far a computed carry may be from the true one: its 80 % range, and the ellipse of the landing point. */
import { randomLcg, randomNormal } from "d3-random";
import { rpm } from "../units/index.ts";
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { flown, load, spinDrag, type Flight } from "./carry.ts";
import { dragWithoutSpin } from "./coefficients.ts";
import { landingDraws } from "./draws.ts";
import { differentiate, slopes, slopeWidth } from "./gradient.ts";
import { run } from "./kernel.ts";
import * as room from "./room.ts";
import type { Launch } from "./launch.ts";
import type { SpinSource } from "./spin.ts";
import { deviationsOf, type Deviations } from "./spreads.ts";

const { given, landed } = room;

/** The range of a carry, m. */
export interface CarryRange {
  /** Ends of the 80 % range. */
  readonly low: number;
  readonly high: number;
  /** Standard deviation of the carry. */
  readonly sd: number;
  /** How it was found: from the flight's own slopes and a few flights beside it, or by seeded draws. */
  readonly method: "quick" | "draws";
  readonly landing: LandingSpread;
}

/** A flight and the range about it. */
export interface RangedFlight {
  readonly flight: Flight;
  readonly range: CarryRange;
}

/** Mean and covariance of a landing point, m and m². */
export interface LandingSpread {
  readonly x: number;
  readonly y: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

/** The normal deviate that 10 % lie beyond. */
const tenth = 1.2815515655446004;
/** Gauss and Hermite's three nodes are 0 and ± this many standard deviations, weighing 2/3 and 1/6. */
const node = Math.sqrt(3);
/** A spin better known than this, rad/s, bends the carry too little to need flights of its own. */
const wellKnownSpin = 200 * rpm;
/** Within this many standard deviations of the plate, a carry isn't straight in the landing point: draw. */
const nearPlate = 3;
const drawCount = 2000;
/** Whole flights cost more to draw than landing points. */
const flightCount = 400;
const drawSeed = 0.5;

/** The ball's own `given`. */
const own = new Float64Array(given.length);
/** Where it lands, x, y and carry; and a node below and above it in one quantity. */
const center = new Float64Array(3);
const below = new Float64Array(3);
const above = new Float64Array(3);
/** What one standard deviation of a quantity moves the landing's x and y by. */
const move = new Float64Array(2);
/** Sums over the quantities: shift of the mean x, y, carry; then xx, xy, yy, carry² and carry³ about the means. */
const sums = new Float64Array(8);

/** Flies `given` and notes where it lands; `traced` when slopes are asked for next. */
function landInto(place: Float64Array, rough: boolean, traced: boolean): void {
  run(rough, traced);
  const x = landed[0]!;
  const y = landed[1]!;
  place[0] = x;
  place[1] = y;
  place[2] = Math.sqrt(x * x + y * y);
}

/** Puts the ball's own numbers back. */
function restore(): void {
  for (let i = 0; i < own.length; i++) given[i] = own[i]!;
}

/** Adds one quantity's share to the sums, from `below` and `above`. */
function addPair(): void {
  const mx = (below[0]! + above[0]! - 2 * center[0]!) / 6;
  const my = (below[1]! + above[1]! - 2 * center[1]!) / 6;
  const mc = (below[2]! + above[2]! - 2 * center[2]!) / 6;
  sums[0] = sums[0]! + mx;
  sums[1] = sums[1]! + my;
  sums[2] = sums[2]! + mc;
  for (let k = 0; k < 3; k++) {
    const at = k === 0 ? below : k === 1 ? above : center;
    const weight = k === 2 ? 2 / 3 : 1 / 6;
    const dx = at[0]! - center[0]! - mx;
    const dy = at[1]! - center[1]! - my;
    const dc = at[2]! - center[2]! - mc;
    sums[3] = sums[3]! + weight * dx * dx;
    sums[4] = sums[4]! + weight * dx * dy;
    sums[5] = sums[5]! + weight * dy * dy;
    sums[6] = sums[6]! + weight * dc * dc;
    sums[7] = sums[7]! + weight * dc * dc * dc;
  }
}

/** Adds `weight` of the share of a quantity whose standard deviation moves the landing by `move`. */
function addMove(weight: number): void {
  const dx = move[0]!;
  const dy = move[1]!;
  const x = landed[0]!;
  const y = landed[1]!;
  const along = x * dx + y * dy;
  sums[3] = sums[3]! + weight * dx * dx;
  sums[4] = sums[4]! + weight * dx * dy;
  sums[5] = sums[5]! + weight * dy * dy;
  sums[6] = sums[6]! + (weight * along * along) / (x * x + y * y);
}

/** `move` for a step (a, b, c) in the velocity (`from` 1) or the spin vector (`from` 4). */
function moveAlong(from: number, a: number, b: number, c: number): void {
  for (let axis = 0; axis < 2; axis++) {
    const i = axis * slopeWidth + from;
    move[axis] = a * slopes[i]! + b * slopes[i + 1]! + c * slopes[i + 2]!;
  }
}

/** One standard deviation of the spin in one direction, in backspin and sidespin. */
interface SpinStep {
  readonly b: number;
  readonly s: number;
  readonly doubtful: boolean;
}

/** A launch's direction and spin, as the shares need them. */
interface Aim {
  readonly launch: Launch;
  readonly d: Deviations;
  readonly cosSpray: number;
  readonly sinSpray: number;
  /** The kernel's spin drag at 1 rad/s. */
  readonly spinDrag: number;
  /** The spin's two deviations, the larger one first. */
  readonly main: SpinStep;
  readonly minor: SpinStep;
}

/** Puts a spin into `given`, leaving the rest. */
function setSpin({ cosSpray, sinSpray, spinDrag }: Aim, backspin: number, sidespin: number): void {
  given[6] = backspin * cosSpray;
  given[7] = -backspin * sinSpray;
  given[8] = -sidespin;
  given[10] = spinDrag * Math.sqrt(backspin * backspin + sidespin * sidespin);
}

/** Adds by its slope `weight` of the share of one of the spin's deviations. */
function addSpinMove({ cosSpray, sinSpray, spinDrag }: Aim, { b, s }: SpinStep, weight: number): void {
  moveAlong(4, b * cosSpray, -b * sinSpray, -s);
  const backspin = given[6]! * cosSpray - given[7]! * sinSpray;
  const sidespin = -given[8]!;
  const rate = Math.sqrt(backspin * backspin + sidespin * sidespin);
  const drag = rate > 0 ? (spinDrag * (backspin * b + sidespin * s)) / rate : 0;
  move[0] = move[0]! + drag * slopes[8]!;
  move[1] = move[1]! + drag * slopes[slopeWidth + 8]!;
  addMove(weight);
}

/** Adds by its slope `weight` of the launch angle's share. */
function addAngleMove({ launch, d, cosSpray, sinSpray }: Aim, weight: number): void {
  const rise = d.launchAngle * launch.speed * Math.cos(launch.launchAngle);
  const back = d.launchAngle * launch.speed * Math.sin(launch.launchAngle);
  moveAlong(1, -back * sinSpray, -back * cosSpray, rise);
  addMove(weight);
}

/** Adds `weight` of the shares of all that the carry goes straight with, by the slopes of the flight just flown. */
function addStraight({ launch, d }: Aim, weight: number): void {
  const vx = given[3]!;
  const vy = given[4]!;
  const vz = given[5]!;
  const faster = launch.speed === 0 ? 0 : d.speed / launch.speed;
  moveAlong(1, faster * vx, faster * vy, faster * vz);
  addMove(weight);
  // A turn of the launch about the vertical turns its spin's axis with it.
  const turn = d.sprayAngle;
  moveAlong(4, turn * given[7]!, -turn * given[6]!, 0);
  const mx = move[0]!;
  const my = move[1]!;
  moveAlong(1, turn * vy, -turn * vx, 0);
  move[0] = move[0]! + mx;
  move[1] = move[1]! + my;
  addMove(weight);
  const drag = (given[9]! * d.drag) / dragWithoutSpin;
  for (let axis = 0; axis < 2; axis++) move[axis] = drag * slopes[axis * slopeWidth + 7]!;
  addMove(weight);
  for (let axis = 0; axis < 2; axis++) move[axis] = d.density * slopes[axis * slopeWidth + 9]!;
  addMove(weight);
  // Wind carries the ball along for all its flight, and takes as much from its speed through the air.
  const hang = landed[2]!;
  for (let toward = 0; toward < 2; toward++) {
    for (let axis = 0; axis < 2; axis++) {
      move[axis] = d.wind * ((axis === toward ? hang : 0) - slopes[axis * slopeWidth + 1 + toward]!);
    }
    addMove(weight);
  }
  for (let axis = 0; axis < 2; axis++) move[axis] = d.contactHeight * slopes[axis * slopeWidth]!;
  addMove(weight);
  for (let toward = 0; toward < 2; toward++) {
    move[toward] = d.contactPlace;
    move[1 - toward] = 0;
    addMove(weight);
  }
}

/** Adds the launch angle's share, which bends the carry, by flights on both sides. */
function addAngle({ launch, d, cosSpray, sinSpray }: Aim): void {
  for (let sign = -1; sign <= 1; sign += 2) {
    const angle = launch.launchAngle + sign * node * d.launchAngle;
    const level = launch.speed * Math.cos(angle);
    given[3] = level * sinSpray;
    given[4] = level * cosSpray;
    given[5] = launch.speed * Math.sin(angle);
    landInto(sign < 0 ? below : above, true, false);
  }
  restore();
  addPair();
}

/** Flies with the spin `sign` nodes along a deviation. */
function flySpin(aim: Aim, { b, s }: SpinStep, sign: number, traced: boolean): void {
  setSpin(aim, aim.launch.backspin + sign * node * b, aim.launch.sidespin + sign * node * s);
  landInto(sign < 0 ? below : above, true, traced);
}

/** Adds the share of the spin's smaller deviation by flights on both sides. */
function addSpin(aim: Aim): void {
  flySpin(aim, aim.minor, -1, false);
  flySpin(aim, aim.minor, 1, false);
  restore();
  addPair();
}

/**
 * Adds the share of the spin's larger deviation, which bends the carry most, and with it every straight share: a
 * sixth each by the slopes at its two nodes, two thirds by those at the ball's own flight. So the other bent
 * quantities too, whose own shares come apart: only the change of their slopes counts here.
 * @returns false when a node's flight has no slopes.
 */
function addDoubtfulSpin(aim: Aim): boolean {
  addStraight(aim, 2 / 3);
  addAngleMove(aim, -1 / 3);
  addSpinMove(aim, aim.minor, -1 / 3);
  for (let sign = -1; sign <= 1; sign += 2) {
    flySpin(aim, aim.main, sign, true);
    if (!differentiate()) return false;
    addStraight(aim, 1 / 6);
    addAngleMove(aim, 1 / 6);
    addSpinMove(aim, aim.minor, 1 / 6);
  }
  restore();
  addPair();
  return true;
}

/** Adds every share; false when a flight has no slopes. */
function addAll(aim: Aim): boolean {
  if (!differentiate()) return false;
  // What goes by the ball's own slopes comes first: those of other flights take their place.
  if (!aim.minor.doubtful) addSpinMove(aim, aim.minor, 1);
  if (!aim.main.doubtful) {
    addStraight(aim, 1);
    addSpinMove(aim, aim.main, 1);
  } else if (!addDoubtfulSpin(aim)) return false;
  if (aim.minor.doubtful) addSpin(aim);
  addAngle(aim);
  return true;
}

/**
 * A flight, with the 80 % range of its carry and the standard deviation, from the table of spreads: the share of each quantity by
 * three-point quadrature where the carry bends with it, by the slope where it doesn't, added as independent. Held
 * in the tests against 20 000 seeded draws. A ball that comes down about the plate, where distance and direction
 * can't be told apart, has its landing point drawn instead, and `method` says so.
 * @throws RangeError when a number isn't finite.
 */
export function flyWithRange(launch: Launch, air: Air, ball: Ball, spinSource: SpinSource): RangedFlight {
  load(launch, air, ball);
  landInto(center, false, true);
  const flight = flown();
  return { flight, range: rangeAbout(launch, air, ball, spinSource) };
}

/** The range alone: `flyWithRange`'s. */
export function carryRange(launch: Launch, air: Air, ball: Ball, spinSource: SpinSource): CarryRange {
  return flyWithRange(launch, air, ball, spinSource).range;
}

/** The range about the flight that has just landed in `center`, its steps in `trail`. */
function rangeAbout(launch: Launch, air: Air, ball: Ball, spinSource: SpinSource): CarryRange {
  const d = deviationsOf(launch, air, spinSource);
  for (let i = 0; i < own.length; i++) own[i] = given[i]!;
  sums.fill(0);
  const rate = Math.sqrt(launch.backspin ** 2 + launch.sidespin ** 2);
  const back = d.ownDirection ? launch.backspin / rate : 1;
  const side = d.ownDirection ? launch.sidespin / rate : 0;
  const along = { b: d.spinAlong * back, s: d.spinAlong * side, doubtful: d.spinAlong >= wellKnownSpin };
  const across = { b: -d.spinAcross * side, s: d.spinAcross * back, doubtful: d.spinAcross >= wellKnownSpin };
  const aim: Aim = {
    launch,
    d,
    cosSpray: Math.cos(launch.sprayAngle),
    sinSpray: Math.sin(launch.sprayAngle),
    spinDrag: spinDrag(air, ball),
    main: d.spinAlong >= d.spinAcross ? along : across,
    minor: d.spinAlong >= d.spinAcross ? across : along,
  };
  if (!addAll(aim)) return drawnFlights(launch, air, ball, spinSource);
  const landing: LandingSpread = {
    x: center[0]! + sums[0]!,
    y: center[1]! + sums[1]!,
    xx: sums[3]!,
    xy: sums[4]!,
    yy: sums[5]!,
  };
  const carry = center[2]! + sums[2]!;
  const variance = sums[6]!;
  // A ball that all but rises again off the ground bends more than a few flights can follow.
  if (!(variance > 0)) return drawnFlights(launch, air, ball, spinSource);
  const sd = Math.sqrt(variance);
  const sideways = Math.sqrt(Math.max(0, landing.xx + landing.yy - variance));
  if (carry < nearPlate * Math.max(sd, sideways)) return drawnLandings(landing);
  // Cornish and Fisher's first term: what the lean of the distribution does to its tenths.
  const lean = ((tenth * tenth - 1) * sums[7]!) / (6 * variance);
  return {
    low: Math.max(0, carry + lean - tenth * sd),
    high: carry + lean + tenth * sd,
    sd,
    method: "quick",
    landing,
  };
}

/** Normal deviates in pairs, drawn once. */
let deviates: Float64Array | null = null;

function normalPairs(): Float64Array {
  if (deviates === null) {
    const normal = randomNormal.source(randomLcg(drawSeed))(0, 1);
    deviates = Float64Array.from({ length: 2 * drawCount }, normal);
  }
  return deviates;
}

const mean = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / values.length;

function ends(carry: Float64Array): Pick<CarryRange, "low" | "high" | "sd"> {
  const middle = mean(carry);
  const square = carry.reduce((sum, c) => sum + (c - middle) ** 2, 0);
  const sorted = carry.toSorted();
  return {
    low: sorted[Math.floor(0.1 * carry.length)]!,
    high: sorted[Math.ceil(0.9 * carry.length) - 1]!,
    sd: Math.sqrt(square / (carry.length - 1)),
  };
}

/** The range of the carry of landing points drawn from a normal of that mean and covariance. */
function drawnLandings(landing: LandingSpread): CarryRange {
  const { x, y, xx, xy, yy } = landing;
  // Cholesky's factor of the covariance.
  const a = Math.sqrt(xx);
  const b = a > 0 ? xy / a : 0;
  const c = Math.sqrt(Math.max(0, yy - b * b));
  const z = normalPairs();
  const carry = new Float64Array(drawCount);
  for (let i = 0; i < drawCount; i++) {
    carry[i] = Math.hypot(x + a * z[2 * i]!, y + b * z[2 * i]! + c * z[2 * i + 1]!);
  }
  return { ...ends(carry), method: "draws", landing };
}

/** The range from flights drawn one by one. */
function drawnFlights(launch: Launch, air: Air, ball: Ball, spinSource: SpinSource): CarryRange {
  const { x, y, carry } = landingDraws(launch, air, ball, spinSource, flightCount, drawSeed);
  const mx = mean(x);
  const my = mean(y);
  const about = (a: Float64Array, ma: number, b: Float64Array, mb: number): number =>
    a.reduce((sum, v, i) => sum + (v - ma) * (b[i]! - mb), 0) / (a.length - 1);
  return {
    ...ends(carry),
    method: "draws",
    landing: { x: mx, y: my, xx: about(x, mx, x, mx), xy: about(x, mx, y, my), yy: about(y, my, y, my) },
  };
}
