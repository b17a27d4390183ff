/**
 * One writer at a time: a library's lock is a file that says who holds it. A lock whose holder is gone, killed or
 * cut off from power, is recognised and taken over.
 */
import { randomBytes } from "node:crypto";
import { mkdir, open, readFile, rename, rm, stat, utimes } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { printable } from "./problems.ts";

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

  constructor(dir: string, holder: Holder | null) {
    const who =
      holder === null
        ? "another process"
        : `"${holder.work}" (process ${holder.pid} on ${printable(holder.host)}, since ${holder.since})`;
    super(`${printable(dir)} is being written by ${who}: try again when that has ended.`);
    this.holder = holder;
  }
}

/** A lock on another machine counts as left behind when its holder has not touched it for so long, ms. */
const silence = 15 * 60_000;
const heartbeat = 10_000;

/** The lock's file in a library. */
export const lockFile = (dir: string): string => join(dir, "swings", ".lock");

/** When a process began, in the system's own count; null where it doesn't say. */
async function beganOf(pid: number): Promise<string | null> {
  const text = await readFile(`/proc/${pid}/stat`, "utf8").catch(() => null);
  // The second field is the program's name in brackets, which may hold anything; the 22nd is the start.
  return text?.slice(text.lastIndexOf(")") + 2).split(" ")[19] ?? null;
}

function alive(pid: number): boolean {
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
    const whole =
      typeof value.pid === "number" && typeof value.host === "string" && typeof value.token === "string";
    return whole ? (value as Holder) : null;
  } catch {
    return null;
  }
}

/** Whether the holder of a lock is gone. */
async function isStale(path: string, holder: Holder | null): Promise<boolean> {
  const touched = await stat(path).catch(() => null);
  if (touched === null) return false;
  const silent = Date.now() - touched.mtimeMs;
  // A lock is whole from its first moment on, so one that can't be read was damaged.
  if (holder === null) return silent > heartbeat;
  if (holder.host !== hostname()) return silent > silence;
  if (!alive(holder.pid)) return true;
  return holder.began !== null && (await beganOf(holder.pid)) !== holder.began;
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
  await mkdir(join(dir, "swings"), { recursive: true });
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
    if (await create(path, holder)) return held(dir, path, holder);
    const text = await readFile(path, "utf8").catch(() => null);
    if (text === null) continue;
    const other = holderFrom(text);
    if (await isStale(path, other)) await putAside(path, text, holder.token);
    else if (Date.now() >= until) throw new Locked(dir, other);
    else await sleep(50 + 50 * Math.random());
  }
}

/** Creates the lock, whole at once; false when there is one. */
async function create(path: string, holder: Holder): Promise<boolean> {
  const { link } = await import("node:fs/promises");
  const own = `${path}.${holder.token}`;
  const file = await open(own, "wx");
  try {
    await file.writeFile(JSON.stringify(holder));
  } finally {
    await file.close();
  }
  try {
    await link(own, path);
    return true;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "EEXIST") return false;
    if (code !== "EPERM" && code !== "ENOTSUP" && code !== "ENOSYS" && code !== "EOPNOTSUPP") throw error;
    return await createInPlace(path, holder);
  } finally {
    await rm(own, { force: true });
  }
}

/** For disks without hard links. */
async function createInPlace(path: string, holder: Holder): Promise<boolean> {
  try {
    const file = await open(path, "wx");
    await file.writeFile(JSON.stringify(holder));
    await file.close();
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

/** Takes a stale lock away. When another was quicker and the lock moved is a live one, it is put back. */
async function putAside(path: string, stale: string, token: string): Promise<void> {
  const aside = `${path}.${token}.stale`;
  try {
    await rename(path, aside);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return;
    throw error;
  }
  const moved = await readFile(aside, "utf8");
  if (moved === stale) await rm(aside, { force: true });
  else await rename(aside, path);
}

function held(dir: string, path: string, holder: Holder): Lock {
  const timer = setInterval(() => {
    const now = new Date();
    utimes(path, now, now).catch(() => {});
  }, heartbeat);
  timer.unref();
  const mine = async (): Promise<boolean> => {
    const text = await readFile(path, "utf8").catch(() => "");
    return holderFrom(text)?.token === holder.token;
  };
  return {
    async stillHeld() {
      if (!(await mine())) throw new Locked(dir, holderFrom(await readFile(path, "utf8").catch(() => "")));
    },
    async release() {
      clearInterval(timer);
      if (await mine()) await rm(path, { force: true });
    },
  };
}
