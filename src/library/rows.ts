/**
 * Rows of the tables beside the swings (sessions.csv, hitters.csv, targets.csv, names.csv, fields.csv), put in or put
 * right, and swings that are typed one by one. Whatever else
 * stands in the file stays as it stands: other rows, other columns, the way it writes decimals. The file is written whole
 * under the library's lock, or not at all.
 */
import { readdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { cellReader, Refusal } from "../reading/cells.ts";
import { csvText } from "../reading/csv.ts";
import { layoutOf, sniffDelimiter } from "../reading/layout.ts";
import { headingKey } from "../reading/maps.ts";
import { rowLine } from "../reading/mend.ts";
import { collect, scanText, type Reading } from "../reading/read.ts";
import { Records, type Delimiter, type RawRecord } from "../reading/records.ts";
import { textFrom } from "../reading/text.ts";
import { type Companions } from "./library.ts";
import { makeFolder, readBytes } from "./disk.ts";
import { takeLock } from "./lock.ts";
import type { Field } from "../swing/fields.ts";
import { guarded } from "../swing/guard.ts";
import { problemReason, quoted, UnusableFile } from "../swing/problems.ts";
import { tableOf, type Table } from "../swing/tables.ts";
import { writeWhole } from "./write.ts";

/** A row as it is typed: its cells by field, a decimal point in numbers; an empty one takes a value away. */
export type Typed = Readonly<Record<string, string>>;

/** A table beside the swings. */
export type CompanionName = keyof Companions;

/** Values that a row can't have: one plain sentence each. */
class BadRow extends Error {
  override readonly name = "BadRow";
  readonly fault = "data";
}

/**
 * What is wrong with rows before they are written, a sentence each, with the field.
 * @example rowTroubles("hitters", [{ hitter: "Ana", bats: "X" }]) // ['bats "X" is not one of L, R, S.']
 */
export function rowTroubles(name: CompanionName | "swings", rows: readonly Typed[]): string[] {
  const table = tableOf(name);
  const found: string[] = [];
  const keys = new Set<string>();
  rows.forEach((row, i) => {
    const say = (what: string): void => void found.push(rows.length === 1 ? what : `Row ${i + 1}: ${what}`);
    for (const [field, text] of Object.entries(row)) {
      const known = table.fields.find((f) => f.name === field);
      if (known === undefined) {
        say(`${quoted(field)} is no field of ${name}.`);
        continue;
      }
      const value = cellReader(known)(text);
      if (value instanceof Refusal) say(`${field} ${quoted(text)} ${value.reason}.`);
    }
    const key = (Object.hasOwn(row, table.key) ? row[table.key]! : "").trim();
    if (key === "") say(`${table.key} is missing.`);
    else if (keys.has(key)) say(`${table.key} ${quoted(key)} stands twice.`);
    keys.add(key);
  });
  return found;
}

/**
 * Puts rows into a table of a library, each by its key: one that is there gets the values given and keeps its others.
 * @returns how many rows are new, and how many were there
 * @throws BadRow when a value can't stand in its field
 * @throws UnusableFile when the file that is there can't be read row by row
 * @throws Locked when another process goes on writing the library
 */
export async function putRows(
  dir: string,
  name: CompanionName,
  rows: readonly Typed[],
  patience = 0,
): Promise<{ readonly added: number; readonly changed: number }> {
  const { added, changed } = await alter(dir, `${name}.csv`, name, { rows }, patience);
  return { added, changed };
}

/** Swings that were typed: one file of the library, whole rows with ids. */
export const byHandFile = "by-hand.csv";

/**
 * Keeps a typed swing. It has its id from whoever typed it: told twice, it stands there once.
 * @throws BadRow when a value can't stand in its field, or the row lacks what every swing needs
 * @throws UnusableFile when the file that is there can't be read row by row
 * @throws Locked when another process goes on writing the library
 */
export async function keepByHand(dir: string, swing: Typed, patience = 0): Promise<void> {
  await alter(dir, byHandFile, "swings", { rows: [swing] }, patience);
}

/**
 * Takes a typed swing away again.
 * @returns whether it was there
 * @throws UnusableFile, Locked as keepByHand
 */
export async function takeBackByHand(dir: string, swingId: string, patience = 0): Promise<boolean> {
  const { gone } = await alter(dir, byHandFile, "swings", { rows: [], without: swingId }, patience);
  return gone > 0;
}

interface Altered {
  readonly added: number;
  readonly changed: number;
  readonly gone: number;
  /** Rows of others that stay. */
  readonly left: number;
}

/** Typed cells as their values: a number is written as one, and not as a text that a spreadsheet might reckon with. */
const read = (row: Typed, table: Table): Record<string, unknown> =>
  Object.fromEntries(table.fields.map((field) => [field.name, cellReader(field)(row[field.name] ?? "")]));

/** Puts rows into a file and takes one out, whole or not at all. */
async function alter(
  dir: string,
  wanted: string,
  name: CompanionName | "swings",
  { rows, without = null }: { readonly rows: readonly Typed[]; readonly without?: string | null },
  patience: number,
): Promise<Altered> {
  const troubles = rowTroubles(name, rows);
  if (troubles.length > 0) throw new BadRow(troubles.join(" "));
  const table = tableOf(name);
  await makeFolder(dir);
  const lock = await takeLock(dir, `write ${wanted}`, patience);
  try {
    const file = (await readdir(dir)).find((n) => n.toLowerCase() === wanted) ?? wanted;
    const path = join(dir, file);
    const bytes = await readBytes(path).catch((error: NodeJS.ErrnoException) => {
      if (error.code === "ENOENT") return null;
      throw error;
    });
    const isEmpty = bytes === null || bytes.every((byte) => byte <= 32);
    if (isEmpty && rows.length === 0) return { added: 0, changed: 0, gone: 0, left: 0 };
    const change = isEmpty
      ? {
          text: csvText(
            rows.map((row) => read(row, table)),
            table.fields,
          ),
          added: rows.length,
          changed: 0,
          gone: 0,
          left: 0,
        }
      : await changed(file, table, bytes!, rows, without);
    // A heading with nothing under it is a file that can't be used.
    const isBare = change.left === 0 && rows.length === 0;
    if (!isBare) await checked(file, table, bytes, change.text, rows);
    await lock.stillHeld();
    if (isBare) await rm(path);
    else await writeWhole(path, [change.text]);
    return change;
  } finally {
    await lock.release();
  }
}

/** A record with the text it stands in, line end included. */
interface Stood {
  readonly record: RawRecord | null;
  readonly text: string;
  readonly end: string;
}

/** A file's records in order, blank lines too, each with its text. */
function stoodIn(text: string, delimiter: Delimiter): Stood[] {
  const records = new Records(delimiter);
  const found: Stood[] = [];
  let waiting = "";
  const lines = text.match(/[^\r\n]*(?:\r\n|\n|\r|$)/g)!.filter((line) => line !== "");
  lines.forEach((line, i) => {
    const end = /(?:\r\n|\n|\r)$/.exec(line)?.[0] ?? "";
    const made = records.push([line.slice(0, line.length - end.length)], i === lines.length - 1);
    waiting += line;
    if (made.length === 0 && records.isOpen) return;
    found.push({
      record: made.length === 1 ? made[0]! : null,
      text: waiting.slice(0, waiting.length - end.length),
      end,
    });
    if (made.length > 1 || made.some(({ fault }) => fault !== null))
      found[found.length - 1] = { record: { row: 0, cells: [], fault: "" }, text: waiting, end: "" };
    waiting = "";
  });
  return found;
}

async function changed(
  file: string,
  table: Table,
  bytes: Uint8Array,
  rows: readonly Typed[],
  without: string | null,
): Promise<Altered & { readonly text: string }> {
  let text = "";
  for await (const piece of textFrom(file, [bytes]).pieces) text += piece;
  text = text.replace(/^\ufeff/, "");
  // A spreadsheet tells the encoding by its mark.
  const mark = bytes[0] === 0xef ? "\ufeff" : "";
  const first = text.split(/\r\n|\n|\r/).find((line) => line.trim() !== "") ?? "";
  const { delimiter } = sniffDelimiter(first, table, null);
  const stood = stoodIn(text, delimiter);
  if (stood.some(({ record }) => record?.fault != null))
    throw new UnusableFile(file, "has quotation marks that don't match: put them right in the file first");
  const at = stood.findIndex(({ record }) => record !== null);
  const header = stood[at]?.record?.cells.map((cell) => cell.trim()) ?? [];
  const below = stood.flatMap(({ record }, i) => (record === null || i <= at ? [] : [record]));
  const layout = layoutOf(file, header, below.slice(0, 200), delimiter, table, null);
  const place = new Map(header.map((heading, i) => [headingKey(heading), i]));
  const converted = Object.keys(layout.units).find((name) => rows.some((row) => (row[name] ?? "") !== ""));
  if (converted !== undefined)
    throw new UnusableFile(
      file,
      `writes units of its own in ${converted}: put the value into the file by hand`,
    );
  const fields = new Map(table.fields.map((field) => [field.name, field]));
  const isNumber = (name: string): boolean => fields.get(name)?.type === "number";
  const written = (name: string, value: string): string => {
    const trimmed = value.trim();
    if (!isNumber(name)) return guarded(trimmed);
    return layout.decimal === "," ? trimmed.replace(".", ",") : trimmed;
  };
  const fresh = table.fields
    .map(({ name }) => name)
    .filter((name) => !place.has(name) && rows.some((row) => (row[name] ?? "").trim() !== ""));
  fresh.forEach((name, i) => place.set(name, header.length + i));
  const more = delimiter.repeat(fresh.length);
  const keyAt = place.get(table.key)!;
  const readKey = cellReader(fields.get(table.key)!);
  const byKey = new Map(rows.map((row) => [readKey(row[table.key]!), row]));
  const met = new Set<Typed>();
  const newline = stood.find(({ end }) => end !== "")?.end ?? "\r\n";
  let gone = 0;
  let out = "";
  stood.forEach(({ record, text: was, end }, i) => {
    if (record === null) out += was + end;
    else if (i === at) out += was + fresh.map((name) => delimiter + name).join("") + end;
    else {
      const cell = (record.cells[keyAt] ?? "").trim();
      if (without !== null && cell === without) {
        gone++;
        return;
      }
      const row = byKey.get(readKey(cell));
      if (row === undefined || met.has(row)) out += was + more + end;
      else {
        met.add(row);
        const cells = [...record.cells];
        while (cells.length < header.length + fresh.length) cells.push("");
        for (const [name, value] of Object.entries(row))
          if (place.has(name) && name !== table.key) cells[place.get(name)!] = written(name, value);
        out += rowLine(cells, delimiter) + end;
      }
    }
  });
  const added = rows.filter((row) => !met.has(row));
  if (added.length > 0 && out !== "" && !/[\r\n]$/.test(out)) out += newline;
  for (const row of added) {
    const cells = Array.from({ length: header.length + fresh.length }, () => "");
    for (const [name, value] of Object.entries(row))
      if (place.has(name)) cells[place.get(name)!] = written(name, value);
    out += rowLine(cells, delimiter) + newline;
  }
  return { text: mark + out, added: added.length, changed: met.size, gone, left: below.length - gone };
}

const readText = (file: string, table: Table, bytes: Uint8Array): Promise<Reading<object>> =>
  collect(scanText(table.name, textFrom(file, [bytes])));

/** Reads what is about to be written: the rows stand in it with the values given, and no row that was read is refused now. */
async function checked(
  file: string,
  table: Table,
  before: Uint8Array | null,
  text: string,
  rows: readonly Typed[],
): Promise<void> {
  const now = await readText(file, table, new TextEncoder().encode(text));
  const was =
    before === null || before.every((byte) => byte <= 32)
      ? null
      : await readText(file, table, before).catch(() => null);
  const fields = new Map<string, Field>(table.fields.map((field) => [field.name, field]));
  const valueOf = (row: object, name: string): unknown => (row as Record<string, unknown>)[name];
  for (const typed of rows) {
    const key = cellReader(fields.get(table.key)!)(typed[table.key]!);
    const found = now.rows.find((row) => valueOf(row, table.key) === key);
    if (found === undefined) {
      const why = now.refused.find(({ cells }) => cells.some((cell) => cell.trim() === key));
      const reason =
        why === undefined ? "it would not be read again." : why.problems.map(problemReason).join(" ");
      throw new BadRow(`${table.key} ${quoted(String(key))}: ${reason}`);
    }
    for (const [name, value] of Object.entries(typed)) {
      const wanted = cellReader(fields.get(name)!)(value);
      if (valueOf(found, name) !== wanted)
        throw new BadRow(
          `${table.key} ${quoted(String(key))}: ${name} ${quoted(value)} can't be written so that ${file} gives it back.`,
        );
    }
  }
  if (was !== null && now.refused.length > was.refused.length)
    throw new UnusableFile(
      file,
      "can't be written without losing a row that it has: put it right by hand first",
    );
}
