/** The step of the flight: the file as it is written, the scheme behind it, and two lanes against one. */
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { nodeOf, rows, stepFile, stepSource } from "../../data/flight-step.ts";
import { defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { load } from "../../src/flight/carry.ts";
import { run, runMany } from "../../src/flight/kernel.ts";
import * as room from "../../src/flight/lanes.ts";
import { startLane, stepOne, stepTwo } from "../../src/flight/step.ts";
import { anyBalls, hitBalls } from "./launches.ts";

const ball = ballFor(null);
const total = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0);

it("stands in its file as the scheme has it", async () => {
  expect(await readFile(stepFile, "utf8")).toBe(await stepSource());
});

describe("the scheme", () => {
  // Lobatto's five nodes on 0 to 1: 0, (1 ∓ √(3/7))/2, 1/2, 1 (Abramowitz and Stegun, table 25.6).
  const inner = Math.sqrt(3 / 7) / 2;
  const nodes = [0, 0.5 - inner, 0.5, 0.5 + inner, 1];
  const at = nodeOf.map((n) => nodes[n]!);

  it("has each stage at its node", () => {
    rows.slice(0, -1).forEach((row, s) => expect(total(row)).toBeCloseTo(at[s]!, 14));
  });

  it("weighs the stages as Lobatto's rule does: exact for powers up to the seventh", () => {
    const weights = rows.at(-1)!;
    for (let power = 0; power <= 7; power++) {
      expect(total(weights.map((w, s) => w * at[s]! ** power))).toBeCloseTo(1 / (power + 1), 13);
    }
    expect(total(weights.map((w, s) => w * at[s]! ** 8))).not.toBeCloseTo(1 / 9, 5);
  });

  it("is of order 8: half the step, 2⁸ less of an error", () => {
    const [{ launch }] = hitBalls(1, 0.7) as [ReturnType<typeof hitBalls>[number]];
    const velocityAfter = (h: number): number[] => {
      load({ ...launch, backspin: 200, sidespin: 50 }, defaultAir, ball);
      room.here.set([0, 0, 0, 1, ...room.given.slice(3, 6)], 0);
      room.decay[0] = 1;
      startLane(0);
      for (let left = Math.round(2 / h); left > 0; left--) {
        room.plan[0] = h;
        stepOne();
        for (let i = 0; i < 7; i++) room.here[i] = room.next[i]!;
        for (let i = 0; i < 3; i++) room.acceleration[i] = room.acceleration[room.atEnd + i]!;
        room.decay[0] = room.decay[2]!;
      }
      return [...room.here.slice(4, 7)];
    };
    const truth = velocityAfter(0.05);
    const error = (h: number): number => Math.hypot(...velocityAfter(h).map((v, i) => v - truth[i]!));
    const order = Math.log2(error(1) / error(0.5));
    expect(order).toBeGreaterThan(7.3);
    expect(order).toBeLessThan(9.5);
  });
});

describe("two lanes", () => {
  const cases = [...hitBalls(60, 0.5), ...anyBalls(60, 0.6)];

  it("step as each would alone, to the last digit", () => {
    for (let i = 0; i + 1 < cases.length; i += 2) {
      const alone = [cases[i]!, cases[i + 1]!].map(({ launch, air }) => {
        load(launch, air, ball);
        room.here.set([0, ...room.given.slice(0, 6)], 0);
        room.decay[0] = 1;
        room.plan[0] = 0.8;
        startLane(0);
        stepOne();
        return [...room.next.slice(0, 7), room.plan[1]!];
      });
      [cases[i]!, cases[i + 1]!].forEach(({ launch, air }, lane) => {
        load(launch, air, ball, lane);
        const from = lane * room.givenWidth;
        room.here.set([0, ...room.given.slice(from, from + 6)], lane * room.stateWidth);
        room.decay[lane * room.decayWidth] = 1;
        room.plan[lane * room.planWidth] = 0.8;
        startLane(lane);
      });
      stepTwo();
      alone.forEach((numbers, lane) => {
        const from = lane * room.stateWidth;
        expect([...room.next.slice(from, from + 7), room.plan[lane * room.planWidth + 1]!]).toEqual(numbers);
      });
    }
  });

  it("land each ball where it lands alone, whatever flies beside it", () => {
    const alone = cases.map(({ launch, air }) => {
      load(launch, air, ball);
      run();
      return [...room.landed.slice(0, 7)];
    });
    const beside: number[][] = [];
    runMany(
      cases.length,
      (i, lane) => load(cases[i]!.launch, cases[i]!.air, ball, lane),
      (i, lane) => {
        const from = lane * room.landedWidth;
        beside[i] = [...room.landed.slice(from, from + 7)];
      },
    );
    expect(beside).toEqual(alone);
  });
});
