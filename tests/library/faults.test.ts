/**
 * The disk says no at every single call of a change: once or from then on, before the call has done its work or after.
 * Opened again, the library is as it was or as it should be, and whatever was reported as done is there, once.
 */
import { existsSync } from "node:fs";
import { cp, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { endingOf } from "../../src/cli/errors.ts";
import { addFile } from "../../src/library/add.ts";
import { forgetHitter } from "../../src/library/forget.ts";
import { arm, counted, install, type DiskFault } from "../faults/inject.ts";
import { libraryToChange, swingsIn } from "../faults/scene.ts";

let folder = "";
let scene: Awaited<ReturnType<typeof libraryToChange>>;

beforeAll(async () => {
  await install();
  // A disk in memory, where there is one: thousands of pushes to a real one take minutes.
  folder = await mkdtemp(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "faults-"));
  scene = await libraryToChange(join(folder, "scene"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** Gives the work a library of its own. */
async function inLibrary<T>(work: (dir: string) => Promise<T>): Promise<T> {
  const dir = await mkdtemp(join(folder, "try-"));
  try {
    await cp(scene.library, dir, { recursive: true });
    return await work(dir);
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}

/** Each has to be tried at this many calls at least. */
const fewestCalls = 20;

const changes = {
  add: (dir: string) => addFile(dir, scene.sheet),
  forget: (dir: string) => forgetHitter(dir, "Ana"),
} as const;

describe.each(Object.keys(changes) as (keyof typeof changes)[])("%s", (name) => {
  const change = changes[name];

  const kinds = (["ENOSPC", "EACCES", "EIO"] as const).flatMap((how) =>
    [
      { when: "before", lasting: false },
      { when: "after", lasting: false },
      { when: "before", lasting: true },
    ].map((kind) => ({
      how,
      ...kind,
      title: `${how} ${kind.when}${kind.lasting ? ", and ever after" : ""}`,
    })),
  );

  it.each(kinds)("$title", { timeout: 120_000 }, async ({ how, lasting, ...kind }) => {
    const when = kind.when as DiskFault["when"];
    const before = await inLibrary(swingsIn);
    const [after, calls] = await inLibrary(async (dir) => {
      arm({ at: 0, when, how, lasting: false, within: dir, reads: false });
      await change(dir);
      const { seen } = counted();
      arm(null);
      return [await swingsIn(dir), seen];
    });
    expect(after).not.toEqual(before);
    expect(calls).toBeGreaterThan(fewestCalls);
    const wrong: string[] = [];
    for (let at = 1; at <= calls; at++) {
      await inLibrary(async (dir) => {
        const fault: DiskFault = { at, when, how, lasting, within: dir, reads: false };
        arm(fault);
        const error = await change(dir).then(
          () => null,
          (error: unknown) => error as NodeJS.ErrnoException,
        );
        const { struck } = counted();
        arm(null);
        const tell = (what: string): number =>
          wrong.push(`call ${at}: ${what} (${error?.message ?? "done"})`);
        // A full disk keeps nothing from being taken away.
        if (struck === 0 && !(lasting && how === "ENOSPC")) tell("nothing failed");
        const found = await swingsIn(dir).catch((reason: Error) => [`can't be opened: ${reason.message}`]);
        const [was, is] = [before, after].map((rows) => rows.join() === found.join());
        if (!was && !is) tell(`holds ${found.length} swings: ${found.join(", ")}`);
        else if (error === null && !is) tell("was reported, and isn't there");
        // The next one finds nothing in its way.
        await change(dir).catch((reason: Error) => tell(`can't be done again: ${reason.message}`));
        if ((await swingsIn(dir)).join() !== after.join()) tell("differs when done again");
      });
    }
    expect(wrong).toEqual([]);
  });
});

describe("a disk", () => {
  it.each(["EPERM", "EACCES", "EBUSY"] as const)(
    "that refuses to rename with %s while another has the file open, as Windows does, is asked again",
    async (how) => {
      const refusedAt = (at: number): Promise<{ seen: number; struck: number; late: string | null }> =>
        inLibrary(async (dir) => {
          arm({ at, when: "before", how, lasting: false, within: dir, reads: false, only: "rename" });
          const { late } = await changes.add(dir);
          return { ...counted(), late };
        }).finally(() => arm(null));
      const { seen: renames } = await refusedAt(0);
      expect(renames).toBeGreaterThan(3);
      const platform = Object.getOwnPropertyDescriptor(process, "platform")!;
      Object.defineProperty(process, "platform", { ...platform, value: "win32" });
      try {
        for (let at = 1; at <= renames; at++)
          expect(await refusedAt(at)).toEqual({ seen: renames + 1, struck: 1, late: null });
      } finally {
        Object.defineProperty(process, "platform", platform);
      }
    },
  );

  it("that can only be read is named as such, by the library's name", () =>
    inLibrary(async (dir) => {
      arm({ at: 1, when: "before", how: "EROFS", lasting: true, within: dir, reads: false });
      const error = await changes.add(dir).catch((reason: unknown) => reason);
      arm(null);
      expect(endingOf(error)).toEqual({ text: `${dir}: the disk can only be read.`, status: 2 });
    }));
});
