import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdir, readdir, readFile, utimes, writeFile } from "node:fs/promises";
import { hostname } from "node:os";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { addFile } from "../../src/library/add.ts";
import { openLibrary } from "../../src/library/library.ts";
import { lockFile, takeLock, type Holder } from "../../src/library/lock.ts";
import { Transaction } from "../../src/library/transaction.ts";
import { inFolder } from "../reading/support.ts";

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

/** When this process began, as a lock of its own says; null where the machine doesn't tell. */
const ownBegan = (): Promise<string | null> =>
  inFolder({}, async (dir) => {
    const lock = await takeLock(dir, "add");
    const { began } = JSON.parse(await readFile(lockFile(dir), "utf8")) as Holder;
    await lock.release();
    return began;
  });

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
    ["whose number may be another's, long silent", async () => ({ began: null }), 3600],
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
    ["of a living process, as its machine says", async () => ({ began: await ownBegan() }), 3600],
    ["of a process that its machine says no more of than its number", async () => ({}), 30],
    ["of another machine that was there a moment ago", async () => ({ host: "elsewhere" }), 30],
  ])("%s stays", (_, over, silent) =>
    inFolder({}, async (dir) => {
      await lockedBy(dir, holder(await over()), silent);
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

  const soon = 300;

  it.each([
    [
      "that is a folder",
      (path: string) => mkdir(path),
      /swings\/\.lock, the lock .* can't be read: it is a folder.*remove that/,
    ],
    ["that is a pipe", (path: string) => void execFileSync("mkfifo", [path]), /can't be read: it is a pipe/],
  ])("%s ends the waiting when patience is over", (_, make, sentence) =>
    inFolder({}, async (dir) => {
      await mkdir(dirname(lockFile(dir)), { recursive: true });
      await make(lockFile(dir));
      const began = Date.now();
      await expect(takeLock(dir, "add", soon)).rejects.toThrow(sentence);
      expect(Date.now() - began).toBeGreaterThanOrEqual(soon);
    }),
  );

  it.each([
    ["of another machine, dated 2040", { host: "elsewhere" }, 0],
    ["whose number is none", { pid: 0 }, 0],
    ["whose number is a group's", { pid: -1 }, 0],
  ])("%s is taken over", (_, over, silent) =>
    inFolder({}, async (dir) => {
      await lockedBy(dir, holder(over), silent);
      const far = new Date("2040-01-01");
      await utimes(lockFile(dir), far, far);
      await (await takeLock(dir, "add")).release();
    }),
  );

  it("that is damaged and dated 2040 is taken over", () =>
    inFolder({}, async (dir) => {
      await lockedBy(dir, "{");
      const far = new Date("2040-01-01");
      await utimes(lockFile(dir), far, far);
      await (await takeLock(dir, "add")).release();
    }));

  it("that a killed process was about to take is cleared away by the next writer", () =>
    inFolder({}, async (dir) => {
      const gone = holder({ pid: await deadPid() });
      await lockedBy(dir, gone);
      const swings = dirname(lockFile(dir));
      for (const name of [".lock.0123456789abcdef", ".lock.0123456789abcdef.stale", ".journal.json.part"])
        await writeFile(join(swings, name), gone);
      await writeFile(join(swings, ".lock.fedcba9876543210"), holder({}));
      const lock = await takeLock(dir, "add");
      await (await Transaction.begin(dir, lock)).discard();
      await lock.release();
      // What a living process is about to take stays.
      expect(await readdir(swings)).toEqual([".lock.fedcba9876543210"]);
    }));
});

describe("a journal", () => {
  it.each([
    ["to a number", '[{"to":5,"from":null}]'],
    ["out of the library", '[{"to":"../x","from":null}]'],
    ["to nowhere", '[{"to":"","from":null}]'],
    ["that is no list", '{"to":"swings/x","from":null}'],
    ["with half a step", "[null]"],
    ["with a sum that doesn't fit", '[{"to":"swings/x","from":null,"sha256":null}]\n0000\n'],
  ])("%s is damaged, in a sentence", (_, text) =>
    inFolder({}, async (dir) => {
      await mkdir(join(dir, "swings"));
      await writeFile(join(dir, "swings/.journal.json"), text);
      await expect(openLibrary(dir)).rejects.toThrow(/\.journal\.json is damaged: .* backup\.$/);
      const lock = await takeLock(dir, "add");
      await expect(Transaction.begin(dir, lock)).rejects.toThrow(/is damaged/);
      await lock.release();
    }),
  );

  it("of another system's path marks is finished", () =>
    inFolder({}, async (dir) => {
      await mkdir(join(dir, "swings/.staging"), { recursive: true });
      await writeFile(join(dir, "swings/.staging/1.part"), "x");
      const steps = [{ to: "swings\\additions.csv", from: "swings\\.staging\\1.part" }];
      await writeFile(join(dir, "swings/.journal.json"), JSON.stringify(steps));
      const lock = await takeLock(dir, "add");
      await (await Transaction.begin(dir, lock)).discard();
      await lock.release();
      expect(await readFile(join(dir, "swings/additions.csv"), "utf8")).toBe("x");
    }));
});

describe("what is no file", () => {
  it("is waited for by nobody", () =>
    inFolder({}, async (dir) => {
      for (const name of ["a.csv", "hitters.csv", "thresholds.json", "map.json"])
        execFileSync("mkfifo", [join(dir, name)]);
      await mkdir(join(dir, "swings/session=a"), { recursive: true });
      execFileSync("mkfifo", [join(dir, "swings/session=a/swings.parquet")]);
      const { problems } = await openLibrary(dir);
      const pipes = problems.filter(({ reason }) =>
        /^the file is a pipe, which can be read only once/.test(reason),
      );
      expect(pipes.map(({ file }) => file).sort()).toEqual([
        "a.csv",
        "hitters.csv",
        "map.json",
        "swings/session=a/swings.parquet",
        "thresholds.json",
      ]);
      await expect(addFile(join(dir, "l"), join(dir, "a.csv"))).rejects.toThrow(/a\.csv is a pipe/);
      await expect(addFile(join(dir, "l"), "/dev/zero")).rejects.toThrow(
        "/dev/zero is a device, not a file.",
      );
    }));

  it("takes no library", async () => {
    await expect(addFile("/proc/none/library", "/dev/null")).rejects.toThrow(/^\/proc\/none can't be made: /);
  });
});
