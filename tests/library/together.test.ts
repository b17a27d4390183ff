/** Several files written as one, on a disk that says no at every single call. */
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { writeTogether } from "../../src/library/write.ts";
import { arm, counted, install, type DiskFault } from "../faults/inject.ts";

let folder = "";
beforeAll(async () => {
  await install();
  folder = await mkdtemp(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "together-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const names = ["a.html", "b.html", "assets/c.js"];

/** What a folder holds, by path; folders by their names alone. */
async function held(dir: string): Promise<Record<string, string>> {
  const entries = await readdir(dir, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  return Object.fromEntries(
    await Promise.all(
      files.sort().map(async (path) => [path.slice(dir.length + 1), await readFile(path, "utf8")]),
    ),
  ) as Record<string, string>;
}

/** Two files that stand, one of them to be replaced, and three that are written. */
async function standing(): Promise<string> {
  const dir = await mkdtemp(join(folder, "try-"));
  await writeFile(join(dir, "a.html"), "old");
  await writeFile(join(dir, "mine.txt"), "mine");
  return dir;
}
const writing = (dir: string): Promise<void> =>
  writeTogether(async (put) => {
    for (const name of names) await put(join(dir, name), [`new ${name}`]);
  }, dir);

describe("files written together", () => {
  const kinds = (["ENOSPC", "EACCES", "EIO"] as const).flatMap((how) => [
    { how, when: "before" as const, lasting: false },
    { how, when: "after" as const, lasting: false },
    // A disk that stays full still renames and removes.
    ...(how === "ENOSPC" ? [{ how, when: "before" as const, lasting: true }] : []),
  ]);

  it.each(kinds)("are all there or none: $how $when, lasting: $lasting", async ({ how, when, lasting }) => {
    const before = await held(await standing());
    const whole = await standing();
    arm({ at: 0, when, how, lasting: false, within: whole, reads: false });
    await writing(whole);
    const calls = counted().seen;
    arm(null);
    const after = await held(whole);
    expect(after).toEqual({ ...before, ...Object.fromEntries(names.map((name) => [name, `new ${name}`])) });
    expect(calls).toBeGreaterThan(10);
    for (let at = 1; at <= calls; at++) {
      const dir = await standing();
      const fault: DiskFault = { at, when, how, lasting, within: dir, reads: false };
      arm(fault);
      const said = await writing(dir).then(
        () => null,
        (error: NodeJS.ErrnoException) => error,
      );
      const { struck } = counted();
      arm(null);
      const found = await held(dir);
      const where = `call ${at} of ${calls}`;
      // Behind the last call that needs room, a full disk refuses nothing.
      expect(struck > 0 || (lasting && said === null), where).toBe(true);
      // What was made way for is kept beside as long as it can't be removed; it is cleared away by the next writing.
      const seen = Object.fromEntries(
        Object.entries(found).filter(([name]) => !/(^|\/)\.beside-/.test(name)),
      );
      expect(seen, where).toEqual(said === null ? after : before);
      if (said !== null) expect([said.code, said.path?.startsWith(dir)], where).toEqual([how, true]);
      if (said !== null) expect(said.path, where).not.toContain(".beside-");
    }
  });

  it("take the folders made for them away with them, and no other", async () => {
    const dir = await standing();
    const write = (target: string): Promise<void> =>
      writeTogether(async (put) => {
        await put(join(target, "below", "a.html"), ["a"]);
        throw new Error("stopped");
      }, target);
    await expect(write(join(dir, "one", "two"))).rejects.toThrow("stopped");
    await mkdir(join(dir, "kept"));
    await expect(write(join(dir, "kept"))).rejects.toThrow("stopped");
    expect((await readdir(dir, { recursive: true })).sort()).toEqual(["a.html", "kept", "mine.txt"]);
  });

  it("clear away what a killed process left, and not what a running one is writing", async () => {
    const dir = await standing();
    // No process has the largest number that 22 bits hold, and process 1 always runs.
    await writeFile(join(dir, ".beside-4194303-1.part"), "left");
    await writeFile(join(dir, ".beside-4194303-1.before"), "left");
    await writeFile(join(dir, ".beside-1-1.part"), "being written");
    await writeFile(join(dir, ".beside-notes.part"), "of another program");
    await writing(dir);
    expect((await readdir(dir)).filter((name) => name.startsWith(".")).sort()).toEqual([
      ".beside-1-1.part",
      ".beside-notes.part",
    ]);
  });

  it("are told a folder in their place, before any of them appears", async () => {
    const dir = await standing();
    await mkdir(join(dir, "b.html"));
    await expect(writing(dir)).rejects.toThrow(/b\.html is a folder, where a file would be written/);
    expect(await held(dir)).toEqual({ "a.html": "old", "mine.txt": "mine" });
  });
});
