/** A plan of stations for a practice, from what each hitter needs: who, which drill, what window, how many swings. */
import type { ReadySwing } from "../gap/rows.ts";
import type { Cell } from "../field/zone.ts";
import type { Target } from "../swing/fields.ts";
import { inPlay, swungAt } from "../views/swings.ts";
import { windowOf } from "../views/target.ts";
import type { WindowEnds } from "../views/window.ts";
import type { HitterNeed, Need, Needs } from "./needs.ts";

/** A hitter at a station, and why. */
export interface Placed {
  readonly hitter: string;
  /** What stands for the hitter; null where nothing does: then it is the drill swung at least. */
  readonly need: Need | null;
}

/** A station: a drill with its window. */
export interface Station {
  readonly drill: string;
  readonly window: readonly WindowEnds[];
  readonly hitters: readonly Placed[];
}

/** So many swings in a row, at the most. Common practice, no source. */
export const roundAtMost = 10;

/**
 * A hitter's swings in rounds of `roundAtMost` or fewer, as even as they go.
 * @param swings within the count that the coach sets
 * @example roundsOf(25) // [9, 8, 8]
 * @example roundsOf(10) // [10]
 * @example roundsOf(0) // []
 */
export function roundsOf(swings: number): number[] {
  const rounds = Math.ceil(swings / roundAtMost);
  return Array.from({ length: rounds }, (_, i) => Math.floor((swings + rounds - 1 - i) / rounds));
}

/**
 * A plan: every hitter at one station. Who has a drill that lags behind goes there; who has a weak place, to the drill whose
 * balls were most often met there; who loses most by the gap, by the place named beside it, else to the drill off a pitch that
 * is swung at most; who has nothing clear, to the drill swung at least. No hitter without a swing is sent anywhere by a guess:
 * they come last, at the first station.
 * @param rows the swings that needs were told from
 * @param targets drills with a window; without one there are no stations
 * @example stationsFor({ hitters: [], lines: 0 }, [], []) // []
 */
export function stationsFor(
  { hitters }: Needs,
  rows: readonly ReadySwing[],
  targets: readonly Target[],
): Station[] {
  const drills = targets.filter((target) => windowOf(target).length > 0);
  if (drills.length === 0) return [];
  const names = drills.map(({ drill }) => drill);
  const places = new Map<string, Placed[]>(names.map((name) => [name, []]));
  for (const one of hitters) {
    const own = rows.filter(({ hitter }) => hitter === one.hitter);
    places.get(drillFor(one, own, rows, names))!.push({ hitter: one.hitter, need: one.need });
  }
  return drills.map((target) => ({
    drill: target.drill,
    window: windowOf(target),
    hitters: places.get(target.drill)!,
  }));
}

function drillFor(
  { need, also }: HitterNeed,
  own: readonly ReadySwing[],
  rows: readonly ReadySwing[],
  names: readonly string[],
): string {
  const needs = need === null ? [] : [need, ...also];
  const told = needs[0]?.kind === "drill" ? needs[0].drill.drill : null;
  if (told !== null && names.includes(told)) return told;
  const place = needs.find((one) => one.kind === "place");
  const found = place === undefined ? null : drillIn(place.cell.cell, rows, names);
  if (found !== null) return found;
  const count = (name: string, of: readonly ReadySwing[]): number =>
    swungAt(of).filter(({ drill }) => drill === name).length;
  if (need?.kind === "gap") {
    const pitched = rows.filter(({ input }) => input !== "tee");
    const most = firstMost(names, (name) => count(name, pitched));
    if (count(most, pitched) > 0) return most;
  }
  return own.length === 0 ? names[0]! : firstMost(names, (name) => -count(name, own));
}

/** The first of those that count the most. */
const firstMost = (names: readonly string[], of: (name: string) => number): string =>
  names.reduce((best, name) => (of(name) > of(best) ? name : best));

/** Balls of a drill in a cell before it counts as a drill for that place. Common practice, no source. */
const fewestThere = 10;

/** The drill whose balls were most often met in a cell, tee and flips alone: a live pitch goes where it goes. */
function drillIn(
  { row, column }: Cell,
  rows: readonly ReadySwing[],
  names: readonly string[],
): string | null {
  const at = row * 3 + column;
  const balls = inPlay(rows).filter(({ input, cell }) => input !== "live" && cell !== null);
  let best: { name: string; share: number } | null = null;
  for (const name of names) {
    const of = balls.filter(({ drill }) => drill === name);
    const there = of.filter(({ cell }) => cell === at).length;
    if (there < fewestThere) continue;
    const share = there / of.length;
    if (best === null || share > best.share) best = { name, share };
  }
  return best?.name ?? null;
}
