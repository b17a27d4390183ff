import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSwings } from "../../src/library/files.ts";
import { swingFields } from "../../src/swing/fields.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { Seen, UnusableFile } from "../../src/reading/read.ts";
import { inFolder, readFrom, swingsFrom } from "./support.ts";

const head = "hitter,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg,note";
const good = "Ana,tee,81.5,12.5,-18.4,";

/** The sentence a file is refused with. */
async function refusal(content: string | Uint8Array): Promise<string> {
  const error = await swingsFrom(content).then(
    () => null,
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(UnusableFile);
  return (error as UnusableFile).message;
}

describe("a file", () => {
  const text = `${head}\nJosé,tee,81.5,12.5,,ok\n`;
  const utf16 = (bigEndian: boolean): Buffer => {
    const bytes = Buffer.from(`\ufeff${text}`, "utf16le");
    return bigEndian ? bytes.swap16() : bytes;
  };
  it.each([
    ["UTF-8", Buffer.from(text)],
    ["UTF-8 with its mark", Buffer.from(`\ufeff${text}`)],
    ["UTF-16, little end first", utf16(false)],
    ["UTF-16, big end first", utf16(true)],
    ["with CRLF", Buffer.from(text.replaceAll("\n", "\r\n"))],
    ["with CR", Buffer.from(text.replaceAll("\n", "\r"))],
    ["without a last line end", Buffer.from(text.trimEnd())],
    ["that names its delimiter", Buffer.from(`sep=;\n${text.replaceAll(",", ";")}`)],
    ["with tabs", Buffer.from(text.replaceAll(",", "\t"))],
    [
      "with headings in capitals and words apart",
      Buffer.from(text.replace(head, head.toUpperCase().replaceAll("_", " "))),
    ],
  ])("%s is read", async (_, bytes) => {
    for (const pieceSize of [1, 7, 4096]) {
      const { rows, problems } = await swingsFrom(bytes, { pieceSize });
      expect(rows.map((r) => [r.hitter, r.exit_velocity_mph, r.note])).toEqual([["José", 81.5, "ok"]]);
      expect(problems).toEqual([]);
    }
  });

  it.each([
    ["empty", "", /is empty/],
    ["blank", "\n \n\n", /is empty/],
    ["header only", `${head}\n`, /heading row and nothing under it/],
    ["a web page", "<!DOCTYPE html><html></html>", /web page/],
    ["JSON", '[{"hitter": "Ana"}]', /JSON/],
    ["a spreadsheet", Buffer.from("504b030414000600", "hex"), /spreadsheet/],
    ["binary", Buffer.from([1, 2, 0, 4, 5, 6, 7, 200, 201]), /not text/],
    ["UTF-16 without its mark", Buffer.from(text, "utf16le"), /UTF-16/],
    ["in another encoding", Buffer.from(text, "latin1"), /not UTF-8/],
    [
      "without a needed column",
      "hitter,exit_velocity_mph,launch_angle_deg\nAna,90,10\n",
      /the column input /,
    ],
    ["without any column known", "a,b\n1,2\n", /hitter, input, exit_velocity_mph, launch_angle_deg/],
    ["with a column twice", `${head},Hitter\n${good},x\n`, /more than one column for hitter/],
    ["of one endless line", "x".repeat(3 << 20), /so long/],
  ])("%s is refused in one sentence", async (_, content, reason) => {
    const sentence = await refusal(content);
    expect(sentence).toMatch(reason);
    expect(sentence).toMatch(/^a\.csv .+\.$/);
    expect(sentence).not.toContain("\n");
  });

  it("that is missing or a folder says so, and that the call is at fault", async () => {
    await inFolder({}, async (dir) => {
      await expect(readSwings(`${dir}/none.csv`)).rejects.toMatchObject({
        fault: "call",
        reason: "does not exist",
      });
      await expect(readSwings(dir)).rejects.toMatchObject({
        fault: "call",
        reason: "is a folder, not a file",
      });
    });
  });

  it("is told by its SHA-256", async () => {
    // sha256sum of the bytes "hitter,input,outcome\nAna,tee,miss\n", by GNU coreutils.
    const { sha256 } = await swingsFrom("hitter,input,outcome\nAna,tee,miss\n");
    expect(sha256).toBe("9e38fcbcb9b9f3f09bae3ff259bc46ebf6bfa14d0904e0bfc1aa5255d5e405b1");
  });

  it("says once which columns are kept out", async () => {
    const { problems, rows } = await swingsFrom(`${head},speed,\u001b[31mred\n${good},1,2\n${good}x,3,4\n`);
    expect(rows).toHaveLength(2);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.reason).toContain("speed");
    expect(problemSentence(problems[0]!)).not.toContain("\u001b");
  });

  it("with computed columns says that they are computed anew", async () => {
    const { problems } = await swingsFrom(`${head},carry_ft,Bucket,mood\n${good},300,flush,fine\n`);
    expect(problems.map((p) => p.reason)).toEqual([
      "kept out are the columns that the kit doesn't know: mood",
      "kept out, to be computed anew, are the columns carry_ft, Bucket",
    ]);
  });

  it("of semicolons has decimal commas when its numbers show them", async () => {
    const rows = async (cells: string): Promise<(number | null)[]> =>
      (await swingsFrom(`${head.replaceAll(",", ";")}\n${cells}\n`)).rows.map((r) => r.exit_velocity_mph);
    expect(await rows("Ana;tee;81,5;12;;")).toEqual([81.5]);
    expect(await rows("Ana;tee;81.5;12;;")).toEqual([81.5]);
    // 12,345 might be twelve thousand: alone it proves nothing, and is not guessed at.
    expect(await rows("Ana;tee;81;12,345;;")).toEqual([]);
  });
});

describe("a row", () => {
  const reasons = async (row: string): Promise<string[]> => {
    const { rows, refused, read } = await swingsFrom(`${head}\n${good}\n${row}\n`);
    expect(rows).toHaveLength(1);
    expect(read).toBe(2);
    expect(refused).toHaveLength(1);
    expect(refused[0]!.row).toBe(3);
    return refused[0]!.problems.map(problemSentence);
  };

  it.each([
    ["Ana,tee,81.5,12.5,-18.4", "a.csv, row 3: the row has 5 cells, where the heading row has 6."],
    ["Ana,tee,81.5,12.5,-18.4,,7", "a.csv, row 3: the row has 7 cells, where the heading row has 6."],
    [",tee,81.5,12.5,-18.4,", "a.csv, row 3: hitter is missing."],
    ["Ana,,81.5,12.5,-18.4,", "a.csv, row 3: input is missing."],
    ["Ana,toss,81.5,12.5,-18.4,", 'a.csv, row 3: input "toss" is not one of tee, flip, live.'],
    ["Ana,tee,NaN,12.5,-18.4,", 'a.csv, row 3: exit_velocity_mph "NaN" is not a finite number.'],
    ["Ana,tee,1e999,12.5,-18.4,", 'a.csv, row 3: exit_velocity_mph "1e999" is too large to be a number.'],
    [
      "Ana,tee,145,12.5,-18.4,",
      'a.csv, row 3: exit_velocity_mph "145" is over 130 mph: 5 to 130 mph is expected.',
    ],
    [
      "Ana,tee,81.5,-91,-18.4,",
      'a.csv, row 3: launch_angle_deg "-91" is under −90°: −90 to 90° is expected.',
    ],
    ["Ana,tee,81.5,,-18.4,", "a.csv, row 3: launch_angle_deg is missing, and a ball in play needs it."],
  ])("%s is refused with its reason", async (row, sentence) =>
    expect(await reasons(row)).toEqual([sentence]),
  );

  it("is refused with every reason, and kept as it stood", async () => {
    const { refused } = await swingsFrom(`${head}\n,tee,x,100,,"a,b"\n`);
    expect(refused[0]!.problems.map((p) => p.field)).toEqual([
      "exit_velocity_mph",
      "launch_angle_deg",
      "hitter",
    ]);
    expect(refused[0]!.cells).toEqual(["", "tee", "x", "100", "", "a,b"]);
  });

  it("has its outcome filled in only where there is an exit velocity", async () => {
    const { rows } = await swingsFrom(
      "hitter,input,outcome,exit_velocity_mph,launch_angle_deg\na,tee,,90,1\nb,tee,miss,,\nc,tee,foul,70,\nd,tee,,,5\n",
    );
    expect(rows.map((r) => r.outcome)).toEqual(["in_play", "miss", "foul", null]);
  });

  it("with no more than blanks in it doesn't count, but moves the numbers on", async () => {
    const { read, numbers } = await swingsFrom(`${head}\n,,,,,\n\n${good}\n  \n${good}x\n`);
    expect(read).toBe(2);
    expect(numbers).toEqual([4, 6]);
  });

  it("may hold any text", async () => {
    const names = ["=1+1", "<img src=x onerror=alert(1)>", "__proto__", "constructor", "Ω 漢字 🙂"];
    const { rows } = await swingsFrom(`${head}\n${names.map((n) => `${n},tee,90,1,,${n}`).join("\n")}\n`);
    expect(rows.map((r) => r.hitter)).toEqual(names);
    expect(rows.map((r) => r.note)).toEqual(names);
    expect(Object.keys(rows[2]!)).toEqual(swingFields.map((f) => f.name));
  });

  it("can't reach an object's own names through a heading", async () => {
    const { rows, problems } = await swingsFrom(`${head},__proto__,constructor,toString\n${good},x,y,z\n`);
    expect(({} as Record<string, unknown>)["x"]).toBeUndefined();
    expect(Object.getPrototypeOf(rows[0])).toBe(Object.prototype);
    expect(Object.keys(rows[0]!)).toEqual(swingFields.map((f) => f.name));
    expect(problems[0]!.reason).toContain("__proto__, constructor, toString");
  });
});

describe("a swing's own name", () => {
  const idsOf = async (text: string): Promise<(string | null)[]> =>
    (await swingsFrom(text)).rows.map((r) => r.swing_id);

  it("is the same for the same content, whatever the columns' order and the numbers' digits", async () => {
    const [a] = await idsOf("hitter,input,exit_velocity_mph,launch_angle_deg\nAna,tee,81.50,12\n");
    const [b] = await idsOf("launch_angle_deg;input;note;exit_velocity_mph;hitter\n12.0;Tee ;NA;81.5;Ana\n");
    expect(a).toMatch(/^[0-9a-f]{16}$/);
    expect(b).toBe(a);
  });

  it("stays what it is from one version to the next", async () => {
    // The first 64 bits of the SHA-256 of the documented text, computed with Python's hashlib.
    expect(await idsOf(`${head}\n${good}\n`)).toEqual(["6e65d2cdc9349e6d"]);
  });

  it("differs when anything differs", async () => {
    const rows = [
      "Ana,tee,81.5,12.5,,",
      "Ana,tee,81.5,12.6,,",
      "Ana,tee,81.5,12.5,1,",
      "Ana,flip,81.5,12.5,,",
      "Anna,tee,81.5,12.5,,",
    ];
    const ids = await idsOf(`${head}\n${rows.join("\n")}\n`);
    expect(new Set(ids).size).toBe(rows.length);
  });

  it("tells a copy, which is counted once", async () => {
    const { rows, duplicates, problems, read } = await swingsFrom(`${head}\n${good}\n${good}\n`);
    expect([rows.length, duplicates, read]).toEqual([1, 1, 2]);
    expect(problems.map(problemSentence)).toEqual([
      "a.csv, row 3: the row is an exact copy of row 2, and is counted once.",
    ]);
  });

  it("given twice with different content is refused the second time", async () => {
    const { rows, refused } = await swingsFrom(`swing_id,${head}\n7,${good}\n7,${good}x\n7,${good}\n`);
    expect(rows.map((r) => [r.swing_id, r.note])).toEqual([["7", null]]);
    expect(refused.map((r) => problemSentence(r.problems[0]!))).toEqual([
      'a.csv, row 3: swing_id "7" stands in row 2 already, with other values.',
    ]);
  });

  it("is told across files", async () => {
    const seen = new Seen();
    await swingsFrom(`${head}\n${good}\n`, { seen, name: "monday.csv" });
    const second = await swingsFrom(`${head}\n${good}\n`, { seen });
    expect(second.duplicates).toBe(1);
    expect(problemSentence(second.problems[0]!)).toContain("row 2 of monday.csv");
  });
});

describe("the tables beside the swings", () => {
  it("are read with their own rules", async () => {
    const sessions = await readFrom(
      "sessions",
      "session,date,indoor,temperature_f\nA,2026-05-01,Yes,70\nB,2026-02-30,no,70\nC,,maybe,70\n",
    );
    expect(sessions.rows.map((s) => [s.session, s.indoor])).toEqual([["A", true]]);
    expect(sessions.refused.flatMap((r) => r.problems.map((p) => p.field))).toEqual(["date", "indoor"]);
    const hitters = await readFrom("hitters", "hitter,bats,height_in\nAna,s,66\nAna,R,66\nBo,X,66\n");
    expect(hitters.rows.map((h) => [h.hitter, h.bats])).toEqual([["Ana", "S"]]);
    expect(hitters.refused).toHaveLength(2);
    const targets = await readFrom(
      "targets",
      "drill,launch_angle_deg_low,launch_angle_deg_high\nup,8,20\ndown,20,8\n",
    );
    expect(targets.rows.map((t) => t.drill)).toEqual(["up"]);
    expect(problemSentence(targets.refused[0]!.problems[0]!)).toContain("is over launch_angle_deg_high, 8");
  });
});

describe("anything at all", () => {
  /** Nothing is lost: rows are taken, refused, or copies of one taken; or the file is refused in a sentence. */
  async function holds(content: string | Uint8Array, pieceSize: number): Promise<number | null> {
    try {
      const reading = await swingsFrom(content, { pieceSize });
      expect(reading.rows.length + reading.refused.length + reading.duplicates).toBe(reading.read);
      expect(reading.numbers).toHaveLength(reading.rows.length);
      expect(reading.refused.every((r) => r.problems.length > 0 && r.cells.length > 0)).toBe(true);
      expect(reading.rows.every((r) => typeof r.swing_id === "string" && r.hitter !== "")).toBe(true);
      for (const problem of reading.problems) expect(problemSentence(problem)).toMatch(/^a\.csv[^\n]*\.$/);
      return reading.read;
    } catch (error) {
      expect(error).toBeInstanceOf(UnusableFile);
      expect((error as UnusableFile).message).toMatch(/^a\.csv [^\n]+\.$/);
      return null;
    }
  }
  const pieceSize = fc.integer({ min: 1, max: 64 });

  it("of bytes is read or refused", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uint8Array({ maxLength: 200 }),
        pieceSize,
        async (bytes, size) => void (await holds(bytes, size)),
      ),
      { numRuns: 300 },
    );
  });

  it("of headings and cells keeps every row", async () => {
    const heading = fc.oneof(fc.constantFrom(...swingFields.map((f) => f.name)), fc.string({ maxLength: 8 }));
    const cell = fc.oneof(
      fc.constantFrom(
        "Ana",
        "tee",
        "90",
        "12.5",
        "-",
        "NaN",
        '"',
        '""',
        '"a',
        'a"',
        "\n",
        "\r",
        "=1+1",
        "in_play",
        "1e999",
        "2026-05-01",
      ),
      fc.double().map(String),
      fc.string({ maxLength: 6 }),
    );
    const table = fc.record({
      headings: fc.array(heading, { maxLength: 8 }),
      rows: fc.array(fc.array(cell, { maxLength: 14 }), { maxLength: 8 }),
      delimiter: fc.constantFrom(",", ";", "\t"),
      end: fc.constantFrom("\n", "\r\n", "\r"),
    });
    await fc.assert(
      fc.asyncProperty(table, pieceSize, async ({ headings, rows, delimiter, end }, size) => {
        const header = ["hitter", "input", "exit_velocity_mph", "launch_angle_deg", ...headings];
        await holds([header, ...rows].map((row) => row.join(delimiter)).join(end), size);
      }),
      { numRuns: 500 },
    );
  });

  it("of well-formed rows counts each of them", async () => {
    const cell = fc.string({
      unit: fc.constantFrom("a", "1", ".", "-", " ", '"', ",", "\n", "é"),
      maxLength: 5,
    });
    const rows = fc.array(fc.tuple(cell, cell, cell, cell), { minLength: 1, maxLength: 12 });
    await fc.assert(
      fc.asyncProperty(rows, pieceSize, async (table, size) => {
        const quoted = table.map((row) => row.map((c) => `"${c.replaceAll('"', '""')}"`).join(","));
        const full = table.filter((row) => row.some((c) => c.trim() !== "")).length;
        const read = await holds(
          `hitter,input,exit_velocity_mph,launch_angle_deg\n${quoted.join("\n")}\n`,
          size,
        );
        expect(read).toBe(full === 0 ? null : full);
      }),
      {
        numRuns: 300,
        examples: [
          [
            [
              ["", '"', '"', ""],
              ["", "", "", ""],
            ],
            1,
          ],
          [[["", "", '"', '"']], 1],
        ],
      },
    );
  });
});
