import { existsSync } from "node:fs";
import { appendFile, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readColumnMap } from "../../src/library/files.ts";
import { openLibrary } from "../../src/library/library.ts";
import { inFolder } from "../reading/support.ts";
import { run, runAtTerminal } from "./run.ts";

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
      expect(first.out).toContain("session=may: correct them there, and add that file.");
      const again = await run("add", join(dir, "a.csv"), "--library", library, "--json");
      expect(JSON.parse(again.out)).toMatchObject({ files: [{ read: 2, new: 0, copies: 1, refused: 1 }] });
    });
  });

  it("says how many rows that no time tells apart count once, as check and the report do", async () => {
    const bare = "session,hitter,input,time,exit_velocity_mph,launch_angle_deg";
    const rows = [
      ...Array<string>(3).fill("Cage week 38,Ana,tee,,80,10"),
      ...Array<string>(2).fill("June,Ana,tee,,80,10"),
      // A time tells: this is one ball, exported twice.
      ...Array<string>(2).fill("June,Ana,tee,2026-06-01T10:00:01,80,10"),
    ];
    await inFolder({ "a.csv": `${bare}\n${rows.join("\n")}\n` }, async (dir) => {
      const said = `3 rows without a time are exact copies of others, and are counted once: balls of their own need a time or a swing_id.`;
      const library = join(dir, "library");
      expect((await run("check", join(dir, "a.csv"))).out).toContain(`\n${said}\n`);
      const add = () => run("add", join(dir, "a.csv"), "--library", library);
      expect((await add()).out).toContain(`7 rows, 3 new, 1 there already, 3 copies.\n${said}\n`);
      expect((await add()).out).toContain(`7 rows, 0 new, 4 there already, 3 copies.\n${said}\n`);
      const { files } = await openLibrary(library);
      expect(files.map(({ file, rows: n, untimed }) => [file, n, untimed])).toEqual([
        ["swings/session=Cage week 38/swings.parquet", 1, 2],
        ["swings/session=June/swings.parquet", 2, 1],
      ]);
      await run("report", "--library", library, "-o", join(dir, "out"));
      expect(await readFile(join(dir, "out", "report-ana.html"), "utf8")).toContain(said);
      // A folder of CSV files says the same.
      await run("report", "--library", dir, "-o", join(dir, "out"));
      expect(await readFile(join(dir, "out", "report-ana.html"), "utf8")).toContain(said);
      const enriched = await run("enrich", join(dir, "a.csv"), "-o", join(dir, "e.csv"));
      expect(enriched.out).toContain(`\n${said}\n1 row is an exact copy of one taken`);
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

  it("offers no guess under which most rows are refused, keeps none, and takes nothing", async () => {
    const sheet = `Who,Kind,Speed (mph),Vertical,Note\n${Array.from({ length: 200 }, (_, i) => `Ana,${i < 5 ? "tee" : "cage 3"},${60 + (i % 30)},${i % 40},${i}\n`).join("")}`;
    await inFolder({ "a.csv": sheet.replace("Kind", "Source") }, async (dir) => {
      const call = ["add", `${dir}/a.csv`, "--library", `${dir}/l`];
      for (const more of [[], ["--guess"]]) {
        const { status, err } = await run(...call, ...more);
        expect(status).toBe(1);
        expect(err).toContain(
          "the guess is no good. So read, 195 of 200 rows are refused, most of them as input is not one of tee, flip, live.",
        );
        expect(err).not.toContain("pass --guess");
      }
      const asked = await runAtTerminal(["\n", "y\n"], ...call);
      expect([asked.status, asked.questions]).toEqual([
        1,
        ['What does "cage 3" in "Source" mean (195 rows)?'],
      ]);
      expect(existsSync(`${dir}/l/map.json`)).toBe(false);
      const { out } = await run("check", `${dir}/a.csv`);
      expect(out).toContain("A guess at what they mean, which `add` would not use as most rows are refused:");
    });
  });

  it("says before asking how many rows a guess has refused", async () => {
    const rows = Array.from({ length: 20 }, (_, i) => `Ana,${i < 4 ? "cage" : "tee"},${60 + i},${i}\n`);
    await inFolder({ "a.csv": `Who,Source,Speed (mph),Vertical\n${rows.join("")}` }, async (dir) => {
      const { err, questions } = await runAtTerminal(
        ["\n", "y\n"],
        "add",
        `${dir}/a.csv`,
        "--library",
        `${dir}/l`,
      );
      expect(questions).toEqual(['What does "cage" in "Source" mean (4 rows)?', "Is that right?"]);
      expect(err).toContain("So read, 4 of 20 rows are refused, most of them as input is not one of");
      expect(existsSync(`${dir}/l/map.json`)).toBe(true);
    });
  });

  it("asks what only a coach knows, and takes the answers into the map", async () => {
    const rows = Array.from(
      { length: 20 },
      (_, i) => `Ana,${i < 4 ? "cage" : "tee"},${60 + i},${i},${i - 9}\n`,
    );
    await inFolder({ "a.csv": `Who,Source,Speed (mph),Vertical,Dir\n${rows.join("")}` }, async (dir) => {
      const call = ["add", `${dir}/a.csv`, "--library", `${dir}/l`];
      const { status, questions } = await runAtTerminal(["3\n", "2\n", "y\n"], ...call);
      expect([status, questions.length]).toEqual([0, 3]);
      expect((await readColumnMap(`${dir}/l/map.json`)).columns).toMatchObject({
        Source: { field: "input", words: { cage: "live" } },
        Dir: { field: "spray_angle_deg", sign: -1 },
      });
      const told = await run("add", `${dir}/a.csv`, "--library", `${dir}/m`, "--guess");
      expect(told.err).toContain('Pass --answer "sign:Dir=right" (or left, line).');
      expect(told.err).toContain('4 rows: input "cage" is not one of tee, flip, live (rows 2 to 5).');
      const answers = ["--answer", "sign:Dir=right", "--answer", "word:Source:cage=flip"];
      expect(
        (await run("add", `${dir}/a.csv`, "--library", `${dir}/n`, "--guess", ...answers)).out,
      ).toContain("20 new.");
    });
  });

  it("takes rows off the list of the refused once they are taken under another map", async () => {
    const rows = Array.from(
      { length: 10 },
      (_, i) => `Ana,${i < 7 ? "cage" : i < 8 ? "??" : "tee"},${60 + i},${i}\n`,
    );
    const bad = {
      columns: { Who: "hitter", Source: "input", Speed: "exit_velocity_mph", Up: "launch_angle_deg" },
    };
    const good = { columns: { ...bad.columns, Source: { field: "input", words: { cage: "live" } } } };
    const files = {
      "a.csv": `Who,Source,Speed,Up\n${rows.join("")}`,
      "bad.json": JSON.stringify(bad),
      "good.json": JSON.stringify(good),
    };
    await inFolder(files, async (dir) => {
      const add = (map: string): ReturnType<typeof run> =>
        run("add", `${dir}/a.csv`, "--library", `${dir}/l`, "--map", `${dir}/${map}.json`);
      expect((await add("bad")).out).toContain("10 rows, 2 new, 8 refused");
      expect((await add("good")).out).toContain("10 rows, 7 new, 2 there already, 1 refused");
      const waiting = async (): Promise<string[]> =>
        (await openLibrary(`${dir}/l`)).problems.map((p) => p.reason).filter((r) => /refused/.test(r));
      // The row that neither map takes waits under the newer one alone.
      expect((await waiting()).join()).toMatch(/^1 row was refused/);
      const mended = {
        columns: { ...bad.columns, Source: { field: "input", words: { cage: "live", "??": "flip" } } },
      };
      await writeFile(`${dir}/good.json`, JSON.stringify(mended));
      expect((await add("good")).out).toContain("10 rows, 1 new, 9 there already.");
      expect(await waiting()).toEqual([]);
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

  it("shows what a left-out column holds, and the map so far; of private columns nothing", async () => {
    const sheet = "Name,EV,Tilt of the ball,Born,Mode\nAna,80,12.5,2012-03-04,tee\n";
    await inFolder({ "a.csv": sheet }, async (dir) => {
      const { status, err } = await run("add", `${dir}/a.csv`, "--library", `${dir}/l`);
      expect(status).toBe(2);
      expect(err).toMatch(/Tilt of the ball +- +left out: 12\.5\n/);
      expect(err).toMatch(/Born +- +birth dates and contacts are never stored\n/);
      expect(err).not.toContain("2012");
      const map = JSON.parse(err.slice(err.indexOf("{"), err.lastIndexOf("}") + 1)) as { columns: object };
      expect(map.columns).toEqual({
        Name: "hitter",
        EV: "exit_velocity_mph",
        "Tilt of the ball": null,
        Born: null,
        Mode: "input",
      });
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

/** A sheet as bytes of ISO 8859-1, which Windows-1252 is where letters are concerned. */
const latin1 = (text: string): Uint8Array => Buffer.from(text, "latin1");

describe("add of messy exports", () => {
  const hall = (speed: string): string =>
    `Bericht;;;;\r\nHalle Nord;;;;\r\n;;;;\r\nPlayer;Date;Exit speed (km/h);Launch angle (°);Feed\r\n"Müller, Jörg";12.05.2026;${speed};23,2;tee\r\n"Peña, Ana";13.05.2026;--;4,5;soft toss\r\n`;

  it("reads semicolons, decimal commas and Windows-1252 under titles, once the encoding is named", async () => {
    const files = { "a.csv": latin1(hall("144,5")), "b.csv": latin1(hall("145,5")), "c.csv": hall("146,5") };
    await inFolder(files, async (dir) => {
      const add = (name: string, ...more: string[]) =>
        run("add", `${dir}/${name}`, "--library", `${dir}/l`, "--session", name, ...more);
      expect((await add("a.csv", "--guess")).err).toContain("--encoding windows-1252");
      expect((await add("a.csv", "--encoding", "klingon")).err).toBe(
        "--encoding klingon: there is no such encoding.\n",
      );
      const first = await add("a.csv", "--guess", "--encoding", "windows-1252");
      expect([first.status, first.err]).toEqual([0, expect.stringContaining("Müller, Jörg, Peña, Ana")]);
      expect(await readColumnMap(`${dir}/l/map.json`)).toMatchObject({
        encoding: "windows-1252",
        decimal: ",",
      });
      // The next one needs no word; one that is Unicode after all is read as that.
      expect((await add("b.csv")).out).toContain("2 new.");
      expect((await add("c.csv")).out).toContain("2 new.");
      const { swings } = await openLibrary(`${dir}/l`);
      expect(new Set(swings.map((swing) => swing.hitter))).toEqual(new Set(["Jörg Müller", "Ana Peña"]));
      expect(swings.map((swing) => swing.time)).toContain("2026-05-12");
      expect(swings.filter((swing) => swing.exit_velocity_mph === null)).toHaveLength(3);
    });
  });

  it("reads tabs in UTF-16 with a row of units, and thousands", async () => {
    const text =
      "Batter\tMode\tBall speed\tElevation\tSpin\n\t\tkm/h\tdeg\trpm\nAna\tBP\t144.5\t12.5\t2,150\nBo\tBP\t140.1\t8.5\t980\n";
    const bytes = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(text, "utf16le")]);
    await inFolder({ "a.txt": bytes }, async (dir) => {
      expect((await run("add", `${dir}/a.txt`, "--library", `${dir}/l`, "--guess")).status).toBe(0);
      const { swings } = await openLibrary(`${dir}/l`);
      expect(swings.map((s) => [s.exit_velocity_mph!.toFixed(2), s.spin_rpm])).toEqual([
        ["89.79", 2150],
        ["87.05", 980],
      ]);
    });
  });

  it("reads cells that a spreadsheet was kept from changing, and units in cells", async () => {
    const text = `Name,Swing No,When,EV,LA,Mode\n="Ana","=""0012""",05/13/2026 9:00:11 AM,80.5 mph,12°,Machine\n"=""Peña, Bo""",="0013",05/14/2026 9:00:11 AM,--,-3°,Machine\n`;
    await inFolder({ "a.csv": text }, async (dir) => {
      expect((await run("add", `${dir}/a.csv`, "--library", `${dir}/l`, "--guess")).status).toBe(0);
      const { swings } = await openLibrary(`${dir}/l`);
      expect(swings.map((s) => [s.swing_id, s.hitter, s.time, s.exit_velocity_mph])).toEqual([
        ["0012", "Ana", "2026-05-13T09:00:11", 80.5],
        ["0013", "Peña, Bo", "2026-05-14T09:00:11", null],
      ]);
    });
  });
});

describe("add at a terminal", () => {
  const asked = async (answers: (string | null)[], files: Record<string, string>, ...more: string[]) =>
    inFolder(files, async (dir) => {
      const paths = Object.keys(files).map((name) => join(dir, name));
      const { questions, ...ended } = await runAtTerminal(
        answers,
        "add",
        ...paths,
        "--library",
        `${dir}/l`,
        ...more,
      );
      const kept = await readdir(`${dir}/l`, { recursive: true }).catch((): string[] => []);
      return { ...ended, questions, kept: kept.filter((name) => /\.(parquet|json)$/.test(name)).sort() };
    });
  const taken = ["map.json", "swings/session=__HIVE_DEFAULT_PARTITION__/swings.parquet"];
  const fast = `${head}\n${Array.from({ length: 30 }, (_, i) => `${i},may,Ana,R,tee,${100 + i},${i}`).join("\n")}\n`;

  it.each([["y\n"], ["Y\n"], [" yes \n"], ["y\r"]])(
    "takes %j for a yes, reads as it guessed, and keeps the map",
    async (key) => {
      const { status, out, err, questions, kept } = await asked([key], { "a.csv": strange });
      expect([status, questions, kept]).toEqual([0, ["Is that right?"], taken]);
      expect(out).toContain("2 rows, 2 new.");
      expect(err).toMatch(
        /headings of its own[\s\S]+Ball speed \(km\/h\) +exit_velocity_mph +km\/h[\s\S]+Is that right/,
      );
    },
  );

  it.each([["n\n"], ["\n"], ["yesterday\n"], ["\u0004"], [null]])(
    "takes %j for a no, and leaves a map to put right and no library",
    async (key) => {
      const { status, out, err, questions, kept } = await asked([key], { "a.csv": strange });
      expect([status, out, questions, kept]).toEqual([2, "", ["Is that right?"], []]);
      expect(err).toMatch(/As a column map:\n\{[\s\S]+"unit": "km\/h"[\s\S]+pass it with --map FILE\.\n$/);
    },
  );

  it("asks of each file alone: a no keeps out its own", async () => {
    const files = {
      "a.csv": strange,
      "b.csv": "Name,EV,LA,Mode\nBo,90,1,live\n",
      "c.csv": `${head}\n1,may,Cy,R,tee,80,1\n`,
    };
    const { status, out, questions, kept } = await asked(["n\n", "y\n"], files);
    expect([status, questions.length]).toEqual([2, 2]);
    expect(out).not.toContain("a.csv");
    expect(out).toMatch(/b\.csv: 1 row, 1 new\.[\s\S]+c\.csv: 1 row, 1 new\./);
    expect(kept).toEqual([...taken, "swings/session=may/swings.parquet"]);
  });

  it("stops for good at Ctrl+C, and keeps what was taken before", async () => {
    const files = {
      "a.csv": `${head}\n1,may,Cy,R,tee,80,1\n`,
      "b.csv": strange,
      "c.csv": `${head}\n1,june,Cy,R,tee,80,1\n`,
    };
    const { status, err, questions, kept } = await asked(["\u0003"], files);
    expect([status, questions.length, kept]).toEqual([130, 1, ["swings/session=may/swings.parquet"]]);
    expect(err.endsWith("\nStopped.\n")).toBe(true);
  });

  it("asks whether values that look wrong are right: a yes takes them, a no nothing", async () => {
    const right = await asked(["y\n"], { "a.csv": fast });
    expect([right.status, right.questions]).toEqual([0, ["Take the values as they are?"]]);
    expect([right.out, right.kept]).toEqual([
      expect.stringContaining("30 new."),
      ["swings/session=may/swings.parquet"],
    ]);
    for (const answer of ["n\n", null]) {
      const wrong = await asked([answer], { "a.csv": fast });
      expect([wrong.status, wrong.out, wrong.kept]).toEqual([1, "", []]);
      expect(wrong.err).toMatch(/looks like km\/h[\s\S]+was not added: pass --map FILE/);
    }
  });

  it("gives the library back at Ctrl+C", async () => {
    await inFolder({ "a.csv": fast }, async (dir) => {
      const call = ["add", `${dir}/a.csv`, "--library", `${dir}/l`];
      expect((await runAtTerminal(["\u0003"], ...call)).status).toBe(130);
      expect((await run(...call, "--anyway")).out).toContain("30 new.");
    });
  });

  it("asks both, one after the other", async () => {
    const rows = Array.from({ length: 30 }, (_, i) => `Ana,${100 + i},${i},tee`).join("\n");
    const { status, questions, kept } = await asked(["y\n", "y\n"], {
      "a.csv": `Name,EV (mph),LA,Mode\n${rows}\n`,
    });
    expect([status, questions, kept]).toEqual([0, ["Is that right?", "Take the values as they are?"], taken]);
  });

  it("asks nothing where the call says it already", async () => {
    const { status, questions } = await asked([], { "a.csv": strange }, "--guess");
    expect([status, questions]).toEqual([0, []]);
    expect((await asked([], { "a.csv": fast }, "--anyway")).questions).toEqual([]);
  });
});

describe("check --library", () => {
  it("tells corrections field by field, and what waits to be corrected", async () => {
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
        "swings/session=may/swings.parquet: 1 row was refused, and waits beside it to be corrected",
      );
      const json = JSON.parse((await run("check", "--library", `${dir}/l`, "--json")).out) as {
        sessions: unknown[];
      };
      expect(json.sessions).toMatchObject([
        { session: "may", swings: 1, refused_waiting: 1, corrections: [{ swing_id: "1" }] },
      ]);
    });
  });

  it("keeps refused rows in a folder that reads as their session, and names the session in a report's foot", async () => {
    const files = { "a.csv": `${head}\n1,Übung Woche 38,Ana,R,tee,80,10\n2,Übung Woche 38,Ana,R,tee,x,10\n` };
    await inFolder(files, async (dir) => {
      const folder = "swings/session=Übung Woche 38";
      expect((await run("add", `${dir}/a.csv`, "--library", `${dir}/l`)).out).toContain(
        `Refused rows of the session "Übung Woche 38" wait in ${dir}/l/${folder}: correct them there`,
      );
      expect(await readFile(`${dir}/l/${folder}/refused.csv`, "utf8")).toContain("Ana,R,tee,x,10");
      expect((await run("check", "--library", `${dir}/l`)).out).toContain(
        `\n${folder}/swings.parquet: 1 row was refused, and waits beside it`,
      );
      await run("report", "--library", `${dir}/l`, "-o", `${dir}/out`);
      const report = await readFile(`${dir}/out/report-ana.html`, "utf8");
      expect(report).toContain("<bdi>session Übung Woche 38</bdi>");
      await appendFile(`${dir}/l/${folder}/swings.parquet`, "x");
      const told = (await run("gap", "--library", `${dir}/l`)).err;
      expect(told).toContain('the session "Übung Woche 38"');
    });
  });

  it("names a session whose folder can't read as it does, where its rows wait and in a report's foot", async () => {
    const files = { "a.csv": `${head}\n1,Cage 38/9,Ana,R,tee,80,10\n2,Cage 38/9,Ana,R,tee,x,10\n` };
    await inFolder(files, async (dir) => {
      const folder = "swings/session=Cage 38%2F9";
      expect((await run("add", `${dir}/a.csv`, "--library", `${dir}/l`)).out).toContain(
        `Refused rows of the session "Cage 38/9" wait in ${dir}/l/${folder}: correct them there`,
      );
      expect((await run("check", "--library", `${dir}/l`)).out).toContain(
        `The session "Cage 38/9" (${folder}/swings.parquet): 1 row was refused, and waits beside it`,
      );
      await run("report", "--library", `${dir}/l`, "-o", `${dir}/out`);
      const report = await readFile(`${dir}/out/report-ana.html`, "utf8");
      expect(report).toContain("<bdi>session Cage 38/9</bdi>");
      expect(report).not.toContain("38%2F9");
      await appendFile(`${dir}/l/${folder}/swings.parquet`, "x");
      const told = (await run("gap", "--library", `${dir}/l`)).err;
      expect(told).toContain('the session "Cage 38/9"');
      expect(told.split("Cage 38/9")).toHaveLength(2);
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
