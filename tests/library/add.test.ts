import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { addFile, type Added, type AddOptions } from "../../src/library/add.ts";
import { openLibrary } from "../../src/library/library.ts";
import { partitionName } from "../../src/swing/partition.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { Shelves } from "../../src/library/shelves.ts";
import { inFolder } from "../reading/support.ts";

const head = "swing_id,session,time,hitter,input,exit_velocity_mph,launch_angle_deg";
const bare = "session,time,hitter,input,exit_velocity_mph,launch_angle_deg";

/** Runs with a folder in which files are written and added one after the other, and a look at the library. */
function inLibrary(
  work: (tools: {
    dir: string;
    add: (name: string, text: string, options?: AddOptions) => Promise<Added>;
    speeds: () => Promise<(number | null)[]>;
  }) => Promise<void>,
): Promise<void> {
  return inFolder({}, async (root) => {
    const dir = join(root, "library");
    await mkdir(dir);
    await work({
      dir,
      add: async (name, text, options) => {
        await writeFile(join(root, name), text);
        return addFile(dir, join(root, name), options);
      },
      speeds: async () => (await openLibrary(dir)).swings.map((swing) => swing.exit_velocity_mph),
    });
  });
}

const told = ({ read, new: fresh, corrected, copies, older, refused }: Added): Record<string, number> => {
  expect(fresh + corrected + copies + older + refused).toBe(read);
  return { new: fresh, corrected, copies, older, refused };
};
const nothing = { new: 0, corrected: 0, copies: 0, older: 0, refused: 0 };

describe("adding", () => {
  it("takes a swing once: in one file, in the same file, and in one that overlaps", () =>
    inLibrary(async ({ add, speeds }) => {
      const first = `${bare}\nmay,,Ana,tee,80,10\nmay,,Ana,tee,80,10\nmay,,Ana,tee,81,11\njune,,Bo,live,90,20\n`;
      expect(told(await add("a.csv", first))).toEqual({ ...nothing, new: 3, copies: 1 });
      expect(told(await add("a.csv", first))).toEqual({ ...nothing, copies: 4 });
      const overlapping = `${bare}\nmay,,Ana,tee,81,11\nmay,,Ana,tee,82,12\n`;
      expect(told(await add("b.csv", overlapping))).toEqual({ ...nothing, new: 1, copies: 1 });
      expect(await speeds()).toEqual([90, 80, 81, 82]);
    }));

  it("keeps one Parquet file a session, in a folder that decodes to its name", () =>
    inLibrary(async ({ dir, add }) => {
      await add(
        "a.csv",
        `${bare}\nMay 5,,Ana,tee,80,10\nmay 5,,Ana,tee,81,10\n,,Ana,tee,82,10\n../up,,Ana,tee,83,10\n`,
      );
      expect((await readdir(join(dir, "swings"))).sort()).toEqual([
        "SHA256SUMS",
        "additions.csv",
        "session=%6Day 5",
        "session=..%2Fup",
        "session=May 5",
        "session=__HIVE_DEFAULT_PARTITION__",
      ]);
      const { swings } = await openLibrary(dir);
      expect(swings.map((s) => s.session)).toEqual(["../up", "may 5", "May 5", null]);
    }));

  it("lets a corrected value win, by id, and keeps the old one", () =>
    inLibrary(async ({ dir, add, speeds }) => {
      const before = `${head}\nx1,may,,Ana,tee,80,10\nx2,may,,Ana,tee,81,10\n`;
      const after = `${head}\nx1,may,,Ana,tee,80,10\nx2,may,,Ana,tee,71,10\n`;
      await add("a.csv", before);
      expect(told(await add("b.csv", after))).toEqual({ ...nothing, copies: 1, corrected: 1 });
      expect(await speeds()).toEqual([80, 71]);
      const history = await (await Shelves.open(dir)).history(join("swings", partitionName("may")));
      expect(history.map((h) => [h.swing_id, h.exit_velocity_mph, h.replaced_by])).toEqual([
        ["x2", 81, "x2"],
      ]);
      // The old export again must not undo it, unless that is asked for.
      expect(told(await add("a.csv", before))).toEqual({ ...nothing, copies: 1, older: 1 });
      expect(await speeds()).toEqual([80, 71]);
      expect(told(await add("a.csv", before, { bringBack: true }))).toMatchObject({
        corrected: 1,
        copies: 1,
      });
      expect(await speeds()).toEqual([80, 81]);
    }));

  it("knows a swing without an id by session, hitter and second", () =>
    inLibrary(async ({ add, speeds }) => {
      await add(
        "a.csv",
        `${bare}\nmay,2026-05-05T10:00:01,Ana,tee,80,10\nmay,2026-05-05T10:00:09,Ana,tee,81,10\n`,
      );
      const again = `${bare}\nmay,2026-05-05T10:00:01,Ana,tee,80,10\nmay,2026-05-05T10:00:09,Ana,tee,81,13\n`;
      expect(told(await add("b.csv", again))).toEqual({ ...nothing, copies: 1, corrected: 1 });
      expect(await speeds()).toEqual([80, 81]);
    }));

  it("takes two swings of one minute for two", () =>
    inLibrary(async ({ add, speeds }) => {
      await add("a.csv", `${bare}\nmay,2026-05-05T10:00,Ana,tee,80,10\n`);
      await add("b.csv", `${bare}\nmay,2026-05-05T10:00,Ana,tee,80,11\n`);
      // An exporter that knows no seconds and writes them all the same.
      await add("c.csv", `${bare}\nmay,2026-05-05T10:01:00,Ana,tee,80,10\n`);
      await add("d.csv", `${bare}\nmay,2026-05-05T10:01:00,Ana,tee,66,31\n`);
      expect(await speeds()).toEqual([80, 80, 80, 66]);
    }));

  it("moves a swing whose session was corrected", () =>
    inLibrary(async ({ dir, add }) => {
      await add("a.csv", `${head}\nx1,may,,Ana,tee,80,10\nx2,june,,Ana,tee,81,10\n`);
      await add("b.csv", `${head}\nx1,june,,Ana,tee,80,10\n`);
      const { swings, files } = await openLibrary(dir);
      expect(swings.map((s) => [s.swing_id, s.session])).toEqual([
        ["x2", "june"],
        ["x1", "june"],
      ]);
      expect(files.map((f) => f.file)).toEqual(["swings/session=june/swings.parquet"]);
      expect(await readdir(join(dir, "swings", "session=may"))).toEqual(["SHA256SUMS", "history.csv"]);
    }));

  it("refuses an id that stands for quite another swing, and keeps the row", () =>
    inLibrary(async ({ dir, add, speeds }) => {
      await add("a.csv", `${head}\n1,may,,Ana,tee,80,10\n`);
      const added = await add("b.csv", `${head}\n1,june,,Bo,tee,95,22\n`);
      expect(told(added)).toEqual({ ...nothing, refused: 1 });
      expect(added.problems.map(problemSentence)[0]).toMatch(
        /b\.csv, row 2: swing_id "1" is the id of another swing in the library/,
      );
      expect(await speeds()).toEqual([80]);
      expect(await readFile(join(dir, "swings/session=june/refused.csv"), "utf8")).toContain("1,june,,Bo,");
    }));

  it("reads the same file anew under another map, in place of what it gave before", () =>
    inLibrary(async ({ add, speeds }) => {
      const sheet = "Who,From,Speed,Angle\nAna,tee,120,10\nAna,tee,120,12\nBo,tee,100,12\n";
      const map = (unit: "mph" | "km/h") => ({
        columns: {
          Who: "hitter",
          From: "input",
          Speed: { field: "exit_velocity_mph", unit },
          Angle: "launch_angle_deg",
        },
      });
      await add("a.csv", sheet, { map: map("mph") });
      expect(told(await add("a.csv", sheet, { map: map("km/h") }))).toEqual({ ...nothing, corrected: 3 });
      expect((await speeds()).map((v) => Math.round(v!))).toEqual([75, 75, 62]);
    }));

  it("fills what rows don't tell, the session and the input", () =>
    inLibrary(async ({ dir, add }) => {
      await add("a.csv", "hitter,exit_velocity_mph,launch_angle_deg\nAna,80,10\n", {
        fill: { input: "tee", session: "may" },
      });
      const { swings } = await openLibrary(dir);
      expect(swings.map((s) => [s.input, s.session])).toEqual([["tee", "may"]]);
      await expect(add("a.csv", `${bare}\n`, { fill: { input: "tea" } })).rejects.toThrow(/can't be filled/);
    }));

  it("tells a name that is nearly another's of a CSV file in the library's folder", () =>
    inLibrary(async ({ dir, add }) => {
      await writeFile(
        join(dir, "own.csv"),
        "hitter,input,exit_velocity_mph,launch_angle_deg\nLena Kock,tee,80,10\n",
      );
      const { problems } = await add("a.csv", `${bare}\nmay,,Lena Koch,tee,81,10\n`);
      expect(problems.map(problemSentence).join(" ")).toMatch(/Lena Koch.*Lena Kock|Lena Kock.*Lena Koch/);
    }));

  it("takes two swings that were given two names for two, however alike", () =>
    inLibrary(async ({ add, speeds }) => {
      await add("a.csv", `${head}\nx1,may,,Ana,tee,80,10\nx2,may,,Ana,tee,80,10\n`);
      expect(told(await add("b.csv", `${head}\nx3,may,,Ana,tee,80,10\n`))).toEqual({ ...nothing, new: 1 });
      expect(await speeds()).toEqual([80, 80, 80]);
    }));

  it("gives a name to a swing that was there without one", () =>
    inLibrary(async ({ dir, add }) => {
      await add("a.csv", `${bare}\nmay,,Ana,tee,80,10\n`);
      expect(told(await add("b.csv", `${head}\nx1,may,,Ana,tee,80,10\n`))).toEqual({ ...nothing, copies: 1 });
      expect(told(await add("a.csv", `${bare}\nmay,,Ana,tee,80,10\n`))).toEqual({ ...nothing, copies: 1 });
      expect((await openLibrary(dir)).swings.map((s) => s.swing_id)).toEqual(["x1"]);
    }));

  it("waits for another that is adding, so that both are in", () =>
    inLibrary(async ({ add, speeds }) => {
      const sheets = Array.from({ length: 6 }, (_, i) => `${bare}\nmay,,Ana,tee,${80 + i},10\n`);
      await Promise.all(sheets.map((sheet, i) => add(`${i}.csv`, sheet, { patience: 20_000 })));
      expect((await speeds()).sort()).toEqual([80, 81, 82, 83, 84, 85]);
    }));

  it("leaves everything as it was when the file is no use", () =>
    inLibrary(async ({ dir, add, speeds }) => {
      await add("a.csv", `${bare}\nmay,,Ana,tee,80,10\n`);
      await expect(add("b.csv", "nothing,of,use\n1,2,3\n")).rejects.toThrow(/has no heading/);
      expect(await speeds()).toEqual([80]);
      expect((await readdir(join(dir, "swings"))).filter((name) => name.startsWith("."))).toEqual([]);
    }));
});

describe("refused rows", () => {
  const sheet = `${bare}\nmay,,Ana,tee,80,10\nmay,,Ana,tee,-eighty,10\nmay,,=Bo,tee,-500,10\nmay,,Cy,tea,70,5\n`;

  it("wait beside their session with the reason, once, and are taken when mended", () =>
    inLibrary(async ({ dir, add, speeds }) => {
      expect(told(await add("a.csv", sheet))).toEqual({ ...nothing, new: 1, refused: 3 });
      await add("a.csv", sheet);
      const path = join(dir, "swings", "session=may", "refused.csv");
      const text = await readFile(path, "utf8");
      expect(text.trimEnd().split("\r\n")).toEqual([
        `refused_file,refused_row,refused_reason,${bare}`,
        `a.csv,3,"exit_velocity_mph ""-eighty"" is not a number.",may,,Ana,tee,'-eighty,10`,
        expect.stringMatching(
          /^a\.csv,4,"exit_velocity_mph ""-500"" is under 5 mph.*\.",may,,'=Bo,tee,-500,10$/,
        ),
        `a.csv,5,"input ""tea"" is not one of tee, flip, live.",may,,Cy,tea,70,5`,
      ]);
      expect((await openLibrary(dir)).problems.map(problemSentence)).toEqual([
        "swings/session=may/swings.parquet: 3 rows were refused, and wait beside it to be corrected and added.",
      ]);
      // As a spreadsheet of another country would save it, with a blank row in it.
      const mended = text.replace("'-eighty", "81").replace(",-500,", ",82,").replaceAll("\r\n", "\r\n\r\n");
      await writeFile(path, mended);
      expect(told(await addFile(dir, path))).toEqual({ ...nothing, new: 2, refused: 1 });
      expect(await speeds()).toEqual([80, 81, 82]);
      const left = await readFile(path, "utf8");
      expect(left.trimEnd().split("\r\n")).toEqual([
        `refused_file,refused_row,refused_reason,${bare}`,
        `a.csv,5,"input ""tea"" is not one of tee, flip, live.",may,,Cy,tea,70,5`,
      ]);
      await writeFile(path, left.replace(",tea,", ",tee,"));
      await addFile(dir, path);
      expect(await speeds()).toEqual([80, 81, 82, 70]);
      expect(await readdir(join(dir, "swings", "session=may"))).toEqual(["SHA256SUMS", "swings.parquet"]);
    }));

  it("keep what it takes to read them again: map, decimal comma, filled fields", () =>
    inLibrary(async ({ dir, add, speeds }) => {
      const map = {
        delimiter: ";" as const,
        columns: {
          Wer: "hitter",
          Tempo: { field: "exit_velocity_mph", unit: "km/h" as const },
          Winkel: "launch_angle_deg",
        },
      };
      const added = await add("a.csv", "Wer;Tempo;Winkel\nAna;100,5;10,25\nAna;schnell;-3,5\n", {
        map,
        fill: { input: "tee", session: "May" },
      });
      expect(told(added)).toEqual({ ...nothing, new: 1, refused: 1 });
      const path = join(dir, "swings", partitionName("May"), "refused.csv");
      await writeFile(path, (await readFile(path, "utf8")).replace(",schnell,", ',"110,5",'));
      const mended = await addFile(dir, path);
      expect([told(mended), mended.problems]).toEqual([{ ...nothing, new: 1 }, []]);
      expect((await speeds()).map((v) => v!.toFixed(2))).toEqual(["62.45", "68.66"]);
      expect((await openLibrary(dir)).swings.map((s) => [s.session, s.launch_angle_deg])).toEqual([
        ["May", 10.25],
        ["May", -3.5],
      ]);
    }));

  it("keep the unit that their sheet named", () =>
    inLibrary(async ({ dir, add, speeds }) => {
      const sheets = [
        `${bare}\nmay,,Ana,tee,144 km/h,10\nmay,,Ana,tee,126 km/h,steep\n`,
        `${bare}\n,,,,km/h,deg\njune,,Ana,tee,144,10\njune,,Ana,tee,126,steep\n`,
      ];
      for (const [i, session] of ["may", "june"].entries()) {
        expect(told(await add(`${session}.csv`, sheets[i]!))).toEqual({ ...nothing, new: 1, refused: 1 });
        const path = join(dir, "swings", partitionName(session), "refused.csv");
        await writeFile(path, (await readFile(path, "utf8")).replace(/,steep(?=\r)/, ",12"));
        expect(told(await addFile(dir, path))).toEqual({ ...nothing, new: 1 });
      }
      expect((await speeds()).map((v) => v!.toFixed(2))).toEqual(["89.48", "78.29", "89.48", "78.29"]);
    }));

  it("of another layout get a file of their own", () =>
    inLibrary(async ({ dir, add }) => {
      await add("a.csv", `${bare}\nmay,,Ana,tee,x,10\n`);
      await add("b.csv", `session,hitter,input,outcome\nmay,Ana,tea,miss\n`);
      expect(await readdir(join(dir, "swings", "session=may"))).toEqual([
        "SHA256SUMS",
        "refused-2.csv",
        "refused.csv",
      ]);
    }));

  it("wait under the newest map alone, and are counted once", () =>
    inLibrary(async ({ dir, add }) => {
      const sheet = "Who,From,Speed,Angle\nAna,tee,fast,10\nAna,tee,120,steep\nBo,tee,100,12\n";
      const map = (unit: "mph" | "km/h") => ({
        columns: {
          Who: "hitter",
          From: "input",
          Speed: { field: "exit_velocity_mph", unit },
          Angle: "launch_angle_deg",
        },
      });
      await add("a.csv", sheet, { map: map("mph"), fill: { session: "may" } });
      // Another file's row with the same cells is another row.
      await add("b.csv", "Who,From,Speed,Angle\nAna,tee,fast,10\nAna,tee,90,10\n", {
        map: map("mph"),
        fill: { session: "june" },
      });
      await add("a.csv", sheet, { map: map("km/h"), fill: { session: "may" } });
      const refused = async (): Promise<(string | number)[][]> =>
        (await openLibrary(dir)).files.map(({ file, refused: n }) => [file, n]);
      expect(await refused()).toEqual([
        ["swings/session=june/swings.parquet", 1],
        ["swings/session=may/swings.parquet", 2],
      ]);
      // What was tried in vain is tried again as often as one likes.
      await add("a.csv", sheet, { map: map("km/h"), fill: { session: "may" } });
      expect((await refused()).map(([, n]) => n)).toEqual([1, 2]);
      const files = await readdir(join(dir, "swings", "session=may"));
      const [page] = files.filter((name) => /^refused.*csv$/.test(name));
      expect(files.filter((name) => /^refused.*csv$/.test(name))).toHaveLength(1);
      expect(
        await readFile(join(dir, "swings", "session=may", page!.replace("csv", "map.json")), "utf8"),
      ).toContain("km/h");
    }));

  it("never keep birth dates or contacts", () =>
    inLibrary(async ({ dir, add }) => {
      const added = await add(
        "a.csv",
        "session,hitter,Date of birth,Parent e-mail,input,exit_velocity_mph,launch_angle_deg\nmay,Ana,2014-03-02,ma@home.example,tee,x,10\nmay,Ana,2014-03-02,ma@home.example,tee,70,10\n",
      );
      expect(added.problems.map((p) => p.reason)).toContainEqual(
        expect.stringMatching(/^left out and not stored.*Date of birth, Parent e-mail$/),
      );
      for (const name of await readdir(join(dir, "swings", "session=may"))) {
        const bytes = await readFile(join(dir, "swings", "session=may", name), "latin1");
        expect(bytes).not.toMatch(/2014|ma@home/);
      }
      expect(await readFile(join(dir, "swings/session=may/refused.csv"), "utf8")).toContain(
        "may,Ana,tee,x,10",
      );
    }));
});
