/** The step of the flight: the file as it is written, and the scheme behind it. */
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { nodeOf, rows, stepFile, stepSource } from "../../data/flight-step.ts";
import { defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { load } from "../../src/flight/carry.ts";
import * as room from "../../src/flight/room.ts";
import { start, step } from "../../src/flight/step.ts";
import { hitBalls } from "./launches.ts";

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
      start();
      for (let left = Math.round(2 / h); left > 0; left--) {
        room.plan[0] = h;
        step();
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
