import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PackedRows } from "../../src/library/packed-rows.ts";
import type { Field } from "../../src/swing/fields.ts";

const field = (name: string, type: Field["type"]): Field => ({ name, type, title: name, description: name });
const fields = [field("a", "number"), field("t", "string"), field("b", "number"), field("c", "boolean")];

interface Row {
  a: number | null;
  t: string | null;
  b: number | null;
  c: boolean | null;
}

describe("packed rows", () => {
  it("give back what was put in, in order, as often as asked", () => {
    const number = fc.option(fc.double({ noNaN: true }), { nil: null });
    const row = fc.record({
      a: number,
      t: fc.option(fc.string({ unit: "grapheme", maxLength: 30 }), { nil: null }),
      b: number,
      c: fc.option(fc.boolean(), { nil: null }),
    });
    fc.assert(
      fc.property(fc.array(row), (rows) => {
        const packed = new PackedRows<Row>(fields);
        for (const r of rows) packed.push(r);
        expect(packed.length).toBe(rows.length);
        expect([...packed]).toEqual(rows);
        expect([...packed]).toEqual(rows);
        const values = rows.map((_, i) => [packed.value(i, "a"), packed.value(i, "t"), packed.value(i, "c")]);
        expect(values).toEqual(rows.map(({ a, t, c }) => [a, t, c]));
      }),
    );
  });

  it("go on over the end of a block", () => {
    const packed = new PackedRows<Row>(fields);
    for (let i = 0; i < 10_000; i++)
      packed.push({ a: i, t: `name ${i % 7} of a hitter`, b: null, c: i % 2 === 0 });
    let i = 0;
    for (const row of packed) {
      expect(row).toEqual({ a: i, t: `name ${i % 7} of a hitter`, b: null, c: i % 2 === 0 });
      i++;
    }
    expect(i).toBe(10_000);
  });
});
