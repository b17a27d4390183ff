import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { quantile } from "d3";
import { Judge, mostTexts, type Known } from "../../src/reading/check.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import type { Table } from "../../src/swing/tables.ts";
import { swingOf } from "../../src/swing/unknown.ts";
import { readFrom } from "./support.ts";

const blank = swingOf({ hitter: "Ana", input: "tee" });

async function judged(table: Table["name"], text: string, known: Known = {}): Promise<Judge> {
  const reading = await readFrom(table, text);
  const judge = new Judge(table, "a.csv", { known });
  reading.rows.forEach((row, i) => judge.row(row, reading.numbers[i]!));
  for (const row of reading.refused) judge.refused(row);
  return judge;
}

const warningsOf = async (table: Table["name"], text: string, known?: Known): Promise<string[]> =>
  (await judged(table, text, known)).warnings().map(problemSentence);

/** Swings with the values given in one column and good ones in the others. */
function swings(column: string, values: readonly (string | number)[]): string {
  const row: Record<string, string | number> = {
    hitter: "Ana",
    input: "live",
    exit_velocity_mph: 80,
    launch_angle_deg: 12,
  };
  const heads = [...Object.keys({ ...row, [column]: 0 }), "note"];
  const lines = values.map((value, i) =>
    heads.map((h) => (h === "note" ? i : { ...row, [column]: value }[h])).join(","),
  );
  return `${heads.join(",")}\n${lines.join("\n")}\n`;
}

const range = (from: number, to: number, n = 40): number[] =>
  Array.from({ length: n }, (_, i) => Number((from + ((to - from) * i) / (n - 1)).toFixed(2)));

describe("columns", () => {
  it("are counted, with least, median and most exactly as a tracker writes them", () => {
    const value = fc.integer({ min: 50, max: 1300 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 60 }), (values) => {
        const judge = new Judge("swings", "a.csv");
        values.forEach((v, i) => judge.row({ ...blank, exit_velocity_mph: v }, i + 2));
        const column = judge.summaries().find((c) => c.field === "exit_velocity_mph")!;
        expect(column.filled).toBe(values.length);
        expect(column.min).toBe(Math.min(...values));
        expect(column.max).toBe(Math.max(...values));
        expect(column.median).toBeCloseTo(quantile(values, 0.5)!, 9);
      }),
    );
  });

  it("of words, texts and times say what they hold", async () => {
    const judge = await judged(
      "swings",
      "hitter,input,outcome,time\nAna,tee,miss,2026-05-02\nBo,tee,miss,2026-05-01\nBo,live,miss,2026-05-03\n",
    );
    const of = (name: string): unknown => judge.summaries().find((c) => c.field === name);
    expect(of("input")).toMatchObject({
      words: [
        { word: "tee", count: 2 },
        { word: "live", count: 1 },
      ],
    });
    expect(of("hitter")).toMatchObject({ texts: 2, words: null });
    expect(of("time")).toMatchObject({ first: "2026-05-01", last: "2026-05-03" });
    expect(of("swing_id")).toMatchObject({ filled: 3, texts: 3, first: null });
    expect(of("backspin_rpm")).toMatchObject({ filled: 0, min: null, median: null, max: null });
  });

  it("of very many texts are not held in memory", () => {
    const judge = new Judge("swings", "a.csv");
    for (let i = 0; i < mostTexts + 5; i++) judge.row({ ...blank, note: `n${i}` }, i + 2);
    expect(judge.summaries().find((c) => c.field === "note")!.texts).toBe(mostTexts);
  });
});

describe("what is possible but odd", () => {
  it("is nothing in a good file", async () => {
    expect(await warningsOf("swings", swings("exit_velocity_mph", range(55, 105)))).toEqual([]);
    expect(await warningsOf("swings", swings("contact_height_ft", range(1.2, 4)))).toEqual([]);
    expect(await warningsOf("swings", swings("pitch_speed_mph", range(30, 92)))).toEqual([]);
    expect(await warningsOf("swings", swings("bat_speed_mph", range(50, 80)))).toEqual([]);
    expect(await warningsOf("swings", swings("launch_angle_deg", range(-30, 60)))).toEqual([]);
  });

  const base = "hitter,input,exit_velocity_mph,launch_angle_deg";
  it.each([
    [
      "an exit velocity over 125 mph",
      `${base}\nAna,live,126,10\n`,
      /row 2: the row has an exit velocity over 125/,
    ],
    [
      "a pitch speed on a tee",
      `${base},pitch_speed_mph\nAna,tee,80,10,60\n`,
      /row 2: the row has a pitch speed on a tee/,
    ],
    [
      "foul ground called in play",
      `${base},spray_angle_deg\nAna,tee,80,10,46\n`,
      /row 2: .*outside fair territory/,
    ],
    ["a miss with an exit velocity", `${base},outcome\nAna,tee,80,10,miss\n`, /row 2: .*a miss or a take/],
    ["neither outcome nor speed", `${base}\nAna,tee,,\n`, /row 2: .*neither an outcome/],
    [
      "times going backwards",
      `${base},session,time\nA,tee,80,1,s,2026-05-01T10:00\nA,tee,80,2,s,2026-05-01T09:59\nA,tee,80,3,t,2026-05-01T09:00\n`,
      /row 3: .*before that of the session's swing/,
    ],
  ])("%s is warned of, once, with its row", async (_, text, pattern) => {
    const found = await warningsOf("swings", text);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(pattern);
  });

  it("is warned of once for many rows, with their count and the first", async () => {
    const found = await warningsOf("swings", swings("exit_velocity_mph", [80, 126, 127, 128]));
    expect(found).toEqual([
      "a.csv: 3 rows have an exit velocity over 125 mph, faster than players hit (first: row 3).",
    ]);
  });

  it("no foul ball is outside fair territory by mistake", async () => {
    expect(
      await warningsOf(
        "swings",
        `${base},spray_angle_deg,outcome\nAna,tee,80,10,60,foul\nAna,tee,80,10,45,in_play\n`,
      ),
    ).toEqual([]);
  });

  it.each([
    ["exit_velocity_mph", range(88, 124), /looks like km\/h/],
    ["exit_velocity_mph", range(18, 41), /looks like m\/s/],
    ["exit_velocity_mph", range(100, 165), /outside its limits, and looks like km\/h/],
    ["pitch_speed_mph", range(60, 109), /looks like km\/h/],
    ["pitch_speed_mph", range(100, 150), /outside its limits, and looks like km\/h/],
    ["contact_height_ft", range(0.4, 1.3), /looks like metres/],
    ["contact_height_ft", range(40, 130), /outside its limits, and looks like (in|cm)/],
    ["launch_angle_deg", range(-0.5, 0.9), /looks like radians/],
  ])("%s in other units (%j) is noticed", async (column, values, pattern) => {
    const found = await warningsOf("swings", swings(column, values));
    expect(found.filter((w) => w.includes(`${column} `) && pattern.test(w))).toHaveLength(1);
  });

  it.each([
    ["session,temperature_f\ns,24\n", /cold, or in °C/],
    ["session,altitude_ft,pressure_inhg\ns,5200,29.9\n", /reduced to sea level/],
    ["session,indoor,wind_mph,wind_toward_deg\ns,yes,8,0\n", /wind indoors/],
    ["session,wind_mph\ns,8\n", /wind without its direction/],
    ["session,tracker_distance_ft\ns,5.2\n", /close, or in metres/],
    ["session,tracker_distance_ft\ns,-5.2\n", /close, or in metres/],
  ])("a session like %j is warned of", async (text, pattern) => {
    const found = await warningsOf("sessions", text);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(pattern);
  });

  it("a station's pressure at its altitude is not", async () => {
    // US Standard Atmosphere 1976: 24.90 inHg at 5000 ft, 29.92 at sea level.
    expect(
      await warningsOf("sessions", "session,altitude_ft,pressure_inhg\ns,5000,24.9\nt,0,30.4\n"),
    ).toEqual([]);
  });

  it("a target without a limit is warned of", async () => {
    expect((await warningsOf("targets", "drill,launch_angle_deg_low\nup,\ndown,3\n")).join()).toMatch(
      /row 2: .*without a single limit/,
    );
  });

  it("names the library doesn't know are told, when there is one", async () => {
    const text = "session,hitter,input,outcome\nmay,Ana,tee,miss\njune,Bo,tee,miss\n";
    expect(await warningsOf("swings", text)).toEqual([]);
    const known = { sessions: new Set(["may"]), hitters: new Set(["Ana"]) };
    expect(await warningsOf("swings", text, known)).toEqual([
      `a.csv: session "june" is not in the library's sessions.csv (1 row).`,
      `a.csv: hitter "Bo" is not in the library's hitters.csv (1 row).`,
    ]);
  });
});
