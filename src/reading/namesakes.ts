/** Hitters who stand under more than one spelling of a name: their swings are taken for those of several. */
import { distance } from "fastest-levenshtein";
import type { NameRow } from "../swing/fields.ts";
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

/** A spelling as answers are found by it. */
const spelling = (name: string): string => name.normalize("NFC").trim();

/**
 * Whose a name is, by the answers that are kept; the name itself where none is.
 * @example hitterMeant([{ spelled: "owen blake", hitter: "Owen Blake" }])("owen blake") // "Owen Blake"
 */
export function hitterMeant(answers: readonly NameRow[]): (name: string) => string {
  const bySpelling = new Map(answers.map(({ spelled, hitter }) => [spelling(spelled), hitter]));
  return (name) => bySpelling.get(spelling(name)) ?? name;
}

/**
 * Groups of names nearly alike that somebody still has to be asked about: those in which not every name is known to be
 * a hitter's own.
 * @param own the names of the file in hand: a group without one of them is not its matter
 * @example unanswered(["Lena Koch", "Lena Kock"], []).length // 1
 * @example unanswered(["Lena Koch", "Lena Kock"], [{ spelled: "Lena Koch", hitter: "Lena Koch" }, { spelled: "Lena Kock", hitter: "Lena Kock" }]) // []
 */
export function unanswered(
  names: Iterable<string>,
  answers: readonly NameRow[],
  own?: ReadonlySet<string | null>,
): string[][] {
  const settled = new Set(answers.map(({ spelled }) => spelling(spelled)));
  return namesakes(names).filter(
    (group) =>
      (own === undefined || group.some((name) => own.has(name))) &&
      group.some((name) => !settled.has(spelling(name))),
  );
}

/**
 * The answers that make a group of names one hitter's, or each a hitter's own.
 * @param hitter whose they all are; null for one each
 * @example answersFor(["Lena Koch", "Lena Kock"], "Lena Koch") // [{ spelled: "Lena Kock", hitter: "Lena Koch" }]
 */
export const answersFor = (group: readonly string[], hitter: string | null): NameRow[] =>
  hitter === null
    ? group.map((name) => ({ spelled: name, hitter: name }))
    : group.filter((name) => name !== hitter).map((spelled) => ({ spelled, hitter }));

const listed = new Intl.ListFormat("en");

/**
 * A warning for each hitter who seems to stand under several spellings in a file.
 * @param known `own`: the names of the file itself, where others are those that a library knows: a group that the
 *   library has among its own names is told by its own check. `answered`: what was asked before
 */
export function namesakeWarnings(
  names: Iterable<string>,
  file: string,
  known: { readonly own?: ReadonlySet<string>; readonly answered?: readonly NameRow[] } = {},
): Problem[] {
  const { own, answered = [] } = known;
  return unanswered(names, answered, own).flatMap((group) => {
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
          `a row of names.csv gives both one name`,
      },
    ];
  });
}
