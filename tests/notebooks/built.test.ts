import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, expect, it, vi } from "vitest";
import { bringAlong, keptBuild, type BuiltPart } from "../../notebooks/built.ts";
import { inFolder } from "../reading/support.ts";

const clone = {
  "notebooks/index.html": "<p>Start</p>",
  "src/a.ts": "export const a = 1;",
  "data/fields.json": "[]",
  "data/demo/swings.csv": "hitter\n",
  "node_modules/.package-lock.json": "{}",
};
const parts: readonly BuiltPart[] = [
  { file: "index.html", content: "<p>Start – built</p>" },
  { file: "assets/letters.woff2", content: Uint8Array.of(0, 200, 255, 13, 10) },
];
const keptAt = "node_modules/.vite/built/site.json";

/** A build, and how often it was made. */
const maker = () => vi.fn(() => Promise.resolve(parts));
const inClone = <T>(work: (dir: string) => Promise<T>, files: Record<string, string> = clone): Promise<T> =>
  inFolder(files, work);
const textOf = (built: readonly BuiltPart[]): string[] =>
  built.map(({ file, content }) => `${file} ${Buffer.from(content).toString("hex")}`);

afterEach(() => vi.unstubAllEnvs());

it("a build is made once, and comes back to the byte, letters and all", () =>
  inClone(async (dir) => {
    const make = maker();
    const [first, second] = [await keptBuild("site", make, dir), await keptBuild("site", make, dir)];
    expect(make).toHaveBeenCalledTimes(1);
    expect(textOf(second)).toEqual(textOf(first));
    expect(textOf(second)).toEqual(textOf(parts));
    await keptBuild("page", make, dir);
    expect(make).toHaveBeenCalledTimes(2);
  }));

it.each([
  ["a page", "notebooks/index.html"],
  ["a page that wasn't there", "notebooks/my-page.html"],
  ["a module", "src/a.ts"],
  ["a table", "data/fields.json"],
  ["what is installed", "node_modules/.package-lock.json"],
])("and is made anew when %s has changed", (_, path) =>
  inClone(async (dir) => {
    const make = maker();
    await keptBuild("site", make, dir);
    await writeFile(join(dir, path), "changed");
    await keptBuild("site", make, dir);
    expect(make).toHaveBeenCalledTimes(2);
  }),
);

it("but not when a library has", () =>
  inClone(async (dir) => {
    const make = maker();
    await keptBuild("site", make, dir);
    await writeFile(join(dir, "data/demo/swings.csv"), "hitter\nAda K.\n");
    await keptBuild("site", make, dir);
    expect(make).toHaveBeenCalledTimes(1);
  }));

it.each([
  ["cut short", (text: string) => text.slice(0, -40)],
  ["another letter in it", (text: string) => text.replace("Start", "Stars")],
  ["empty", () => ""],
])("one that is damaged (%s) is made anew", (_, damage) =>
  inClone(async (dir) => {
    const make = maker();
    await keptBuild("site", make, dir);
    const text = await readFile(join(dir, keptAt), "utf8");
    expect(damage(text)).not.toBe(text);
    await writeFile(join(dir, keptAt), damage(text));
    expect(textOf(await keptBuild("site", make, dir))).toEqual(textOf(parts));
    expect(make).toHaveBeenCalledTimes(2);
    await keptBuild("site", make, dir);
    expect(make).toHaveBeenCalledTimes(2);
  }),
);

it("one that can't be kept is only made", () =>
  // A file where the folder would be.
  inClone(
    async (dir) => {
      const make = maker();
      for (let i = 0; i < 2; i++) expect(await keptBuild("site", make, dir)).toBe(parts);
      expect(make).toHaveBeenCalledTimes(2);
    },
    { ...clone, "node_modules/.vite": "" },
  ));

it("a package brings its own along, and one whose files were changed doesn't use it", () =>
  inClone(
    async (dir) => {
      await bringAlong({ site: parts, page: [] }, dir);
      const make = maker();
      expect(textOf(await keptBuild("site", make, dir))).toEqual(textOf(parts));
      expect(make).not.toHaveBeenCalled();
      await writeFile(join(dir, "notebooks/index.html"), "mine");
      for (let i = 0; i < 2; i++) await keptBuild("site", make, dir);
      expect(make).toHaveBeenCalledTimes(2);
    },
    { "notebooks/index.html": "", "src/a.js": "", "data/fields.json": "[]" },
  ));

it("whatever is kept, it can be made anew", () =>
  inClone(async (dir) => {
    const make = maker();
    await keptBuild("site", make, dir);
    vi.stubEnv("BATTED_BUILT", "anew");
    await keptBuild("site", make, dir);
    expect(make).toHaveBeenCalledTimes(2);
  }));
