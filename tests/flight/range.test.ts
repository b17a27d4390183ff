/** Ranges against seeded draws, and slopes against differences. */
import { describe, expect, it } from "vitest";
import { airFor, airWith, defaultAir, type Air } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { fly, load } from "../../src/flight/carry.ts";
import { landingDraws } from "../../src/flight/draws.ts";
import { differentiate, slopes, slopeWidth } from "../../src/flight/gradient.ts";
import { run } from "../../src/flight/kernel.ts";
import { given, landed } from "../../src/flight/room.ts";
import type { Launch } from "../../src/flight/launch.ts";
import { carryRange } from "../../src/flight/range.ts";
import { carrySensitivity } from "../../src/flight/sensitivity.ts";
import { estimateSpin, type SpinSource } from "../../src/flight/spin.ts";
import { deviationsOf, spreads } from "../../src/flight/spreads.ts";
import { deg, ft, inHg, mph, rpm } from "../../src/units/index.ts";
import { hitBalls } from "./launches.ts";

const ball = ballFor(null);

function launchAt(mph_: number, angle: number, spray = 0): Launch {
  return {
    speed: mph_ * mph,
    launchAngle: angle * deg,
    sprayAngle: spray * deg,
    ...estimateSpin(angle * deg, spray * deg, "R"),
  };
}

const mean = (v: Float64Array): number => v.reduce((a, b) => a + b, 0) / v.length;
function covariance(a: Float64Array, b: Float64Array): number {
  const [ma, mb] = [mean(a), mean(b)];
  return a.reduce((sum, v, i) => sum + (v - ma) * (b[i]! - mb), 0) / (a.length - 1);
}

/** Four speeds at ten angles. */
const launches = [60, 78, 95, 112].flatMap((speed) =>
  [-5, 0, 4, 8, 12, 16, 20, 28, 38, 50].map((angle) => ({ speed, angle, spray: (speed + 7 * angle) % 40 })),
);

describe("the quick range against 20 000 seeded draws", () => {
  const settings: [SpinSource, Air, string, number][] = [
    ["estimated", defaultAir, "default air", 20_000],
    [
      "measured",
      airFor({
        temperature_f: 60,
        pressure_inhg: 29.2,
        humidity_pct: 40,
        wind_mph: 9,
        wind_toward_deg: 30,
      }),
      "the session's air and wind",
      4000,
    ],
    ["rate_only", airFor({ indoor: true, altitude_ft: 2000 }), "indoors", 4000],
  ];

  it.each(settings)(
    "spin %s: sd within 5 % for 40 launches, 60 to 112 mph and −5 to 50°",
    (spinSource, air, _name, count) => {
      const off: string[] = [];
      for (const { speed, angle, spray } of launches) {
        const launch = launchAt(speed, angle, spray);
        const range = carryRange(launch, air, ball, spinSource);
        const { carry, x, y } = landingDraws(launch, air, ball, spinSource, count, 0.25);
        const sd = Math.sqrt(covariance(carry, carry));
        const within =
          carry.reduce((n, c) => n + (c >= range.low && c <= range.high ? 1 : 0), 0) / carry.length;
        const largest = Math.max(covariance(x, x), covariance(y, y));
        const bad =
          Math.abs(range.sd / sd - 1) > 0.05 ||
          Math.abs(within - 0.8) > 0.03 ||
          Math.abs(range.landing.x - mean(x)) > 0.08 * Math.sqrt(largest) ||
          Math.abs(range.landing.y - mean(y)) > 0.08 * Math.sqrt(largest) ||
          Math.abs(range.landing.xx - covariance(x, x)) > 0.1 * largest ||
          Math.abs(range.landing.xy - covariance(x, y)) > 0.1 * largest ||
          Math.abs(range.landing.yy - covariance(y, y)) > 0.1 * largest;
        if (bad || range.method !== "quick") {
          off.push(
            `${speed} mph ${angle}°: sd ${range.sd / ft} not ${sd / ft}, ${within} within, ${range.method}, ` +
              JSON.stringify(range.landing),
          );
        }
      }
      expect(off).toEqual([]);
    },
    60_000,
  );

  it.each([
    [100, 80],
    [90, 86],
    [70, 90],
    [60, -85],
    [40, 88],
  ])("says draws for a ball about the plate, and agrees there too: %d mph at %d°", (speed, angle) => {
    const launch = launchAt(speed, angle);
    const range = carryRange(launch, defaultAir, ball, "estimated");
    const { carry } = landingDraws(launch, defaultAir, ball, "estimated", 20_000, 0.25);
    const within = carry.reduce((n, c) => n + (c >= range.low && c <= range.high ? 1 : 0), 0) / carry.length;
    if (range.sd * 3 > fly(launch, defaultAir, ball).carry) expect(range.method).toBe("draws");
    expect(Math.abs(range.sd / Math.sqrt(covariance(carry, carry)) - 1)).toBeLessThan(0.05);
    expect(Math.abs(within - 0.8)).toBeLessThan(0.03);
  });

  it.each([
    [95, 4],
    [112, 4],
    [95, 8],
  ])(
    "leans as far as the draws do, for a low ball that is likelier short than long: %d mph at %d°",
    (speed, angle) => {
      const launch = launchAt(speed, angle);
      const range = carryRange(launch, defaultAir, ball, "estimated");
      const carry = landingDraws(launch, defaultAir, ball, "estimated", 40_000, 0.75).carry.sort();
      const drawnLean = (carry[4000]! + carry[36_000]!) / 2 - mean(carry);
      // The middle of the range stands off the mean by as much as the tenths of a leaning distribution.
      expect(range.method).toBe("quick");
      expect(drawnLean).toBeGreaterThan(0.4);
      expect(((range.low + range.high) / 2 - mean(carry)) / drawnLean).toBeGreaterThan(0.55);
      expect(((range.low + range.high) / 2 - mean(carry)) / drawnLean).toBeLessThan(1.3);
    },
  );

  it("draws flights where there is none to differentiate", () => {
    const launch: Launch = { ...launchAt(80, -3), contact: [0, 0.5, -0.01] };
    const range = carryRange(launch, defaultAir, ball, "measured");
    expect(range.method).toBe("draws");
    expect(range.sd).toBeGreaterThan(0);
    expect(range.low).toBeLessThanOrEqual(range.high);
  });

  it("holds the carry, and is the same each time", () => {
    for (const { launch, air } of hitBalls(200, 0.9)) {
      const range = carryRange(launch, air, ball, "estimated");
      const { carry } = fly(launch, air, ball);
      expect(range.low).toBeGreaterThanOrEqual(0);
      expect(range.low).toBeLessThan(carry);
      expect(range.high).toBeGreaterThan(carry);
      expect(carryRange(launch, air, ball, "estimated")).toEqual(range);
    }
  });

  it("is narrower the more is known", () => {
    const launch = launchAt(100, 28);
    const known = airFor({ temperature_f: 70, pressure_inhg: 29.92, humidity_pct: 50, wind_mph: 0 });
    const sd = (air: Air, spin: SpinSource, l = launch): number => carryRange(l, air, ball, spin).sd;
    expect(sd(defaultAir, "measured")).toBeLessThan(sd(defaultAir, "rate_only"));
    expect(sd(defaultAir, "rate_only")).toBeLessThan(sd(defaultAir, "estimated"));
    expect(sd(known, "measured")).toBeLessThan(sd(defaultAir, "measured"));
    const low = launchAt(90, -4);
    expect(sd(known, "measured", { ...low, contact: [0, 0, 0.9144] })).toBeLessThan(
      0.8 * sd(known, "measured", low),
    );
  });

  it("doesn't take a launch that isn't finite", () => {
    expect(() => carryRange({ ...launchAt(90, 20), speed: NaN }, defaultAir, ball, "measured")).toThrow(
      RangeError,
    );
  });
});

describe("the table of spreads", () => {
  it("has a reason for each, and the ball's drag at 0.02", () => {
    for (const { sd, reason } of Object.values(spreads)) {
      expect(sd).toBeGreaterThan(0);
      expect(reason.length).toBeGreaterThan(20);
    }
    expect(spreads.drag.sd).toBe(0.02);
  });

  it("gives an air given a smaller spread than the default's, and no wind a roof", () => {
    const of = (air: Air) => deviationsOf(launchAt(90, 20), air, "estimated");
    const given_ = of(airFor({ temperature_f: 70, pressure_inhg: 29.9, humidity_pct: 50 }));
    const height = of(airFor({ temperature_f: 70, altitude_ft: 500, humidity_pct: 50 }));
    expect(given_.density).toBeLessThan(height.density);
    expect(height.density).toBeLessThan(of(defaultAir).density);
    expect(of(airFor({ indoor: true })).wind).toBe(0);
    expect(of(defaultAir).wind).toBeGreaterThan(0);
  });
});

describe("slopes by the adjoint against central differences", () => {
  const steps: [string, number[], boolean, number][] = [
    ["contact height", [2], false, 1e-4],
    ["velocity x", [3], false, 1e-4],
    ["velocity y", [4], false, 1e-4],
    ["velocity z", [5], false, 1e-4],
    ["spin x", [6], false, 1e-3],
    ["spin y", [7], false, 1e-3],
    ["spin z", [8], false, 1e-3],
    ["drag", [9], false, 1e-6],
    ["spin drag", [10], false, 1e-6],
    ["density", [9, 10, 11], true, 1e-5],
  ];

  it.each(steps)("by %s", (name, places, relative, step) => {
    const row = steps.findIndex(([n]) => n === name);
    let asked = 0;
    for (const { launch, air } of hitBalls(40, 0.21)) {
      load(launch, air, ball);
      const base = given.slice();
      run(false, true);
      expect(differentiate()).toBe(true);
      const ours = [slopes[row]!, slopes[slopeWidth + row]!];
      const ends = [1, -1].map((sign) => {
        given.set(base);
        for (const i of places) given[i] = relative ? given[i]! * (1 + sign * step) : given[i]! + sign * step;
        run();
        return [landed[0]!, landed[1]!] as const;
      });
      const theirs = [0, 1].map((axis) => (ends[0]![axis]! - ends[1]![axis]!) / (2 * step));
      // By velocity, near the best angle a slope may be nothing beside the time it works for.
      const size = name.startsWith("velocity") ? landed[2]! : Math.hypot(theirs[0]!, theirs[1]!);
      if (size === 0) continue;
      asked++;
      expect(Math.hypot(ours[0]! - theirs[0]!, ours[1]! - theirs[1]!) / size).toBeLessThan(0.01);
    }
    expect(asked).toBe(40);
  });

  it("are none for a ball that lands where it starts", () => {
    load({ ...launchAt(50, -10), contact: [0, 0, 0] }, defaultAir, ball);
    run(false, true);
    expect(differentiate()).toBe(false);
  });
});

describe("sensitivities of a 100 mph, 28° ball", () => {
  const launch = launchAt(100, 28);
  const by = carrySensitivity(launch, defaultAir, ball);
  const carry = (l: Launch, air = defaultAir): number => fly(l, air, ball).carry / ft;
  const base = carry(launch);

  // The differences here are one-sided, so the two agree only as the carry is straight over the step.
  it.each([
    ["exit velocity", by.exitVelocity_ftPerMph, carry({ ...launch, speed: 101 * mph })],
    [
      "launch angle",
      by.launchAngle_ftPerDeg,
      base +
        2 * (carry({ ...launch, launchAngle: 28.25 * deg }) - carry({ ...launch, launchAngle: 27.75 * deg })),
    ],
    ["backspin", by.backspin_ftPer100Rpm, carry({ ...launch, backspin: launch.backspin + 100 * rpm })],
    ["sidespin", by.sidespin_ftPer100Rpm, carry({ ...launch, sidespin: launch.sidespin + 100 * rpm })],
    ["10 °F", by.temperature_ftPer10F, carry(launch, airFor({ temperature_f: 80 }))],
    ["1000 ft", by.altitude_ftPer1000Ft, carry(launch, airFor({ altitude_ft: 1000 }))],
    [
      "an inch of mercury",
      by.pressure_ftPerInHg,
      carry(launch, airWith(defaultAir, { pressure_Pa: defaultAir.pressure_Pa + inHg })),
    ],
    ["10 % humidity", by.humidity_ftPer10Pct, carry(launch, airFor({ humidity_pct: 60 }))],
    ["tail wind", by.tailWind_ftPer10Mph, carry(launch, airFor({ wind_mph: 10, wind_toward_deg: 0 }))],
    ["head wind", by.headWind_ftPer10Mph, carry(launch, airFor({ wind_mph: 10, wind_toward_deg: 180 }))],
  ])("%s", (_name, slope, moved) => {
    expect(slope).not.toBe(0);
    expect(Math.abs(slope - (moved - base))).toBeLessThan(0.04 * Math.abs(slope) + 0.05);
  });
});
