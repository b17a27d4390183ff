/** A name that a call gives, found among those there are. */
import { quoted } from "../swing/problems.ts";
import { Fault } from "./errors.ts";

/** The name asked for, as the library writes it; a sentence with the nearest ones when it has none such. */
export function nameMeant(asked: string, names: readonly string[], what: string): string {
  if (names.includes(asked)) return asked;
  const plain = (name: string): string =>
    name
      .normalize("NFKC")
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]/gu, "");
  const same = names.filter((name) => plain(name) === plain(asked));
  if (same.length === 1) return same[0]!;
  const near = names
    .map((name) => ({ name, far: distance(plain(asked), plain(name)) }))
    .filter(({ name, far }) => far < 0.5 * Math.max(asked.length, name.length))
    .sort((a, b) => a.far - b.far)
    .slice(0, 3)
    .map(({ name }) => quoted(name));
  const nearest =
    near.length === 0 ? "" : `; the nearest ${near.length === 1 ? "is" : "are"} ${near.join(", ")}`;
  throw new Fault(`There is no ${what} named ${quoted(asked)} in the library${nearest}.`, 2);
}

/** Letters to change, add or take away (Levenshtein); a name that holds the other counts as near. */
function distance(a: string, b: string): number {
  if (a !== "" && (b.includes(a) || a.includes(b))) return Math.abs(a.length - b.length) / 100;
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next[j] = Math.min(next[j - 1]! + 1, row[j]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1));
    row = next;
  }
  return row[b.length]!;
}
