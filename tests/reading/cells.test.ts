import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellReader, numberFrom, Refusal } from "../../src/reading/cells.ts";
import { hitterFields, swingFields, sessionFields, type Field } from "../../src/swing/fields.ts";

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

describe("a number's limits and unit", () => {
  const speed = cellReader(fieldNamed("exit_velocity_mph"));

  it("are kept to at both ends, whatever is added or turned", () => {
    expect([speed("5"), speed("130")]).toEqual([5, 130]);
    expect(speed("4.99")).toBeInstanceOf(Refusal);
    expect(speed("130.01")).toBeInstanceOf(Refusal);
    const angle = cellReader(fieldNamed("launch_angle_deg"), { sign: -1, offset: 10 });
    expect([angle("100"), angle("-80"), angle("0")]).toEqual([-90, 90, 10]);
    expect(reasonOf(angle("101"))).toMatch(/^\(−91°\) is under −90°/);
  });

  it("may stand behind each number, the column's own and no other", () => {
    expect(speed("92.4 mph")).toBe(92.4);
    expect(reasonOf(speed("148.7 km/h"))).toBe("is in km/h, where this column is in mph");
    expect(reasonOf(speed("92.4 ft"))).toBe("is in ft, which can't become mph");
    expect(reasonOf(speed("92,4 mph"))).toMatch(/decimal comma/);
    const withUnits = cellReader(fieldNamed("exit_velocity_mph"), { unit: "km/h", unitInCells: true });
    expect(withUnits("160.9344 km/h")).toBeCloseTo(100, 12);
    expect(reasonOf(withUnits("160.9344"))).toBe("has no unit, where the column's other cells say km/h");
  });
});

describe("a name of a table", () => {
  it("is read as the table writes it; another is refused where the table is all there is", () => {
    const ball = cellReader(fieldNamed("ball"));
    expect([ball("baseball"), ball(" Baseball ")]).toEqual(["baseball", "baseball"]);
    expect(reasonOf(ball("tennis"))).toMatch(/baseball/);
    expect(ball("")).toBeNull();
  });

  it("of a level may be one that the table doesn't know: it is warned of elsewhere", () => {
    const level = cellReader(hitterFields.find(({ name }) => name === "level")!);
    expect(level("UNDER 12")).toBe("under 12");
    expect(level("Coast league")).toBe("Coast league");
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
