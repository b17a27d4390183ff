/** Air density against published tables. */
import { describe, expect, it } from "vitest";
import {
  defaultAir,
  moistAirDensity,
  standardAltitude,
  standardPressure,
  standardTemperature,
} from "../../src/flight/air.ts";

describe("the standard atmosphere (ISO 2533:1975; US Standard Atmosphere, 1976)", () => {
  // Geometric altitude m, temperature K, pressure hPa, density kg/m³; temperatures and pressures from memory.
  const table = [
    [0, 288.15, 1013.25, 1.225],
    [1000, 281.651, 898.76, 1.1117],
    [2000, 275.154, 795.01, 1.0066],
    [3000, 268.659, 701.21, 0.9093],
  ] as const;

  it.each(table)("at %d m has %d K and %d hPa", (altitude, temperature, pressure) => {
    expect(standardTemperature(altitude)).toBeCloseTo(temperature, 3);
    expect(standardPressure(altitude) / 100).toBeCloseTo(pressure, 1);
    expect(standardAltitude(standardPressure(altitude))).toBeCloseTo(altitude, 6);
  });

  it.each(table)(
    "at %d m has its density as dry air by CIPM-2007, to 5 in 10 000",
    (altitude, _t, _p, density) => {
      const ours = moistAirDensity({
        temperature_K: standardTemperature(altitude),
        pressure_Pa: standardPressure(altitude),
        humidity: 0,
      });
      // The standard atmosphere is an ideal gas of its own: CIPM-2007 has 400 ppm of CO₂ and compressibility.
      expect(Math.abs(ours / density - 1)).toBeLessThan(5e-4);
    },
  );
});

describe("moist air (Kaye & Laby; CRC Handbook)", () => {
  const mmHg = 133.322;

  it("weighs 1.199 kg/m³ at 20 °C, 760 mmHg and 50 %", () => {
    expect(moistAirDensity({ temperature_K: 293.15, pressure_Pa: 760 * mmHg, humidity: 0.5 })).toBeCloseTo(
      1.199,
      3,
    );
  });

  // D = 1.2929 (273.13/T) (B − 0.3783 e)/760; saturation pressure of water, mmHg, from the handbook's table.
  it.each([
    [0, 4.58],
    [10, 9.21],
    [20, 17.54],
    [30, 31.82],
    [40, 55.32],
  ])("at %d °C follows the handbook's formula to 5 in 10 000", (celsius, saturation) => {
    for (const B of [600, 700, 760, 790]) {
      for (const humidity of [0, 0.3, 0.6, 1]) {
        const T = 273.13 + celsius;
        const formula = (1.2929 * (273.13 / T) * (B - 0.3783 * humidity * saturation)) / 760;
        const ours = moistAirDensity({ temperature_K: celsius + 273.15, pressure_Pa: B * mmHg, humidity });
        expect(Math.abs(ours / formula - 1)).toBeLessThan(5e-4);
      }
    }
  });
});

describe("the default air", () => {
  it("is 70 °F, 101 325 Pa, 50 %, no wind", () => {
    expect(defaultAir.temperature_K).toBeCloseTo(294.261, 3);
    expect(defaultAir.pressure_Pa).toBe(101_325);
    expect(defaultAir.humidity).toBe(0.5);
    expect(defaultAir.wind).toEqual([0, 0]);
  });
});
