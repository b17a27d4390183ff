/** The order that names stand in wherever they are listed by name: of hitters, pitchers, sessions, files. */
import { once } from "./once.ts";

/** Of one language whatever the reader's, as the same library says the same everywhere. Making it takes milliseconds. */
const collator = once(() => new Intl.Collator("en", { numeric: true }));

/**
 * Compares two names as people look them up: numbers in them by size, capitals and accents beside their letters. No two
 * different names are alike, so that a list's order doesn't depend on how its names came.
 * Source: Unicode Technical Standard 10 (collation), with numeric ordering.
 * @returns below 0 where `a` stands before `b`, above 0 where after it, 0 for the same name
 * @example ["Hitter 10", "Hitter 2", "Hitter 1"].sort(byName) // ["Hitter 1", "Hitter 2", "Hitter 10"]
 * @example ["Zoe", "ana", "Émile", "Finn"].sort(byName) // ["ana", "Émile", "Finn", "Zoe"]
 * @example ["Bay 2", "Bay 02"].sort(byName) // ["Bay 02", "Bay 2"]
 */
export function byName(a: string, b: string): number {
  return collator().compare(a, b) || (a < b ? -1 : a > b ? 1 : 0);
}
