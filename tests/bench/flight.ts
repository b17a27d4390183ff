/** Speed and accuracy of the flight, beside general solvers in the same run. */
import { defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { carryBatch } from "../../src/flight/batch.ts";
import { fly } from "../../src/flight/carry.ts";
import { carryRange } from "../../src/flight/range.ts";
import { ft } from "../../src/units/index.ts";
import { anyBalls, hitBalls } from "../flight/launches.ts";
import { tightFlight } from "../flight/reference.ts";
import type { Row } from "./row.ts";
import { byCashKarp, byOdex, plain, writtenOut, type Solve, type Writing } from "./solvers.ts";

/** Microseconds a call of one core's time, the best of five turns after a warm-up. */
function microseconds(calls: number, turn: () => void): number {
  let best = Infinity;
  turn();
  for (let i = 0; i < 5; i++) {
    const before = process.cpuUsage();
    turn();
    const { user, system } = process.cpuUsage(before);
    best = Math.min(best, (user + system) / calls);
  }
  return best;
}

function quantile(values: readonly number[], share: number): number {
  return values.toSorted((a, b) => a - b)[Math.round(share * (values.length - 1))]!;
}

/** The solver the blueprint's figure is held against; the other rows are there to compare. */
const yardstick = "odex";

export function benchFlight(): Row[] {
  const ball = ballFor(null);
  const hit = hitBalls(200, 0.3);
  const any = anyBalls(200, 0.3);
  const many = hitBalls(20_000, 0.4);
  const column = (of: (i: number) => number) => Float64Array.from(many, (_, i) => of(i));
  const columns = {
    speed: column((i) => many[i]!.launch.speed),
    launchAngle: column((i) => many[i]!.launch.launchAngle),
    sprayAngle: column((i) => many[i]!.launch.sprayAngle),
    backspin: column((i) => many[i]!.launch.backspin),
    sidespin: column((i) => many[i]!.launch.sidespin),
    density: column((i) => many[i]!.air.density),
    windX: column((i) => many[i]!.air.wind[0]),
    windY: column((i) => many[i]!.air.wind[1]),
  };
  const tight = hit.map(({ launch, air }) => tightFlight(launch, air, ball));
  const off = (landing: { x: number; y: number }, i: number): number =>
    Math.hypot(landing.x - tight[i]!.x, landing.y - tight[i]!.y) / ft;
  const ours = hit.map(({ launch, air }, i) => off(fly(launch, air, ball), i));
  const oursAny = any.map(({ launch, air }) => {
    const [a, b] = [fly(launch, air, ball), tightFlight(launch, air, ball)];
    return Math.hypot(a.x - b.x, a.y - b.y) / ft;
  });

  // A solver's own tolerance at which it is as near the tight answer, nineteen balls in twenty, as the kernel.
  const target = quantile(ours, 0.95);
  const general = (solve: Solve, writing: Writing): { us: number; tolerance: number; error: number } => {
    const fly =
      ({ launch, air }: (typeof hit)[number]) =>
      (tolerance: number) =>
        solve(writing(launch, air, ball), tolerance);
    let tolerance = 1e-2;
    let reached = Infinity;
    for (; tolerance > 1e-13; tolerance /= 2) {
      reached = quantile(
        hit.map((ball, i) => off(fly(ball)(tolerance), i)),
        0.95,
      );
      if (reached <= target) break;
    }
    const us = microseconds(hit.length, () => {
      for (const ball of hit) fly(ball)(tolerance);
    });
    return { us, tolerance, error: reached };
  };

  const batch = microseconds(many.length, () => void carryBatch(columns, defaultAir, ball));
  const one = microseconds(many.length, () => {
    for (const { launch, air } of many) fly(launch, air, ball);
  });
  const ranged = many.slice(0, 5000);
  const range = microseconds(ranged.length, () => {
    for (const { launch, air } of ranged) carryRange(launch, air, ball, "estimated");
  });

  const against = (name: string, solve: Solve): Row[] =>
    (
      [
        ["equations as the blueprint has them", plain],
        ["equations written out by hand", writtenOut],
      ] as const
    ).map(([how, writing], k) => {
      const asked = k === 0 && name === yardstick;
      const { us, tolerance, error } = general(solve, writing);
      return {
        what: `${name} ÷ one carry, ${how}`,
        wanted: asked ? "≥ 100 × at the same error" : "",
        measured: `${(us / batch).toFixed(0)} × (${us.toFixed(1)} µs at ${tolerance.toExponential(0)}, ${error.toExponential(1)} ft)`,
        reached: asked ? us / batch >= 100 : null,
      };
    });
  return [
    {
      what: "one carry, in a batch",
      wanted: "about 3 µs",
      measured: `${batch.toFixed(2)} µs`,
      reached: batch <= 3.5,
    },
    { what: "one carry, by itself", wanted: "", measured: `${one.toFixed(2)} µs`, reached: null },
    {
      what: "error of hit balls: 95 %, worst",
      wanted: "≤ 0.001 ft",
      measured: `${error(ours, 0.95)}, ${error(ours, 1)} ft`,
      reached: Math.max(...ours) <= 0.001,
    },
    {
      what: "error of any ball: 95 %, worst",
      wanted: "≤ 0.01 ft",
      measured: `${error(oursAny, 0.95)}, ${error(oursAny, 1)} ft`,
      reached: Math.max(...oursAny) <= 0.01,
    },
    ...against(yardstick, byOdex),
    ...against("ode45-cash-karp", byCashKarp),
    {
      what: "carry with its range, one core",
      wanted: "",
      measured: `${range.toFixed(1)} µs, ${Math.round(1e6 / range)} swings/s`,
      reached: null,
    },
  ];
}

function error(values: readonly number[], share: number): string {
  return quantile(values, share).toExponential(1);
}
