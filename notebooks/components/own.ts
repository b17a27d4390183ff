/**
 * What a reader keeps in this browser, where no program serves the pages: swings, the tables beside them, column maps, and
 * the files as they were brought. It stays on this machine and belongs to this site alone; every page shows it among what
 * the site was built with. Each change is one transaction of the browser's database: all of it, or nothing.
 */
import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import { strToU8, zipSync } from "fflate";
import { enrich } from "../../src/contact/enrich.ts";
import { cellReader, Refusal } from "../../src/reading/cells.ts";
import { csvText } from "../../src/reading/csv.ts";
import type { ColumnMap } from "../../src/reading/maps.ts";
import { trustBySession } from "../../src/setup/trust.ts";
import {
  swingFields,
  type Hitter,
  type NameRow,
  type OwnField,
  type Session,
  type Swing,
  type Target,
} from "../../src/swing/fields.ts";
import type { SourceFile } from "../../src/report/foot.ts";
import { sha256Of } from "../../src/swing/sha256.ts";
import { fingerprint } from "../../src/swing/identity.ts";
import { swingTroubles } from "../../src/swing/rules.ts";
import { knowFields } from "../../src/swing/ownFields.ts";
import { tableOf } from "../../src/swing/tables.ts";
import type { PageLibrary } from "./library.ts";

type Row = Record<string, string | number | boolean | null>;
/** The tables beside the swings. */
export const companions = ["fields", "names", "sessions", "hitters", "targets"] as const;
export type Companion = (typeof companions)[number];

/** A file as it was brought, and how it was read. */
export interface BroughtFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly refused: number;
  /** Rows without a time that were copies of another; an earlier version of these pages didn't say. */
  readonly untimed?: number;
  /** When it was kept, ms since 1970; an earlier version of these pages didn't say. */
  readonly at?: number;
}

interface Schema extends DBSchema {
  swings: { key: string; value: Swing };
  sessions: { key: string; value: Row };
  hitters: { key: string; value: Row };
  targets: { key: string; value: Row };
  names: { key: string; value: Row };
  fields: { key: string; value: Row };
  maps: { key: number; value: ColumnMap };
  files: { key: number; value: BroughtFile };
}

const stores = ["swings", ...companions, "maps", "files"] as const;

/** Told when something was kept or wiped. */
export const ownChanged = "batted:own-changed";

let opened: Promise<IDBPDatabase<Schema>> | null = null;

/** The database of the site that this page belongs to: another one on the same host has its own. */
function database(): Promise<IDBPDatabase<Schema>> {
  opened ??= openDB<Schema>(`batted ${new URL(".", document.baseURI).pathname}`, 2, {
    upgrade(db) {
      // What an earlier version of these pages kept stays.
      const has = (name: (typeof stores)[number]): boolean => db.objectStoreNames.contains(name);
      if (!has("swings")) db.createObjectStore("swings", { keyPath: "swing_id" });
      for (const name of companions)
        if (!has(name)) db.createObjectStore(name, { keyPath: tableOf(name).key });
      for (const name of ["maps", "files"] as const)
        if (!has(name)) db.createObjectStore(name, { autoIncrement: true });
    },
    // Another tab wants it away: it is opened again when it is needed.
    blocking: (_current, _blocked, event) => {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated: () => (opened = null),
  });
  return opened;
}

/** Everything that is kept. */
export interface Own {
  readonly swings: readonly Swing[];
  readonly sessions: readonly Row[];
  readonly hitters: readonly Row[];
  readonly targets: readonly Row[];
  readonly names: readonly Row[];
  readonly fields: readonly Row[];
  readonly maps: readonly ColumnMap[];
  readonly files: readonly BroughtFile[];
}

/** What is kept in this browser. */
export async function ownRows(): Promise<Own> {
  const transaction = (await database()).transaction(stores);
  const [swings, sessions, hitters, targets, names, fields, maps, files] = await Promise.all([
    transaction.objectStore("swings").getAll(),
    transaction.objectStore("sessions").getAll(),
    transaction.objectStore("hitters").getAll(),
    transaction.objectStore("targets").getAll(),
    transaction.objectStore("names").getAll(),
    transaction.objectStore("fields").getAll(),
    transaction.objectStore("maps").getAll(),
    transaction.objectStore("files").getAll(),
  ]);
  return { swings, sessions, hitters, targets, names, fields, maps, files };
}

const same = (a: Swing, b: Swing): boolean =>
  fingerprint(a, swingFields, "swing_id") === fingerprint(b, swingFields, "swing_id");

/** What became of swings that were kept. */
export interface Kept {
  readonly new: number;
  readonly corrected: number;
  readonly copies: number;
  /** Whether the map was kept for the next file. */
  readonly map: boolean;
}

/**
 * Keeps a file's swings, once each, with the file itself and the map that it was read by.
 * @param map null where none is to be kept
 */
export async function keepSwings(
  swings: readonly Swing[],
  file: BroughtFile,
  map: ColumnMap | null,
  names: readonly NameRow[] = [],
): Promise<Kept> {
  // A browser that is short of room forgets first what nobody asked it to keep.
  void navigator.storage?.persist?.().catch(() => false);
  const transaction = (await database()).transaction(["swings", "names", "maps", "files"], "readwrite");
  const at = transaction.objectStore("swings");
  const counts = { new: 0, corrected: 0, copies: 0 };
  let keeps = map !== null;
  const work = async (): Promise<void> => {
    for (const swing of swings) {
      const before = await at.get(swing.swing_id!);
      if (before === undefined) counts.new++;
      else if (same(before, swing)) {
        counts.copies++;
        continue;
      } else counts.corrected++;
      await at.put(swing);
    }
    if (counts.new + counts.corrected > 0 || file.refused > 0)
      await transaction.objectStore("files").add(file);
    for (const answer of names) await transaction.objectStore("names").put(answer);
    if (map === null) return;
    const known = await transaction.objectStore("maps").getAll();
    keeps = !known.some((one) => JSON.stringify(one) === JSON.stringify(map));
    if (keeps) await transaction.objectStore("maps").add(map);
  };
  try {
    await work();
  } catch (error) {
    transaction.done.catch(() => {});
    try {
      transaction.abort();
    } catch {
      // It has ended by itself.
    }
    throw error;
  }
  await transaction.done;
  dispatchEvent(new Event(ownChanged));
  return { ...counts, map: keeps };
}

/**
 * Keeps rows of a table beside the swings, each by its key.
 * @throws Refusal's sentence when a value can't stand in its field
 */
export async function keepRows(
  name: Companion,
  typed: readonly Readonly<Record<string, string>>[],
  built: readonly object[],
): Promise<void> {
  const table = tableOf(name);
  const transaction = (await database()).transaction(name, "readwrite");
  for (const given of typed) {
    const key = given[table.key]!;
    const known = (built as readonly Row[]).find((row) => row[table.key] === key);
    const row: Row = {
      ...Object.fromEntries(table.fields.map((field) => [field.name, null])),
      ...known,
      ...(await transaction.store.get(key)),
    };
    for (const [field, text] of Object.entries(given)) {
      const definition = table.fields.find((one) => one.name === field);
      const value = definition === undefined ? null : cellReader(definition)(text);
      if (value instanceof Refusal) {
        transaction.done.catch(() => {});
        transaction.abort();
        throw new Error(`${definition!.title} ${value.reason}.`);
      }
      row[field] = value;
    }
    await transaction.store.put(row);
  }
  await transaction.done;
  dispatchEvent(new Event(ownChanged));
}

/**
 * Keeps one typed swing.
 * @throws a Refusal's sentence when a value can't stand in its field, or the row lacks what every swing needs
 */
export async function keepTyped(typed: Readonly<Record<string, string>>): Promise<void> {
  const swing = Object.fromEntries(
    swingFields.map((field): [string, unknown] => {
      const value = cellReader(field)(typed[field.name] ?? "");
      if (value instanceof Refusal) throw new Error(`${field.title} ${value.reason}.`);
      return [field.name, value];
    }),
  ) as unknown as Swing;
  const [lacking] = [
    ...swingFields
      .filter((field) => "required" in field && field.required === "always" && swing[field.name] === null)
      .map(({ title }) => `${title} is missing.`),
    ...swingTroubles(swing).map(({ field, reason }) => `${field} ${reason}.`),
  ];
  if (lacking !== undefined) throw new Error(lacking);
  const transaction = (await database()).transaction("swings", "readwrite");
  await Promise.all([transaction.store.put(swing), transaction.done]);
  dispatchEvent(new Event(ownChanged));
}

/** Takes one swing out of this browser. */
export async function dropSwing(swingId: string): Promise<void> {
  const transaction = (await database()).transaction("swings", "readwrite");
  await Promise.all([transaction.store.delete(swingId), transaction.done]);
  dispatchEvent(new Event(ownChanged));
}

/** Takes everything out of this browser. */
export async function wipeOwn(): Promise<void> {
  const transaction = (await database()).transaction(stores, "readwrite");
  await Promise.all([...stores.map((name) => transaction.objectStore(name).clear()), transaction.done]);
  dispatchEvent(new Event(ownChanged));
}

/** File names that are all different, as they came. */
function apart(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    const plain = name.replace(/[\p{Cc}/\\:*?"<>|]/gu, "_");
    let free = plain;
    for (let n = 2; taken.has(free.toLowerCase()); n++) free = `${n} ${plain}`;
    taken.add(free.toLowerCase());
    return free;
  });
}

/** The tables as files, as "Save everything" writes them. */
function tablesOf(own: Own): { file: string; text: string; rows: number }[] {
  return ([...companions, "swings"] as const).flatMap((name) => {
    const rows: readonly object[] = own[name];
    const { fields } = tableOf(name);
    return rows.length === 0 ? [] : [{ file: `${name}.csv`, text: csvText(rows, fields), rows: rows.length }];
  });
}

/** What a page and a report name as the files that these rows are from. */
const filesOf = (own: Own): SourceFile[] =>
  tablesOf(own).map(({ file, text, rows }) => ({
    file,
    sha256: sha256Of(text),
    rows,
    refused: file === "swings.csv" ? own.files.reduce((sum, brought) => sum + brought.refused, 0) : 0,
    untimed: file === "swings.csv" ? own.files.reduce((sum, brought) => sum + (brought.untimed ?? 0), 0) : 0,
  }));

/** Everything in one zip: a folder that the commands and the server take as a library, and the files as they were brought. */
export function zipOf(own: Own): Uint8Array {
  const { maps, files } = own;
  const parts: Record<string, Uint8Array> = {};
  for (const { file, text } of tablesOf(own)) parts[file] = strToU8(text);
  maps.forEach((map, i) => {
    parts[`maps/map-${i + 1}.json`] = strToU8(`${JSON.stringify(map, null, 2)}\n`);
  });
  apart(files.map(({ name }) => name)).forEach((name, i) => (parts[`brought/${name}`] = files[i]!.bytes));
  return zipSync(parts, { level: 6 });
}

function merged<T>(built: readonly T[], own: readonly Row[], key: keyof T & string): T[] {
  const keys = new Set(own.map((row) => row[key]));
  return [...built.filter((row) => !keys.has(row[key] as never)), ...(own as unknown as T[])];
}

/** A library with what is kept in this browser among its rows; the same where nothing is, or the browser keeps nothing. */
export async function withOwn(library: PageLibrary): Promise<PageLibrary> {
  const own = await ownRows().catch(() => null);
  if (own === null || stores.every((name) => own[name].length === 0)) return library;
  const sessions = merged<Session>(library.sessions, own.sessions, "session");
  const hitters = merged<Hitter>(library.hitters, own.hitters, "hitter");
  const targets = merged<Target>(library.targets, own.targets, "drill");
  const names = merged<NameRow>(library.names, own.names, "spelled");
  const fields = merged<OwnField>(library.fields, own.fields, "field");
  knowFields(fields);
  const ids = new Set(own.swings.map(({ swing_id }) => swing_id));
  const swings = [...library.swings.filter(({ swing_id }) => !ids.has(swing_id)), ...own.swings];
  const rows = enrich({ swings, sessions, hitters, thresholds: library.thresholds });
  return {
    ...library,
    sessions,
    hitters,
    targets,
    names,
    fields,
    swings: rows,
    maps: [...own.maps].reverse().concat(library.maps),
    files: [...library.files, ...filesOf(own)],
    trust: [...trustBySession(rows, sessions).values()],
    trouble: own.swings.length > 0 ? null : library.trouble,
  };
}
