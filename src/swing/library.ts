/**
 * A library: a folder of CSV files. `sessions.csv`, `hitters.csv`, `targets.csv` and `thresholds.json` may be
 * there; every other CSV is swings. A `map.json` describes the layout of the swing files it fits, and a
 * `NAME.map.json` that of `NAME.csv` alone.
 */
import { readdir, readFile, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import type { Hitter, Session, Swing, Target } from "./fields.ts";
import { readColumnMap, type ColumnMap } from "./maps.ts";
import { UnusableFile, type Problem } from "./problems.ts";
import { collect, scanFile, type Reading, type ReadOptions, type Rows, type Seen } from "./read.ts";

/** One file of a library. */
export interface LibraryFile {
  readonly file: string;
  readonly sha256: string;
  /** Rows taken. */
  readonly rows: number;
  /** Rows refused. */
  readonly refused: number;
}

/** Everything a folder holds. Rows are in the order of the files' names, then of the files. */
export interface Library {
  readonly dir: string;
  readonly swings: Swing[];
  readonly sessions: Session[];
  readonly hitters: Hitter[];
  readonly targets: Target[];
  /** What thresholds.json holds, unjudged; null without one. */
  readonly thresholds: unknown | null;
  readonly files: LibraryFile[];
  readonly problems: Problem[];
}

const companions = { sessions: "sessions.csv", hitters: "hitters.csv", targets: "targets.csv" } as const;

/**
 * Opens a library. A file that can't be used becomes a problem of the library, not an error.
 * @throws UnusableFile when the folder is missing or is no folder
 */
export async function openLibrary(dir: string): Promise<Library> {
  const info = await stat(dir).catch(() => {
    throw new UnusableFile(dir, "does not exist", "call");
  });
  if (!info.isDirectory())
    throw new UnusableFile(dir, "is a file, where a library is a folder of CSV files", "call");
  const names = (await readdir(dir)).filter((name) => !/^[.~]/.test(name)).sort();
  const lower = new Map(names.map((name) => [name.toLowerCase(), name]));
  const files: LibraryFile[] = [];
  const problems: Problem[] = [];

  const attempt = async <T>(work: () => Promise<T>): Promise<T | null> => {
    try {
      return await work();
    } catch (error) {
      if (!(error instanceof UnusableFile)) throw error;
      const reason = error.message.slice(error.file.length + 1, -1);
      const file = basename(error.file);
      problems.push({
        kind: "refused",
        file,
        row: null,
        field: null,
        value: null,
        reason: `the file ${reason}`,
      });
      return null;
    }
  };
  const read = async <N extends keyof Rows>(
    table: N,
    name: string,
    options: ReadOptions,
  ): Promise<Rows[N][]> => {
    const found = await attempt(() => collect(scanFile(table, join(dir, name), { ...options, name })));
    if (found === null) return [];
    note(found, name);
    return found.rows;
  };
  const note = (reading: Reading<unknown>, file: string): void => {
    files.push({ file, sha256: reading.sha256, rows: reading.rows.length, refused: reading.refused.length });
    for (const problem of reading.problems) problems.push(problem);
  };
  const companion = async <N extends keyof typeof companions>(table: N): Promise<Rows[N][]> => {
    const name = lower.get(companions[table]);
    return name === undefined ? [] : read(table, name, {});
  };

  const sessions = await companion("sessions");
  const hitters = await companion("hitters");
  const targets = await companion("targets");

  const mapNamed = async (name: string): Promise<ColumnMap | null> => {
    const found = lower.get(name.toLowerCase());
    return found === undefined ? null : attempt(() => readColumnMap(join(dir, found)));
  };
  const general = await mapNamed("map.json");
  const seen: Seen = new Map();
  const swings: Swing[] = [];
  for (const name of names) {
    if (!/\.csv$/i.test(name) || Object.values(companions).some((c) => c === name.toLowerCase())) continue;
    const own = await mapNamed(name.replace(/\.csv$/i, ".map.json"));
    const rows = await read("swings", name, { map: own ?? general, mapIfFits: own === null, seen });
    for (const row of rows) swings.push(row);
  }
  problems.push(...strangers(swings, sessions, hitters));

  const thresholdsName = lower.get("thresholds.json");
  const thresholds =
    thresholdsName === undefined ? null : await attempt(() => readJson(join(dir, thresholdsName)));
  return { dir, swings, sessions, hitters, targets, thresholds, files, problems };
}

async function readJson(path: string): Promise<unknown> {
  const text = await readFile(path, "utf8");
  try {
    return JSON.parse(text.replace(/^\ufeff/, "")) as unknown;
  } catch (error) {
    throw new UnusableFile(path, `is not JSON (${(error as Error).message})`);
  }
}

/** Sessions and hitters that swings name and the library's tables don't, once each. Tables that are absent don't count. */
export function strangers(
  swings: readonly Swing[],
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
