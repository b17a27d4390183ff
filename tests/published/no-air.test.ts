/** Flight without air, and straight down with drag alone, against the formulas of mechanics. */
import { describe, expect, it } from "vitest";
import { airWith, defaultAir, gravity } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { fly } from "../../src/flight/carry.ts";
import { landed } from "../../src/flight/room.ts";
import { trajectory } from "../../src/flight/trajectory.ts";
import { deg, mph, rpm } from "../../src/units/index.ts";

const ball = ballFor(null);
const noAir = { ...defaultAir, density: 0 };

describe("no air: the parabola", () => {
  const balls = [30, 60, 100, 130].flatMap((speed) =>
    [-60, -5, 0, 10, 45, 80].flatMap((angle) => [0.3, 0.9144, 2].map((height) => ({ speed, angle, height }))),
  );

  it.each(balls)("$speed mph at $angle° from $height m", ({ speed, angle, height }) => {
    const v = speed * mph;
    const up = v * Math.sin(angle * deg);
    const level = v * Math.cos(angle * deg);
    const time = (up + Math.sqrt(up * up + 2 * gravity * height)) / gravity;
    // Spin does nothing without air.
    const launch = {
      speed: v,
      launchAngle: angle * deg,
      sprayAngle: 20 * deg,
      backspin: 3000 * rpm,
      sidespin: -900 * rpm,
      contact: [0, 0, height] as const,
    };
    const flight = fly(launch, noAir, ball);
    expect(flight.hang).toBeCloseTo(time, 8);
    expect(flight.carry).toBeCloseTo(level * time, 7);
    expect(flight.bearing).toBeCloseTo(20 * deg, 10);
    expect(flight.apex).toBeCloseTo(height + Math.max(0, up) ** 2 / (2 * gravity), 8);
    expect(Math.tan(flight.descent)).toBeCloseTo((gravity * time - up) / level, 6);
    for (const { t, y, z } of trajectory(launch, noAir, ball, 0.37)) {
      expect(z).toBeCloseTo(height + up * t - (gravity * t * t) / 2, 7);
      expect(y).toBeCloseTo(level * Math.cos(20 * deg) * t, 7);
    }
  });

  it("goes with the wind's velocity taken as nothing", () => {
    const launch = { speed: 40, launchAngle: 0.5, sprayAngle: 0, backspin: 0, sidespin: 0 };
    const windy = { ...airWith(defaultAir, { wind: [5, 5] }), density: 0 };
    expect(fly(launch, windy, ball)).toEqual(fly(launch, noAir, ball));
  });
});

describe("drag alone, straight down from rest: v = v_t tanh(gt/v_t), h = (v_t²/g) ln cosh(gt/v_t)", () => {
  it.each([0.5, 2, 10, 50, 200])("from %d m", (height) => {
    const area = Math.PI * ball.radius ** 2;
    // Terminal speed: the drag of Cd 0.3008, a ball that doesn't turn, is its weight.
    const vt = Math.sqrt((2 * ball.mass * gravity) / (defaultAir.density * area * 0.3008));
    const flight = fly(
      { speed: 0, launchAngle: 0, sprayAngle: 0, backspin: 0, sidespin: 0, contact: [0, 0, height] },
      defaultAir,
      ball,
    );
    const t = flight.hang;
    expect((vt ** 2 / gravity) * Math.log(Math.cosh((gravity * t) / vt))).toBeCloseTo(height, 4);
    expect(-landed[6]!).toBeCloseTo(vt * Math.tanh((gravity * t) / vt), 4);
    expect(flight.carry).toBeCloseTo(0, 9);
  });
});
