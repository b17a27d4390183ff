import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { readColumnMap, readSwings } from "../../src/library/files.ts";
import type { Swing } from "../../src/swing/fields.ts";
import {
  columnMapFrom,
  columnMapProblems,
  headingKey,
  mostRefused,
  type ColumnMap,
} from "../../src/reading/maps.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { UnusableFile } from "../../src/reading/read.ts";
import { inFolder, swingsFrom } from "./support.ts";

const mapsFolder = fileURLToPath(new URL("../../data/maps/", import.meta.url));

const compared = [
  "session",
  "time",
  "hitter",
  "bats",
  "input",
  "outcome",
  "exit_velocity_mph",
  "launch_angle_deg",
  "spray_angle_deg",
  "pitch_speed_mph",
  "contact_side_ft",
  "contact_depth_ft",
  "contact_height_ft",
] as const satisfies readonly (keyof Swing)[];

it("a map under which as many rows are taken as refused is one, and one row more is none", () => {
  expect(mostRefused({ read: 200, refused: 100 })).toBe(false);
  expect(mostRefused({ read: 200, refused: 101 })).toBe(true);
  expect(mostRefused({ read: 0, refused: 0 })).toBe(false);
});

it("brings in no birth date and no contact, not even under a field's name", async () => {
  const head = "hitter,input,outcome,Birth date,E-mail";
  await inFolder({ "a.csv": `${head}\nAda,tee,miss,2012-03-04,ada@example.org\n` }, async (dir) => {
    const map = columnMapFrom({ columns: { "Birth date": "session", "E-mail": "note" } }, "map.json");
    const { rows } = await readSwings(`${dir}/a.csv`, { map });
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ hitter: "Ada", session: null, note: null });
  });
});

describe("the layouts of data/maps", () => {
  it.each(["metric", "mirrored", "own-words"])(
    "%s gives the same swings as the kit's own sheet",
    async (name) => {
      const own = await readSwings(`${mapsFolder}sample.csv`);
      const map = await readColumnMap(`${mapsFolder}${name}.json`);
      const mapped = await readSwings(`${mapsFolder}${name}.csv`, { map });
      expect(mapped.problems).toEqual([]);
      expect(mapped.rows).toHaveLength(5);
      mapped.rows.forEach((row, i) => {
        for (const field of compared) {
          const expected = own.rows[i]![field];
          // The metric sheet writes four to six decimals.
          if (typeof expected === "number") expect(row[field], field).toBeCloseTo(expected, 3);
          else expect(row[field], field).toBe(expected);
        }
      });
    },
  );

  it("mirrored turns its axis into the kit's: 0 pure backspin, 90 curving to right field", async () => {
    const map = await readColumnMap(`${mapsFolder}mirrored.json`);
    const { rows } = await readSwings(`${mapsFolder}mirrored.csv`, { map });
    expect(rows.map((r) => [r.spin_rpm, r.spin_axis_deg])).toEqual([
      [1500, 0],
      [2200, 30],
      [2600, -15],
      [null, null],
      [null, null],
    ]);
  });

  it("knows its words whatever blanks and capitals stand in them, in the map or in the sheet", async () => {
    const sheet =
      "who,from,exit_velocity_mph,launch_angle_deg\nAna,Front  Toss,70,10\nAna,front toss ,71,11\n";
    for (const word of ["front  toss", " Front Toss"]) {
      const map = columnMapFrom(
        { columns: { who: "hitter", from: { field: "input", words: { [word]: "flip" } } } },
        "m",
      );
      const { rows, refused } = await swingsFrom(sheet, { map });
      expect([rows.map((r) => r.input), refused], word).toEqual([["flip", "flip"], []]);
    }
  });

  it("metric refuses in the words of the sheet and of the field", async () => {
    const map = await readColumnMap(`${mapsFolder}metric.json`);
    const text = "Batter;Ball from;Ball speed [km/h];Rise [rad]\nAna;tee;240,5;0,2\nBo;stand;99.5;2\n";
    const { refused } = await swingsFrom(text, { map });
    expect(refused.flatMap((r) => r.problems.map(problemSentence))).toEqual([
      'a.csv, row 2: exit_velocity_mph "240,5" (149.44 mph) is over 130 mph: 5 to 130 mph is expected.',
      'a.csv, row 3: input "stand" is not one of tee, flip, live.',
      'a.csv, row 3: exit_velocity_mph "99.5" has a decimal point, where this file writes decimals with a comma.',
      'a.csv, row 3: launch_angle_deg "2" (114.59°) is over 90°: −90 to 90° is expected.',
    ]);
  });
});

describe("a map", () => {
  const text = "who,how,speed,up,side\nAna,T,145,10,20\n";
  const columns: ColumnMap["columns"] = {
    who: "hitter",
    how: { field: "input", words: { t: "tee" } },
    speed: { field: "exit_velocity_mph", unit: "km/h" },
    up: "launch_angle_deg",
    side: { field: "spray_angle_deg", sign: -1, offset: 2 },
  };

  it("converts, turns the sign and then adds the offset", async () => {
    const [row] = (await swingsFrom(text, { map: { columns } })).rows;
    expect(row!.input).toBe("tee");
    // 145 km/h over 1.609344 km in a mile.
    expect(row!.exit_velocity_mph).toBeCloseTo(90.09882, 5);
    expect(row!.spray_angle_deg).toBe(-18);
  });

  it("fills what the layout has no column for", async () => {
    const map: ColumnMap = { columns: { ...columns, how: null }, always: { input: "flip", drill: "low" } };
    const { rows, problems } = await swingsFrom(text, { map });
    expect(rows.map((r) => [r.input, r.drill])).toEqual([["flip", "low"]]);
    expect(problems).toEqual([]);
  });

  it("reads an encoding it names", async () => {
    const map: ColumnMap = { encoding: "windows-1252", columns: { Spieler: "hitter" } };
    const bytes = Buffer.from("Spieler,input,outcome\nJosé,tee,miss\n", "latin1");
    expect((await swingsFrom(bytes, { map })).rows[0]!.hitter).toBe("José");
  });

  it("understands the kit's own headings beside its own", async () => {
    const { rows } = await swingsFrom("who,input,outcome\nAna,tee,miss\n", {
      map: { columns: { who: "hitter" } },
    });
    expect(rows[0]!.hitter).toBe("Ana");
  });

  it("that fits nothing refuses the file, or is put aside where that is asked for", async () => {
    const sheet = "hitter,input,outcome\nAna,tee,miss\n";
    const map: ColumnMap = { delimiter: ";", columns: { who: "hitter" } };
    await expect(swingsFrom(sheet, { map })).rejects.toMatchObject({ fault: "call" });
    expect((await swingsFrom(sheet, { map, mapIfFits: true })).rows).toHaveLength(1);
  });

  it("compares headings without capitals and blanks", () => {
    expect(headingKey(" Exit  velocity-MPH ")).toBe("exit_velocity_mph");
  });

  it.each([
    [null, /not a JSON object/],
    [[], /not a JSON object/],
    [{}, /no columns/],
    [{ columns: {} }, /empty/],
    [{ columns: { a: "hitter" }, colour: 1 }, /"colour"/],
    [{ columns: { a: "speed" } }, /no field of swings/],
    [{ columns: { a: "__proto__" } }, /no field of swings/],
    [{ columns: { a: 3 } }, /names no field/],
    [{ columns: { a: "bats", A: "hitter" } }, /stands twice/],
    [{ columns: { a: "bats", b: "bats" } }, /both go to bats/],
    [{ columns: { a: { field: "bats", unit: "mph" } } }, /takes none/],
    [{ columns: { a: { field: "exit_velocity_mph", unit: "furlong" } } }, /unknown unit/],
    [{ columns: { a: { field: "exit_velocity_mph", unit: "ft" } } }, /can't become/],
    [{ columns: { a: { field: "exit_velocity_mph", sign: 2 } } }, /not 1, -1, "pull" or "opposite"/],
    [{ columns: { a: { field: "exit_velocity_mph", offset: "2" } } }, /not a number/],
    [{ columns: { a: { field: "hitter", sign: -1 } } }, /not a number/],
    [{ columns: { a: { field: "exit_velocity_mph", words: {} } } }, /is a number/],
    [{ columns: { a: { field: "input", words: { x: "toss" } } } }, /not one of tee, flip, live/],
    [{ columns: { a: { field: "input", word: {} } } }, /"word"/],
    [{ columns: { a: "hitter" }, delimiter: "/" }, /delimiter/],
    [{ columns: { a: "hitter" }, decimal: ";" }, /decimal mark/],
    [{ columns: { a: "hitter" }, dates: "yesterday" }, /dates/],
    [{ columns: { a: "hitter" }, encoding: "klingon" }, /encoding/],
    [{ columns: { a: "hitter" }, missing: "x" }, /missing/],
    [{ columns: { a: "hitter" }, table: "balls" }, /table/],
    [{ columns: { a: "hitter" }, always: { hitter: "x" } }, /has a column for it/],
    [{ columns: { a: "hitter" }, always: { input: "toss" } }, /not one of/],
    [{ columns: { a: "hitter" }, always: { inputs: "tee" } }, /no field/],
  ])("%j is told what is wrong with it", (value, reason) => {
    expect(columnMapProblems(value).join("; ")).toMatch(reason);
    expect(() => columnMapFrom(value, "m.json")).toThrow(UnusableFile);
    expect(() => columnMapFrom(value, "m.json")).toThrow(/^m\.json can't be used as a column map: [^\n]+\.$/);
  });

  it("that is no JSON, or not there, says so", async () => {
    await inFolder({ "bad.json": "{" }, async (dir) => {
      await expect(readColumnMap(`${dir}/bad.json`)).rejects.toThrow(/is not JSON/);
      await expect(readColumnMap(`${dir}/none.json`)).rejects.toThrow(/does not exist/);
      await expect(readColumnMap(dir)).rejects.toThrow(/is a folder/);
    });
  });
});
