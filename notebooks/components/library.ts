/** The library in a page: `library.json`, beside the page, as rows. */
import { knowFields } from "../../src/swing/ownFields.ts";
import { fromColumnsSteps } from "../../src/swing/columns.ts";
import { allSteps } from "../../src/swing/lists.ts";
import {
  computedFields,
  swingFields,
  type EnrichedSwing,
  type Hitter,
  type NameRow,
  type OwnField,
  type Session,
  type Target,
} from "../../src/swing/fields.ts";
import { inSlices } from "./meanwhile.ts";
import type { SourceFile } from "../../src/report/foot.ts";
import type { ColumnMap } from "../../src/reading/maps.ts";
import type { Trust } from "../../src/setup/trust.ts";

/** What `library.json` holds. */
export interface LibraryFile {
  /** The folder's name. */
  readonly name: string;
  readonly swings: { readonly n: number; readonly columns: Readonly<Record<string, Packed>> };
  readonly sessions: readonly Session[];
  readonly hitters: readonly Hitter[];
  readonly targets: readonly Target[];
  /** What was asked about names nearly alike, and answered. */
  readonly names: readonly NameRow[];
  /** The facility's own playing fields. */
  readonly fields: readonly OwnField[];
  readonly thresholds: unknown;
  /** The column maps it keeps, the newest first. */
  readonly maps: readonly ColumnMap[];
  readonly files: readonly SourceFile[];
  readonly refused: number;
  readonly warnings: number;
  /** The first refused rows and warnings, a sentence each. */
  readonly problems: readonly string[];
  /** What of the tables beside the swings can't be used, a sentence each: every page says so. */
  readonly tables: readonly string[];
  /** Whole files that could not be read, a sentence each: nothing of them is in any figure. */
  readonly unread: readonly string[];
  /** Those files' names. */
  readonly unreadFiles: readonly string[];
  /** The kit's version. */
  readonly version: string;
  /** What the checks say of each session. */
  readonly trust: readonly Trust[];
  /** Why the library could not be opened, or null. */
  readonly trouble: string | null;
}

/** A column as it travels: its values, or the words that occur in it and which of them stands where. */
export type Packed =
  readonly unknown[] | { readonly words: readonly string[]; readonly at: readonly number[] };

/**
 * A column made small: words that recur are written once.
 * @example pack(["tee", "tee", null, "tee", "live"]) // { words: ["tee", "live"], at: [0, 0, -1, 0, 1] }
 * @example pack([1.5, null]) // [1.5, null]
 */
export function pack(values: readonly unknown[]): Packed {
  if (values.some((value) => value !== null && typeof value !== "string")) return values;
  const places = new Map<string, number>();
  const at = (values as readonly (string | null)[]).map((word) => {
    if (word === null) return -1;
    if (!places.has(word)) places.set(word, places.size);
    return places.get(word)!;
  });
  return places.size > values.length / 2 ? values : { words: [...places.keys()], at };
}

/**
 * The values of a packed column.
 * @example unpack({ words: ["tee"], at: [0, -1] }) // ["tee", null]
 */
export function unpack(column: Packed): readonly unknown[] {
  return "words" in column ? column.at.map((place) => column.words[place] ?? null) : column;
}

/** A library opened in a page: the file, with its swings as rows. */
export interface PageLibrary extends Omit<LibraryFile, "swings"> {
  readonly swings: readonly EnrichedSwing[];
}

const nothing: PageLibrary = {
  name: "",
  swings: [],
  sessions: [],
  hitters: [],
  targets: [],
  names: [],
  fields: [],
  thresholds: null,
  maps: [],
  files: [],
  refused: 0,
  warnings: 0,
  problems: [],
  tables: [],
  unread: [],
  unreadFiles: [],
  version: "",
  trust: [],
  trouble: null,
};

/** A library file as a page uses it. One that could not be opened has no rows, and says why. */
export const pageLibrary = (file: LibraryFile | { trouble: string }): PageLibrary =>
  allSteps(pageLibrarySteps(file));

/** The same, some columns or rows a step. */
function* pageLibrarySteps(file: LibraryFile | { trouble: string }): Generator<void, PageLibrary> {
  if (!("swings" in file)) return { ...nothing, trouble: file.trouble };
  knowFields(file.fields);
  const { n, columns } = file.swings;
  const unpacked: Record<string, readonly unknown[]> = {};
  for (const [name, column] of Object.entries(columns)) {
    unpacked[name] = unpack(column);
    yield;
  }
  const fields = [...swingFields, ...computedFields];
  const rows = yield* fromColumnsSteps({ n, columns: unpacked }, fields);
  return { ...file, swings: rows as EnrichedSwing[] };
}

/** The element of a page to send that holds its library: such a page is one file, with nothing beside it. */
export const libraryWithin = "library-within";

/** Who is given a library's file as soon as it is there, before it is read. */
const hearers: ((file: ArrayBuffer) => void)[] = [];

/** Has something given each version of the library's file, before the page reads it. */
export const whenFetched = (hear: (file: ArrayBuffer) => void): void => void hearers.push(hear);

const files = new WeakMap<PageLibrary, ArrayBuffer>();

/** The file that a library was read from; undefined where it holds more than a file's rows. */
export const fileOf = (library: PageLibrary): ArrayBuffer | undefined => files.get(library);

/** Reads a library's file. */
export const readLibrary = (file: ArrayBuffer): PageLibrary => allSteps(readingSteps(file));

/** The same step by step: its text, what it holds, then some columns or rows. */
function* readingSteps(file: ArrayBuffer): Generator<void, PageLibrary> {
  const text = new TextDecoder().decode(file);
  yield;
  const parsed = JSON.parse(text) as LibraryFile | { trouble: string };
  yield;
  return yield* pageLibrarySteps(parsed);
}

const fileName = "library.json";

/**
 * Bytes of the library's file, if the browser has fetched it already: every page asks for it before its code is there. Null
 * where that isn't known yet.
 */
export function fetchedBytes(): number | null {
  if (typeof document === "undefined") return null;
  const [entry] = performance.getEntriesByName(new URL(fileName, document.baseURI).href, "resource");
  const bytes = (entry as PerformanceResourceTiming | undefined)?.decodedBodySize ?? 0;
  return bytes === 0 ? null : bytes;
}

/** Opens the library that the page was served or built with. */
export async function openLibrary(base: string = document.baseURI): Promise<PageLibrary> {
  const within = document.getElementById(libraryWithin);
  if (within !== null) return pageLibrary(JSON.parse(within.textContent ?? "") as LibraryFile);
  const response = await fetch(new URL(fileName, base));
  try {
    const file = await response.arrayBuffer();
    for (const hear of hearers) hear(file);
    const library = (await inSlices(readingSteps(file)))!.value;
    files.set(library, file);
    return library;
  } catch {
    return { ...nothing, trouble: "The file library.json, which belongs beside this page, can't be read." };
  }
}
