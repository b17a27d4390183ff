import { readdir, readFile, writeFile } from "node:fs/promises";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { swingFields } from "../../src/swing/fields.ts";
import { swingOf } from "../../src/swing/unknown.ts";
import { csvCell, csvText, writeTable, writeWhole } from "../../src/library/write.ts";
import { inFolder, swingsFrom } from "../reading/support.ts";

describe("a cell", () => {
  it.each([
    ["=1+1", "'=1+1"],
    ["@sum", "'@sum"],
    ["+1", "'+1"],
    ["-x", "'-x"],
    ["'=x", "''=x"],
    ["a,b", '"a,b"'],
    ['say "hi"', '"say ""hi"""'],
    ["two\nlines", '"two\nlines"'],
    [-12.5, "-12.5"],
    [1e-7, "1e-7"],
    [NaN, ""],
    [null, ""],
    [false, "false"],
  ])("%j is written %j", (value, text) => expect(csvCell(value)).toBe(text));
});

describe("a table", () => {
  const text = fc
    .string({
      unit: fc.constantFrom("a", "Ω", "=", "+", "-", "@", "'", '"', ",", "\n", " ", "🙂"),
      minLength: 1,
      maxLength: 8,
    })
    .map((t) => t.trim())
    .filter((t) => !["", "-", "--", "NA"].includes(t));
  const number = (min: number, max: number): fc.Arbitrary<number> =>
    fc.double({ min, max, noNaN: true }).map((v) => v + 0);
  const swing = fc
    .record({
      swing_id: text,
      hitter: text,
      input: fc.constantFrom("tee" as const, "flip" as const, "live" as const),
      outcome: fc.constantFrom("in_play" as const, "foul" as const),
      exit_velocity_mph: number(5, 130),
      launch_angle_deg: number(-90, 90),
      spray_angle_deg: fc.option(number(-180, 180)),
      note: fc.option(text),
    })
    .map(swingOf);

  it("comes back from its file as it was, to the last digit", async () => {
    const rows = fc.uniqueArray(swing, { minLength: 1, maxLength: 8, selector: (s) => s.swing_id });
    await fc.assert(
      fc.asyncProperty(rows, async (table) => {
        const { rows: found, problems } = await swingsFrom(csvText(table, swingFields));
        expect(problems).toEqual([]);
        expect(found).toEqual(table);
      }),
    );
  });

  it("is a file only when it is whole", async () => {
    await inFolder({}, async (dir) => {
      const path = `${dir}/out.csv`;
      expect(await writeTable(path, [{ a: 1 }, { a: null }], [{ name: "a" }])).toBe(2);
      expect(await readFile(path, "utf8")).toBe("a\r\n1\r\n\r\n");
      async function* failing(): AsyncGenerator<string> {
        yield "half";
        throw new Error("stopped");
      }
      await expect(writeWhole(path, failing())).rejects.toThrow("stopped");
      expect(await readFile(path, "utf8")).toBe("a\r\n1\r\n\r\n");
      expect(await readdir(dir)).toEqual(["out.csv"]);
      await expect(writeWhole(`${dir}/none/out.csv`, ["x"])).rejects.toMatchObject({ code: "ENOENT" });
    });
  });

  it("longer than a stream holds at once is written whole", async () => {
    await inFolder({}, async (dir) => {
      const path = `${dir}/out.csv`;
      await writeFile(path, "before");
      const rows = Array.from({ length: 100_000 }, (_, i) => ({ a: i, b: "text" }));
      await writeTable(path, rows, [{ name: "a" }, { name: "b" }]);
      const lines = (await readFile(path, "utf8")).split("\r\n");
      expect(lines).toHaveLength(100_002);
      expect(lines[100_000]).toBe("99999,text");
    });
  });
});
