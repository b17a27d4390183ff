/** What a drill report says in sentences: its facts in short, and what to work on next. */
import type { Difference } from "../../stats/difference.ts";
import type { Estimate } from "../../stats/estimate.ts";
import type { Share } from "../../stats/share.ts";
import type { Input } from "../../swing/fields.ts";
import { largest } from "../../swing/lists.ts";
import type { UnitSystem } from "../../units/system.ts";
import type { Change, SessionChange } from "../change.ts";
import type { TargetResult } from "../target.ts";
import { fewestForAWord, type WeakCell, type Weakness } from "../weakness.ts";
import { counted, listed } from "../../swing/words.ts";
import { changeWords, rangeWords, shortName, valueWords } from "../words.ts";
import { cellName } from "../zone.ts";

/** What the ball comes from, as part of a sentence. */
const offWords: Record<Input, string> = { tee: "the tee", flip: "flips", live: "live pitching" };

const percent = (low: number, high: number): string => rangeWords(low, high, "share", "us");

/** "12 of 30 (25 to 58%)" */
const shareWords = (s: Share): string =>
  s.low === null || s.high === null
    ? `${s.count} of ${s.n}`
    : `${s.count} of ${s.n} (${percent(s.low, s.high)})`;

/**
 * How many balls of one kind of work were hit well; null where none can be judged.
 * @example wellHitSentence("tee", { count: 1, n: 1, share: 1, low: 0.21, high: 1 }) // "Clean or flush contact on 1 of 1 tee ball (21 to 100%)."
 */
export function wellHitSentence(input: Input, s: Share): string | null {
  if (s.n === 0) return null;
  const range = s.low === null || s.high === null ? "" : ` (${percent(s.low, s.high)})`;
  return `Clean or flush contact on ${s.count} of ${counted(s.n, `${input} ball`)}${range}.`;
}

/**
 * The mean exit velocity of one kind of work; null where none was measured.
 * @example speedSentence("tee", { n: 1, value: 80, low: null, high: null, reason: "" }, "us") // "1 ball off the tee, at 80 mph: too few to say more."
 */
export function speedSentence(input: Input, e: Estimate, system: UnitSystem): string | null {
  if (e.value === null) return null;
  const middle = valueWords(e.value, "mph", system);
  const balls = counted(e.n, "ball");
  if (e.n === 1) return `1 ball off ${offWords[input]}, at ${middle}: too few to say more.`;
  if (e.low === null || e.high === null)
    return `${balls} off ${offWords[input]}, ${middle} on average: too few to say more.`;
  if (e.low === e.high) return `Every one of ${balls} off ${offWords[input]} read ${middle}.`;
  return `Exit velocity off ${offWords[input]} averages ${middle} (${rangeWords(e.low, e.high, "mph", system)}, ${balls}).`;
}

/**
 * What came of a drill.
 * @example targetSentence({ drill: "away", count: 0, n: 0, share: null, low: null, high: null }) // "Drill “away”: no swing can be judged."
 */
export function targetSentence(t: TargetResult): string {
  if (t.share === null) return `Drill “${shortName(t.drill)}”: no swing can be judged.`;
  const run = t.longest_run > 1 && t.count < t.n ? `; ${t.longest_run} in a row at best` : "";
  return `Drill “${shortName(t.drill)}”: target met on ${shareWords(t)}${run}.`;
}

/**
 * A change that stands after Holm over the whole table, days counted; null for any other.
 */
export function changeSentence(
  c: Change,
  { input, from }: Pick<SessionChange, "input" | "from">,
  system: UnitSystem,
): string | null {
  if (!c.stands) return null;
  const since = from.date ?? `session ${shortName(from.session)}`;
  const { from: before, to: now } = c.difference;
  return `${c.title}, ${input}, since ${since}: ${changeWords(c.difference, c.unit, system)} (${before.n} and ${now.n} swings; days counted).`;
}

/** The cell that stands out as weak. */
function cellWords({ cell, difference, here, elsewhere }: WeakCell, { cells }: Weakness): string {
  const [there, other] = [here, elsewhere].map(({ median }) => valueWords(median, "share", "us"));
  return (
    `balls met ${cellName(cell)}, clearly weaker than elsewhere (${cells} cells with ${fewestForAWord} balls or more were compared). ` +
    `${there} of power kept (median) on ${here.n} balls, ${other} on the ${elsewhere.n} met elsewhere; ` +
    `held against the same kind of work on the same day, ${lowerWords(difference)}.`
  );
}

const lowerWords = (difference: Difference): string =>
  changeWords(difference, "share", "us").replace("down", "lower");

/** A drill, and the side of its window most balls in play fell to. */
function drillWords(t: TargetResult): string {
  const sides = t.window.flatMap(({ measure, below, above }) => [
    { count: below, words: sideWords[measure][0] },
    { count: above, words: sideWords[measure][1] },
  ]);
  const most = largest(
    sides.map((s) => s.count),
    0,
  );
  const why = sides.filter((s) => s.count === most).map((s) => s.words);
  const off =
    most === 0
      ? ""
      : ` Most often off: ${listed(why)}, ${counted(most, "ball")}${why.length > 1 ? " each" : ""}.`;
  return `the drill “${shortName(t.drill)}”, target met on ${shareWords(t)}.${off}`;
}

const sideWords: Record<TargetResult["window"][number]["measure"], readonly [string, string]> = {
  exit_velocity_mph: ["too slow off the bat", "faster off the bat than the window"],
  launch_angle_deg: ["launched too low", "launched too high"],
  spray_angle_deg: ["too far to the left-field side", "too far to the right-field side"],
  contact_side_ft: ["met too far to third base's side", "met too far to first base's side"],
  contact_depth_ft: ["met too deep", "met too far out front"],
  contact_height_ft: ["met too low", "met too high"],
};

/** More drills than this are counted and not named. */
const mostNamed = 3;

/** What can be said of the drills where none stands below the others; null where there is none to speak of. */
function drillsWords(drills: readonly TargetResult[], targets: readonly TargetResult[]): string | null {
  if (targets.length === 0) return null;
  if (drills.length === 0) return `no drill with a target has ${fewestForAWord} swings that can be judged`;
  const results = drills.map((t) => `“${shortName(t.drill)}” ${t.count} of ${t.n}`);
  const told = results.length > mostNamed ? "" : ` (${results.join(", ")})`;
  if (drills.every((t) => t.count === t.n))
    return drills.length === 1
      ? `every target of the drill was met${told}`
      : `every target of ${drills.length} drills was met${told}`;
  return `none of ${drills.length} drills is clearly behind the others${told}`;
}

/** What can be said of the cells where none stands out. */
function cellsWords({ cells, placed }: Weakness): string {
  if (placed === 0) return "no contact point was measured";
  if (cells === 0) return `no cell of the zone has ${fewestForAWord} balls`;
  if (cells === 1)
    return `only one cell of the zone has ${fewestForAWord} balls, with no other to hold it against`;
  return `none of the ${cells} cells of the zone with ${fewestForAWord} balls or more is clearly weaker than the rest`;
}

/**
 * What to work on next: a cell that stands out as weak, else a drill that stands below the others, else the only drill
 * where it has room left, else why nothing is named.
 * @param swings how many swings there are
 * @param targets every drill with a target among them
 * @example nextSentence(0, { placed: 0, cells: 0, drills: [], cell: null, drill: null }, []) // "There are no swings to say anything about."
 */
export function nextSentence(swings: number, found: Weakness, targets: readonly TargetResult[]): string {
  const { cell, drill, drills } = found;
  if (cell !== null) return `Work on next: ${cellWords(cell, found)}`;
  if (drill !== null)
    return `Work on next: ${drillWords(drill)} The least met of ${drills.length} drills, by more than chance.`;
  if (swings === 0) return "There are no swings to say anything about.";
  const only = drills.length === 1 && drills[0]!.count < drills[0]!.n ? drills[0]! : null;
  if (only !== null) return `Work on next: ${drillWords(only)}`;
  const told = [cellsWords(found), drillsWords(drills, targets)].filter((words) => words !== null);
  return `No one thing to work on stands out in ${counted(swings, "swing")}: ${told.join("; ")}.`;
}
