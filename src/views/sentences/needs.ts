/** What is said of a group over a span: who did what, and who needs what next. */
import type { UnitSystem } from "../../units/system.ts";
import type { Cell } from "../../field/zone.ts";
import { counted, listed } from "../../swing/words.ts";
import { rangeWords, shortName, signedRange, valueWords } from "../words.ts";
import { cellName } from "../zone.ts";
import type { Largest, Part } from "./gap.ts";
import type { Said } from "./opening.ts";

/** A need that stands, as `src/season/needs.ts` gives it. */
export type NeedTold =
  | {
      readonly kind: "gap";
      readonly largest: Pick<Largest, "part" | "alike">;
      readonly n: { readonly from: number; readonly to: number };
    }
  | {
      readonly kind: "place";
      readonly cell: {
        readonly cell: Cell;
        readonly here: { readonly n: number; readonly median: number };
        readonly elsewhere: { readonly n: number; readonly median: number };
      };
    }
  | {
      readonly kind: "drill";
      readonly drill: {
        readonly drill: string;
        readonly count: number;
        readonly n: number;
        readonly low: number | null;
        readonly high: number | null;
      };
    };

const causes: Readonly<Record<Part, string>> = {
  "pitch speed": "the pitches' speed",
  place: "where the ball is met",
  "bat speed": "bat speed",
  contact: "contact",
  rest: "what is left",
};

/**
 * A need in a few words, with the counts behind it.
 * @example needWords({ kind: "gap", largest: { part: { part: "place", value: -5, low: -7, high: -3, reason: null }, alike: [] }, n: { from: 64, to: 82 } }) // "Live costs most by where the ball is met: −5.0 mph (−7.0 to −3.0), 64 tee and 82 live balls"
 * @example needWords({ kind: "place", cell: { cell: { row: 0, column: 2 }, here: { n: 36, median: 0.84 }, elsewhere: { n: 171, median: 0.93 } } }) // "Balls met low and outside: 84% of power kept on 36, 93% on 171 elsewhere"
 * @example needWords({ kind: "drill", drill: { drill: "Away", count: 8, n: 48, low: 0.05, high: 0.3 } }) // "“Away”: met on 8 of 48 (5 to 30%), behind the other drills"
 */
export function needWords(need: NeedTold, system: UnitSystem = "us"): string {
  if (need.kind === "gap") {
    const { part, alike } = need.largest;
    const also = alike.length === 0 ? "" : `, or by ${listed(alike.map((p) => causes[p.part]))}`;
    return `Live costs most by ${causes[part.part]}${also}: ${signedRange(part, "mph", system)}, ${need.n.from} tee and ${need.n.to} live balls`;
  }
  if (need.kind === "place") {
    const { cell, here, elsewhere } = need.cell;
    const [there, other] = [here, elsewhere].map(({ median }) => valueWords(median, "share", "us"));
    return `Balls met ${cellName(cell)}: ${there} of power kept on ${here.n}, ${other} on ${elsewhere.n} elsewhere`;
  }
  const { drill, count, n, low, high } = need.drill;
  const range = low === null || high === null ? "" : ` (${rangeWords(low, high, "share", "us")})`;
  return `“${shortName(drill)}”: met on ${count} of ${n}${range}, behind the other drills`;
}

/**
 * What stands in a hitter's line where nothing does.
 * @example noNeedWords({ swings: 312, lines: 16 }) // "Nothing clear in 312 swings"
 * @example noNeedWords({ swings: 1, lines: 0 }) // "Too few to look at: 1 swing"
 * @example noNeedWords({ swings: 0, lines: 0 }) // "No swing"
 */
export function noNeedWords({ swings, lines }: { readonly swings: number; readonly lines: number }): string {
  if (swings === 0) return "No swing";
  return lines === 0
    ? `Too few to look at: ${counted(swings, "swing")}`
    : `Nothing clear in ${counted(swings, "swing")}`;
}

/**
 * The days of a span as a sentence goes on with them.
 * @example spanWords({ since: "2025-04-07", until: "2025-04-13" }) // "from 2025-04-07 to 2025-04-13"
 * @example spanWords({ since: "2025-04-07", until: null }) // "since 2025-04-07"
 * @example spanWords({ since: null, until: "2025-04-13" }) // "until 2025-04-13"
 * @example spanWords({ since: null, until: null }) // "on all days"
 */
export function spanWords({
  since,
  until,
}: {
  readonly since: string | null;
  readonly until: string | null;
}): string {
  if (since !== null && until !== null) return since === until ? `on ${since}` : `from ${since} to ${until}`;
  if (since !== null) return `since ${since}`;
  return until === null ? "on all days" : `until ${until}`;
}

/**
 * A group's answer: who swung, how much, and for how many one thing to work on is clear.
 * @param clear hitters with a need that stands; null while it is being worked out
 * @example groupAnswer({ active: 7, hitters: 8, swings: 427, clear: 2 }).text // "7 of 8 hitters took 427 swings; what to work on next is clear for 2 hitters."
 * @example groupAnswer({ active: 7, hitters: 8, swings: 427, clear: 0 }).text // "7 of 8 hitters took 427 swings; nothing to work on next is clear for anybody."
 * @example groupAnswer({ active: 1, hitters: 1, swings: 1, clear: null }).text // "1 of 1 hitter took 1 swing."
 * @example groupAnswer({ active: 0, hitters: 8, swings: 0, clear: 0 }).text // "None of 8 hitters swung."
 * @example groupAnswer({ active: 0, hitters: 0, swings: 0, clear: 0 }).text // "There is no hitter here yet."
 */
export function groupAnswer({
  active,
  hitters,
  swings,
  clear,
}: {
  readonly active: number;
  readonly hitters: number;
  readonly swings: number;
  readonly clear: number | null;
}): Said {
  if (hitters === 0) return { text: "There is no hitter here yet.", figure: "" };
  if (active === 0) return { text: `None of ${counted(hitters, "hitter")} swung.`, figure: "None" };
  const figure = `${active} of ${hitters}`;
  const who = `${figure} ${hitters === 1 ? "hitter" : "hitters"} took ${counted(swings, "swing")}`;
  if (clear === null) return { text: `${who}.`, figure };
  return {
    text:
      clear === 0
        ? `${who}; nothing to work on next is clear for anybody.`
        : `${who}; what to work on next is clear for ${counted(clear, "hitter")}.`,
    figure,
  };
}

/**
 * What needs were picked from.
 * @example needsNote(125, { since: "2025-03-17", until: "2025-04-13" }) // "What is named as next was picked from 125 lines of all hitters together, from 2025-03-17 to 2025-04-13 (parts of the gap between tee and live, cells of the zone, drills), and stands with all of them looked at (Holm). It ranks nobody."
 * @example needsNote(0, { since: null, until: null }) // "There was no line to look at on all days: a cell or a drill wants 10 balls, a part of the gap tee and live swings."
 */
export function needsNote(lines: number, span: Parameters<typeof spanWords>[0]): string {
  return lines === 0
    ? `There was no line to look at ${spanWords(span)}: a cell or a drill wants 10 balls, a part of the gap tee and live swings.`
    : `What is named as next was picked from ${counted(lines, "line")} of all hitters together, ${spanWords(span)} (parts of the gap between tee and live, cells of the zone, drills), and stands with all of them looked at (Holm). It ranks nobody.`;
}

/**
 * What the order of a column may be read as, in few words.
 * @example columnOrder("Target met", { clear: 0, all: 21 }) // "Target met: no two hitters clearly differ."
 * @example columnOrder("Target met", { clear: 2, all: 21 }) // "Target met: 2 of 21 pairs of hitters clearly differ."
 * @example columnOrder("Target met", { clear: 0, all: 0 }) // null
 */
export function columnOrder(
  title: string,
  { clear, all }: { readonly clear: number; readonly all: number },
): string | null {
  if (all === 0) return null;
  return clear === 0
    ? `${title}: no two hitters clearly differ.`
    : `${title}: ${clear} of ${all} pairs of hitters clearly ${clear === 1 ? "differs" : "differ"}.`;
}
