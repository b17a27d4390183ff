/** Speed and accuracy of the flight, as ratios in one run. */
import { defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { carryBatch } from "../../src/flight/batch.ts";
import { fly } from "../../src/flight/carry.ts";
import { carryRange } from "../../src/flight/range.ts";
import { ft } from "../../src/units/index.ts";
import { anyBalls, hitBalls } from "../flight/launches.ts";
import { quickFlight, tightFlight } from "../flight/reference.ts";

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

export async function benchFlight(): Promise<void> {
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

  // The library's own tolerance at which it is as near the tight answer, nineteen balls in twenty, as the kernel.
  const target = quantile(ours, 0.95);
  let tolerance = 1e-2;
  let library: number[] = [];
  for (; tolerance > 1e-12; tolerance /= 2) {
    library = hit.map(({ launch, air }, i) => off(quickFlight(launch, air, ball, tolerance), i));
    if (quantile(library, 0.95) <= target) break;
  }

  const batch = microseconds(many.length, () => void carryBatch(columns, defaultAir, ball));
  const one = microseconds(many.length, () => {
    for (const { launch, air } of many) fly(launch, air, ball);
  });
  const general = microseconds(hit.length, () => {
    for (const { launch, air } of hit) quickFlight(launch, air, ball, tolerance);
  });
  const ranged = many.slice(0, 5000);
  const range = microseconds(ranged.length, () => {
    for (const { launch, air } of ranged) carryRange(launch, air, ball, "estimated");
  });

  const rows: [string, string, string][] = [
    ["one carry, in a batch", `${batch.toFixed(2)} µs`, "about 3 µs"],
    ["one carry, fly()", `${one.toFixed(2)} µs`, ""],
    ["error, hit balls: 95 %, worst", `${error(ours, 0.95)}, ${error(ours, 1)} ft`, "≤ 0.001 ft"],
    ["error, any balls: 95 %, worst", `${error(oursAny, 0.95)}, ${error(oursAny, 1)} ft`, "≤ 0.01 ft"],
    [
      "odex, to the same error",
      `${general.toFixed(0)} µs at ${tolerance.toExponential(0)} (${error(library, 0.95)} ft)`,
      "",
    ],
    ["odex ÷ batch", `${(general / batch).toFixed(0)} ×`, "≥ 100 ×"],
    ["carry with its range", `${range.toFixed(1)} µs, ${Math.round(1e6 / range)} swings/s`, ""],
  ];
  const wide = Math.max(...rows.map(([name]) => name.length));
  const wider = Math.max(...rows.map(([, value]) => value.length));
  console.log("Flight (one core, process time)");
  for (const [name, value, wanted] of rows) {
    console.log(`  ${name.padEnd(wide)}  ${value.padEnd(wider)}  ${wanted}`);
  }
}

function error(values: readonly number[], share: number): string {
  return quantile(values, share).toExponential(1);
}
