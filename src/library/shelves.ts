/** What a library keeps of each session, and where: its swings, their history, its refused rows, and the log. */
import { readdir, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { parse } from "csv-parse/sync";
import { sha256Of } from "../swing/sha256.ts";
import { cellReader, Refusal } from "../reading/cells.ts";
import { isMissing, readBytes, readText } from "./disk.ts";
import type { Field } from "../swing/fields.ts";
import { readSwingGroups, storedFields, type StoredBytes, type StoredSwing } from "./parquet.ts";
import { byName } from "../swing/byName.ts";
import { asDisksSee, partitionName, sessionOfPartition } from "../swing/partition.ts";
import { quoted, sessionNamed, UnusableFile } from "../swing/problems.ts";
import { readSums, sumsFile, type Sums } from "./sums.ts";
import { unfinished } from "./transaction.ts";
import { unguarded } from "../swing/guard.ts";

export const swingsFile = "swings.parquet";
export const historyFile = "history.csv";
export const logFile = join("swings", "additions.csv");
/** The files of refused rows, and of their maps. */
export const refusedFile = /^refused(-\d+)?\.csv$/;

/**
 * Whether a file in one of a library's folders is one that the library keeps there.
 * @example isStored("swings.parquet") // true
 */
export const isStored = (name: string): boolean =>
  [swingsFile, historyFile, basename(logFile)].includes(name) ||
  /^refused(-\d+)?\.(csv|map\.json)$/.test(name);

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
  /** The names of the sessions' folders that it changed, as `listedFolders` has them; null in an older library. */
  into: string | null;
  /** For each of those folders how many rows were alike, and counted once; null in an older library. */
  untimed: string | null;
}

const count = (name: string): Field => ({ name, type: "number", title: name, description: "Rows." });

export const additionFields: readonly Field[] = [
  text("time", "Time", "When the file was taken in."),
  text("file", "File", "Its name."),
  text("sha256", "SHA-256", "Of its bytes."),
  ...["rows", "new", "corrected", "copies", "older", "refused"].map(count),
  text("into", "Into", "The sessions' folders that it changed."),
  text(
    "untimed",
    "Untimed copies",
    "For each of them, rows without a time that were copies of another of the file.",
  ),
];

/** A session's folder. */
export interface Partition {
  readonly session: string | null;
  /** The folder, from the library's own. */
  readonly folder: string;
}

/** The folders that sessions have; a session without one is given one that no other has, on any disk. */
export class Folders {
  readonly known: readonly Partition[];
  private readonly given: Map<string | null, string>;
  private readonly taken: Set<string>;

  constructor(known: readonly Partition[]) {
    this.known = known;
    // The first of two that are named for one session.
    this.given = new Map(known.toReversed().map(({ session, folder }) => [session, folder]));
    this.taken = new Set(known.map(({ folder }) => asDisksSee(basename(folder))));
  }

  /**
   * A session's folder, from the library's own.
   * @throws UnusableFile when its name is too long to be told from another's
   */
  of(session: string | null): string {
    const there = this.given.get(session);
    if (there !== undefined) return there;
    try {
      const name = partitionName(session, this.taken);
      this.taken.add(asDisksSee(name));
      const folder = join("swings", name);
      this.given.set(session, folder);
      return folder;
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      throw new UnusableFile("swings", `can't keep ${sessionNamed(session)}: its name ${error.message}`);
    }
  }
}

/**
 * Folders as the list of additions keeps them: their names with blanks between, and so with none within.
 * @example listedFolders(["swings/session=May 5", "swings/session=June"]) // "session=May%205 session=June"
 */
export const listedFolders = (folders: readonly string[]): string =>
  folders.map((folder) => basename(folder).replaceAll(" ", "%20")).join(" ");

/**
 * How many rows of each folder were alike, and counted once: by the folder's name, as `listedFolders` has it.
 * @example untimedByFolder([]).size // 0
 */
export function untimedByFolder(additions: readonly Addition[]): ReadonlyMap<string, number> {
  // A file that comes again brings the same rows.
  const files = new Map(additions.map((addition) => [`${addition.sha256} ${addition.into}`, addition]));
  const found = new Map<string, number>();
  for (const { into, untimed } of files.values()) {
    const counts = (untimed ?? "").split(" ");
    (into ?? "").split(" ").forEach((name, i) => {
      const n = Number(counts[i] ?? 0);
      if (Number.isSafeInteger(n)) found.set(name, (found.get(name) ?? 0) + n);
    });
  }
  return found;
}

/** A file of a library, read. */
export interface StoredFile extends StoredBytes {
  /** In hex. */
  readonly sha256: string;
}

/** A stored path as it is told. */
const told = (path: string): string => path.replaceAll("\\", "/");

/** A library's files as they are once an interrupted change counts as made. */
export class Shelves {
  readonly dir: string;
  private readonly left: ReadonlyMap<string, string | null>;
  private readonly sumsOf = new Map<string, Promise<Sums>>();

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
    return stat(at).then(
      () => at,
      (error: unknown) => {
        if (isMissing(error)) return null;
        throw error;
      },
    );
  }

  /** The sessions' folders, by the sessions' names, swings without one last: what has no day stands in this order. */
  async partitions(): Promise<Partition[]> {
    const names = await readdir(join(this.dir, "swings"), { withFileTypes: true }).catch((error: unknown) => {
      if (isMissing(error)) return [];
      throw error;
    });
    const folders = new Set(names.filter((entry) => entry.isDirectory()).map((entry) => entry.name));
    for (const path of this.left.keys()) {
      const [top, folder, file] = path.split(/[/\\]/);
      if (top === "swings" && file !== undefined) folders.add(folder!);
    }
    return [...folders]
      .flatMap((name) => {
        const session = sessionOfPartition(name);
        return session === undefined ? [] : [{ session, folder: join("swings", name) }];
      })
      .sort(
        (a, b) =>
          Number(a.session === null) - Number(b.session === null) ||
          byName(a.session ?? "", b.session ?? "") ||
          byName(a.folder, b.folder),
      );
  }

  /** The names of the files in a session's folder. */
  async files(folder: string): Promise<string[]> {
    const there = await readdir(join(this.dir, folder)).catch((error: unknown) => {
      if (isMissing(error)) return [] as string[];
      throw error;
    });
    const names = new Set(there);
    for (const [path, from] of this.left) {
      if (!path.startsWith(join(folder, "/"))) continue;
      if (from === null) names.delete(path.slice(folder.length + 1));
      else names.add(path.slice(folder.length + 1));
    }
    return [...names].sort();
  }

  /**
   * The sums of a folder's files; none in a library that an older version wrote, or another program.
   * @throws UnusableFile when they are damaged
   */
  sums(folder: string): Promise<Sums> {
    const known = this.sumsOf.get(folder) ?? this.readSums(folder);
    this.sumsOf.set(folder, known);
    return known;
  }

  private async readSums(folder: string): Promise<Sums> {
    const path = join(folder, sumsFile);
    const at = await this.find(path);
    if (at === null) return new Map();
    const sums = readSums(await readText(at));
    if (sums !== null) return sums;
    const what = `is damaged, so that nothing vouches for ${this.whatOf(folder)} beside it`;
    const help = "Take the folder from its backup, or remove this file to have the rest read as it stands";
    throw new UnusableFile(told(path), `${what}. ${help}`);
  }

  /** What stands in a folder, as a sentence names it. */
  whatOf(folder: string): string {
    const session = sessionOfPartition(folder.slice("swings/".length));
    return session === undefined ? "the list of files taken in" : sessionNamed(session);
  }

  /** What to do about a file that is lost or damaged. */
  private async help(path: string): Promise<string> {
    const folder = dirname(path);
    if (!path.endsWith(swingsFile))
      return `Take it from its backup, or remove ${told(join(folder, sumsFile))} to have it read as it stands`;
    // A damaged list names no files, and that is told elsewhere.
    const additions = await this.additions().catch((): Addition[] => []);
    const name = listedFolders([folder]);
    const files = additions.filter(({ into }) => into?.split(" ").includes(name)).map(({ file }) => file);
    const from =
      files.length === 0 ? "the files that it came from" : [...new Set(files)].map(quoted).join(", ");
    return `Take it from its backup, or move the folder away and add again ${from}`;
  }

  /**
   * A file's bytes as they were written; null when there is none.
   * @throws UnusableFile when they don't fit the sum that was stored with them, or the file is gone
   */
  async bytes(path: string): Promise<StoredFile | null> {
    const folder = dirname(path);
    const at = await this.find(path);
    const sum = (await this.sums(folder)).get(path.slice(folder.length + 1));
    if (at === null && sum === undefined) return null;
    const what = this.whatOf(folder);
    if (at === null) throw new UnusableFile(told(path), `of ${what} is gone. ${await this.help(path)}`);
    const bytes = await readBytes(at);
    const sha256 = sha256Of(bytes);
    if (sum === undefined || sum === sha256) return { bytes, sha256, vouched: sum !== undefined };
    const reason = `is damaged, and with it ${what}: it doesn't fit the sum stored with it`;
    throw new UnusableFile(told(path), `${reason}. ${await this.help(path)}`);
  }

  /**
   * A session's swings; null when it has none.
   * @param wanted the columns wanted; all of a swing's by default
   * @throws UnusableFile as `bytes` and `readSwingGroups` do
   */
  async swings(
    folder: string,
    wanted: readonly Field[] = storedFields,
  ): Promise<{ sha256: string; groups: AsyncIterable<Iterable<StoredSwing>> } | null> {
    const path = join(folder, swingsFile);
    const file = await this.bytes(path);
    return file === null ? null : { sha256: file.sha256, groups: readSwingGroups(file, told(path), wanted) };
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
    // People mend it, and so no sum of it can be held against them.
    const [header = [], ...rows] = records(path, await readText(at));
    const filled = rows.filter((row) => row.some((cell) => cell.trim() !== ""));
    return { header: header.map(unguarded), rows: filled.map((row) => row.map(unguarded)) };
  }

  /** A CSV that the library writes itself. */
  private async ownRows(path: string, fields: readonly Field[]): Promise<Record<string, unknown>[]> {
    const file = await this.bytes(path);
    if (file === null) return [];
    const [header = [], ...rows] = records(path, Buffer.from(file.bytes).toString("utf8"));
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
  const parts = [join("swings", sumsFile), logFile, join("swings", ".journal.json")].map(async (path) => {
    const info = await stat(join(dir, path)).catch(() => null);
    return info === null ? "-" : `${info.ino} ${info.mtimeMs} ${info.size}`;
  });
  return (await Promise.all(parts)).join("; ");
}
