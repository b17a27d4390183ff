/** What was found of hitters whose truth is known, and what the page says of it. */
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import published from "../../data/claims.json" with { type: "json" };
import { lines } from "../../data/claims.ts";
import type { Claims } from "../../data/claims/line.ts";
import { tableRows } from "../../data/claims/table.ts";
import { claimsNotes } from "../../notebooks/components/coverageSay.ts";

const kept = published as unknown as Claims;

describe("the kept figures", () => {
  it("are those of lines in the code, at every setting of theirs; a line that is to be run anew is left out", () => {
    const known = new Map(lines.map((l) => [l.name, l.settings.map((s) => [s.swings, s.sessions, s.days])]));
    expect(kept.lines.length).toBeGreaterThan(5);
    for (const { name, settings } of kept.lines) expect(settings, name).toEqual(known.get(name));
    for (const { name, settings, found } of kept.lines) {
      expect(found.length, name).toBeGreaterThan(0);
      for (const { what, count, n } of found) {
        expect(count, what).toHaveLength(settings.length);
        expect(n, what).toHaveLength(settings.length);
        count.forEach((c, i) => expect(c, what).toBeLessThanOrEqual(n[i]!));
        expect(
          n.some((all) => all > 0),
          what,
        ).toBe(true);
      }
    }
  });
});

describe("the developers' page", () => {
  it("has the figures as they are kept", async () => {
    const page = await readFile(new URL("../../DEVELOPERS.md", import.meta.url), "utf8");
    const cells = (line: string): string[] =>
      line
        .split("|")
        .slice(1, -1)
        .map((cell) => cell.trim());
    const found = page.split("\n").flatMap((line) => (line.startsWith("|") ? [cells(line)] : []));
    const rows = tableRows(kept);
    expect(rows.length).toBeGreaterThan(15);
    for (const row of rows) expect(found, row[0]).toContainEqual(row);
  });

  it("leaves out what wasn't run, and judges by libraries", () => {
    expect(tableRows({ about: "", lines: [] })).toEqual([]);
    const line = (count: number): Claims => ({
      about: "",
      lines: [
        {
          name: "list",
          about: "",
          runs: 2,
          settings: [[12, 2, "none"]],
          found: [{ what: "carry: a clear pair", wanted: { most: 0.1 }, count: [count], n: [100] }],
        },
      ],
    });
    expect(tableRows(line(10))[0]!.slice(1)).toEqual(["2", "10.0 (100)", "", "", "≤ 10", "yes"]);
    expect(tableRows(line(40))[0]!.at(-1)).toBe("within chance");
    expect(tableRows(line(100))[0]!.at(-1)).toBe("no");
  });
});

describe("the page", () => {
  it("says each figure once, with how many stand behind it", () => {
    const notes = claimsNotes(kept);
    expect(notes.length).toBeGreaterThan(3);
    for (const note of notes) expect(note).toMatch(/^[A-Z].*\d%.*\(\d[\d,]*( \w+)?\)\./);
    expect(notes.join(" ")).not.toMatch(/NaN|undefined|null/);
  });

  it("adds settings up, and says how many miss what is asked", () => {
    const of = (count: number[]): Claims => ({
      about: "",
      lines: [
        {
          name: "list",
          about: "",
          runs: 100,
          settings: count.map(() => [12, 2, "none"]),
          found: [
            { what: "power_kept: a clear pair", wanted: { most: 0.1 }, count, n: count.map(() => 100) },
          ],
        },
      ],
    });
    const said = (counts: number[]): string => claimsNotes(of(counts)).join();
    expect(said([2, 30])).toMatch(
      /16\.0% have a pair that is called clear \(200 lists\)\. Asked: 10% at most\. That is not reached\.$/,
    );
    expect(said([2, 3, 25])).toMatch(/1 of 3 settings misses that/);
    expect(said([2])).toMatch(/Asked: 10% at most\.$/);
    expect(claimsNotes({ about: "", lines: [] })).toEqual([]);
  });
});
