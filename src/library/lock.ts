/**
 * One writer at a time: a library's lock is a file that says who holds it. A lock whose holder is gone, killed or
 * cut off from power, is recognised and taken over.
 */
import { randomBytes } from "node:crypto";
import { link, open, readFile, rm, stat, utimes } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { isMissing, isSystemError, makeFolder, onFile, putInPlace, readText, systemReason } from "./disk.ts";
import { printable, UnusableFile } from "../swing/problems.ts";

/** Who holds a lock. */
export interface Holder {
  readonly pid: number;
  readonly host: string;
  /** When the lock was taken, ISO 8601. */
  readonly since: string;
  /** What the holder is doing, such as "add". */
  readonly work: string;
  /** When the process began, where the system tells: a number that is given again is no holder. */
  readonly began: string | null;
  readonly token: string;
}

/** A library that another process is writing. */
export class Locked extends Error {
  override readonly name = "Locked";
  readonly fault = "call";
  readonly holder: Holder | null;

  /** @param trouble why the lock can't be read, where it can't */
  constructor(dir: string, holder: Holder | null, trouble: string | null = null) {
    const path = printable(lockFile(dir));
    if (trouble !== null) {
      super(
        `${path}, the lock of whoever writes this library, can't be read: ${trouble}. If nothing writes it, remove that.`,
      );
    } else {
      const who =
        holder === null
          ? "another process"
          : `"${printable(holder.work)}" (process ${holder.pid} on ${printable(holder.host)}, since ${printable(holder.since)})`;
      const gone = holder === null || !isTold(holder) ? ` If nothing writes it, remove ${path}.` : "";
      super(`${printable(dir)} is being written by ${who}: try again when that has ended.${gone}`);
    }
    this.holder = holder;
  }
}

/** Where no process can be asked for, a lock counts as left behind when its holder has not touched it for so long, ms. */
const silence = 15 * 60_000;
const heartbeat = 10_000;

/**
 * Whether this machine tells if a lock's holder still runs. Of another machine's it tells nothing; of its own, where it
 * doesn't say when a process began, only that some process has that number now.
 */
const isTold = (holder: Holder): boolean => holder.host === hostname() && holder.began !== null;

/** The lock's file in a library. */
export const lockFile = (dir: string): string => join(dir, "swings", ".lock");

/** When a process began, in the system's own count; null where it doesn't say. */
async function beganOf(pid: number): Promise<string | null> {
  const text = await readFile(`/proc/${pid}/stat`, "utf8").catch(() => null);
  // The second field is the program's name in brackets, which may hold anything; the 22nd is the start.
  return text?.slice(text.lastIndexOf(")") + 2).split(" ")[19] ?? null;
}

function alive(pid: number): boolean {
  // Others mean groups of processes, or none.
  if (pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

function holderFrom(text: string): Holder | null {
  try {
    const value = JSON.parse(text) as Partial<Holder>;
    const texts = [value.host, value.token, value.since, value.work];
    const whole =
      Number.isInteger(value.pid) &&
      texts.every((text) => typeof text === "string") &&
      (value.began === null || typeof value.began === "string");
    return whole ? (value as Holder) : null;
  } catch {
    return null;
  }
}

/** Further ahead than this, a time is no other machine's clock but damage. */
const aheadAtMost = 24 * 3600_000;

/** Locks of this process that the disk didn't let go. */
const released = new Set<string>();

/** Whether the holder of a lock is gone. */
async function isStale(path: string, holder: Holder | null): Promise<boolean> {
  const touched = await stat(path).catch(() => null);
  if (touched === null) return false;
  const silent = Date.now() - touched.mtimeMs;
  // A lock is whole from its first moment on, so one that can't be read was damaged.
  if (holder === null) return Math.abs(silent) > heartbeat;
  if (holder.host === hostname() && (released.has(holder.token) || !alive(holder.pid))) return true;
  if (!isTold(holder)) return silent > silence || silent < -aheadAtMost;
  return (await beganOf(holder.pid)) !== holder.began;
}

const leftName = /[/\\]\.lock\.[0-9a-f]{16}(\.stale)?$/;

/** Whether a file is what is left of a lock that was being taken when its process ended. */
export async function isLeftLock(path: string): Promise<boolean> {
  if (!leftName.test(path)) return false;
  const text = await readText(path).catch(() => null);
  return text !== null && (await isStale(path, holderFrom(text)));
}

/** A lock held. */
export interface Lock {
  /** @throws Locked when another process has taken the lock away */
  stillHeld(): Promise<void>;
  release(): Promise<void>;
}

/**
 * Takes a library's lock.
 * @param work what it is taken for, as others are told
 * @param patience how long to wait for a holder to end, ms
 * @throws Locked, with the holder, when it stays held
 */
export async function takeLock(dir: string, work: string, patience = 0): Promise<Lock> {
  const path = lockFile(dir);
  await makeFolder(join(dir, "swings"));
  const holder: Holder = {
    pid: process.pid,
    host: hostname(),
    since: new Date().toISOString(),
    work,
    began: await beganOf(process.pid),
    token: randomBytes(8).toString("hex"),
  };
  const until = Date.now() + patience;
  for (;;) {
    // The library is what its owner knows; the lock's own names say nothing.
    if (await onFile(dir, () => create(path, holder))) return held(dir, path, holder);
    const found = await look(path);
    const other = found.text === null ? null : holderFrom(found.text);
    if (found.text !== null && (await isStale(path, other))) await putAside(path, found.text, holder.token);
    else if (Date.now() >= until) throw new Locked(dir, other, found.trouble);
    // One that has just gone is tried for at once.
    else if (found.text !== null || found.trouble !== null) await sleep(50 + 50 * Math.random());
  }
}

/** What a lock holds; nothing when it has just gone, and why not when it can't be read. */
async function look(path: string): Promise<{ text: string | null; trouble: string | null }> {
  try {
    return { text: await readText(path), trouble: null };
  } catch (error) {
    if (isMissing(error)) return { text: null, trouble: null };
    if (error instanceof UnusableFile) return { text: null, trouble: `it ${error.reason}` };
    return { text: null, trouble: isSystemError(error) ? systemReason(error) : String(error) };
  }
}

/** Creates the lock, whole at once; false when there is one. */
async function create(path: string, holder: Holder): Promise<boolean> {
  const own = `${path}.${holder.token}`;
  try {
    await writeNew(own, holder);
    await link(own, path);
    return true;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "EEXIST") return false;
    if (code !== "EPERM" && code !== "ENOTSUP" && code !== "ENOSYS" && code !== "EOPNOTSUPP") {
      // A disk may do what it says that it didn't.
      await removeOwn(path, holder);
      throw error;
    }
    return await createInPlace(path, holder);
  } finally {
    // What can't be cleared away is left to a later writer.
    await rm(own, { force: true }).catch(() => {});
  }
}

async function writeNew(path: string, holder: Holder): Promise<void> {
  const file = await open(path, "wx");
  try {
    await file.writeFile(JSON.stringify(holder));
  } finally {
    await file.close();
  }
}

/** For disks without hard links. */
async function createInPlace(path: string, holder: Holder): Promise<boolean> {
  try {
    await writeNew(path, holder);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    // Half a lock, or a whole one that nobody holds, would keep everyone out.
    await rm(path, { force: true }).catch(() => {});
    throw error;
  }
}

/** Removes a lock if it is the holder's own; never fails, for the next one recognises what is left. */
async function removeOwn(path: string, holder: Holder): Promise<void> {
  try {
    if (holderFrom(await readText(path))?.token === holder.token) await rm(path, { force: true });
  } catch (error) {
    if (!isMissing(error)) released.add(holder.token);
  }
}

/** Takes a stale lock away. When another was quicker and the lock moved is a live one, it is put back. */
async function putAside(path: string, stale: string, token: string): Promise<void> {
  const aside = `${path}.${token}.stale`;
  try {
    await putInPlace(path, aside);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return;
    throw error;
  }
  const moved = await readText(aside);
  if (moved === stale) await rm(aside, { force: true });
  else await putInPlace(aside, path);
}

function held(dir: string, path: string, holder: Holder): Lock {
  const timer = setInterval(() => {
    const now = new Date();
    utimes(path, now, now).catch(() => {});
  }, heartbeat);
  timer.unref();
  return {
    async stillHeld() {
      const { text, trouble } = await look(path);
      const now = text === null ? null : holderFrom(text);
      if (now?.token !== holder.token) throw new Locked(dir, now, trouble);
    },
    async release() {
      clearInterval(timer);
      await removeOwn(path, holder);
    },
  };
}
