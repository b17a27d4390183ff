import { describe, expect, it } from "vitest";
import { sessionFields, swingFields, type Field } from "../../src/swing/fields.ts";
import { outsideIn, outsideLimits } from "../../src/swing/limits.ts";

const fieldNamed = (name: string): Field =>
  ([...swingFields, ...sessionFields] as readonly Field[]).find((f) => f.name === name)!;

describe("a value outside its field's limits", () => {
  it.each([
    ["launch_angle_deg", 120, "is over 90°: −90 to 90° is expected"],
    ["humidity_pct", -5, "is under 0 %: 0 to 100 % is expected"],
    ["temperature_f", 200, "is over 130 °F: −20 to 130 °F is expected"],
    ["temperature_f", 293, "is over 130 °F: −20 to 130 °F is expected, and this looks like K"],
    ["pressure_inhg", 1013.25, "is over 32 inHg: 16 to 32 inHg is expected, and this looks like hPa"],
    ["pressure_inhg", 101325, "is over 32 inHg: 16 to 32 inHg is expected, and this looks like Pa"],
    ["wind_mph", 300, "is over 80 mph: 0 to 80 mph is expected"],
  ])("%s %d", (name, value, reason) => expect(outsideLimits(fieldNamed(name), value)).toBe(reason));

  it("is none at the limits themselves, and none where nothing is given", () => {
    for (const field of [...swingFields, ...sessionFields] as readonly Field[]) {
      if (field.type !== "number") continue;
      expect(outsideLimits(field, field.min!)).toBeNull();
      expect(outsideLimits(field, field.max!)).toBeNull();
      expect(outsideLimits(field, field.max! + 1)).not.toBeNull();
    }
    expect(outsideIn({ wind_mph: null, humidity_pct: 50 }, sessionFields)).toEqual([]);
  });
});
