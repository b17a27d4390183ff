import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdir, readdir, readFile, utimes, writeFile } from "node:fs/promises";
import { hostname } from "node:os";
import { dirname } from "node:path";
import { describe, expect, it } from "vitest";
import { lockFile, takeLock, type Holder } from "../../src/swing/lock.ts";
import { inFolder } from "./support.ts";

const holder = (over: Partial<Holder>): string =>
  JSON.stringify({
    pid: process.pid,
    host: hostname(),
    since: "2026-05-05T10:00:00.000Z",
    work: "add",
    began: null,
    token: "x",
    ...over,
  });

async function lockedBy(dir: string, text: string, silent_s = 0): Promise<void> {
  await mkdir(dirname(lockFile(dir)), { recursive: true });
  await writeFile(lockFile(dir), text);
  const then = new Date(Date.now() - silent_s * 1000);
  await utimes(lockFile(dir), then, then);
}

/** A process number that was given, and is free again. */
async function deadPid(): Promise<number> {
  const child = spawn(process.execPath, ["-e", ""]);
  await once(child, "exit");
  return child.pid!;
}

describe("a lock", () => {
  it("keeps a second writer out, and says who holds it", () =>
    inFolder({}, async (dir) => {
      const lock = await takeLock(dir, "add");
      await expect(takeLock(dir, "forget")).rejects.toThrow(
        new RegExp(`is being written by "add" \\(process ${process.pid} on ${hostname()}, since 20`),
      );
      await lock.release();
      const next = await takeLock(dir, "forget");
      await next.release();
      expect(await readdir(dirname(lockFile(dir)))).toEqual([]);
    }));

  it("is waited for", () =>
    inFolder({}, async (dir) => {
      const lock = await takeLock(dir, "add");
      setTimeout(() => void lock.release(), 150);
      const next = await takeLock(dir, "add", 10_000);
      await next.stillHeld();
      await next.release();
    }));

  it("is held by one at a time, however many want it", () =>
    inFolder({}, async (dir) => {
      await lockedBy(dir, holder({ pid: await deadPid() }));
      let holding = 0;
      let most = 0;
      const work = async (): Promise<void> => {
        const lock = await takeLock(dir, "add", 20_000);
        most = Math.max(most, ++holding);
        await new Promise((resolve) => setTimeout(resolve, 5));
        await lock.stillHeld();
        holding--;
        await lock.release();
      };
      await Promise.all(Array.from({ length: 12 }, work));
      expect(most).toBe(1);
    }));

  it.each([
    ["whose process is gone", async () => ({ pid: await deadPid() }), 0],
    ["whose number another process has now", async () => ({ began: "1" }), 0],
    ["of another machine, long silent", async () => ({ host: "elsewhere" }), 3600],
  ])("%s is taken over", (_, over, silent) =>
    inFolder({}, async (dir) => {
      await lockedBy(dir, holder(await over()), silent);
      const lock = await takeLock(dir, "add");
      expect(await readFile(lockFile(dir), "utf8")).toContain(String(process.pid));
      await lock.release();
    }),
  );

  it("that was damaged is taken over once it is old", () =>
    inFolder({}, async (dir) => {
      await lockedBy(dir, "{", 60);
      await (await takeLock(dir, "add")).release();
    }));

  it.each([
    ["of a living process", {}, 3600],
    ["of another machine that was there a moment ago", { host: "elsewhere" }, 30],
  ])("%s stays", (_, over, silent) =>
    inFolder({}, async (dir) => {
      await lockedBy(dir, holder(over), silent);
      await expect(takeLock(dir, "add")).rejects.toMatchObject({ fault: "call", holder: { token: "x" } });
    }),
  );

  it("that was taken away is noticed before anything is written", () =>
    inFolder({}, async (dir) => {
      const lock = await takeLock(dir, "add");
      await writeFile(lockFile(dir), holder({ token: "another" }));
      await expect(lock.stillHeld()).rejects.toThrow(/is being written/);
      await lock.release();
      expect(await readFile(lockFile(dir), "utf8")).toContain("another");
    }));
});
