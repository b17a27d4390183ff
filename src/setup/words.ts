/** Setups in plain words: the same in the command, on the page and on paper. */
import { causes, errorBudget, type Budget, type BudgetMeasure, type Cause } from "./budget.ts";
import { placementSentence } from "../views/sentences/setup.ts";
import { signedNumber } from "../swing/words.ts";
import { straight, type Stand } from "../field/tracker.ts";
import { shownStep, signAfter, type UnitSystem } from "../units/system.ts";
import type { UnitName } from "../units/index.ts";
import { tolerances, type Tolerances } from "./tolerances.ts";

/** What each measure is called, and the unit and the decimals its bias is written in. */
export const measureWords: Readonly<Record<BudgetMeasure, { name: string; unit: UnitName; digits: number }>> =
  {
    exit_velocity_mph: { name: "Exit velocity", unit: "mph", digits: 1 },
    launch_angle_deg: { name: "Launch angle", unit: "deg", digits: 1 },
    spray_angle_deg: { name: "Spray angle", unit: "deg", digits: 1 },
    contact_ft: { name: "Contact point", unit: "in", digits: 1 },
    carry_ft: { name: "Carry", unit: "ft", digits: 0 },
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
 * A bias in its unit. A contact point is off by a length, without a sign, and shown in inches.
 * @example biasWords("launch_angle_deg", 1.54) // "+1.5°"
 * @example biasWords("contact_ft", 0.5) // "6.0 in"
 * @example biasWords("exit_velocity_mph", -1, "metric") // "−1.6 km/h"
 */
export function biasWords(measure: BudgetMeasure, value: number, units: UnitSystem = "us"): string {
  const { unit, digits } = measureWords[measure];
  const shown = shownStep(measure === "contact_ft" ? value * 12 : value, unit, units);
  return (
    (measure === "contact_ft" ? shown.toFixed(digits) : signedNumber(shown, digits)) + signAfter(unit, units)
  );
}

/**
 * What a measure reads, against the truth.
 * @example readsWords("carry_ft", -3) // "reads −3 ft"
 * @example readsWords("carry_ft", 0.2) // "reads right to half a foot"
 * @example readsWords("carry_ft", 0.02, "metric") // "reads right to half a metre"
 */
export function readsWords(measure: "carry_ft", value: number, units: UnitSystem = "us"): string {
  const words = biasWords(measure, value, units);
  return /^0/.test(words) ? `reads right to half a ${units === "us" ? "foot" : "metre"}` : `reads ${words}`;
}

/**
 * How far off a cause is, in its unit.
 * @example offWords("distance_ft", 0.5) // "+6.0 in"
 * @example offWords("offset_in", -2, "metric") // "−5.1 cm"
 */
export function offWords(cause: Cause, off: number, units: UnitSystem = "us"): string {
  const unit = cause === "distance_ft" || cause === "offset_in" ? "in" : "deg";
  const shown = shownStep(cause === "distance_ft" ? off * 12 : off, unit, units);
  return signedNumber(shown, 1) + signAfter(unit, units);
}

/** The verdict of a whole setup, in a sentence. */
export function verdictSentence({ verdict }: Pick<Budget, "verdict">): string {
  return placementSentence(verdict);
}

/**
 * The most that one cause may be off, either way, in its unit, while everything stays fine for a tracker that was told
 * this place.
 * @example fineLimit("tilt_deg", { distance_ft: 21.6, offset_in: 0 }).toFixed(1) // "0.4"
 */
export function fineLimit(cause: Cause, believed: Stand, table: Tolerances = tolerances): number {
  const placement = { ...believed, ...straight };
  const isFine = (off: number): boolean =>
    errorBudget({ ...placement, [cause]: placement[cause] + off }, { believed, tolerances: table })
      .verdict === "fine";
  let [low, high] = [0, 20];
  for (let step = 0; step < 30; step++) {
    const middle = (low + high) / 2;
    if (isFine(middle) && isFine(-middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** The limits of every cause, for a tracker that was told this place. */
export function fineLimits(believed: Stand, table: Tolerances = tolerances): Readonly<Record<Cause, number>> {
  return Object.fromEntries(causes.map((cause) => [cause, fineLimit(cause, believed, table)])) as Record<
    Cause,
    number
  >;
}
