/**
 * The equations of flight written down as they stand in the blueprint, vector by vector, and solved by odex, a port
 * of Hairer and Wanner's extrapolation code: nothing here is shared with src/flight but the constants' values.
 */
import { createRequire } from "node:module";
import type { Air } from "../../src/flight/air.ts";
import type { Ball } from "../../src/flight/ball.ts";
import type { Launch } from "../../src/flight/launch.ts";

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  denseOutput: boolean;
  denseOutputErrorEstimator: boolean;
  solve(
    f: (t: number, y: number[]) => number[],
    t0: number,
    y0: number[],
    t1: number,
    seen?: (
      n: number,
      before: number,
      now: number,
      y: number[],
      dense: (i: number, t: number) => number,
    ) => boolean | void,
  ): { y: number[] };
}
// The package's own types don't pass the compiler's strict checks, so it is brought in without them.
const { Solver } = createRequire(import.meta.url)("odex") as { Solver: new (n: number) => OdexSolver };

type Vector = [number, number, number];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const length = (a: Vector): number => Math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2]);

export interface ReferenceFlight {
  readonly carry: number;
  readonly hang: number;
  readonly apex: number;
  readonly x: number;
  readonly y: number;
}

/** Drag and lift coefficients at a time of the flight. */
export interface Coefficients {
  /** Of the spin left in rpm, the air-relative speed in m/s and the spin factor S. */
  readonly drag: (rpm: number, speed: number, S: number) => number;
  readonly lift: (S: number) => number;
}

/** The blueprint's. */
export const blueprint: Coefficients = {
  drag: (rpm) => 0.3008 + (0.0292 * rpm) / 1000,
  lift: (S) => S / (0.4 + 2.32 * S),
};

/** Position and velocity at the start, and their derivative by the time. */
export function equations(
  launch: Launch,
  air: Air,
  ball: Ball,
  { drag, lift: lifted }: Coefficients = blueprint,
): [number[], (t: number, y: number[]) => number[]] {
  const { speed, launchAngle: up, sprayAngle: spray } = launch;
  const [x, y, z] = launch.contact ?? [0, 0, 0.9144];
  const forward: Vector = [Math.sin(spray), Math.cos(spray), 0];
  // Backspin turns about the horizontal axis across the bearing, sidespin about the vertical.
  const across: Vector = [forward[1], -forward[0], 0];
  const spin0: Vector = [across[0] * launch.backspin, across[1] * launch.backspin, -launch.sidespin];
  const rpm = (length(spin0) * 60) / (2 * Math.PI);
  const half = (air.density * Math.PI * ball.radius ** 2) / 2;
  const start = [
    x,
    y,
    z,
    speed * Math.cos(up) * forward[0],
    speed * Math.cos(up) * forward[1],
    speed * Math.sin(up),
  ];
  const derivative = (t: number, s: number[]): number[] => {
    const left = Math.exp(-t / 30);
    const spin: Vector = [spin0[0] * left, spin0[1] * left, spin0[2] * left];
    const wind: Vector = [s[3]! - air.wind[0], s[4]! - air.wind[1], s[5]!];
    const v = length(wind);
    const lift = cross(spin, wind);
    const liftLength = length(lift);
    const S = v > 0 ? (ball.radius * liftLength) / v / v : 0;
    const Cl = lifted(S);
    const Cd = drag(rpm * left, v, S);
    const force = (i: 0 | 1 | 2): number =>
      -half * Cd * v * wind[i] + (liftLength > 0 ? (half * Cl * v * v * lift[i]) / liftLength : 0);
    return [s[3]!, s[4]!, s[5]!, force(0) / ball.mass, force(1) / ball.mass, force(2) / ball.mass - 9.80665];
  };
  return [start, derivative];
}

/**
 * The flight at a tolerance of 1e-12: landing and apex found by integrating anew to a better time until it holds.
 */
export function tightFlight(launch: Launch, air: Air, ball: Ball): ReferenceFlight {
  const [start, derivative] = equations(launch, air, ball);
  const solver = new Solver(6);
  solver.absoluteTolerance = 1e-12;
  solver.relativeTolerance = 1e-12;
  const at = (t: number): number[] => (t > 0 ? solver.solve(derivative, 0, start, t).y : start);
  const rough = quickFlight(launch, air, ball, 1e-6);
  let hang = rough.hang;
  let end = at(hang);
  for (let i = 0; i < 4; i++) {
    hang -= end[2]! / end[5]!;
    end = at(hang);
  }
  let top = rough.topTime;
  let apex = start[2]!;
  if (top > 0) {
    for (let i = 0; i < 4; i++) {
      const s = at(top);
      top -= s[5]! / derivative(top, s)[5]!;
    }
    apex = at(top)[2]!;
  }
  return { carry: Math.hypot(end[0]!, end[1]!), hang, apex, x: end[0]!, y: end[1]! };
}

/** The flight in one go at a tolerance, landing and apex by the solver's own dense output. */
export function quickFlight(
  launch: Launch,
  air: Air,
  ball: Ball,
  tolerance: number,
  coefficients: Coefficients = blueprint,
): ReferenceFlight & { topTime: number } {
  const [start, derivative] = equations(launch, air, ball, coefficients);
  const solver = new Solver(6);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.denseOutput = true;
  let topTime = 0;
  let apex = start[2]!;
  let landing: [number, number, number] | null = null;
  let climbing = start[5]! > 0;
  const root = (low: number, high: number, value: (t: number) => number): number => {
    // Value falls from above to below zero between low and high.
    for (let i = 0; i < 60 && high - low > 1e-13; i++) {
      const middle = (low + high) / 2;
      if (value(middle) > 0) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  solver.solve(derivative, 0, start, 60, (n, before, now, y, dense) => {
    if (n === 1) return;
    if (climbing && y[5]! <= 0) {
      climbing = false;
      topTime = root(before, now, (t) => dense(5, t));
      apex = Math.max(apex, dense(2, topTime));
    } else if (!climbing && y[5]! > 0) climbing = true;
    if (y[2]! < 0 && y[5]! < 0) {
      const t = root(before, now, (s) => dense(2, s));
      landing = [dense(0, t), dense(1, t), t];
      return false;
    }
  });
  if (landing === null) throw new Error("the reference flight doesn't end");
  const [x, y, hang] = landing as [number, number, number];
  return { carry: Math.hypot(x, y), hang, apex, x, y, topTime };
}
