/**
 * The shape of the ceiling: how much of a hitter's top-end exit velocity is left at a launch angle, by degrees off
 * the best one. It is the same for all hitters of a library.
 *
 * Derived from the collision. A ball met ψ off square leaves with q·v + (1 + q)·V, times cos ψ, along the line
 * between the middles of bat and ball (v the pitch's speed, V the bat's; A. M. Nathan, Am. J. Phys. 71, 2003, 134).
 * Across it, it keeps its own v·sin ψ but for what the bat's grip takes, k·(v + V)·sin ψ, k = 2/7 for a solid sphere
 * that ends rolling (R. G. Watts & S. Baroni, Am. J. Phys. 57, 1989, 40). With κ, the second over the first but for
 * sin and cos, it leaves x = ψ + atan(κ·tan ψ) off the best angle, at √(cos²ψ + κ²·sin²ψ) of its best speed. Off a
 * tee κ is −0.24, and 0.76 of the speed is left at 30°; against a pitch as fast as the bat it is 0.31, and 0.92 are,
 * the pitch's part taken out. A ceiling is an upper edge: it follows the balls that keep the most, those against
 * pitches, of which there are also more far from the best angle. Bats hang below the hands (27° here; common
 * practice, no source) and push across their own axis: of a path of 10°, cos² of that is left, and the ball met
 * squarely leaves 2° under the bat's path.
 *
 * What a library adds. How hitters spread about the best angle, and how their mishits do, isn't in the collision, and
 * moves the 95th percentile at an angle by some hundredths. So the derived shape is corrected in bands of 10° by what
 * the library's balls show, each hitter measured by the own top end; a band's correction is drawn toward none while
 * its balls are few.
 */
import { quantile } from "d3-array";
import { deg } from "../units/index.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/** Corrections to the derived shape, piecewise linear between the middles of the bands. */
export interface Shape {
  /** Middles of the bands, ° off the best angle. */
  readonly middles_deg: readonly number[];
  /** Natural logarithm of the correction at each. */
  readonly corrections: readonly number[];
  /** Balls in each band. */
  readonly n: readonly number[];
}

/** The derived shape with nothing added. */
export const derivedShape: Shape = { middles_deg: [], corrections: [], n: [] };

/** Share of the slip that grip takes: a solid sphere that ends rolling. */
const grip = 2 / 7;
/** Pitch speed over bat speed: off a tee, against a pitch as fast as the bat, and of the derived shape: a practice pitch. */
const [tee, fast, usual] = [0, 1, 0.8];
/** How far under the bat's path a square ball leaves, °: 10°·sin² 27°. */
const under_deg = 2;
/** Width of a band, °. */
const band_deg = 10;
/** What one ball tells a band's 95th percentile to: exit velocities at like angles spread so. */
const ofOneBall = 0.2;
/** The derived shape is trusted no further than this anywhere: hitters' own spread isn't in it. */
const leastUncertainty = 0.05;
/** A hitter with fewer balls has no top end of the own to be measured by. */
const fewestBalls = 20;
/** A hitter's top end and the shape hang on one another: they are worked out in turns, and settle in three. */
const turns = 3;

/**
 * The derived shape, 1 at its best.
 * @param off_deg launch angle less the best one, °, under 90 either way
 * @example derivedAt(-2, 0.2) // 1.000
 * @example derivedAt(28, 0.2) // 0.902
 */
export function derivedAt(off_deg: number, q: number, pitchOverBat: number = usual): number {
  const pitch = q * pitchOverBat;
  const kappa = ((1 - grip) * pitchOverBat - grip) / (pitch + 1 + q);
  const x = Math.tan((off_deg + under_deg) * deg);
  // tan ψ, from tan x = (1 + κ)·tan ψ ÷ (1 − κ·tan² ψ).
  const t = (2 * x) / (1 + kappa + Math.sqrt(Math.max(0, (1 + kappa) ** 2 + 4 * kappa * x * x)));
  const speed = Math.sqrt((1 + (kappa * t) ** 2) / (1 + t * t));
  // The pitch's part is taken out of the exit velocity and of its best.
  return ((pitch + 1 + q) * speed - pitch) / (1 + q);
}

/** What the derived shape is multiplied by, at degrees off the best angle; past the outer middles the line goes on. */
function correctionAt({ middles_deg, corrections }: Shape, off_deg: number): number {
  const last = corrections.length - 1;
  if (last < 0) return 1;
  let k = 0;
  while (k < last - 1 && off_deg > middles_deg[k + 1]!) k++;
  const next = Math.min(last, k + 1);
  const span = middles_deg[next]! - middles_deg[k]!;
  const along = span > 0 ? (off_deg - middles_deg[k]!) / span : 0;
  return Math.exp(corrections[k]! + along * (corrections[next]! - corrections[k]!));
}

/**
 * The shape at degrees off the best angle; null outside the ceiling's range.
 * @example shapeAt(derivedShape, -2, { ceiling_below_deg: 30, ceiling_above_deg: 35, collision_q: 0.2 }) // 1.000
 * @example shapeAt(derivedShape, 36, { ceiling_below_deg: 30, ceiling_above_deg: 35, collision_q: 0.2 }) // null
 */
export function shapeAt(
  shape: Shape,
  off_deg: number,
  thresholds: Pick<Thresholds, "ceiling_below_deg" | "ceiling_above_deg" | "collision_q">,
): number | null {
  if (!(off_deg >= -thresholds.ceiling_below_deg && off_deg <= thresholds.ceiling_above_deg)) return null;
  return derivedAt(off_deg, thresholds.collision_q) * correctionAt(shape, off_deg);
}

/** How many balls the derived shape weighs: it is trusted to half of what tee and live differ by. */
function priorBalls(off_deg: number, q: number): number {
  const half = Math.abs(derivedAt(off_deg, q, fast) - derivedAt(off_deg, q, tee)) / 2;
  return (ofOneBall / Math.max(leastUncertainty, half)) ** 2;
}

/** One hitter's balls. */
export interface ShapeSample {
  /** Exit velocities, the pitch's part taken out. */
  readonly speeds: readonly number[];
  /** ° off the hitter's best angle, one for each. */
  readonly offs_deg: readonly number[];
}

/**
 * The shape that a library's balls show: in each band the 95th percentile of speed ÷ (hitter's top end × derived
 * shape), drawn toward the derived shape. On the whole it is as high as the derived one, so that a level's figure
 * means the same with both.
 * @param hitters each hitter's balls; who has too few for a top end of the own is passed over
 * @example pooledShape([]).corrections // []
 */
export function pooledShape(
  hitters: readonly ShapeSample[],
  thresholds: Thresholds = defaultThresholds,
): Shape {
  const { ceiling_below_deg: below, ceiling_above_deg: above, ceiling_quantile: p } = thresholds;
  // The last band may be narrower: what is left of the range.
  const bands = Math.ceil((below + above) / band_deg);
  const bandOf = (off: number): number => Math.min(bands - 1, Math.floor((off + below) / band_deg));
  const samples = hitters.flatMap(({ speeds, offs_deg }) => {
    const near = offs_deg.flatMap((off, i) => (off >= -below && off <= above ? [i] : []));
    if (near.length < fewestBalls) return [];
    const offs = Float64Array.from(near, (i) => offs_deg[i]!);
    const straight = Float64Array.from(
      near,
      (i) => speeds[i]! / derivedAt(offs_deg[i]!, thresholds.collision_q),
    );
    return [{ offs, straight, u: straight.slice() }];
  });
  if (samples.length === 0) return derivedShape;
  const n = Array<number>(bands).fill(0);
  for (const { offs } of samples) for (const off of offs) n[bandOf(off)]!++;
  const middles_deg = n.map((_, k) => {
    const start = -below + k * band_deg;
    return (start + Math.min(start + band_deg, above)) / 2;
  });
  const prior = middles_deg.map((middle) => priorBalls(middle, thresholds.collision_q));
  const total = n.reduce((a, b) => a + b, 0);
  const inBand = n.map((count) => new Float64Array(count));
  let shape: Shape = { middles_deg, corrections: n.map(() => 0), n };
  for (let turn = 0; turn < turns; turn++) {
    const filled = n.map(() => 0);
    for (const { offs, straight, u } of samples) {
      const top = quantile(u, p)!;
      for (let i = 0; i < offs.length; i++) {
        const k = bandOf(offs[i]!);
        inBand[k]![filled[k]!++] = straight[i]! / top;
      }
    }
    const own = inBand.map((ratios) =>
      ratios.length === 0 ? 0 : Math.log(Math.max(1e-3, quantile(ratios, p)!)),
    );
    const middle = own.reduce((sum, v, k) => sum + n[k]! * v, 0) / total;
    const corrections = own.map((v, k) => ((v - middle) * n[k]!) / (n[k]! + prior[k]!));
    shape = { middles_deg, corrections, n };
    for (const { offs, straight, u } of samples)
      for (let i = 0; i < u.length; i++) u[i] = straight[i]! / correctionAt(shape, offs[i]!);
  }
  return shape;
}
