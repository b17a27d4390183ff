/** Splitting the difference of two means into parts. */
import { fQuantile } from "./beta.ts";
import { largest } from "../swing/lists.ts";

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

/** One side's values, each with its group and its session, both numbered from 0; group −1: of none, left out. */
export interface MixSide {
  readonly value: ArrayLike<number>;
  readonly group: ArrayLike<number>;
  readonly session: ArrayLike<number>;
}

/** How far sessions may differ by chance before they count. Chosen by simulation (src/gap/simulate.ts). */
const chance = 0.75;

/**
 * The standard error of the mix, and its degrees of freedom. The mix is a sum of products, change of share times
 * mean of a group, and both factors are uncertain. Putting each one's variance beside the other's estimate counts
 * the noise of the estimates as signal, and a bootstrap does so twice: where the mix is small it comes out three
 * times too large. Goodman's estimate takes that off, x²·v(y) + y²·v(x) − v(x)·v(y), here summed over the groups
 * with multinomial shares; and no more is taken off than the smaller of the first two.
 *
 * A session that is better or worse all over moves every group alike and cancels. What remains of sessions, days
 * that differ in the groups' shares, is added by as much as the sessions' linearised sums exceed chance.
 * Source: Goodman, J. Am. Stat. Assoc. 55, 1960, 708.
 * @param groups how many there are; each side has at least two values of each
 * @returns null where nothing varies, or a side has fewer than two values of a group
 * @example mixDoubt(1, { value: [1, 2], group: [0, 0], session: [0, 0] }, { value: [1, 2], group: [0, 0], session: [0, 0] }) // null
 */
export function mixDoubt(
  groups: number,
  from: MixSide,
  to: MixSide,
): { readonly se: number; readonly freedom: number } | null {
  const sides = [from, to].map((side) => ({ side, ...groupSums(groups, side) })) as [GroupSums, GroupSums];
  const [a, b] = sides;
  const moved = a.n.map((n, g) => b.n[g]! / b.all - n / a.all);
  const middle = a.mean.map((m, g) => (m + b.mean[g]!) / 2);
  const meanVariance = a.variance.map((v, g) => (v + b.variance[g]!) / 4);
  const ofMeans = moved.reduce((sum, d, g) => sum + d * d * meanVariance[g]!, 0);
  let [ofShares, both] = [0, 0];
  let [between, betweenFreedom] = [0, 0];
  let daysKnown = true;
  for (const { side, n, all, mean } of sides) {
    const centre = n.reduce((sum, k, g) => sum + (k / all) * middle[g]!, 0);
    n.forEach((k, g) => {
      const share = k / all;
      ofShares += (share * (middle[g]! - centre) ** 2) / (all - 1);
      both += (share * (1 - share) * meanVariance[g]!) / (all - 1);
    });
    const sums = new Map<number, number>();
    for (let i = 0; i < side.value.length; i++) {
      const g = side.group[i]!;
      if (g < 0) continue;
      const pull = (middle[g]! - centre) / all + ((moved[g]! / 2) * (side.value[i]! - mean[g]!)) / n[g]!;
      sums.set(side.session[i]!, (sums.get(side.session[i]!) ?? 0) + pull);
    }
    const S = sums.size;
    daysKnown &&= S > 1;
    betweenFreedom += S - 1;
    for (const sum of sums.values()) between += (S / Math.max(1, S - 1)) * sum * sum;
  }
  const within = ofMeans + ofShares;
  // What rounding leaves of a spread that is none; nor is a number left where a group has fewer than two, 0/0.
  if (
    !(
      within >
      1e-20 *
        largest(
          middle.map((m) => m * m),
          1e-12,
        )
    )
  )
    return null;
  const withinFreedom = a.all + b.all - 2 * groups;
  const excess = daysKnown
    ? Math.max(0, between - fQuantile(chance, betweenFreedom, withinFreedom) * within)
    : 0;
  const counted = within + excess;
  const noise = Math.min(ofMeans, ofShares, both);
  return {
    se: Math.sqrt(counted * (1 - noise / within)),
    freedom:
      (counted * counted) /
      ((within * within) / withinFreedom + (excess > 0 ? (counted * excess) / betweenFreedom : 0)),
  };
}

/** A side's groups: how many, their means and the variances of those. */
interface GroupSums {
  readonly side: MixSide;
  readonly all: number;
  readonly n: readonly number[];
  readonly mean: readonly number[];
  readonly variance: readonly number[];
}

function groupSums(groups: number, { value, group }: MixSide): Omit<GroupSums, "side"> {
  const [n, mean, squares] = [0, 1, 2].map(() => Array<number>(groups).fill(0)) as [
    number[],
    number[],
    number[],
  ];
  // Welford's running mean and squares.
  for (let i = 0; i < value.length; i++) {
    const g = group[i]!;
    if (g < 0) continue;
    const off = value[i]! - mean[g]!;
    mean[g]! += off / ++n[g]!;
    squares[g]! += off * (value[i]! - mean[g]!);
  }
  return { all: total(n), n, mean, variance: squares.map((s, g) => s / ((n[g]! - 1) * n[g]!)) };
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
