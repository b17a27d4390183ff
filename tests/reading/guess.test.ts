import fc from "fast-check";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readColumnMap, readSample, readSwings } from "../../src/library/files.ts";
import { answer, guessLayout, headingsKnown, type Guess } from "../../src/reading/guess.ts";
import { columnMapProblems } from "../../src/reading/maps.ts";
import { root } from "../house/files.ts";
import { inFolder } from "./support.ts";

const columns = (header: string[], rows: string[][] = []): Guess["map"]["columns"] =>
  guessLayout({ header, rows, delimiter: "," }).map.columns;
/** Ten rows with one column of these values. */
const column = (heading: string, values: number[], options = {}): unknown =>
  guessLayout({ header: [heading], rows: values.map((v) => [String(v)]), delimiter: "," }, options).map
    .columns[heading];

describe("a guessed map", () => {
  it.each(["Dir", "Launch Dir", "Launch Direction", "Horiz. Angle", "Horiz Angle (deg)", "Hor. Angle"])(
    "takes %s for the spray angle",
    (heading) => expect(columns([heading])[heading]).toBe("spray_angle_deg"),
  );

  it.each(["Vert. Angle", "Ver. Angle"])("takes %s for the launch angle", (heading) =>
    expect(columns([heading])[heading]).toBe("launch_angle_deg"),
  );

  it.each(["TeeBall", "Tee Ball", "Tee  ball", "T-Ball"])("takes %s for work off a tee", (word) => {
    const map = columns(["From"], [[word], [word]]);
    expect(Object.values((map["From"] as { words: Record<string, string> }).words)).toEqual(["tee"]);
  });

  it("knows the headings of the trade, with their units, and leaves out the rest", () => {
    expect(
      columns([
        "Batter",
        "Exit Velocity (km/h)",
        "Launch Angle",
        "Direction [rad]",
        "EV",
        "Firmware",
        "Note",
      ]),
    ).toEqual({
      Batter: "hitter",
      "Exit Velocity (km/h)": { field: "exit_velocity_mph", unit: "km/h" },
      "Launch Angle": "launch_angle_deg",
      "Direction [rad]": { field: "spray_angle_deg", unit: "rad" },
      EV: null,
      Firmware: null,
      Note: "note",
    });
  });

  it("knows plain words too, whichever way around", () => {
    expect(columns(["Up angle", "Height of contact in", "Depth of contact (cm)"])).toEqual({
      "Up angle": "launch_angle_deg",
      "Height of contact in": { field: "contact_height_ft", unit: "in" },
      "Depth of contact (cm)": { field: "contact_depth_ft", unit: "cm" },
    });
    expect(columns(["Launch angle", "Angle"])).toEqual({ "Launch angle": "launch_angle_deg", Angle: null });
  });

  it("tells units by the values where no heading does", () => {
    const speeds = [95, 120, 131, 140, 150, 128, 133, 119, 142, 151];
    expect(column("Ball speed", speeds)).toEqual({ field: "exit_velocity_mph", unit: "km/h" });
    expect(
      column(
        "Ball speed",
        speeds.map((v) => v / 3.6),
      ),
    ).toEqual({ field: "exit_velocity_mph", unit: "m/s" });
    expect(
      column(
        "Ball speed",
        speeds.map((v) => v / 1.609),
      ),
    ).toBe("exit_velocity_mph");
    expect(column("Rise", [0.2, 0.3, -0.1, 0.5, 0.4, 0.1])).toEqual({
      field: "launch_angle_deg",
      unit: "rad",
    });
    expect(column("Impact height", [0.7, 0.8, 0.9, 1, 0.6, 0.75])).toEqual({
      field: "contact_height_ft",
      unit: "m",
    });
  });

  it("holds speeds against what the hitters' level reaches", () => {
    const young = [80, 85, 90, 95, 100, 92, 88, 97];
    expect(column("Speed", young)).toBe("exit_velocity_mph");
    expect(column("Speed", young, { fastest_mph: 66 })).toEqual({ field: "exit_velocity_mph", unit: "km/h" });
  });

  it("tells side and input by their words, under any heading, and what the words mean", () => {
    const rows = [
      ["Righty", "Front toss"],
      ["Lefty", "machine"],
    ];
    expect(columns(["?", "A1"], rows)).toEqual({
      "?": { field: "bats", words: { righty: "R", lefty: "L" } },
      A1: { field: "input", words: { "front toss": "flip", machine: "live" } },
    });
  });

  it("takes no spin axis before it is told where its 0 is and which way it turns", () => {
    const heading = "Spin axis";
    const sample = { header: [heading], rows: [[180], [200], [90], [150], [270]].map(([v]) => [String(v)]) };
    const guess = guessLayout({ ...sample, delimiter: "," });
    expect(guess.map.columns[heading]).toBeNull();
    const [question] = guess.questions.filter(({ id }) => id === `sign:${heading}`);
    // Pure backspin is 0 here, and 90 curves toward right field: the field table's own words.
    const ours = (key: string, value: number): unknown => {
      const { map } = answer(guess, { [`sign:${heading}`]: key });
      const column = map.columns[heading] as string | { sign?: number; offset?: number };
      const { sign = 1, offset = 0 } = typeof column === "string" ? {} : column;
      return ((value * sign + offset + 540) % 360) - 180;
    };
    expect(question!.options).toHaveLength(5);
    for (const { key, text } of question!.options.filter((option) => option.key !== "")) {
      expect(ours(key, Number(/^\d+/.exec(text)![0])), text).toBe(0);
      expect(ours(key, 90), text).toBe(text.includes("right") ? 90 : -90);
    }
    expect(column("spin_axis_deg", [180, 200, 90, 150, 270])).toBe("spin_axis_deg");
    const clock = guessLayout({ header: [heading], rows: [["1:30"], ["12:00"], ["11:15"]], delimiter: "," });
    expect(clock.map.columns[heading]).toBeNull();
  });

  it("writes days as the sheet does, and takes none that could be two", () => {
    const dates = (...cells: string[]): unknown =>
      guessLayout({ header: ["Date"], rows: cells.map((c) => [c]), delimiter: "," }).map.dates;
    expect(dates("31/05/2026 09:30", "01/06/2026 09:31")).toBe("DD/MM/YYYY HH:mm");
    expect(dates("05/31/2026 9:30:01 PM")).toBe("MM/DD/YYYY hh:mm:ss A");
    expect(dates("05.06.2026")).toBe("DD.MM.YYYY");
    expect(dates("12 Apr 2026", "3 May 2026")).toBe("DD MMM YYYY");
    expect(dates("Apr. 12, 2026 9:30 AM", "May 3, 2026 10:02 AM")).toBe("MMM DD, YYYY hh:mm A");
    expect(dates("12 de abril de 2026")).toBe("DD de MMM de YYYY");
    expect(dates("12 Foo 2026")).toBeUndefined();
    expect(dates("2026-05-05T10:00:00")).toBeUndefined();
    const twice = guessLayout({ header: ["Date"], rows: [["05/06/2026"]], delimiter: "," });
    expect(twice.map.columns).toEqual({ Date: null });
    expect(twice.columns[0]!.reason).toContain('"DD/MM/YYYY" and "MM/DD/YYYY"');
  });

  it("tells the sign of sidespin by the direction, each hand by itself, once the direction's is settled", () => {
    // Balls curve toward the line they are hit to; a left-handed hitter's have another middle, which tells nothing.
    const rows = (turn: number): string[][] =>
      Array.from({ length: 40 }, (_, i) => {
        const direction = ((i * 17) % 60) - 30;
        const middle = i % 2 === 0 ? -900 : 900;
        return [
          i % 2 === 0 ? "L" : "R",
          String(direction),
          String(turn * (40 * direction + middle + ((i * 7) % 5) * 30)),
        ];
      });
    const of = (heading: string, turn: number): Guess =>
      guessLayout({ header: ["Bats", heading, "Side Spin (rpm)"], rows: rows(turn), delimiter: "," });
    const told = "Dir (+ = right field)";
    expect(of(told, 1).map.columns["Side Spin (rpm)"]).toBe("sidespin_rpm");
    expect(of(told, -1).map.columns["Side Spin (rpm)"]).toEqual({ field: "sidespin_rpm", sign: -1 });
    for (const turn of [1, -1])
      expect(of(told, turn).questions.map(({ id }) => id)).not.toContain("sign:Side Spin (rpm)");
    // Without a direction it is asked, with nothing held likely.
    const alone = guessLayout({
      header: ["Bats", "Side Spin (rpm)"],
      rows: rows(1).map(([bats, , spin]) => [bats!, spin!]),
      delimiter: ",",
    });
    expect(alone.map.columns["Side Spin (rpm)"]).toBeNull();
    expect(alone.questions.find(({ id }) => id === "sign:Side Spin (rpm)")).toMatchObject({
      likely: null,
      options: [{ key: "right" }, { key: "left" }, { key: "" }],
    });
  });

  it("asks how days are written that could be two, in the words of the first, and obeys", () => {
    const guess = (rows: string[][], answers = {}): Guess =>
      guessLayout({ header: ["Date", "Time"], rows, delimiter: ";" }, { answers });
    const both = [
      ["-", ""],
      [" 03/04/2025 ", "10:15"],
      ["05/06/2025", "10:16"],
    ];
    const asked = guess(both).questions.find(({ id }) => id === "dates")!;
    expect(asked.text).toBe('How are the days of "Date" written, such as 03/04/2025 10:15?');
    expect(asked.isNeeded).toBe(false);
    const keys = asked.options.map(({ key }) => key);
    expect(keys).toEqual(["DD/MM/YYYY HH:mm", "MM/DD/YYYY HH:mm", ""]);
    expect(guess(both).map).toMatchObject({ columns: { Date: null, Time: null } });
    for (const key of keys.slice(0, 2)) {
      const { map, questions } = guess(both, { dates: key });
      expect(map).toMatchObject({ dates: key, columns: { Date: "time", Time: "time" } });
      expect(questions.map(({ id }) => id)).not.toContain("dates");
    }
    // Left out, as somebody said, and not asked again; settled by one row, and not asked at all.
    const out = guess(both, { dates: "" });
    expect(out.map).toMatchObject({ columns: { Date: null, Time: null } });
    expect(out.questions.map(({ id }) => id)).not.toContain("dates");
    const settled = guess([...both, ["25/06/2025", "10:17"]]);
    expect(settled.map).toMatchObject({ dates: "DD/MM/YYYY HH:mm", columns: { Date: "time", Time: "time" } });
    expect(settled.questions.map(({ id }) => id)).not.toContain("dates");
  });

  it("asks what a comma parts where every number could be two, and not where one settles it", () => {
    const guess = (...cells: string[]): Guess =>
      guessLayout({ header: ["Backspin"], rows: cells.map((cell) => [cell]), delimiter: ";" });
    const ids = ({ questions }: Guess): string[] => questions.map(({ id }) => id);
    expect(ids(guess("1,234", "2,345"))).toContain("decimal");
    expect(ids(guess("1,234 rpm", "2,345 rpm"))).toContain("decimal");
    expect(ids(guess("900", "1,234"))).toContain("decimal");
    expect(ids(guess("1,234", "12,5"))).not.toContain("decimal");
    expect(guess("1,234", "12,5").map.decimal).toBe(",");
    expect(ids(guess("1234", "2345"))).not.toContain("decimal");
  });

  it("never takes birth dates and contacts, and says so", () => {
    const guess = guessLayout({ header: ["Name", "Birth date", "E-mail"], rows: [], delimiter: "," });
    expect(guess.map.columns).toEqual({ Name: "hitter", "Birth date": null, "E-mail": null });
    expect(guess.columns[1]!.reason).toBe("birth dates and contacts are never stored");
  });

  it("says what no column holds", () => {
    expect(guessLayout({ header: ["Player", "EV"], rows: [], delimiter: "," }).missing).toEqual([
      "input",
      "launch_angle_deg",
    ]);
    expect(
      guessLayout({ header: ["EV", "LA"], rows: [], delimiter: "," }, { filled: ["input", "hitter"] })
        .missing,
    ).toEqual([]);
  });

  it("of the metric sheet reads what its own map reads", async () => {
    const sheet = join(root, "data/maps/metric.csv");
    const guess = guessLayout(await readSample(sheet));
    const { map } = answer(guess, { "sign:Direction [rad]": "right" });
    const guessed = await readSwings(sheet, { map });
    const read = await readSwings(sheet, { map: await readColumnMap(join(root, "data/maps/metric.json")) });
    expect(guessed.rows).toHaveLength(5);
    guessed.rows.forEach((row, i) => {
      const {
        swing_id: _,
        contact_side_ft: __,
        contact_depth_ft: ___,
        contact_height_ft: ____,
        ...rest
      } = read.rows[i]!;
      expect(row).toMatchObject(rest);
    });
    expect(await readFile(sheet, "utf8")).toContain("n/v");
  });

  it("is a column map, whatever the sheet", () => {
    const cell = fc.oneof(
      fc.string(),
      fc.constantFrom("tee", "R", "12,5", "-3.4", "__proto__", "constructor", "05/06/2026"),
    );
    const heading = fc.oneof(
      cell,
      fc.constantFrom("EV", "Name", "First name", "Last name", "Speed (m/s)", "Date", "toString"),
    );
    fc.assert(
      fc.property(
        fc.array(heading, { maxLength: 8 }),
        fc.array(fc.array(cell, { maxLength: 8 }), { maxLength: 8 }),
        (header, rows) => {
          const guess = guessLayout({ header: header.map((h) => h.trim()), rows, delimiter: ";" });
          const found = columnMapProblems(JSON.parse(JSON.stringify(guess.map)));
          expect(found.filter((problem) => !/columns are empty|stands twice/.test(problem))).toEqual([]);
          expect(Object.prototype).not.toHaveProperty("field");
        },
      ),
    );
  });
});

describe("a sheet with a title over its headings", () => {
  it("is read from its headings on, and its rows keep their numbers", async () => {
    const title = "Practice of Tuesday,,,\nField 2,,,\n\n";
    await inFolder(
      { "a.csv": `${title}Player,Ball speed,Launch,Source\nBo,90,20,live\nBo,91,20,live\nBo,x,20,live\n` },
      async (dir) => {
        const sample = await readSample(join(dir, "a.csv"), headingsKnown);
        expect(sample.header).toEqual(["Player", "Ball speed", "Launch", "Source"]);
        const { rows, numbers, refused } = await readSwings(join(dir, "a.csv"), {
          map: guessLayout(sample).map,
        });
        expect([rows.length, numbers, refused.map((row) => row.row)]).toEqual([2, [5, 6], [7]]);
      },
    );
    await inFolder({ "a.csv": `${title}hitter,input,outcome,note\nBo,tee,miss,\n` }, async (dir) => {
      expect((await readSwings(join(dir, "a.csv"))).rows).toHaveLength(1);
    });
  });
});

describe("a sample", () => {
  it("is a file's headings and first rows, its delimiter told", async () => {
    await inFolder({ "a.csv": `Wer;Tempo\n${"Ana;100,5\n".repeat(1000)}` }, async (dir) => {
      const sample = await readSample(join(dir, "a.csv"));
      expect(sample).toMatchObject({ header: ["Wer", "Tempo"], delimiter: ";" });
      expect(sample.rows).toHaveLength(200);
    });
  });
});
