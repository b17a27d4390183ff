/**
 * Taking a file's swings into a library, once each. A row that is there already is left; a newer value of a swing
 * takes the old one's place, which is kept in the session's history; a refused row is kept beside the session with
 * its reason. Each file is taken in whole or not at all, whenever the process is killed.
 */
import { join, relative, resolve, sep } from "node:path";
import { makeFolder } from "./disk.ts";
import { readColumnMap } from "./files.ts";
import { ownHeader, readIncoming, type Incoming, type ReadingOptions } from "./incoming.ts";
import { hittersSpelled, openCompanions } from "./library.ts";
import { takeLock, type Lock } from "./lock.ts";
import { mergeRows } from "./merge.ts";
import { partitionProblem, sessionOfPartition } from "../swing/partition.ts";
import { keepRefused, mapAgain, rewriteRefused, Waiting } from "./refused.ts";
import { SessionsAtWork } from "./sessionWork.ts";
import {
  additionFields,
  Folders,
  isStored,
  listedFolders,
  logFile,
  refusedFile,
  Shelves,
  swingsFile,
  type Partition,
} from "./shelves.ts";
import { Transaction } from "./transaction.ts";
import { csvText } from "./write.ts";
import { untimedIn } from "../reading/causes.ts";
import type { ColumnMap } from "../reading/maps.ts";
import { unanswered } from "../reading/namesakes.ts";
import type { NameRow } from "../swing/fields.ts";
import { UnusableFile, type Problem, type RefusedRow } from "../swing/problems.ts";

export interface AddOptions extends ReadingOptions {
  /** Whether a value that was replaced before may come back as the newest. */
  readonly bringBack?: boolean;
  /** How long to wait for another writer, ms. */
  readonly patience?: number;
  /** Answers about names, over those that the library keeps. */
  readonly names?: readonly NameRow[];
  /** Asked about names nearly alike that nobody has answered for; what it answers counts at once. */
  readonly askNames?: (groups: readonly (readonly string[])[]) => Promise<readonly NameRow[]>;
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
  /** The copies among them of a row in the file itself, with no time that would tell them apart. */
  readonly untimed: number;
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
    let incoming = await readIncoming(path, how, spelled, waiting, kept);
    const own = new Set<string>();
    if (options.askNames !== undefined) for (const { hitter } of incoming.rows) own.add(hitter);
    const groups = own.size === 0 ? [] : unanswered([...spelled, ...own], kept, own);
    const more = groups.length === 0 ? [] : await options.askNames!(groups);
    if (more.length > 0) {
      waiting = await Waiting.open(shelves);
      // What looked wrong was looked at before.
      const again = { ...how, approve: async () => {} };
      incoming = await readIncoming(path, again, spelled, waiting, [...kept, ...more]);
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

/** Holds what was read against what the library keeps, and lays down what changes. */
async function merge(
  shelves: Shelves,
  change: Transaction,
  path: string,
  incoming: Incoming,
  page: ReturnType<typeof mended>,
  options: AddOptions,
  waiting: Waiting,
): Promise<Omit<Added, "late">> {
  const { summary } = incoming;
  const folders = new Folders(await shelves.partitions());
  const additions = await shelves.additions();
  const now = new Date().toISOString();
  const known = additions.some((addition) => addition.sha256 === summary.sha256);
  const at = await SessionsAtWork.open(shelves, folders, incoming, known);
  const merged = mergeRows(path, incoming, at, now, options.bringBack === true);
  const held = [...incoming.held, ...merged.held];
  const counts = { ...merged.counts, copies: merged.counts.copies + summary.duplicates };
  const refused = [...incoming.refused, ...held];

  await at.write(change, incoming);
  const refusedIn = await keepAll(shelves, change, folders, incoming, held, page, options, waiting);
  const addition = {
    time: now,
    file: incoming.name,
    sha256: summary.sha256,
    rows: summary.read,
    ...counts,
    refused: refused.length,
    into: listedFolders(at.changed().map((work) => work.folder)),
    untimed: at
      .changed()
      .map((work) => summary.untimed.get(work.session) ?? 0)
      .join(" "),
  };
  await change.putText(logFile, csvText([...additions, addition], additionFields));
  await sumTheRest(shelves, change, folders.known);
  const problems = [...incoming.problems, ...refused.flatMap((row) => row.problems)];
  return {
    file: path,
    sha256: summary.sha256,
    read: summary.read,
    ...counts,
    untimed: untimedIn(summary.untimed),
    refused: refused.length,
    sessions: at.changed().map((work) => work.session),
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

/** Keeps the refused rows beside their sessions; mended rows that were taken leave the file they were mended in. */
async function keepAll(
  shelves: Shelves,
  change: Transaction,
  folders: Folders,
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
      const folder = folders.of(session);
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
