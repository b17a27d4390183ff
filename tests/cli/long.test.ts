/** Files as long as a disk holds: what grows with a file's rows goes through every command. */
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { inFolder } from "../reading/support.ts";
import { run } from "./run.ts";

const head = "session,hitter,input,exit_velocity_mph,launch_angle_deg";
const good = "may,Ana,tee,80,10";
const many = 150_000;

describe("a long file", { timeout: 120_000 }, () => {
  it("may be blank lines for the most part, before its headings and after", async () => {
    const text = `${"\n".repeat(many)}${head}\n${good}\n${"\n".repeat(many)}`;
    await inFolder({ "a.csv": text }, async (dir) => {
      const checked = await run("check", join(dir, "a.csv"));
      expect(checked.status).toBe(0);
      const added = await run("add", join(dir, "a.csv"), "--library", join(dir, "library"), "--json");
      expect(JSON.parse(added.out)).toMatchObject({ files: [{ read: 1, new: 1, refused: 0 }] });
    });
  });

  it("may open a quotation mark in every line", async () => {
    await inFolder({ "a.csv": `${head}\n${good}\n${'"a\n'.repeat(many)}` }, async (dir) => {
      for (const args of [["check"], ["add", "--library", join(dir, "library")]]) {
        const { status, err, out } = await run(...args, join(dir, "a.csv"));
        expect(status).toBe(1);
        expect(err + out).toMatch(/quotation mark/);
      }
    });
  });

  it("may have every row refused, and each of them is kept", async () => {
    const rows = Array.from({ length: many }, (_, i) => `may,Ana,tee,${i} fast,10\n`).join("");
    await inFolder({ "a.csv": `${head}\n${good}\n${rows}` }, async (dir) => {
      const library = join(dir, "library");
      const added = await run("add", join(dir, "a.csv"), "--library", library, "--json");
      expect(added.status).toBe(1);
      expect(JSON.parse(added.out)).toMatchObject({ files: [{ read: many + 1, new: 1, refused: many }] });
      const enriched = await run("enrich", join(dir, "a.csv"), "-o", join(dir, "e.csv"), "--json");
      expect(JSON.parse(enriched.out)).toMatchObject({ swings: 1, refused: many });
    });
  });

  it("may name more hitters than hitters.csv has", async () => {
    const rows = Array.from({ length: many }, (_, i) => `may,H${i},tee,80,10\n`).join("");
    const files = { "a.csv": `${head}\n${rows}`, "hitters.csv": "hitter\nAna\n" };
    await inFolder(files, async (dir) => {
      const { openLibrary } = await import("../../src/library/library.ts");
      const { swings, problems } = await openLibrary(dir);
      expect([swings.length, problems.length]).toEqual([many, many]);
    });
  });

  it("is refused in one short sentence where no table is so wide, and no line so long", async () => {
    const files = {
      "line.csv": `${"x".repeat(10_000_000)}\n`,
      "cells.csv": `${"x,".repeat(900_000)}x\n`,
      "wide.csv": `${head}${",c".repeat(200_000)}\n${good}${",".repeat(200_000)}\n`,
    };
    await inFolder(files, async (dir) => {
      for (const name of Object.keys(files)) {
        const { status, out, err } = await run("add", join(dir, name), "--library", join(dir, "library"));
        expect([status, out], name).toEqual([1, ""]);
        expect(err.length, name).toBeLessThan(400);
        expect(err).toMatch(/no row of a table|no table is so wide/);
      }
    });
  });

  it("is no text with a NUL character in it, however far down", async () => {
    const text = `${head}\n${`${good}\n`.repeat(400)}may,A\u0000na,tee,80,10\n`;
    await inFolder({ "a.csv": text }, async (dir) => {
      const { status, err } = await run("check", join(dir, "a.csv"));
      expect(status).toBe(1);
      expect(err).toContain("a.csv is not text: line 402 has a NUL character.");
    });
  });
});
