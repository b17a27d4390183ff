/** What is said of how many swings a measure needs until it tells hitters apart. */
import { counted } from "../../swing/words.ts";

/** With fewer hitters there is nothing to tell apart. */
export const fewestHitters = 3;
/** With fewer values of a hitter, that hitter is left out. */
export const fewestSwings = 5;
/** Beyond so many swings a measure is said not to stabilize. */
export const neverStabilizes = 1000;

const untold = {
  same: "it is the same on every swing.",
  alike: "these hitters don't differ clearly beside their own swings, so nobody can say when it stabilizes.",
  days: "these hitters don't differ clearly beside their own days, so nobody can say when it stabilizes.",
  oneDay: "each hitter has one day of it, and a hitter can't be told from a day.",
} as const;

/** Why no number of swings is named. */
export type Untold = keyof typeof untold;

/**
 * A measure of which no number of swings can be named.
 * @example untoldSentence("Carry", "same") // "Carry: it is the same on every swing."
 */
export function untoldSentence(title: string, why: Untold): string {
  return `${title}: ${untold[why]}`;
}

/**
 * A measure that too few hitters have.
 * @param levels whether hitters' levels are known
 * @example fewHittersSentence("Carry", 1, true) // "Carry: 1 hitter has 5 swings or more; it takes 3 to tell apart."
 * @example fewHittersSentence("Carry", 4, true) // "Carry: 4 hitters have 5 swings or more, too few of them of one level to tell apart."
 */
export function fewHittersSentence(title: string, hitters: number, levels: boolean): string {
  const have = `${title}: ${counted(hitters, "hitter")} ${hitters === 1 ? "has" : "have"} ${fewestSwings} swings or more`;
  return hitters < fewestHitters || !levels
    ? `${have}; it takes ${fewestHitters} to tell apart.`
    : `${have}, too few of them of one level to tell apart.`;
}

/**
 * Who is compared with whom; null for all with all.
 * @param alone hitters who are the only ones of their level
 * @param unknown whether there are some whose level is unknown
 * @example comparedSentence(1, 0, true) // null
 * @example comparedSentence(2, 1, true) // "Hitters are compared with those of their own level, 2 levels (those whose level is unknown are taken as one); 1 alone at theirs left out."
 */
export function comparedSentence(levels: number, alone: number, unknown: boolean): string | null {
  if (levels === 1 && alone === 0) return null;
  const within =
    levels === 1
      ? "Hitters of one level are compared"
      : `Hitters are compared with those of their own level, ${levels} levels${unknown ? " (those whose level is unknown are taken as one)" : ""}`;
  return alone === 0 ? `${within}.` : `${within}; ${alone} alone at theirs left out.`;
}

/** Swings until a measure stabilizes, with the ends of its interval; null: beyond `neverStabilizes`, or open. */
export interface Needed {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * How many swings it takes.
 * @example stabilizesSentence("Carry", { value: 30, low: 12, high: 90 }) // "Carry: stabilizes after about 30 swings (12 to 90)."
 * @example stabilizesSentence("Carry", { value: 1, low: null, high: null }) // "Carry: stabilizes after about 1 swing (at least 1; how many at most can't be told)."
 */
export function stabilizesSentence(title: string, needed: Needed): string {
  if (needed.value === null)
    return `${title}: these hitters differ, but so little that more than ${neverStabilizes} swings wouldn't tell them apart.`;
  const range =
    needed.high === null
      ? `at least ${needed.low ?? 1}; how many at most can't be told`
      : `${needed.low ?? 1} to ${needed.high}`;
  return `${title}: stabilizes after about ${counted(needed.value, "swing")} (${range}).`;
}

/**
 * Lines as they are printed: where all of them say the same, one line says it of every measure.
 * @param lines each a measure's title, a colon and what is said of it
 * @example foldedLines(["Carry: 1 hitter has it.", "Launch angle: 1 hitter has it."]) // ["every measure: 1 hitter has it."]
 * @example foldedLines(["Carry: 1 hitter has it.", "Launch angle: 2 have it."]).length // 2
 */
export function foldedLines(lines: readonly string[]): string[] {
  const said = new Set(lines.map((line) => line.slice(line.indexOf(": ") + 2)));
  return lines.length > 1 && said.size === 1 ? [`every measure: ${[...said][0]}`] : [...lines];
}
