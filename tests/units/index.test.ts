/** Conversions against NIST Special Publication 811 (2008), appendix B, and the agreement of 1959. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as units from "../../src/units/index.ts";

describe("factors", () => {
  it.each([
    ["mph", 0.44704],
    ["ft", 0.3048],
    ["inch", 0.0254],
    ["oz", 0.028349523125],
    ["inHg", 3386.389],
    ["hPa", 100],
    ["kmh", 0.2777778],
    ["deg", 0.01745329],
    ["rpm", 0.1047198],
  ] as const)("%s is %d in SI", (name, value) => {
    expect(units[name] / value).toBeCloseTo(1, 6);
  });

  it("0 °C is 32 °F, −40 is both, and 70 °F is 294.261 K", () => {
    expect(units.convert(32, "F", "C")).toBeCloseTo(0, 12);
    expect(units.convert(-40, "F", "C")).toBeCloseTo(-40, 10);
    expect(units.kelvinFromFahrenheit(70)).toBeCloseTo(294.2611, 4);
    expect(units.fahrenheitFromKelvin(273.15)).toBeCloseTo(32, 12);
  });
});

describe("convert", () => {
  it("comes back where it started, for every pair of one dimension", () => {
    const name = fc.constantFrom(...units.unitNames);
    fc.assert(
      fc.property(name, name, fc.double({ min: -1e4, max: 1e4, noNaN: true }), (a, b, value) => {
        fc.pre(units.dimension(a) === units.dimension(b));
        expect(units.convert(units.convert(value, a, b), b, a)).toBeCloseTo(value, 6);
      }),
    );
  });

  it("refuses to make one thing of another", () => {
    expect(() => units.convert(1, "mph", "ft")).toThrow(RangeError);
    expect(units.isUnitName("mph")).toBe(true);
    expect(units.isUnitName("toString")).toBe(false);
  });
});
