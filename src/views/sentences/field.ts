/** What is said of balls on a field that they were not hit on: estimates, and never more. */
import { counted } from "../../swing/words.ts";
import { shortName } from "../words.ts";
import type { Said } from "./opening.ts";

/** A total of chances. */
export interface FieldTold {
  readonly n: number;
  readonly safe: { readonly value: number; readonly low: number; readonly high: number };
}

/**
 * How many of a hitter's fair balls would have fallen in or gone over, as an estimate.
 * @example fieldAnswer("Ada K.", { n: 48, safe: { value: 17.4, low: 12, high: 22.8 } }).text // "On this field about 17 of Ada K.'s 48 fair balls would have fallen in or gone over: an estimate, 12 to 23 by chance alone."
 * @example fieldAnswer("Ada K.", { n: 0, safe: { value: 0, low: 0, high: 0 } }).text // "Ada K. has no fair ball with a direction here yet."
 */
export function fieldAnswer(hitter: string, { n, safe }: FieldTold): Said {
  const who = shortName(hitter);
  if (n === 0)
    return {
      text:
        who === "" ? "There is no fair ball here yet." : `${who} has no fair ball with a direction here yet.`,
      figure: "",
    };
  const figure = `about ${Math.round(safe.value)} of ${who}'s ${n}`;
  return {
    text: `On this field ${figure} fair ${n === 1 ? "ball" : "balls"} would have fallen in or gone over: an estimate, ${Math.round(safe.low)} to ${Math.round(safe.high)} by chance alone.`,
    figure,
  };
}

/**
 * What is not among the balls.
 * @example leftOutSentence({ foul: 2, left_out: 1 }) // "2 balls come down foul there and 1 swing has no direction or speed: in no figure here."
 * @example leftOutSentence({ foul: 0, left_out: 0 }) // null
 */
export function leftOutSentence({
  foul,
  left_out,
}: {
  readonly foul: number;
  readonly left_out: number;
}): string | null {
  const parts = [
    ...(foul > 0 ? [`${counted(foul, "ball")} ${foul === 1 ? "comes" : "come"} down foul there`] : []),
    ...(left_out > 0
      ? [`${counted(left_out, "swing")} ${left_out === 1 ? "has" : "have"} no direction or speed`]
      : []),
  ];
  return parts.length === 0 ? null : `${parts.join(" and ")}: in no figure here.`;
}

/** What an estimate of this kind is made of, and what it is not. */
export const fieldBasis =
  "Fielders stand where a table puts them and run as it says; nobody's own defence is known, and most of its figures are common practice without a source. A hitter swings otherwise at another ball: read it as what these balls would have been, and not as what comes of the next game.";
