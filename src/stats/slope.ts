/** How much one measure moves with another: a straight line's slope, with its uncertainty. */
import { fewestForSpread, group, percentileInterval, resamples } from "./bootstrap.ts";
import { eachResample, type Places } from "./draws.ts";
import type { Estimate } from "./estimate.ts";
import { defaultSeed } from "./random.ts";
import { intervalsOf, resampledOf, type Figures, type PickedFigures } from "./twoStage.ts";

/**
 * The least-squares slope of y on x, with an interval from the bootstrap of pairs; over several sessions, from that of
 * sessions and the pairs within them. Pairs with a null are left out.
 * @param x the one measure
 * @param y the other, as long as x
 * @param sessions the session of each pair; none, or no name: all are of one
 * @returns y's unit per x's unit; no value when x does not vary
 * @example slopeEstimate([0, 1, 2, 3], [5, 7, 9, 11]).value // 2
 */
export function slopeEstimate(
  x: readonly (number | null)[],
  y: readonly (number | null)[],
  sessions?: readonly (string | null)[],
  seed: number = defaultSeed,
): Estimate {
  const { n, cx, cy, value, used } = line(x, y);
  const none = { n, value: null, low: null, high: null };
  if (n < fewestForSlope) return { ...none, reason: "fewer than three pairs have no slope" };
  if (value === null) return { ...none, reason: "nothing varies to take a slope along" };
  if (n < fewestForSpread) return { ...none, value, reason: `${n} pairs give no interval` };
  const bySession = group(
    used.map((_, k) => k),
    used.map((i) => sessions?.[i] ?? null),
  );
  if (resampledOf([bySession]) === "sessions") {
    const [found] = intervalsOf([bySession], slopes(cx, cy, value), [value], [1], seed);
    return { n, value, low: found?.low ?? value, high: found?.high ?? value, reason: null };
  }
  const drawn = new Float64Array(resamples);
  eachResample([{ starts: Int32Array.of(0, n), groups: 1 }], seed, resamples, (places, bounds, i) => {
    // A resample of one x many times over has no slope of its own: the figure's stands for it.
    drawn[i] = slope(cx, cy, places, bounds[0]!, bounds[1]!) ?? value;
  });
  const [low, high] = percentileInterval(drawn, n);
  return { n, value, low, high, reason: null };
}

/** The slope of the pairs whose numbers are drawn; of one x many times over, the slope of all. */
function slopes(cx: Float64Array, cy: Float64Array, otherwise: number): Figures {
  const of = (numbers: Float64Array, places: Places | null, from: number, to: number): number => {
    const picked = new Int32Array(to - from);
    for (let k = from; k < to; k++) picked[k - from] = numbers[places === null ? k : places[k]!]!;
    return slope(cx, cy, picked, 0, to - from) ?? otherwise;
  };
  const plain = ([numbers]: readonly Float64Array[], [n]: readonly number[], out: Float64Array): void => {
    out[0] = of(numbers!, null, 0, n!);
  };
  return Object.assign(plain, {
    of:
      ([numbers]: readonly Float64Array[]): PickedFigures =>
      (places, bounds, out) => {
        out[0] = of(numbers!, places, bounds[0]!, bounds[1]!);
      },
  });
}

/**
 * The slope alone, where its uncertainty is not asked for; null as in `slopeEstimate`.
 * @example slopeOf([0, 1, 2, 3], [5, 7, 9, 11]) // 2
 */
export function slopeOf(x: readonly (number | null)[], y: readonly (number | null)[]): number | null {
  return line(x, y).value;
}

const fewestForSlope = 3;

function line(x: readonly (number | null)[], y: readonly (number | null)[]) {
  const [xs, ys, used] = pairs(x, y);
  const n = xs.length;
  const [cx, cy] = [centred(xs), centred(ys)];
  const every = Int32Array.from({ length: n }, (_, i) => i);
  const value = n >= fewestForSlope && varies(xs, cx) ? slope(cx, cy, every, 0, n) : null;
  return { n, cx, cy, value, used };
}

/** Less their mean, so that one pass of sums keeps its digits. */
function centred(values: readonly number[]): Float64Array {
  const middle = values.reduce((a, b) => a + b, 0) / values.length;
  return Float64Array.from(values, (v) => v - middle);
}

function pairs(x: readonly (number | null)[], y: readonly (number | null)[]): [number[], number[], number[]] {
  const xs: number[] = [];
  const ys: number[] = [];
  const used: number[] = [];
  x.forEach((a, i) => {
    const b = y[i] ?? null;
    if (a === null || b === null) return;
    xs.push(a);
    ys.push(b);
    used.push(i);
  });
  return [xs, ys, used];
}

/** Whether values differ by more than rounding. */
function varies(values: readonly number[], apart: Float64Array): boolean {
  const largest = values.reduce((a, b) => Math.max(a, Math.abs(b)), 0);
  return apart.some((d) => Math.abs(d) > 1e-12 * largest);
}

/** Null where the picked x are all one: the line would stand upright. */
function slope(xs: Float64Array, ys: Float64Array, places: Places, from: number, to: number): number | null {
  const n = to - from;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let sxy = 0;
  for (let k = from; k < to; k++) {
    const i = places[k]!;
    const x = xs[i]!;
    const y = ys[i]!;
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
  }
  const across = sxx - (sx * sx) / n;
  // What rounding leaves of a spread that is none.
  return across <= 1e-12 * sxx ? null : (sxy - (sx * sy) / n) / across;
}
