import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSample, readSwings } from "../../src/library/files.ts";
import { cellReader, numberFrom, Refusal } from "../../src/reading/cells.ts";
import { sessionFields, swingFields, type Field } from "../../src/swing/fields.ts";
import { guessLayout, headingsKnown } from "../../src/reading/guess.ts";
import { unitOfCells } from "../../src/reading/layout.ts";
import { decimalMark, unitBehind, unitSpelled, unitsNamed } from "../../src/reading/measure.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { convert, dimension, unitNames, type UnitName } from "../../src/units/index.ts";
import { inFolder, readFrom, swingsFrom } from "./support.ts";

const measured: readonly Field[] = [...swingFields, ...sessionFields].filter((f) => "unit" in f);
const fieldNamed = (name: string): Field => measured.find((f) => f.name === name)!;
const head = "hitter,input,exit_velocity_mph,launch_angle_deg";

describe("units behind numbers", () => {
  it.each([
    ["80 mph", "80", "mph"],
    ["80mph", "80", "mph"],
    ["12.5°", "12.5", "deg"],
    ["\u22123,5 deg.", "\u22123,5", "deg"],
    ["350 ft", "350", "ft"],
    ["1,200 rpm", "1,200", "rpm"],
    ["1\u202f200 RPM", "1\u202f200", "rpm"],
    ["29.92 inHg", "29.92", "inHg"],
    ["72 °F", "72", "F"],
    ["50 %", "50", "pct"],
    ['36"', "36", "in"],
    ["1e2 km/h", "1e2", "km/h"],
    ["5. m", "5.", "m"],
  ])("%s", (cell, number, unit) => expect(unitBehind(cell)).toEqual({ number, unit }));

  it.each(["80", "mph", "80 furlongs", "80 mph or so", "80 mph 81 mph", "about 80 mph", "80,", "5'10\"", ""])(
    "%j has none",
    (cell) => expect(unitBehind(cell)).toBeNull(),
  );

  it("spell every unit that converts, but the bare share", () => {
    const spelled = unitNames.filter((unit) => unitSpelled(unit) === unit);
    expect(unitNames.filter((unit) => !spelled.includes(unit))).toEqual(["share"]);
  });

  it("are the column's, or the cell is refused in a plain sentence", () => {
    const mph = cellReader(fieldNamed("exit_velocity_mph"));
    expect([mph("80 mph"), mph("80.5mph"), mph(" 80 ")]).toEqual([80, 80.5, 80]);
    expect(mph("120 km/h")).toEqual(new Refusal("is in km/h, where this column is in mph"));
    expect(mph("12°")).toEqual(new Refusal("is in °, which can't become mph"));
    expect(mph("240 mph")).toEqual(new Refusal("is over 130 mph: 5 to 130 mph is expected"));
    expect(mph("80 mp")).toEqual(new Refusal("has more than a number in it"));
    const kmh = cellReader(fieldNamed("exit_velocity_mph"), { unit: "km/h" });
    expect([kmh("144 km/h"), kmh("80")]).toEqual([convert(144, "km/h", "mph"), convert(80, "km/h", "mph")]);
    expect(kmh("80 mph")).toEqual(new Refusal("is in mph, where this column is in km/h"));
    expect(cellReader(swingFields.find((f) => f.name === "hitter")!)("80 mph")).toBe("80 mph");
  });

  it("change no number: a cell with its unit is what the number is in a column of that unit", () => {
    const value = fc.double({ min: -1e5, max: 1e5, noNaN: true });
    const pairs = measured.flatMap((field) =>
      unitNames.flatMap((unit) =>
        unit !== "share" && dimension(unit) === dimension(field.unit!) ? [{ field, unit }] : [],
      ),
    );
    expect(pairs.length).toBeGreaterThan(measured.length);
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        value,
        fc.constantFrom("", " ", "\u00a0"),
        fc.boolean(),
        (pair, v, gap, comma) => {
          const { field, unit } = pair;
          const text = comma ? String(v).replace(".", ",") : String(v);
          const options = { unit, decimal: comma ? "," : ".", decimalKnown: true } as const;
          const alone = cellReader(field, options)(text);
          const withUnit = cellReader(field, options)(`${text}${gap}${unit}`);
          expect(withUnit).toEqual(alone);
          if (typeof alone === "number") expect(alone).toBe(convert(v, unit, field.unit!) + 0);
        },
      ),
    );
  });

  it("never make a number of a text that has more, whatever stands there", () => {
    const part = fc.oneof(
      fc.constantFrom(
        "1",
        "80",
        ".",
        ",",
        " ",
        "-",
        "mph",
        "km/h",
        "°",
        "'",
        '"',
        "e5",
        "m",
        "\u202f",
        "200",
      ),
      fc.string({ maxLength: 3 }),
    );
    const read = cellReader(fieldNamed("exit_velocity_mph"), { decimalKnown: true });
    fc.assert(
      fc.property(fc.array(part, { maxLength: 6 }), (parts) => {
        const cell = parts.join("").trim();
        const found = read(cell);
        if (typeof found !== "number") return;
        // What is read says the same when everything but digits, signs and the point has gone.
        const bare = cell
          .replace(/\s*mph\.?$/i, "")
          .replace(/[,\s'\u2019]/g, "")
          .replace("\u2212", "-");
        expect(found).toBe(Number(bare) + 0);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("thousands marks", () => {
  it.each([
    ["1,200.5", ".", false, 1200.5],
    ["1,200,300", ".", false, 1200300],
    ["1,200", ".", true, 1200],
    ["-12,345.25", ".", false, -12345.25],
    ["1.200,5", ",", false, 1200.5],
    ["1.200", ",", true, 1200],
    ["1 200", ".", false, 1200],
    ["1\u00a0200,5", ",", false, 1200.5],
    ["1'200.5", ".", false, 1200.5],
    ["\u22121\u2019200", ".", false, -1200],
  ] as const)("%s with %j is %d", (cell, mark, known, value) =>
    expect(numberFrom(cell, mark, known)).toBe(value),
  );

  it.each([
    ["1,200", "."],
    ["1,2000", "."],
    ["0,200", "."],
    ["12,34,567", "."],
    ["1 20", "."],
    ["1200,300.5", "."],
    ["1,200.300,5", "."],
    ["1.200.5", ","],
  ] as const)("%s with %j could be something else, and is refused", (cell, mark) =>
    expect(numberFrom(cell, mark, false)).toBeInstanceOf(Refusal),
  );

  it("come off any number as programs put them on", () => {
    const value = fc.integer({ min: -9_999_999, max: 9_999_999 });
    fc.assert(
      fc.property(value, fc.constantFrom("en-US", "de-DE", "de-CH", "fr-FR", "sv-SE"), (v, locale) => {
        const number = v / 100;
        const text = number.toLocaleString(locale, { minimumFractionDigits: 2 });
        const mark = (1.5).toLocaleString(locale).includes(",") ? "," : ".";
        expect(decimalMark([text])).toEqual({ mark, known: true });
        expect(numberFrom(text, mark, true)).toBe(number + 0);
      }),
    );
  });

  it("and decimals are told apart by what else stands in the sheet", async () => {
    const rows = async (delimiter: string, speed: string, spin: string) =>
      swingsFrom(
        `${head},spin_rpm`.replaceAll(",", delimiter) +
          `\n${["Ana", "tee", speed, "10", spin].join(delimiter)}\n`,
      );
    expect((await rows(";", "92.4", "1,200 rpm")).rows[0]).toMatchObject({
      exit_velocity_mph: 92.4,
      spin_rpm: 1200,
    });
    expect((await rows(";", "92,4", "1.200")).rows[0]).toMatchObject({
      exit_velocity_mph: 92.4,
      spin_rpm: 1200,
    });
    const unclear = await rows(";", "92", "1,200");
    expect(unclear.problems.map(problemSentence)).toEqual([
      'a.csv, row 2: spin_rpm "1,200" has a thousands mark or a decimal comma: say which with "decimal" in a column map.',
    ]);
    const over = await rows(";", "92.4", "12,000");
    expect(problemSentence(over.problems[0]!)).toContain('spin_rpm "12,000" (12000 rpm) is over 8000 rpm');
  });
});

describe("a column whose cells say their unit", () => {
  it("is read in it, under the kit's own headings too, and says so", async () => {
    const { rows, problems } = await swingsFrom(
      `${head},outcome\nAna,tee,160.9344 km/h,12.5°,\nAna,tee,--,-3 deg,miss\nBo,tee,80.4672km/h,1,\n`,
    );
    expect(rows.map((r) => [r.exit_velocity_mph, r.launch_angle_deg])).toEqual([
      [convert(160.9344, "km/h", "mph"), 12.5],
      [null, -3],
      [convert(80.4672, "km/h", "mph"), 1],
    ]);
    expect(problems.map(problemSentence)).toEqual([
      "a.csv, row 1: exit_velocity_mph is written in km/h, and is converted.",
    ]);
  });

  it("has no other unit and no bare number in it, and one that is mixed is its field's", async () => {
    const many = "Ana,tee,120 km/h,1\n".repeat(250);
    const { rows, refused } = await swingsFrom(`${head}\n${many}Ana,tee,80,1\nAna,tee,80 mph,1\n`);
    expect(rows).toHaveLength(1);
    expect(refused.flatMap((row) => row.problems.map(problemSentence))).toEqual([
      `a.csv, row 252: exit_velocity_mph "80" has no unit, where the column's other cells say km/h.`,
      'a.csv, row 253: exit_velocity_mph "80 mph" is in mph, where this column is in km/h.',
    ]);
    const mixed = await swingsFrom(`${head}\nAna,tee,120 km/h,1\nAna,tee,80 mph,2\nAna,tee,81,3\n`);
    expect(mixed.rows.map((r) => r.exit_velocity_mph)).toEqual([80, 81]);
    expect(problemSentence(mixed.problems[0]!)).toBe(
      'a.csv, row 2: exit_velocity_mph "120 km/h" is in km/h, where this column is in mph.',
    );
  });

  it("is not turned against the column map", async () => {
    const map = {
      columns: { Speed: { field: "exit_velocity_mph", unit: "km/h" }, LA: "launch_angle_deg" },
    } as const;
    const sheet = "hitter,input,Speed,LA\nAna,tee,120 km/h,1\nAna,tee,121,1 rad\nAna,tee,80 mph,1\n";
    const { rows, refused } = await swingsFrom(sheet, { map });
    expect(rows.map((r) => r.exit_velocity_mph)).toEqual([convert(120, "km/h", "mph")]);
    expect(refused.flatMap((row) => row.problems.map(problemSentence))).toEqual([
      'a.csv, row 3: launch_angle_deg "1 rad" is in rad, where this column is in °.',
      'a.csv, row 4: exit_velocity_mph "80 mph" is in mph, where this column is in km/h.',
    ]);
  });

  it("serves the other tables: a coach's own list of sessions", async () => {
    const { rows } = await readFrom(
      "sessions",
      "session,temperature_f,pressure_inhg,humidity_pct\nmay,20 °C,1013.25 hPa,50 %\n",
    );
    expect(rows[0]!.temperature_f).toBeCloseTo(68, 9);
    expect(rows[0]!.pressure_inhg).toBeCloseTo(29.921, 3);
    expect(rows[0]!.humidity_pct).toBe(50);
  });

  it("has a unit only when every number has the same", () => {
    expect(unitOfCells(["80 mph", "", "NA", "81mph"])).toBe("mph");
    expect(unitOfCells(["80 mph", "81"])).toBeNull();
    expect(unitOfCells(["80 mph", "81 km/h"])).toBeNull();
    expect(unitOfCells(["", "--"])).toBeNull();
  });
});

describe("a row of units under the headings", () => {
  it("is no swing, and says what the columns are in", async () => {
    const sheet = `${head}\n,,km/h,[deg]\nAna,tee,160.9344,12\nAna,tee,80 mph,12\n`;
    const { rows, read, refused } = await swingsFrom(sheet);
    expect([rows.map((r) => r.exit_velocity_mph), read]).toEqual([[convert(160.9344, "km/h", "mph")], 2]);
    expect(refused.map((row) => row.row)).toEqual([4]);
  });

  it("names units and nothing else", () => {
    expect(unitsNamed(["", "-", "(km/h)", "°"])).toEqual([null, null, "km/h", "deg"]);
    for (const row of [["Ana", "mph", "deg"], ["", "mph"], ["", "80 mph", "deg"], []])
      expect(unitsNamed(row)).toBeNull();
    expect(unitsNamed(["mph", '"', "'"])).toEqual(["mph", "in", "ft"]);
    // Inches, or the same as above?
    expect(unitsNamed(["", '"', '"'])).toBeNull();
  });

  it("that says otherwise than the map keeps the file out", async () => {
    const map = { columns: { Speed: "exit_velocity_mph" } };
    const sheet = "hitter,input,Speed,launch_angle_deg\n,,km/h,deg\nAna,tee,120,1\n";
    await expect(swingsFrom(sheet, { map })).rejects.toThrow(
      "a.csv has the unit km/h under Speed, where the column map says mph.",
    );
    await expect(swingsFrom(`${head}\n,,deg,deg\nAna,tee,120,1\n`)).rejects.toThrow(
      "a.csv has the unit deg under exit_velocity_mph, and deg can't become mph.",
    );
  });
});

describe("a guess", () => {
  const unitFor = async (text: string, heading: string): Promise<UnitName | undefined> =>
    inFolder({ "a.csv": text }, async (dir) => {
      const sample = await readSample(`${dir}/a.csv`, headingsKnown);
      const { map } = guessLayout(sample);
      const to = map.columns[heading];
      const { rows } = await readSwings(`${dir}/a.csv`, { map });
      expect(rows).toHaveLength(2);
      expect(rows[0]!.exit_velocity_mph).toBeCloseTo(75, 0);
      return typeof to === "object" ? to?.unit : undefined;
    });

  it("takes the unit from the cells, from a row of units, and from the heading", async () => {
    const rows = (unit: string): string =>
      `Ana,tee,120.7${unit},10°\nBo,flip,121.4${unit},"1,5"\n`.replace('"1,5"', "11.5°");
    expect(await unitFor(`Player,From,EV,LA\n${rows(" km/h")}`, "EV")).toBe("km/h");
    expect(await unitFor(`Player,From,EV,LA\n,,km/h,deg\n${rows("")}`, "EV")).toBe("km/h");
    expect(await unitFor(`Player,From,EV (km/h),LA\n${rows("")}`, "EV (km/h)")).toBe("km/h");
    // The cells know best.
    expect(await unitFor(`Player,From,EV (mph),LA\n${rows(" km/h")}`, "EV (mph)")).toBe("km/h");
    expect(
      await unitFor(`Player,From,EV,LA\nAna,tee,75.1 mph,10\nBo,flip,75.2 mph,11\n`, "EV"),
    ).toBeUndefined();
  });
});
