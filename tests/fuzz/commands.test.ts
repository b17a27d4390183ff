/** Commands on arbitrary files: no crash, no hang, nothing outside their folder, nothing that a spreadsheet computes. */
import { existsSync } from "node:fs";
import { mkdir, readFile, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSwings } from "../../src/library/files.ts";
import { addFile } from "../../src/library/add.ts";
import { openLibrary } from "../../src/library/library.ts";
import { UnusableFile } from "../../src/swing/problems.ts";
import { csvText } from "../../src/library/write.ts";
import { run, type Run } from "../cli/run.ts";
import { inFolder } from "../reading/support.ts";
import {
  expectNoFormula,
  expectPrintable,
  expectUnpolluted,
  filesBelow,
  often,
  swingsFile,
  text,
  time,
  within,
} from "./support.ts";

const limit = 5000;

/** A command that ended as it may: done, data with problems, or a wrong call; each sentence on one line. */
async function ended(...args: string[]): Promise<Run> {
  const result = await within(limit, () => run(...args));
  expect([0, 1, 2], result.err).toContain(result.status);
  expectPrintable(result.out + result.err);
  expectUnpolluted();
  return result;
}

const bytes = fc.oneof(
  fc.uint8Array({ maxLength: 300 }),
  // Bytes behind a good heading get further.
  fc
    .uint8Array({ maxLength: 300 })
    .map((tail) =>
      Buffer.concat([Buffer.from("hitter,input,exit_velocity_mph,launch_angle_deg\nAna,tee,80,10\n"), tail]),
    ),
);

describe("check", () => {
  it(
    "of any bytes ends with a verdict or a sentence",
    async () => {
      await inFolder({}, async (dir) => {
        const file = join(dir, "a.csv");
        await fc.assert(
          fc.asyncProperty(bytes, async (content) => {
            await writeFile(file, content);
            const { status, out, err } = await ended("check", file);
            expect(err.split("\n").length).toBeLessThanOrEqual(2);
            if (status === 0) expect(out).toMatch(/\d+ rows?, \d+ taken/);
          }),
          often(150),
        );
      });
    },
    time(150, 100),
  );

  it(
    "of any headings and cells counts every row once, as text and as JSON",
    async () => {
      await inFolder({}, async (dir) => {
        const file = join(dir, "a.csv");
        await fc.assert(
          fc.asyncProperty(swingsFile, async (content) => {
            await writeFile(file, content);
            await ended("check", file, "--library", dir);
            const { out, status } = await ended("check", file, "--json");
            const [verdict] = (JSON.parse(out) as { files: Record<string, number>[] }).files;
            if (verdict!["problem"] !== undefined) {
              expect(status).toBe(1);
              return;
            }
            const { read, taken, refused, duplicates } = verdict!;
            expect(taken! + refused! + duplicates!).toBe(read);
            expect(status).toBe(refused! > 0 ? 1 : 0);
          }),
          often(100),
        );
      });
    },
    time(100, 200),
  );

  it(
    "takes or refuses any column map in one sentence",
    async () => {
      const map = fc.oneof(
        fc.json(),
        fc
          .record(
            {
              delimiter: fc.constantFrom(",", ";", ":", ""),
              decimal: fc.constantFrom(".", ",", "x"),
              encoding: fc.constantFrom("utf-8", "windows-1252", "utf-16le", "shift_jis", "x", ""),
              dates: fc.oneof(fc.constantFrom("DD.MM.YYYY", "MM/DD/YY hh:mm A", "(a+)+YYYYMMDD"), text),
              missing: fc.array(text, { maxLength: 2 }),
              columns: fc.dictionary(
                fc.oneof(text, fc.constantFrom("hitter", "time", "exit_velocity_mph")),
                fc.oneof(
                  fc.constantFrom("hitter", "note", "time", "exit_velocity_mph", null),
                  text,
                  fc.record({
                    field: fc.constantFrom("exit_velocity_mph", "input", "note"),
                    unit: fc.constantFrom("km/h", "mph", "parsec"),
                  }),
                ),
                { maxKeys: 4 },
              ),
              always: fc.dictionary(text, text, { maxKeys: 2 }),
            },
            { requiredKeys: [] },
          )
          .map((value) => JSON.stringify(value)),
      );
      await inFolder({}, async (dir) => {
        const file = join(dir, "a.csv");
        const mapFile = join(dir, "m.json");
        await fc.assert(
          fc.asyncProperty(map, swingsFile, async (json, content) => {
            await writeFile(file, content);
            await writeFile(mapFile, json);
            const { err } = await ended("check", file, "--map", mapFile);
            expect(err.split("\n").length).toBeLessThanOrEqual(2);
          }),
          often(100),
        );
      });
    },
    time(100, 200),
  );
});

describe("enrich", () => {
  it(
    "writes its two files and no other, without a formula, and every row it was given",
    async () => {
      let cells = 0;
      await fc.assert(
        fc.asyncProperty(swingsFile, async (content) => {
          await inFolder({ "a.csv": content }, async (dir) => {
            const { status } = await ended("enrich", join(dir, "a.csv"), "-o", join(dir, "out.csv"));
            const files = await filesBelow(dir);
            expect(["a.csv", "out.csv", "out.refused.csv"]).toEqual(expect.arrayContaining(files));
            cells += await expectNoFormula(dir, ["a.csv"]);
            if (!files.includes("out.csv")) {
              expect(status).toBe(1);
              return;
            }
            const given = await readSwings(join(dir, "a.csv"));
            if (given.rows.length > 0) {
              const written = await readSwings(join(dir, "out.csv"));
              // Texts and numbers come back as they were; a swing keeps its name.
              expect(written.refused).toEqual([]);
              expect(written.rows).toEqual(given.rows);
            }
            if (!files.includes("out.refused.csv")) {
              expect(given.refused).toEqual([]);
              return;
            }
            const again = await readSwings(join(dir, "out.refused.csv")).catch((error: unknown) => error);
            // What was refused is refused for the same reasons when it is read again.
            if (again instanceof UnusableFile) return;
            expect((again as typeof given).read).toBe(given.refused.length);
          });
        }),
        often(40),
      );
      expect(cells).toBeGreaterThan(1000);
    },
    time(40, 500),
  );
});

describe("a library", () => {
  it(
    "takes any session's and hitter's name, and stays inside its folder",
    async () => {
      let taken = 0;
      await fc.assert(
        fc.asyncProperty(swingsFile, async (content) => {
          await inFolder({ "a.csv": content, "beside.txt": "mine" }, async (dir) => {
            const library = join(dir, "library");
            await mkdir(library);
            const added = await within(limit, () => addFile(library, join(dir, "a.csv"))).catch(
              (error: unknown) => {
                if (!(error instanceof UnusableFile)) throw error;
                expect(error.message).toMatch(/^[^\n]+\.$/);
                return null;
              },
            );
            expectUnpolluted();
            const outside = (await filesBelow(dir)).filter((name) => !name.startsWith("library/"));
            expect(outside).toEqual(["a.csv", "beside.txt"]);
            expect(await readFile(join(dir, "beside.txt"), "utf8")).toBe("mine");
            expect((await stat(dir)).isDirectory()).toBe(true);
            if (added === null) return;
            await expectNoFormula(library, []);
            const { swings } = await openLibrary(library);
            taken += swings.length;
            expect(swings).toHaveLength(added.new);
            const given = await readSwings(join(dir, "a.csv"));
            const named = new Map(given.rows.map((row) => [row.swing_id, row]));
            for (const swing of swings) {
              const { hitter, session, drill, note } = named.get(swing.swing_id)!;
              expect(swing).toMatchObject({ hitter, session, drill, note });
            }
          });
        }),
        often(25),
      );
      // Two files in three hold no swing that can be taken: of 25, one time in sixteen no more than ten swings.
      expect(taken).toBeGreaterThan(0);
    },
    time(25, 1000),
  );

  it(
    "takes, asks about or refuses any layout, guessed at or not, by its command",
    async () => {
      const heading = fc.constantFrom(
        "Player",
        "Name",
        "Exit Speed (km/h)",
        "EV",
        "Launch",
        "Angle",
        "Direction",
        "Type",
        "Swing Type",
        "When",
        "Day",
      );
      const headings = fc.uniqueArray(
        fc.oneof({ arbitrary: heading, weight: 4 }, { arbitrary: text, weight: 1 }),
        {
          minLength: 1,
          maxLength: 8,
        },
      );
      const cell = fc.oneof(
        fc.constantFrom("tee", "Tee", "live", "145", "88.4", "-12", "", "03/04/2025"),
        text,
      );
      const layout = headings.chain((names) =>
        fc
          .array(fc.array(cell, { minLength: names.length, maxLength: names.length }), {
            minLength: 1,
            maxLength: 25,
          })
          .map((rows) =>
            csvText(
              rows.map((row) => Object.fromEntries(row.map((value, i) => [names[i]!, value]))),
              names.map((name) => ({ name })),
            ),
          ),
      );
      await fc.assert(
        fc.asyncProperty(fc.oneof(layout, swingsFile), fc.boolean(), async (content, guess) => {
          await inFolder({ "a.csv": content, "beside.txt": "mine" }, async (dir) => {
            const library = join(dir, "library");
            const args = ["add", join(dir, "a.csv"), "--library", library, ...(guess ? ["--guess"] : [])];
            await ended(...args);
            const { out } = await ended(...args, "--json");
            if (out !== "") JSON.parse(out);
            const outside = (await filesBelow(dir)).filter((name) => !name.startsWith("library/"));
            expect(outside).toEqual(["a.csv", "beside.txt"]);
            if (existsSync(library)) {
              await ended("check", "--library", library);
              await ended("gap", "--library", library);
            }
            if (existsSync(library)) await expectNoFormula(library, []);
          });
        }),
        often(25),
      );
    },
    time(25, 1000),
  );
});
