/**
 * A disk that says no: every call that Node's file modules get is counted, and one of them, or all from it on, fails
 * as asked, before it has done its work or after. It stands under whatever the program uses, its packages included, so
 * that no call is forgotten. Writing inside the engine of another language (Vite's own) is out of its sight.
 */
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";

/** Which call fails, and how. */
export interface DiskFault {
  /** The call that fails, counted from 1 among those in sight. */
  readonly at: number;
  /** Whether it fails with its work undone or done. */
  readonly when: "before" | "after";
  /** A system error's code, or the end of the process. */
  readonly how: keyof typeof numbers | "kill";
  /** Whether every later call fails too: of a full disk, those that need room. */
  readonly lasting: boolean;
  /** The folder whose files are in sight. */
  readonly within: string;
  /** Whether reading calls are in sight, too. */
  readonly reads: boolean;
  /** The name of the calls that are in sight; all when not given. */
  readonly only?: string;
}

const makes = [
  "mkdir",
  "open",
  "link",
  "symlink",
  "writeFile",
  "appendFile",
  "copyFile",
  "cp",
  "write",
  "writev",
];
const alters = [
  "rename",
  "rm",
  "rmdir",
  "unlink",
  "utimes",
  "truncate",
  "sync",
  "datasync",
  "chmod",
  "close",
];
const looks = ["readFile", "readdir", "stat", "lstat", "access", "read", "readv"];
const texts = {
  ENOSPC: "no space left on device",
  EACCES: "permission denied",
  EPERM: "operation not permitted",
  EBUSY: "resource busy or locked",
  EROFS: "read-only file system",
  EIO: "i/o error",
} as const;
const numbers = { ENOSPC: -28, EACCES: -13, EPERM: -1, EBUSY: -16, EROFS: -30, EIO: -5 } as const;

let fault: DiskFault | null = null;
let seen = 0;
let struck = 0;
const opened = new WeakMap<object, string>();

/** Lets calls fail from now on; null ends it. */
export function arm(next: DiskFault | null): void {
  fault = next;
  seen = 0;
  struck = 0;
}

/** Calls in sight since it was armed, and how many of them failed. */
export const counted = (): { readonly seen: number; readonly struck: number } => ({ seen, struck });

/** What the call meets: null to do as it is told. */
function meet(name: string, path: string | null, writes: boolean): DiskFault | null {
  if (fault === null || path === null || !(writes || fault.reads)) return null;
  if (fault.only !== undefined && fault.only !== name) return null;
  if (!`${resolve(path)}/`.startsWith(`${resolve(fault.within)}/`)) return null;
  seen++;
  const due = fault.lasting ? seen >= fault.at : seen === fault.at;
  if (!due || (fault.how === "ENOSPC" && fault.lasting && !makes.includes(name))) return null;
  struck++;
  return fault;
}

function refusal(how: DiskFault["how"], name: string, path: string, isHandle: boolean): Error {
  if (how === "kill") {
    process.kill(process.pid, "SIGKILL");
    // The signal comes at once; nothing more may be done until it has.
    for (;;);
  }
  const text = `${how}: ${texts[how]}, ${name}`;
  // Node doesn't tell the path of what fails on an open file.
  const more = isHandle ? {} : { path };
  return Object.assign(new Error(isHandle ? text : `${text} '${path}'`), {
    code: how,
    errno: numbers[how],
    syscall: name,
    ...more,
  });
}

type Call = (this: unknown, ...args: unknown[]) => unknown;

const isWriting = (name: string, args: readonly unknown[]): boolean =>
  name === "open"
    ? /[wa+]|^x/.test(String(args[1] ?? "r")) || Number(args[1]) % 4 > 0
    : !looks.includes(name);

const pathOf = (target: unknown): string | null =>
  typeof target === "string" ? target : target instanceof URL ? fileURLToPath(target) : null;

/** An asynchronous call, its path the first argument or that of the open file it belongs to. */
function promised(name: string, call: Call, handle: boolean): Call {
  return async function (...args) {
    const path = handle ? (opened.get(this as object) ?? null) : pathOf(args[0]);
    const met = meet(name, path, isWriting(name, args));
    if (met?.when === "before") throw refusal(met.how, name, path!, handle);
    const result = await call.apply(this, args);
    if (name === "open" && path !== null) opened.set(result as object, path);
    if (met === null) return result;
    // What fails to be opened, or told, isn't held open.
    if (name === "open") await (result as fs.promises.FileHandle).close();
    throw refusal(met.how, name, path!, handle);
  };
}

function immediate(name: string, call: Call): Call {
  return function (...args) {
    const path = pathOf(args[0]);
    const met = meet(name, path, isWriting(name, args));
    if (met?.when === "before") throw refusal(met.how, name, path!, false);
    const result = call.apply(this, args);
    if (met === null) return result;
    if (name === "open") fs.closeSync(result as number);
    throw refusal(met.how, name, path!, false);
  };
}

const descriptors = new Map<number, string>();

/** The calls that streams make, which end in a callback. */
function calledBack(name: string, call: Call): Call {
  return function (...args) {
    const done = args.at(-1) as (error: Error | null, ...rest: unknown[]) => void;
    const path = typeof args[0] === "number" ? (descriptors.get(args[0]) ?? null) : pathOf(args[0]);
    const met = typeof done === "function" ? meet(name, path, isWriting(name, args)) : null;
    const fail = (): void => done(refusal(met!.how, name, path!, typeof args[0] === "number"));
    if (met?.when === "before") return void setImmediate(fail);
    const after = (error: Error | null, ...rest: unknown[]): void => {
      if (name === "open" && error === null && path !== null) descriptors.set(rest[0] as number, path);
      if (name === "close") descriptors.delete(args[0] as number);
      if (met === null || error !== null) done(error, ...rest);
      else fail();
    };
    return call.apply(this, typeof done === "function" ? [...args.slice(0, -1), after] : args);
  };
}

/** Puts itself under Node's file modules, once in a process. */
export async function install(): Promise<void> {
  const names = [...makes, ...alters, ...looks];
  const modules = fs.promises as unknown as Record<string, Call>;
  const probe = await fs.promises.open(process.execPath, "r");
  const handles = Object.getPrototypeOf(probe) as Record<string, Call>;
  await probe.close();
  for (const name of names) {
    if (modules[name] !== undefined) modules[name] = promised(name, modules[name], false);
    const own = Object.getOwnPropertyDescriptor(handles, name);
    if (typeof own?.value === "function") handles[name] = promised(name, own.value as Call, true);
  }
  const plain = fs as unknown as Record<string, Call>;
  for (const name of names) {
    if (plain[`${name}Sync`] !== undefined) plain[`${name}Sync`] = immediate(name, plain[`${name}Sync`]!);
  }
  for (const name of ["open", "write", "writev", "read", "close"])
    plain[name] = calledBack(name, plain[name]!);
  syncBuiltinESMExports();
}
