/** Reliability: how much of what is seen between members is theirs, and how many values it takes to see it. */
import { sampleCorrelation } from "simple-statistics";
import { fQuantile } from "./beta.ts";
import { confidence } from "./normal.ts";
import { defaultSeed, randomFrom } from "./random.ts";

/** One-way intraclass correlation of single values. */
export interface Icc {
  /** Members, and values in all. */
  readonly k: number;
  readonly n: number;
  /** Values a member: the mean, made smaller where members differ in theirs. */
  readonly perMember: number;
  /** Null where nothing varies, or there are fewer than two members with two values. */
  readonly value: number | null;
  /** 95 %. */
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * One-way random intraclass correlation, ICC(1,1): (MSB − MSW) ÷ (MSB + (n₀ − 1)·MSW). Below 0 when members
 * differ less than chance would have it. The interval is that of the F ratio; with unequal numbers of values
 * n₀ stands for their number, and it is an approximation.
 * Source: Shrout & Fleiss, Psychol. Bull. 86, 1979, 420; n₀: Donner, Int. Stat. Rev. 54, 1986, 67.
 * @param members each member's values; those with fewer than two are left out
 * @example oneWayIcc([[1, 2], [5, 6], [9, 10]]).value // 0.969
 */
export function oneWayIcc(members: readonly (readonly number[])[]): Icc {
  const used = members.filter((list) => list.length > 1);
  const k = used.length;
  const n = used.reduce((sum, list) => sum + list.length, 0);
  const open = { k, n, value: null, low: null, high: null };
  if (k < 2) return { ...open, perMember: k === 0 ? 0 : n };
  const perMember = (n - used.reduce((sum, list) => sum + list.length ** 2, 0) / n) / (k - 1);
  const means = used.map(meanOf);
  const middle = used.reduce((sum, list, i) => sum + list.length * means[i]!, 0) / n;
  const between = used.reduce((sum, list, i) => sum + list.length * (means[i]! - middle) ** 2, 0) / (k - 1);
  const within =
    used.reduce((sum, list, i) => sum + list.reduce((s, v) => s + (v - means[i]!) ** 2, 0), 0) / (n - k);
  const scale = Math.max(...means.map(Math.abs), 1e-12) ** 2;
  // What rounding leaves of a spread that is none.
  if (between + within <= 1e-20 * scale) return { ...open, perMember };
  const of = (f: number): number => (f === Infinity ? 1 : (f - 1) / (f + perMember - 1));
  const f = within === 0 ? Infinity : between / within;
  const tail = (1 + confidence) / 2;
  return {
    k,
    n,
    perMember,
    value: of(f),
    low: of(f / fQuantile(tail, k - 1, n - k)),
    high: of(f * fQuantile(tail, n - k, k - 1)),
  };
}

const meanOf = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

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
  /** Correlation of the members' two half-means, the mean over the splits; null with fewer than three members. */
  readonly correlation: number | null;
}

/** Values a member needs to be halved. */
const fewestToHalve = 4;

/**
 * Split-half reliability: each member's values dealt into two halves at random, many times, and the half-means
 * correlated over members.
 * @param members each member's values; those with fewer than four are left out
 * @param splits how many times
 * @example splitHalf([[1, 1, 1, 1], [2, 2, 2, 2], [3, 3, 3, 3]]).correlation // 1.0
 */
export function splitHalf(
  members: readonly (readonly number[])[],
  seed: number = defaultSeed,
  splits = 200,
): SplitHalf {
  const used = members.filter((list) => list.length >= fewestToHalve).map((list) => Float64Array.from(list));
  const k = used.length;
  if (k < 3) return { k, perHalf: 0, correlation: null };
  const perHalf = k / used.reduce((sum, list) => sum + 1 / Math.floor(list.length / 2), 0);
  const random = randomFrom(seed);
  const [first, second] = [Array<number>(k).fill(0), Array<number>(k).fill(0)];
  let [sum, counted] = [0, 0];
  for (let split = 0; split < splits; split++) {
    used.forEach((list, m) => {
      const half = Math.floor(list.length / 2);
      deal(list, 2 * half, random);
      first[m] = meanOf(Array.from(list.subarray(0, half)));
      second[m] = meanOf(Array.from(list.subarray(half, 2 * half)));
    });
    const r = sampleCorrelation(first, second);
    if (!Number.isFinite(r)) continue;
    sum += r;
    counted++;
  }
  return { k, perHalf, correlation: counted === 0 ? null : sum / counted };
}

/** Fisher and Yates' shuffle of the places that are used. */
function deal(list: Float64Array, used: number, random: () => number): void {
  for (let i = 0; i < used; i++) {
    const j = i + ((random() * (list.length - i)) | 0);
    [list[i], list[j]] = [list[j]!, list[i]!];
  }
}
