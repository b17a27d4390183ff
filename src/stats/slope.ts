/** How much one measure moves with another: a straight line's slope, with its doubt. */
import { fewestForSpread, percentileInterval, resamples } from "./bootstrap.ts";
import type { Estimate } from "./estimate.ts";
import { defaultSeed, randomFrom } from "./random.ts";

/**
 * The least-squares slope of y on x, with an interval from the bootstrap of pairs. Pairs with a null are
 * left out.
 * @param x the one measure
 * @param y the other, as long as x
 * @returns y's unit per x's unit; no value when x does not vary
 * @example slopeEstimate([0, 1, 2, 3], [5, 7, 9, 11]).value // 2
 */
export function slopeEstimate(
  x: readonly (number | null)[],
  y: readonly (number | null)[],
  seed: number = defaultSeed,
): Estimate {
  const [xs, ys] = pairs(x, y);
  const n = xs.length;
  const none = { n, value: null, low: null, high: null };
  if (n < 3) return { ...none, reason: "fewer than three pairs have no slope" };
  const every = Int32Array.from({ length: n }, (_, i) => i);
  const value = slope(xs, ys, every);
  if (value === null) return { ...none, reason: "nothing varies to take a slope along" };
  if (n < fewestForSpread) return { ...none, value, reason: `${n} pairs give no interval` };
  const random = randomFrom(seed);
  const drawn = Float64Array.from({ length: resamples }, () => {
    const picked = every.map(() => Math.floor(random() * n));
    return slope(xs, ys, picked) ?? NaN;
  });
  const [low, high] = percentileInterval(drawn, n);
  return { n, value, low, high, reason: null };
}

function pairs(x: readonly (number | null)[], y: readonly (number | null)[]): [number[], number[]] {
  const xs: number[] = [];
  const ys: number[] = [];
  x.forEach((a, i) => {
    const b = y[i] ?? null;
    if (a === null || b === null) return;
    xs.push(a);
    ys.push(b);
  });
  return [xs, ys];
}

/** Null where the picked x are all one: the line would stand upright. */
function slope(xs: readonly number[], ys: readonly number[], picked: Int32Array): number | null {
  let [mx, my] = [0, 0];
  for (const i of picked) {
    mx += xs[i]!;
    my += ys[i]!;
  }
  mx /= picked.length;
  my /= picked.length;
  let [xx, xy, size] = [0, 0, 0];
  for (const i of picked) {
    xx += (xs[i]! - mx) ** 2;
    xy += (xs[i]! - mx) * (ys[i]! - my);
    size = Math.max(size, Math.abs(xs[i]!));
  }
  return xx <= picked.length * (1e-12 * size) ** 2 ? null : xy / xx;
}
