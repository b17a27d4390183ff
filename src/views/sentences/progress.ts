/** What is said of a season: what has changed, what hasn't, and how many more swings it takes to tell. */
import type { Input } from "../../swing/fields.ts";
import type { UnitName } from "../../units/index.ts";
import { shownNumber, signAfter, type UnitSystem } from "../../units/system.ts";
import { counted, listed } from "../../swing/words.ts";
import { shortName, signedRange } from "../words.ts";
import type { Said } from "./opening.ts";

/** What a sentence needs of a line over sessions. */
export interface ToldLine {
  readonly measure: string;
  readonly title: string;
  readonly unit: UnitName;
  readonly input: Input | null;
  readonly weeks: number;
  readonly change: {
    readonly value: number | null;
    readonly low: number | null;
    readonly high: number | null;
  };
  readonly verdict: "improving" | "declining" | "higher" | "lower" | null;
  readonly reason: string | null;
}

/**
 * How a kind of work is named in a sentence.
 * @example workWords("tee") // "off the tee"
 * @example workWords(null) // "in all work"
 */
export const workWords = (input: Input | null): string =>
  input === null ? "in all work" : { tee: "off the tee", flip: "off flips", live: "live" }[input];

/**
 * A span of weeks, in words.
 * @example weeksWords(5.4) // "5 weeks"
 * @example weeksWords(1.1) // "1 week"
 */
export const weeksWords = (weeks: number): string => counted(Math.max(1, Math.round(weeks)), "week");

/**
 * What a season came to for a group: who clearly changes, all lines of all hitters looked at together.
 * @param changed each hitter who does, with the change to be told first
 * @example seasonAnswer(5, [], "us").text // "Of 5 hitters none clearly changed."
 * @example seasonAnswer(0, [], "us").text // "There is no season here yet."
 * @example seasonAnswer(1, [{ hitter: "Ivo S.", line: { measure: "better_half_speed", title: "", unit: "mph", input: "tee", weeks: 11, change: { value: 4.6, low: 3, high: 6 }, verdict: "improving", reason: null } }], "us").text // "Of 1 hitter 1 clearly changed: Ivo S. hits harder off the tee, up 4.6 mph in 11 weeks."
 */
export function seasonAnswer(
  hitters: number,
  changed: readonly { readonly hitter: string; readonly line: ToldLine }[],
  system: UnitSystem,
): Said {
  const first = changed[0];
  if (hitters === 0) return { text: "There is no season here yet.", figure: "" };
  const of = `Of ${counted(hitters, "hitter")}`;
  if (first === undefined) return { text: `${of} none clearly changed.`, figure: "none" };
  const { text, figure } = changeSaid(shortName(first.hitter), first.line, system);
  const lead = changed.length > 1 ? ", first of all " : ": ";
  return {
    text: `${of} ${changed.length} clearly changed${lead}${text.replace(/: (up|down) /, ", $1 ")}`,
    figure,
  };
}

/** A size without its sign: "3.4 mph", "12 points". */
function sizeWords(value: number, unit: UnitName, system: UnitSystem): string {
  const number = Math.abs(shownNumber(value, unit, system)).toFixed(unit === "share" ? 0 : 1);
  return number + (unit === "share" ? " points" : signAfter(unit, system));
}

/**
 * The answer to "is anything changing": the change to be told first among those that stand, or that there is none.
 * @param hitter a name, none where nobody is chosen
 * @param standing the lines that stand with all of them looked at together, the first to be told first
 * @param looked lines with enough sessions that were looked at
 * @param fewest sessions of one kind of work that a change takes
 * @example progressAnswer("Ada K.", [], 12, { weeks: 5.4, fewest: 4 }, "us").text // "No clear change for Ada K. in 5 weeks."
 * @example progressAnswer("Ada K.", [], 0, { weeks: 0, fewest: 4 }, "us").text // "It is too early to see a change for Ada K.: that takes 4 dated sessions of one kind of work."
 * @example progressAnswer("", [], 0, { weeks: 0, fewest: 4 }, "us").text // "There is no hitter here yet."
 * @example progressAnswer("Ada K.", [{ measure: "better_half_speed", title: "", unit: "mph", input: "tee", weeks: 5, change: { value: 5.4, low: 4, high: 7 }, verdict: "improving", reason: null }], 12, { weeks: 5, fewest: 4 }, "us").text // "Ada K. hits harder off the tee: up 5.4 mph in 5 weeks."
 */
export function progressAnswer(
  hitter: string,
  standing: readonly ToldLine[],
  looked: number,
  span: { readonly weeks: number; readonly fewest: number },
  system: UnitSystem,
): Said {
  const who = shortName(hitter);
  const first = standing[0];
  if (first !== undefined) return changeSaid(who, first, system);
  if (hitter === "") return { text: "There is no hitter here yet.", figure: "no hitter" };
  if (looked === 0)
    return {
      text: `It is too early to see a change for ${who}: that takes ${span.fewest} dated sessions of one kind of work.`,
      figure: "too early",
    };
  return { text: `No clear change for ${who} in ${weeksWords(span.weeks)}.`, figure: "No clear change" };
}

function changeSaid(who: string, line: ToldLine, system: UnitSystem): Said {
  const { value } = line.change;
  const up = value! > 0;
  const size = `${up ? "up" : "down"} ${sizeWords(value!, line.unit, system)}`;
  const where = workWords(line.input);
  const when = `in ${weeksWords(line.weeks)}`;
  if (line.measure === "better_half_speed")
    return { text: `${who} hits ${up ? "harder" : "softer"} ${where}: ${size} ${when}.`, figure: size };
  return { text: `${who}, ${where}: ${lower(line.title)} ${size} ${when}.`, figure: size };
}

const lower = (title: string): string => title[0]!.toLowerCase() + title.slice(1);

/**
 * One change that stands, as a line of a list; null for a line that doesn't.
 * @example standingSentence({ measure: "well_hit", title: "Clean or flush", unit: "share", input: "live", weeks: 11, change: { value: 0.2, low: 0.1, high: 0.3 }, verdict: "improving", reason: null }, "us") // "Clean or flush, live: +20 points (10 to 30) in 11 weeks, better."
 */
export function standingSentence(line: ToldLine, system: UnitSystem): string | null {
  if (line.verdict === null) return null;
  const better = { improving: ", better", declining: ", worse", higher: "", lower: "" }[line.verdict];
  return `${line.title}, ${workWords(line.input)}: ${signedRange(line.change, line.unit, system)} in ${weeksWords(line.weeks)}${better}.`;
}

/**
 * What a line over sessions comes to, above its picture.
 * @example panelSaid({ unit: "mph", weeks: 5.4, change: { value: 5.4, low: 4, high: 7 }, marked: true, stands: true, reason: null }, "us") // "+5.4 mph (4.0 to 7.0) in 5 weeks"
 * @example panelSaid({ unit: "mph", weeks: 4, change: { value: 1.9, low: 0.3, high: 3.5 }, marked: true, stands: false, reason: null }, "us") // "+1.9 mph (0.3 to 3.5), no clear change among all the lines"
 * @example panelSaid({ unit: "mph", weeks: 5.4, change: { value: 0.4, low: -1, high: 2 }, marked: false, stands: false, reason: null }, "us") // "no clear change, +0.4 mph (−1.0 to 2.0)"
 */
export function panelSaid(
  line: Pick<ToldLine, "unit" | "weeks" | "change" | "reason"> & {
    /** Whether its interval excludes 0 by itself, and whether it does with all lines looked at together. */
    readonly marked: boolean;
    readonly stands: boolean;
  },
  system: UnitSystem,
): string {
  if (line.change.value === null) return line.reason ?? "no trend";
  const range = signedRange(line.change, line.unit, system);
  if (line.stands) return `${range} in ${weeksWords(line.weeks)}`;
  return line.marked ? `${range}, no clear change among all the lines` : `no clear change, ${range}`;
}

/**
 * What to know of a table of lines over sessions: how many were looked at, and what stands.
 * @example seasonNote(14, 0) // "No line stands out once all 14 are looked at together (Holm, exit velocity of the better half having four fifths of the chance), so none is put into a sentence."
 * @example seasonNote(0, 0) // null
 */
export function seasonNote(looked: number, standing: number): string | null {
  if (looked === 0) return null;
  const how = "(Holm, exit velocity of the better half having four fifths of the chance)";
  return standing === 0
    ? `No line stands out once all ${looked} are looked at together ${how}, so none is put into a sentence.`
    : `${standing} of ${counted(looked, "line")} ${standing === 1 ? "stands" : "stand"} out with all of them looked at together ${how}.`;
}

/**
 * Whether the steadier of two lines says the same of a change that stands; null where nothing stands.
 * @example secondOpinion({ value: 5, low: 3, high: 7 }, { value: 4.8, low: 2, high: 7 }, "mph", "us") // "The median of the slopes between any two sessions says the same: +4.8 mph (2.0 to 7.0)."
 * @example secondOpinion({ value: 5, low: 3, high: 7 }, { value: 0.5, low: -2, high: 7 }, "mph", "us") // "The median of the slopes between any two sessions is less sure: +0.5 mph (−2.0 to 7.0)."
 */
export function secondOpinion(
  change: ToldLine["change"],
  second: ToldLine["change"],
  unit: UnitName,
  system: UnitSystem,
): string | null {
  if (change.value === null || second.value === null) return null;
  const agrees =
    second.low !== null && second.high !== null && (change.value > 0 ? second.low > 0 : second.high < 0);
  return `The median of the slopes between any two sessions ${agrees ? "says the same" : "is less sure"}: ${signedRange(second, unit, system)}.`;
}

/**
 * What of a season is in no line; null where all of it is.
 * @example outsideSentence(2, ["x"]) // "2 readings in doubt are left out. Without a date, and so in no line: “x”."
 * @example outsideSentence(0, []) // null
 */
export function outsideSentence(leftOut: number, withoutDate: readonly string[]): string | null {
  const parts = [
    ...(leftOut > 0
      ? [`${leftOut} ${leftOut === 1 ? "reading in doubt is" : "readings in doubt are"} left out.`]
      : []),
    ...(withoutDate.length > 0
      ? [
          `Without a date, and so in no line: ${listed(withoutDate.slice(0, 3).map((s) => `“${shortName(s)}”`))}${withoutDate.length > 3 ? ` and ${withoutDate.length - 3} more` : ""}.`,
        ]
      : []),
  ];
  return parts.length === 0 ? null : parts.join(" ");
}

/** What a plan says. */
export interface ToldPlan {
  readonly input: Input | null;
  readonly title: string;
  readonly unit: UnitName;
  readonly change: number;
  readonly swings: number;
  readonly eachSide: number | null;
  readonly there: number;
  readonly more: number | null;
}

/**
 * How many more swings it takes to see a change.
 * @example planSentence({ input: "tee", title: "Exit velocity, better half", unit: "mph", change: 2, swings: 25, eachSide: 4, there: 8, more: 3 }, "us") // "To see a change of 2.0 mph off the tee, with 80% chance: 4 sessions of 25 swings on each side; after the 8 that are there, 3 more."
 * @example planSentence({ input: "live", title: "Clean or flush", unit: "share", change: 0.15, swings: 8, eachSide: null, there: 2, more: null }, "us") // "A change of 15 points live can't be seen with 60 sessions of 8 swings on each side: hit more balls a session, or ask about a larger one."
 */
export function planSentence(
  { input, unit, change, swings, eachSide, there, more }: ToldPlan,
  system: UnitSystem,
): string {
  const size = sizeWords(change, unit, system);
  if (eachSide === null)
    return `A change of ${size} ${workWords(input)} can't be seen with 60 sessions of ${counted(swings, "swing")} on each side: hit more balls a session, or ask about a larger one.`;
  const after =
    there === 0
      ? ""
      : more === null
        ? `; the ${counted(there, "session")} there ${there === 1 ? "is" : "are"} too few to be one side of it`
        : `; after the ${there} that ${there === 1 ? "is" : "are"} there, ${more} more`;
  return `To see a change of ${size} ${workWords(input)}, with 80% chance: ${counted(eachSide, "session")} of ${counted(swings, "swing")} on each side${after}.`;
}
