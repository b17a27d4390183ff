/** How far a computed carry may be from the true one: its 80 % range, and the ellipse of the landing point. */
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { load } from "./carry.ts";
import { dragWithoutSpin } from "./coefficients.ts";
import { landingDraws } from "./draws.ts";
import { given, landed, run } from "./kernel.ts";
import type { Launch } from "./launch.ts";
import type { SpinSource } from "./spin.ts";
import { deviationsOf } from "./spreads.ts";

/** The range of a carry, m. */
export interface CarryRange {
  /** Ends of the 80 % range. */
  readonly low: number;
  readonly high: number;
  /** Standard deviation of the carry. */
  readonly sd: number;
  /** How it was found: by a few flights beside the ball's own, or, where those don't do, by seeded draws. */
  readonly method: "quick" | "draws";
  readonly landing: LandingSpread;
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
/** A carry within this many of its standard deviations of the plate can't be told from its direction: draw. */
const nearPlate = 4;
const drawCount = 2000;
const drawSeed = 0.5;

/** The ball's own `given`, and its landing: x, y, carry. */
const own = new Float64Array(given.length);
const center = new Float64Array(3);
/** The landing a node below, then a node above. */
const below = new Float64Array(3);
const above = new Float64Array(3);
/** Sums over the quantities: shift of the mean x, y, carry; then xx, xy, yy, carry², carry³ about their means. */
const sums = new Float64Array(8);

function landInto(place: Float64Array): void {
  run();
  const x = landed[0]!;
  const y = landed[1]!;
  place[0] = x;
  place[1] = y;
  place[2] = Math.sqrt(x * x + y * y);
  given.set(own);
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

/** Adds one quantity's share to the sums, straight through the center and `above`, a standard deviation away. */
function addStraight(): void {
  const dx = above[0]! - center[0]!;
  const dy = above[1]! - center[1]!;
  const dc = above[2]! - center[2]!;
  sums[3] = sums[3]! + dx * dx;
  sums[4] = sums[4]! + dx * dy;
  sums[5] = sums[5]! + dy * dy;
  sums[6] = sums[6]! + dc * dc;
}

/**
 * The 80 % range of a carry and its standard deviation, from the table of spreads: each quantity's share by a
 * flight or two beside the ball's own (three-point quadrature where the carry bends, a straight line where it
 * doesn't), shares added as independent. Held in the tests against 20 000 seeded draws. A ball that comes down
 * about the plate, where distance and direction can't be told apart, is drawn instead, and `method` says so.
 * @throws RangeError when a number isn't finite.
 */
export function carryRange(launch: Launch, air: Air, ball: Ball, spinSource: SpinSource): CarryRange {
  const d = deviationsOf(launch, air, spinSource);
  load(launch, air, ball);
  own.set(given);
  sums.fill(0);
  landInto(center);

  const vary = (change: (step: number) => void): void => {
    change(-node);
    landInto(below);
    change(node);
    landInto(above);
    addPair();
  };
  const nudge = (change: () => void): void => {
    change();
    landInto(above);
    addStraight();
  };
  const with_ = (changed: Partial<Launch>): void => load({ ...launch, ...changed }, air, ball);
  const rate = Math.hypot(launch.backspin, launch.sidespin);
  const back = d.ownDirection ? launch.backspin / rate : 1;
  const side = d.ownDirection ? launch.sidespin / rate : 0;
  const spin = (along: number, across: number): void =>
    with_({
      backspin: launch.backspin + along * back - across * side,
      sidespin: launch.sidespin + along * side + across * back,
    });
  vary((k) => with_({ launchAngle: launch.launchAngle + k * d.launchAngle }));
  vary((k) => spin(k * d.spinAlong, 0));
  vary((k) => spin(0, k * d.spinAcross));
  nudge(() => with_({ speed: launch.speed + d.speed }));
  nudge(() => with_({ sprayAngle: launch.sprayAngle + d.sprayAngle }));
  nudge(() => (given[9] = given[9]! * (1 + d.drag / dragWithoutSpin)));
  nudge(() => {
    for (const i of [9, 10, 11]) given[i] = given[i]! * (1 + d.density);
  });
  if (d.wind > 0) {
    nudge(() => (given[13] = given[13]! + d.wind));
    nudge(() => (given[14] = given[14]! + d.wind));
  }
  nudge(() => (given[2] = given[2]! + d.contactHeight));
  nudge(() => (given[0] = given[0]! + d.contactPlace));
  nudge(() => (given[1] = given[1]! + d.contactPlace));

  const carry = center[2]! + sums[2]!;
  const sd = Math.sqrt(sums[6]!);
  if (carry < nearPlate * Math.sqrt(Math.max(sums[3]!, sums[5]!))) {
    return drawnRange(launch, air, ball, spinSource);
  }
  // Cornish and Fisher's first term: what the lean of the distribution does to its tenths.
  const lean = ((tenth * tenth - 1) * sums[7]!) / (6 * sums[6]!);
  return {
    low: Math.max(0, carry + lean - tenth * sd),
    high: carry + lean + tenth * sd,
    sd,
    method: "quick",
    landing: {
      x: center[0]! + sums[0]!,
      y: center[1]! + sums[1]!,
      xx: sums[3]!,
      xy: sums[4]!,
      yy: sums[5]!,
    },
  };
}

const mean = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / values.length;

function drawnRange(launch: Launch, air: Air, ball: Ball, spinSource: SpinSource): CarryRange {
  const { x, y, carry } = landingDraws(launch, air, ball, spinSource, drawCount, drawSeed);
  const mx = mean(x);
  const my = mean(y);
  const mc = mean(carry);
  const about = (a: Float64Array, ma: number, b: Float64Array, mb: number): number =>
    a.reduce((sum, v, i) => sum + (v - ma) * (b[i]! - mb), 0) / (a.length - 1);
  const sorted = carry.toSorted();
  return {
    low: sorted[Math.floor(0.1 * drawCount)]!,
    high: sorted[Math.ceil(0.9 * drawCount) - 1]!,
    sd: Math.sqrt(about(carry, mc, carry, mc)),
    method: "draws",
    landing: { x: mx, y: my, xx: about(x, mx, x, mx), xy: about(x, mx, y, my), yy: about(y, my, y, my) },
  };
}
