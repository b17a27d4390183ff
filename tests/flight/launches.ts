/** Seeded launches for tests and benches. */
import { randomLcg } from "d3";
import { airFor, type Air } from "../../src/flight/air.ts";
import type { Launch } from "../../src/flight/launch.ts";
import { estimateSpin } from "../../src/flight/spin.ts";
import { deg, ft, mph, rpm } from "../../src/units/index.ts";

export interface Case {
  readonly launch: Launch;
  readonly air: Air;
}

/** Balls as they are hit: 60 to 115 mph, −10 to 60°, spin near the estimate, in the airs of ball fields. */
export function hitBalls(count: number, seed: number): Case[] {
  const random = randomLcg(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  return Array.from({ length: count }, () => {
    const launchAngle = between(-10, 60) * deg;
    const sprayAngle = between(-45, 45) * deg;
    const spin = estimateSpin(launchAngle, sprayAngle, random() < 0.3 ? "L" : "R");
    const launch: Launch = {
      speed: between(60, 115) * mph,
      launchAngle,
      sprayAngle,
      backspin: spin.backspin + between(-600, 600) * rpm,
      sidespin: spin.sidespin + between(-600, 600) * rpm,
    };
    return { launch, air: someAir(between) };
  });
}

/** Anything the fields' limits allow, hit anywhere. */
export function anyBalls(count: number, seed: number): Case[] {
  const random = randomLcg(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  return Array.from({ length: count }, () => ({
    launch: {
      speed: between(5, 130) * mph,
      launchAngle: between(-90, 90) * deg,
      sprayAngle: between(-180, 180) * deg,
      backspin: between(-8000, 8000) * rpm,
      sidespin: between(-8000, 8000) * rpm,
      contact: [between(-5, 5) * ft, between(-5, 8) * ft, between(0.2, 9) * ft] as const,
    },
    air: airFor({
      temperature_f: between(-20, 130),
      pressure_inhg: between(16, 32),
      humidity_pct: between(0, 100),
      wind_mph: between(0, 80),
      wind_toward_deg: between(-180, 180),
    }),
  }));
}

function someAir(between: (low: number, high: number) => number): Air {
  return airFor({
    temperature_f: between(40, 100),
    altitude_ft: between(0, 6000),
    humidity_pct: between(10, 90),
    wind_mph: between(0, 15),
    wind_toward_deg: between(-180, 180),
  });
}
