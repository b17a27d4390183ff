/**
 * Who needs what next: for each hitter of a group the largest part of the gap between tee and live, the weakest place in
 * the zone or the weakest drill, each only where it stands after Holm over every line of every hitter that it was picked
 * from. Nobody is ranked against anybody.
 */
import { largestParts, tellable, type LargestPart } from "../gap/largest.ts";
import { splitExitVelocity, type ExitVelocitySplit } from "../gap/parts.ts";
import { readyIn, sidesOf, type Ready } from "../gap/rows.ts";
import { pOf, standing } from "../stats/holm.ts";
import type { Target } from "../swing/fields.ts";
import { allSteps } from "../swing/lists.ts";
import type { SwingScope } from "../views/filter.ts";
import { targetResult } from "../views/target.ts";
import { looksAt, type Looks, type WeakCell } from "../views/weakness.ts";
import type { TargetResult } from "../views/target.ts";
import type { ZoneOptions } from "../views/zone.ts";

/** What a hitter needs next, with what it rests on. */
export type Need =
  | {
      readonly kind: "gap";
      readonly largest: LargestPart;
      readonly n: { readonly from: number; readonly to: number };
    }
  | { readonly kind: "place"; readonly cell: WeakCell }
  | { readonly kind: "drill"; readonly drill: TargetResult };

/** One hitter's need; null where nothing stands. */
export interface HitterNeed {
  readonly hitter: string;
  readonly need: Need | null;
  /** Everything else that stands for this hitter, in the same order. */
  readonly also: readonly Need[];
  /** Lines that were looked at for this hitter. */
  readonly lines: number;
  readonly swings: number;
}

/** A group's needs. */
export interface Needs {
  readonly hitters: readonly HitterNeed[];
  /** Lines that were looked at in all: parts of gaps, cells of the zone, drills. */
  readonly lines: number;
}

/** What needs are told from. */
export interface NeedsOptions extends SwingScope {
  readonly targets?: readonly Target[];
  /** What each hitter's cells are measured by. */
  readonly zone?: (hitter: string) => ZoneOptions;
  /** Each hitter's gap in this scope, kept by a caller who shows it as well; worked out when left out. */
  readonly split?: (hitter: string) => ExitVelocitySplit;
}

interface Looked {
  readonly hitter: string;
  readonly split: ExitVelocitySplit;
  readonly looks: Looks;
  readonly swings: number;
  readonly ps: readonly number[];
}

/**
 * What each hitter needs next.
 * @param ready from `makeReady`
 * @example needs({ swings: [], hitters: [], thresholds: {} }).lines // 0
 */
export function needs(ready: Ready, options: NeedsOptions = {}): Needs {
  return allSteps(needsSteps(ready, options));
}

/**
 * The same, one hitter a step: for a page that has to answer a key meanwhile.
 * @returns what `needs` gives
 */
export function* needsSteps(ready: Ready, options: NeedsOptions = {}): Generator<void, Needs> {
  const { targets = [], zone = () => ({}), split: kept } = options;
  const inside = readyIn(ready, options);
  const all: Looked[] = [];
  for (const hitter of ready.hitters) {
    const rows = inside.filter((s) => s.hitter === hitter);
    const split = kept?.(hitter) ?? splitExitVelocity(sidesOf(ready, hitter, options), ready);
    const results = targets.map((target) => targetResult(rows, target)).filter(({ n }) => n > 0);
    const looks = looksAt(rows, results, zone(hitter));
    const ps = [...tellable(split).map(pOf), ...looks.ps];
    all.push({ hitter, split, looks, swings: rows.length, ps });
    yield;
  }
  const stands = standing(all.flatMap(({ ps }) => ps));
  let from = 0;
  const hitters = all.map(({ hitter, split, looks, swings, ps }): HitterNeed => {
    const own = stands.slice(from, (from += ps.length));
    const found = needOf(split, looks, own);
    return { hitter, need: found[0] ?? null, also: found.slice(1), lines: ps.length, swings };
  });
  return { hitters, lines: from };
}

/** What stands: the part of the gap first, for it is what games cost; then the place, then the drill. */
function needOf(split: ExitVelocitySplit, looks: Looks, stands: readonly boolean[]): Need[] {
  const parts = tellable(split).length;
  const largest = largestParts(split, stands.slice(0, parts)).find(({ way }) => way === "lost");
  const { cell, drill } = looks.weakest(stands.slice(parts));
  return [
    ...(largest === undefined
      ? []
      : [{ kind: "gap" as const, largest, n: { from: split.from.n, to: split.to.n } }]),
    ...(cell === null ? [] : [{ kind: "place" as const, cell }]),
    ...(drill === null ? [] : [{ kind: "drill" as const, drill }]),
  ];
}
