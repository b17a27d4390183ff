/**
 * The names that fields take from the tables in data/: playing fields, balls, levels. A name is compared without
 * capitals and further blanks, and one that a table doesn't hold is told with those it does, the nearest first.
 */
import { distance } from "fastest-levenshtein";
import balls from "../../data/balls.json" with { type: "json" };
import levels from "../../data/levels.json" with { type: "json" };
import fields from "../../data/playing-fields.json" with { type: "json" };
import { ownFields } from "./ownFields.ts";

/** The names of one table. */
export interface NameTable {
  /** What the table is called. */
  readonly what: string;
  readonly names: readonly string[];
  /** Other names of the same, each with the table's. */
  readonly also: Readonly<Record<string, string>>;
  /** What a name stands for, where it doesn't say so itself. */
  readonly titles: Readonly<Record<string, string>>;
  /** What becomes of a row with another name. */
  readonly others: "refused" | "warned of";
  /** What the row goes without then, where it is taken. */
  readonly without?: string;
}

const builtFields = fields.fields.map(({ name }) => name);
const builtTitles = Object.fromEntries(fields.fields.map(({ name, title }) => [name, title]));

/** The playing fields of data/playing-fields.json, and a library's own. */
export const fieldNames: NameTable = {
  what: "field table",
  get names() {
    const own = ownFields();
    return own.length === 0 ? builtFields : [...builtFields, ...own.map(({ field }) => field)];
  },
  also: {},
  titles: builtTitles,
  others: "refused",
};

/** The balls of data/balls.json. */
export const ballNames: NameTable = {
  what: "ball table",
  names: balls.balls.map(({ name }) => name),
  also: Object.fromEntries(balls.balls.flatMap(({ name, also = [] }) => also.map((other) => [other, name]))),
  titles: {},
  others: "refused",
};

/** The levels of data/levels.json. A level only steadies a ceiling, so a row with another one is still of use. */
export const levelNames: NameTable = {
  what: "level table",
  names: levels.levels.map(({ name }) => name),
  also: {},
  titles: {},
  others: "warned of",
  without: "the hitter's ceiling has no level to lean on",
};

/** Whether a name is one of the field table's own. */
export const isBuiltField = (name: string): boolean =>
  builtFields.some((known) => plain(known) === plain(name));

const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, " ");

/**
 * A name as the table writes it; null when the table doesn't hold it.
 * @example nameIn(levelNames, " High  School") // "high school"
 * @example nameIn(ballNames, "12-inch softball") // "softball"
 * @example nameIn(fieldNames, "60-90") // null
 * @example nameIn(ballNames, "constructor") // null
 */
export function nameIn({ names, also }: NameTable, text: string): string | null {
  const wanted = plain(text);
  return names.find((name) => plain(name) === wanted) ?? (Object.hasOwn(also, wanted) ? also[wanted]! : null);
}

/** Letters and digits alone, so that marks and blanks make no name a far one. */
const letters = (text: string): string =>
  text
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, "");

/**
 * How far a name is from the one asked for: letters to change, add or take away (Levenshtein, Soviet Physics Doklady
 * 10, 1966, 707); one that holds the other is as good as near.
 */
export function farOff(asked: string, name: string): number {
  const [a, b] = [letters(asked), letters(name)];
  if (a !== "" && (b.includes(a) || a.includes(b))) return Math.abs(a.length - b.length) / 100;
  return distance(a, b);
}

/** Whether two names are the same but for capitals, marks and blanks. */
export const sameLetters = (a: string, b: string): boolean => letters(a) === letters(b);

/**
 * Names in the order of how near they are to the one asked for; as they come where that is the same.
 * @example nearestFirst("sofball", ["baseball", "softball"]) // ["softball", "baseball"]
 */
export function nearestFirst(asked: string, names: readonly string[]): string[] {
  return names
    .map((name) => ({ name, far: farOff(asked, name) }))
    .sort((a, b) => a.far - b.far)
    .map(({ name }) => name);
}

/**
 * That a table doesn't hold a name, and which it does: it goes on from the name.
 * @example notAmong(ballNames, "soft ball") // "is not in the ball table (softball, 11-inch softball, baseball)"
 */
export function notAmong({ what, names }: NameTable, asked: string): string {
  return `is not in the ${what} (${nearestFirst(asked, names).join(", ")})`;
}
