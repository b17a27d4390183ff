/** The ellipse about a landing point in which a share of such balls come down. */
import type { LandingSpread } from "./range.ts";

/** An ellipse on the ground, m and rad. */
export interface LandingEllipse {
  /** Its middle. */
  readonly x: number;
  readonly y: number;
  /** Half its length and half its width. */
  readonly long: number;
  readonly short: number;
  /** Where its length points, from +y toward +x, as a bearing: −π/2 to π/2. */
  readonly toward: number;
  /** The share of balls inside. */
  readonly level: number;
}

/**
 * The ellipse that holds `level` of a normal spread of landing points: the axes of its covariance, each
 * √(−2 ln(1 − level)) standard deviations long (the square of a plane's normal distance is exponential).
 * @throws RangeError when the level isn't between 0 and 1.
 * @example landingEllipse({ x: 0, y: 100, xx: 4, xy: 0, yy: 9 }).long // 5.382
 */
export function landingEllipse(spread: LandingSpread, level = 0.8): LandingEllipse {
  if (!(level > 0 && level < 1)) throw new RangeError(`a level of ${level} isn't between 0 and 1`);
  const { x, y, xx, xy, yy } = spread;
  const k = Math.sqrt(-2 * Math.log(1 - level));
  const half = (xx + yy) / 2;
  const apart = Math.hypot((xx - yy) / 2, xy);
  const turn = Math.atan2(2 * xy, yy - xx) / 2;
  return {
    x,
    y,
    long: k * Math.sqrt(half + apart),
    short: k * Math.sqrt(Math.max(0, half - apart)),
    toward: turn,
    level,
  };
}

/**
 * Points around an ellipse, the first one again at the end, m.
 * @example ellipseOutline({ x: 0, y: 100, long: 5, short: 2, toward: 0, level: 0.8 }, 4)[0] // [0, 105]
 */
export function ellipseOutline(ellipse: LandingEllipse, count = 72): [number, number][] {
  const { x, y, long, short, toward } = ellipse;
  const [s, c] = [Math.sin(toward), Math.cos(toward)];
  return Array.from({ length: count + 1 }, (_, i) => {
    const angle = (2 * Math.PI * (i % count)) / count;
    const [along, across] = [long * Math.cos(angle), short * Math.sin(angle)];
    return [x + along * s + across * c, y + along * c - across * s];
  });
}
