/** What is said of a hitter's timing. */
import { noClearChange } from "../../stats/difference.ts";
import type { Estimate } from "../../stats/estimate.ts";
import { counted } from "../../swing/words.ts";

/**
 * Said where too few tee balls tell where this hitter meets a ball on time.
 * @example noPatternSentence(10) // "It takes 10 tee balls with a contact point to say what is early and what late."
 */
export function noPatternSentence(fewest: number): string {
  return `It takes ${fewest} tee balls with a contact point to say what is early and what late.`;
}

/**
 * Balls left out of timing; null for none.
 * @example unplacedSentence(2, 66, "live") // "2 of 66 live balls have no contact point."
 * @example unplacedSentence(1, 1, "flip") // "1 of 1 flip ball has no contact point."
 * @example unplacedSentence(0, 66, "live") // null
 */
export function unplacedSentence(unplaced: number, of: number, input: "flip" | "live"): string | null {
  if (unplaced === 0) return null;
  return `${unplaced} of ${counted(of, `${input} ball`)} ${unplaced === 1 ? "has" : "have"} no contact point.`;
}

/**
 * Balls without a time; null for none.
 * @example untimedSentence(1, 64) // "1 of 64 has no pitch speed, and so no time in ms."
 * @example untimedSentence(64, 64) // "64 of 64 have no pitch speed, and so no time in ms."
 * @example untimedSentence(0, 64) // null
 */
export function untimedSentence(untimed: number, of: number): string | null {
  if (untimed === 0) return null;
  return `${untimed} of ${of} ${untimed === 1 ? "has" : "have"} no pitch speed, and so no time in ms.`;
}

/** Said where bat speed was never measured. */
export const noBatSpeedSentence =
  "No bat speed was measured: times are worked out from what the hardest tee balls need.";

/** What is known of how early a hitter is. */
export interface EarlyTold {
  readonly early: { readonly count: number };
  readonly on_time: { readonly count: number };
  readonly late: { readonly count: number };
  readonly early_ms: Pick<Estimate, "value" | "low" | "high">;
  readonly spread_ms: Pick<Estimate, "value">;
  readonly n: number;
}

/** "0.8 ms early", with no side named where it rounds to nothing. */
function earlyWords(value: number): string {
  const ms = Math.abs(value).toFixed(1);
  if (Number(ms) === 0) return "on time to a tenth of a millisecond";
  return `${ms} ms ${value < 0 ? "late" : "early"}`;
}

/**
 * What a hitter does as a rule, for a figure's name: a side only where it is clear.
 * @example ruleWords({ value: 4, low: 1, high: 7 }) // "Early as a rule by"
 * @example ruleWords({ value: -4, low: -7, high: -1 }) // "Late as a rule by"
 * @example ruleWords({ value: 1, low: -1, high: 3 }) // "On average, neither clearly early nor late"
 * @example ruleWords({ value: null, low: null, high: null }) // "Early or late on average"
 */
export function ruleWords(early: EarlyTold["early_ms"]): string {
  if (early.value === null) return "Early or late on average";
  if (noClearChange(early)) return "On average, neither clearly early nor late";
  return early.value < 0 ? "Late as a rule by" : "Early as a rule by";
}

/**
 * Timing in one sentence; null where nothing can be said.
 * @example timingSentence("live", { early: { count: 9 }, on_time: { count: 48 }, late: { count: 7 }, early_ms: { value: 0.8, low: -2, high: 3 }, spread_ms: { value: 10 }, n: 64 }) // "Timing, live: early 9, on time 48, late 7 of 64; 0.8 ms early on average, which could be chance, and varying by 10 ms."
 * @example timingSentence("flip", { early: { count: 0 }, on_time: { count: 1 }, late: { count: 0 }, early_ms: { value: 0, low: null, high: null }, spread_ms: { value: null }, n: 1 }) // "Timing, flip: early 0, on time 1, late 0 of 1; on time to a tenth of a millisecond on average."
 */
export function timingSentence(input: "flip" | "live", told: EarlyTold): string | null {
  const { early, on_time, late, early_ms, spread_ms, n } = told;
  if (n === 0) return null;
  const counts = `Timing, ${input}: early ${early.count}, on time ${on_time.count}, late ${late.count} of ${n}`;
  if (early_ms.value === null) return `${counts}.`;
  const sure = early_ms.low !== null && noClearChange(early_ms) ? ", which could be chance" : "";
  const varies =
    spread_ms.value === null
      ? ""
      : `${sure === "" ? "" : ","} and varying by ${spread_ms.value.toFixed(0)} ms`;
  return `${counts}; ${earlyWords(early_ms.value)} on average${sure}${varies}.`;
}
