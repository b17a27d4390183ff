/**
 * How far each thing a carry is computed from may be off: one table of standard deviations, each with its reason.
 * The range of a carry, its draws and the documentation all read it here.
 */
import { deg, ft, fahrenheitFromKelvin, inHg, kelvinFromFahrenheit, mph, rpm } from "../units/index.ts";
import { moistAirDensity, standardPressure, type Air, type AirState } from "./air.ts";
import type { Launch } from "./launch.ts";
import type { SpinSource } from "./spin.ts";

/** One line of the table. */
export interface Spread {
  /** Standard deviation, in the unit beside it. */
  readonly sd: number;
  readonly unit: "mph" | "deg" | "rpm" | "F" | "inHg" | "ft" | "pct" | "Cd";
  readonly reason: string;
}

const practice = "common practice, no source";

/** The table. */
export const spreads = {
  exitVelocity: { sd: 1, unit: "mph", reason: `a tracker's reading of the ball's speed; ${practice}` },
  launchAngle: { sd: 1, unit: "deg", reason: `a tracker's reading of the angle; ${practice}` },
  sprayAngle: { sd: 1, unit: "deg", reason: `a tracker's reading of the direction; ${practice}` },
  spinMeasured: { sd: 100, unit: "rpm", reason: `backspin and sidespin each, as measured; ${practice}` },
  spinRate: {
    sd: 100,
    unit: "rpm",
    reason: `the rate as measured, with its axis or alone; ${practice}`,
  },
  spinAxis: { sd: 5, unit: "deg", reason: `the axis as measured, beside the rate; ${practice}` },
  spinEstimated: {
    sd: 500,
    unit: "rpm",
    reason: `backspin and sidespin each, about the estimate from the launch: how far balls hit alike differ; across a rate measured alone, too; ${practice}`,
  },
  drag: {
    sd: 0.02,
    unit: "Cd",
    reason: `from ball to ball: seams, roughness and how the ball is turned as it flies; ${practice}`,
  },
  temperatureGiven: {
    sd: 2,
    unit: "F",
    reason: `the session's reading against the air on the field; ${practice}`,
  },
  temperatureDefault: { sd: 15, unit: "F", reason: `days on which people hit outdoors; ${practice}` },
  pressureGiven: { sd: 0.03, unit: "inHg", reason: `a station's barometer through a session; ${practice}` },
  pressureWeather: {
    sd: 0.2,
    unit: "inHg",
    reason: `weather about the standard atmosphere at a known altitude; ${practice}`,
  },
  altitudeUnknown: { sd: 500, unit: "ft", reason: `how high fields lie, where nothing is said; ${practice}` },
  humidityGiven: { sd: 5, unit: "pct", reason: `the session's reading; ${practice}` },
  humidityDefault: { sd: 20, unit: "pct", reason: `days on which people hit outdoors; ${practice}` },
  windGiven: {
    sd: 2,
    unit: "mph",
    reason: `each of its two components: gusts, and the wind aloft against the wind measured; ${practice}`,
  },
  windDefault: {
    sd: 2.5,
    unit: "mph",
    reason: `each of its two components, where no wind is given and none is assumed; ${practice}`,
  },
  contactGiven: { sd: 0.1, unit: "ft", reason: `the contact point as measured, each way; ${practice}` },
  contactHeight: {
    sd: 0.7,
    unit: "ft",
    reason: `heights within and about the zone, when unmeasured; ${practice}`,
  },
  contactPlace: {
    sd: 0.7,
    unit: "ft",
    reason: `sideways and forward over the plate, when unmeasured; ${practice}`,
  },
} as const satisfies Record<string, Spread>;

/** Each source of a spin in words, and how far the spin may be off: one standard deviation. */
export const spinSpreads: Readonly<Record<SpinSource, { readonly words: string; readonly spread: string }>> =
  {
    measured: { words: "backspin and sidespin measured", spread: `each ±${spreads.spinMeasured.sd} rpm` },
    rate_and_axis: {
      words: "rate and axis measured",
      spread: `±${spreads.spinRate.sd} rpm and ±${spreads.spinAxis.sd}°`,
    },
    rate_only: {
      words: "rate measured, axis estimated",
      spread: `±${spreads.spinRate.sd} rpm, and ±${spreads.spinEstimated.sd} rpm across`,
    },
    estimated: { words: "estimated from the launch", spread: `each ±${spreads.spinEstimated.sd} rpm` },
  };

/** The standard deviations that apply to one ball, SI. */
export interface Deviations {
  /** m/s. */
  readonly speed: number;
  /** rad. */
  readonly launchAngle: number;
  readonly sprayAngle: number;
  /** rad/s: along the spin (backspin, sidespin) and across it when the axis is the doubtful part. */
  readonly spinAlong: number;
  readonly spinAcross: number;
  /** Whether along and across are of the spin's own direction; else they are of backspin and of sidespin. */
  readonly ownDirection: boolean;
  readonly drag: number;
  /** Of the density, as a part of it. */
  readonly density: number;
  /** m/s, each component. */
  readonly wind: number;
  /** m. */
  readonly contactHeight: number;
  readonly contactPlace: number;
}

/** Relative standard deviation of an air's density, from what of it is known. */
function densityDeviation(air: Air): number {
  const { temperature_K, pressure_Pa, humidity } = air;
  const state: AirState = { temperature_K, pressure_Pa, humidity };
  const from = (change: Partial<AirState>): number =>
    (moistAirDensity({ ...state, ...change }) - air.density) / air.density;
  const { known } = air;
  const temperature = known.temperature === "session" ? spreads.temperatureGiven : spreads.temperatureDefault;
  const warmer = from({
    temperature_K: kelvinFromFahrenheit(fahrenheitFromKelvin(temperature_K) + temperature.sd),
  });
  const lower =
    known.pressure === "default"
      ? from({
          pressure_Pa:
            (pressure_Pa * standardPressure(spreads.altitudeUnknown.sd * ft)) / standardPressure(0),
        })
      : 0;
  const weather =
    (known.pressure === "session" ? spreads.pressureGiven.sd : spreads.pressureWeather.sd) * inHg;
  const fair = from({ pressure_Pa: pressure_Pa + weather });
  const damp = (known.humidity === "session" ? spreads.humidityGiven : spreads.humidityDefault).sd / 100;
  const damper = from({ humidity: humidity > 0.5 ? humidity - damp : humidity + damp });
  return Math.hypot(warmer, lower, fair, damper);
}

const densityDeviations = new WeakMap<Air, number>();

/** The standard deviations of a launch through an air, with the spin from that source. */
export function deviationsOf(launch: Launch, air: Air, spinSource: SpinSource): Deviations {
  let density = densityDeviations.get(air);
  if (density === undefined) {
    density = densityDeviation(air);
    densityDeviations.set(air, density);
  }
  const rate = Math.hypot(launch.backspin, launch.sidespin);
  const measured = launch.contact !== undefined;
  const along = {
    measured: spreads.spinMeasured.sd * rpm,
    rate_and_axis: spreads.spinRate.sd * rpm,
    rate_only: spreads.spinRate.sd * rpm,
    estimated: spreads.spinEstimated.sd * rpm,
  }[spinSource];
  const across = {
    measured: along,
    rate_and_axis: rate * spreads.spinAxis.sd * deg,
    // A measured rate about an estimated axis: across it, the estimate is as doubtful as ever.
    rate_only: Math.min(spreads.spinEstimated.sd * rpm, rate),
    estimated: along,
  }[spinSource];
  const wind = { session: spreads.windGiven.sd, default: spreads.windDefault.sd, none: 0 }[air.known.wind];
  return {
    speed: spreads.exitVelocity.sd * mph,
    launchAngle: spreads.launchAngle.sd * deg,
    sprayAngle: spreads.sprayAngle.sd * deg,
    spinAlong: along,
    spinAcross: across,
    ownDirection: rate > 0 && (spinSource === "rate_only" || spinSource === "rate_and_axis"),
    drag: spreads.drag.sd,
    density,
    wind: wind * mph,
    contactHeight: (measured ? spreads.contactGiven.sd : spreads.contactHeight.sd) * ft,
    contactPlace: (measured ? spreads.contactGiven.sd : spreads.contactPlace.sd) * ft,
  };
}
