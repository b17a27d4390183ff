/**
 * Changes to several files of a library as one: all of them, or none, whatever fails and wherever the process is killed.
 *
 * New files are written beside, under names no reader looks at, and pushed to the disk. Then one file, the journal,
 * is put in place by a rename: from that moment on the change has happened. Only after it are the files renamed
 * to where they belong. Who opens the library in between reads by the journal; who writes next finishes it first.
 * As long as the journal may stand, the new files stay.
 */
import { readdir, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { sha256Of } from "../swing/sha256.ts";
import {
  isMissing,
  isSystemError,
  makeFolder,
  onFile,
  putInPlace,
  readBytes,
  readText,
  syncFolder,
  systemReason,
  writeSynced,
} from "./disk.ts";
import { isLeftLock, type Lock } from "./lock.ts";
import { printable, UnusableFile } from "../swing/problems.ts";
import { readSums, sumsFile, sumsText } from "./sums.ts";

const staging = ".staging";
const journalName = ".journal.json";

interface Step {
  /** Where the file belongs, from the library's folder. */
  readonly to: string;
  /** The new file, from the library's folder; null to take the old one away. */
  readonly from: string | null;
  /** The new file's sum; null when an older version wrote the journal. */
  readonly sha256: string | null;
}

const inSwings = (dir: string, name: string): string => join(dir, "swings", name);

/** A path as it is written down: the same on every system. */
const written = (path: string): string => path.replaceAll("\\", "/");

/** A path that another hand has put there must not lead out of the library. */
const isInside = (path: unknown): path is string =>
  typeof path === "string" && path !== "" && !/^[/\\]|(^|[/\\])\.\.([/\\]|$)|[:\0]/.test(path);

/** A step as it was written down; null for anything else. */
function stepFrom(value: unknown): Step | null {
  if (typeof value !== "object" || value === null) return null;
  const { to, from, sha256 = null } = value as { to?: unknown; from?: unknown; sha256?: unknown };
  if (!isInside(to) || (from !== null && !isInside(from))) return null;
  if (sha256 !== null && typeof sha256 !== "string") return null;
  return { to: join(written(to)), from: from === null ? null : join(written(from)), sha256 };
}

/** A journal: its steps in one line, and that line's sum in the next. */
function journalText(steps: readonly Step[]): string {
  const line = JSON.stringify(
    steps.map(({ to, from, sha256 }) => ({
      to: written(to),
      from: from === null ? null : written(from),
      sha256,
    })),
  );
  return `${line}\n${sha256Of(line)}\n`;
}

async function readJournal(dir: string): Promise<readonly Step[]> {
  const path = inSwings(dir, journalName);
  const text = await readText(path).catch((error: unknown) => {
    if (isMissing(error)) return null;
    throw error;
  });
  if (text === null) return [];
  // An older version wrote no sum.
  const [line = "", sum = null] = text.split("\n");
  if (sum === null || sha256Of(line) === sum) {
    try {
      const steps = (JSON.parse(line) as readonly unknown[]).map(stepFrom);
      if (!steps.includes(null)) return steps as readonly Step[];
    } catch {
      // Told below.
    }
  }
  throw new UnusableFile(
    path,
    "is damaged: what an interrupted writing left can't be finished. Take the library from its backup",
  );
}

/** Whether something is there. Not being allowed to look is no answer. */
async function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    (error: unknown) => {
      if (isMissing(error)) return false;
      throw error;
    },
  );
}

/**
 * Makes sure of a new file that is gone from where it was written: it has to be in its place.
 * @throws UnusableFile when it is not
 */
async function hasArrived(dir: string, { to, sha256 }: Step): Promise<void> {
  // People edit the tables beside the swings, and those change under their hands.
  if (sha256 === null || !/^swings[/\\]/.test(to)) return;
  const found = await readBytes(join(dir, to)).then(sha256Of, (error: unknown) => {
    if (isMissing(error)) return null;
    throw error;
  });
  if (found === sha256) return;
  const what = "was being written when the writing was interrupted, and what was new in it is gone";
  throw new UnusableFile(join(dir, to), `${what}. Take the library from its backup`);
}

/** What a change that has happened, but was interrupted, still has to do: each file's path to where it is now. */
export async function unfinished(dir: string): Promise<ReadonlyMap<string, string | null>> {
  const left = new Map<string, string | null>();
  for (const step of await readJournal(dir)) {
    const { to, from } = step;
    if (from === null) left.set(to, null);
    else if (await exists(join(dir, from))) left.set(to, from);
    else await hasArrived(dir, step);
  }
  return left;
}

/** Finishes an interrupted change, or clears away one that had not happened. The lock must be held. */
async function recover(dir: string): Promise<void> {
  const steps = await readJournal(dir);
  // Nothing takes the place of a whole file unless it is whole itself.
  for (const { from, to, sha256 } of steps) {
    if (from === null || sha256 === null || !(await exists(join(dir, from)))) continue;
    if (sha256Of(await readBytes(join(dir, from))) === sha256) continue;
    const what = `the new ${written(to)} of an interrupted writing`;
    throw new UnusableFile(join(dir, from), `is damaged: ${what}. Take the library from its backup`);
  }
  if (steps.length > 0) await apply(dir, steps);
  await rm(inSwings(dir, staging), { recursive: true, force: true });
  for (const name of await readdir(join(dir, "swings"))) {
    const path = inSwings(dir, name);
    const isLeft = name === `${journalName}.part` || (await isLeftLock(path));
    if (isLeft) await rm(path, { force: true });
  }
}

async function apply(dir: string, steps: readonly Step[]): Promise<void> {
  const folders = new Set<string>();
  for (const step of steps) {
    const target = join(dir, step.to);
    await onFile(target, async () => {
      if (step.from === null) await rm(target, { force: true });
      else if (await exists(join(dir, step.from))) {
        await makeFolder(dirname(target));
        await putInPlace(join(dir, step.from), target);
      } else await hasArrived(dir, step);
    });
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
  /** The sums that change, by folder and name; null for a file that is taken away. */
  private readonly sums = new Map<string, Map<string, string | null>>();
  private count = 0;
  /** Whether the change has happened, as far as can be told. */
  private stands = false;

  private constructor(dir: string, lock: Lock) {
    this.dir = dir;
    this.lock = lock;
  }

  /** Begins a change, after finishing what an earlier one left. */
  static async begin(dir: string, lock: Lock): Promise<Transaction> {
    await recover(dir);
    await makeFolder(inSwings(dir, staging));
    return new Transaction(dir, lock);
  }

  /**
   * A file to be put in place.
   * @param to where it belongs, from the library's folder
   * @param write writes it to the path given, pushes it to the disk, and gives the SHA-256 of what it wrote, in hex
   */
  async put(to: string, write: (path: string) => Promise<string>): Promise<void> {
    const from = join("swings", staging, `${++this.count}.part`);
    const sha256 = await onFile(join(this.dir, to), () => write(join(this.dir, from)));
    this.steps.push({ to, from, sha256 });
    this.sum(to, sha256);
  }

  /** A text file to be put in place. */
  async putText(to: string, text: string): Promise<void> {
    await this.put(to, (path) => writeSynced(path, text));
  }

  /** A file to be taken away. */
  remove(to: string): void {
    this.steps.push({ to, from: null, sha256: null });
    this.sum(to, null);
  }

  /** Whether the change puts a file in place or takes it away. */
  has(path: string): boolean {
    return this.steps.some(({ to }) => to === path);
  }

  /** The sum of a file as it stands, for one that has none; of the library's own files alone. */
  sum(path: string, sha256: string | null): void {
    if (!/^swings[/\\]/.test(path)) return;
    const folder = dirname(path);
    const own = this.sums.get(folder) ?? new Map<string, string | null>();
    this.sums.set(folder, own.set(path.slice(folder.length + 1), sha256));
  }

  /** Puts the folders' files of sums in place with the files that they are of. */
  private async putSums(): Promise<void> {
    // Written anew with every change: whoever watches the library sees by it that there was one.
    if (!this.sums.has("swings")) this.sums.set("swings", new Map());
    for (const [folder, changed] of [...this.sums]) {
      const path = join(folder, sumsFile);
      const before = await readText(join(this.dir, path)).catch((error: unknown) => {
        if (isMissing(error)) return null;
        throw error;
      });
      const sums = before === null ? new Map<string, string>() : readSums(before);
      if (sums === null) throw new UnusableFile(join(this.dir, path), "is damaged");
      const after = new Map(sums);
      for (const [name, sha256] of changed) {
        if (sha256 === null) after.delete(name);
        else after.set(name, sha256);
      }
      if (after.size > 0) await this.putText(path, sumsText(after));
      else if (before !== null) this.remove(path);
      // A file of sums is not summed itself.
      changed.delete(sumsFile);
    }
  }

  /**
   * Makes the change. When this has returned, it stays.
   * @returns what kept the files from their places, as a sentence; null when they are there. The next writer goes on.
   */
  async commit(): Promise<string | null> {
    let late: string | null = null;
    if (this.steps.length > 0 || this.sums.size > 0) {
      await this.putSums();
      await syncFolder(inSwings(this.dir, staging));
      const part = inSwings(this.dir, `${journalName}.part`);
      const text = journalText(this.steps);
      await onFile(inSwings(this.dir, journalName), () => writeSynced(part, text));
      await this.lock.stillHeld();
      await this.happen(part, text);
      await syncFolder(join(this.dir, "swings"));
      try {
        await apply(this.dir, this.steps);
        this.stands = false;
      } catch (error) {
        late = lateSentence(error);
      }
    }
    await this.discard();
    return late;
  }

  /** The moment from which on the change has happened. A disk may do what it says that it didn't. */
  private async happen(part: string, text: string): Promise<void> {
    const path = inSwings(this.dir, journalName);
    this.stands = true;
    try {
      await putInPlace(part, path);
    } catch (error) {
      const found = await readText(path).catch((reason: unknown) => (isMissing(reason) ? null : undefined));
      if (found === text) return;
      this.stands = found === undefined;
      throw error;
    }
  }

  /** Leaves everything as it was, unless the change has happened. What can't be cleared away is left to the next writer. */
  async discard(): Promise<void> {
    if (this.stands) return;
    await rm(inSwings(this.dir, staging), { recursive: true, force: true }).catch(() => {});
    await rm(inSwings(this.dir, `${journalName}.part`), { force: true }).catch(() => {});
  }
}

function lateSentence(error: unknown): string {
  const said = isSystemError(error)
    ? `${error.path ?? "the disk"}: ${systemReason(error)}`
    : (error as Error).message.replace(/\.$/, "");
  return `The change is made, and not every file is in its place yet (${printable(said)}): the next writing puts it there.`;
}
