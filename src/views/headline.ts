/** The few sentences a coach reads first, made of computed facts alone. */
import { median } from "d3";
import { medianDifference, noClearChange } from "../stats/difference.ts";
import { meanEstimate } from "../stats/estimate.ts";
import type { Share } from "../stats/share.ts";
import { inputs, type EnrichedSwing, type Input } from "../swing/fields.ts";
import type { SessionChange } from "./change.ts";
import { inPlay, ofInput, swungAt, wellHitShare } from "./swings.ts";
import type { TargetResult } from "./target.ts";
import type { UnitSystem } from "../units/system.ts";
import { changeWords, rangeWords, valueWords } from "./words.ts";
import { byCell, cellName, cells, type ZoneOptions } from "./zone.ts";

/** A cell or a drill is worth a word from this many balls on. */
export const fewestForAWord = 10;

/** What the headline is made of. */
export interface HeadlineParts {
  readonly targets?: readonly TargetResult[];
  readonly changes?: readonly SessionChange[];
  readonly zone?: ZoneOptions;
  readonly system?: UnitSystem;
}

/** Facts, those that speak well of the hitter first, and what they say to work on next. */
export interface Headline {
  readonly facts: readonly string[];
  readonly next: string;
}

interface Fact {
  readonly text: string;
  /** 2 good and clear, 1 a plain figure, 0 bad and clear, −1 too few to say. */
  readonly rank: number;
}

/**
 * The headline of one hitter's swings: at most six facts, each with its count and its doubt.
 * @param rows one hitter's swings, in the scope of the report
 * @example headline([]).next // "There are no swings to say anything about."
 */
export function headline(rows: readonly EnrichedSwing[], parts: HeadlineParts = {}): Headline {
  const system = parts.system ?? "us";
  const facts = [
    ...wellHitFacts(rows),
    ...speedFacts(rows, system),
    ...(parts.targets ?? []).map(targetFact),
    ...(parts.changes ?? []).flatMap((change) => changeFacts(change, system)),
  ];
  return {
    facts: facts
      .sort((a, b) => b.rank - a.rank)
      .slice(0, 6)
      .map((f) => f.text),
    next: next(rows, parts),
  };
}

const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** A name cut to what a sentence can carry. */
const short = (name: string): string => {
  const letters = [...name];
  return letters.length > 40 ? `${letters.slice(0, 39).join("")}…` : name;
};

const percent = (low: number, high: number): string => rangeWords(low, high, "share", "us");

/** "12 of 30 (25 to 58 %)" */
const shareWords = (s: Share): string =>
  s.low === null || s.high === null
    ? `${s.count} of ${s.n}`
    : `${s.count} of ${s.n} (${percent(s.low, s.high)})`;

function wellHitFacts(rows: readonly EnrichedSwing[]): Fact[] {
  return inputs.flatMap((input) => {
    const s = wellHitShare(inPlay(ofInput(rows, input)));
    if (s.n === 0) return [];
    const doubt = `${percent(s.low!, s.high!)}`;
    const text = `Clean or flush contact on ${s.count} of ${s.n} ${input} balls (${doubt}).`;
    return [{ text, rank: s.low! > 0.5 ? 2 : s.high! < 0.5 ? 0 : s.n < fewestForAWord ? -1 : 1 }];
  });
}

function speedFacts(rows: readonly EnrichedSwing[], system: UnitSystem): Fact[] {
  return inputs.flatMap((input: Input) => {
    const e = meanEstimate(inPlay(ofInput(rows, input)).map((r) => r.exit_velocity_mph));
    if (e.value === null) return [];
    const middle = valueWords(e.value, "mph", system);
    const balls = counted(e.n, "ball", "balls");
    if (e.low === null || e.high === null)
      return [
        { text: `${balls} off ${inputWords[input]}, ${middle} on average: too few to say more.`, rank: -1 },
      ];
    const range = rangeWords(e.low, e.high, "mph", system);
    return [
      { text: `Exit velocity off ${inputWords[input]} averages ${middle} (${range}, ${balls}).`, rank: 1 },
    ];
  });
}

const inputWords: Record<Input, string> = { tee: "the tee", flip: "flips", live: "live pitching" };

function targetFact(t: TargetResult): Fact {
  if (t.share === null) return { text: `Drill “${short(t.drill)}”: no swing can be judged.`, rank: -1 };
  const run = t.longest_run > 1 ? `; ${t.longest_run} in a row at best` : "";
  return {
    text: `Drill “${short(t.drill)}”: target met on ${shareWords(t)}${run}.`,
    rank: t.low! > 0.5 ? 2 : t.high! < 0.5 ? 0 : t.n < fewestForAWord ? -1 : 1,
  };
}

function changeFacts({ input, from, changes }: SessionChange, system: UnitSystem): Fact[] {
  const clear = changes.filter((c) => !noClearChange(c.difference));
  const since = from.date ?? `session ${short(from.session)}`;
  return clear.map((c) => {
    const way = c.difference.value! > 0 ? "up" : "down";
    const counts = `${c.difference.from.n} and ${c.difference.to.n}`;
    return {
      text: `${c.title}, ${input}, since ${since}: ${changeWords(c.difference, c.unit, system)} (${counts} swings).`,
      rank: c.better === null ? 1 : c.better === way ? 2 : 0,
    };
  });
}

/** The weakest well-sampled cell when it is clearly weak, else the drill with the most room, else the cell. */
function next(rows: readonly EnrichedSwing[], parts: HeadlineParts): string {
  if (rows.length === 0) return "There are no swings to say anything about.";
  const cell = weakestCell(rows, parts.zone ?? {});
  const drill = roomiestDrill(parts.targets ?? []);
  if (cell?.clear) return `Work on next: ${cell.words}`;
  if (drill !== null) return `Work on next: ${drillWords(drill)}${cell ? ` ${cell.words}` : ""}`;
  if (cell !== null) return cell.words;
  const swings = swungAt(rows).length;
  return `No one thing to work on stands out: of ${counted(swings, "swing", "swings")} no cell of the zone and no drill has ${fewestForAWord}.`;
}

interface WeakCell {
  readonly clear: boolean;
  readonly words: string;
}

function weakestCell(rows: readonly EnrichedSwing[], zone: ZoneOptions): WeakCell | null {
  const balls = inPlay(rows).filter((r) => r.power_kept !== null);
  const placed = byCell(balls, zone).map((list) => list.map((r) => r.power_kept!));
  const sampled = placed
    .map((here, i) => ({ here, cell: cells[i]!, middle: median(here) ?? Infinity }))
    .filter(({ here }) => here.length >= fewestForAWord)
    .sort((a, b) => a.middle - b.middle);
  const weakest = sampled[0];
  // The weakest of one is no finding.
  if (weakest === undefined || sampled.length < 2) return null;
  const elsewhere = placed.filter((list) => list !== weakest.here).flat();
  const d = medianDifference({ values: elsewhere }, { values: weakest.here });
  if (d.value === null || d.low === null || d.high === null) return null;
  const [there, other] = [d.to.value, d.from.value].map((v) => valueWords(v, "share", "us"));
  const name = cellName(weakest.cell);
  const figures = `${there} of power kept (median) on ${d.to.n} balls, ${other} on the ${d.from.n} met elsewhere`;
  const among = `weakest of the ${sampled.length} cells with ${fewestForAWord} balls or more`;
  if (noClearChange(d)) return { clear: false, words: `The ${among}, ${name}, could be chance: ${figures}.` };
  return {
    clear: true,
    words: `balls met ${name}, the ${among}. ${figures}: ${changeWords(d, "share", "us").replace("down", "lower")}.`,
  };
}

function roomiestDrill(targets: readonly TargetResult[]): TargetResult | null {
  const sampled = targets.filter((t) => t.n >= fewestForAWord && t.share! < 1);
  return sampled.sort((a, b) => a.share! - b.share!)[0] ?? null;
}

/** The drill, and the side of its window most balls in play fell to. */
function drillWords(t: TargetResult): string {
  const sides = t.window.flatMap(({ measure, below, above }) => [
    { count: below, words: sideWords[measure][0] },
    { count: above, words: sideWords[measure][1] },
  ]);
  const most = sides.sort((a, b) => b.count - a.count)[0];
  const why =
    most !== undefined && most.count > 0
      ? ` Most often off: ${most.words}, ${counted(most.count, "ball", "balls")}.`
      : "";
  return `the drill “${short(t.drill)}”, target met on ${shareWords(t)}.${why}`;
}

const sideWords: Record<TargetResult["window"][number]["measure"], readonly [string, string]> = {
  exit_velocity_mph: ["too slow off the bat", "faster off the bat than the window"],
  launch_angle_deg: ["launched too low", "launched too high"],
  spray_angle_deg: ["too far to the left-field side", "too far to the right-field side"],
  contact_side_ft: ["met too far to third base's side", "met too far to first base's side"],
  contact_depth_ft: ["met too deep", "met too far out front"],
  contact_height_ft: ["met too low", "met too high"],
};
