/**
 * The air a ball flies through: its density from temperature, pressure and humidity, and the wind.
 *
 * Density is the CIPM-2007 equation for moist air: A. Picard, R. S. Davis, M. Gläser and K. Fujii,
 * "Revised formula for the density of moist air (CIPM-2007)", Metrologia 45 (2008) 149-155, at 400 ppm of
 * carbon dioxide. The equation is certified from 15 to 27 °C and 600 to 1100 hPa; outside, on any day a ball
 * is hit, it departs from other formulas by less than a part in a thousand.
 */
import type { Session } from "../swing/fields.ts";
import { deg, ft, inHg, kelvinFromFahrenheit, mph } from "../units/index.ts";

/** Standard gravity, m/s² (3rd General Conference on Weights and Measures, 1901). */
export const gravity = 9.80665;

/** Temperature (K), station pressure (Pa) and relative humidity (0 to 1) of moist air. */
export interface AirState {
  readonly temperature_K: number;
  readonly pressure_Pa: number;
  readonly humidity: number;
}

/** Where a quantity of the air came from; `wind: "none"` is a roof overhead. */
export interface AirKnowledge {
  readonly temperature: "session" | "default";
  readonly pressure: "session" | "altitude" | "default";
  readonly humidity: "session" | "default";
  readonly wind: "session" | "default" | "none";
}

/** Air and wind, as a flight needs them. */
export interface Air extends AirState {
  /** kg/m³. */
  readonly density: number;
  /** Toward +x and +y, m/s. */
  readonly wind: readonly [number, number];
  /** `session` when the session gave at least one of temperature, pressure, altitude, humidity and wind. */
  readonly source: "session" | "default";
  readonly known: AirKnowledge;
  /** One phrase for everything that was assumed, for showing beside a carry. */
  readonly assumed: readonly string[];
}

// CIPM-2007, its equations (1) to (A1.4): constants by the names they have there.
const R = 8.314472;
const Ma = 28.96546e-3;
const Mv = 18.01528e-3;

/** Saturation vapour pressure over water, Pa (CIPM-2007, equation A1.1). */
function saturationPressure(T: number): number {
  return Math.exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T);
}

/**
 * Density of moist air, kg/m³, by the CIPM-2007 equation with the compressibility factor, the enhancement
 * factor and 400 ppm of carbon dioxide.
 * @throws RangeError when the temperature or the pressure isn't above zero, or the humidity isn't from 0 to 1.
 * @example moistAirDensity({ temperature_K: 293.15, pressure_Pa: 101325, humidity: 0.5 }) // 1.19931
 */
export function moistAirDensity({ temperature_K: T, pressure_Pa: p, humidity: h }: AirState): number {
  if (!(T > 0 && Number.isFinite(T))) throw new RangeError(`a temperature of ${T} K isn't one of air`);
  if (!(p > 0 && Number.isFinite(p))) throw new RangeError(`a pressure of ${p} Pa isn't one of air`);
  if (!(h >= 0 && h <= 1)) throw new RangeError(`a relative humidity of ${h} isn't from 0 to 1`);
  const t = T - 273.15;
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  const xv = (h * enhancement * saturationPressure(T)) / p;
  const pT = p / T;
  const Z =
    1 -
    pT *
      (1.58123e-6 -
        2.9331e-8 * t +
        1.1043e-10 * t * t +
        (5.707e-6 - 2.051e-8 * t) * xv +
        (1.9898e-4 - 2.376e-6 * t) * xv * xv) +
    pT * pT * (1.83e-11 - 0.765e-8 * xv * xv);
  return ((p * Ma) / (Z * R * T)) * (1 - xv * (1 - Mv / Ma));
}

const seaLevel = { temperature_K: 288.15, pressure_Pa: 101_325 };
const lapse = 0.0065;
const gasConstant = 287.05287;
const earthRadius = 6_356_766;

/** Geopotential altitude, m, from geometric altitude, m (ISO 2533, equation 8). */
function geopotential(altitude_m: number): number {
  return (earthRadius * altitude_m) / (earthRadius + altitude_m);
}

/**
 * Pressure of the standard atmosphere, Pa, at a geometric altitude below 11 km (ISO 2533:1975, the layer with
 * a lapse of 6.5 K a kilometre).
 * @throws RangeError outside −5 to 11 km.
 * @example standardPressure(1000) // 89876
 */
export function standardPressure(altitude_m: number): number {
  const ratio = standardTemperature(altitude_m) / seaLevel.temperature_K;
  return seaLevel.pressure_Pa * ratio ** (gravity / (gasConstant * lapse));
}

/**
 * Temperature of the standard atmosphere, K, at a geometric altitude below 11 km (ISO 2533:1975).
 * @throws RangeError outside −5 to 11 km.
 * @example standardTemperature(1000) // 281.651
 */
export function standardTemperature(altitude_m: number): number {
  if (!(altitude_m >= -5000 && altitude_m <= 11_000)) {
    throw new RangeError(`an altitude of ${altitude_m} m is outside −5 to 11 km`);
  }
  return seaLevel.temperature_K - lapse * geopotential(altitude_m);
}

/**
 * Altitude, m, at which the standard atmosphere has a pressure (Pa): the inverse of `standardPressure`.
 * @throws RangeError when the pressure isn't above zero.
 * @example standardAltitude(89876) // 1000
 */
export function standardAltitude(pressure_Pa: number): number {
  if (!(pressure_Pa > 0)) throw new RangeError(`a pressure of ${pressure_Pa} Pa isn't one of air`);
  const ratio = (pressure_Pa / seaLevel.pressure_Pa) ** ((gasConstant * lapse) / gravity);
  const level = (seaLevel.temperature_K / lapse) * (1 - ratio);
  return (earthRadius * level) / (earthRadius - level);
}

const defaults: AirState = { temperature_K: kelvinFromFahrenheit(70), pressure_Pa: 101_325, humidity: 0.5 };

/** What a session says of its air; a field left out is unknown. */
export type SessionAir = Partial<
  Pick<
    Session,
    | "indoor"
    | "temperature_f"
    | "pressure_inhg"
    | "altitude_ft"
    | "humidity_pct"
    | "wind_mph"
    | "wind_toward_deg"
  >
>;

function windOf(session: SessionAir): {
  wind: readonly [number, number];
  known: AirKnowledge["wind"];
  assumed: string[];
} {
  if (session.indoor === true) {
    return { wind: [0, 0], known: "none", assumed: ["indoors: carry is as if outdoors in this air"] };
  }
  const speed = session.wind_mph ?? null;
  const toward = session.wind_toward_deg ?? null;
  if (speed === 0) return { wind: [0, 0], known: "session", assumed: [] };
  if (speed === null) return { wind: [0, 0], known: "default", assumed: ["no wind"] };
  if (toward === null) {
    return { wind: [0, 0], known: "default", assumed: ["no wind, as the wind's direction isn't given"] };
  }
  const angle = toward * deg;
  return {
    wind: [speed * mph * Math.sin(angle), speed * mph * Math.cos(angle)],
    known: "session",
    assumed: [],
  };
}

/**
 * The air of a session: the station pressure it gives, else the standard atmosphere's at its altitude, else the
 * default's; temperature, humidity and wind each from the session, else from the default air (70 °F,
 * 101 325 Pa, 50 %, no wind). Under a roof there is no wind, and the carry is as if outdoors in this air.
 * `assumed` has a phrase for each quantity the session didn't give.
 * @example airFor({ altitude_ft: 5280 }).pressure_Pa // 83431.8
 */
export function airFor(session: SessionAir | null): Air {
  const given = session ?? {};
  const temperature_f = given.temperature_f ?? null;
  const pressure_inhg = given.pressure_inhg ?? null;
  const altitude_ft = given.altitude_ft ?? null;
  const humidity_pct = given.humidity_pct ?? null;
  const { wind, known: windKnown, assumed: windAssumed } = windOf(given);
  const known: AirKnowledge = {
    temperature: temperature_f === null ? "default" : "session",
    pressure: pressure_inhg !== null ? "session" : altitude_ft !== null ? "altitude" : "default",
    humidity: humidity_pct === null ? "default" : "session",
    wind: windKnown,
  };
  const state: AirState = {
    temperature_K: temperature_f === null ? defaults.temperature_K : kelvinFromFahrenheit(temperature_f),
    pressure_Pa:
      pressure_inhg !== null
        ? pressure_inhg * inHg
        : altitude_ft !== null
          ? standardPressure(altitude_ft * ft)
          : defaults.pressure_Pa,
    humidity: humidity_pct === null ? defaults.humidity : humidity_pct / 100,
  };
  const assumed = [
    ...(known.temperature === "default" ? ["70 °F"] : []),
    ...(known.pressure === "default"
      ? ["sea-level pressure"]
      : known.pressure === "altitude"
        ? ["the standard atmosphere's pressure at the altitude"]
        : []),
    ...(known.humidity === "default" ? ["50 % humidity"] : []),
    ...windAssumed,
  ];
  const nothing =
    known.temperature === "default" &&
    known.pressure === "default" &&
    known.humidity === "default" &&
    known.wind !== "session";
  return {
    ...state,
    density: moistAirDensity(state),
    wind,
    source: nothing ? "default" : "session",
    known,
    assumed,
  };
}

/** The air used when nothing is known: 70 °F, 101 325 Pa, 50 % humidity, no wind. */
export const defaultAir: Air = airFor(null);

/** An air with some of its state or its wind changed: the density follows. */
export function airWith(air: Air, change: Partial<AirState & Pick<Air, "wind">>): Air {
  const changed = { ...air, ...change };
  return { ...changed, density: moistAirDensity(changed) };
}
