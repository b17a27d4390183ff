/**
 * A library: a folder. Its swings stand under `swings/`, as Parquet, one file a session
 * (`swings/session=…/swings.parquet`), where `add` puts them, or in CSV files, or in both. `sessions.csv`,
 * `hitters.csv`, `targets.csv`, `names.csv`, `fields.csv` and `thresholds.json` may be there; every other CSV is swings. A `map.json` describes
 * the layout of the swing files it fits, and a `NAME.map.json` that of `NAME.csv` alone.
 */
import { readdir, stat } from "node:fs/promises";
import { isAbsolute, join, relative } from "node:path";
import { readColumnMap, scanFile } from "./files.ts";
import { isMissing, isSystemError, readJson, systemReason } from "./disk.ts";
import {
  swingFields,
  type Hitter,
  type NameRow,
  type OwnField,
  type Session,
  type Swing,
  type Target,
} from "../swing/fields.ts";
import { byName } from "../swing/byName.ts";
import { fingerprint } from "../swing/identity.ts";
import { type ColumnMap } from "../reading/maps.ts";
import { knowFields } from "../swing/ownFields.ts";
import { hitterMeant, namesakeWarnings } from "../reading/namesakes.ts";
import { isUnread, UnusableFile, type Problem } from "../swing/problems.ts";
import { untimedByFolder, listedFolders, refusedFile, Shelves, shelvesStamp, swingsFile } from "./shelves.ts";
import { swingTroubles } from "../swing/rules.ts";
import { untimedIn } from "../reading/causes.ts";
import { collect, Seen, type ReadOptions, type Rows } from "../reading/read.ts";
import { append } from "../swing/lists.ts";

/** One file of a library. */
export interface LibraryFile {
  readonly file: string;
  readonly sha256: string;
  /** Rows taken. */
  readonly rows: number;
  /** Rows refused. */
  readonly refused: number;
  /** Rows without a time that were exact copies of another, and are counted once. */
  readonly untimed: number;
}

/** Everything a folder holds. Rows are in the order of the sessions' folders, then of the CSV files' names. */
export interface Library {
  readonly dir: string;
  readonly swings: Swing[];
  readonly sessions: Session[];
  readonly hitters: Hitter[];
  readonly targets: Target[];
  /** What was asked about names nearly alike, and answered. */
  readonly names: NameRow[];
  /** The facility's own playing fields. */
  readonly fields: OwnField[];
  /** What thresholds.json holds, unjudged; null without one. */
  readonly thresholds: unknown | null;
  readonly files: LibraryFile[];
  readonly problems: Problem[];
}

const companions = {
  sessions: "sessions.csv",
  hitters: "hitters.csv",
  targets: "targets.csv",
  names: "names.csv",
  fields: "fields.csv",
} as const;

/** The tables beside the swings. */
export type Companions = Pick<Library, keyof typeof companions>;

/**
 * What keeps rows out of the tables beside the swings, or a level out of use. It was never told when swings were
 * added, and it changes figures: whatever reads a library tells it first. A table that can't be read at all is told apart.
 */
export function companionProblems({ problems }: Pick<Library, "problems">): Problem[] {
  const files = new Set<string>(Object.values(companions));
  return problems.filter(
    (problem) =>
      files.has(problem.file.toLowerCase()) &&
      !isUnread(problem) &&
      (problem.kind === "refused" || problem.field === "level"),
  );
}

/** A folder's CSV and JSON files, and what reading them has brought to light. */
class Shelf {
  readonly dir: string;
  /** The files' names, in order: what has no day stands in it, on every page. */
  readonly names: readonly string[];
  readonly files: LibraryFile[] = [];
  readonly problems: Problem[] = [];

  private constructor(dir: string, names: readonly string[]) {
    this.dir = dir;
    this.names = names;
  }

  static async open(dir: string): Promise<Shelf> {
    const info = await stat(dir).catch((error: unknown) => {
      if (!isMissing(error)) throw error;
      throw new UnusableFile(dir, "does not exist", "call");
    });
    if (!info.isDirectory()) {
      throw new UnusableFile(dir, "is a file, where a library is a folder of CSV files", "call");
    }
    const names = await readdir(dir);
    return new Shelf(dir, names.filter((name) => !/^[.~]/.test(name)).sort(byName));
  }

  /** A file's name as it stands, whatever its capitals. */
  find(name: string): string | null {
    return this.names.find((n) => n.toLowerCase() === name.toLowerCase()) ?? null;
  }

  /** The swing files' names. */
  swings(): string[] {
    const others = Object.values<string>(companions);
    return this.names.filter((name) => /\.csv$/i.test(name) && !others.includes(name.toLowerCase()));
  }

  /** Null, and a problem noted, when the file can't be used. */
  async attempt<T>(work: () => Promise<T>): Promise<T | null> {
    try {
      return await work();
    } catch (error) {
      const { file, reason } = this.trouble(error);
      this.problems.push({ kind: "refused", file, row: null, field: null, value: null, reason });
      return null;
    }
  }

  /** Which file an error is about, from the library's folder, and what is wrong with it; any other error is thrown. */
  private trouble(error: unknown): { file: string; reason: string } {
    const named = (path: string): string =>
      isAbsolute(path) || path.startsWith(join(this.dir, "/")) ? relative(this.dir, path) : path;
    if (error instanceof UnusableFile) return { file: named(error.file), reason: `the file ${error.reason}` };
    if (!isSystemError(error)) throw error;
    return { file: named(error.path ?? this.dir), reason: `the file can't be read: ${systemReason(error)}` };
  }

  warn(file: string, reason: string): void {
    this.problems.push({ kind: "warning", file, row: null, field: null, value: null, reason });
  }

  async rows<N extends keyof Rows>(table: N, name: string, options: ReadOptions = {}): Promise<Rows[N][]> {
    const scan = scanFile(table, join(this.dir, name), { ...options, name });
    const reading = await this.attempt(() => collect(scan));
    if (reading === null) return [];
    const { sha256, rows, refused } = reading;
    const untimed = untimedIn(reading.untimed);
    this.files.push({ file: name, sha256, rows: rows.length, refused: refused.length, untimed });
    for (const problem of reading.problems) this.problems.push(problem);
    return rows;
  }

  /** The swings of its CSV files, each file by the map it has. */
  async *csvSwings(seen: Seen): AsyncGenerator<Swing> {
    const general = await this.map("map.json");
    for (const name of this.swings()) {
      const own = await this.map(name.replace(/\.csv$/i, ".map.json"));
      const options = { map: own ?? general, mapIfFits: own === null, seen };
      for (const row of await this.rows("swings", name, options)) yield row;
    }
  }

  async companion<N extends keyof Companions>(table: N): Promise<Rows[N][]> {
    const name = this.find(companions[table]);
    return name === null ? [] : this.rows(table, name);
  }

  async companions(): Promise<Companions> {
    // Sessions name fields: they are known first.
    const fields = await this.companion("fields");
    knowFields(fields);
    return {
      fields,
      names: await this.companion("names"),
      sessions: await this.companion("sessions"),
      hitters: await this.companion("hitters"),
      targets: await this.companion("targets"),
    };
  }

  async map(name: string): Promise<ColumnMap | null> {
    const found = this.find(name);
    return found === null ? null : this.attempt(() => readColumnMap(join(this.dir, found)));
  }
}

/**
 * Opens a library. A file that can't be used becomes a problem of the library, not an error.
 * @throws UnusableFile when the folder is missing or is no folder
 */
export async function openLibrary(dir: string): Promise<Library> {
  // What is written meanwhile would be read half before and half after.
  for (let attempt = 1; ; attempt++) {
    const before = await shelvesStamp(dir);
    try {
      const library = await readLibrary(dir);
      if (attempt === 5 || before === (await shelvesStamp(dir))) return library;
    } catch (error) {
      if (attempt === 5 || before === (await shelvesStamp(dir))) throw error;
    }
  }
}

async function readLibrary(dir: string): Promise<Library> {
  const shelf = await Shelf.open(dir);
  const { sessions, hitters, targets, names, fields } = await shelf.companions();
  const meant = hitterMeant(names);
  const seen = new Seen();
  const swings: Swing[] = [];
  await readPartitions(shelf, seen, swings);
  for await (const row of shelf.csvSwings(seen)) swings.push(whose(row, meant));
  append(shelf.problems, strangers(swings, sessions, hitters));
  append(shelf.problems, namesakeWarnings(namesIn(swings, hitters), "The library", { answered: names }));
  const name = shelf.find("thresholds.json");
  const thresholds = name === null ? null : await shelf.attempt(() => readJson(join(dir, name)));
  const { files, problems } = shelf;
  return { dir, swings, sessions, hitters, targets, names, fields, thresholds, files, problems };
}

/** A swing with its hitter's name as it is meant. */
function whose(swing: Swing, meant: (name: string) => string): Swing {
  swing.hitter = meant(swing.hitter);
  return swing;
}

function* namesIn(swings: readonly Swing[], hitters: readonly Hitter[]): Iterable<string> {
  for (const { hitter } of swings) yield hitter;
  for (const { hitter } of hitters) yield hitter;
}

/** The swings under `swings/`. Those of a library that also has CSV files are noted, so that a copy is told. */
async function readPartitions(shelf: Shelf, seen: Seen, swings: Swing[]): Promise<void> {
  const shelves = await Shelves.open(shelf.dir);
  const mixed = shelf.swings().length > 0;
  const ids = new Set<string>();
  const partitions = await shelves.partitions();
  const additions = partitions.length === 0 ? [] : await shelf.attempt(() => shelves.additions());
  const untimed = untimedByFolder(additions ?? []);
  for (const { session, folder } of partitions) {
    const name = `${folder.replaceAll("\\", "/")}/${swingsFile}`;
    const refused = (await shelf.attempt(() => waiting(shelves, folder))) ?? 0;
    if (refused > 0) {
      const rows = refused === 1 ? "row was refused, and waits" : "rows were refused, and wait";
      shelf.warn(name, `${refused} ${rows} beside it to be corrected and added`);
    }
    // Nothing of a file is used before all of it has been read.
    const read: Swing[] = [];
    const file = await shelf.attempt(async () => {
      const stored = await shelves.swings(folder, swingFields);
      for await (const group of stored?.groups ?? []) for (const swing of group) read.push(swing);
      return stored;
    });
    if (file === null) continue;
    let rows = 0;
    let unruly = 0;
    for (const [i, swing] of read.entries()) {
      // Another program's file has what that program had.
      const troubles = swingTroubles(swing);
      if (troubles.length > 0) {
        unruly++;
        for (const trouble of troubles)
          shelf.problems.push({ kind: "refused", file: name, row: i + 1, ...trouble });
        continue;
      }
      // An engine that writes partitions leaves the session to the folder's name.
      swing.session ??= session;
      swing.swing_id ??= fingerprint(swing, swingFields, "swing_id");
      if (ids.has(swing.swing_id)) continue;
      ids.add(swing.swing_id);
      rows++;
      if (mixed)
        seen.of("swings").note(swing.swing_id, fingerprint(swing, swingFields, "swing_id"), name, rows);
      swings.push(swing);
    }
    const { sha256 } = file;
    const twice = untimed.get(listedFolders([folder])) ?? 0;
    shelf.files.push({ file: name, sha256, rows, refused: refused + unruly, untimed: twice });
  }
}

/** How many refused rows wait beside a session's swings. */
async function waiting(shelves: Shelves, folder: string): Promise<number> {
  let n = 0;
  for (const name of await shelves.files(folder)) {
    if (refusedFile.test(name)) n += (await shelves.refused(join(folder, name)))?.rows.length ?? 0;
  }
  return n;
}

/**
 * Opens only the tables beside a library's swings.
 * @throws UnusableFile when the folder is missing or is no folder
 */
export async function openCompanions(dir: string): Promise<Companions & Pick<Library, "problems">> {
  const shelf = await Shelf.open(dir);
  return { ...(await shelf.companions()), problems: shelf.problems };
}

/** Every hitter whose name stands in a library: in its list, in the swings that were added to it, or in its CSV files. */
export async function hittersSpelled(dir: string): Promise<Set<string>> {
  const shelf = await Shelf.open(dir);
  const names = new Set((await shelf.companion("hitters")).map(({ hitter }) => hitter));
  for await (const { hitter } of shelf.csvSwings(new Seen())) names.add(hitter);
  const wanted = swingFields.filter(({ name }) => name === "hitter");
  const shelves = await Shelves.open(dir);
  for (const { folder } of await shelves.partitions()) {
    try {
      for await (const group of (await shelves.swings(folder, wanted))?.groups ?? [])
        for (const { hitter } of group) names.add(hitter);
    } catch (error) {
      // Opening the library tells of a file that can't be read.
      if (!(error instanceof UnusableFile)) throw error;
    }
  }
  return names;
}

/** Sessions and hitters that swings name and the tables don't, once each. An absent table says nothing. */
export function strangers(
  swings: Iterable<Swing>,
  sessions: readonly Session[],
  hitters: readonly Hitter[],
): Problem[] {
  const look = (field: "session" | "hitter", known: readonly string[], file: string): Problem[] => {
    if (known.length === 0) return [];
    const names = new Set(known);
    const counts = new Map<string, number>();
    for (const swing of swings) {
      const name = swing[field];
      if (name !== null && !names.has(name)) counts.set(name, (counts.get(name) ?? 0) + 1);
    }
    return [...counts].map(([value, n]) => ({
      kind: "warning" as const,
      file,
      row: null,
      field,
      value,
      reason: `is not in it, and ${n} ${n === 1 ? "swing names" : "swings name"} it`,
    }));
  };
  return [
    ...look(
      "session",
      sessions.map((s) => s.session),
      companions.sessions,
    ),
    ...look(
      "hitter",
      hitters.map((h) => h.hitter),
      companions.hitters,
    ),
  ];
}
