import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  cellReader,
  dateReader,
  dayFrom,
  isDateFormat,
  numberFrom,
  Refusal,
  timeFrom,
} from "../../src/swing/cells.ts";
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
    expect(reasonOf(numberFrom("1.250,5", ","))).toMatch(/thousands/);
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

describe("days and times", () => {
  it("are those that the calendar has", () => {
    // The calendar of ECMAScript's Date, which is the proleptic Gregorian one of ISO 8601.
    const part = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(fc.integer({ min: 1900, max: 2400 }), part, part, (year, month, day) => {
        const text = `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
        const date = new Date(Date.UTC(year, month - 1, day));
        const real = date.getUTCMonth() === month - 1 && date.getUTCDate() === day && month > 0;
        expect(typeof dayFrom(text) === "string").toBe(real);
        expect(typeof timeFrom(`${text}T10:00`) === "string").toBe(real);
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    "2026-05-31",
    "2026-05-31T09:30",
    "2026-05-31T09:30:15",
    "2026-05-31T09:30:15.250",
    "2026-05-31T09:30:15Z",
    "2026-05-31T09:30:15+02:00",
  ])("%s is read as it stands", (text) => expect(timeFrom(text)).toBe(text));

  it.each([
    "31.5.2026",
    "2026-5-31",
    "05/31/2026",
    "2026-05-31T25:00",
    "2026-05-31T09:61",
    "2026-02-29",
    "2026",
    "now",
  ])("%s is refused", (text) => expect(timeFrom(text)).toBeInstanceOf(Refusal));

  it("are read in a layout's own form", () => {
    const read = dateReader("MM/DD/YYYY hh:mm A", "datetime");
    expect(read("5/31/2026 12:05 am")).toBe("2026-05-31T00:05:00");
    expect(read("05/31/2026 12:05 PM")).toBe("2026-05-31T12:05:00");
    expect(read("05/31/2026 1:05 PM")).toBe("2026-05-31T13:05:00");
    expect(read("05/31/2026")).toBe("2026-05-31");
    for (const text of ["13/31/2026 1:05 PM", "05/31/2026 13:05 PM", "2/29/2026 1:00 AM", "2026-05-31"]) {
      expect(read(text)).toBeInstanceOf(Refusal);
    }
  });

  it("need a year, a month and a day in their form, each once", () => {
    expect(isDateFormat("DD.MM.YYYY")).toBe(true);
    for (const format of ["MM.YYYY", "DD.DD.MM.YYYY", "DD.MM.YYYY hh:mm", "YYYY-MM-DD HH:mm A", ""]) {
      expect(isDateFormat(format)).toBe(false);
    }
  });
});
