/**
 * What a hitter should work on next: a cell of the zone, or a drill, that is weaker than the others by more than chance,
 * however many cells and drills it was picked from.
 *
 * A cell is held against the balls of the same day and the same kind of work that were met elsewhere, by ranks within
 * them (van Elteren's test): what days and kinds of work differ by is no cell's doing, and days differ between sessions.
 * A drill is held against the swings of all other drills, its interval counting sessions. All p-values go through Holm
 * together. A cell that stands also has to have an interval, of sessions, that leaves no difference out.
 */
import { median } from "d3-array";
import { medianDifference, noClearChange, shareDifference } from "../stats/difference.ts";
import type { Difference } from "../stats/difference.ts";
import { tTail } from "../stats/beta.ts";
import { pOf, standing } from "../stats/holm.ts";
import { rankDeviate } from "../stats/ranks.ts";
import type { Cell } from "../field/zone.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { inPlay } from "./swings.ts";
import type { TargetResult } from "./target.ts";
import { byCell, cells, type ZoneOptions } from "./zone.ts";

/** A cell or a drill is worth a word from this many balls on. Common practice, no source. */
export const fewestForAWord = 10;

/** A cell that is weak, in power kept. */
export interface WeakCell {
  readonly cell: Cell;
  /** Medians there and elsewhere, and their difference within days and kinds of work. */
  readonly difference: Difference;
  readonly here: { readonly n: number; readonly median: number };
  readonly elsewhere: { readonly n: number; readonly median: number };
}

/** What was looked at, and what of it stands. */
export interface Weakness {
  /** Balls in play whose power kept and place are known. */
  readonly placed: number;
  /** Cells and drills with enough to be looked at. */
  readonly cells: number;
  readonly drills: readonly TargetResult[];
  /** The weakest cell that stands; null for none. */
  readonly cell: WeakCell | null;
  /** The drill that is met least and stands below the others; null for none, or for one drill alone. */
  readonly drill: TargetResult | null;
}

type Ball = EnrichedSwing & { readonly power_kept: number };

/** What a weakness may be picked from: a p-value for each cell and each drill, cells first. */
export interface Looks {
  readonly ps: readonly number[];
  /**
   * The weakest cell and the weakest drill among the lines that stand.
   * @param stands for each of `ps`, after all lines that were looked at together
   */
  weakest(stands: readonly boolean[]): Weakness;
}

/**
 * The weakest cell and the weakest drill, where they stand.
 * @param rows one hitter's swings
 * @param targets what came of each drill
 * @example weakness([], []).cells // 0
 */
export function weakness(
  rows: readonly EnrichedSwing[],
  targets: readonly TargetResult[],
  zone: ZoneOptions = {},
): Weakness {
  const looks = looksAt(rows, targets, zone);
  return looks.weakest(standing(looks.ps));
}

/**
 * Everything that `weakness` looks at, for who picks from several hitters' at once.
 * @example looksAt([], []).ps // []
 */
export function looksAt(
  rows: readonly EnrichedSwing[],
  targets: readonly TargetResult[],
  zone: ZoneOptions = {},
): Looks {
  const balls = inPlay(rows).filter((r): r is Ball => r.power_kept !== null);
  const placed = byCell(balls, zone);
  const sampled = placed.flatMap((list, at) => (list.length < fewestForAWord ? [] : [at]));
  const drills = targets.filter((t) => t.n >= fewestForAWord);
  const works = worksOf(placed);
  // One of a kind has nothing to be held against.
  const deviates = sampled.length < 2 ? [] : sampled.map((at) => deviateOf(works, at));
  const behind = drills.length < 2 ? [] : drills.map((t) => behindOthers(t, drills));
  return {
    ps: [...deviates.map((z) => (z === null ? 1 : tTail(z, null))), ...behind.map((d) => d.p)],
    weakest(stands) {
      const weak = deviates
        .flatMap((z, i) => (stands[i] && z! < 0 ? [sampled[i]!] : []))
        .map((at) => weakCell(placed, works, at))
        .filter((found) => !noClearChange(found.difference) && found.difference.value! < 0)
        .sort((a, b) => a.difference.value! - b.difference.value!);
      const low = drills
        .filter((_, i) => stands[deviates.length + i] && behind[i]!.value < 0)
        .sort((a, b) => a.share! - b.share!);
      return {
        placed: placed.reduce((sum, list) => sum + list.length, 0),
        cells: sampled.length,
        drills,
        cell: weak[0] ?? null,
        drill: low[0] ?? null,
      };
    },
  };
}

/** The balls of one kind of work on one day, with their cells. */
interface Work {
  readonly session: string | null;
  readonly values: readonly number[];
  readonly cells: readonly number[];
}

function worksOf(placed: readonly (readonly Ball[])[]): Work[] {
  const works = new Map<string, { session: string | null; values: number[]; cells: number[] }>();
  placed.forEach((list, cell) =>
    list.forEach(({ session, input, power_kept }) => {
      const key = JSON.stringify([session, input]);
      const work = works.get(key) ?? { session, values: [], cells: [] };
      works.set(key, work);
      work.values.push(power_kept);
      work.cells.push(cell);
    }),
  );
  return [...works.values()];
}

const deviateOf = (works: readonly Work[], at: number): number | null =>
  rankDeviate(works.map(({ values, cells: of }) => ({ values, asked: of.map((c) => c === at) })));

function weakCell(placed: readonly (readonly Ball[])[], works: readonly Work[], at: number): WeakCell {
  const sides = [true, false].map((asked) => {
    const values: number[] = [];
    const sessions: (string | null)[] = [];
    for (const work of works) {
      const usual = median(work.values)!;
      work.values.forEach((v, i) => {
        if ((work.cells[i] === at) !== asked) return;
        values.push(v - usual);
        sessions.push(work.session);
      });
    }
    return { values, sessions };
  });
  const of = (list: readonly Ball[]) => ({
    n: list.length,
    median: median(list, (r) => r.power_kept) ?? NaN,
  });
  return {
    cell: cells[at]!,
    difference: medianDifference(sides[1]!, sides[0]!),
    here: of(placed[at]!),
    elsewhere: of(placed.filter((_, i) => i !== at).flat()),
  };
}

/** How far a drill is met less often than all others together. */
function behindOthers(t: TargetResult, all: readonly TargetResult[]): { p: number; value: number } {
  const [own, others] = [[t], all.filter((o) => o !== t)].map((list) => {
    const days = list.flatMap((o) => o.sessions);
    return {
      values: days.flatMap(({ count, n }) => Array.from({ length: n }, (_, i) => Number(i < count))),
      sessions: days.flatMap(({ session, n }) => Array.from({ length: n }, () => session)),
    };
  });
  const difference = shareDifference(others!, own!);
  return { p: pOf(difference), value: difference.value ?? 0 };
}
