/** What is said of live rounds: hitters against pitchers. */
import { counted } from "../../swing/words.ts";
import type { UnitName } from "../../units/index.ts";
import type { UnitSystem } from "../../units/system.ts";
import { rangeWords, shortName, valueWords } from "../words.ts";
import type { Said } from "./opening.ts";

interface Ranged {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A pair that stands, by one measure, as `src/season/liveRounds.ts` gives it. */
export interface ToldPair {
  readonly hitter: string;
  readonly pitcher: string;
  readonly stands: "harder" | "easier";
  readonly measure: "well_hit" | "misses" | "own_speed" | "power_kept";
  readonly unit: UnitName;
  readonly own: Ranged;
  readonly expected: number;
  readonly n: number;
  readonly sessions: number;
}

const digits = ({ unit }: Pick<ToldPair, "unit">): number => (unit === "share" ? 0 : 1);

const what: Readonly<Record<ToldPair["measure"], (value: string) => string>> = {
  well_hit: (value) => `clean or flush on ${value} of swings`,
  misses: (value) => `misses on ${value} of swings`,
  own_speed: (value) => `${value} of own exit velocity`,
  power_kept: (value) => `${value} of power kept`,
};

/**
 * A pair that stands, in a sentence.
 * @example pairSentence({ hitter: "Noa B.", pitcher: "Tamsin O.", stands: "harder", measure: "well_hit", unit: "share", own: { value: 0.16, low: 0.1, high: 0.24 }, expected: 0.34, n: 180, sessions: 12 }, "us") // "Noa B. has it harder against Tamsin O.: clean or flush on 16% of swings, where 34% would be expected."
 */
export function pairSentence(pair: ToldPair, system: UnitSystem): string {
  const of = (value: number): string => valueWords(value, pair.unit, system, digits(pair));
  return `${shortName(pair.hitter)} has it ${pair.stands} against ${shortName(pair.pitcher)}: ${what[pair.measure](of(pair.own.value))}, where ${of(pair.expected)} would be expected.`;
}

/**
 * What a pair's figure rests on.
 * @example pairBasis({ hitter: "Noa B.", pitcher: "Tamsin O.", stands: "harder", measure: "well_hit", unit: "share", own: { value: 0.16, low: 0.1, high: 0.24 }, expected: 0.34, n: 180, sessions: 12 }, "us") // "95%: 10 to 24%, n 180 in 12 sessions. Expected is what Noa B. does against others and others do against Tamsin O., added up."
 */
export function pairBasis(pair: ToldPair, system: UnitSystem): string {
  const range = rangeWords(pair.own.low, pair.own.high, pair.unit, system, digits(pair));
  return `95%: ${range}, n ${pair.n} in ${counted(pair.sessions, "session")}. Expected is what ${shortName(pair.hitter)} does against others and others do against ${shortName(pair.pitcher)}, added up.`;
}

/**
 * The answer of live rounds: the clearest pair, or that there is none.
 * @param standing the pairs that stand, the clearest first
 * @param looked lines that they were picked from
 * @example roundsAnswer([], 0, "us").text // "Too few swings to say who is hard on whom."
 * @example roundsAnswer([], 48, "us").text // "No pitcher is clearly harder, or easier, on any hitter than on the others."
 */
export function roundsAnswer(standing: readonly ToldPair[], looked: number, system: UnitSystem): Said {
  const [first] = standing;
  if (first !== undefined)
    return {
      text: pairSentence(first, system),
      figure: valueWords(first.own.value, first.unit, system, digits(first)),
    };
  return {
    text:
      looked === 0
        ? "Too few swings to say who is hard on whom."
        : "No pitcher is clearly harder, or easier, on any hitter than on the others.",
    figure: "",
  };
}

/**
 * How many pairs are too small, and how many lines a sentence was picked from.
 * @example roundsNote({ pairs: 12, enough: 10, looked: 40, fewest: 20, sessions: 3 }) // "2 of 12 pairs have too few swings to say anything: it takes 20 in 3 sessions. A pair is named only if it stands with all 40 lines looked at together, sessions counted."
 */
export function roundsNote(told: {
  readonly pairs: number;
  readonly enough: number;
  readonly looked: number;
  readonly fewest: number;
  readonly sessions: number;
}): string {
  const few = told.pairs - told.enough;
  const small =
    few === 0
      ? ""
      : `${few} of ${counted(told.pairs, "pair")} ${few === 1 ? "has" : "have"} too few swings to say anything: it takes ${told.fewest} in ${told.sessions} sessions.`;
  const picked =
    told.looked === 0
      ? ""
      : `A pair is named only if it stands with all ${told.looked} lines looked at together, sessions counted.`;
  return [small, picked].filter(Boolean).join(" ");
}

/**
 * Pitches that are in no pair.
 * @example outsideRounds(2, 1) // "2 readings in doubt are left out, and 1 pitch whose pitcher nobody wrote down."
 * @example outsideRounds(0, 0) // null
 */
export function outsideRounds(leftOut: number, withoutPitcher: number): string | null {
  const doubtful =
    leftOut === 0 ? [] : [`${counted(leftOut, "reading")} in doubt ${leftOut === 1 ? "is" : "are"} left out`];
  const unnamed =
    withoutPitcher === 0
      ? []
      : [
          `${counted(withoutPitcher, "pitch", "pitches")} whose pitcher nobody wrote down${doubtful.length > 0 ? "" : withoutPitcher === 1 ? " is left out" : " are left out"}`,
        ];
  const all = [...doubtful, ...unnamed].join(", and ");
  return all === "" ? null : `${all}.`;
}

/** What live rounds don't say of a pitcher. */
export const pitcherCaution =
  "What hitters did against a pitcher says nothing of how the pitcher is. How much somebody throws, and how long somebody rests, is for the local rules, the coach and licensed practitioners.";
