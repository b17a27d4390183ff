/** What is stored is summed: one flipped bit anywhere in it, or a cut, is told with the session's name. */
import { execFileSync } from "node:child_process";
import { cp, readdir, readFile, rm, truncate, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { randomLcg } from "d3";
import { describe, expect, it } from "vitest";
import { addFile } from "../../src/library/add.ts";
import { damageIn } from "../../src/library/damage.ts";
import { decodeApart } from "../../src/library/decode-apart.ts";
import { openLibrary } from "../../src/library/library.ts";
import { storedFields, writeSwings } from "../../src/library/parquet.ts";
import { isUnread, problemSentence } from "../../src/swing/problems.ts";
import { readSums, sumsFile, sumsText } from "../../src/library/sums.ts";
import { swingOf } from "../../src/swing/unknown.ts";
import { libraryToChange, swingsIn } from "../faults/scene.ts";
import { inFolder } from "../reading/support.ts";

/** A library in which every kind of file has been stored. */
const inLibrary = (work: (dir: string) => Promise<void>): Promise<void> =>
  inFolder({}, async (folder) => {
    const { library, sheet } = await libraryToChange(folder);
    await addFile(library, sheet);
    await work(library);
  });

async function flip(path: string, at: number, bit: number): Promise<void> {
  const bytes = await readFile(path);
  bytes[at]! ^= 1 << bit;
  await writeFile(path, bytes);
}

const told = async (dir: string): Promise<string[]> => {
  const { problems } = await openLibrary(dir);
  return [...problems.filter(isUnread), ...(await damageIn(dir))].map(problemSentence);
};

describe("a library's sums", () => {
  it("are those that sha256sum finds", () =>
    inLibrary(async (dir) => {
      for (const folder of ["", "session=A", "session=B"]) {
        const cwd = join(dir, "swings", folder);
        const names = (await readdir(cwd)).filter(
          (name) => name !== sumsFile && !name.startsWith("session="),
        );
        const said = execFileSync("sha256sum", ["-c", "--strict", sumsFile], { cwd, encoding: "utf8" });
        expect(said).toBe(names.map((name) => `${name}: OK\n`).join(""));
        expect(names.length).toBeGreaterThan(0);
      }
      expect(await told(dir)).toEqual([]);
    }));

  const files = [
    ["session=B/swings.parquet", 'the session "B"'],
    ["session=B/SHA256SUMS", 'the session "B"'],
    ["session=A/history.csv", 'the session "A"'],
    ["session=A/refused.csv", 'the session "A"'],
    ["additions.csv", "the list of files taken in"],
    ["SHA256SUMS", "the list of files taken in"],
  ] as const;

  it.each(files)("tell a flipped bit and a cut in %s", (name, what) =>
    inLibrary(async (dir) => {
      const path = join(dir, "swings", name);
      const whole = await readFile(path);
      const random = randomLcg(0.12);
      const before = await swingsIn(dir);
      for (let n = 0; n < 40; n++) {
        const at = Math.floor(random() * whole.length);
        if (n % 8 === 7) await truncate(path, at);
        else await flip(path, at, Math.floor(random() * 8));
        const sentences = await told(dir);
        expect(sentences.filter((text) => text.includes(what)).length, `byte ${at}`).toBeGreaterThan(0);
        expect(sentences.join("\n")).toMatch(/backup|by hand/);
        // What is not damaged is there as it was.
        const left = await swingsIn(dir);
        const kept = before.filter((swing) => !name.startsWith("session=B") || !swing.includes(" B "));
        expect(left).toEqual(kept);
        await writeFile(path, whole);
      }
      expect(await told(dir)).toEqual([]);
    }),
  );

  it("tell a file that is gone, and what to add again", () =>
    inLibrary(async (dir) => {
      await rm(join(dir, "swings/session=B/swings.parquet"));
      expect(await told(dir)).toEqual([
        'swings/session=B/swings.parquet: the file of the session "B" is gone. Take it from its backup, or move the folder away and add again "first.csv", "second.csv".',
      ]);
    }));

  it("keep a damaged session from being written over, until it is moved away and its files are added again", () =>
    inLibrary(async (dir) => {
      const before = await swingsIn(dir);
      const path = join(dir, "swings/session=B/swings.parquet");
      await flip(path, 700, 3);
      const damaged = await readFile(path);
      await writeFile(
        join(dir, "..", "more.csv"),
        "hitter,session,input,exit_velocity_mph,launch_angle_deg\nAna,B,tee,63,1\n",
      );
      await expect(addFile(dir, join(dir, "..", "more.csv"))).rejects.toThrow(
        /the session "B": it doesn't fit the sum/,
      );
      expect(await readFile(path)).toEqual(damaged);
      await rm(join(dir, "swings/session=B"), { recursive: true });
      for (const name of ["first.csv", "second.csv"]) await addFile(dir, join(dir, "..", name));
      expect(await swingsIn(dir)).toEqual(before);
      expect(await told(dir)).toEqual([]);
    }));

  it("are given to what has none at the next adding, and not to what is damaged", () =>
    inLibrary(async (dir) => {
      const before = await swingsIn(dir);
      for (const folder of ["", "session=A", "session=B"]) await rm(join(dir, "swings", folder, sumsFile));
      await cp(join(dir, "swings/session=B"), join(dir, "swings/session=C"), { recursive: true });
      await truncate(join(dir, "swings/session=C/swings.parquet"), 900);
      expect(await swingsIn(dir)).toEqual(before);
      await writeFile(
        join(dir, "..", "more.csv"),
        "hitter,session,input,exit_velocity_mph,launch_angle_deg\nAna,D,tee,63,1\n",
      );
      await addFile(dir, join(dir, "..", "more.csv"));
      const sums = async (folder: string): Promise<string[]> =>
        [
          ...(readSums(await readFile(join(dir, "swings", folder, sumsFile), "utf8")) ?? new Map()).keys(),
        ].sort();
      expect(await sums("")).toEqual(["additions.csv"]);
      expect(await sums("session=A")).toEqual(["history.csv", "refused.csv", "swings.parquet"]);
      expect(await sums("session=B")).toEqual(["swings.parquet"]);
      await expect(sums("session=C")).rejects.toThrow(/ENOENT/);
      expect((await told(dir)).join()).toMatch(
        /session=C\/swings.parquet: the file is not a whole Parquet file/,
      );
    }));

  it("are read as they were written, and as nothing else", () => {
    const sums = new Map([
      ["a.csv", "0".repeat(64)],
      ["b c.csv", "f".repeat(64)],
    ]);
    const text = sumsText(sums);
    expect(readSums(text)).toEqual(sums);
    expect(readSums("")).toBeNull();
    for (let at = 0; at < text.length; at++) expect(readSums(text.slice(0, at))).toBeNull();
  });
});

describe("a file that no sum vouches for", () => {
  it("is given up when its decoding comes to no end", { timeout: 60_000 }, () =>
    inFolder({}, async (dir) => {
      const rows = Array.from({ length: 300 }, (_, i) => ({
        ...swingOf({
          hitter: "Ana",
          input: "tee",
          swing_id: `s${i}`,
          session: "A",
          exit_velocity_mph: 60 + (i % 30),
        }),
        source: "a",
        source_row: i + 2,
      }));
      const path = join(dir, "a.parquet");
      await writeSwings(path, rows);
      const bytes = await readFile(path);
      const names = storedFields.map((field) => field.name);
      expect((await decodeApart(bytes, names)).map((group) => group.count)).toEqual([300]);
      // The number of values in the first page of the first column becomes the number of something else.
      expect(bytes[18]).toBe(0x15);
      bytes[18] = 0x55;
      await expect(decodeApart(bytes, names, 1000)).rejects.toThrow("its decoding comes to no end");
      bytes[18] = 0x15;
      expect(await decodeApart(bytes, names)).toHaveLength(1);
    }),
  );
});
