/** Reliability: how much of what is seen between members is theirs, and how many values it takes to see it. */
import { sampleCorrelation } from "simple-statistics";
import { fQuantile } from "./beta.ts";
import { eachHalving, type Places } from "./draws.ts";
import { confidence } from "./normal.ts";
import { defaultSeed } from "./random.ts";

/** One-way intraclass correlation of single values. */
export interface Icc {
  /** Members, and values in all. */
  readonly k: number;
  readonly n: number;
  /** Strata that members were compared within; 1: all with all. */
  readonly strata: number;
  /** Values a member: the mean, made smaller where members differ in theirs. */
  readonly perMember: number;
  /** Null where nothing varies, or no two members of a stratum have two values. */
  readonly value: number | null;
  /** 95 %. */
  readonly low: number | null;
  readonly high: number | null;
}

/** The stratum of each member, in the members' order; members are compared with others of their stratum alone. */
export type Strata = readonly (string | null)[];

/**
 * Members laid out by stratum: those with too few values, and those that are then alone in theirs, left out.
 * @example byStratum([[1, 2], [3, 4], [5, 6]], 2, ["a", "b", "a"]) // [[[1, 2], [5, 6]]]
 */
export function byStratum<Values extends ArrayLike<number>>(
  members: readonly Values[],
  fewest: number,
  strata?: Strata,
): Values[][] {
  const lists = new Map<string | null, Values[]>();
  members.forEach((list, i) => {
    if (list.length < fewest) return;
    const stratum = strata?.[i] ?? null;
    const known = lists.get(stratum);
    if (known) known.push(list);
    else lists.set(stratum, [list]);
  });
  return [...lists.values()].filter((list) => list.length > 1);
}

/**
 * One-way random intraclass correlation, ICC(1,1): (MSB − MSW) ÷ (MSB + (n₀ − 1)·MSW). Below 0 when members
 * differ less than chance would have it. The interval is that of the F ratio; with unequal numbers of values
 * n₀ stands for their number, and it is an approximation. With strata MSB is that of members within strata, as in a
 * nested analysis of variance: what strata differ by is no member's.
 * Source: Shrout & Fleiss, Psychol. Bull. 86, 1979, 420; n₀: Donner, Int. Stat. Rev. 54, 1986, 67; nested: Searle,
 * Casella & McCulloch, Variance Components, 1992, section 3.
 * @param members each member's values; those with fewer than two are left out
 * @param strata each member's stratum; none: all are of one. Members alone in theirs are left out
 * @example oneWayIcc([[1, 2], [5, 6], [9, 10]]).value // 0.969
 * @example oneWayIcc([[1, 2], [5, 6], [101, 102], [105, 106]], ["a", "a", "b", "b"]).value // 0.939
 */
export function oneWayIcc(members: readonly (readonly number[])[], strata?: Strata): Icc {
  const used = byStratum(members, 2, strata);
  const lists = used.flat();
  const k = lists.length;
  const n = lists.reduce((sum, list) => sum + list.length, 0);
  const open = { k, n, strata: used.length, value: null, low: null, high: null };
  if (k === 0) return { ...open, perMember: 0 };
  const betweenFreedom = k - used.length;
  let [between, uneven, largest] = [0, 0, 1e-12];
  for (const stratum of used) {
    const size = stratum.reduce((sum, list) => sum + list.length, 0);
    const middle = stratum.reduce((sum, list) => sum + list.length * meanOf(list), 0) / size;
    for (const list of stratum) {
      between += list.length * (meanOf(list) - middle) ** 2;
      uneven += list.length ** 2 / size;
      largest = Math.max(largest, Math.abs(meanOf(list)));
    }
  }
  between /= betweenFreedom;
  const perMember = (n - uneven) / betweenFreedom;
  const within = lists.reduce((sum, list) => sum + squaresOf(list), 0) / (n - k);
  // What rounding leaves of a spread that is none.
  if (between + within <= 1e-20 * largest ** 2) return { ...open, perMember };
  const of = (f: number): number => (f === Infinity ? 1 : (f - 1) / (f + perMember - 1));
  const f = within === 0 ? Infinity : between / within;
  const tail = (1 + confidence) / 2;
  return {
    ...open,
    perMember,
    value: of(f),
    low: of(f / fQuantile(tail, betweenFreedom, n - k)),
    high: of(f * fQuantile(tail, n - k, betweenFreedom)),
  };
}

/** Squared distances from the mean. */
function squaresOf(values: readonly number[]): number {
  const middle = meanOf(values);
  return values.reduce((sum, v) => sum + (v - middle) ** 2, 0);
}

function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
}

/**
 * Reliability of the mean of several values, from that of one.
 * Source: Spearman and Brown, Brit. J. Psychol. 3, 1910, 271 and 296.
 * @param single reliability of one value
 * @param times how many values, not necessarily whole
 * @example spearmanBrown(0.5, 2) // 0.667
 */
export function spearmanBrown(single: number, times: number): number {
  return (times * single) / (1 + (times - 1) * single);
}

/**
 * How many values reach a reliability, by Spearman and Brown's formula turned round.
 * @param single reliability of one value
 * @param wanted 0 < wanted < 1
 * @returns Infinity when a single value has none
 * @example valuesFor(0.7, 0.1) // 21
 */
export function valuesFor(wanted: number, single: number): number {
  return single <= 0 ? Infinity : (wanted * (1 - single)) / (single * (1 - wanted));
}

/** How two halves of each member's values agree. */
export interface SplitHalf {
  readonly k: number;
  /** Values in a half: the harmonic mean over members. */
  readonly perHalf: number;
  /**
   * Correlation of the members' two half-means, about those of their stratum, the mean over the splits; null where
   * there are not two members more than strata.
   */
  readonly correlation: number | null;
}

/** Values a member needs to be halved. */
const fewestToHalve = 4;

/**
 * Split-half reliability: each member's values dealt into two halves at random, many times, and the half-means
 * correlated over members.
 * @param members each member's values; those with fewer than four are left out
 * @param strata as in `oneWayIcc`
 * @param splits how many times
 * @example splitHalf([[1, 1, 1, 1], [2, 2, 2, 2], [3, 3, 3, 3]]).correlation // 1.0
 */
export function splitHalf(
  members: readonly (readonly number[])[],
  strata?: Strata,
  seed: number = defaultSeed,
  splits = 200,
): SplitHalf {
  const columns = members.map((list) => Float64Array.from(list));
  const used = byStratum(columns, fewestToHalve, strata);
  const k = used.flat().length;
  if (k - used.length < 2) return { k, perHalf: 0, correlation: null };
  const perHalf = k / used.flat().reduce((sum, list) => sum + 1 / Math.floor(list.length / 2), 0);
  const lists = used.flat();
  const strataSizes = used.map((stratum) => stratum.length);
  const [first, second] = [Array<number>(k).fill(0), Array<number>(k).fill(0)];
  let sum = 0;
  let counted = 0;
  const sizes = lists.map((list) => list.length);
  eachHalving(sizes, seed, splits, (places, bounds) => {
    lists.forEach((list, m) => {
      const [from, to] = [bounds[m]!, bounds[m + 1]!];
      const middle = (from + to) / 2;
      first[m] = meanAt(list, places, from, middle);
      second[m] = meanAt(list, places, middle, to);
    });
    let from = 0;
    for (const size of strataSizes) {
      aboutMean(first, from, size);
      aboutMean(second, from, size);
      from += size;
    }
    const r = sampleCorrelation(first, second);
    if (!Number.isFinite(r)) return;
    sum += r;
    counted++;
  });
  return { k, perHalf, correlation: counted === 0 ? null : sum / counted };
}

/** The mean of the values at some places. */
function meanAt(list: Float64Array, places: Places, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += list[places[i]!]!;
  return sum / (to - from);
}

/** Takes their mean off some of the values. */
function aboutMean(values: number[], from: number, size: number): void {
  let sum = 0;
  for (let i = from; i < from + size; i++) sum += values[i]!;
  const middle = sum / size;
  for (let i = from; i < from + size; i++) values[i]! -= middle;
}
