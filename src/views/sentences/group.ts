/** What is said of a gap across hitters. */
import type { UnitName } from "../../units/index.ts";
import type { UnitSystem } from "../../units/system.ts";
import { noClearChange } from "../../stats/difference.ts";
import { counted } from "../../swing/words.ts";
import { gapWords, measureWords, type Works } from "./gap.ts";

const at = { tee: "off the tee", flip: "on flips", live: "live" } as const;

/** What is known of the group. */
export interface GroupTold {
  readonly title: string;
  readonly unit: UnitName;
  /** Hitters who are in the group's mean. */
  readonly k: number;
  readonly mean: { readonly value: number; readonly low: number; readonly high: number } | null;
}

/**
 * The group's mean in a sentence.
 * @example groupSentence({ title: "Carry, mean", unit: "ft", k: 0, mean: null }, { from: "tee", to: "live" }) // "Carry, mean: fewer than two hitters have enough swings of both kinds to be compared."
 * @example groupSentence({ title: "Carry, mean", unit: "ft", k: 8, mean: { value: -20, low: -30, high: -10 } }, { from: "tee", to: "live" }) // "In the mean of 8 hitters, mean carry is lower by 10 to 30 ft live than off the tee."
 * @example groupSentence({ title: "Carry, mean", unit: "ft", k: 8, mean: { value: -2, low: -30, high: 10 } }, { from: "tee", to: "live" }) // "In the mean of 8 hitters, no clear difference in mean carry between off the tee and live."
 */
export function groupSentence(
  { title, unit, k, mean }: GroupTold,
  { from, to }: Works,
  system: UnitSystem = "us",
): string {
  if (mean === null)
    return `${title}: fewer than two hitters have enough swings of both kinds to be compared.`;
  const what = measureWords(title);
  const told = { ...mean, reason: null };
  return noClearChange(told)
    ? `In the mean of ${counted(k, "hitter")}, no clear difference in ${what} between ${at[from]} and ${at[to]}.`
    : `In the mean of ${counted(k, "hitter")}, ${what} is ${gapWords(told, unit, system)} ${at[to]} than ${at[from]}.`;
}

/** Said where the hitters' gaps are as alike as chance has them. */
export const noDifferenceSentence =
  "The hitters differ no more than chance would have it: each is pooled far toward the group's mean.";

/** Said where there is no group. */
export const noGroupSentence =
  "Fewer than two hitters have an interval: there is no group to pool anyone toward.";

/**
 * What the list may be read as: which pairs of hitters differ, all pairs looked at together.
 * @example orderSentence({ clear: 0, all: 28 }) // "No two of the hitters clearly differ, with all 28 pairs looked at together (Holm): read no order into the list."
 * @example orderSentence({ clear: 0, all: 1 }) // "The two hitters don't clearly differ: read no order into the list."
 * @example orderSentence({ clear: 1, all: 1 }) // "The two hitters clearly differ."
 * @example orderSentence({ clear: 3, all: 28 }) // "3 of the 28 pairs of hitters clearly differ, with all of them looked at together (Holm); the others could stand in either order."
 * @example orderSentence({ clear: 28, all: 28 }) // "All 28 pairs of hitters clearly differ, with all of them looked at together (Holm)."
 * @example orderSentence({ clear: 0, all: 0 }) // null
 */
export function orderSentence({
  clear,
  all,
}: {
  readonly clear: number;
  readonly all: number;
}): string | null {
  if (all === 0) return null;
  if (all === 1)
    return clear === 1
      ? "The two hitters clearly differ."
      : "The two hitters don't clearly differ: read no order into the list.";
  if (clear === 0)
    return `No two of the hitters clearly differ, with all ${all} pairs looked at together (Holm): read no order into the list.`;
  if (clear === all)
    return `All ${all} pairs of hitters clearly differ, with all of them looked at together (Holm).`;
  return `${clear} of the ${all} pairs of hitters clearly ${clear === 1 ? "differs" : "differ"}, with all of them looked at together (Holm); the others could stand in either order.`;
}

/**
 * Hitters with too few swings for a place in the order; null for none.
 * @example tooFewToRankSentence(["Ada", "Ben"]) // "Too few swings to rank: Ada, Ben."
 * @example tooFewToRankSentence([]) // null
 */
export function tooFewToRankSentence(names: readonly string[]): string | null {
  return names.length === 0 ? null : `Too few swings to rank: ${names.join(", ")}.`;
}
