/** Setups in plain words: the same in the command, on the page and on paper. */
import {
  causes,
  errorBudget,
  type Budget,
  type BudgetMeasure,
  type Cause,
  type Tolerance,
} from "./budget.ts";
import { straight, usualStand } from "../field/tracker.ts";
import { tolerances, type Tolerances } from "./tolerances.ts";

/** What each measure is called, and how its bias is written. */
export const measureWords: Readonly<Record<BudgetMeasure, { name: string; unit: string; digits: number }>> = {
  exit_velocity_mph: { name: "Exit velocity", unit: " mph", digits: 1 },
  launch_angle_deg: { name: "Launch angle", unit: "°", digits: 1 },
  spray_angle_deg: { name: "Spray angle", unit: "°", digits: 1 },
  contact_ft: { name: "Contact place", unit: " in", digits: 1 },
  carry_ft: { name: "Carry", unit: " ft", digits: 0 },
};

/** What each cause is called. */
export const causeWords: Readonly<Record<Cause, string>> = {
  distance_ft: "Distance",
  offset_in: "Offset",
  yaw_deg: "Turn",
  tilt_deg: "Tilt",
  roll_deg: "Lean",
};

/**
 * A number with its sign, a minus as a minus; nothing before a zero.
 * @example signedNumber(-0.26, 1) // "−0.3"
 * @example signedNumber(0.01, 1) // "0.0"
 */
export function signedNumber(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? "−" : "+"}${text}`;
}

/**
 * A bias in its unit. A contact place is off by a length, without a sign, and shown in inches.
 * @example biasWords("launch_angle_deg", 1.54) // "+1.5°"
 * @example biasWords("contact_ft", 0.5) // "6.0 in"
 */
export function biasWords(measure: BudgetMeasure, value: number): string {
  const { unit, digits } = measureWords[measure];
  if (measure === "contact_ft") return `${(value * 12).toFixed(digits)}${unit}`;
  return `${signedNumber(value, digits)}${unit}`;
}

/**
 * How far off a cause is, in its unit.
 * @example offWords("distance_ft", 0.5) // "+6.0 in"
 */
export function offWords(cause: Cause, off: number): string {
  if (cause === "distance_ft") return `${signedNumber(off * 12, 1)} in`;
  return cause === "offset_in" ? `${signedNumber(off, 1)} in` : `${signedNumber(off, 1)}°`;
}

const verdictWords: Readonly<Record<Tolerance, string>> = {
  fine: "Fine: no number is off by more than a tracker's own error.",
  "tighten it": "Tighten it: the numbers can be used, and a few minutes make them better.",
  "redo it": "Redo it: the numbers would be off by more than what you want to see in them.",
};

/** The verdict of a whole setup, in a sentence. */
export function verdictSentence({ verdict }: Pick<Budget, "verdict">): string {
  return verdictWords[verdict];
}

/**
 * The most that one cause may be off, in its unit, while everything stays fine.
 * @example fineLimit("tilt_deg").toFixed(1) // "0.4"
 */
export function fineLimit(cause: Cause, table: Tolerances = tolerances): number {
  let [low, high] = [0, 20];
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    const placement = { ...usualStand, ...straight };
    const off = { ...placement, [cause]: placement[cause] + middle };
    if (errorBudget(off, { tolerances: table }).verdict === "fine") low = middle;
    else high = middle;
  }
  return low;
}

/** The limits of every cause. */
export function fineLimits(table: Tolerances = tolerances): Readonly<Record<Cause, number>> {
  return Object.fromEntries(causes.map((cause) => [cause, fineLimit(cause, table)])) as Record<Cause, number>;
}
