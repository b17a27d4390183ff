/** What holds of every flight, whatever its numbers. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { airFor, airWith, defaultAir, gravity, type Air } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { carryBatch } from "../../src/flight/batch.ts";
import { fly } from "../../src/flight/carry.ts";
import { landed } from "../../src/flight/room.ts";
import type { Launch } from "../../src/flight/launch.ts";
import { trajectory } from "../../src/flight/trajectory.ts";
import { deg, mph, rpm } from "../../src/units/index.ts";
import { anyBalls, hitBalls } from "./launches.ts";

const ball = ballFor(null);
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const launches = fc.record({
  speed: number(5 * mph, 130 * mph),
  launchAngle: number(-90 * deg, 90 * deg),
  sprayAngle: number(-180 * deg, 180 * deg),
  backspin: number(-8000 * rpm, 8000 * rpm),
  sidespin: number(-8000 * rpm, 8000 * rpm),
  contact: fc.tuple(number(-1.5, 1.5), number(-1.5, 2.5), number(-0.3, 2.8)),
});
const airs = fc
  .record({
    temperature_f: number(-20, 130),
    pressure_inhg: number(16, 32),
    humidity_pct: number(0, 100),
    wind_mph: number(0, 80),
    wind_toward_deg: number(-360, 360),
  })
  .map((s): Air => airFor(s));

describe("every flight within the fields' limits", () => {
  it("ends, with finite numbers, on or above the height it began at", () => {
    fc.assert(
      fc.property(launches, airs, (launch, air) => {
        const flight = fly(launch, air, ball);
        for (const value of Object.values(flight)) expect(Number.isFinite(value)).toBe(true);
        expect(flight.hang).toBeGreaterThanOrEqual(0);
        expect(flight.hang).toBeLessThan(60);
        expect(flight.apex).toBeGreaterThanOrEqual(launch.contact[2]);
        expect(flight.carry).toBeCloseTo(Math.hypot(flight.x, flight.y), 9);
        expect(flight.descent).toBeGreaterThanOrEqual(0);
        expect(flight.descent).toBeLessThanOrEqual(Math.PI / 2);
      }),
      { numRuns: 2000 },
    );
  });

  it("lands on the ground it first falls to: every point before is above it", () => {
    fc.assert(
      fc.property(launches, airs, (launch, air) => {
        fc.pre(launch.contact[2] > 0.01);
        const points = trajectory(launch, air, ball, 0.05);
        const flight = fly(launch, air, ball);
        for (const p of points.slice(0, -1)) expect(p.z).toBeGreaterThan(-1e-4);
        for (const p of points) expect(p.z).toBeLessThan(flight.apex + 2e-3);
        expect(points.at(-1)).toEqual({ t: flight.hang, x: flight.x, y: flight.y, z: 0 });
        const [a, b] = trajectory(launch, air, ball, flight.hang / 1000).slice(-3);
        const way = Math.atan2(a!.z - b!.z, Math.hypot(b!.x - a!.x, b!.y - a!.y));
        expect(Math.abs(flight.descent - way)).toBeLessThan(0.02);
      }),
      { numRuns: 100 },
    );
  });

  it("is mirrored, left for right, with its sidespin and its wind", () => {
    fc.assert(
      fc.property(launches, airs, (launch, air) => {
        const [x, y, z] = launch.contact;
        const mirrored = fly(
          { ...launch, sprayAngle: -launch.sprayAngle, sidespin: -launch.sidespin, contact: [-x, y, z] },
          { ...air, wind: [-air.wind[0], air.wind[1]] },
          ball,
        );
        const flight = fly(launch, air, ball);
        expect(mirrored.x).toBeCloseTo(-flight.x, 8);
        expect(mirrored.y).toBeCloseTo(flight.y, 8);
        expect(mirrored.hang).toBeCloseTo(flight.hang, 8);
      }),
    );
  });

  it("turns with everything about the vertical", () => {
    fc.assert(
      fc.property(launches, airs, number(-3, 3), (launch, air, turn) => {
        const rotate = ([x, y]: readonly [number, number]): [number, number] => [
          x * Math.cos(turn) + y * Math.sin(turn),
          -x * Math.sin(turn) + y * Math.cos(turn),
        ];
        const [cx, cy] = rotate([launch.contact[0], launch.contact[1]]);
        const turned = fly(
          { ...launch, sprayAngle: launch.sprayAngle + turn, contact: [cx, cy, launch.contact[2]] },
          { ...air, wind: rotate(air.wind) },
          ball,
        );
        const flight = fly(launch, air, ball);
        const [x, y] = rotate([flight.x, flight.y]);
        // The steps fall a little otherwise, so the last digits do.
        expect(turned.x).toBeCloseTo(x, 3);
        expect(turned.y).toBeCloseTo(y, 3);
      }),
    );
  });

  it("drifts with a wind as it would in still air seen by someone who walks with the wind", () => {
    fc.assert(
      fc.property(hit(), number(-10, 10), number(-10, 10), (launch, wx, wy) => {
        const windy = fly(launch, { ...defaultAir, wind: [wx, wy] }, ball);
        // The same ball seen from the moving air: another velocity, the same spin vector.
        const v = direction(launch);
        const [ux, uy] = [v[0] - wx, v[1] - wy];
        const spray = Math.atan2(ux, uy);
        const back = launch.backspin * Math.cos(spray - launch.sprayAngle);
        fc.pre(Math.abs(Math.sin(spray - launch.sprayAngle)) * Math.abs(launch.backspin) < 1e-9);
        const still = fly(
          {
            ...launch,
            speed: Math.hypot(ux, uy, v[2]),
            launchAngle: Math.atan2(v[2], Math.hypot(ux, uy)),
            sprayAngle: spray,
            backspin: back,
          },
          defaultAir,
          ball,
        );
        expect(windy.hang).toBeCloseTo(still.hang, 4);
        expect(windy.x).toBeCloseTo(still.x + wx * still.hang, 3);
        expect(windy.y).toBeCloseTo(still.y + wy * still.hang, 3);
      }),
    );
  });
});

/** Launches with sidespin alone, whose spin vector is upright and so the same from every bearing. */
function hit() {
  return fc.record({
    speed: number(20, 55),
    launchAngle: number(-5 * deg, 60 * deg),
    sprayAngle: number(-0.7, 0.7),
    backspin: fc.constant(0),
    sidespin: number(-3000 * rpm, 3000 * rpm),
  });
}

function direction({ speed, launchAngle, sprayAngle }: Launch): [number, number, number] {
  const level = speed * Math.cos(launchAngle);
  return [level * Math.sin(sprayAngle), level * Math.cos(sprayAngle), speed * Math.sin(launchAngle)];
}

describe("in still air", () => {
  const still = fc.record({
    temperature_K: number(250, 320),
    pressure_Pa: number(60_000, 108_000),
    humidity: number(0, 1),
  });

  it("a ball that doesn't turn stays in its plane", () => {
    fc.assert(
      fc.property(launches, still, (launch, state) => {
        fc.pre(launch.launchAngle < 89 * deg && launch.launchAngle > -89 * deg);
        const flight = fly(
          { ...launch, backspin: 0, sidespin: 0, contact: [0, 0, 1] },
          airWith(defaultAir, state),
          ball,
        );
        const off = Math.sin(flight.bearing - launch.sprayAngle) * flight.carry;
        expect(off).toBeCloseTo(0, 8);
      }),
    );
  });

  it("backspin and topspin alone keep it there too", () => {
    fc.assert(
      fc.property(launches, (launch) => {
        const flight = fly({ ...launch, sidespin: 0, contact: [0, 0, 1] }, defaultAir, ball);
        const off = flight.x * Math.cos(launch.sprayAngle) - flight.y * Math.sin(launch.sprayAngle);
        expect(off).toBeCloseTo(0, 7);
      }),
    );
  });

  it("energy never grows", () => {
    fc.assert(
      fc.property(launches, still, (launch, state) => {
        fc.pre(launch.contact[2] > 0);
        const air = airWith(defaultAir, state);
        fly(launch, air, ball);
        const end = (landed[4]! ** 2 + landed[5]! ** 2 + landed[6]! ** 2) / 2;
        expect(end).toBeLessThanOrEqual(launch.speed ** 2 / 2 + gravity * launch.contact[2] + 1e-6);
        // Along the way by the speed between two points near each other.
        const step = 0.02;
        const points = trajectory(launch, air, ball, step).slice(0, -1);
        let before = Infinity;
        for (let i = 1; i < points.length; i++) {
          const [a, b] = [points[i - 1]!, points[i]!];
          const speed = Math.hypot(b.x - a.x, b.y - a.y, b.z - a.z) / step;
          const energy = speed ** 2 / 2 + (gravity * (a.z + b.z)) / 2;
          expect(energy).toBeLessThanOrEqual(before * (1 + 1e-4) + 1e-3);
          before = energy;
        }
      }),
      { numRuns: 60 },
    );
  });

  it("more air, less carry: a ball that doesn't turn", () => {
    fc.assert(
      fc.property(launches, still, (launch, state) => {
        const air = airWith(defaultAir, state);
        const level = { ...launch, backspin: 0, sidespin: 0, contact: [0, 0, 1] as const };
        fc.pre(Math.abs(launch.launchAngle) < 85 * deg);
        const thick = fly(level, { ...air, density: air.density * 1.05 }, ball).carry;
        expect(thick).toBeLessThan(fly(level, air, ball).carry);
      }),
    );
  });

  it("more air, less carry: a well hit ball with backspin, up to the best launch angle", () => {
    const wellHit = fc.record({
      speed: number(90 * mph, 120 * mph),
      launchAngle: number(20 * deg, 30 * deg),
      sprayAngle: number(-0.7, 0.7),
      backspin: number(0, 2500 * rpm),
      sidespin: number(-1500 * rpm, 1500 * rpm),
    });
    fc.assert(
      fc.property(wellHit, still, (launch, state) => {
        const air = airWith(defaultAir, state);
        const thick = fly(launch, { ...air, density: air.density * 1.05 }, ball).carry;
        expect(thick).toBeLessThan(fly(launch, air, ball).carry);
      }),
    );
  });
});

describe("without air", () => {
  it("carry goes with the square of the speed and time with the speed, from a height that does too", () => {
    fc.assert(
      fc.property(launches, number(0.3, 3), (launch, s) => {
        const none = { ...defaultAir, density: 0 };
        const from = (z: number): Launch["contact"] => [0, 0, z];
        const one = fly({ ...launch, contact: from(1) }, none, ball);
        const scaled = fly({ ...launch, speed: launch.speed * s, contact: from(s * s) }, none, ball);
        expect(scaled.carry).toBeCloseTo(one.carry * s * s, 6);
        expect(scaled.hang).toBeCloseTo(one.hang * s, 6);
      }),
    );
  });
});

describe("where a flight starts", () => {
  const launch = { speed: 30, launchAngle: 0.3, sprayAngle: 0.2, backspin: 100, sidespin: 0 };
  const from = (z: number, angle = launch.launchAngle) =>
    fly({ ...launch, launchAngle: angle, contact: [0.1, 0.2, z] }, defaultAir, ball);

  it("on the ground, going up, flies", () => {
    expect(from(0).carry).toBeGreaterThan(30);
    expect(from(0).hang).toBeLessThan(from(0.01).hang);
  });

  it("under the ground, going up enough, comes down on it", () => {
    expect(from(-0.2).carry).toBeGreaterThan(30);
    expect(from(-0.2).carry).toBeLessThan(from(0).carry);
  });

  it("just under the ground, lifted by more than its weight, ends at no time before it began", () => {
    const thick = { ...defaultAir, density: 1.4345 };
    for (const z of [-0.1, -0.01, -5e-6, 0, 1e-6, 0.01]) {
      for (const up of [0, 5e-324, 1e-9, 0.001, 0.01]) {
        const flight = fly(
          { speed: 36, launchAngle: up, sprayAngle: 0, backspin: 838, sidespin: 0, contact: [0, 0, z] },
          thick,
          ball,
        );
        expect(flight.hang).toBeGreaterThanOrEqual(0);
        expect(flight.apex).toBeGreaterThanOrEqual(z);
      }
    }
  });

  it("under the ground by every depth, comes down no sooner than from deeper", () => {
    let before = Infinity;
    for (let z = 0; z > -0.6; z -= 0.005) {
      const { hang } = from(z, 0.1);
      expect(hang).toBeLessThan(before);
      if (hang === 0) break;
      before = hang;
    }
    expect(before).toBeLessThan(0.75);
  });

  it("on or under the ground, not going up above it, has landed", () => {
    for (const flight of [from(0, 0), from(0, -0.1), from(-0.2, -0.1), from(-5, 0.1)]) {
      expect(flight).toMatchObject({ hang: 0, x: 0.1, y: 0.2 });
      expect(flight.carry).toBeCloseTo(Math.hypot(0.1, 0.2), 12);
    }
    expect(trajectory({ ...launch, launchAngle: -0.1, contact: [0, 0, 0] }, defaultAir, ball, 0.1)).toEqual([
      { t: 0, x: 0, y: 0, z: 0 },
    ]);
  });

  it("under the ground, going up too little to come out, has landed", () => {
    const under = fly(
      { speed: 29, launchAngle: 0.05, sprayAngle: 0, backspin: 450, sidespin: 170, contact: [0, 0, -0.19] },
      defaultAir,
      ball,
    );
    expect(under).toMatchObject({ carry: 0, hang: 0, x: 0, y: 0, apex: -0.19 });
  });

  it("hit down into the ground lands soon", () => {
    const down = fly({ ...launch, launchAngle: -1.2 }, defaultAir, ball);
    expect(down.hang).toBeLessThan(0.05);
    expect(down.apex).toBeCloseTo(0.9144, 12);
    expect(down.carry).toBeCloseTo(0.9144 / Math.tan(1.2), 2);
  });

  it("must be finite", () => {
    expect(() => fly({ ...launch, speed: NaN }, defaultAir, ball)).toThrow(RangeError);
    expect(() => fly({ ...launch, backspin: Infinity }, defaultAir, ball)).toThrow(RangeError);
    expect(() => fly(launch, { ...defaultAir, density: NaN }, ball)).toThrow(RangeError);
    expect(() => trajectory(launch, defaultAir, ball, 0)).toThrow(RangeError);
  });
});

describe("a batch", () => {
  const cases = [...hitBalls(100, 0.5), ...anyBalls(100, 0.6)];
  const column = (of: (i: number) => number) => Float64Array.from(cases, (_, i) => of(i));
  const columns = {
    speed: column((i) => cases[i]!.launch.speed),
    launchAngle: column((i) => cases[i]!.launch.launchAngle),
    sprayAngle: column((i) => cases[i]!.launch.sprayAngle),
    backspin: column((i) => cases[i]!.launch.backspin),
    sidespin: column((i) => cases[i]!.launch.sidespin),
  };

  it("says of each ball what it says alone", () => {
    const flights = carryBatch(
      {
        ...columns,
        contactX: column((i) => cases[i]!.launch.contact?.[0] ?? 0),
        contactY: column((i) => cases[i]!.launch.contact?.[1] ?? 0),
        contactZ: column((i) => cases[i]!.launch.contact?.[2] ?? 0.9144),
        density: column((i) => cases[i]!.air.density),
        windX: column((i) => cases[i]!.air.wind[0]),
        windY: column((i) => cases[i]!.air.wind[1]),
      },
      defaultAir,
      ball,
    );
    cases.forEach(({ launch, air }, i) => {
      const alone = fly(launch, air, ball);
      for (const key of ["carry", "hang", "apex", "bearing", "x", "y"] as const) {
        expect(flights[key][i]).toBeCloseTo(alone[key], 9);
      }
    });
  });

  it("takes the air and the contact point given for all where a column is left out", () => {
    const { carry } = carryBatch(columns, defaultAir, ball);
    const { contact: _contact, ...launch } = cases[3]!.launch;
    expect(carry[3]).toBeCloseTo(fly(launch, defaultAir, ball).carry, 9);
  });

  it("refuses columns of different lengths, and says which row isn't finite", () => {
    expect(() => carryBatch({ ...columns, backspin: new Float64Array(3) }, defaultAir, ball)).toThrow(
      /backspin/,
    );
    const speed = columns.speed.slice();
    speed[7] = NaN;
    expect(() => carryBatch({ ...columns, speed }, defaultAir, ball)).toThrow(/row 7/);
  });
});
