/**
 * Writing files that are not a library's own: whole or not at all, and several of them all or none. Each is written beside
 * its place, under a name that no reader looks at, and takes its place by a rename when all are whole; until then what stood
 * there before stands untouched. What a killed process left beside is cleared away by the next one that writes there.
 */
import { constants } from "node:fs";
import { copyFile, link, readdir, rm, rmdir, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { csvHeader, csvRow } from "../reading/csv.ts";
import { isMissing, makeFolder, onFile, putInPlace, syncFolder, writeSynced } from "./disk.ts";
import type { Field } from "../swing/fields.ts";
import { UnusableFile } from "../swing/problems.ts";

export { csvAsItStood, csvCell, csvHeader, csvRow, csvText } from "../reading/csv.ts";

type Named = Pick<Field, "name">;

/** A file's content, in pieces. */
export type Pieces = AsyncIterable<string | Uint8Array> | Iterable<string | Uint8Array>;

/** Writes one of several files that appear together, to be put in place with the others. */
export type Put = (path: string, pieces: Pieces) => Promise<void>;

interface Part {
  readonly path: string;
  /** Where it is written first, and where what stood in its place is kept meanwhile. */
  readonly part: string;
  readonly before: string;
}

let count = 0;
const besideName = /^\.beside-(\d+)-\d+\.(part|before)$/;

/** Whether a name is that of a file on the way to its place, or of what a killed process left of one. */
export const isBeside = (name: string): boolean => besideName.test(name);

/** Whether a process of that number runs. */
function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

async function clearLeft(folder: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    const pid = Number(besideName.exec(name)?.[1] ?? process.pid);
    if (pid !== process.pid && !isRunning(pid)) await rm(join(folder, name), { force: true }).catch(() => {});
  }
}

/** The folders that have to be made for one to be there, the lowest first. */
async function missingFolders(folder: string): Promise<string[]> {
  const missing: string[] = [];
  for (let at = folder; ; at = dirname(at)) {
    const there = await stat(at).catch((error: unknown) => (isMissing(error) ? null : undefined));
    if (there !== null || dirname(at) === at) return missing;
    missing.push(at);
  }
}

/** Keeps what stands in a file's place, under another name; whether there was anything. */
async function keepBefore({ path, before }: Part): Promise<boolean> {
  try {
    await link(path, before);
  } catch (error) {
    if (isMissing(error)) return false;
    // Not every disk gives a file two names, nor does it to everybody.
    const can = ["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"];
    if (!can.includes((error as NodeJS.ErrnoException).code ?? "")) throw error;
    await copyFile(path, before, constants.COPYFILE_EXCL);
  }
  return true;
}

/** Puts the parts in their places; where one can't be, those before it are taken back. */
async function place(parts: readonly Part[]): Promise<void> {
  for (const { path } of parts)
    if ((await stat(path).catch(() => null))?.isDirectory())
      throw new UnusableFile(path, "is a folder, where a file would be written", "call");
  const [only] = parts;
  if (parts.length === 1) return onFile(only!.path, () => putInPlace(only!.part, only!.path));
  const kept = new Set<Part>();
  const placed: Part[] = [];
  try {
    for (const part of parts)
      await onFile(part.path, async () => {
        if (await keepBefore(part)) kept.add(part);
      });
    for (const part of parts) {
      placed.push(part);
      await onFile(part.path, () => putInPlace(part.part, part.path));
    }
  } catch (error) {
    for (const part of placed.reverse()) {
      const back = kept.has(part) ? putInPlace(part.before, part.path) : rm(part.path, { force: true });
      await back.catch(() => {});
    }
    throw error;
  }
}

/**
 * Writes several files: all of them, or, when anything fails, none, and what stood in their places stays.
 * @param work writes each with what it is given, in the order in which they are to appear
 * @param folder made when absent, and taken away again when nothing could be written
 * @returns what the work returned
 * @throws what the work throws, and the system's error with the file's own path
 */
export async function writeTogether<T>(work: (put: Put) => Promise<T>, folder?: string): Promise<T> {
  const parts: Part[] = [];
  const cleared = new Set<string>();
  let made = folder === undefined ? [] : await missingFolders(folder);
  let done = false;
  try {
    if (folder !== undefined) await makeFolder(folder);
    const result = await work(async (path, pieces) => {
      const dir = dirname(path);
      // A folder below the one that is written to.
      if (folder !== undefined && dir !== folder) {
        made = [...(await missingFolders(dir)).filter((name) => !made.includes(name)), ...made];
        await makeFolder(dir);
      }
      if (!cleared.has(dir)) await clearLeft(dir);
      cleared.add(dir);
      const name = join(dir, `.beside-${process.pid}-${++count}`);
      const part = { path, part: `${name}.part`, before: `${name}.before` };
      parts.push(part);
      await onFile(path, () => writeSynced(part.part, pieces));
    });
    await place(parts);
    done = true;
    for (const dir of cleared) await syncFolder(dir).catch(() => {});
    return result;
  } finally {
    for (const { part, before } of parts) {
      if (!done) await rm(part, { force: true }).catch(() => {});
      if (parts.length > 1) await rm(before, { force: true }).catch(() => {});
    }
    // Only those that are empty go.
    if (!done) for (const dir of made) await rmdir(dir).catch(() => {});
  }
}

/** Writes a file from pieces: whole, or not at all. */
export function writeWhole(path: string, pieces: Pieces): Promise<void> {
  return writeTogether((put) => put(path, pieces));
}

/**
 * Writes rows as a CSV file, whole or not at all.
 * @returns how many rows were written
 */
export async function writeTable(
  path: string,
  rows: AsyncIterable<object> | Iterable<object>,
  fields: readonly Named[],
): Promise<number> {
  let count = 0;
  async function* pieces(): AsyncGenerator<string> {
    let text = csvHeader(fields);
    for await (const row of rows) {
      text += csvRow(row, fields);
      count++;
      if (text.length > 1 << 18) {
        yield text;
        text = "";
      }
    }
    yield text;
  }
  await writeWhole(path, pieces());
  return count;
}
