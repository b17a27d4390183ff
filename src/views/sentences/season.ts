/** What is said of work within a session, and of a fair trial of two ways. */
import type { Input } from "../../swing/fields.ts";
import { counted } from "../../swing/words.ts";
import type { UnitName } from "../../units/index.ts";
import type { UnitSystem } from "../../units/system.ts";
import { shortName, signedRange } from "../words.ts";
import { workWords } from "./progress.ts";

interface Ranged {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** A line within sessions. */
export interface ToldWithin extends Ranged {
  readonly input: Input;
  readonly measure: "exit_velocity" | "power_kept";
  readonly unit: UnitName;
  readonly by: "swings" | "rest";
  readonly sessions: number;
  readonly n: number;
  readonly most: number;
  readonly stands: boolean;
  readonly reason: string | null;
}

const measured = { exit_velocity: "exit velocity", power_kept: "power kept" } as const;

/**
 * What a line within sessions comes to, where it stands; null where it doesn't.
 * @example withinSentence("Max W.", { input: "tee", measure: "exit_velocity", unit: "mph", by: "swings", sessions: 12, n: 600, most: 54, value: -1.2, low: -1.6, high: -0.8, stands: true, reason: null }, "us") // "Max W., off the tee: exit velocity falls within a session, −1.2 mph (−1.6 to −0.8) for each ten swings more; 12 sessions of up to 55 swings, n 600."
 */
export function withinSentence(hitter: string, line: ToldWithin, system: UnitSystem): string | null {
  if (!line.stands || line.value === null) return null;
  const way = line.value < 0 ? "falls" : "rises";
  const along =
    line.by === "swings" ? "for each ten swings more" : "for each doubling of the rest before a swing";
  return `${shortName(hitter)}, ${workWords(line.input)}: ${measured[line.measure]} ${way} within a session, ${signedRange(line, line.unit, system)} ${along}; ${counted(line.sessions, "session")} of up to ${counted(line.most + 1, "swing")}, n ${line.n}.`;
}

/** Said beside anything about work within a session. */
export const fatigueCaution =
  "A drop has many causes, and none is in these numbers: a harder drill, a bat, boredom, heat, being tired. Count swings, young hitters' most of all, and end a round at pain or when the swing falls apart: that is for the coach and, with pain, a licensed practitioner to judge. Nothing here is a diagnosis.";

/** Said where no line within sessions stands. */
export const steadySentence = (hitter: string): string =>
  `${shortName(hitter)}: nothing within a session stands out from swing to swing, with all lines looked at together.`;

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
 * What a fair trial came to.
 * @example trialSentence({ trial: "Two bats", arms: ["long", "short"], measure: "better_half_speed", blocks: [], planned: 24, sessions: 0, hitters: 1, difference: { value: null, low: null, high: null }, p: 1, exact: true, ended: false, clear: false, wider: Infinity }, "us") // "Two bats: no block of one round each is complete yet."
 */
export function trialSentence(told: ToldTrial, system: UnitSystem): string {
  const { trial, arms, difference, blocks, clear } = told;
  if (difference.value === null) return `${shortName(trial)}: no block of one round each is complete yet.`;
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
