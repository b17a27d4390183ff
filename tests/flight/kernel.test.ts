/** The kernel against an independent solution of the same equations at a tight tolerance. */
import { describe, expect, it } from "vitest";
import { defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { fly } from "../../src/flight/carry.ts";
import { deg, ft, mph, rpm } from "../../src/units/index.ts";
import { anyBalls, hitBalls, type Case } from "./launches.ts";
import { tightFlight } from "./reference.ts";

const ball = ballFor(null);

function worst(cases: readonly Case[]): { place: number; hang: number; apex: number } {
  const most = { place: 0, hang: 0, apex: 0 };
  for (const { launch, air } of cases) {
    const ours = fly(launch, air, ball);
    const theirs = tightFlight(launch, air, ball);
    most.place = Math.max(most.place, Math.hypot(ours.x - theirs.x, ours.y - theirs.y) / ft);
    most.hang = Math.max(most.hang, Math.abs(ours.hang - theirs.hang));
    most.apex = Math.max(most.apex, Math.abs(ours.apex - theirs.apex) / ft);
  }
  return most;
}

describe("the kernel, against odex at 1e-12", () => {
  it("lands 200 hit balls within 0.001 ft and 0.00001 s", () => {
    const most = worst(hitBalls(200, 0.11));
    expect(most.place).toBeLessThan(0.001);
    expect(most.hang).toBeLessThan(0.00001);
    expect(most.apex).toBeLessThan(0.005);
  });

  it("lands 200 balls from anywhere within the fields' limits within 0.01 ft and 0.001 s", () => {
    const most = worst(anyBalls(200, 0.37));
    expect(most.place).toBeLessThan(0.01);
    expect(most.hang).toBeLessThan(0.001);
    expect(most.apex).toBeLessThan(0.01);
  });

  it("lands pop-ups, whose speed nearly vanishes at the top, within 0.001 ft", () => {
    const cases = [80, 85, 88, 89, 89.9, 90].flatMap((angle) =>
      [0, 2000].map((sidespin): Case => {
        const launch = {
          speed: 80 * mph,
          launchAngle: angle * deg,
          sprayAngle: 10 * deg,
          backspin: 1500 * rpm,
          sidespin: sidespin * rpm,
        };
        return { launch, air: defaultAir };
      }),
    );
    expect(worst(cases).place).toBeLessThan(0.001);
  });
});

describe("the figures the blueprint's equations give", () => {
  // Integrated apart from this code, by the classical method at steps of 0.001 s.
  const launch = {
    speed: 100 * mph,
    launchAngle: 28 * deg,
    sprayAngle: 0,
    backspin: (-763 + 120 * 28) * rpm,
    sidespin: 849 * rpm,
  };
  it("are 401.816 ft, 5.41354 s for a right-handed batter's 100 mph at 28°", () => {
    const flight = fly(launch, defaultAir, ball);
    expect(flight.carry / ft).toBeCloseTo(401.816, 3);
    expect(flight.hang).toBeCloseTo(5.41354, 5);
  });
});
