/** What is said of a fair trial of two ways: beforehand, on the way, and at its end. */
import { counted, listed } from "../../swing/words.ts";
import type { UnitSystem } from "../../units/system.ts";
import { shortName, signedRange } from "../words.ts";

interface Ranged {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** A trial as it is told. */
export interface ToldTrial {
  readonly trial: string;
  readonly arms: readonly [string, string];
  readonly measure: "better_half_speed" | "well_hit";
  readonly blocks: readonly unknown[];
  readonly planned: number;
  readonly sessions: number;
  readonly hitters: number;
  readonly difference: Ranged;
  readonly p: number;
  readonly exact: boolean;
  readonly ended: boolean;
  readonly clear: boolean;
  readonly wider: number;
}

/**
 * Said while there is no difference to give.
 * @example noBlockSentence("Two bats") // "Two bats: no block of one round each is complete yet."
 */
export const noBlockSentence = (trial: string): string =>
  `${shortName(trial)}: no block of one round each is complete yet.`;

/**
 * What a fair trial came to.
 * @example trialSentence({ trial: "Two bats", arms: ["long", "short"], measure: "better_half_speed", blocks: [], planned: 24, sessions: 0, hitters: 1, difference: { value: null, low: null, high: null }, p: 1, exact: true, ended: false, clear: false, wider: Infinity }, "us") // "Two bats: no block of one round each is complete yet."
 */
export function trialSentence(told: ToldTrial, system: UnitSystem): string {
  const { trial, arms, difference, blocks, clear } = told;
  if (difference.value === null) return noBlockSentence(trial);
  const unit = told.measure === "well_hit" ? "share" : "mph";
  const what = told.measure === "well_hit" ? "clean or flush" : "exit velocity of the better half";
  const range = signedRange(difference, unit, system);
  const over = `${counted(blocks.length, "block")} in ${counted(told.sessions, "session")}${told.hitters > 1 ? `, ${told.hitters} hitters` : ""}`;
  const chance = `p ${told.p < 0.001 ? "under 0.001" : `${told.exact ? "" : "about "}${told.p.toFixed(3)}`} by the coins that gave the order`;
  const [first, second] = arms.map((arm) => `“${shortName(arm)}”`);
  return clear
    ? `${shortName(trial)}: ${what} is ${difference.value > 0 ? "higher" : "lower"} with ${second} than with ${first}, ${range}; ${over}, ${chance}.`
    : `${shortName(trial)}: no clear difference between ${first} and ${second}, ${range} of ${what}; ${over}, ${chance}.`;
}

/**
 * What stopping early, or looking early, costs; null at the planned end.
 * @example earlySentence({ blocks: [1, 2, 3, 4, 5, 6], planned: 24, ended: false, wider: 2 }) // "6 of 24 blocks are done. Stopped here, the interval is about 2.0 times as wide as planned; and as looking early and often finds chance differences, nothing is called clear before the end but at 1 in 1,000."
 * @example earlySentence({ blocks: [1], planned: 1, ended: true, wider: 1 }) // null
 */
export function earlySentence({
  blocks,
  planned,
  ended,
  wider,
}: Pick<ToldTrial, "blocks" | "planned" | "ended" | "wider">): string | null {
  if (ended) return null;
  const width = Number.isFinite(wider)
    ? ` Stopped here, the interval is about ${wider.toFixed(1)} times as wide as planned; and as`
    : " As";
  return `${blocks.length} of ${counted(planned, "block")} are done.${width} looking early and often finds chance differences, nothing is called clear before the end but at 1 in 1,000.`;
}

/**
 * How many rounds a trial takes, beforehand.
 * @example roundsSentence(52, 6, "2.0 mph") // "To see a difference of 2.0 mph with 80% chance: 52 rounds of 6 swings, 26 of each."
 * @example roundsSentence(null, 6, "0.1 mph") // "A difference of 0.1 mph takes more than 400 rounds of 6 swings: make rounds longer, or ask about a larger one."
 */
export function roundsSentence(rounds: number | null, swings: number, change: string): string {
  return rounds === null
    ? `A difference of ${change} takes more than 400 rounds of ${counted(swings, "swing")}: make rounds longer, or ask about a larger one.`
    : `To see a difference of ${change} with 80% chance: ${rounds} rounds of ${counted(swings, "swing")}, ${rounds / 2} of each.`;
}

/**
 * Rounds of each hitter, where several take part.
 * @example sharedSentence(26, 10, 3) // "Over 3 hitters: 10 rounds each, 30 in all."
 * @example sharedSentence(26, 26, 1) // null
 */
export const sharedSentence = (needed: number, each: number, hitters: number): string | null =>
  hitters < 2 || needed === each
    ? null
    : `Over ${counted(hitters, "hitter")}: ${counted(each, "round")} each, ${each * hitters} in all.`;

/** Said where nobody's spreads are known. */
export const spreadUnknown =
  "No hitter has tee work to tell by how many rounds it takes: write them in yourself.";

/** What keeps a plan from being a trial, as the fields are called on the page. */
const troubles = {
  "no name": "Give the trial a name.",
  "two ways": "Name two ways that differ: two drills, two tee heights, two bats.",
  unreadable: "A way’s name can’t have a colon and a space in it: the drill’s name is read by them.",
  "no hitter": "Say who hits.",
  "many hitters": "So many hitters are no one trial: 30 at most.",
  swings: "A round has a whole number of swings, 2 to 60.",
  change: "The difference to be seen is a number, 0.1 to 30 mph.",
  rounds: "Rounds are an even number, one of each way a block: 2 to 400.",
  seed: "The link’s seed is no whole number: without it the order is another.",
} as const;

/**
 * Why a plan can't be run yet.
 * @example trialTroubleSentence("no hitter") // "Say who hits."
 */
export const trialTroubleSentence = (trouble: keyof typeof troubles): string => troubles[trouble];

/** How a round may stand. */
export interface ToldRound {
  readonly round: number;
  readonly arm: string;
  readonly n: number;
  readonly state: "open" | "begun" | "short" | "done";
}

/**
 * How far a round is, beside its name.
 * @example roundStateWords({ round: 3, arm: "wood", n: 4, state: "begun" }, 6) // "begun, 4 of 6 swings"
 * @example roundStateWords({ round: 4, arm: "metal", n: 0, state: "open" }, 6) // ""
 */
export function roundStateWords({ n, state }: ToldRound, swings: number): string {
  const of = `${n} of ${counted(swings, "swing")}`;
  if (state === "open") return "";
  return state === "begun"
    ? `begun, ${of}`
    : state === "short"
      ? `done, ${of}`
      : `done, ${counted(n, "swing")}`;
}

/**
 * How far a hitter is.
 * @example wayWords({ done: 3, of: 26 }) // "3 of 26 rounds done"
 */
export const wayWords = ({ done, of }: { readonly done: number; readonly of: number }): string =>
  `${done} of ${counted(of, "round")} done`;

/**
 * The round to be hit now.
 * @example nextRoundWords({ round: 4, arm: "metal", n: 2, state: "begun" }, 6) // "Next: round 4, metal (begun, 2 of 6 swings)"
 */
export function nextRoundWords(round: ToldRound, swings: number): string {
  const state = roundStateWords(round, swings);
  return `Next: round ${round.round}, ${shortName(round.arm)}${state === "" ? "" : ` (${state})`}`;
}

/**
 * What stands in the cage of a trial's round.
 * @param swings planned for it; null where the plan is not at hand
 * @example roundHere({ round: 3, of: 24, arm: "wood" }, 4, 6) // "Round 3 of 24, wood: 4 of 6 swings kept."
 * @example roundHere({ round: 3, of: 24, arm: "wood" }, 4, null) // "Round 3 of 24, wood: 4 swings kept."
 */
export function roundHere(
  { round, of, arm }: { readonly round: number; readonly of: number; readonly arm: string },
  n: number,
  swings: number | null,
): string {
  const kept = swings === null ? counted(n, "swing") : `${n} of ${counted(swings, "swing")}`;
  return `Round ${round} of ${of}, ${shortName(arm)}: ${kept} kept.`;
}

/**
 * Rounds whose swings lie in two sessions; null without any.
 * @example splitRoundsSentence([{ hitter: "Rui C.", round: 3 }]) // "In no block, as hit in two sessions: round 3 (Rui C.)."
 * @example splitRoundsSentence([]) // null
 */
export function splitRoundsSentence(
  rounds: readonly { readonly hitter: string; readonly round: number }[],
): string | null {
  if (rounds.length === 0) return null;
  const named = rounds.slice(0, 4).map(({ hitter, round }) => `round ${round} (${shortName(hitter)})`);
  const more = rounds.length - named.length;
  return `In no block, as hit in two sessions: ${listed([...named, ...(more > 0 ? [`${more} more`] : [])])}.`;
}

/** How a trial is run, beside its order. */
export const trialRules =
  "A coin gave the order: keep to it, whatever the day, and end a session after a whole block. Balls tapped in “In the cage” carry the round’s name; a tracker’s file has to carry it in its drill column, letter by letter.";

/** Said where no swing is of a trial. */
export const noTrialSentence = "No swing here is of a fair trial yet.";
