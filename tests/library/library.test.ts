import { describe, expect, it } from "vitest";
import { openCompanions, openLibrary } from "../../src/library/library.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { inFolder } from "../reading/support.ts";

const head = "session,hitter,input,exit_velocity_mph,launch_angle_deg";

describe("a library", () => {
  it("is a folder: its tables, its swings in the files' order, and each file's count", async () => {
    const files = {
      "b.csv": `${head}\nmay,Ana,tee,80,10\nmay,Ana,tee,81,10\n`,
      "A.CSV": `${head}\nmay,Bo,live,90,20\nmay,,live,90,20\n`,
      "Sessions.csv": "session,temperature_f\nmay,70\n",
      "hitters.csv": "hitter,bats\nAna,R\nBo,L\n",
      "targets.csv": "drill,launch_angle_deg_low\nup,8\n",
      "thresholds.json": '{"bands": 3}',
      ".hidden.csv": "x",
      "notes.txt": "x",
    };
    await inFolder(files, async (dir) => {
      const library = await openLibrary(dir);
      expect(library.swings.map((s) => [s.hitter, s.exit_velocity_mph])).toEqual([
        ["Bo", 90],
        ["Ana", 80],
        ["Ana", 81],
      ]);
      expect(library.swings.every((s) => s.swing_id !== null)).toBe(true);
      expect(library.sessions.map((s) => s.session)).toEqual(["may"]);
      expect(library.hitters).toHaveLength(2);
      expect(library.targets).toHaveLength(1);
      expect(library.thresholds).toEqual({ bands: 3 });
      expect(library.files.map((f) => [f.file, f.rows, f.refused])).toEqual([
        ["Sessions.csv", 1, 0],
        ["hitters.csv", 2, 0],
        ["targets.csv", 1, 0],
        ["A.CSV", 1, 1],
        ["b.csv", 2, 0],
      ]);
      expect(library.problems.map(problemSentence)).toEqual(["A.CSV, row 3: hitter is missing."]);
      expect(await openCompanions(dir)).toEqual({
        problems: [],
        sessions: library.sessions,
        hitters: library.hitters,
        targets: library.targets,
        names: [],
        fields: [],
      });
    });
  });

  it("keeps a swing once that stands in two files, and says so", async () => {
    const row = `${head}\nmay,Ana,tee,80,10\n`;
    await inFolder({ "a.csv": row, "b.csv": row }, async (dir) => {
      const { swings, problems } = await openLibrary(dir);
      expect(swings).toHaveLength(1);
      expect(problems.map(problemSentence)).toEqual([
        "b.csv, row 2: the row is an exact copy of row 2 of a.csv, and is counted once.",
      ]);
    });
  });

  it("uses map.json for the sheets it fits, and a sheet's own map for that sheet", async () => {
    const files = {
      "map.json": '{"delimiter": ";", "columns": {"who": "hitter"}}',
      "odd.map.json": '{"columns": {"name": "hitter"}}',
      "mapped.csv": "who;input;outcome\nAna;tee;miss\n",
      "odd.csv": "name,input,outcome\nBo,tee,miss\n",
      "own.csv": "hitter,input,outcome\nCy,tee,miss\n",
    };
    await inFolder(files, async (dir) => {
      const { swings, problems } = await openLibrary(dir);
      expect(problems).toEqual([]);
      expect(swings.map((s) => s.hitter)).toEqual(["Ana", "Bo", "Cy"]);
    });
  });

  it("goes on without a file that can't be used, and says which", async () => {
    const files = {
      "a.csv": "<html>",
      "b.csv": `${head}\nmay,Ana,tee,80,10\n`,
      "thresholds.json": "{",
      "map.json": "[]",
    };
    await inFolder(files, async (dir) => {
      const { swings, problems, thresholds } = await openLibrary(dir);
      expect(swings).toHaveLength(1);
      expect(thresholds).toBeNull();
      expect(problems.map((p) => [p.file, p.kind])).toEqual([
        ["map.json", "refused"],
        ["a.csv", "refused"],
        ["thresholds.json", "refused"],
      ]);
      expect(problemSentence(problems[1]!)).toBe("a.csv: the file is a web page or XML, not a CSV.");
    });
  });

  it("warns of sessions and hitters its tables don't know, where it has such tables", async () => {
    const swings = `${head}\nmay,Ana,tee,80,10\njune,Bo,tee,80,10\njune,Bo,tee,81,10\n`;
    await inFolder({ "a.csv": swings, "sessions.csv": "session\nmay\n" }, async (dir) => {
      const { problems } = await openLibrary(dir);
      expect(problems.map(problemSentence)).toEqual([
        'sessions.csv: session "june" is not in it, and 2 swings name it.',
      ]);
    });
  });

  it("that is missing or a file says so", async () => {
    await inFolder({ "a.csv": "x" }, async (dir) => {
      await expect(openLibrary(`${dir}/none`)).rejects.toMatchObject({ fault: "call" });
      await expect(openLibrary(`${dir}/a.csv`)).rejects.toThrow(/is a file/);
    });
  });

  it("may be empty", async () => {
    await inFolder({}, async (dir) => {
      expect(await openLibrary(dir)).toMatchObject({ swings: [], files: [], problems: [], thresholds: null });
    });
  });
});
