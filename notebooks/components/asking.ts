/** The comparisons that a cell needs, made beside the page where the library is large: then the cell has them at hand. */
import type { MeasureName } from "../../src/gap/measures.ts";
import { apart, isApart, type Display } from "./apart.ts";
import type { Ask, Comparisons } from "./comparison.ts";
import type { PageLibrary } from "./library.ts";
import { meanwhile } from "./meanwhile.ts";
import type { Scope } from "./scope.ts";
import { compared, comparedAhead } from "./works/comparisons.ts";

/**
 * Has what a cell asks for worked out. A small library's comparisons are made when the cell reads them.
 * @param what it is that the cell shows: told while it is worked out; a cell has one such question at a time
 * @returns the comparisons, those asked for at hand
 */
export async function asking(
  display: Display,
  { library, compare, leaveOut }: Asking,
  what: string,
  asks: readonly Ask[],
): Promise<Comparisons> {
  const missing = isApart(library) ? asks.filter((ask) => !compare.has(ask)) : [];
  if (missing.length > 0) {
    const work = { ...compared, slot: what, what };
    const answers = await apart(display, work, library, leaveOut, missing);
    missing.forEach((ask, i) => compare.put(ask, answers[i]));
  }
  return compare;
}

/** Which comparisons of a library. */
export interface Asking {
  readonly library: PageLibrary;
  readonly compare: Comparisons;
  /** Whether readings in doubt are left out of them. */
  readonly leaveOut: boolean;
}

/** Works out what may be asked next while nobody asks anything. */
export function askedAhead({ library, compare, leaveOut }: Asking, scope: Scope, measure: MeasureName): void {
  if (isApart(library)) void apart(() => {}, comparedAhead, library, leaveOut, scope, measure);
  else meanwhile(compare.ahead(scope, measure));
}
