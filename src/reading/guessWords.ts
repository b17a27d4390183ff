/** What a sheet's words mean among those of a field, or what has to be asked of them. */
import { wordKey } from "./cells.ts";
import { wordFit } from "./guessFields.ts";
import {
  ask,
  given,
  isNeededField,
  leastCertainty,
  meaningText,
  type Col,
  type GuessedWord,
  type Guessing,
  type Taken,
} from "./guessing.ts";
import { counted } from "../swing/words.ts";
import { plain, type Meaning } from "./words.ts";

const isBoth = (word: string): boolean =>
  ["s", "b", "switch", "both", "ambi", "switch hitter"].includes(plain(word));

/** A word as it stands in the sheet. */
const asItStands = (col: Col, word: string): string => col.cells.find((cell) => wordKey(cell) === word)!;

/** Settles the words of every column that has some, asks about the others, and lists all that are not the kit's own. */
export function guessWords(guessing: Guessing): GuessedWord[] {
  return guessing.taken.flatMap((t) => {
    if (t.field.words === undefined) return [];
    t.words = wordFit(t.field, t.col).words;
    const guessed = new Map(t.words);
    const found = [...guessed].flatMap(([word, meaning]) => wordOf(guessing, t, word, meaning));
    for (const { word, isOpen } of found) if (isOpen) askWord(guessing, t, word, guessed.get(word) ?? null);
    return found.flatMap(({ word, meaning }) => listed(t, word, meaning));
  });
}

/** One word's meaning, by an answer or as it seems; what is not sure enough means nothing, and is open. */
function wordOf(
  guessing: Guessing,
  t: Taken,
  word: string,
  meaning: Meaning | null,
): { word: string; meaning: Meaning | null; isOpen: boolean }[] {
  const answered = given(guessing, `word:${t.col.heading}:${word}`);
  if (answered !== undefined) {
    const found = answered === "" ? null : { means: answered, certainty: 1 };
    t.words.set(word, found);
    return [{ word, meaning: found, isOpen: false }];
  }
  if (meaning === null && t.field.name === "bats" && isBoth(word)) {
    standsForNothing(guessing, t, word);
    return [];
  }
  const isSure = meaning !== null && meaning.certainty >= leastCertainty;
  t.words.set(word, isSure ? meaning : null);
  return [{ word, meaning, isOpen: !isSure }];
}

/** Someone who hits from both sides hit this ball from either. */
function standsForNothing({ taken, nothings }: Guessing, t: Taken, word: string): void {
  if (taken.some((other) => other !== t && other.col.counts.has(word))) return;
  for (const cell of t.col.cells) if (wordKey(cell) === word) nothings.add(cell);
}

/** A word as the guess lists it, unless it is the kit's own. */
function listed({ field, col }: Taken, word: string, meaning: Meaning | null): GuessedWord[] {
  if (field.words!.some((own) => own.toLowerCase() === word)) return [];
  return [
    {
      heading: col.heading,
      field: field.name,
      word: asItStands(col, word),
      means: meaning?.means ?? null,
      certainty: meaning?.certainty ?? 0,
      rows: col.counts.get(word)!,
    },
  ];
}

function askWord(guessing: Guessing, { field, col }: Taken, word: string, guess: Meaning | null): void {
  const rows = counted(col.counts.get(word)!, "row");
  ask(guessing, {
    id: `word:${col.heading}:${word}`,
    kind: "word",
    heading: col.heading,
    text: `What does "${asItStands(col, word)}" in "${col.heading}" mean (${rows})?`,
    options: [
      ...field.words!.map((name) => ({ key: name, text: meaningText[name] ?? name })),
      { key: "", text: "none of these: its rows are refused" },
    ],
    likely: guess?.means ?? null,
    isNeeded: isNeededField(field),
  });
}
