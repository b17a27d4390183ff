/** What a little more of each thing does to one ball's carry. */
import { deg, ft, inHg, mph, rpm } from "../units/index.ts";
import { airWith, standardAltitude, standardPressure, type Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { fly } from "./carry.ts";
import type { Launch } from "./launch.ts";

/** Changes of a carry, ft, each for the step its name says. */
export interface CarrySensitivity {
  readonly exitVelocity_ftPerMph: number;
  readonly launchAngle_ftPerDeg: number;
  readonly backspin_ftPer100Rpm: number;
  readonly sidespin_ftPer100Rpm: number;
  readonly temperature_ftPer10F: number;
  /** Of altitude, at the same temperature. */
  readonly altitude_ftPer1000Ft: number;
  readonly pressure_ftPerInHg: number;
  /** Relative humidity by 0.1 more. */
  readonly humidity_ftPer10Pct: number;
  /** Of 10 mph along the launch's bearing and against it: unlike, so each has its own. */
  readonly tailWind_ftPer10Mph: number;
  readonly headWind_ftPer10Mph: number;
}

/**
 * The change of a launch's carry with each of what it is computed from, the others held; the spin is held where the
 * launch angle changes. Slopes are central differences over the step named, winds the whole step.
 * @throws RangeError when a number isn't finite.
 */
export function carrySensitivity(launch: Launch, air: Air, ball: Ball): CarrySensitivity {
  const base = fly(launch, air, ball).carry;
  const ofLaunch = (change: (sign: number) => Partial<Launch>): number =>
    (fly({ ...launch, ...change(1) }, air, ball).carry - fly({ ...launch, ...change(-1) }, air, ball).carry) /
    ft;
  const ofAir = (change: (sign: number) => Parameters<typeof airWith>[1]): number =>
    (fly(launch, airWith(air, change(1)), ball).carry - fly(launch, airWith(air, change(-1)), ball).carry) /
    ft;
  const altitude = standardAltitude(air.pressure_Pa);
  const higher = (sign: number): number =>
    (air.pressure_Pa * standardPressure(altitude + sign * 500 * ft)) / standardPressure(altitude);
  const wind = (speed: number): number => {
    const along: readonly [number, number] = [
      air.wind[0] + speed * Math.sin(launch.sprayAngle),
      air.wind[1] + speed * Math.cos(launch.sprayAngle),
    ];
    return (fly(launch, { ...air, wind: along }, ball).carry - base) / ft;
  };
  const damper = (sign: number): number => Math.min(1, Math.max(0, air.humidity + sign * 0.05));
  return {
    exitVelocity_ftPerMph: ofLaunch((s) => ({ speed: launch.speed + (s * mph) / 2 })),
    launchAngle_ftPerDeg: ofLaunch((s) => ({ launchAngle: launch.launchAngle + (s * deg) / 2 })),
    backspin_ftPer100Rpm: ofLaunch((s) => ({ backspin: launch.backspin + s * 50 * rpm })),
    sidespin_ftPer100Rpm: ofLaunch((s) => ({ sidespin: launch.sidespin + s * 50 * rpm })),
    temperature_ftPer10F: ofAir((s) => ({ temperature_K: air.temperature_K + (s * 5 * 5) / 9 })),
    altitude_ftPer1000Ft: ofAir((s) => ({ pressure_Pa: higher(s) })),
    pressure_ftPerInHg: ofAir((s) => ({ pressure_Pa: air.pressure_Pa + (s * inHg) / 2 })),
    humidity_ftPer10Pct: (ofAir((s) => ({ humidity: damper(s) })) * 0.1) / (damper(1) - damper(-1)),
    tailWind_ftPer10Mph: wind(10 * mph),
    headWind_ftPer10Mph: wind(-10 * mph),
  };
}
