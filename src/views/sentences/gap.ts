/** What is said of one hitter's gap between two kinds of work. */
import { noClearChange, type Difference } from "../../stats/difference.ts";
import type { Input } from "../../swing/fields.ts";
import type { UnitName } from "../../units/index.ts";
import type { UnitSystem } from "../../units/system.ts";
import { counted, listed } from "../../swing/words.ts";
import { changeWords, signedRange, signedWords, valueWords } from "../words.ts";

/** A figure with its interval, or the reason it has none. */
export type Told = Pick<Difference, "value" | "low" | "high" | "reason">;

/** The two kinds of work. */
export interface Works {
  readonly from: Input;
  readonly to: Input;
}

const at: Record<Input, string> = { tee: "off the tee", flip: "on flips", live: "live" };

/**
 * A gap in plain words.
 * @example gapWords({ value: -8, low: -11, high: -6, reason: null }, "mph") // "lower by 6 to 11 mph"
 * @example gapWords({ value: 1, low: -1, high: 3, reason: null }, "mph") // "no clear difference"
 * @example gapWords({ value: null, low: null, high: null, reason: "too few to compare: 0 and 9" }, "mph") // "too few to compare: 0 and 9"
 */
export function gapWords(difference: Told, unit: UnitName, system: UnitSystem = "us"): string {
  const { low, high, reason } = difference;
  if (low === null || high === null) return reason ?? "no clear difference";
  if (noClearChange(difference)) return "no clear difference";
  return changeWords(difference, unit, system).replace(/^up/, "higher").replace(/^down/, "lower");
}

/**
 * A measure's title as part of a sentence.
 * @example measureWords("Exit velocity, mean") // "mean exit velocity"
 * @example measureWords("Ground balls, share") // "share of ground balls"
 * @example measureWords("Misses of swings") // "misses of swings"
 */
export function measureWords(title: string): string {
  const [, what = title, kind] = /^(.*?)(?:, (mean|median|share|top end))?$/.exec(title) ?? [];
  const lower = what.slice(0, 1).toLowerCase() + what.slice(1);
  if (kind === undefined) return lower;
  return kind === "share" ? `share of ${lower}` : `${kind === "top end" ? "top-end" : kind} ${lower}`;
}

/** An interval without a width: all balls of a side read the same, and chance can't be told from them. */
const allAlike = ({ value, low, high }: Told): boolean => value !== 0 && low !== null && low === high;
const allAlikeWords = "every ball of a side reading the same: nothing tells how far chance would move it";

/**
 * A gap as one sentence.
 * @example gapSentence({ title: "Carry, mean", unit: "ft", value: 1, low: -1, high: 3, reason: null }, { from: "tee", to: "live" }) // "mean carry: no clear difference between off the tee and live."
 */
export function gapSentence(
  gap: Told & { readonly title: string; readonly unit: UnitName },
  { from, to }: Works,
  system: UnitSystem = "us",
): string {
  const what = measureWords(gap.title);
  if (gap.value === null) return `${what} can't be compared: ${gap.reason ?? "unknown"}.`;
  if (gap.low === null || gap.high === null)
    return `${what}: ${signedWords(gap.value, gap.unit, system)}, ${gap.reason ?? "no interval"}.`;
  if (allAlike(gap))
    return `${what}: ${signedWords(gap.value, gap.unit, system)} ${at[to]}, ${allAlikeWords}.`;
  const words = gapWords(gap, gap.unit, system);
  return noClearChange(gap)
    ? `${what}: ${words} between ${at[from]} and ${at[to]}.`
    : `${what}: ${words} ${at[to]} than ${at[from]}.`;
}

/**
 * What exit velocity owes to the hitter, the answer that a page gives first: the gap beyond the pitches' part. Null
 * where the pitches' part isn't known: the gap itself is then all there is.
 * @example beyondPitchSentence({ value: -5, low: -9, high: -2, reason: null }, { from: "tee", to: "live" }) // "beyond the pitches' speed, mean exit velocity is lower by 2 to 9 mph live than off the tee."
 * @example beyondPitchSentence({ value: -1, low: -3, high: 2, reason: null }, { from: "tee", to: "live" }) // "beyond the pitches' speed, no clear difference in mean exit velocity between off the tee and live."
 * @example beyondPitchSentence({ value: null, low: null, high: null, reason: "no pitch speed was measured" }, { from: "tee", to: "live" }) // null
 */
export function beyondPitchSentence(
  beyond: Told,
  { from, to }: Works,
  system: UnitSystem = "us",
): string | null {
  if (beyond.value === null) return null;
  if (beyond.low === null || beyond.high === null)
    return `beyond the pitches' speed, mean exit velocity is ${signedWords(beyond.value, "mph", system)} ${at[to]}: ${beyond.reason ?? "no interval"}.`;
  if (allAlike(beyond))
    return `beyond the pitches' speed, mean exit velocity is ${signedWords(beyond.value, "mph", system)} ${at[to]}, ${allAlikeWords}.`;
  if (noClearChange(beyond))
    return `beyond the pitches' speed, no clear difference in mean exit velocity between ${at[from]} and ${at[to]}.`;
  return `beyond the pitches' speed, mean exit velocity is ${gapWords(beyond, "mph", system)} ${at[to]} than ${at[from]}.`;
}

/**
 * The same as a chart's title; undefined where nothing stands, so that the chart keeps its own.
 * @example beyondPitchTitle({ value: -5, low: -9, high: -2, reason: null }, { from: "tee", to: "live" }) // "Live costs 2 to 9 mph beyond the pitch"
 * @example beyondPitchTitle({ value: 4, low: 2, high: 6, reason: null }, { from: "live", to: "tee" }) // "Tee work adds 2 to 6 mph beyond the pitch"
 * @example beyondPitchTitle({ value: -1, low: -3, high: 2, reason: null }, { from: "tee", to: "live" }) // undefined
 */
export function beyondPitchTitle(beyond: Told, { to }: Works, system: UnitSystem = "us"): string | undefined {
  const { value, low, high } = beyond;
  if (value === null || low === null || high === null || allAlike(beyond) || noClearChange(beyond))
    return undefined;
  const work = { tee: "Tee work", flip: "Flip work", live: "Live" }[to];
  return `${work} ${value < 0 ? "costs" : "adds"} ${changeWords(beyond, "mph", system).replace(/^(?:up|down) by /, "")} beyond the pitch`;
}

/**
 * What the pitches give by themselves, and what came of both together; null where either isn't known.
 * @example inAllSentence({ pitch: { value: 8.3 }, predicted: { value: 73.4 }, gap: { value: 3.1, low: -0.5, high: 6.6, reason: null } }, { from: "tee", to: "live" }) // "The pitches' speed by itself gives +8.3 mph: the swings as off the tee would come to 73.4 mph. In all, the difference is +3.1 mph (−0.5 to 6.6), which could be chance."
 */
export function inAllSentence(
  {
    pitch,
    predicted,
    gap,
  }: {
    readonly pitch: Pick<Told, "value">;
    readonly predicted: Pick<Told, "value">;
    readonly gap: Told;
  },
  { from }: Works,
  system: UnitSystem = "us",
): string | null {
  if (pitch.value === null || predicted.value === null || gap.value === null) return null;
  const told =
    gap.low === null || gap.high === null
      ? `${signedWords(gap.value, "mph", system)}, too few to say more`
      : `${signedRange(gap, "mph", system)}${noClearChange(gap) ? ", which could be chance" : ""}`;
  return `The pitches' speed by itself gives ${signedWords(pitch.value, "mph", system)}: the swings as ${at[from]} would come to ${valueWords(predicted.value, "mph", system, 1)}. In all, the difference is ${told}.`;
}

/** The parts of a gap. */
export type Part = "pitch speed" | "place" | "bat speed" | "contact" | "rest";

/** A part in a sentence; what is left takes in whatever could not be told. */
function partWords(part: Part, untold: readonly Part[]): string {
  const names = {
    "pitch speed": "the pitches' speed",
    place: "where the ball is met",
    "bat speed": "bat speed",
    contact: "contact",
    rest: "what is left",
  } as const;
  if (part !== "contact" && part !== "rest") return names[part];
  const within = untold.filter((p) => p !== part).map((p) => names[p]);
  return within.length === 0
    ? `${names[part]}, all that is left`
    : `${names[part]} (with ${listed(within)}, which can't be told)`;
}

/** One part that stands as the largest, and those that can't be told apart from it. */
export interface Largest {
  readonly way: "lost" | "gained";
  readonly part: Told & { readonly part: Part };
  readonly alike: readonly (Told & { readonly part: Part })[];
}

/**
 * What most is lost by, or gained; that nothing stands out where nothing does; null without a gap.
 * @param largest from `largestParts`
 * @param parts all parts of the gap
 * @example partSentence([], []) // null
 * @example partSentence([], [{ part: "contact", value: -1, low: -3, high: 1, reason: null }]) // "No part of it stands out beyond chance."
 */
export function partSentence(
  largest: readonly Largest[],
  parts: readonly (Told & { readonly part: Part })[],
  system: UnitSystem = "us",
): string | null {
  const told = parts.filter((p) => p.value !== null);
  if (told.length === 0) return null;
  if (told.every((p) => p.low === null)) return null;
  const untold = parts.filter((p) => p.value === null).map((p) => p.part);
  if (largest.length === 0)
    return untold.includes("pitch speed") || !parts.some((p) => p.part === "pitch speed")
      ? "No part of it stands out beyond chance."
      : "Beyond the pitches' speed no part stands out beyond chance.";
  return largest
    .map(({ way, part, alike }) => {
      const figure = (p: Told): string => signedRange(p, "mph", system);
      const others = alike.map((p) => `${partWords(p.part, untold)} (${figure(p)})`);
      const also = others.length === 0 ? "" : `; it can't be told apart from ${listed(others)}`;
      return `Most is ${way} by ${partWords(part.part, untold)}: ${figure(part)}${also}.`;
    })
    .join(" ");
}

/**
 * A side of the comparison without swings.
 * @example noSwingsSentence("Ada K.", "live") // "Ada K. has no live swings in this scope."
 */
export function noSwingsSentence(hitter: string, input: Input): string {
  return `${hitter} has no ${input} swings in this scope.`;
}

/**
 * Why power kept and buckets of kinds of work can't be compared: they are told by other ceilings.
 * @example ownCeilingReason(["live"]) // "not comparable: without pitch speeds live has a ceiling of its own"
 */
export function ownCeilingReason(inputs: readonly Input[]): string {
  const have = inputs.length === 1 ? "has a ceiling of its own" : "have ceilings of their own";
  return `not comparable: without pitch speeds ${inputs.join(" and ")} ${have}`;
}

/**
 * Said where some of a side's balls have no pitch speed.
 * @example noPitchSpeedSentence("live", 1, 30) // "1 of 30 live balls has no pitch speed: it is in no figure of power kept or buckets."
 */
export function noPitchSpeedSentence(input: Input, without: number, of: number): string {
  const rest = without === 1 ? "has no pitch speed: it is" : "have no pitch speed: they are";
  return `${without} of ${counted(of, `${input} ball`)} ${rest} in no figure of power kept or buckets.`;
}

/** Said where a spread stands with its interval: what so few balls can't show. */
export const spreadTailsSentence =
  "A spread's interval covers the truth less often than 95 times in 100 where a few balls fly far off the rest: so few swings don't show how often that happens.";

/** Said where a power kept or a bucket's share stands with an interval of a view: only the gap works the ceiling out anew. */
export const ceilingGivenSentence =
  "Power kept and contact buckets are told by a ceiling that is itself an estimate: the intervals of one kind of work take it as it stands and are somewhat narrow for that; those of the gap count it.";

/**
 * Said where a side's power kept is told by a ceiling of its own.
 * @example ownCeilingSentence("live") // "Most live balls have no pitch speed: power kept and buckets live are told by a ceiling of live alone, the pitch's part in it."
 */
export function ownCeilingSentence(input: Input): string {
  return `Most ${input} balls have no pitch speed: power kept and buckets ${input} are told by a ceiling of ${input} alone, the pitch's part in it.`;
}

/**
 * Said of swings from both sides of the plate, which a figure takes together; null for one side.
 * @example bothSidesSentence([{ input: "tee", left: 20, right: 0 }, { input: "live", left: 0, right: 18 }]) // "Balls hit from both sides of the plate are counted together: tee 20 left and 0 right, live 0 left and 18 right."
 * @example bothSidesSentence([{ input: "tee", left: 20, right: 0 }, { input: "live", left: 18, right: 0 }]) // null
 */
export function bothSidesSentence(
  works: readonly { readonly input: Input; readonly left: number; readonly right: number }[],
): string | null {
  const met = works.filter(({ left, right }) => left + right > 0);
  if (met.every(({ left }) => left === 0) || met.every(({ right }) => right === 0)) return null;
  const told = met.map(({ input, left, right }) => `${input} ${left} left and ${right} right`);
  return `Balls hit from both sides of the plate are counted together: ${told.join(", ")}.`;
}
