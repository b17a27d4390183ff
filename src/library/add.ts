/**
 * Taking a file's swings into a library, once each. A row that is there already is left; a newer value of a swing
 * takes the old one's place, which is kept in the session's history; a refused row is kept beside the session with
 * its reason. Each file is taken in whole or not at all, whenever the process is killed.
 */
import { stat } from "node:fs/promises";
import { basename, join, relative, resolve, sep } from "node:path";
import { readColumnMap, scanFile } from "./files.ts";
import { Judge } from "../reading/check.ts";
import { makeFolder } from "./disk.ts";
import { swingFields, type NameRow, type Swing } from "../swing/fields.ts";
import { hitterMeant, unanswered } from "../reading/namesakes.ts";
import { hittersSpelled, openCompanions } from "./library.ts";
import { takeLock, type Lock } from "./lock.ts";
import { type ColumnMap } from "../reading/maps.ts";
import { hasMadeId, Matcher, OldValues, printOf, sameContent } from "./match.ts";
import { PackedRows } from "./packed-rows.ts";
import { storedFields, writeSwings, type StoredSwing } from "./parquet.ts";
import { partitionProblem, sessionOfPartition } from "./partition.ts";
import { UnusableFile, type Problem, type RefusedRow } from "../swing/problems.ts";
import { type Summary } from "../reading/read.ts";
import { keepRefused, mapAgain, rewriteRefused, Waiting } from "./refused.ts";
import { swingTroubles } from "../swing/rules.ts";
import {
  additionFields,
  historyFields,
  historyFile,
  isStored,
  logFile,
  refusedFile,
  Shelves,
  swingsFile,
  type Partition,
  type Replaced,
} from "./shelves.ts";
import { Transaction } from "./transaction.ts";
import { csvText } from "./write.ts";
import { append } from "../swing/lists.ts";

export interface AddOptions {
  readonly map?: ColumnMap | null;
  /** Values, by field, for rows that don't tell theirs. */
  readonly fill?: Readonly<Record<string, string>>;
  /** Whether a value that was replaced before may come back as the newest. */
  readonly bringBack?: boolean;
  /** How long to wait for another writer, ms. */
  readonly patience?: number;
  /** What the fastest of the library's hitters reaches, by their levels: values far over it put the unit in doubt. */
  readonly fastest_mph?: number | null;
  /** Told what puts whole columns in doubt before anything is taken; throws to leave the file. */
  readonly approve?: (doubts: readonly Problem[]) => Promise<void>;
  /** Answers about names, over those that the library keeps. */
  readonly names?: readonly NameRow[];
  /** Asked about names nearly alike that nobody has answered for; what it answers counts at once. */
  readonly askNames?: (groups: readonly (readonly string[])[]) => Promise<readonly NameRow[]>;
  /** Told how far the reading has come. */
  readonly onProgress?: (done: number, total: number | null) => void;
}

/** What became of one file's rows. `read` = new + corrected + copies + older + refused. */
export interface AddedCounts {
  readonly file: string;
  readonly read: number;
  /** Swings that were not there. */
  readonly new: number;
  /** Swings of which the file has a newer value. */
  readonly corrected: number;
  /** Rows that were there already, or stand in the file twice. */
  readonly copies: number;
  /** Rows with a value that a newer one had replaced before: left out. */
  readonly older: number;
  readonly refused: number;
  /** The sessions in which something changed. */
  readonly sessions: readonly (string | null)[];
  /** Where refused rows are kept, from the library's folder. */
  readonly refusedIn: readonly string[];
  /** What kept the new files from their places, as a sentence; the swings are in the library all the same. */
  readonly late: string | null;
}

/** What became of one file. */
export interface Added extends AddedCounts {
  readonly sha256: string;
  readonly problems: readonly Problem[];
}

const clash =
  "is the id of another swing in the library: where ids count anew in every file, map their column to null";

/** Characters of a file's SHA-256 that each of its swings keeps. */
const sourceLength = 16;

/** What was read of a file, before anything is held against the library. */
interface Incoming {
  readonly name: string;
  readonly rows: PackedRows<StoredSwing>;
  readonly sessions: ReadonlySet<string | null>;
  /** Rows that couldn't be read, with their cells as they stand. */
  readonly refused: RefusedRow[];
  /** Rows that could be read, and can't be taken: their cells are those of `ownHeader`. */
  readonly held: RefusedRow[];
  readonly problems: Problem[];
  readonly summary: Summary;
  readonly source: string;
}

const ownHeader = swingFields.map((field) => field.name);

/** A swing with its hitter's name as it is meant; an id that we made follows what is in the row. */
function renamed(swing: Swing, meant: (name: string) => string): Swing {
  const hitter = meant(swing.hitter);
  if (hitter === swing.hitter) return swing;
  const now = { ...swing, hitter };
  return swing.swing_id !== null && swing.swing_id === printOf(swing)
    ? { ...now, swing_id: printOf(now) }
    : now;
}

/** A row that was read and can't be taken, in the kit's own form. */
function hold(file: string, swing: StoredSwing, field: "swing_id" | "session", reason: string): RefusedRow {
  const row = swing.source_row!;
  return {
    row,
    cells: ownHeader.map((name) => String(swing[name] ?? "")),
    session: field === "session" ? null : swing.session,
    problems: [{ kind: "refused", file, row, field, value: swing[field], reason }],
  };
}

async function read(
  path: string,
  options: AddOptions,
  spelled: ReadonlySet<string>,
  waiting: Waiting,
  answered: readonly NameRow[],
): Promise<Incoming> {
  const name = basename(path);
  const meant = hitterMeant(answered);
  const size = await stat(path).then(
    (info) => info.size,
    () => null,
  );
  const rows = new PackedRows<StoredSwing>(storedFields);
  const sessions = new Set<string | null>();
  const refused: RefusedRow[] = [];
  const held: RefusedRow[] = [];
  const problems: Problem[] = [];
  const judge = new Judge("swings", path, {
    mapped: (options.map ?? null) !== null,
    fastest_mph: options.fastest_mph ?? null,
    known: { spelled, answered },
  });
  const scan = scanFile("swings", path, {
    ...(waiting.isEmpty ? {} : { onTaken: (cells, header) => waiting.take(cells, header) }),
    ...(options.map === undefined ? {} : { map: options.map }),
    ...(options.fill === undefined ? {} : { fill: options.fill }),
  });
  let step = await scan.next();
  for (; step.done !== true; step = await scan.next()) {
    const batch = step.value;
    batch.rows.forEach((given, i) => {
      const row = renamed(given, meant);
      judge.row(row, batch.numbers[i]!);
      const swing = { ...row, source: null, source_row: batch.numbers[i]! };
      const reason = row.session === null ? null : partitionProblem(row.session);
      if (reason !== null) held.push(hold(path, swing, "session", reason));
      else {
        rows.push(swing);
        sessions.add(swing.session);
      }
    });
    for (const row of batch.refused) {
      judge.refused(row);
      refused.push(row);
    }
    append(problems, batch.copies.slice(0, 10 - Math.min(10, problems.length)));
    options.onProgress?.(batch.bytes, size);
  }
  const summary = step.value;
  const doubts = judge.doubts();
  if (doubts.length > 0) await options.approve?.(doubts);
  const source = summary.sha256.slice(0, sourceLength);
  const all = [...summary.problems, ...problems, ...doubts, ...judge.namesakes()];
  return { name, rows, sessions, refused, held, problems: all, summary, source };
}

/** A session's swings, and what changes in them. */
interface Work {
  readonly session: string | null;
  readonly folder: string;
  /** Where its swings begin among those of all sessions at work, and where they end. */
  readonly from: number;
  readonly to: number;
  /** By its place, what a replaced one gives way to; null when it left the session. */
  readonly newer: Map<number, StoredSwing | null>;
  /** Places in the incoming rows. */
  readonly fresh: number[];
  /** Swings that came from another session. */
  readonly moved: StoredSwing[];
  readonly history: Replaced[];
  changed: boolean;
}

/** Sessions besides the rows' own that hold a swing with one of their ids, or one that came from the same file. */
async function elsewhere(
  shelves: Shelves,
  partitions: readonly Partition[],
  touched: ReadonlySet<string>,
  incoming: Incoming,
  known: boolean,
): Promise<Partition[]> {
  const ids = new Set<string>();
  for (const row of incoming.rows) if (!hasMadeId(row)) ids.add(row.swing_id!);
  if (ids.size === 0 && !known) return [];
  const wanted = storedFields.filter(({ name }) => name === "swing_id" || name === "source");
  const isWanted = (row: StoredSwing): boolean =>
    ids.has(row.swing_id!) || (known && row.source === incoming.source);
  const holds = async (folder: string): Promise<boolean> => {
    for await (const group of (await shelves.swings(folder, wanted))?.groups ?? []) {
      for (const row of group) if (isWanted(row)) return true;
    }
    return false;
  };
  const found: Partition[] = [];
  for (const partition of partitions) {
    if (touched.has(partition.folder)) continue;
    if (await holds(partition.folder)) found.push(partition);
  }
  return found;
}

/** A file of refused rows in this very library, when the path is one. */
function mended(dir: string, path: string): { folder: string; name: string; session: string | null } | null {
  const parts = relative(resolve(dir), resolve(path)).split(sep);
  const [top, folder, name, ...rest] = parts;
  if (top !== "swings" || folder === undefined || name === undefined || rest.length > 0) return null;
  const session = sessionOfPartition(folder);
  return session === undefined || !refusedFile.test(name)
    ? null
    : { folder: join(top, folder), name, session };
}

/**
 * Takes one file into a library, whole or not at all. When this has returned, its swings are there to stay.
 * @throws UnusableFile when nothing of the file can be used
 * @throws Locked when another process goes on writing the library
 */
export async function addFile(dir: string, path: string, options: AddOptions = {}): Promise<Added> {
  const [added] = await addFiles(dir, [path], options);
  return added!;
}

/** Takes files into a library one after the other, under one lock; see `addFile`. */
export async function addFiles(
  dir: string,
  paths: readonly string[],
  options: AddOptions & { onAdded?: (added: Added) => void } = {},
): Promise<Added[]> {
  await makeFolder(dir);
  const lock = await takeLock(dir, "add", options.patience);
  try {
    const all: Added[] = [];
    for (const path of paths) {
      const added = await addOne(dir, path, options, lock);
      options.onAdded?.(added);
      all.push(added);
    }
    return all;
  } finally {
    await lock.release();
  }
}

async function addOne(dir: string, path: string, options: AddOptions, lock: Lock): Promise<Added> {
  const change = await Transaction.begin(dir, lock);
  try {
    const shelves = await Shelves.open(dir);
    const page = mended(dir, path);
    let waiting = await Waiting.open(shelves);
    const how = page === null ? options : await mendedOptions(shelves, page, options);
    const spelled = await hittersSpelled(dir);
    const kept = [...(await openCompanions(dir)).names, ...(options.names ?? [])];
    let incoming = await read(path, how, spelled, waiting, kept);
    const own = new Set<string>();
    if (options.askNames !== undefined) for (const { hitter } of incoming.rows) own.add(hitter);
    const groups = own.size === 0 ? [] : unanswered([...spelled, ...own], kept, own);
    const more = groups.length === 0 ? [] : await options.askNames!(groups);
    if (more.length > 0) {
      waiting = await Waiting.open(shelves);
      // What looked wrong was looked at before.
      const again = { ...how, approve: async () => {} };
      incoming = await read(path, again, spelled, waiting, [...kept, ...more]);
    }
    const result = await merge(shelves, change, path, incoming, page, options, waiting);
    return { ...result, late: await change.commit() };
  } catch (error) {
    await change.discard();
    throw error;
  }
}

/** Mended rows are read with the map they were refused under, and belong to the session beside which they stood. */
async function mendedOptions(
  shelves: Shelves,
  page: { folder: string; name: string; session: string | null },
  options: AddOptions,
): Promise<AddOptions> {
  const mapPath = await shelves.find(join(page.folder, page.name.replace(/csv$/, "map.json")));
  return {
    ...options,
    map: options.map ?? (mapPath === null ? null : await readColumnMap(mapPath)),
    fill: { ...(page.session === null ? {} : { session: page.session }), ...options.fill },
  };
}

async function merge(
  shelves: Shelves,
  change: Transaction,
  path: string,
  incoming: Incoming,
  page: ReturnType<typeof mended>,
  options: AddOptions,
  waiting: Waiting,
): Promise<Omit<Added, "late">> {
  const { rows, summary, source } = incoming;
  const partitions = await shelves.partitions();
  const additions = await shelves.additions();
  const works = new Map<string | null, Work>();
  const stored = new PackedRows<StoredSwing>(storedFields);
  const open = async (session: string | null, folder: string): Promise<void> => {
    const from = stored.length;
    for await (const group of (await shelves.swings(folder))?.groups ?? []) {
      for (const swing of group) {
        swing.session ??= session;
        swingTroubles(swing);
        swing.swing_id ??= printOf(swing);
        stored.push(swing);
      }
    }
    works.set(session, {
      session,
      folder,
      from,
      to: stored.length,
      newer: new Map(),
      fresh: [],
      moved: [],
      history: await shelves.history(folder),
      changed: false,
    });
  };
  for (const session of incoming.sessions) await open(session, shelves.folderOf(session, partitions));
  const touched = new Set([...works.values()].map((work) => work.folder));
  const known = additions.some((addition) => addition.sha256 === summary.sha256);
  for (const { session, folder } of await elsewhere(shelves, partitions, touched, incoming, known)) {
    await open(session, folder);
  }

  const matcher = new Matcher(stored, source);
  const old = new OldValues([...works.values()].flatMap((work) => work.history));
  const held = [...incoming.held];
  const counts = { new: 0, corrected: 0, copies: 0, older: 0 };
  const now = new Date().toISOString();
  const workOf = (swing: Swing): Work => works.get(swing.session)!;

  const isOlder = (row: StoredSwing): boolean => options.bringBack !== true && old.has(row);
  const meet = (at: number, row: StoredSwing): void => {
    const before = stored.at(at);
    const made = hasMadeId(before);
    const same = sameContent(before, row);
    if (same) {
      counts.copies++;
      // A name that the tracker gave is worth more than one we made.
      if (made && !hasMadeId(row)) {
        workOf(before).newer.set(at, { ...before, swing_id: row.swing_id });
        workOf(before).changed = true;
      }
      return;
    }
    if (isOlder(row)) {
      counts.older++;
      return;
    }
    counts.corrected++;
    const after = { ...row, source };
    if (!made && hasMadeId(row)) after.swing_id = before.swing_id;
    const from = workOf(before);
    const to = workOf(row);
    from.history.push({
      ...before,
      replaced_at: now,
      replaced_by: after.swing_id!,
      replaced_in: after.session,
    });
    if (from === to) from.newer.set(at, after);
    else {
      from.newer.set(at, null);
      to.moved.push(after);
    }
    from.changed = to.changed = true;
  };
  const take = (row: StoredSwing, i: number): void => {
    if (isOlder(row)) counts.older++;
    else {
      counts.new++;
      const work = workOf(row);
      work.fresh.push(i);
      work.changed = true;
    }
  };
  const undecided: number[] = [];
  for (let i = 0; i < rows.length; i++) {
    const row = rows.at(i);
    if (matcher.size === 0) {
      take(row, i);
      continue;
    }
    const at = matcher.certain(row);
    if (at === "clash") held.push(hold(path, row, "swing_id", clash));
    else if (at !== null) meet(at, row);
    else undecided.push(i);
  }
  for (const i of undecided) {
    const row = rows.at(i);
    const at = matcher.likely(row);
    if (at !== null) meet(at, row);
    else take(row, i);
  }
  counts.copies += summary.duplicates;
  const refused = [...incoming.refused, ...held];

  for (const work of works.values()) if (work.changed) await writeWork(change, work, stored, rows, source);
  const refusedIn = await keepAll(shelves, change, partitions, incoming, held, page, options, waiting);
  await change.putText(
    logFile,
    csvText(
      [
        ...additions,
        {
          time: now,
          file: incoming.name,
          sha256: summary.sha256,
          rows: summary.read,
          ...counts,
          refused: refused.length,
          into: [...works.values()]
            .filter((work) => work.changed)
            .map((work) => basename(work.folder))
            .join(" "),
        },
      ],
      additionFields,
    ),
  );
  await sumTheRest(shelves, change, partitions);
  const problems = [...incoming.problems, ...refused.flatMap((row) => row.problems)];
  return {
    file: path,
    sha256: summary.sha256,
    read: summary.read,
    ...counts,
    refused: refused.length,
    sessions: [...works.values()].filter((work) => work.changed).map((work) => work.session),
    refusedIn,
    problems: problems.sort((a, b) => (a.row ?? 0) - (b.row ?? 0)),
  };
}

/** Gives a sum to what an older version has stored, or another program, once it has been read whole. */
async function sumTheRest(
  shelves: Shelves,
  change: Transaction,
  partitions: readonly Partition[],
): Promise<void> {
  for (const folder of ["swings", ...partitions.map((partition) => partition.folder)]) {
    try {
      const sums = await shelves.sums(folder);
      for (const name of await shelves.files(folder)) {
        const path = join(folder, name);
        if (!isStored(name) || sums.has(name) || change.has(path)) continue;
        if (name === swingsFile) {
          const swings = (await shelves.swings(folder))!;
          for await (const group of swings.groups) for (const _ of group);
          change.sum(path, swings.sha256);
        } else change.sum(path, (await shelves.bytes(path))!.sha256);
      }
    } catch (error) {
      // Whoever reads it is told. It gets no sum: damage must not look like what was meant.
      if (!(error instanceof UnusableFile)) throw error;
    }
  }
}

async function writeWork(
  change: Transaction,
  work: Work,
  stored: PackedRows<StoredSwing>,
  rows: PackedRows<StoredSwing>,
  source: string,
): Promise<void> {
  function* all(): Generator<StoredSwing> {
    const ids = new Set<string>();
    // Ids of one file are told apart when it is read, and needn't be again where nothing else stands.
    const alone = work.from === work.to && work.moved.length === 0;
    const once = (swing: StoredSwing): StoredSwing => {
      if (alone) return swing;
      if (ids.has(swing.swing_id!)) swing.swing_id = printOf(swing);
      ids.add(swing.swing_id!);
      return swing;
    };
    for (let at = work.from; at < work.to; at++) {
      const newer = work.newer.get(at);
      if (newer !== null) yield once(newer ?? stored.at(at));
    }
    for (const swing of work.moved) yield once(swing);
    for (const i of work.fresh) yield once(Object.assign(rows.at(i), { source }));
  }
  const left = work.to - work.from - [...work.newer.values()].filter((swing) => swing === null).length;
  const file = join(work.folder, swingsFile);
  if (left + work.moved.length + work.fresh.length === 0) change.remove(file);
  else await change.put(file, (at) => writeSwings(at, all()));
  if (work.history.length > 0) {
    await change.putText(join(work.folder, historyFile), csvText(work.history, historyFields));
  }
}

/** Keeps the refused rows beside their sessions; mended rows that were taken leave the file they were mended in. */
async function keepAll(
  shelves: Shelves,
  change: Transaction,
  partitions: readonly Partition[],
  incoming: Incoming,
  held: readonly RefusedRow[],
  page: ReturnType<typeof mended>,
  options: AddOptions,
  waiting: Waiting,
): Promise<string[]> {
  const { summary, name } = incoming;
  const kept = new Set<string>();
  const written = new Set<string>();
  if (page !== null) {
    written.add(join(page.folder, page.name));
    await rewriteRefused(change, page.folder, page.name, summary.header, incoming.refused);
    if (incoming.refused.length > 0) kept.add(page.folder);
  }
  const again = mapAgain(summary.layout, summary.header, options.fill ?? {});
  if (page === null)
    waiting.refuse({ file: name, rows: incoming.refused, header: summary.header, map: again });
  await waiting.leave(change, written);
  const keep = async (rows: readonly RefusedRow[], header: readonly string[], map: ColumnMap | null) => {
    for (const session of new Set(rows.map(sessionFor))) {
      const folder = shelves.folderOf(session, partitions);
      const own = rows.filter((row) => sessionFor(row) === session);
      await keepRefused(shelves, change, { folder, file: name, rows: own, header, map }, written);
      kept.add(folder);
    }
  };
  if (page === null) await keep(incoming.refused, summary.header, again);
  await keep(held, ownHeader, null);
  return [...kept];
}

const sessionFor = ({ session }: RefusedRow): string | null =>
  session !== null && partitionProblem(session) === null ? session : null;
