import { describe, expect, it } from "vitest";
import { fenceOdds, meetFence } from "../../src/contact/fence.ts";
import { fieldFor, type PlayingField } from "../../src/field/fields.ts";
import { airFor, defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { landingDraws } from "../../src/flight/draws.ts";
import type { Launch } from "../../src/flight/launch.ts";
import { carryRange } from "../../src/flight/range.ts";
import { estimateSpin } from "../../src/flight/spin.ts";
import { trajectory } from "../../src/flight/trajectory.ts";
import { deg, ft, mph, rpm } from "../../src/units/index.ts";

const ball = ballFor(null);
const launchAt = (speed: number, angle: number, spray = 0): Launch => ({
  speed: speed * mph,
  launchAngle: angle * deg,
  sprayAngle: spray * deg,
  ...estimateSpin(angle * deg, spray * deg, null),
});

/** A fence on a circle about the plate, of one height. */
function round(distance_ft: number, height_ft: number): PlayingField {
  // Posts every degree: the straight pieces between them are within 0.04 % of the circle.
  const fence = Array.from({ length: 91 }, (_, i) => ({ bearing_deg: i - 45, distance_ft, height_ft }));
  return { ...fieldFor(null), fence };
}

describe("where a ball meets the fence", () => {
  // Mechanics, by hand: no air, z = z0 + d·tan θ − g d² / (2 v² cos² θ) at the distance d.
  it("is the parabola's height in a vacuum", () => {
    const launch = { ...launchAt(83, 35), backspin: 0, sidespin: 0 };
    const meeting = meetFence(launch, { ...defaultAir, density: 0 }, ball, fieldFor(null));
    const d = 400 * ft;
    const parabola =
      3 * ft + d * Math.tan(35 * deg) - (9.80665 * d * d) / (2 * (83 * mph * Math.cos(35 * deg)) ** 2);
    expect(meeting).toMatchObject({ result: "over", bearing: 0 });
    expect(meeting.distance! / ft).toBeCloseTo(400, 9);
    expect(meeting.fence! / ft).toBeCloseTo(8, 9);
    expect(meeting.height!).toBeCloseTo(parabola, 3);
  });

  it("lies on the ball's own way, within a few millimetres of a hundred times finer one", () => {
    for (const launch of [launchAt(104, 27, -20), launchAt(104, 30, 30), launchAt(108, 22, 5)]) {
      const { result, bearing, distance, height } = meetFence(launch, defaultAir, ball, fieldFor(null));
      expect(["over", "into"]).toContain(result);
      const place = [distance! * Math.sin(bearing), distance! * Math.cos(bearing), height!] as const;
      const near = Math.min(
        ...trajectory(launch, defaultAir, ball, 0.001).map((p) =>
          Math.hypot(p.x - place[0], p.y - place[1], p.z - place[2]),
        ),
      );
      // Points 0.001 s apart are up to 25 mm from one another.
      expect(near).toBeLessThan(0.03);
    }
  });

  it("is into a fence higher than the ball, over one lower, short where it comes down before", () => {
    const launch = launchAt(104, 27);
    const at = (height: number) => meetFence(launch, defaultAir, ball, round(390, height));
    const height = at(8).height! / ft;
    expect(height).toBeGreaterThan(10);
    expect(at(height - 0.2).result).toBe("over");
    // The middle is over it, and some of the ball isn't.
    expect(at(height - 0.1).result).toBe("into");
    expect(at(height + 1).result).toBe("into");
    const soft = meetFence(launchAt(85, 27), defaultAir, ball, fieldFor(null));
    expect(soft).toMatchObject({ result: "short", height: null });
    expect(soft.missing! / ft).toBeGreaterThan(50);
    expect(soft.distance! / ft).toBeCloseTo(400, 6);
  });

  it("is nowhere for a ball past a foul line, and fair for one that turns foul behind the fence", () => {
    expect(meetFence(launchAt(104, 27, 60), defaultAir, ball, fieldFor(null)).result).toBe("foul");
    expect(meetFence(launchAt(90, 27, 170), defaultAir, ball, fieldFor(null)).result).toBe("foul");
    const slice = { ...launchAt(112, 30, 36), backspin: 1500 * rpm, sidespin: 1100 * rpm };
    const landing = trajectory(slice, defaultAir, ball, 0.1).at(-1)!;
    expect(Math.atan2(landing.x, landing.y) / deg).toBeGreaterThan(45);
    expect(meetFence(slice, defaultAir, ball, fieldFor(null))).toMatchObject({ result: "over" });
  });
});

describe("the chance of going over", () => {
  // Over a fence without height is the same as landing past it: the same draws have to say the same.
  it("is the share of landing points past a fence of no height", () => {
    const launch = launchAt(101, 28);
    const flat = round(395, 0);
    const { chance, draws } = fenceOdds(launch, defaultAir, ball, "estimated", flat);
    const { carry } = landingDraws(launch, defaultAir, ball, "estimated", draws!, 0.5);
    // The ball's own radius has to pass too, so that a landing within inches of the fence isn't over it.
    const beyond = (by: number): number => carry.filter((c) => c > 395 * ft + by).length / draws!;
    expect(chance).toBeLessThanOrEqual(beyond(0));
    expect(chance).toBeGreaterThanOrEqual(beyond(0.15));
    expect(chance).toBeGreaterThan(0.3);
    expect(chance).toBeLessThan(0.95);
  });

  it("agrees with the carry's own range: a tenth beyond its upper end, nine tenths beyond its lower", () => {
    const launch = launchAt(101, 28);
    const { low, high } = carryRange(launch, defaultAir, ball, "estimated");
    const odds = (distance: number): number =>
      fenceOdds(launch, defaultAir, ball, "estimated", round(distance / ft, 0)).chance;
    expect(Math.abs(odds(high) - 0.1)).toBeLessThan(0.03);
    expect(Math.abs(odds(low) - 0.9)).toBeLessThan(0.03);
  });

  it("grows with exit velocity and a tail wind, shrinks with the fence's height, and is the same when asked again", () => {
    const odds = (speed: number, toward = 0, wind = 0, height = 8): number =>
      fenceOdds(
        launchAt(speed, 28),
        airFor({ wind_mph: wind, wind_toward_deg: toward }),
        ball,
        "estimated",
        round(400, height),
      ).chance;
    expect(odds(99)).toBeLessThan(odds(101));
    expect(odds(101)).toBeLessThan(odds(104));
    expect(odds(101, 0, 8)).toBeGreaterThan(odds(101, 180, 8));
    expect(odds(101, 0, 0, 30)).toBeLessThan(odds(101));
    expect(odds(101)).toBe(odds(101));
    expect(odds(70)).toBe(0);
    expect(odds(120)).toBe(1);
  });

  it("is none without a draw where no fence is in reach", () => {
    expect(fenceOdds(launchAt(70, 30), defaultAir, ball, "estimated", fieldFor(null))).toMatchObject({
      chance: 0,
      draws: 0,
    });
    // Some six standard deviations past the landing point: five past the upper end of its range.
    const range = carryRange(launchAt(90, 30), defaultAir, ball, "estimated");
    const drawn = (sds: number): number =>
      fenceOdds(
        launchAt(90, 30),
        defaultAir,
        ball,
        "estimated",
        round((range.high + sds * range.sd) / ft, 8),
        { draws: 100 },
      ).draws;
    expect([4.8, 5.2].map(drawn)).toEqual([100, 0]);
    // The same ball has a small field's fence in reach, and there a softball carries less far.
    const small = fieldFor("46/60");
    const odds = (name: string | null): number =>
      fenceOdds(launchAt(62, 30), defaultAir, ballFor(name), "estimated", small).chance;
    expect(odds(null)).toBeGreaterThan(0.05);
    expect(odds("softball")).toBeLessThan(odds(null));
  });
});
