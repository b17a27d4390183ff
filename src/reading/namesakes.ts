/** Hitters who stand under more than one spelling of a name: their swings are taken for those of several. */
import { distance } from "fastest-levenshtein";
import { quoted, type Problem } from "../swing/problems.ts";

/** A name's words without capitals, accents and marks, in order of the alphabet. */
const wordsOf = (name: string): string[] =>
  name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "")
    .sort();

/**
 * From so many letters on one letter more, less or other may be a slip: in a word beside another that is the same, and
 * in a name of one word. Shorter ones (Ana and Ann, Marta and Maria) are as often two names. Common practice, no source.
 */
const leastLetters = { besideAnother: 4, alone: 7 };

/** Whether two words differ by one letter more, less or other, or by two neighbours that changed places. */
function oneSlipApart(a: string, b: string): boolean {
  if (distance(a, b) === 1) return true;
  if (a.length !== b.length) return false;
  const at = [...a].findIndex((letter, i) => letter !== b[i]);
  return at >= 0 && a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2);
}

/** A word with each of its letters left out in turn, and whole: two words that are a slip apart share one of these. */
const shortened = (word: string): string[] => [
  word,
  ...Array.from(word, (_, i) => word.slice(0, i) + word.slice(i + 1)),
];

/**
 * Names that differ in nothing but capitals, accents, marks, spaces, the order of their words, or one letter of a word
 * that is long enough, in groups of two and more, as they first came. A word with a digit in it is a number and no slip.
 * @example namesakes(["Ana Ruiz", "Bo", "ruiz, ana"]) // [["Ana Ruiz", "ruiz, ana"]]
 * @example namesakes(["Lena Kock", "Lena Koch", "Ana", "Ann"]) // [["Lena Kock", "Lena Koch"]]
 */
export function namesakes(names: Iterable<string>): string[][] {
  const all = [...new Set(names)].map((name) => ({ name, words: wordsOf(name) }));
  // Each name leads to the first of its group, by way of others.
  const leads = all.map((_, i) => i);
  const first = (i: number): number => (leads[i] === i ? i : (leads[i] = first(leads[i]!)));
  const join = (a: number, b: number): void => {
    const [from, to] = [first(a), first(b)].sort((x, y) => y - x);
    leads[from!] = to!;
  };
  const same = new Map<string, number>();
  /** Where names stand that share all words but one, and that one but for a letter. */
  const near = new Map<string, { at: number; word: string }[]>();
  all.forEach(({ words }, at) => {
    // A name of marks alone says nothing.
    if (words.length === 0) return;
    const key = words.join(" ");
    const before = same.get(key);
    if (before !== undefined) return join(at, before);
    same.set(key, at);
    const least = words.length > 1 ? leastLetters.besideAnother : leastLetters.alone;
    words.forEach((word, i) => {
      if (word.length < least || /\p{N}/u.test(word)) return;
      const others = words.filter((_, j) => j !== i).join(" ");
      for (const part of new Set(shortened(word))) {
        const place = `${others}\n${part}`;
        const there = near.get(place);
        for (const other of there ?? []) if (oneSlipApart(word, other.word)) join(at, other.at);
        if (there === undefined) near.set(place, [{ at, word }]);
        else there.push({ at, word });
      }
    });
  });
  const groups = new Map<number, string[]>();
  all.forEach(({ name }, at) => {
    const group = groups.get(first(at));
    if (group === undefined) groups.set(first(at), [name]);
    else group.push(name);
  });
  return [...groups.values()].filter((group) => group.length > 1);
}

const listed = new Intl.ListFormat("en");

/**
 * A warning for each hitter who seems to stand under several spellings in a file.
 * @param own the names of the file itself, where others are those that a library knows: a group that the library has
 *   among its own names is told by its own check
 */
export function namesakeWarnings(
  names: Iterable<string>,
  file: string,
  own?: ReadonlySet<string>,
): Problem[] {
  return namesakes(names).flatMap((group) => {
    const value = own === undefined ? group[0] : group.find((name) => own.has(name));
    if (value === undefined) return [];
    const others = group.filter((name) => name !== value);
    return [
      {
        kind: "warning" as const,
        file,
        row: null,
        field: "hitter",
        value,
        reason:
          `may be the same as ${listed.format(others.map(quoted))}, and counts as another; ` +
          `a column map's words can give both one name`,
      },
    ];
  });
}
