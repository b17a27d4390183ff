import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { airFor, airWith, defaultAir, moistAirDensity, standardPressure } from "../../src/flight/air.ts";
import { ft, inHg, mph } from "../../src/units/index.ts";

describe("the air of a session", () => {
  it("is the default's where nothing is given, and says so", () => {
    for (const air of [airFor(null), airFor({}), airFor({ temperature_f: null, indoor: false })]) {
      expect(air).toEqual(defaultAir);
      expect(air.source).toBe("default");
      expect(air.assumed).toEqual(["70 °F", "sea-level pressure", "50 % humidity", "no wind"]);
    }
  });

  it("takes the station pressure before the altitude", () => {
    const air = airFor({ pressure_inhg: 25, altitude_ft: 1000 });
    expect(air.pressure_Pa).toBeCloseTo(25 * inHg, 9);
    expect(air.known.pressure).toBe("session");
    expect(air.source).toBe("session");
    expect(air.assumed).not.toContain("sea-level pressure");
  });

  it("takes the standard atmosphere's pressure at an altitude, and keeps the default temperature", () => {
    const air = airFor({ altitude_ft: 5280 });
    expect(air.pressure_Pa).toBeCloseTo(standardPressure(5280 * ft), 9);
    expect(air.temperature_K).toBe(defaultAir.temperature_K);
    expect(air.assumed).toEqual([
      "70 °F",
      "the standard atmosphere's pressure at the altitude",
      "50 % humidity",
      "no wind",
    ]);
  });

  it("assumes nothing when everything is given", () => {
    const air = airFor({
      temperature_f: 60,
      pressure_inhg: 29.5,
      humidity_pct: 30,
      wind_mph: 10,
      wind_toward_deg: 90,
    });
    expect(air.assumed).toEqual([]);
    expect(air.wind[0]).toBeCloseTo(10 * mph, 12);
    expect(air.wind[1]).toBeCloseTo(0, 12);
  });

  it("is the session's as soon as one quantity is given, and assumes the others alone", () => {
    const phrases = {
      temperature: "70 °F",
      pressure: "sea-level pressure",
      humidity: "50 % humidity",
      wind: "no wind",
    };
    const alone = {
      temperature: { temperature_f: 70 },
      pressure: { pressure_inhg: 29.921 },
      humidity: { humidity_pct: 50 },
      wind: { wind_mph: 0 },
    };
    for (const [name, session] of Object.entries(alone)) {
      const air = airFor(session);
      expect(air.source, name).toBe("session");
      const others = Object.entries(phrases).filter(([other]) => other !== name);
      expect(air.assumed, name).toEqual(others.map(([, phrase]) => phrase));
      for (const [quantity, known] of Object.entries(air.known))
        expect(known, `${quantity} beside ${name}`).toBe(quantity === name ? "session" : "default");
    }
  });

  it("blows to where the wind goes: 0 out to center field, −90 toward the left-field side", () => {
    expect(airFor({ wind_mph: 10, wind_toward_deg: 0 }).wind[1]).toBeCloseTo(10 * mph, 12);
    expect(airFor({ wind_mph: 10, wind_toward_deg: -90 }).wind[0]).toBeCloseTo(-10 * mph, 12);
  });

  it("uses no wind without its direction, and says why", () => {
    const air = airFor({ wind_mph: 12 });
    expect(air.wind).toEqual([0, 0]);
    expect(air.assumed).toContain("no wind, as the wind's direction isn't given");
    expect(airFor({ wind_mph: 0 }).assumed).not.toContain("no wind");
  });

  it("has no wind under a roof, and says its carry is as if outdoors", () => {
    const air = airFor({ indoor: true, wind_mph: 10, wind_toward_deg: 0, temperature_f: 68 });
    expect(air.wind).toEqual([0, 0]);
    expect(air.known.wind).toBe("none");
    expect(air.assumed.join()).toContain("as if outdoors in this air");
    expect(air.source).toBe("session");
    expect(airFor({ indoor: true }).source).toBe("default");
  });
});

describe("density", () => {
  it("falls with heat and damp and rises with pressure", () => {
    const state = fc.record({
      temperature_K: fc.double({ min: 250, max: 325, noNaN: true }),
      pressure_Pa: fc.double({ min: 55_000, max: 108_000, noNaN: true }),
      humidity: fc.double({ min: 0, max: 0.9, noNaN: true }),
    });
    fc.assert(
      fc.property(state, (s) => {
        const density = moistAirDensity(s);
        expect(moistAirDensity({ ...s, temperature_K: s.temperature_K + 1 })).toBeLessThan(density);
        expect(moistAirDensity({ ...s, humidity: s.humidity + 0.1 })).toBeLessThan(density);
        expect(moistAirDensity({ ...s, pressure_Pa: s.pressure_Pa + 100 })).toBeGreaterThan(density);
        expect(airWith(defaultAir, s).density).toBe(density);
      }),
    );
  });

  it.each([
    { temperature_K: 0, pressure_Pa: 1e5, humidity: 0.5 },
    { temperature_K: 290, pressure_Pa: -1, humidity: 0.5 },
    { temperature_K: 290, pressure_Pa: 1e5, humidity: 50 },
    { temperature_K: NaN, pressure_Pa: 1e5, humidity: 0.5 },
  ])("refuses what is no air: $temperature_K K, $pressure_Pa Pa, $humidity", (state) => {
    expect(() => moistAirDensity(state)).toThrow(RangeError);
  });

  it("refuses an altitude outside the layer", () => {
    expect(() => standardPressure(12_000)).toThrow(RangeError);
    expect(() => standardPressure(NaN)).toThrow(RangeError);
  });
});
