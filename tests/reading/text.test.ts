/** From bytes to text: encodings, line ends, blank lines and width. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { columnMapFrom } from "../../src/reading/maps.ts";
import { UnusableFile } from "../../src/swing/problems.ts";
import { swingFields } from "../../src/swing/fields.ts";
import { csvText } from "../../src/library/write.ts";
import { swingsFrom } from "./support.ts";
import { cpu_ms } from "../cpu.ts";

const head = "hitter,input,exit_velocity_mph,launch_angle_deg,note";
const latin = (text: string): Buffer => Buffer.from(text, "latin1");

async function refusal(content: string | Uint8Array, options = {}): Promise<string> {
  const error = await swingsFrom(content, options).then(
    () => null,
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(UnusableFile);
  return (error as UnusableFile).message;
}

describe("bytes that are not UTF-8", () => {
  const old = latin(`${head}\r\nAna,tee,80,10,\r\n"Jos\xe9 N\xfa\xf1ez",tee,81,12,5 \x80\r\n`);

  it("are not guessed at: the refusal says where they are, and what they would be as Windows-1252", async () => {
    for (const pieceSize of [old.length, 64]) {
      expect(await refusal(old, { pieceSize })).toBe(
        'a.csv is not UTF-8 text: if line 3 should say "José Núñez", "add" reads it with --encoding windows-1252, or a column map with "encoding": "windows-1252"; if not, save it as CSV (UTF-8).',
      );
    }
  });

  it("are found far into a file of many pieces", async () => {
    const rows = Array.from({ length: 3000 }, (_, i) => `Zoë,tee,80,${i % 40},n${i}`).join("\n");
    const bytes = Buffer.concat([Buffer.from(`${head}\n${rows}\n`), latin("Ren\xe9e,tee,80,10,\n")]);
    for (const pieceSize of [5000, 4097])
      expect(await refusal(bytes, { pieceSize })).toContain('if line 3002 should say "Renée"');
  });

  it("are no Windows-1252 where a byte stands for nothing there", async () => {
    const bytes = latin(`${head}\nX\x81Y,tee,80,10,\n`);
    expect(await refusal(bytes)).toBe(
      "a.csv is not UTF-8 text: look at line 2, and save it as CSV (UTF-8), or name its encoding in a column map.",
    );
    const map = columnMapFrom({ encoding: "windows-1252" }, "m.json");
    expect(await refusal(bytes, { map })).toMatch(/not WINDOWS-1252 text/);
  });

  it("are read where a map names their encoding, and needs to say nothing else", async () => {
    const map = columnMapFrom({ encoding: "windows-1252" }, "m.json");
    for (const pieceSize of [1, 7, old.length]) {
      const { rows, problems } = await swingsFrom(old, { map, pieceSize });
      expect(problems).toEqual([]);
      expect(rows.map((r) => [r.hitter, r.note])).toEqual([
        ["Ana", null],
        ["José Núñez", "5 €"],
      ]);
    }
    const central = columnMapFrom({ encoding: "windows-1250" }, "m.json");
    const { rows } = await swingsFrom(latin(`${head}\nJi\xf8\xed Kova\xe8,tee,80,10,\n`), { map: central });
    expect(rows[0]!.hitter).toBe("Jiří Kovač");
  });

  it("cut off in the middle of a character are refused too", async () => {
    expect(await refusal(Buffer.from(`${head}\nAna,tee,80,10,é`).subarray(0, -1))).toMatch(
      /is not UTF-8 text: /,
    );
  });

  it("with a mark of UTF-8 or UTF-16 are what the mark says, whatever a map says", async () => {
    const map = columnMapFrom({ encoding: "windows-1252" }, "m.json");
    const text = `\ufeff${head}\nZoë,tee,80,10,\n`;
    for (const bytes of [Buffer.from(text), Buffer.from(text, "utf16le")])
      expect((await swingsFrom(bytes, { map })).rows.map((r) => r.hitter)).toEqual(["Zoë"]);
  });

  it("never pass for another text than the one they were written as", async () => {
    const name = fc
      .string({ unit: fc.constantFrom("a", "é", "ñ", "ü", "Ø", "ß", "z"), minLength: 1, maxLength: 8 })
      .filter((text) => /[^a-z]/.test(text));
    await fc.assert(
      fc.asyncProperty(name, async (hitter) => {
        const bytes = latin(`${head}\n${hitter},tee,80,10,\n`);
        // A few such bytes happen to be UTF-8 as well; none of these is.
        expect(await refusal(bytes)).toContain(`"${hitter}"`);
      }),
      { numRuns: 50 },
    );
  });
});

describe("lines", () => {
  const rows = ["Ana,tee,80,10,one", "Bo,live,90,12,two"];
  it.each(["\n", "\r\n", "\r"])(
    "may end with %j, and blank ones after the last row say nothing",
    async (end) => {
      for (const tail of [
        "",
        end,
        end.repeat(40),
        `${end}  ${end}\t${end}`,
        `${end},,,,${end} , ,,,${end}`,
      ]) {
        for (const pieceSize of [1, 3, 4096]) {
          const {
            rows: found,
            problems,
            read,
          } = await swingsFrom([head, ...rows].join(end) + tail, { pieceSize });
          expect({ problems, read }).toEqual({ problems: [], read: 2 });
          expect(found.map((r) => r.note)).toEqual(["one", "two"]);
        }
      }
    },
  );

  it("may end in three ways in one file, quoted cells among them", async () => {
    const text = `${head}\rAna,tee,80,10,"a\rb"\r\nBo,tee,81,10,"c\r\nd"\nCy,tee,82,10,"e\n\nf"\r\r`;
    for (const pieceSize of [1, 2, 5, 4096]) {
      const { rows: found, problems } = await swingsFrom(text, { pieceSize });
      expect(problems).toEqual([]);
      expect(found.map((r) => r.note)).toEqual(["a\nb", "c\nd", "e\n\nf"]);
    }
  });
});

describe("a file of thousands of columns", () => {
  const wide = 6000;
  const names = Array.from({ length: wide }, (_, i) => `channel ${i}`);
  const line = (cells: readonly string[]): string =>
    `${[...cells, ...names.map((_, i) => `"${i}"`)].join(",")}\n`;

  it("is read in its own columns, in one warning, soon", async () => {
    const text =
      `${head},${names.join(",")}\n` +
      Array.from({ length: 60 }, (_, i) => line(["Ana", "tee", "80", String(i % 40), `n${i}`])).join("") +
      line(["Ana", "tee", "fast", "10", ""]);
    const start = cpu_ms();
    const { rows, refused, problems } = await swingsFrom(text, { pieceSize: 1 << 16 });
    expect(cpu_ms() - start).toBeLessThan(5000);
    expect(rows).toHaveLength(60);
    expect(Object.keys(rows[0]!)).toEqual(swingFields.map((f) => f.name));
    expect(refused.map((r) => [r.row, r.cells.length])).toEqual([[62, wide + 5]]);
    expect(problems).toHaveLength(2);
    expect(problems[0]!.reason).toMatch(/channel 0, .* and 5988 more$/);
    expect(problems[0]!.reason.length).toBeLessThan(400);
  });

  it("is written with what a text was, and read back", async () => {
    const fields = [...swingFields, ...names.map((name) => ({ name }))];
    const blank = Object.fromEntries(fields.map((f) => [f.name, null]));
    const row = { ...blank, hitter: "=Ana", input: "tee", outcome: "miss", [names.at(-1)!]: "-x" };
    const { rows } = await swingsFrom(csvText([row], fields));
    expect(rows.map((r) => r.hitter)).toEqual(["=Ana"]);
  });
});
