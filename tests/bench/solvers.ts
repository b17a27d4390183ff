/**
 * The flight by general-purpose solvers of ordinary differential equations from the registry, each as its makers
 * show it: odex, Hairer and Wanner's extrapolation code, with its dense output; ode45-cash-karp, Cash and Karp's
 * Runge-Kutta pair, stepped to the ground.
 */
import { createRequire } from "node:module";
import type { Air } from "../../src/flight/air.ts";
import type { Ball } from "../../src/flight/ball.ts";
import type { Launch } from "../../src/flight/launch.ts";
import { rpm } from "../../src/units/index.ts";
import { equations } from "../flight/reference.ts";

/** Fills `out` with the derivative of (x, y, z, their velocities). */
type Derivative = (out: number[] | Float64Array, s: ArrayLike<number>, t: number) => void;
/** How the equations are written down. */
export type Writing = (launch: Launch, air: Air, ball: Ball) => { start: number[]; derivative: Derivative };
export type Solve = (
  problem: ReturnType<Writing>,
  tolerance: number,
) => { readonly x: number; readonly y: number };

/** As they stand in the blueprint, vector by vector. */
export const plain: Writing = (launch, air, ball) => {
  const [start, of] = equations(launch, air, ball);
  return {
    start,
    derivative: (out, s, t) => {
      const rates = of(t, s as number[]);
      for (let i = 0; i < 6; i++) out[i] = rates[i]!;
    },
  };
};

/** Written out number by number, with all that doesn't change computed beforehand. */
export const writtenOut: Writing = (launch, air, ball) => {
  const [start] = equations(launch, air, ball);
  const k = (air.density * Math.PI * ball.radius ** 2) / (2 * ball.mass);
  const R = ball.radius;
  const [wx, wy] = air.wind;
  const ox0 = launch.backspin * Math.cos(launch.sprayAngle);
  const oy0 = -launch.backspin * Math.sin(launch.sprayAngle);
  const oz0 = -launch.sidespin;
  const spinDrag = (0.0292 * Math.hypot(launch.backspin, launch.sidespin)) / rpm / 1000;
  return {
    start,
    derivative: (out, s, t) => {
      const left = Math.exp(-t / 30);
      const [ox, oy, oz] = [ox0 * left, oy0 * left, oz0 * left];
      const ux = s[3]! - wx;
      const uy = s[4]! - wy;
      const uz = s[5]!;
      const u2 = ux * ux + uy * uy + uz * uz;
      const cx = oy * uz - oz * uy;
      const cy = oz * ux - ox * uz;
      const cz = ox * uy - oy * ux;
      const c = Math.sqrt(cx * cx + cy * cy + cz * cz);
      const S = (R * c) / u2;
      const L = c > 0 ? (((k * S) / (0.4 + 2.32 * S)) * u2) / c : 0;
      const D = k * (0.3008 + spinDrag * left) * Math.sqrt(u2);
      out[0] = s[3]!;
      out[1] = s[4]!;
      out[2] = s[5]!;
      out[3] = L * cx - D * ux;
      out[4] = L * cy - D * uy;
      out[5] = L * cz - D * uz - 9.80665;
    },
  };
};

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  denseOutput: boolean;
  solve(
    f: (t: number, y: number[]) => number[],
    t0: number,
    y0: number[],
    t1: number,
    seen: (
      n: number,
      before: number,
      now: number,
      y: number[],
      dense: (i: number, t: number) => number,
    ) => boolean | void,
  ): unknown;
}
interface CashKarp {
  y: Float64Array;
  dt: number;
  step(): boolean;
}
const load = createRequire(import.meta.url);
const { Solver } = load("odex") as { Solver: new (n: number) => OdexSolver };
const cashKarp = load("ode45-cash-karp") as (
  y0: Float64Array,
  derivative: Derivative,
  t0: number,
  dt0: number,
  options: { tol: number; verbose: boolean },
) => CashKarp;

export const byOdex: Solve = ({ start, derivative }, tolerance) => {
  const solver = new Solver(6);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.denseOutput = true;
  let landing: { x: number; y: number } | null = null;
  const rates = (t: number, s: number[]): number[] => {
    const out = [0, 0, 0, 0, 0, 0];
    derivative(out, s, t);
    return out;
  };
  solver.solve(rates, 0, start, 60, (n, before, now, s, dense) => {
    if (n === 1 || s[2]! > 0 || s[5]! > 0) return;
    let [low, high] = [before, now];
    for (let i = 0; i < 50; i++) {
      const middle = (low + high) / 2;
      if (dense(2, middle) > 0) low = middle;
      else high = middle;
    }
    landing = { x: dense(0, low), y: dense(1, low) };
    return false;
  });
  return landing!;
};

export const byCashKarp: Solve = ({ start, derivative }, tolerance) => {
  const solver = cashKarp(Float64Array.from(start), derivative, 0, 0.05, { tol: tolerance, verbose: false });
  do solver.step();
  while (solver.y[2]! > 0 || solver.y[5]! > 0);
  // From under the ground back up to it, by its own steps.
  const rest = (): number => -solver.y[2]! / solver.y[5]!;
  for (let i = 0; i < 8 && Math.abs(rest()) > 1e-5; i++) {
    solver.dt = rest();
    solver.step();
  }
  return { x: solver.y[0]! + rest() * solver.y[3]!, y: solver.y[1]! + rest() * solver.y[4]! };
};
