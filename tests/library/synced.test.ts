/**
 * What a power cut can't undo: a folder's list of names is pushed to the disk before what relies on it is done. Each call
 * is seen as it passes, under everything that the library uses.
 */
import fs from "node:fs";
import { cp, mkdtemp, rm } from "node:fs/promises";
import { syncBuiltinESMExports } from "node:module";
import { tmpdir } from "node:os";
import { basename, dirname, join, relative } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { addFile } from "../../src/library/add.ts";
import { libraryToChange } from "../faults/scene.ts";

const real = { ...fs.promises };
let seen: string[] = [];
let folder = "";
let dir = "";

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "synced-"));
  const scene = await libraryToChange(join(folder, "scene"));
  dir = join(folder, "library");
  await cp(scene.library, dir, { recursive: true });
  const within = (path: unknown): string => relative(dir, String(path));
  const see = (what: string): void => void seen.push(what);
  Object.assign(fs.promises, {
    open: async (...args: Parameters<typeof real.open>) => {
      const handle = await real.open(...args);
      const sync = handle.sync.bind(handle);
      handle.sync = async () => {
        await sync();
        see(`sync ${within(args[0])}`);
      };
      return handle;
    },
    rename: async (...args: Parameters<typeof real.rename>) => {
      await real.rename(...args);
      see(`rename ${within(args[1])}`);
    },
    rm: async (...args: Parameters<typeof real.rm>) => {
      await real.rm(...args);
      see(`rm ${within(args[0])}`);
    },
  });
  syncBuiltinESMExports();
  await addFile(dir, scene.sheet);
}, 60_000);

afterAll(async () => {
  Object.assign(fs.promises, real);
  syncBuiltinESMExports();
  await rm(folder, { recursive: true, force: true });
});

it("an addition pushes every folder to the disk before it relies on it", () => {
  const at = (what: string, from = 0): number => seen.indexOf(what, from);
  const journal = "swings/.journal.json";
  const begun = at(`rename ${journal}`);
  const ended = at(`rm ${journal}`, begun);
  expect(begun).toBeGreaterThan(0);
  expect(ended).toBeGreaterThan(begun);

  const placed = seen
    .slice(begun + 1, ended)
    .filter((what) => what.startsWith("rename "))
    .map((what) => what.slice("rename ".length));
  expect(placed.length).toBeGreaterThan(2);
  expect(placed.some((path) => basename(path) === "swings.parquet")).toBe(true);

  // What is to be put in place is there before the journal says so.
  const staged = seen.slice(0, begun).filter((what) => /^sync swings\/\.(?!journal)[^/]+$/.test(what));
  expect(staged.length).toBeGreaterThan(0);
  // The journal is in its folder before anything is put in place.
  expect(at("sync swings", begun)).toBeLessThan(at(`rename ${placed[0]!}`, begun));
  expect(at("sync swings", begun)).toBeGreaterThan(begun);
  // Every folder has its new names before the journal goes, the folder of a new folder too.
  for (const path of placed)
    for (const holder of [dirname(path), dirname(dirname(path))]) {
      const synced = seen.indexOf(`sync ${holder === "." ? "" : holder}`, at(`rename ${path}`, begun));
      expect(synced, `${holder} after ${path}`).toBeGreaterThan(begun);
      expect(synced, `${holder} before the journal goes`).toBeLessThan(ended);
    }
  // And the journal's going is no more undone than the rest.
  expect(seen.indexOf("sync swings", ended)).toBeGreaterThan(ended);
});
