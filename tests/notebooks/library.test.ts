/** The library on its way to a page: nothing lost, nothing made up, and made anew only when it changed. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { pack, pageLibrary, unpack, type LibraryFile } from "../../notebooks/components/library.ts";
import { drillOptions, every, hitterOptions, pick, sessionOptions } from "../../notebooks/components/pick.ts";
import { libraryFile, LibrarySource } from "../../notebooks/plugins/library-file.ts";
import { enrich } from "../../src/contact/enrich.ts";
import { computedFields } from "../../src/swing/fields.ts";
import { openLibrary } from "../../src/library/library.ts";
import { root } from "../house/files.ts";

describe("a column", () => {
  it("comes back as it went", () => {
    const cell = fc.oneof(
      fc.constant(null),
      fc.string(),
      fc.constantFrom("tee", "live"),
      fc.double(),
      fc.boolean(),
    );
    const same = (values: readonly unknown[]): void => {
      expect(unpack(pack(values))).toEqual(values);
    };
    fc.assert(fc.property(fc.array(cell), same));
    const words = fc.array(fc.constantFrom("tee", "flip", null), { minLength: 8 });
    fc.assert(fc.property(words, same));
  });

  it("writes a word that recurs once", () => {
    expect(pack(["tee", "tee", null, "tee", "live"])).toEqual({
      words: ["tee", "live"],
      at: [0, 0, -1, 0, 1],
    });
  });
});

describe("the demo's library in a page", () => {
  const sent = async (): Promise<LibraryFile> => {
    const library = await openLibrary(join(root, "data/demo"));
    return JSON.parse(JSON.stringify(libraryFile(library))) as LibraryFile;
  };

  it("is one hitter's alone, made from rows that were computed once for all", async () => {
    const library = await openLibrary(join(root, "data/demo"));
    const hitters = new Set([library.swings[0]!.hitter]);
    const alone = libraryFile(library, { hitters }, [], enrich(library));
    expect(alone).toEqual(libraryFile({ ...library }, { hitters }));
    const own = library.swings.filter(({ hitter }) => hitters.has(hitter));
    expect(pageLibrary(alone).swings.map((row) => row.swing_id)).toEqual(own.map((row) => row.swing_id));
  });

  it("has the rows that Node has, computed figures to four digits", async () => {
    const library = await openLibrary(join(root, "data/demo"));
    const page = pageLibrary(await sent());
    const here = enrich(library);
    expect(page.swings).toHaveLength(here.length);
    const computed = new Set<string>(computedFields.map(({ name }) => name));
    const wrong = here.flatMap((row, i) =>
      Object.entries(row).filter(([name, value]) => {
        const there = page.swings[i]![name as keyof typeof row];
        if (typeof value !== "number" || !computed.has(name)) return there !== value;
        return typeof there !== "number" || Math.abs(there - value) > 0.5e-4;
      }),
    );
    expect(wrong).toEqual([]);
  });

  it("gives every swing to one hitter, and every session of a hitter its swings", async () => {
    const page = pageLibrary(await sent());
    const hitters = hitterOptions(page);
    expect(hitters.reduce((sum, { value }) => sum + pick(page, { hitter: value }).length, 0)).toBe(
      page.swings.length,
    );
    const hitter = hitters[0]!.value;
    const rows = pick(page, { hitter });
    const sessions = sessionOptions(page, hitter);
    expect(sessions.at(-1)).toMatchObject({ value: every, text: `All sessions (${rows.length})` });
    expect(pick(page, { hitter, session: every })).toEqual(rows);
    const dates = sessions
      .slice(0, -1)
      .map(({ value }) => page.sessions.find((s) => s.session === value)?.date ?? "");
    expect(dates).toEqual([...dates].sort().reverse());
    for (const { value } of drillOptions(rows))
      expect(pick(page, { hitter, drill: value }).length).toBeGreaterThan(0);
  });
});

describe("a library's source", () => {
  const dir = mkdtempSync(join(tmpdir(), "batted-source-"));
  const write = (rows: number): void => {
    const lines = Array.from({ length: rows }, (_, i) => `Ada Q.,tee,${70 + i},10`);
    writeFileSync(
      join(dir, "swings.csv"),
      ["hitter,input,exit_velocity_mph,launch_angle_deg", ...lines].join("\n"),
    );
  };
  beforeEach(() => write(2));
  afterAll(() => rmSync(dir, { recursive: true, force: true }));

  it("is made once, and anew when a file changes", async () => {
    const source = new LibrarySource(dir);
    expect(await source.changed()).toBe(true);
    const [first, second] = await Promise.all([source.text(), source.text()]);
    expect(second).toBe(first);
    expect(await source.changed()).toBe(false);
    write(3);
    expect(await source.changed()).toBe(true);
    expect(pageLibrary(JSON.parse(await source.text()) as LibraryFile).swings).toHaveLength(3);
  });

  it("says in a sentence why it can't be opened, and the page has no rows then", async () => {
    writeFileSync(join(dir, "thresholds.json"), `{"no_such_threshold": 1}`);
    const source = new LibrarySource(dir);
    await expect(source.text()).rejects.toThrow("no_such_threshold");
    rmSync(join(dir, "thresholds.json"));
    expect(pageLibrary({ trouble: "It is gone." })).toMatchObject({ swings: [], trouble: "It is gone." });
  });
});
