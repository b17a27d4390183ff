/** What a library keeps of each session, and where: its swings, their history, its refused rows, and the log. */
import { readdir, readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { cellReader, Refusal } from "./cells.ts";
import type { Field } from "./fields.ts";
import { storedFields, type StoredSwing } from "./parquet.ts";
import { partitionName, sessionOfPartition } from "./partition.ts";
import { UnusableFile } from "./problems.ts";
import { unfinished } from "./transaction.ts";
import { unguarded } from "./guard.ts";

export const swingsFile = "swings.parquet";
export const historyFile = "history.csv";
export const logFile = join("swings", "additions.csv");
/** The files of refused rows, and of their maps. */
export const refusedFile = /^refused(-\d+)?\.csv$/;

/** An old value of a swing, and what took its place. */
export type Replaced = StoredSwing & {
  /** ISO 8601. */
  replaced_at: string;
  /** The swing that took its place: its id, session and source. */
  replaced_by: string;
  replaced_in: string | null;
};

const text = (name: string, title: string, description: string): Field => ({
  name,
  type: "string",
  title,
  description,
});

export const historyFields: readonly Field[] = [
  text("replaced_at", "Replaced", "When a newer value took its place."),
  text("replaced_by", "Replaced by", "The swing_id of the newer value."),
  text("replaced_in", "Replaced in", "The session of the newer value."),
  ...storedFields,
];

/** One file's taking in. */
export interface Addition {
  time: string;
  file: string;
  sha256: string;
  rows: number | null;
  new: number | null;
  corrected: number | null;
  copies: number | null;
  older: number | null;
  refused: number | null;
}

const count = (name: string): Field => ({ name, type: "number", title: name, description: "Rows." });

export const additionFields: readonly Field[] = [
  text("time", "Time", "When the file was taken in."),
  text("file", "File", "Its name."),
  text("sha256", "SHA-256", "Of its bytes."),
  ...["rows", "new", "corrected", "copies", "older", "refused"].map(count),
];

/** A session's folder. */
export interface Partition {
  readonly session: string | null;
  /** The folder, from the library's own. */
  readonly folder: string;
}

/** A library's files as they are once an interrupted change counts as made. */
export class Shelves {
  readonly dir: string;
  private readonly left: ReadonlyMap<string, string | null>;

  private constructor(dir: string, left: ReadonlyMap<string, string | null>) {
    this.dir = dir;
    this.left = left;
  }

  static async open(dir: string): Promise<Shelves> {
    return new Shelves(dir, await unfinished(dir));
  }

  /** Where a file is, given where it belongs; null when there is none. */
  async find(path: string): Promise<string | null> {
    const moved = this.left.get(path);
    if (moved === null) return null;
    const at = join(this.dir, moved ?? path);
    return (await stat(at).catch(() => null)) === null ? null : at;
  }

  /** The sessions' folders, by name. */
  async partitions(): Promise<Partition[]> {
    const names = await readdir(join(this.dir, "swings"), { withFileTypes: true }).catch(() => []);
    const folders = new Set(names.filter((entry) => entry.isDirectory()).map((entry) => entry.name));
    for (const path of this.left.keys()) {
      const [top, folder, file] = path.split(/[/\\]/);
      if (top === "swings" && file !== undefined) folders.add(folder!);
    }
    return [...folders].sort().flatMap((name) => {
      const session = sessionOfPartition(name);
      return session === undefined ? [] : [{ session, folder: join("swings", name) }];
    });
  }

  /** The names of the files in a session's folder. */
  async files(folder: string): Promise<string[]> {
    const names = new Set(await readdir(join(this.dir, folder)).catch(() => [] as string[]));
    for (const [path, from] of this.left) {
      if (!path.startsWith(join(folder, "/"))) continue;
      if (from === null) names.delete(path.slice(folder.length + 1));
      else names.add(path.slice(folder.length + 1));
    }
    return [...names].sort();
  }

  /** The old values of a session's swings, oldest first. */
  async history(folder: string): Promise<Replaced[]> {
    return (await this.ownRows(join(folder, historyFile), historyFields)) as unknown as Replaced[];
  }

  /** What was taken in, oldest first. */
  async additions(): Promise<Addition[]> {
    return (await this.ownRows(logFile, additionFields)) as unknown as Addition[];
  }

  /** A file of refused rows as it stands; null when there is none. */
  async refused(path: string): Promise<{ header: string[]; rows: string[][] } | null> {
    const at = await this.find(path);
    if (at === null) return null;
    const [header = [], ...rows] = records(path, await readFile(at, "utf8"));
    const filled = rows.filter((row) => row.some((cell) => cell.trim() !== ""));
    return { header: header.map(unguarded), rows: filled.map((row) => row.map(unguarded)) };
  }

  /** A CSV that the library writes itself. */
  private async ownRows(path: string, fields: readonly Field[]): Promise<Record<string, unknown>[]> {
    const at = await this.find(path);
    if (at === null) return [];
    const [header = [], ...rows] = records(path, await readFile(at, "utf8"));
    const readers = header.map((name) => {
      const field = fields.find((f) => f.name === name);
      return field === undefined ? null : { name, read: cellReader(field) };
    });
    const blank = Object.fromEntries(fields.map((field) => [field.name, null]));
    return rows.map((cells) => {
      const row: Record<string, unknown> = { ...blank };
      readers.forEach((reader, i) => {
        const value = reader?.read(cells[i] ?? "") ?? null;
        // What a hand has changed beyond reading is unknown.
        if (reader !== null) row[reader.name] = value instanceof Refusal ? null : value;
      });
      return row;
    });
  }

  /** The folder a session has, or would get. */
  folderOf(session: string | null, known: readonly Partition[]): string {
    return known.find((p) => p.session === session)?.folder ?? join("swings", partitionName(session));
  }
}

function records(path: string, content: string): string[][] {
  try {
    return parse(content, {
      bom: true,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      record_delimiter: ["\r\n", "\n", "\r"],
    }) as string[][];
  } catch (error) {
    throw new UnusableFile(path, `can't be read as CSV (${(error as Error).message})`);
  }
}

/** Changes whenever a library's swings do. */
export async function shelvesStamp(dir: string): Promise<string> {
  const parts = [logFile, join("swings", ".journal.json")].map(async (path) => {
    const info = await stat(join(dir, path)).catch(() => null);
    return info === null ? "-" : `${info.ino} ${info.mtimeMs} ${info.size}`;
  });
  return (await Promise.all(parts)).join("; ");
}
