/**
 * Removing a hitter from a library: swings, history, refused rows, the lists, the names of files taken in, and the
 * hitter's name where it stands in other rows.
 */
import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { scanFile, readColumnMap, openText } from "./files.ts";
import { readText } from "./disk.ts";
import { byName } from "../swing/byName.ts";
import type { Swing } from "../swing/fields.ts";
import { refusedColumns } from "../reading/layout.ts";
import { takeLock } from "./lock.ts";
import { hitterMeant } from "../reading/namesakes.ts";
import { openCompanions } from "./library.ts";
import { printOf, hasMadeId } from "./match.ts";
import { type ColumnMap } from "../reading/maps.ts";
import { writeSwings, type StoredSwing } from "./parquet.ts";
import { UnusableFile } from "../swing/problems.ts";
import { Lines, Records, type Delimiter, type RawRecord } from "../reading/records.ts";
import {
  additionFields,
  historyFields,
  historyFile,
  logFile,
  refusedFile,
  Shelves,
  swingsFile,
} from "./shelves.ts";
import { Transaction } from "./transaction.ts";
import { refusedText } from "./refused.ts";
import { csvText } from "./write.ts";
import { append } from "../swing/lists.ts";

/** What was removed. */
export interface Forgotten {
  readonly hitter: string;
  readonly swings: number;
  readonly history: number;
  readonly refused: number;
  /** Rows of hitters.csv. */
  readonly listed: number;
  /** Swings of others in which the name stood, as the pitcher or in a note; it was taken out. */
  readonly mentions: number;
  /** Files in which the name may still stand, and why they were left. */
  readonly left: readonly { readonly file: string; readonly reason: string }[];
  /** What kept the new files from their places, as a sentence; the hitter is forgotten all the same. */
  readonly late: string | null;
}

/** A name as it is compared: capitals and blanks aside. */
const plain = (text: string): string => text.normalize("NFKC").toLowerCase().replace(/\s+/g, " ").trim();

/**
 * Whether a text names a hitter, as a name by itself and not as a part of another word.
 * @example mentions("with Ana Rivera, tee", "Ana Rivera") // true
 */
export function mentions(text: string, hitter: string): boolean {
  const name = plain(hitter).replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
  return new RegExp(`(^|[^\\p{L}\\p{N}])${name}($|[^\\p{L}\\p{N}])`, "u").test(plain(text));
}

/** Whether a refused row is the hitter's: the name is a cell, or two side by side, or somewhere in a broken row. */
function names(cells: readonly string[], hitter: string): boolean {
  const filled = cells.filter((cell) => cell.trim() !== "");
  if (filled.length === 1) return mentions(filled[0]!, hitter);
  return cells.some((cell, i) =>
    [cell, `${cell} ${cells[i + 1] ?? ""}`].some((text) => plain(text) === plain(hitter)),
  );
}

/** A row without the name, where it stood as the pitcher or in a text; null when it didn't. */
function without(swing: StoredSwing, hitter: string): StoredSwing | null {
  const cleared: StoredSwing = { ...swing };
  let found = false;
  for (const name of ["pitcher", "drill", "note"] as const) {
    const value = swing[name];
    if (value !== null && (name === "note" ? mentions(value, hitter) : plain(value) === plain(hitter))) {
      cleared[name] = null;
      found = true;
    }
  }
  if (!found) return null;
  if (hasMadeId(swing)) cleared.swing_id = printOf(cleared);
  return cleared;
}

/**
 * Removes a hitter, by the exact name, from a library; all or nothing.
 * @throws UnusableFile when the folder is missing
 * @throws Locked when another process goes on writing the library
 */
export async function forgetHitter(dir: string, hitter: string, patience = 0): Promise<Forgotten> {
  const info = await stat(dir).catch(() => null);
  if (info === null || !info.isDirectory()) throw new UnusableFile(dir, "is no library", "call");
  const lock = await takeLock(dir, "forget", patience);
  try {
    const change = await Transaction.begin(dir, lock);
    try {
      const forgotten = await forget(dir, hitter, change);
      return { ...forgotten, late: await change.commit() };
    } catch (error) {
      await change.discard();
      throw error;
    }
  } finally {
    await lock.release();
  }
}

async function forget(dir: string, hitter: string, change: Transaction): Promise<Omit<Forgotten, "late">> {
  const shelves = await Shelves.open(dir);
  const counts = { swings: 0, history: 0, refused: 0, listed: 0, mentions: 0 };
  const left: { file: string; reason: string }[] = [];
  const isTheirs = (swing: Swing): boolean => plain(swing.hitter) === plain(hitter);

  for (const { session, folder } of await shelves.partitions()) {
    const swings = await shelves.swings(folder);
    if (swings !== null) {
      const kept: StoredSwing[] = [];
      let changed = false;
      for await (const group of swings.groups) {
        for (const swing of group) {
          const cleared = isTheirs(swing) ? null : without(swing, hitter);
          if (isTheirs(swing)) counts.swings++;
          else if (cleared !== null) counts.mentions++;
          if (isTheirs(swing) || cleared !== null) changed = true;
          if (!isTheirs(swing)) kept.push(cleared ?? swing);
        }
      }
      if (changed && kept.length === 0) change.remove(join(folder, swingsFile));
      else if (changed) await change.put(join(folder, swingsFile), (at) => writeSwings(at, kept));
    }
    const history = await shelves.history(folder);
    const others = history
      .filter((swing) => !isTheirs(swing))
      .map((swing) => ({ ...swing, ...(without(swing, hitter) ?? {}) }));
    counts.history += history.length - others.length;
    if (csvText(others, historyFields) !== csvText(history, historyFields)) {
      if (others.length === 0) change.remove(join(folder, historyFile));
      else await change.putText(join(folder, historyFile), csvText(others, historyFields));
    }
    for (const name of await shelves.files(folder)) {
      if (!refusedFile.test(name)) continue;
      const page = await shelves.refused(join(folder, name));
      if (page === null) continue;
      const rows = page.rows.filter((cells) => !names(cells.slice(refusedColumns.length), hitter));
      counts.refused += page.rows.length - rows.length;
      if (rows.length === page.rows.length) continue;
      if (rows.length > 0) await change.putText(join(folder, name), refusedText(page.header, rows));
      else {
        change.remove(join(folder, name));
        change.remove(join(folder, name.replace(/csv$/, "map.json")));
      }
    }
    if (session !== null && mentions(session, hitter)) {
      left.push({ file: folder, reason: "the session is named after the hitter" });
    }
  }
  const additions = await shelves.additions();
  if (additions.some(({ file }) => mentions(file.replace(/[._-]+/g, " "), hitter))) {
    const named = additions.map((addition) =>
      mentions(addition.file.replace(/[._-]+/g, " "), hitter)
        ? { ...addition, file: "(forgotten)" }
        : addition,
    );
    await change.putText(logFile, csvText(named, additionFields));
  }
  await forgetInFolder(dir, hitter, change, counts, left);
  return { hitter, ...counts, left };
}

/** The library's own CSV files: lists, and swings that were put there by hand. */
async function forgetInFolder(
  dir: string,
  hitter: string,
  change: Transaction,
  counts: { swings: number; refused: number; listed: number; mentions: number },
  left: { file: string; reason: string }[],
): Promise<void> {
  const files = (await readdir(dir)).filter((name) => !/^[.~]/.test(name)).sort(byName);
  const meant = hitterMeant((await openCompanions(dir)).names);
  for (const name of files) {
    const path = join(dir, name);
    if (/\.json$/i.test(name)) {
      const text = await readText(path).catch((error: unknown) => {
        if (!(error instanceof UnusableFile)) throw error;
        left.push({ file: name, reason: `it can't be read: the file ${error.reason}` });
        return "";
      });
      if (mentions(text, hitter)) left.push({ file: name, reason: "the name stands in it" });
      continue;
    }
    if (!/\.csv$/i.test(name)) continue;
    const table = /^(hitters|names)\.csv$/i.test(name)
      ? (name.slice(0, -4).toLowerCase() as "hitters" | "names")
      : /^(sessions|targets|fields)\.csv$/i.test(name)
        ? null
        : "swings";
    try {
      if (table === null) {
        if ((await rawRecords(path, null)).some((r) => mentions(r.cells.join(" "), hitter))) {
          left.push({ file: name, reason: "the name stands in it" });
        }
        continue;
      }
      const map = table === "swings" ? await mapOf(dir, name, files) : null;
      await forgetRows(path, name, table, map, hitter, meant, change, counts, left);
    } catch (error) {
      if (!(error instanceof UnusableFile)) throw error;
      left.push({ file: name, reason: `it can't be read: the file ${error.reason}` });
    }
  }
}

async function mapOf(
  dir: string,
  name: string,
  names: readonly string[],
): Promise<{ map: ColumnMap; own: boolean } | null> {
  const own = name.replace(/\.csv$/i, ".map.json");
  if (names.includes(own)) return { map: await readColumnMap(join(dir, own)), own: true };
  return names.includes("map.json") ? { map: await readColumnMap(join(dir, "map.json")), own: false } : null;
}

async function rawRecords(path: string, map: ColumnMap | null, delimiter?: Delimiter): Promise<RawRecord[]> {
  const { readSample } = await import("./files.ts");
  const mark = delimiter ?? map?.delimiter ?? (await readSample(path)).delimiter;
  const lines = new Lines();
  const records = new Records(mark);
  const found: RawRecord[] = [];
  for await (const piece of (await openText(path, map?.encoding)).pieces)
    append(found, records.push(lines.push(piece), false));
  append(found, records.push(lines.end(), true));
  return found;
}

/** Takes the hitter's rows out of a CSV and leaves every other row's cells as they stand. */
async function forgetRows(
  path: string,
  name: string,
  table: "hitters" | "names" | "swings",
  map: { map: ColumnMap; own: boolean } | null,
  hitter: string,
  meant: (name: string) => string,
  change: Transaction,
  counts: { swings: number; refused: number; listed: number; mentions: number },
  left: { file: string; reason: string }[],
): Promise<void> {
  const drop = new Set<number>();
  const scan = scanFile(table, path, map === null ? {} : { map: map.map, mapIfFits: !map.own });
  let rows = 0;
  let step = await scan.next();
  for (; step.done !== true; step = await scan.next()) {
    const { numbers } = step.value;
    step.value.rows.forEach((row, i) => {
      if (![row.hitter, meant(row.hitter)].some((name) => plain(name) === plain(hitter))) return;
      rows++;
      drop.add(numbers[i]!);
    });
    for (const row of step.value.refused) {
      if (!names(row.cells, hitter)) continue;
      counts.refused++;
      drop.add(row.row);
    }
    // Copies of a row that goes, go with it.
    for (const { row, reason } of step.value.copies) {
      const first = /copy of row (\d+)/.exec(reason);
      if (row !== null && first !== null && drop.has(Number(first[1]))) drop.add(row);
    }
  }
  const { layout } = step.value;
  const records = await rawRecords(path, layout.map, layout.delimiter);
  const kept = records.filter((record) => !drop.has(record.row));
  if (kept.some((record) => mentions(record.cells.join(" "), hitter))) {
    left.push({ file: name, reason: "the name stands in other rows of it" });
  }
  if (drop.size === 0) return;
  if (layout.map?.encoding !== undefined && !/^utf-?8$/i.test(layout.map.encoding)) {
    left.push({
      file: name,
      reason: `it is written in ${layout.map.encoding}: take ${drop.size === 1 ? "the row" : `the ${drop.size} rows`} out by hand`,
    });
    return;
  }
  if (table === "hitters") counts.listed += rows;
  else if (table === "swings") counts.swings += rows;
  const quote = (cell: string): string =>
    cell.includes(layout.delimiter) || /["\r\n]|^\s|\s$/.test(cell)
      ? `"${cell.replaceAll('"', '""')}"`
      : cell;
  const text = kept.map((record) =>
    record.fault !== null ? record.cells[0]! : record.cells.map(quote).join(layout.delimiter),
  );
  await change.putText(name, `${text.join("\r\n")}\r\n`);
}
