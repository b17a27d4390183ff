import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { initialsOf } from "../../src/library/initials.ts";
import { run } from "../cli/run.ts";
import { inFolder } from "../reading/support.ts";

describe("initials", () => {
  it("differ for different hitters, and don't depend on the order the names come in", () => {
    const names = ["Ana Rivera", "Al Ross", "Ana  Rivera", "Bo", "Øyvind Ås", "李 明", "--"];
    const found = initialsOf(names);
    expect(new Set(found.values()).size).toBe(names.length);
    expect(found.get("Øyvind Ås")).toBe("Ø. Å.");
    expect(new Map([...initialsOf([...names].reverse())].sort())).toEqual(new Map([...found].sort()));
  });
});

describe("report --initials", () => {
  it("has no name in any file, file name or answer", async () => {
    await inFolder({}, async (dir) => {
      const rows = Array.from(
        { length: 30 },
        (_, i) => `Ana Rivera's day,Ana Rivera,R,live,Bo Lind,${70 + i},${i},with Bo Lind`,
      );
      await writeFile(
        join(dir, "ana-rivera.csv"),
        `session,hitter,bats,input,pitcher,exit_velocity_mph,launch_angle_deg,note\n${rows.join("\n")}\nx,Bo Lind,L,tee,,80,10,\n`,
      );
      await writeFile(join(dir, "hitters.csv"), "hitter,level\nAna Rivera,high school\nBo Lind,college\n");
      const out = join(dir, "out");
      const { status, out: said } = await run(
        "report",
        "--library",
        dir,
        "--initials",
        "--hitter",
        "ana rivera",
        "-o",
        out,
      );
      expect([status, said]).toEqual([0, "report-a-r.html  (A. R.)\nindex.html\n"]);
      await run("report", "--library", dir, "--initials", "-o", out);
      const files = await readdir(out);
      expect(files.sort()).toEqual(["index.html", "report-a-r.html", "report-b-l.html"]);
      for (const file of files) {
        const text = await readFile(join(out, file), "utf8");
        expect(text).toContain(file === "report-b-l.html" ? "B. L." : "A. R.");
        expect(text).not.toMatch(/rivera|lind\b/i);
      }
    });
  });
});
