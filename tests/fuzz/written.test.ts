/** What is written for a spreadsheet: no text starts a formula, numbers stay numbers, and each text comes back. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellReader } from "../../src/reading/cells.ts";
import { dateReader, isDateFormat, otherForms } from "../../src/reading/dates.ts";
import { swingFields, type Field } from "../../src/swing/fields.ts";
import { guarded, unguarded } from "../../src/swing/guard.ts";
import { missingValues } from "../../src/reading/cells.ts";
import { csvAsItStood, csvCell, csvText } from "../../src/library/write.ts";
import { cellsOf, expectUnpolluted, often, startsFormula, text } from "./support.ts";
import { cpu_ms } from "../cpu.ts";

const note: Field = swingFields.find((f) => f.name === "note")!;
const known = text.map((t) => t.trim().normalize("NFC").trim()).filter((t) => !missingValues.includes(t));

describe("a text", () => {
  it("is guarded where a spreadsheet would compute it, and comes back as it was", () => {
    fc.assert(
      fc.property(text, (value) => {
        expect(startsFormula(guarded(value))).toBe(false);
        expect(unguarded(guarded(value))).toBe(value);
        // Guarded twice, it loses one guard a time.
        expect(unguarded(guarded(guarded(value)))).toBe(guarded(value));
      }),
      often(2000),
    );
  });

  it("is the same cell to another parser, and the same text to our reader", () => {
    const read = cellReader(note);
    fc.assert(
      fc.property(known, (value) => {
        const [[cell]] = cellsOf(`${csvCell(value)},\n`) as [[string]];
        expect(cell).toBe(guarded(value));
        expect(read(cell)).toBe(value);
      }),
      often(2000),
    );
  });
});

describe("a number", () => {
  it("is written as a number, to the last digit", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(csvCell(value)).toMatch(/^-?\d+(\.\d+)?(e[-+]?\d+)?$/);
        expect(Number(csvCell(value))).toBe(value + 0);
      }),
      often(1000),
    );
  });

  it("of another file keeps its digits, its sign and its comma", () => {
    const number = fc.stringMatching(/^[-+]?\d{1,4}([.,]\d{1,3})?$/);
    fc.assert(
      fc.property(number, (value) => {
        expect(cellsOf(`${csvAsItStood(value)},\n`)[0]![0]).toBe(value);
      }),
      often(500),
    );
    for (const value of ["", "-", "--", "NA"]) expect(csvAsItStood(value)).toBe(value);
  });
});

it("a table of any headings and texts has no cell that starts a formula", () => {
  const table = fc.uniqueArray(text, { minLength: 1, maxLength: 6 }).chain((names) =>
    fc.record({
      names: fc.constant(names),
      rows: fc.array(fc.array(text, { maxLength: names.length }), { maxLength: 5 }),
    }),
  );
  fc.assert(
    fc.property(table, ({ names, rows }) => {
      const objects = rows.map((row) => Object.fromEntries(row.map((value, i) => [names[i]!, value])));
      const cells = cellsOf(
        csvText(
          objects,
          names.map((name) => ({ name })),
        ),
      ).flat();
      expect(cells.filter(startsFormula)).toEqual([]);
      expectUnpolluted();
    }),
    often(500),
  );
});

describe("a date format", () => {
  const format = fc.array(
    fc.oneof(
      fc.constantFrom(
        "YYYY",
        "YY",
        "MM",
        "DD",
        "HH",
        "hh",
        "mm",
        "ss",
        "A",
        "/",
        ".",
        " ",
        "T",
        "(",
        "+",
        "\\",
      ),
      text,
    ),
    { maxLength: 9 },
  );
  const cell = fc.oneof(
    fc.stringMatching(/^[\d/. :APM-]{0,24}$/),
    text,
    fc.constant(`${"1 ".repeat(5000)}x`),
  );
  it("of any text is known for one or not, and reads any cell without delay", () => {
    fc.assert(
      fc.property(format, cell, (parts, value) => {
        const start = cpu_ms();
        const joined = parts.join("");
        if (isDateFormat(joined)) dateReader(joined, "datetime")(value);
        else expect(() => dateReader(joined, "date")).toThrow(RangeError);
        otherForms(value, "datetime");
        expect(cpu_ms() - start).toBeLessThan(1000);
      }),
      often(2000),
    );
  });
});
