/** The sessions that a file's rows change: what is stored of them, what becomes of it, and how it is written again. */
import { join } from "node:path";
import type { Swing } from "../swing/fields.ts";
import type { Incoming } from "./incoming.ts";
import { hasMadeId, printOf } from "./match.ts";
import { PackedRows } from "./packed-rows.ts";
import { storedFields, writeSwings, type StoredSwing } from "./parquet.ts";
import { swingTroubles } from "../swing/rules.ts";
import {
  historyFields,
  historyFile,
  swingsFile,
  type Folders,
  type Partition,
  type Replaced,
  type Shelves,
} from "./shelves.ts";
import type { Transaction } from "./transaction.ts";
import { csvText } from "./write.ts";

/** A session's swings, and what changes in them. */
export interface SessionWork {
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

/** All sessions at work for one file. */
export class SessionsAtWork {
  /** The stored swings of every session at work, one session after another. */
  readonly stored = new PackedRows<StoredSwing>(storedFields);
  private readonly works = new Map<string | null, SessionWork>();

  /**
   * Opens the sessions of the rows, and whatever other session holds one of their swings.
   * @param known whether the library has had this very file before: its rows may stand in any session
   */
  static async open(
    shelves: Shelves,
    folders: Folders,
    incoming: Incoming,
    known: boolean,
  ): Promise<SessionsAtWork> {
    const at = new SessionsAtWork();
    for (const session of incoming.sessions) {
      await at.openOne(shelves, session, folders.of(session));
    }
    const touched = new Set(at.all().map((work) => work.folder));
    for (const { session, folder } of await elsewhere(shelves, folders.known, touched, incoming, known)) {
      await at.openOne(shelves, session, folder);
    }
    return at;
  }

  private async openOne(shelves: Shelves, session: string | null, folder: string): Promise<void> {
    const { stored } = this;
    const from = stored.length;
    for await (const group of (await shelves.swings(folder))?.groups ?? []) {
      for (const swing of group) {
        swing.session ??= session;
        swingTroubles(swing);
        swing.swing_id ??= printOf(swing);
        stored.push(swing);
      }
    }
    const history = await shelves.history(folder);
    const none = { newer: new Map(), fresh: [], moved: [], changed: false };
    this.works.set(session, { session, folder, from, to: stored.length, history, ...none });
  }

  all(): SessionWork[] {
    return [...this.works.values()];
  }

  changed(): SessionWork[] {
    return this.all().filter((work) => work.changed);
  }

  /** The work on a swing's session, which is open. */
  of(swing: Swing): SessionWork {
    return this.works.get(swing.session)!;
  }

  /** Writes each session in which something changed. */
  async write(change: Transaction, { rows, source }: Incoming): Promise<void> {
    for (const work of this.changed()) await writeWork(change, work, this.stored, rows, source);
  }
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

async function writeWork(
  change: Transaction,
  work: SessionWork,
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
