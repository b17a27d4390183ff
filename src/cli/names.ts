/** A name that a call gives, found among those there are. */
import { byName } from "../swing/byName.ts";
import { farOff, nearestFirst, sameLetters } from "../swing/names.ts";
import { quoted } from "../swing/problems.ts";
import { Fault } from "./errors.ts";

/** The name asked for, as the library writes it; a sentence with the nearest ones when it has none such. */
export function nameMeant(asked: string, names: readonly string[], what: string): string {
  if (names.includes(asked)) return asked;
  const same = names.filter((name) => sameLetters(name, asked));
  if (same.length === 1) return same[0]!;
  const near = nearestFirst(asked, names.toSorted(byName))
    .filter((name) => farOff(asked, name) < 0.5 * Math.max(asked.length, name.length))
    .slice(0, 3)
    .map(quoted);
  const nearest =
    near.length === 0 ? "" : `; the nearest ${near.length === 1 ? "is" : "are"} ${near.join(", ")}`;
  throw new Fault(`There is no ${what} named ${quoted(asked)} in the library${nearest}.`, 2);
}
