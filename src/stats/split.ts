/** Splitting the difference of two means into parts. */

/** A difference of two means, in two parts that add up to it. */
export interface TwoFold {
  /** From the groups' shares having changed. */
  readonly mix: number;
  /** From the groups' means having changed. */
  readonly rate: number;
}

/**
 * Kitagawa's two-fold split of mean(to) − mean(from) over groups: each group's change of share at the average of
 * its two means, and its change of mean at the average of its two shares. A group that one side has none of
 * takes the other side's mean, so that all it does counts as mix.
 * Source: Kitagawa, J. Am. Stat. Assoc. 50, 1955, 1168.
 * @param fromN how many of each group, first side; each side has at least one
 * @param fromSum their values' sum
 * @param toN the second side, likewise
 * @example kitagawa([1, 1], [10, 20], [1, 3], [12, 66]) // { mix: 2.5, rate: 2.0 }
 */
export function kitagawa(
  fromN: ArrayLike<number>,
  fromSum: ArrayLike<number>,
  toN: ArrayLike<number>,
  toSum: ArrayLike<number>,
): TwoFold {
  const mix = mixOf(fromN, fromSum, toN, toSum);
  return { mix, rate: total(toSum) / total(toN) - total(fromSum) / total(fromN) - mix };
}

/**
 * The mix alone, with nothing made anew: for use inside a bootstrap. 0 where a side has none at all.
 * @example mixOf([1, 1], [10, 20], [1, 3], [12, 66]) // 2.5
 */
export function mixOf(
  fromN: ArrayLike<number>,
  fromSum: ArrayLike<number>,
  toN: ArrayLike<number>,
  toSum: ArrayLike<number>,
): number {
  const [n, m] = [total(fromN), total(toN)];
  if (n === 0 || m === 0) return 0;
  let mix = 0;
  for (let g = 0; g < fromN.length; g++) {
    const a = fromN[g]!;
    const b = toN[g]!;
    if (a === 0 && b === 0) continue;
    const before = a > 0 ? fromSum[g]! / a : toSum[g]! / b;
    const after = b > 0 ? toSum[g]! / b : before;
    mix += (b / m - a / n) * ((before + after) / 2);
  }
  return mix;
}

function total(values: ArrayLike<number>): number {
  let sum = 0;
  for (let g = 0; g < values.length; g++) sum += values[g]!;
  return sum;
}

/**
 * A number on a grid of 2⁻³² parts: sums of such numbers are exact, in any order, so that parts add up to their
 * whole to the last digit.
 * @example onGrid(0.5) // 0.5
 */
export function onGrid(value: number): number {
  // Zero added, so that no minus stands before a zero.
  return Math.round(value * 2 ** 32) / 2 ** 32 + 0;
}

/**
 * Parts rounded so that they still add up to their rounded whole: each is rounded down, and those that lost most
 * are put up by one in the last digit (the largest-remainder method of apportionment).
 * @param digits behind the point
 * @example roundToTotal([1.26, 1.26, 1.26], 1) // [1.3, 1.3, 1.2]
 */
export function roundToTotal(parts: readonly number[], digits: number): number[] {
  const scale = 10 ** digits;
  const total = Math.round(parts.reduce((a, b) => a + b, 0) * scale);
  const down = parts.map((p) => Math.floor(p * scale));
  const missing = total - down.reduce((a, b) => a + b, 0);
  const most = parts
    .map((p, i) => ({ i, lost: p * scale - down[i]! }))
    .sort((a, b) => b.lost - a.lost || a.i - b.i)
    .slice(0, missing);
  for (const { i } of most) down[i]!++;
  return down.map((v) => v / scale);
}
