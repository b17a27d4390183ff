import { describe, expect, it } from "vitest";
import { defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { landingDraws } from "../../src/flight/draws.ts";
import { ellipseOutline, landingEllipse } from "../../src/flight/ellipse.ts";
import { carryRange } from "../../src/flight/range.ts";
import { deg, mph, rpm } from "../../src/units/index.ts";

describe("the landing ellipse", () => {
  // Chi-square with two degrees of freedom: 3.219 at 80 %, 5.991 at 95 % (any statistics handbook's table).
  it("has the handbook's size", () => {
    const one = { x: 0, y: 0, xx: 1, xy: 0, yy: 1 };
    expect(landingEllipse(one).long ** 2).toBeCloseTo(3.219, 3);
    expect(landingEllipse(one, 0.95).short ** 2).toBeCloseTo(5.991, 3);
    expect(() => landingEllipse(one, 1)).toThrow(RangeError);
  });

  it("points along the greater spread", () => {
    const slanted = landingEllipse({ x: 0, y: 0, xx: 5, xy: 4, yy: 5 });
    expect(slanted.toward / deg).toBeCloseTo(45, 9);
    expect(slanted.long / slanted.short).toBeCloseTo(3, 9);
    expect(Math.abs(landingEllipse({ x: 0, y: 0, xx: 9, xy: 0, yy: 1 }).toward / deg)).toBeCloseTo(90, 9);
  });

  it("has its outline where the normal spread is as far from its middle everywhere", () => {
    const spread = { x: 3, y: 90, xx: 20, xy: -9, yy: 40 };
    const det = spread.xx * spread.yy - spread.xy ** 2;
    for (const [px, py] of ellipseOutline(landingEllipse(spread))) {
      const [dx, dy] = [px - 3, py - 90];
      const distance = (spread.yy * dx * dx - 2 * spread.xy * dx * dy + spread.xx * dy * dy) / det;
      expect(distance).toBeCloseTo(3.2189, 4);
    }
  });

  it("holds about 80 % of drawn landing points", () => {
    for (const [speed, angle, spray] of [
      [95, 28, -20],
      [100, 20, 15],
      [85, 40, 0],
    ] as const) {
      const launch = {
        speed: speed * mph,
        launchAngle: angle * deg,
        sprayAngle: spray * deg,
        backspin: 2200 * rpm,
        sidespin: 400 * rpm,
      };
      const { landing } = carryRange(launch, defaultAir, ballFor(null), "estimated");
      const { long, short, toward, x, y } = landingEllipse(landing);
      const draws = landingDraws(launch, defaultAir, ballFor(null), "estimated", 4000, 0.25);
      const within = draws.x.filter((px, i) => {
        const [dx, dy] = [px - x, draws.y[i]! - y];
        const along = dx * Math.sin(toward) + dy * Math.cos(toward);
        const across = dx * Math.cos(toward) - dy * Math.sin(toward);
        return (along / long) ** 2 + (across / short) ** 2 <= 1;
      }).length;
      expect(Math.abs(within / 4000 - 0.8)).toBeLessThan(0.03);
    }
  });
});
