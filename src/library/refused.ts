/**
 * The rows that `add` refused, kept beside their session until they are mended: as they stood, under the headings
 * they had, with the file and row they came from and the reason. Rows of another layout get a file of their own
 * (`refused-2.csv`), and what is needed to read them again stands in `refused.map.json`.
 */
import { join } from "node:path";
import { readText } from "./disk.ts";
import { unguarded } from "../swing/guard.ts";
import { isPrivate, refusedColumns } from "../reading/layout.ts";
import type { ColumnMap, MappedColumn } from "../reading/maps.ts";
import { problemReason, type RefusedRow, UnusableFile } from "../swing/problems.ts";
import type { Summary } from "../reading/read.ts";
import { refusedFile, type Shelves } from "./shelves.ts";
import type { Transaction } from "./transaction.ts";
import { csvAsItStood } from "./write.ts";
import { largest } from "../swing/lists.ts";

/** Rows of one file, to be kept in one session's folder. */
export interface Refusals {
  readonly folder: string;
  /** What the file is called. */
  readonly file: string;
  readonly rows: readonly RefusedRow[];
  readonly header: readonly string[];
  /** How the rows are read again; null when they are in the kit's own form. */
  readonly map: ColumnMap | null;
}

/** The map that reads the rows of a file again once they stand in a CSV of ours; null when none is needed. */
export function mapAgain(
  layout: Summary["layout"],
  header: readonly string[],
  fill: Readonly<Record<string, string>>,
): ColumnMap | null {
  const always = Object.fromEntries(
    Object.entries(fill).filter(
      ([name]) => !layout.fields.includes(name) && layout.map?.always?.[name] === undefined,
    ),
  );
  const plain = layout.decimal === "." && Object.keys(layout.units).length === 0;
  if (layout.map === null && plain && Object.keys(always).length === 0) return null;
  // The rows stand in UTF-8 then, and whoever mends them may save them with another delimiter.
  const { delimiter: _, encoding: __, ...map } = layout.map ?? { columns: {} };
  const named = Object.keys(map.columns).length > 0;
  const columns: Record<string, string | MappedColumn> = {};
  for (const heading of header) {
    const field = heading.trim().toLowerCase();
    const unit = layout.units[field];
    if (unit !== undefined) columns[heading] = { field, unit };
    else if (!named && layout.fields.includes(field)) columns[heading] = field;
  }
  return {
    ...map,
    decimal: layout.decimal,
    columns: { ...map.columns, ...columns },
    ...(map.always !== undefined || Object.keys(always).length > 0
      ? { always: { ...map.always, ...always } }
      : {}),
  };
}

const line = (cells: readonly string[]): string => `${cells.map(csvAsItStood).join(",")}\r\n`;

/** A file of refused rows as CSV. */
export function refusedText(header: readonly string[], rows: readonly (readonly string[])[]): string {
  return line(header) + rows.map(line).join("");
}

/** A file of refused rows in the making. */
interface Page {
  readonly name: string;
  readonly header: string[];
  readonly rows: string[][];
  readonly map: string;
}

const mapName = (name: string): string => name.replace(/csv$/, "map.json");

/** Headings as a file of ours can have them: none empty, none twice, none private. */
function headings(header: readonly string[], wide: number): { names: string[]; at: number[] } {
  const names: string[] = [];
  const at: number[] = [];
  for (let i = 0; i < Math.max(header.length, wide); i++) {
    const heading = (header[i] ?? "").trim();
    if (isPrivate(heading)) continue;
    const taken = heading === "" || names.includes(heading) || heading in refusedHeadings;
    names.push(taken ? `cell ${i + 1}` : heading);
    at.push(i);
  }
  return { names, at };
}

const refusedHeadings = Object.fromEntries(refusedColumns.map((name) => [name, true]));

/** A row's cells as they are compared. */
const key = (cells: readonly string[]): string =>
  cells
    .map((text) => text.trim())
    .join("\u001f")
    .replace(/\u001f+$/, "");

/** How the map stands in the file beside a page; empty without one. */
const mapText = (map: ColumnMap | null): string => (map === null ? "" : `${JSON.stringify(map, null, 2)}\n`);

const pageKey = (names: readonly string[], cells: readonly string[]): string =>
  `${names.join("\n")}\u001e${key(cells)}`;

const rowKey = (file: string, row: string, page: string): string => [file, row, page].join("\u001e");

/** Rows that wait in a library, and those of them that a file brings again. */
export class Waiting {
  private readonly keys = new Set<string>();
  private readonly taken = new Set<string>();
  /** Rows refused again, by their file, number, headings and cells: the map they wait under from now on. */
  private readonly again = new Map<string, string>();
  private readonly pages: {
    folder: string;
    name: string;
    header: string[];
    rows: string[][];
    map: string;
  }[] = [];

  /** Everything that waits in a library. */
  static async open(shelves: Shelves): Promise<Waiting> {
    const waiting = new Waiting();
    for (const { folder } of await shelves.partitions()) {
      for (const name of await shelves.files(folder)) {
        if (!refusedFile.test(name)) continue;
        // What of it can't be read stays as it is, and is told by whoever opens the library.
        const page = await shelves.refused(join(folder, name)).catch((error: unknown) => {
          if (error instanceof UnusableFile) return null;
          throw error;
        });
        if (page === null) continue;
        const mapPath = await shelves.find(join(folder, mapName(name)));
        const map = mapPath === null ? "" : await readText(mapPath);
        waiting.pages.push({ folder, name, ...page, map });
        const names = page.header.slice(refusedColumns.length);
        for (const cells of page.rows) waiting.keys.add(pageKey(names, cells.slice(refusedColumns.length)));
      }
    }
    return waiting;
  }

  get isEmpty(): boolean {
    return this.keys.size === 0;
  }

  /** Notes a row that was taken: one that waits, under the same headings and with the same cells, waits no more. */
  take(cells: readonly string[], header: readonly string[]): void {
    const { names, at } = headings(header, cells.length);
    const found = pageKey(
      names,
      at.map((i) => cells[i] ?? ""),
    );
    if (this.keys.has(found)) this.taken.add(found);
  }

  /** Notes rows of a file that are refused: one that waits under another map waits under this one from now on. */
  refuse({ file, rows, header, map }: Omit<Refusals, "folder">): void {
    if (this.isEmpty) return;
    const wide = largest(
      rows.map((row) => row.cells.length),
      0,
    );
    const { names, at } = headings(header, wide);
    for (const { row, cells } of rows) {
      const found = pageKey(
        names,
        at.map((i) => cells[i] ?? ""),
      );
      if (this.keys.has(found)) this.again.set(rowKey(file, String(row), found), mapText(map));
    }
  }

  /** Whether a row of a page waits there no more. */
  private isGone(
    [file = "", row = "", , ...cells]: readonly string[],
    names: readonly string[],
    map: string,
  ): boolean {
    const found = pageKey(names, cells);
    return this.taken.has(found) || (this.again.get(rowKey(file, row, found)) ?? map) !== map;
  }

  /**
   * Takes the rows that wait no more out of their files.
   * @param written files that this change has written already, by path; those written now are added
   */
  async leave(change: Transaction, written: Set<string>): Promise<void> {
    if (this.taken.size + this.again.size === 0) return;
    for (const { folder, name, header, rows, map } of this.pages) {
      const path = join(folder, name);
      if (written.has(path)) continue;
      const names = header.slice(refusedColumns.length);
      const left = rows.filter((cells) => !this.isGone(cells, names, map));
      if (left.length === rows.length) continue;
      written.add(path);
      if (left.length > 0) await writePage(change, folder, { name, header, rows: left, map: "" });
      else {
        change.remove(path);
        change.remove(join(folder, mapName(name)));
      }
    }
  }
}

/**
 * Adds rows to the files of refused rows of a session; a row that waits there already is not added again.
 * @param taken files that this change has written already, by path; the one written now is added
 */
export async function keepRefused(
  shelves: Shelves,
  change: Transaction,
  { folder, file, rows, header, map }: Refusals,
  taken: Set<string>,
): Promise<void> {
  // A row whose quotation marks don't match is one cell, which may hold anything of the row: it is kept in its
  // first column, unless the layout has private ones.
  const hides = header.some(isPrivate);
  const wide = largest(
    rows.map((row) => row.cells.length),
    0,
  );
  const { names, at } = headings(header, wide);
  const wanted = mapText(map);
  const pages = (await shelves.files(folder)).filter((name) => refusedFile.test(name));
  let page: Page | null = null;
  for (const name of pages) {
    const there = taken.has(join(folder, name)) ? null : await shelves.refused(join(folder, name));
    if (there === null || there.header.slice(refusedColumns.length).join("\n") !== names.join("\n")) continue;
    const mapPath = await shelves.find(join(folder, mapName(name)));
    const has = mapPath === null ? "" : await readText(mapPath);
    if (has !== wanted) continue;
    page = { name, header: there.header, rows: there.rows, map: wanted };
    break;
  }
  for (let n = 1; page === null; n++) {
    const name = n === 1 ? "refused.csv" : `refused-${n}.csv`;
    if (pages.includes(name) || taken.has(join(folder, name))) continue;
    page = { name, header: [...refusedColumns, ...names], rows: [], map: wanted };
  }
  const waiting = new Set(page.rows.map((cells) => key(cells.slice(refusedColumns.length))));
  let added = false;
  for (const row of rows) {
    const whole = row.cells.length > 1 || header.length <= 1;
    const cells = hides && !whole ? at.map(() => "") : at.map((i) => row.cells[i] ?? "");
    if (waiting.has(key(cells))) continue;
    waiting.add(key(cells));
    page.rows.push([file, String(row.row), reasonOf(row), ...cells]);
    added = true;
  }
  taken.add(join(folder, page.name));
  if (!added) return;
  await writePage(change, folder, page);
}

async function writePage(
  change: Transaction,
  folder: string,
  { name, header, rows, map }: Page,
): Promise<void> {
  await change.putText(join(folder, name), refusedText(header, rows));
  if (map !== "") await change.putText(join(folder, mapName(name)), map);
}

/**
 * Writes a file of refused rows anew, after it was read, with the rows that are refused still; takes it away when
 * none is.
 */
export async function rewriteRefused(
  change: Transaction,
  folder: string,
  name: string,
  header: readonly string[],
  rows: readonly RefusedRow[],
): Promise<void> {
  if (rows.length === 0) {
    change.remove(join(folder, name));
    change.remove(join(folder, mapName(name)));
    return;
  }
  const at = header.indexOf(refusedColumns[2]);
  const told = rows.map((row) => row.cells.map((text, i) => (i === at ? reasonOf(row) : unguarded(text))));
  await writePage(change, folder, { name, header: [...header], rows: told, map: "" });
}

const reasonOf = (row: RefusedRow): string => row.problems.map(problemReason).join(" ");
