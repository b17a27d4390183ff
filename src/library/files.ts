/** Files of the disk, read: each of these opens a path and hands its text to the reading room. */
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { columnMapFromText, type ColumnMap } from "../reading/maps.ts";
import {
  collect,
  sampleOf,
  scanText,
  scanTextAny,
  type Batch,
  type ReadOptions,
  type Reading,
  type Rows,
  type Sample,
  type Summary,
} from "../reading/read.ts";
import { textFrom, type TextSource } from "../reading/text.ts";
import type { Hitter, OwnField, Session, Swing } from "../swing/fields.ts";
import { UnusableFile } from "../swing/problems.ts";
import type { Table } from "../swing/tables.ts";
import { isMissing, notAFile, readText } from "./disk.ts";

const pieceSize = 1 << 20;

/**
 * A file's text in pieces.
 * @throws UnusableFile when there is no such file, it is a folder or a pipe, may not be read, or is not text.
 */
export async function openText(path: string, encoding?: string): Promise<TextSource> {
  const info = await stat(path).catch((error: NodeJS.ErrnoException) => {
    if (!isMissing(error) && error.code !== "EACCES") throw error;
    throw new UnusableFile(path, error.code === "EACCES" ? "may not be read" : "does not exist", "call");
  });
  // A pipe would be waited for until someone writes into it, and could be read only once.
  const other = notAFile(info);
  if (other !== null) throw new UnusableFile(path, other, "call");
  return textFrom(path, bytesOf(path), {
    ...(encoding === undefined ? {} : { encoding }),
    size: info.size,
  });
}

async function* bytesOf(path: string): AsyncGenerator<Uint8Array> {
  try {
    for await (const piece of createReadStream(path, { highWaterMark: pieceSize })) yield piece as Buffer;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "EACCES" || code === "EPERM") throw new UnusableFile(path, "may not be read", "call");
    throw error;
  }
}

/**
 * A column map from its JSON file.
 * @throws UnusableFile when the file is missing, is not JSON, or is no column map.
 */
export async function readColumnMap(path: string): Promise<ColumnMap> {
  const text = await readText(path).catch((error: unknown) => {
    if (!isMissing(error)) throw error;
    throw new UnusableFile(path, "does not exist", "call");
  });
  return columnMapFromText(text, path);
}

/** Reads one table from a file, batch by batch; see `scanText`. */
export async function* scanFile<N extends Table["name"]>(
  name: N,
  path: string,
  options: ReadOptions = {},
): AsyncGenerator<Batch<Rows[N]>, Summary> {
  return yield* scanText(name, await openText(path, options.map?.encoding), options);
}

/** Reads a file whose table is told from its headings, or from the map when there is one; see `scanText`. */
export async function* scanAny(
  path: string,
  options: ReadOptions = {},
): AsyncGenerator<Batch<object>, Summary> {
  return yield* scanTextAny(await openText(path, options.map?.encoding), options);
}

/**
 * The heading row and the first rows of a file; see `sampleOf`.
 * @param encoding the text's, where it is no Unicode
 */
export async function readSample(
  path: string,
  recognise?: (headings: readonly string[]) => number,
  encoding?: string,
): Promise<Sample> {
  return sampleOf(await openText(path, encoding), recognise);
}

/**
 * Reads a CSV of swings. Each has a `swing_id` afterwards, and its outcome where that follows from the rest.
 * @throws UnusableFile when nothing of the file can be used: one plain sentence
 */
export function readSwings(path: string, options: ReadOptions = {}): Promise<Reading<Swing>> {
  return collect(scanFile("swings", path, options));
}

/** Reads a CSV of sessions; see `readSwings`. */
export function readSessions(path: string, options: ReadOptions = {}): Promise<Reading<Session>> {
  return collect(scanFile("sessions", path, options));
}

/** Reads a CSV of hitters; see `readSwings`. */
export function readHitters(path: string, options: ReadOptions = {}): Promise<Reading<Hitter>> {
  return collect(scanFile("hitters", path, options));
}

/** Reads a CSV of a facility's own playing fields; see `readSwings`. */
export function readFields(path: string, options: ReadOptions = {}): Promise<Reading<OwnField>> {
  return collect(scanFile("fields", path, options));
}
