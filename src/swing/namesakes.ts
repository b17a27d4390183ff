/** Hitters who stand under more than one spelling of a name: their swings are taken for those of several. */
import { quoted, type Problem } from "./problems.ts";

/** A name without capitals, accents and marks, its words in order of the alphabet. */
const plain = (name: string): string =>
  name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "")
    .sort()
    .join(" ");

/**
 * Names that differ in nothing but capitals, accents, marks, spaces and the order of their words, in groups of two
 * and more, as they first came.
 * @example namesakes(["Ana Ruiz", "Bo", "ruiz, ana"]) // [["Ana Ruiz", "ruiz, ana"]]
 */
export function namesakes(names: Iterable<string>): string[][] {
  const groups = new Map<string, string[]>();
  for (const name of new Set(names)) {
    const key = plain(name);
    // A name of marks alone says nothing.
    if (key === "") continue;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [name]);
    else group.push(name);
  }
  return [...groups.values()].filter((group) => group.length > 1);
}

const listed = new Intl.ListFormat("en");

/** A warning for each hitter who seems to stand under several spellings in a file. */
export function namesakeWarnings(names: Iterable<string>, file: string): Problem[] {
  return namesakes(names).map(([first, ...others]) => ({
    kind: "warning",
    file,
    row: null,
    field: "hitter",
    value: first!,
    reason:
      `may be the same as ${listed.format(others.map(quoted))}, and counts as another; ` +
      `a column map's words can give both one name`,
  }));
}
