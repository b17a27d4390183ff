import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellReader, numberFrom, Refusal } from "../../src/reading/cells.ts";
import { swingFields, sessionFields, type Field } from "../../src/swing/fields.ts";

const fieldNamed = (name: string): Field => [...swingFields, ...sessionFields].find((f) => f.name === name)!;
const reasonOf = (found: unknown): string => {
  expect(found).toBeInstanceOf(Refusal);
  return (found as Refusal).reason;
};

describe("numbers", () => {
  it.each([
    ["92.4", 92.4],
    ["+3", 3],
    [".5", 0.5],
    ["5.", 5],
    ["1e2", 100],
    ["\u221212.5", -12.5],
  ])("%s is read", (text, value) => expect(numberFrom(text, ".")).toBe(value));

  it("are never a negative zero", () => expect(Object.is(numberFrom("-0", "."), 0)).toBe(true));

  it.each([
    ["NaN", /finite/],
    ["Infinity", /finite/],
    ["-inf", /finite/],
    ["1e999", /too large/],
    ["-1e999", /too large/],
    ["2,340", /thousands/],
    ["92,4", /decimal comma/],
    ["92.4 mph", /more than a number/],
    ["0x10", /number/],
    ["1_000", /number/],
    ["fast", /not a number/],
    ["--5", /not a number/],
  ])("%s is refused, and told why", (text, reason) =>
    expect(reasonOf(numberFrom(text, "."))).toMatch(reason),
  );

  it("keep to the decimal comma where the file has it", () => {
    expect(numberFrom("92,4", ",")).toBe(92.4);
    expect(reasonOf(numberFrom("92.4", ","))).toMatch(/decimal point/);
    expect(numberFrom("1.250,5", ",")).toBe(1250.5);
    expect(reasonOf(numberFrom("1,2,3", ","))).toMatch(/number/);
  });

  it("come back from their own text exactly, in both ways of writing decimals", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(numberFrom(String(value), ".")).toBe(value + 0);
        expect(numberFrom(String(value).replace(".", ","), ",")).toBe(value + 0);
      }),
    );
  });

  it("have limits in the field's own unit, whatever unit they come in", () => {
    const read = cellReader(fieldNamed("exit_velocity_mph"), { unit: "km/h" });
    expect(read("160.9344")).toBeCloseTo(100, 12);
    expect(reasonOf(read("240"))).toBe("(149.13 mph) is over 130 mph: 5 to 130 mph is expected");
    expect(reasonOf(cellReader(fieldNamed("exit_velocity_mph"))("4"))).toBe(
      "is under 5 mph: 5 to 130 mph is expected",
    );
  });
});

describe("words", () => {
  const read = cellReader(fieldNamed("input"));
  it("don't mind capitals and blanks around them", () => expect(read(" Tee ")).toBe("tee"));
  it("are refused with the words there are", () =>
    expect(reasonOf(read("toss"))).toBe("is not one of tee, flip, live"));
  it("don't come from an object's own names", () => {
    for (const name of ["constructor", "__proto__", "toString"]) expect(read(name)).toBeInstanceOf(Refusal);
  });
});

describe("unknown", () => {
  it.each(["", "  ", "-", "--", "NA", " NA "])("%j is null in every kind of field", (text) => {
    for (const name of ["exit_velocity_mph", "hitter", "input", "time", "date", "indoor"]) {
      expect(cellReader(fieldNamed(name))(text)).toBeNull();
    }
  });
});
