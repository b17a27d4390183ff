import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fromColumns, toColumns } from "../../src/swing/columns.ts";

const fields = [{ name: "a" }, { name: "b" }, { name: "c" }];

describe("columns", () => {
  it("come back as the rows they were made of, through JSON too", () => {
    const value = fc.oneof(fc.constant(null), fc.integer(), fc.string(), fc.boolean());
    const rows = fc.array(fc.record({ a: value, b: value, c: fc.constant(null) }));
    fc.assert(
      fc.property(rows, (table) => {
        const columns = JSON.parse(JSON.stringify(toColumns(table, fields))) as ReturnType<typeof toColumns>;
        expect(fromColumns(columns, fields)).toEqual(table.map((row) => ({ ...row })));
        expect(Object.keys(columns.columns)).not.toContain("c");
      }),
    );
  });

  it("take only fields that are asked for, and none of an object's own", () => {
    const table = JSON.parse('{"n":1,"columns":{"__proto__":[1],"x":[2],"a":[3]}}') as ReturnType<
      typeof toColumns
    >;
    expect(fromColumns(table, [...fields, { name: "toString" }])).toEqual([
      { a: 3, b: null, c: null, toString: null },
    ]);
  });

  it("of unequal length are refused", () => {
    expect(() => fromColumns({ n: 2, columns: { a: [1] } }, fields)).toThrow(RangeError);
  });
});
