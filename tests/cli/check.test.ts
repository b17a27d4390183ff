import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { FileVerdict } from "../../src/cli/check.ts";
import { columnTable } from "../../src/cli/column-table.ts";
import { Judge } from "../../src/reading/check.ts";
import { inFolder } from "../reading/support.ts";
import { run } from "./run.ts";

const head = "hitter,input,exit_velocity_mph,launch_angle_deg";
const maps = fileURLToPath(new URL("../../data/maps/", import.meta.url));

describe("check", () => {
  it("of a good file ends with 0 and says what its columns hold", async () => {
    await inFolder({ "a.csv": `${head}\nAna,tee,80,10\nAna,Tee ,90,14\nBo,live,100,-5\n` }, async (dir) => {
      const { status, out, err } = await run("check", `${dir}/a.csv`);
      expect([status, err]).toEqual([0, ""]);
      expect(out).toContain(`${dir}/a.csv (swings): 3 rows, 3 taken.`);
      expect(out).toMatch(/^exit_velocity_mph +3 +80\.0 +90\.0 +100\.0$/m);
      expect(out).toMatch(/^input +3 +tee 2, live 1$/m);
      expect(out).not.toMatch(/Refused|Warnings/);
    });
  });

  it("tells every table from its headings, those that a library may have besides too", async () => {
    const field =
      "field,base_path_ft,pitching_ft,dirt_radius_ft,left_ft,left_center_ft,center_ft,right_center_ft";
    const files = {
      "fields.csv": `${field},right_ft,fence_ft\nBack Lot,60,46,50,180,200,220,200,175,6\n`,
      "names.csv": "spelled,hitter\nana,Ana\n",
      "hitters.csv": "hitter,bats\nAna,L\n",
      "sessions.csv": "session,date\nA,2026-05-05\n",
      "targets.csv": "drill,launch_angle_deg_low,launch_angle_deg_high\nlow line,0,15\n",
    };
    await inFolder(files, async (dir) => {
      for (const file of Object.keys(files)) {
        const table = file.replace(".csv", "");
        const { status, out } = await run("check", `${dir}/${file}`);
        expect(out).toContain(`${file} (${table}): 1 row, 1 taken.`);
        expect(status).toBe(0);
        // None of them is swings to be added.
        const added = await run("add", `${dir}/${file}`, "--library", `${dir}/library`);
        expect(added.status).toBe(2);
        expect(added.err).toBe(
          `${dir}/${file} is a table of ${table}, not of swings: a library reads it as ${table}.csv in its own folder.\n`,
        );
      }
    });
  });

  it("judges a file with headings of its own as add would read it, and says so", async () => {
    const own = "Batter,Date,Type,EV (mph),LA\nAna,2026-05-05,Tee,80,10\nBo,2026-05-05,Live,810,5\n";
    await inFolder({ "own.csv": own, "odd.csv": "who,what\n1,2\n" }, async (dir) => {
      const { status, out, err } = await run("check", `${dir}/own.csv`);
      expect([status, err]).toEqual([1, ""]);
      expect(out).toContain("own.csv has headings of its own. Judged as `add` would read it:");
      expect(out).toMatch(/^EV \(mph\) +exit_velocity_mph/m);
      expect(out).toContain('row 3: exit_velocity_mph "810" is over 130 mph');
      expect(out).toContain("2 rows, 1 taken, 1 refused.");
      const { files } = JSON.parse((await run("check", "--json", `${dir}/own.csv`)).out) as {
        files: FileVerdict[];
      };
      expect(files[0]).toMatchObject({ table: "swings", guessed: true, taken: 1 });
      const odd = await run("check", `${dir}/odd.csv`);
      expect([odd.status, odd.out]).toEqual([1, ""]);
      expect(odd.err).toMatch(/has no heading for/);
    });
  });

  it("names every refused row with its row, field, value and reason, and ends with 1", async () => {
    const rows = ["Ana,tee,80,10", "Ana,tee,x,10", ",tee,80,10", "Ana,tee,80", "Ana,tee,NaN,99"];
    await inFolder({ "a.csv": `${head}\n${rows.join("\n")}\n` }, async (dir) => {
      const { status, out, err } = await run("check", `${dir}/a.csv`);
      expect([status, err]).toEqual([1, ""]);
      const file = `${dir}/a.csv`;
      for (const sentence of [
        `${file}, row 3: exit_velocity_mph "x" is not a number.`,
        `${file}, row 4: hitter is missing.`,
        `${file}, row 5: the row has 3 cells, where the heading row has 4.`,
        `${file}, row 6: exit_velocity_mph "NaN" is not a finite number.`,
        `${file}, row 6: launch_angle_deg "99" is over 90°: −90 to 90° is expected.`,
      ]) {
        expect(out.split("\n")).toContain(sentence);
      }
      expect(out).toContain("5 rows, 1 taken, 4 refused.");
    });
  });

  it("gives the same as JSON, with nothing else on stdout", async () => {
    await inFolder({ "a.csv": `${head}\nAna,tee,126,10\nAna,tee,x,10\nAna,tee,126,10\n` }, async (dir) => {
      const { status, out } = await run("check", `${dir}/a.csv`, "--json");
      expect(status).toBe(1);
      const { files } = JSON.parse(out) as { files: FileVerdict[] };
      expect(files).toHaveLength(1);
      expect(files[0]).toMatchObject({ table: "swings", read: 3, taken: 1, refused: 1, duplicates: 1 });
      expect(files[0]!.problems.map((p) => [p.kind, p.row, p.field])).toEqual([
        ["warning", 4, null],
        ["warning", 2, null],
        ["refused", 3, "exit_velocity_mph"],
      ]);
      expect(files[0]!.columns.find((c) => c.field === "exit_velocity_mph")).toMatchObject({
        filled: 1,
        median: 126,
      });
    });
  });

  const utf16 = Buffer.from(`\ufeff${head}\nAna,tee,80,10\n`, "utf16le");
  it.each([
    ["empty.csv", "", 1, /empty\.csv is empty\.$/],
    ["head.csv", `${head}\n`, 1, /has a heading row and nothing under it\.$/],
    ["page.csv", "<html><body>x</body></html>", 1, /is a web page or XML, not a CSV\.$/],
    ["binary.csv", Buffer.from([0, 1, 2, 3]), 1, /is not text\.$/],
    ["latin.csv", Buffer.from(`${head}\nJos\xe9,tee,80,10\n`, "latin1"), 1, /is not UTF-8 text: /],
    [
      "part.csv",
      "hitter,exit_velocity_mph\nAna,80\n",
      1,
      /no heading for the columns input, launch_angle_deg /,
    ],
    ["utf16.csv", utf16, 0, null],
    ["bom.csv", `\ufeff${head}\r\nAna,tee,80,10\r\n`, 0, null],
    ["cr.csv", `${head}\rAna,tee,80,10\r`, 0, null],
  ])("of %s ends as it should, with at most one sentence", async (name, content, wanted, sentence) => {
    await inFolder({ [name]: content }, async (dir) => {
      const { status, out, err } = await run("check", `${dir}/${name}`);
      expect(status).toBe(wanted);
      if (sentence === null) {
        expect(err).toBe("");
        expect(out).toContain("1 row, 1 taken.");
      } else {
        expect(out).toBe("");
        expect(err.trimEnd()).toMatch(sentence);
        expect(err.trimEnd()).not.toContain("\n");
      }
    });
  });

  it("of a missing file or a folder is a wrong call; the other files are judged all the same", async () => {
    await inFolder({ "a.csv": `${head}\nAna,tee,80,10\n` }, async (dir) => {
      const { status, out, err } = await run("check", `${dir}/none.csv`, dir, `${dir}/a.csv`);
      expect(status).toBe(2);
      expect(err).toBe(`${dir}/none.csv does not exist.\n${dir} is a folder, not a file.\n`);
      expect(out).toContain("1 row, 1 taken.");
    });
  });

  it("tells each file's table from its headings", async () => {
    const files = {
      "s.csv": "session,date,temperature_f\nmay,2026-05-01,70\n",
      "h.csv": "hitter,bats,level\nAna,R,adult\n",
      "t.csv": "drill,launch_angle_deg_low,launch_angle_deg_high\nup,8,20\n",
      "w.csv": `session,${head}\nmay,Ana,tee,80,10\n`,
    };
    await inFolder(files, async (dir) => {
      const { out } = await run("check", "--json", ...Object.keys(files).map((f) => `${dir}/${f}`));
      const verdicts = JSON.parse(out) as { files: FileVerdict[] };
      expect(verdicts.files.map((f) => f.table)).toEqual(["sessions", "hitters", "targets", "swings"]);
    });
  });

  it("tells a copy across files, and names a library doesn't know", async () => {
    const row = `${head}\nAna,tee,80,10\n`;
    await inFolder({ "a.csv": row, "b.csv": row, "hitters.csv": "hitter\nBo\n" }, async (dir) => {
      const { status, out } = await run("check", `${dir}/a.csv`, `${dir}/b.csv`, "--library", dir);
      expect(status).toBe(0);
      expect(out).toContain(
        `b.csv, row 2: the row is an exact copy of row 2 of ${dir}/a.csv, and is counted once.`,
      );
      expect(out).toContain(`hitter "Ana" is not in the library's hitters.csv (1 row).`);
    });
  });

  it("reads with a column map, and refuses a bad one as a wrong call", async () => {
    const good = await run("check", `${maps}metric.csv`, "--map", `${maps}metric.json`);
    expect([good.status, good.err]).toEqual([0, ""]);
    expect(good.out).toContain("5 rows, 5 taken.");
    await inFolder({ "m.json": '{"columns": {"a": "b"}}' }, async (dir) => {
      const bad = await run("check", `${maps}metric.csv`, "--map", `${dir}/m.json`);
      expect([bad.status, bad.out]).toEqual([2, ""]);
      expect(bad.err).toMatch(/^\S+m\.json can't be used as a column map: [^\n]+\.\n$/);
    });
  });

  it("keeps a table of columns within a terminal", () => {
    const judge = new Judge("targets", "a.csv");
    judge.row({ drill: "up", exit_velocity_mph_low: 80, launch_angle_deg_low: -12.25 }, 2);
    const [rest, ...table] = columnTable(judge.summaries()).trimEnd().split("\n").toReversed();
    expect(rest).toMatch(/^Nothing in: /);
    expect(table).toHaveLength(4);
    for (const line of table) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("lets no cell move the terminal's cursor", async () => {
    await inFolder({ "a.csv": `${head},\u001b[2J\nAna,\u001b[31mtee,80,10,x\n` }, async (dir) => {
      const { out } = await run("check", `${dir}/a.csv`);
      expect(out).toContain("row 2");
      expect(out).not.toContain("\u001b");
    });
  });
});
