import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readColumnMap } from "../../src/swing/maps.ts";
import { inFolder } from "../swing/support.ts";
import { run } from "./run.ts";

const head = "swing_id,session,hitter,bats,input,exit_velocity_mph,launch_angle_deg";
const strange = "Who;Ball speed (km/h);Launch angle;From\nAna;120,5;12;tee\nAna;118;-3,5;front toss\n";

describe("add", () => {
  it("takes swings once, and says what became of each file", async () => {
    await inFolder({ "a.csv": `${head}\n1,may,Ana,R,tee,80,10\n2,may,Ana,R,tee,x,10\n` }, async (dir) => {
      const library = join(dir, "library");
      const first = await run("add", join(dir, "a.csv"), "--library", library);
      expect(first.status).toBe(1);
      expect(first.err).toContain('row 3: exit_velocity_mph "x" is not a number');
      expect(first.out).toContain("2 rows, 1 new, 1 refused.\nSessions: may.\n");
      expect(first.out).toContain("session=may: mend them there, and add that file.");
      const again = await run("add", join(dir, "a.csv"), "--library", library, "--json");
      expect(JSON.parse(again.out)).toMatchObject({ files: [{ read: 2, new: 0, copies: 1, refused: 1 }] });
    });
  });

  it("goes on to the next file when one is no use", async () => {
    await inFolder({ "a.csv": "<html>", "b.csv": `${head}\n1,may,Ana,R,tee,80,10\n` }, async (dir) => {
      const { status, out, err } = await run(
        "add",
        `${dir}/a.csv`,
        `${dir}/none.csv`,
        `${dir}/b.csv`,
        "--library",
        `${dir}/l`,
      );
      expect(status).toBe(2);
      expect(err).toContain("a.csv is a web page");
      expect(err).toContain("none.csv does not exist");
      expect(out).toContain("1 row, 1 new.");
    });
  });

  it("stops at strange headings with a guess, and says what to pass", async () => {
    await inFolder({ "a.csv": strange }, async (dir) => {
      const { status, out, err } = await run("add", `${dir}/a.csv`, "--library", `${dir}/l`);
      expect([status, out]).toEqual([2, ""]);
      expect(err).toMatch(/Ball speed \(km\/h\) +exit_velocity_mph +km\/h +120,5, 118 +74\.88, 73\.32\n/);
      expect(err).toMatch(/From +input +tee, front toss +tee, flip\n/);
      expect(err).toContain("was not added: pass --guess to read it as shown, or --map FILE");
      expect(await readdir(dir)).toEqual(["a.csv"]);
      const guess = /As a column map:\n(\{[\s\S]*\n\})\n/.exec(err)![1]!;
      await writeFile(`${dir}/m.json`, guess);
      expect(
        (await run("add", `${dir}/a.csv`, "--library", `${dir}/l`, "--map", `${dir}/m.json`)).status,
      ).toBe(0);
    });
  });

  it("keeps a guess that was agreed to, and uses it next time", async () => {
    await inFolder(
      {
        "a.csv": strange,
        "b.csv": strange.replace("120,5", "121,5"),
        "c.csv": "Name,EV,LA,Mode\nBo,90,1,live\n",
      },
      async (dir) => {
        const first = await run("add", `${dir}/a.csv`, "--library", `${dir}/l`, "--guess");
        expect([first.status, first.out]).toEqual([0, expect.stringContaining("is kept as")]);
        expect((await readColumnMap(`${dir}/l/map.json`)).decimal).toBe(",");
        expect((await run("add", `${dir}/b.csv`, "--library", `${dir}/l`)).out).toContain(
          "1 new, 1 there already",
        );
        await run("add", `${dir}/c.csv`, "--library", `${dir}/l`, "--guess");
        expect(await readdir(`${dir}/l`)).toEqual(["map-2.json", "map.json", "swings"]);
        expect((await run("add", `${dir}/c.csv`, "--library", `${dir}/l`)).out).toContain("1 there already");
      },
    );
  });

  it("says how to fill what no column holds", async () => {
    await inFolder({ "a.csv": "Name,EV,LA\nAna,80,10\n" }, async (dir) => {
      const { status, err } = await run("add", `${dir}/a.csv`, "--library", `${dir}/l`);
      expect(status).toBe(2);
      expect(err).toContain("no column seems to hold input; pass --fill input=tee (or flip, live)");
      const filled = await run(
        "add",
        `${dir}/a.csv`,
        "--library",
        `${dir}/l`,
        "--fill",
        "input=tee",
        "--session",
        "may",
        "--guess",
      );
      expect(filled.out).toContain("1 new.\nSessions: may.");
    });
  });

  it.each([["input=tea"], ["speed=3"], ["input"]])("refuses --fill %s", async (fill) => {
    const { status, err } = await run("add", "a.csv", "--library", "/tmp/none", "--fill", fill);
    expect(status).toBe(2);
    expect(err).toMatch(/input "tea" is not one of|no such field|takes a field and its value/);
  });

  it("doesn't take values that look wrong without a word, and takes nothing of the file", async () => {
    const rows = Array.from({ length: 30 }, (_, i) => `${i},may,Ana,R,tee,${100 + i},${i}`);
    await inFolder({ "a.csv": `${head}\n${rows.join("\n")}\n` }, async (dir) => {
      const { status, err } = await run("add", `${dir}/a.csv`, "--library", `${dir}/l`);
      expect(status).toBe(1);
      expect(err).toContain("exit_velocity_mph looks like km/h");
      expect(err).toContain("or --anyway to take it as it is");
      expect((await run("check", "--library", `${dir}/l`)).out).toContain("0 swings");
      expect((await run("add", `${dir}/a.csv`, "--library", `${dir}/l`, "--anyway")).out).toContain(
        "30 new.",
      );
    });
  });

  it("holds speeds against the level of the library's hitters", async () => {
    const rows = Array.from({ length: 30 }, (_, i) => `${i},may,Ana,R,tee,${70 + i},${i}`);
    const files = { "a.csv": `${head}\n${rows.join("\n")}\n`, "hitters.csv": "hitter,level\nAna,under 12\n" };
    await inFolder(files, async (dir) => {
      const { status, err } = await run("add", `${dir}/a.csv`, "--library", dir);
      expect([status, err]).toEqual([1, expect.stringContaining("the library's hitters reach about 66")]);
    });
  });
});

describe("check --library", () => {
  it("tells corrections field by field, and what waits to be mended", async () => {
    const files = {
      "a.csv": `${head}\n1,may,Ana,R,tee,80,10\n2,may,Ana,R,tee,x,10\n`,
      "b.csv": `${head}\n1,may,Ana,L,tee,81.5,10\n`,
    };
    await inFolder(files, async (dir) => {
      await run("add", `${dir}/a.csv`, `${dir}/b.csv`, "--library", `${dir}/l`);
      const { status, out } = await run("check", "--library", `${dir}/l`);
      expect(status).toBe(1);
      expect(out).toContain("1 swing of 1 hitter in 1 session.");
      expect(out).toMatch(
        /may: 1 value was replaced by newer ones\.\n {2}\d{4}-\d\d-\d\d Ana, "1": bats R → L, exit_velocity_mph 80 → 81\.5\n/,
      );
      expect(out).toContain(
        "swings/session=may/swings.parquet: 1 row was refused, and waits beside it to be mended",
      );
      const json = JSON.parse((await run("check", "--library", `${dir}/l`, "--json")).out) as {
        sessions: unknown[];
      };
      expect(json.sessions).toMatchObject([
        { session: "may", swings: 1, refused_waiting: 1, corrections: [{ swing_id: "1" }] },
      ]);
    });
  });
});

describe("forget", () => {
  it("removes a hitter, and says what else there is to know", async () => {
    await inFolder({ "a.csv": `${head}\n1,may,Ana,R,tee,80,10\n2,may,Bo,R,tee,80,10\n` }, async (dir) => {
      await run("add", `${dir}/a.csv`, "--library", `${dir}/l`);
      const { status, out } = await run("forget", "--hitter", "ana", "--library", `${dir}/l`);
      expect([status, out]).toEqual([0, expect.stringContaining('Removed of "ana": 1 swing')]);
      expect(await readFile(`${dir}/l/swings/session=may/swings.parquet`, "latin1")).not.toContain("Ana");
      const again = await run("forget", "--hitter", "Ana", "--library", `${dir}/l`);
      expect([again.status, again.err]).toEqual([1, expect.stringContaining("names the hitter")]);
    });
  });
});
