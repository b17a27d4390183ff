/** Figures in plain words, in the units the reader chose. */
import { fixedNumber, signedNumber } from "../swing/words.ts";
import { noClearChange, type Difference } from "../stats/difference.ts";
import type { UnitName } from "../units/index.ts";
import { shownNumber, signAfter, type UnitSystem } from "../units/system.ts";

export type { UnitSystem } from "../units/system.ts";

/** Digits behind the point, by the size of the larger end. */
const digitsFor = (size: number): number => (size >= 1 ? 0 : size >= 0.1 ? 1 : 2);

/**
 * A name cut to what a sentence can carry.
 * @example shortName("Coach rounds") // "Coach rounds"
 * @example shortName("a".repeat(50)).length // 40
 */
export function shortName(name: string): string {
  const letters = [...name];
  return letters.length > 40 ? `${letters.slice(0, 39).join("")}…` : name;
}

/**
 * A value with its unit.
 * @param digits behind the point; whole numbers when not given
 * @example valueWords(88.4, "mph", "us") // "88 mph"
 * @example valueWords(-12.2, "deg", "us") // "−12°"
 */
export function valueWords(value: number | null, unit: UnitName, system: UnitSystem, digits = 0): string {
  if (value === null) return "unknown";
  return fixedNumber(shownNumber(value, unit, system), digits) + signAfter(unit, system);
}

/**
 * A low and a high, without their unit.
 * @example rangeNumbers(-3.4, 12, "deg", "us") // "−3 to 12"
 */
export function rangeNumbers(
  low: number,
  high: number,
  unit: UnitName,
  system: UnitSystem,
  digits = 0,
): string {
  return [low, high].map((v) => fixedNumber(shownNumber(v, unit, system), digits)).join(" to ");
}

/**
 * A low and a high with their unit.
 * @example rangeWords(80.2, 91.7, "mph", "us") // "80 to 92 mph"
 */
export function rangeWords(
  low: number,
  high: number,
  unit: UnitName,
  system: UnitSystem,
  digits = 0,
): string {
  return rangeNumbers(low, high, unit, system, digits) + signAfter(unit, system);
}

/**
 * A change in plain words: by how much, or that it could be chance.
 * @param unit of the difference, a unit without an offset
 * @example changeWords({ value: 3.4, low: 1.8, high: 5.1, reason: null }, "mph", "us") // "up by 2 to 5 mph"
 * @example changeWords({ value: -9, low: -12.3, high: -6, reason: null }, "deg", "us") // "down by 6 to 12°"
 * @example changeWords({ value: 1, low: -1, high: 3, reason: null }, "mph", "us") // "no clear change"
 * @example changeWords({ value: null, low: null, high: null, reason: "too few to compare: 0 and 4" }, "mph", "us") // "too few to compare: 0 and 4"
 */
export function changeWords(
  difference: Pick<Difference, "value" | "low" | "high" | "reason">,
  unit: UnitName,
  system: UnitSystem,
): string {
  const { low, high, reason } = difference;
  if (low === null || high === null) return reason ?? "no clear change";
  if (noClearChange(difference)) return "no clear change";
  const ends = [low, high].map((v) => Math.abs(shownNumber(v, unit, system))).sort((a, b) => a - b);
  const digits = digitsFor(ends[1]!);
  const [from, to] = ends.map((v) => v.toFixed(digits));
  const sign = unit === "share" ? " points" : signAfter(unit, system);
  const way = low > 0 ? "up" : "down";
  if (Number(from) === 0) return `${way} by ${to}${sign} at most`;
  return `${way} by ${from === to ? from : `${from} to ${to}`}${sign}`;
}

/**
 * A change with its sign; a share's in points. Nothing stands before a zero.
 * @example signedWords(3.14, "mph", "us") // "+3.1 mph"
 * @example signedWords(-0.204, "share", "us") // "−20 points"
 * @example signedWords(-0.004, "share", "us") // "0 points"
 * @example signedWords(null, "mph", "us") // "unknown"
 */
export function signedWords(value: number | null, unit: UnitName, system: UnitSystem = "us"): string {
  return signed(value, unit, system, digitsOfChange(unit));
}

function signed(value: number | null, unit: UnitName, system: UnitSystem, digits: number): string {
  if (value === null) return "unknown";
  const number = signedNumber(shownNumber(value, unit, system), digits);
  return number + (unit === "share" ? " points" : signAfter(unit, system));
}

/** Behind the point: a share in whole points, all else in tenths. */
const digitsOfChange = (unit: UnitName): number => (unit === "share" ? 0 : 1);

/** Whether whole points hide an interval: two of its three numbers read the same, or an end off zero reads as zero. */
function hidden(value: number, low: number, high: number, system: UnitSystem): boolean {
  const exact = [low, value, high].map((v) => shownNumber(v, "share", system));
  const whole = exact.map((v) => fixedNumber(v, 0));
  return (
    new Set(whole).size < new Set(exact).size ||
    exact.some((v, i) => i !== 1 && v !== 0 && fixedNumber(0, 0) === whole[i])
  );
}

/**
 * A change with its interval; a share's in tenths of a point where whole ones would hide the interval.
 * @example signedRange({ value: -7.7, low: -9.8, high: -5.5 }, "mph", "us") // "−7.7 mph (−9.8 to −5.5)"
 * @example signedRange({ value: 0.2, low: 0.1, high: 0.3 }, "share", "us") // "+20 points (10 to 30)"
 * @example signedRange({ value: -0.006, low: -0.011, high: -0.001 }, "share", "us") // "−0.6 points (−1.1 to −0.1)"
 */
export function signedRange(
  {
    value,
    low,
    high,
    reason = null,
  }: Pick<Difference, "value" | "low" | "high"> & { reason?: string | null },
  unit: UnitName,
  system: UnitSystem = "us",
): string {
  if (value === null) return reason ?? "unknown";
  if (low === null || high === null)
    return `${signedWords(value, unit, system)} (${reason ?? "no interval"})`;
  const digits = unit === "share" && hidden(value, low, high, system) ? 1 : digitsOfChange(unit);
  return `${signed(value, unit, system, digits)} (${rangeNumbers(low, high, unit, system, digits)})`;
}
