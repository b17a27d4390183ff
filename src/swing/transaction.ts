/**
 * Changes to several files of a library as one: all of them, or none, wherever the process is killed.
 *
 * New files are written beside, under names no reader looks at, and pushed to the disk. Then one file, the journal,
 * is put in place by a rename: from that moment on the change has happened. Only after it are the files renamed
 * to where they belong. Who opens the library in between reads by the journal; who writes next finishes it first.
 */
import { mkdir, open, readFile, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Lock } from "./lock.ts";
import { UnusableFile } from "./problems.ts";

const staging = ".staging";
const journalName = ".journal.json";

interface Step {
  /** Where the file belongs, from the library's folder. */
  readonly to: string;
  /** The new file, from the library's folder; null to take the old one away. */
  readonly from: string | null;
}

const inSwings = (dir: string, name: string): string => join(dir, "swings", name);

/** Pushes a folder's list of names to the disk, on systems that can. */
async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, "r").catch(() => null);
  if (folder === null) return;
  try {
    await folder.sync();
  } catch {
    // Windows keeps its folders itself.
  } finally {
    await folder.close();
  }
}

/** Writes a text to a new file and pushes it to the disk. */
async function writeSynced(path: string, text: string): Promise<void> {
  const file = await open(path, "w");
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}

async function readJournal(dir: string): Promise<readonly Step[]> {
  const path = inSwings(dir, journalName);
  const text = await readFile(path, "utf8").catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT" || error.code === "ENOTDIR") return null;
    throw error;
  });
  if (text === null) return [];
  try {
    const steps = JSON.parse(text) as readonly Step[];
    // A path that another hand has put there must not lead out of the library.
    const inside = (path: string): boolean => !/^[/\\]|(^|[/\\])\.\.([/\\]|$)|:/.test(path);
    if (steps.every(({ to, from }) => inside(to) && (from === null || inside(from)))) return steps;
  } catch {
    // Told below.
  }
  throw new UnusableFile(path, "is damaged: what an interrupted writing left can't be finished");
}

async function exists(path: string): Promise<boolean> {
  const { stat } = await import("node:fs/promises");
  return stat(path).then(
    () => true,
    () => false,
  );
}

/** What a change that has happened, but was interrupted, still has to do: each file's path to where it is now. */
export async function unfinished(dir: string): Promise<ReadonlyMap<string, string | null>> {
  const left = new Map<string, string | null>();
  for (const { to, from } of await readJournal(dir)) {
    if (from === null) left.set(to, null);
    else if (await exists(join(dir, from))) left.set(to, from);
  }
  return left;
}

/** Finishes an interrupted change, or clears away one that had not happened. The lock must be held. */
export async function recover(dir: string): Promise<void> {
  const steps = await readJournal(dir);
  if (steps.length > 0) await apply(dir, steps);
  await rm(inSwings(dir, staging), { recursive: true, force: true });
}

async function apply(dir: string, steps: readonly Step[]): Promise<void> {
  const folders = new Set<string>();
  for (const { to, from } of steps) {
    const target = join(dir, to);
    if (from === null) await rm(target, { force: true });
    else if (await exists(join(dir, from))) {
      await mkdir(dirname(target), { recursive: true });
      await rename(join(dir, from), target);
    }
    folders.add(dirname(target)).add(dirname(dirname(target)));
  }
  for (const folder of folders) await syncFolder(folder);
  await rm(inSwings(dir, journalName), { force: true });
  await syncFolder(join(dir, "swings"));
}

/** A change in the making. */
export class Transaction {
  private readonly dir: string;
  private readonly lock: Lock;
  private readonly steps: Step[] = [];
  private count = 0;

  private constructor(dir: string, lock: Lock) {
    this.dir = dir;
    this.lock = lock;
  }

  /** Begins a change, after finishing what an earlier one left. */
  static async begin(dir: string, lock: Lock): Promise<Transaction> {
    await recover(dir);
    await mkdir(inSwings(dir, staging), { recursive: true });
    return new Transaction(dir, lock);
  }

  /**
   * A file to be put in place.
   * @param to where it belongs, from the library's folder
   * @param write writes it to the path given, and pushes it to the disk
   */
  async put(to: string, write: (path: string) => Promise<unknown>): Promise<void> {
    const from = join("swings", staging, `${++this.count}.part`);
    await write(join(this.dir, from));
    this.steps.push({ to, from });
  }

  /** A text file to be put in place. */
  async putText(to: string, text: string): Promise<void> {
    await this.put(to, (path) => writeSynced(path, text));
  }

  /** A file to be taken away. */
  remove(to: string): void {
    this.steps.push({ to, from: null });
  }

  /** Makes the change. When this has returned, it stays. */
  async commit(): Promise<void> {
    if (this.steps.length > 0) {
      await syncFolder(inSwings(this.dir, staging));
      const part = inSwings(this.dir, `${journalName}.part`);
      await writeSynced(part, JSON.stringify(this.steps));
      await this.lock.stillHeld();
      await rename(part, inSwings(this.dir, journalName));
      await syncFolder(join(this.dir, "swings"));
      await apply(this.dir, this.steps);
    }
    await this.discard();
  }

  /** Leaves everything as it was. */
  async discard(): Promise<void> {
    await rm(inSwings(this.dir, staging), { recursive: true, force: true });
  }
}
