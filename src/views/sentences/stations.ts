/** What stands on a printed plan of stations. */
import { counted } from "../../swing/words.ts";

/**
 * How many swings, in what rounds.
 * @example swingsWords(25, [9, 8, 8]) // "25 swings: rounds of 9, 8, 8"
 * @example swingsWords(10, [10]) // "10 swings in one round"
 */
export function swingsWords(swings: number, rounds: readonly number[]): string {
  return rounds.length === 1
    ? `${counted(swings, "swing")} in one round`
    : `${counted(swings, "swing")}: rounds of ${rounds.join(", ")}`;
}

/** Said beside a hitter for whom nothing stands. */
export const noNeedHere = "nothing clear: the drill swung at least";

/** Said where there is no drill with a window. */
export const noDrillsSentence = "No drill with a window is in targets.csv, so there is no station to plan.";

/** What a plan is, and whose it is. */
export const planBasis =
  "Drawn from what is clear and from where drills' balls were met; move the names as you see fit. The count is the coach's: it is a most, and a round stops when the swing falls apart.";
