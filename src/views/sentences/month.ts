/** What a month's report says to a parent, in plain words. */
import { counted, listed } from "../../swing/words.ts";
import type { UnitSystem } from "../../units/system.ts";
import { rangeWords, shortName, valueWords } from "../words.ts";
import type { Said } from "./opening.ts";
import { weeksWords } from "./progress.ts";

/** What a hitter did in a span. */
export interface MonthWork {
  readonly hitter: string;
  readonly sessions: number;
  readonly tee: number;
  readonly flip: number;
  readonly live: number;
  /** Most swings in one session. */
  readonly most: number;
}

/**
 * What the child did, set large.
 * @example monthAnswer({ hitter: "Ivo S.", sessions: 8, tee: 100, flip: 0, live: 120, most: 40 }).text // "Ivo S. came to 8 sessions and took 220 swings."
 * @example monthAnswer({ hitter: "Ivo S.", sessions: 0, tee: 0, flip: 0, live: 0, most: 0 }).text // "Ivo S. has no swings in this time."
 */
export function monthAnswer(work: MonthWork): Said {
  const swings = work.tee + work.flip + work.live;
  const who = shortName(work.hitter);
  if (swings === 0) return { text: `${who} has no swings in this time.`, figure: "" };
  const figure = counted(swings, "swing");
  return { text: `${who} came to ${counted(work.sessions, "session")} and took ${figure}.`, figure };
}

/**
 * What was worked on, and how much at a time.
 * @example monthWorked({ hitter: "Ivo S.", sessions: 8, tee: 100, flip: 0, live: 120, most: 40 }) // "100 off the tee and 120 against live pitching, 40 at most in one session. How many are enough at this age is the coach's to say."
 * @example monthWorked({ hitter: "Ivo S.", sessions: 0, tee: 0, flip: 0, live: 0, most: 0 }) // null
 */
export function monthWorked({ tee, flip, live, most }: MonthWork): string | null {
  const kinds = [
    tee > 0 && `${tee} off the tee`,
    flip > 0 && `${flip} off flips`,
    live > 0 && `${live} against live pitching`,
  ].filter((kind) => kind !== false);
  return kinds.length === 0
    ? null
    : `${listed(kinds)}, ${most} at most in one session. How many are enough at this age is the coach's to say.`;
}

/**
 * What did not clearly change, said as it is.
 * @param changed lines that stand
 * @param looked lines that were looked at
 * @example monthSteady(0, 12, 4) // "Nothing has clearly changed in 4 weeks, and that is what most months look like: one evening differs from the next by more than a month's work shows. It doesn't mean that the work is lost."
 * @example monthSteady(2, 12, 4) // "Everything else stayed as it was, as far as 4 weeks can tell."
 * @example monthSteady(0, 0, 4) // "It is too early to tell whether anything changes: that takes a few more sessions of the same kind of work."
 */
export function monthSteady(changed: number, looked: number, weeks: number): string {
  if (looked === 0)
    return "It is too early to tell whether anything changes: that takes a few more sessions of the same kind of work.";
  const when = weeksWords(weeks);
  return changed === 0
    ? `Nothing has clearly changed in ${when}, and that is what most months look like: one evening differs from the next by more than a month's work shows. It doesn't mean that the work is lost.`
    : `Everything else stayed as it was, as far as ${when} can tell.`;
}

/** A ball to be proud of. */
export interface BestBall {
  readonly exit_velocity_mph: number;
  readonly carry_ft: number | null;
  readonly carry_low_ft: number | null;
  readonly carry_high_ft: number | null;
  readonly day: string | null;
}

/**
 * The hardest ball, with how far such balls carry.
 * @example bestSentence({ exit_velocity_mph: 81.2, carry_ft: 250, carry_low_ft: 238, carry_high_ft: 262, day: "2025-11-04" }, "us") // "The hardest ball left the bat at 81 mph, on 2025-11-04; eight of ten such balls would land at 238 to 262 ft, with nobody to catch them."
 * @example bestSentence(null, "us") // null
 */
export function bestSentence(ball: BestBall | null, system: UnitSystem): string | null {
  if (ball === null) return null;
  const { carry_low_ft: low, carry_high_ft: high, day } = ball;
  const far =
    low === null || high === null
      ? ""
      : `; eight of ten such balls would land at ${rangeWords(low, high, "ft", system)}, with nobody to catch them`;
  return `The hardest ball left the bat at ${valueWords(ball.exit_velocity_mph, "mph", system)}${day === null ? "" : `, on ${day}`}${far}.`;
}

/** What the numbers of a growing child mean, and what they don't. */
export const monthMeaning: readonly string[] = [
  "A child who grows swings faster, whatever was practised: a change here has no cause.",
  "A month is short. A good or a bad evening is an evening; look at a season before you make anything of it.",
  "Nothing here compares children. Each is followed against nobody else, and children of one age grow years apart.",
  "It is a record of what was hit, not a prediction of what will be.",
  "If anything hurts, stop, tell the coach, and see a licensed practitioner. More swings are not better.",
];
