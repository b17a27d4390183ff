/** Reading CSV against RFC 4180 (Shafranovich, 2005), section 2: each rule with the RFC's own example. */
import { describe, expect, it } from "vitest";
import { Lines, Records } from "../../src/reading/records.ts";
import { csvText } from "../../src/library/write.ts";

function cells(text: string): (readonly string[])[] {
  const lines = new Lines();
  const records = new Records(",");
  const found = [...records.push(lines.push(text), false), ...records.push(lines.end(), true)];
  expect(found.every((r) => r.fault === null)).toBe(true);
  return found.map((r) => r.cells);
}

describe("RFC 4180, section 2", () => {
  it("1: each record on a line of its own, delimited by a line break (CRLF)", () => {
    expect(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
  });
  it("2: the last record may or may not have an ending line break", () => {
    expect(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
  });
  it("5: each field may or may not be enclosed in double quotes", () => {
    expect(cells('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
  });
  it("6: line breaks, double quotes and commas are enclosed in double quotes", () => {
    expect(cells('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ["aaa", "b\nbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
  });
  it("7: a double quote inside a field is escaped by another", () => {
    expect(cells('"aaa","b""bb","ccc"')).toEqual([["aaa", 'b"bb', "ccc"]]);
  });
  it("is how we write", () => {
    const fields = [{ name: "a" }, { name: "b" }];
    expect(
      csvText(
        [
          { a: 'b"bb', b: "c,c" },
          { a: "d\ne", b: null },
        ],
        fields,
      ),
    ).toBe('a,b\r\n"b""bb","c,c"\r\n"d\ne",\r\n');
  });
});
