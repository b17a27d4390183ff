/** What is said beside what changes a carry. */
import type { UnitSystem } from "../../units/system.ts";
import { ruleCarry_ft } from "../rules.ts";
import { valueWords } from "../words.ts";

/** A ball within so much of the rules' own is near it, ft. */
const near_ft = 40;

/**
 * Whether the rules in print are about such a ball.
 * @param carry_ft this ball's
 * @example rulesSentence(380, "us") // "The rules are about a ball of 400 ft, and this one is near that."
 * @example rulesSentence(0, "us") // "The rules are about a ball of 400 ft; this one carries 0 ft, so expect them to differ."
 */
export function rulesSentence(carry_ft: number, system: UnitSystem): string {
  const [here, rules] = [carry_ft, ruleCarry_ft].map((feet) => valueWords(feet, "ft", system));
  return Math.abs(Math.round(carry_ft) - ruleCarry_ft) <= near_ft
    ? `The rules are about a ball of ${rules}, and this one is near that.`
    : `The rules are about a ball of ${rules}; this one carries ${here}, so expect them to differ.`;
}
