/** What the disk is asked for by whoever keeps files: whole files, pushed to the disk, and plain words when it says no. */
import { mkdir, open, readFile, rename, stat } from "node:fs/promises";
import { setTimeout } from "node:timers/promises";
import type { Stats } from "node:fs";
import { dirname } from "node:path";
import { UnusableFile } from "../swing/problems.ts";
import { startSha256 } from "../swing/sha256.ts";

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EACCES: "reading or writing it is not allowed",
  EPERM: "reading or writing it is not allowed",
  EISDIR: "it is a folder",
  ENOTDIR: "a part of the path is not a folder",
  EEXIST: "it exists already",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk is full for this user",
  EROFS: "the disk can only be read",
  EIO: "the disk failed",
  EADDRINUSE: "the port is in use",
};

/** Whether an error is the system's own. */
export function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return (
    error instanceof Error && typeof (error as NodeJS.ErrnoException).code === "string" && "syscall" in error
  );
}

/**
 * Why the system refused, in words.
 * @example systemReason({ name: "Error", message: "x", code: "ENOSPC" }) // "the disk is full"
 */
export function systemReason(error: NodeJS.ErrnoException): string {
  return reasons[error.code ?? ""] ?? error.message;
}

/** Whether the error says that there is nothing under that name. */
export const isMissing = (error: unknown): boolean =>
  ["ENOENT", "ENOTDIR"].includes((error as NodeJS.ErrnoException).code ?? "");

/**
 * Does work on a file; a system's error names that file, and not the temporary name it was written under, or none.
 * @param path as whoever reads the sentence knows it
 */
export async function onFile<T>(path: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (isSystemError(error)) error.path = path;
    throw error;
  }
}

/** Pushes a folder's list of names to the disk, on systems that can. */
export async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, "r").catch(() => null);
  if (folder === null) return;
  try {
    await folder.sync();
  } catch (error) {
    // Windows and some network disks keep their folders themselves, and say that they can't be asked.
    if (["EIO", "ENOSPC", "EDQUOT"].includes((error as NodeJS.ErrnoException).code ?? "")) throw error;
  } finally {
    await folder.close().catch(() => {});
  }
}

/**
 * Writes a new file from pieces and pushes it to the disk.
 * @returns the SHA-256 of what was meant to be written, in hex
 */
export async function writeSynced(
  path: string,
  pieces: string | Iterable<string | Uint8Array> | AsyncIterable<string | Uint8Array>,
): Promise<string> {
  const hash = startSha256();
  const file = await open(path, "w");
  try {
    for await (const piece of typeof pieces === "string" ? [pieces] : pieces) {
      hash.update(piece);
      await file.writeFile(piece);
    }
    await file.sync();
  } finally {
    await file.close();
  }
  return hash.hex();
}

/** Makes a folder, and those above it that are not there. */
export async function makeFolder(path: string): Promise<void> {
  const info = await stat(path).catch((error: unknown) => {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  });
  if (info?.isDirectory()) return;
  if (info !== null) throw new UnusableFile(path, "is a file, where a folder is wanted", "call");
  // Asked to make those above too, Node tries for ever where the system has no room for folders, as in /proc.
  const above = dirname(path);
  if (above !== path) await makeFolder(above);
  await mkdir(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT")
      throw new UnusableFile(path, "can't be made: that place takes no folders", "call");
    // Another process was quicker.
    if (error.code !== "EEXIST") throw error;
  });
}

/** How often, and after how long, a rename that was refused is tried again, ms. */
const renames = [20, 80, 200, 400] as const;

/**
 * Renames a file over another. Windows refuses that as long as a reader, a virus scanner say, has the other open.
 * @throws the system's error, when it goes on refusing
 */
export async function putInPlace(from: string, to: string): Promise<void> {
  for (const wait of [...renames, null]) {
    try {
      return await rename(from, to);
    } catch (error) {
      const busy = ["EPERM", "EACCES", "EBUSY"].includes((error as NodeJS.ErrnoException).code ?? "");
      if (wait === null || !busy || process.platform !== "win32") throw error;
      await setTimeout(wait);
    }
  }
}

/** What stands where a file is wanted; null when it is one. */
export function notAFile(info: Stats): string | null {
  if (info.isFile()) return null;
  if (info.isDirectory()) return "is a folder, not a file";
  if (info.isFIFO()) return "is a pipe, which can be read only once: save it as a file first";
  return "is a device, not a file";
}

/** More than a file of ours ever holds: 40 million swings. */
const mostBytes = 2 ** 31 - 1;

/**
 * A file's bytes. Only a file is opened: a pipe would be waited for until someone writes into it.
 * @throws UnusableFile when it is no file, or too large for one of ours
 */
export async function readBytes(path: string): Promise<Buffer> {
  const info = await stat(path);
  const other = notAFile(info) ?? (info.size > mostBytes ? "is too large to be read whole" : null);
  if (other !== null) throw new UnusableFile(path, other, "call");
  return readFile(path);
}

/** A file's text; see `readBytes`. */
export async function readText(path: string): Promise<string> {
  return (await readBytes(path)).toString("utf8");
}

/**
 * What a JSON file holds.
 * @throws UnusableFile when it is no file, or not JSON
 */
export async function readJson(path: string): Promise<unknown> {
  const text = await readText(path);
  try {
    return JSON.parse(text.replace(/^\ufeff/, "")) as unknown;
  } catch (error) {
    throw new UnusableFile(path, `is not JSON (${(error as Error).message})`);
  }
}
