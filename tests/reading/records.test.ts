import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { delimiters, Lines, Records, type Delimiter, type RawRecord } from "../../src/reading/records.ts";
import { cpu_ms } from "../cpu.ts";

/** All records of a text given in pieces. */
function records(text: string, delimiter: Delimiter = ",", pieceSize = text.length || 1): RawRecord[] {
  const lines = new Lines();
  const reader = new Records(delimiter);
  const found: RawRecord[] = [];
  for (let at = 0; at < text.length; at += pieceSize) {
    found.push(...reader.push(lines.push(text.slice(at, at + pieceSize)), false));
  }
  found.push(...reader.push(lines.end(), true));
  return found;
}

const cells = (text: string, delimiter: Delimiter = ","): (readonly string[])[] =>
  records(text, delimiter).map((r) => r.cells);

describe("lines", () => {
  it("end with LF, CRLF or CR, wherever the pieces part", () => {
    const text = "a\r\nb\nc\rd\r\n\r\ne";
    for (let size = 1; size <= text.length; size++) {
      const lines = new Lines();
      const found: string[] = [];
      for (let at = 0; at < text.length; at += size) found.push(...lines.push(text.slice(at, at + size)));
      found.push(...lines.end());
      expect(found).toEqual(["a", "b", "c", "d", "", "e"]);
    }
  });
});

describe("records", () => {
  it("are counted as a spreadsheet counts rows, blank ones too", () => {
    const found = records('a,b\n\n1,2\n"x\ny",3\n4,5\n');
    expect(found.map((r) => [r.row, r.cells])).toEqual([
      [1, ["a", "b"]],
      [3, ["1", "2"]],
      [4, ["x\ny", "3"]],
      [5, ["4", "5"]],
    ]);
  });

  it("take a quotation mark inside an unquoted cell as it stands", () => {
    expect(cells(`6'2" tall,1\n`)).toEqual([[`6'2" tall`, "1"]]);
  });

  it("lose one line, and not the file, to a quotation mark that is never closed", () => {
    const found = records('a,b\n"open,1\n2,3\n4,5\n');
    expect(found.map((r) => [r.row, r.fault === null])).toEqual([
      [1, true],
      [2, false],
      [3, true],
      [4, true],
    ]);
    expect(found[1]!.cells).toEqual(['"open,1']);
    expect(found[1]!.fault).toMatch(/quotation mark/);
  });

  it("leave out blanks after a closing quotation mark, before a delimiter, at a line's end and where a cell goes on", () => {
    expect(cells('"Ada, K."  ,tee\n')).toEqual([["Ada, K.", "tee"]]);
    expect(cells('"a;x" ;"b"  \n"c\nd"  ;e\n', ";")).toEqual([
      ["a;x", "b"],
      ["c\nd", "e"],
    ]);
    expect(records('"Ada, K."  ,"tee"  \n').map((r) => r.fault)).toEqual([null]);
  });

  it("refuse a line with text after a closing quotation mark", () => {
    const found = records('a\n"b"c\nd\n');
    expect(found.map((r) => r.fault === null)).toEqual([true, false, true]);
  });

  it("give up on a file whose quotation marks never match, instead of reading it over and over", () => {
    // Each of these lines leaves a cell open, alone and after another.
    const lines = Array.from({ length: 60_000 }, () => 'x","');
    const reader = new Records(",");
    const start = cpu_ms();
    for (let at = 0; at < lines.length && !reader.isHopeless; at += 1000) {
      reader.push(lines.slice(at, at + 1000), false);
    }
    expect(reader.isHopeless).toBe(true);
    expect(cpu_ms() - start).toBeLessThan(20_000);
  });

  it("give back any cells that were written with quotation marks, whatever the delimiter and the pieces", () => {
    const cell = fc.string({
      unit: fc.constantFrom("a", '"', ",", ";", "\t", "|", "\n", " ", "é", "1"),
      maxLength: 6,
    });
    const table = fc
      .integer({ min: 1, max: 4 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
      );
    const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
    fc.assert(
      fc.property(
        table,
        fc.constantFrom(...delimiters),
        fc.constantFrom("\n", "\r\n"),
        fc.integer({ min: 1, max: 9 }),
        (rows, delimiter, end, size) => {
          const text = rows.map((row) => row.map(quoted).join(delimiter) + end).join("");
          const found = records(text, delimiter, size);
          expect(found.map((r) => r.fault)).toEqual(rows.map(() => null));
          expect(found.map((r) => r.cells)).toEqual(rows);
        },
      ),
      { numRuns: 300 },
    );
  });
});
