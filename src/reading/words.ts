/**
 * What headings and words mean, by data/layout-words.json: which field a heading could be, which of a field's words a
 * cell means, which way a heading says that its numbers count.
 */
import { largest } from "../swing/lists.ts";
import { once } from "../swing/once.ts";
import table from "../../data/layout-words.json" with { type: "json" };
import type { UnitName } from "../units/index.ts";
import { unitSpelled } from "./measure.ts";

/**
 * A text as it is compared: without capitals, accents and marks, and with humps and underscores as blanks.
 * @example plain("ExitVelo_Höhe (°)") // "exit velo hohe"
 */
export function plain(text: string): string {
  return text
    .normalize("NFKC")
    .replace(/(\p{Ll})(?=\p{Lu})/gu, "$1 ")
    .toLowerCase()
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .normalize("NFC")
    .replaceAll("ß", "ss")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

const compact = (text: string): string => text.replaceAll(" ", "");
const isScript = (text: string): boolean =>
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}]/u.test(text);
/** A phrase as it is compared, and with umlauts written out. */
const variants = (phrase: string): string[] => {
  const written = phrase.replace(/[äöü]/gi, (letter) => `${letter}`.normalize("NFD")[0]! + "e");
  return [...new Set([plain(phrase), plain(written)])];
};

type ByLanguage = Readonly<Record<string, readonly string[]>>;

interface Phrase {
  readonly field: string;
  readonly text: string;
  readonly tokens: readonly string[];
  readonly isWeak: boolean;
  readonly language: string;
}

const headings = (): readonly Phrase[] =>
  Object.entries(table.headings as Readonly<Record<string, ByLanguage>>).flatMap(([field, languages]) =>
    Object.entries(languages).flatMap(([language, phrases]) =>
      phrases.flatMap((phrase) => {
        const isWeak = phrase.startsWith("~");
        return variants(phrase.replace(/^~/, "")).map((text): Phrase => ({
          field,
          text,
          tokens: text.split(" "),
          isWeak,
          language,
        }));
      }),
    ),
  );

/** Phrases by a key, so that a sheet of thousands of columns costs no more than a look-up each. */
function indexed(
  phrases: readonly Phrase[],
  keyOf: (phrase: Phrase) => string,
): ReadonlyMap<string, readonly Phrase[]> {
  const found = new Map<string, Phrase[]>();
  for (const phrase of phrases) {
    const key = keyOf(phrase);
    const there = found.get(key);
    if (there === undefined) found.set(key, [phrase]);
    else there.push(phrase);
  }
  return found;
}

/** The phrases of headings, by what they are looked up with. */
const phrases = once(() => {
  const all = headings();
  const inLetters = all.filter(({ text }) => !isScript(text));
  return {
    listed: indexed(all, ({ text }) => compact(text)),
    byStart: indexed(
      all.filter(({ text }) => isScript(text) && compact(text).length >= 2),
      ({ text }) => compact(text).slice(0, 2),
    ),
    /** By how their first word begins: a word that is cut short keeps three letters. */
    byWord: indexed(inLetters, ({ tokens }) => tokens[0]!.slice(0, 3)),
    /** Long enough to be told inside a longer word. */
    insideWords: indexed(
      inLetters.filter(({ text }) => compact(text).length >= 6),
      ({ text }) => compact(text).slice(0, 6),
    ),
  };
});

const isListedName = (name: string): boolean => phrases().listed.has(compact(name));

/** A heading in its parts. */
export interface HeadingParts {
  /** The name alone, as it is compared. */
  readonly name: string;
  /** The units that it could name. */
  readonly units: readonly UnitName[];
  /** The end that counts as positive, where it says so. */
  readonly positive: PositiveEnd | null;
}

const towards = table.toward as Readonly<Record<string, readonly string[]>>;
export type PositiveEnd = "left" | "right" | "pull" | "opposite" | "up" | "down";

interface SignItem {
  readonly isSign: boolean;
  /** Of a sign whether it is the positive one. */
  readonly isPositive?: boolean;
  readonly end?: PositiveEnd;
  readonly isDash: boolean;
}

const folded = (text: string): string =>
  text
    .normalize("NFKC")
    .replace(/[_]+/g, " ")
    .replace(/[\u2212\u2013\u2014]/g, "-")
    .toLowerCase()
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .normalize("NFC");

const signWords = once(
  () =>
    new Map<string, SignItem>(
      [
        ...Object.entries(towards).flatMap(([end, words]) =>
          words.map((word) => ({ word, item: { isSign: false, end: end as PositiveEnd, isDash: false } })),
        ),
        ...table.positive.map((word) => ({ word, item: { isSign: true, isPositive: true, isDash: false } })),
        ...table.negative.map((word) => ({
          word,
          item: { isSign: true, isPositive: false, isDash: word === "-" },
        })),
      ].map(({ word, item }) => [folded(word), item]),
    ),
);

/** Every word of signs and ends, the longest first, each a word of its own where its script parts words. */
const signPattern = once(
  () =>
    new RegExp(
      [...signWords().keys()]
        .sort((a, b) => b.length - a.length)
        .map((word) => {
          if (word === "-") return "(?<![\\p{L}\\p{N}])-(?!\\d)";
          const text = word.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
          return isScript(word) || word === "+" ? text : `(?<![\\p{L}\\p{N}])${text}(?![\\p{L}\\p{N}])`;
        })
        .join("|"),
      "gu",
    ),
);

/** The signs and ends that a heading names, in order, and the heading without them. */
function signItems(text: string): { items: SignItem[]; rest: string } {
  const items = [...text.matchAll(signPattern())].map(([word]) => signWords().get(word)!);
  return { items, rest: items.length === 0 ? text : text.replace(signPattern(), " ") };
}

const opposite: Readonly<Record<PositiveEnd, PositiveEnd>> = {
  left: "right",
  right: "left",
  pull: "opposite",
  opposite: "pull",
  up: "down",
  down: "up",
};

/** The end that pairs of a sign and an end make positive; null where they don't agree. */
function positiveOf(items: readonly SignItem[]): PositiveEnd | null {
  const signs = items.filter(({ isSign }) => isSign).length;
  if (signs === 0 || signs * 2 > items.length + 1) return null;
  // A dash between words is no minus where another sign says it.
  if (signs * 2 !== items.length)
    return items.some(({ isDash }) => isDash) ? positiveOf(items.filter(({ isDash }) => !isDash)) : null;
  const ends = new Set<PositiveEnd>();
  for (let i = 0; i < items.length; i += 2) {
    const [a, b] = [items[i]!, items[i + 1]!];
    if (a.isSign === b.isSign) return null;
    const sign = a.isSign ? a : b;
    const end = (a.isSign ? b : a).end!;
    ends.add(sign.isPositive === true ? end : opposite[end]);
  }
  const [only, ...more] = ends;
  return more.length === 0 ? only! : null;
}

/** Units as headings spell them in two words. */
const parted: readonly (readonly [RegExp, UnitName])[] = [
  [/(^|\s)km\s?\/?\s?[hu]$/, "km/h"],
  [/(^|\s)m(?:\s?\/\s?|\s)s$/, "m/s"],
  [/(^|\s)ft(?:\s?\/\s?|\s)s$/, "ft/s"],
];

/**
 * A heading's name, units, and the end it says is positive.
 * @example headingParts("Spray (deg, + = left field)") // { name: "spray", units: ["deg"], positive: "left" }
 * @example headingParts("BALL_SPEED_KMH") // { name: "ball speed", units: ["km/h"], positive: null }
 */
export function headingParts(heading: string): HeadingParts {
  const text = folded(heading.normalize("NFKC").replace(/(\p{Ll})(?=\p{Lu})/gu, "$1 "))
    .replace(/\s+/g, " ")
    .trim();
  const { items, rest } = signItems(text);
  const positive = positiveOf(items);
  const named = positive === null ? text : rest;
  const brackets = [...named.matchAll(/[([{]([^)\]}]*)[)\]}]?/g)].map(([, inside]) => inside!.trim());
  let outside = named
    .replace(/[([{][^)\]}]*[)\]}]?/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  const units: UnitName[] = [];
  for (const inside of brackets)
    for (const part of [inside, ...inside.split(/[\s,;]+/)]) {
      const unit = unitSpelled(part);
      if (unit !== null) units.push(unit);
    }
  if (outside === "") outside = brackets.join(" ");
  else {
    const spelled = parted.find(([pattern]) => pattern.test(outside));
    const tail = / ([^ ]+)$/.exec(outside)?.[1] ?? (/([°º])$/.exec(outside)?.[1] || null);
    const unit = spelled?.[1] ?? (tail === null ? null : unitSpelled(tail.replace(/^[,;:]|[,;:]$/g, "")));
    // "Coming in" is no measure in inches.
    if (unit !== null && !(unit === "in" && isListedName(plain(outside)))) {
      units.push(unit);
      outside =
        spelled === undefined
          ? outside.slice(0, outside.lastIndexOf(tail!))
          : outside.replace(spelled[0], "");
      outside = outside.trim();
    }
  }
  // "In", "with" and the like before a unit.
  const name = plain(outside.replace(/ (in|en)$/, ""));
  return { name, units, positive };
}

/** How well a heading fits a field, 0 to 1. */
export interface HeadingFit {
  readonly field: string;
  readonly score: number;
  readonly language: string;
}

const weak = 0.72;
const wordsOf = (list: readonly string[]): ReadonlySet<string> => new Set(list.flatMap(variants));
const asOther = once(() => wordsOf(table.others));
const othersInScript = once(() => [...asOther()].filter(isScript));
const othersHands = once(() => wordsOf(table.othersHands));

/** Whether a heading is about a hand that is not the batter's. */
export const isOthersHand = (name: string): boolean =>
  name.split(" ").some((token) => othersHands().has(token)) ||
  [...othersHands()].some((w) => isScript(w) && name.includes(w));

/** How well a phrase's words stand in a heading, in any order and cut short: 0 where one is missing. */
function inWords(tokens: readonly string[], phrase: Phrase): number {
  let letters = 0;
  const left = [...tokens];
  // Other languages put words together: a "ball" is no "Ballrichtung" cut short.
  const isCut = phrase.language === "en";
  for (const word of phrase.tokens) {
    const at = left.findIndex(
      (token) => token === word || (isCut && token.length >= 3 && word.length >= 4 && word.startsWith(token)),
    );
    if (at < 0) return 0;
    letters += left[at]!.length;
    left.splice(at, 1);
  }
  const all = tokens.reduce((sum, token) => sum + token.length, 0);
  return Math.sqrt(letters / all);
}

/**
 * The fields that a heading could be, the likeliest first.
 * @param name as `headingParts` has it
 * @example headingFits("batted ball speed")[0].field // "exit_velocity_mph"
 */
export function headingFits(name: string): HeadingFit[] {
  if (name === "") return [];
  const { listed, byStart, byWord, insideWords } = phrases();
  const best = new Map<string, HeadingFit>();
  const note = (phrase: Phrase, score: number): void => {
    const { field, language } = phrase;
    const before = best.get(field);
    if (before === undefined || score > before.score + 1e-9) best.set(field, { field, score, language });
  };
  for (const phrase of listed.get(compact(name)) ?? []) note(phrase, phrase.isWeak ? weak : 1);
  const tokens = name.split(" ");
  const short = compact(name);
  if (name.length <= 60) {
    const full = ({ isWeak }: Phrase): number => (isWeak ? weak : 0.95);
    const part = (phrase: Phrase): number => Math.sqrt(compact(phrase.text).length / short.length);
    for (let at = 0; at < short.length; at++) {
      for (const phrase of byStart.get(short.slice(at, at + 2)) ?? [])
        if (short.startsWith(compact(phrase.text), at)) note(phrase, full(phrase) * part(phrase));
      for (const phrase of insideWords.get(short.slice(at, at + 6)) ?? [])
        if (short.startsWith(compact(phrase.text), at)) note(phrase, full(phrase) * 0.95 * part(phrase));
    }
    for (const start of new Set(tokens.map((token) => token.slice(0, 3))))
      for (const phrase of byWord.get(start) ?? []) {
        const share = inWords(tokens, phrase);
        if (share > 0) note(phrase, full(phrase) * share);
      }
  }
  const isOther =
    tokens.some((token) => asOther().has(token)) || othersInScript().some((word) => short.includes(word));
  return [...best.values()]
    .map((fit) => ({ ...fit, score: isOther && !listed.has(short) ? fit.score * 0.4 : fit.score }))
    .filter(({ score }) => score >= 0.2)
    .sort((a, b) => b.score - a.score);
}

/**
 * Whether a heading is one that a list has as it stands: enough to tell a heading row by.
 * @example isListed("Exit velo (mph)") // true
 */
export const isListed = (heading: string): boolean => {
  if (heading.length > 80) return false;
  const { name } = headingParts(heading);
  return name !== "" && isListedName(name);
};

/** What a word is taken to mean. */
export interface Meaning {
  readonly means: string;
  readonly certainty: number;
}

const fillers = once(() => wordsOf(table.fillers));
const byField = once(
  () =>
    new Map(
      Object.entries(table.words as Readonly<Record<string, Readonly<Record<string, ByLanguage>>>>).map(
        ([field, meanings]) => {
          const exact = new Map<string, string>();
          for (const [means, languages] of Object.entries(meanings))
            for (const phrase of Object.values(languages).flat())
              for (const text of variants(phrase)) exact.set(text, means);
          return [field, exact] as const;
        },
      ),
    ),
);

/** The one meaning of several; null when they differ. */
const agreed = (meanings: Iterable<string>): string | null => {
  const [only, ...more] = new Set(meanings);
  return only === undefined || more.length > 0 ? null : only;
};

/**
 * What a word means as one of a field's words; null when that isn't known.
 * @example wordMeant("input", "Tee Session 2") // { means: "tee", certainty: 0.93 }
 * @example wordMeant("input", "tee or toss") // null
 */
export function wordMeant(field: string, word: string): Meaning | null {
  const exact = byField().get(field);
  if (exact === undefined) return null;
  const text = plain(word);
  const whole = exact.get(text) ?? exact.get(compact(text));
  if (whole !== undefined) return { means: whole, certainty: 0.97 };
  const tokens = text.split(" ").filter((token) => !/^\d+$/.test(token));
  const bare = tokens.filter((token) => !fillers().has(token)).join(" ");
  const stripped = exact.get(bare) ?? exact.get(tokens.join(" "));
  if (stripped !== undefined) return { means: stripped, certainty: 0.93 };
  if (text.length > 60) return null;
  const inside: { means: string; phrase: string }[] = [];
  for (const [phrase, means] of exact) {
    const stands = isScript(phrase)
      ? phrase.length >= 2 && text.includes(phrase)
      : phrase.length >= 3 && ` ${text} `.includes(` ${phrase} `);
    if (stands) inside.push({ means, phrase });
  }
  // "Live arm" has "arm" in it: a phrase inside another says nothing of its own.
  const own = inside.filter(
    ({ phrase }) => !inside.some((other) => other.phrase !== phrase && other.phrase.includes(phrase)),
  );
  const means = agreed(own.map((found) => found.means));
  return means === null ? null : { means, certainty: 0.88 };
}

/**
 * What single letters and short forms mean beside each other.
 * @returns by the letters as given; null where no list has two of them, or lists differ
 * @example lettersMeant("bats", ["D", "Z"]).get("Z") // "L"
 */
export function lettersMeant(field: string, cells: readonly string[]): ReadonlyMap<string, string> | null {
  const lists =
    (table.letters as unknown as Readonly<Record<string, readonly Readonly<Record<string, string>>[]>>)[
      field
    ] ?? [];
  const keys = cells.map((text) => text.trim().toUpperCase());
  const least = Math.min(2, cells.length);
  const counts = lists.map((list) => keys.filter((key) => Object.hasOwn(list, key)).length);
  const most = largest(counts, 0);
  if (most < least || most === 0) return null;
  const fitting = lists.filter((_, i) => counts[i] === most);
  const found = new Map<string, string>();
  for (const [i, key] of keys.entries()) {
    const means = agreed(fitting.flatMap((list) => (Object.hasOwn(list, key) ? [list[key]!] : [])));
    if (means !== null) found.set(cells[i]!, means);
  }
  return found.size === 0 ? null : found;
}

const totals = once(() => wordsOf(table.totals));

/**
 * Whether a row is one of totals or means under a table: its first cell says so.
 * @example isTotal(["", "Average", "88.1"]) // true
 */
export function isTotal(cells: readonly string[]): boolean {
  const first = cells.find((cell) => cell.trim() !== "");
  return first !== undefined && first.length < 40 && totals().has(plain(first));
}

const nothing = new Set(table.nothing.map((text) => text.toLowerCase()));

/** Whether a cell is a way of writing that nothing is known. */
export const isNothing = (cell: string): boolean => nothing.has(cell.trim().toLowerCase());

const names = once(() => ({ given: wordsOf(table.names.given), family: wordsOf(table.names.family) }));

/** Which part of a name a heading says it is. */
export const namePart = (name: string): "given" | "family" | null =>
  names().given.has(name) ? "given" : names().family.has(name) ? "family" : null;
