/** What can't be said of days, where figures rest on very few of them: one place for pages, reports and commands. */
import type { Input } from "../../swing/fields.ts";
import { capital, listed } from "../../swing/words.ts";

/** Days that give an interval, but can't tell how much days differ. */
const tooFewDays = 2;

/** A kind of work, and the sessions that its figures rest on. */
export interface Days {
  readonly input: Input;
  readonly sessions: number;
}

/**
 * Kinds of work whose figures rest on two days: their intervals cover the truth, and are wider than asked (97 to 100 times
 * in 100, data/gap-coverage.json); null where none does.
 * @example fewDaysSentence([{ input: "tee", sessions: 2 }, { input: "live", sessions: 5 }]) // "Tee work is of two days: too few to tell how much days differ, so its ranges are wider than more days would make them."
 * @example fewDaysSentence([{ input: "tee", sessions: 2 }, { input: "live", sessions: 2 }]) // "Tee and live work are of two days each: too few to tell how much days differ, so their ranges are wider than more days would make them."
 * @example fewDaysSentence([{ input: "tee", sessions: 1 }]) // null
 */
export function fewDaysSentence(works: readonly Days[]): string | null {
  const few = works.filter(({ sessions }) => sessions === tooFewDays).map(({ input }) => input);
  if (few.length === 0) return null;
  const [are, their] = few.length === 1 ? ["is of two days", "its"] : ["are of two days each", "their"];
  return `${capital(listed(few))} work ${are}: too few to tell how much days differ, so ${their} ranges are wider than more days would make them.`;
}

/** Said where a side has one session. */
export const oneSessionSentence =
  "One session on a side: the intervals know how swings differ and not how days do.";
