/** What of a library can't be read is told by every command and stands on every hand-out, and the exit status says so. */
import { cp, mkdir, readFile, truncate, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { libraryFile } from "../../notebooks/plugins/library-file.ts";
import { addFile } from "../../src/library/add.ts";
import { openLibrary } from "../../src/library/library.ts";
import { inFolder } from "../reading/support.ts";
import { run } from "./run.ts";

const headings = "session,hitter,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg";
const rows = (session: string, hitter: string): string =>
  ["tee", "live"]
    .flatMap((input) =>
      Array.from({ length: 12 }, (_, i) => `${session},${hitter},${input},${70 + i},${5 + i},${i - 6}\n`),
    )
    .join("");

/** A library of two sessions, one of them cut short, and whatever files are given. */
const inDamaged = (
  files: Readonly<Record<string, string>>,
  work: (dir: string, out: string) => Promise<void>,
  cut = true,
): Promise<void> =>
  inFolder({}, async (folder) => {
    const dir = join(folder, "library");
    await writeFile(join(folder, "a.csv"), `${headings}\n${rows("May", "Ana")}${rows("June", "Ana")}`);
    await addFile(dir, join(folder, "a.csv"));
    for (const [name, text] of Object.entries(files)) await writeFile(join(dir, name), text);
    if (cut) await truncate(join(dir, "swings/session=June/swings.parquet"), 1000);
    await work(dir, join(folder, "out"));
  });

const june = /swings\/session=June\/swings\.parquet: the file is damaged, and with it the session "June"/;

describe("a damaged session and broken companions", () => {
  const broken = { "thresholds.json": "{bad", "sessions.csv": "garbage", "hitters.csv": "\u0000\u0001" };
  const whole = (text: string): void => {
    expect(text).toMatch(june);
    for (const name of Object.keys(broken)) expect(text).toContain(`${name}: the file `);
  };

  it.each([
    ["gap", (dir: string) => ["gap", "--library", dir]],
    ["drift", (dir: string) => ["drift", "--library", dir]],
    ["report", (dir: string, out: string) => ["report", "--library", dir, "-o", out]],
  ])("are told by %s, with exit status 1", (_, args) =>
    inDamaged(broken, async (dir, out) => {
      const { status, err } = await run(...args(dir, out));
      expect(status).toBe(1);
      whole(err);
    }),
  );

  it("are told by check, for the library or its folder alone", () =>
    inDamaged(broken, async (dir) => {
      for (const args of [["--library", dir], [dir]]) {
        const { status, out } = await run("check", ...args);
        expect(status).toBe(1);
        whole(out.replace(/\n {2,}/g, " ").replace(/\n(?=\S)/g, "\n"));
      }
    }));

  it("stand on the face of every report and of the page that leads to them", () =>
    inDamaged(broken, async (dir, out) => {
      await run("report", "--library", dir, "-o", out);
      for (const name of ["report-ana.html", "index.html"]) {
        const text = await readFile(join(out, name), "utf8");
        const face = /<p class="unread">([\s\S]*?)<\/p>/.exec(text)?.[1] ?? "";
        for (const file of ["swings/session=June/swings.parquet", ...Object.keys(broken)])
          expect(face).toContain(file);
        expect(text.indexOf('class="unread"')).toBeLessThan(text.indexOf("<h1>"));
      }
    }));

  it("are told to the pages", () =>
    inDamaged(broken, async (dir) => whole(libraryFile(await openLibrary(dir)).unread.join("\n"))));

  it("are told by add, where it uses them", () =>
    inDamaged(broken, async (dir) => {
      await writeFile(join(dir, "..", "b.csv"), `${headings}\nMay,Ben,tee,70,10,1\n`);
      const { status, err } = await run("add", join(dir, "..", "b.csv"), "--library", dir);
      expect([status, err]).toEqual([1, expect.stringMatching(/^hitters.csv: the file /m)]);
    }));

  it("leave nothing to say when everything can be read", () =>
    inDamaged(
      {},
      async (dir, out) => {
        expect((await run("gap", "--library", dir)).status).toBe(0);
        expect((await run("check", dir)).status).toBe(0);
        expect((await run("report", "--library", dir, "-o", out)).status).toBe(0);
        expect(await readFile(join(out, "report-ana.html"), "utf8")).not.toContain('class="unread"');
        expect(libraryFile(await openLibrary(dir)).unread).toEqual([]);
      },
      false,
    ));
});

it.each([
  [
    "sessions.csv",
    ["", "\u0000", "garbage", "a,b\n1,2\n", "session,date\n", "PK\u0003\u0004", "<html>", "%PDF-1"],
  ],
  [
    "hitters.csv",
    ["", "\u0000", "garbage", "a,b\n1,2\n", "hitter,level\n", "PK\u0003\u0004", "<html>", "%PDF-1"],
  ],
  ["targets.csv", ["", "\u0000", "garbage", "a,b\n1,2\n", "drill,spray_low\n", '"a', "<html>", "%PDF-1"]],
  ["thresholds.json", ["", "{", "[1,", "nothing", "\u0000"]],
  ["map.json", ["", "{", '{"columns": 5}', "[]"]],
])("a broken %s never goes by without a word", { timeout: 60_000 }, (name, contents) =>
  inDamaged(
    {},
    async (dir) => {
      for (const [i, content] of contents.entries()) {
        const copy = `${dir}-${i}`;
        await cp(dir, copy, { recursive: true });
        await writeFile(join(copy, name), content);
        const { status, err } = await run("gap", "--library", copy);
        expect([status, err], JSON.stringify(content)).toEqual([1, expect.stringContaining(`${name}: `)]);
      }
      await mkdir(join(dir, name));
      const { status, err } = await run("gap", "--library", dir);
      expect([status, err]).toEqual([1, expect.stringContaining(`${name}: the file is a folder`)]);
    },
    false,
  ),
);
