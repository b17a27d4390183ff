import { describe, expect, it } from "vitest";
import { defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { landingDraws } from "../../src/flight/draws.ts";
import { carryRange } from "../../src/flight/range.ts";
import { spinSourceOf, spinSources, spinWord } from "../../src/flight/spin.ts";
import { deviationsOf, spinSpreads, spreads } from "../../src/flight/spreads.ts";
import { deg, mph, rpm } from "../../src/units/index.ts";

const launch = {
  speed: 98 * mph,
  launchAngle: 27 * deg,
  sprayAngle: -12 * deg,
  backspin: 2400 * rpm,
  sidespin: -900 * rpm,
};
const rate = Math.hypot(2400, 900);

describe("the four sources of a spin", () => {
  it("have each a spread of their own, written from the same table", () => {
    const of = (source: (typeof spinSources)[number]) => {
      const { spinAlong, spinAcross, ownDirection } = deviationsOf(launch, defaultAir, source);
      return [spinAlong / rpm, spinAcross / rpm, ownDirection];
    };
    expect(of("measured")).toEqual([spreads.spinMeasured.sd, spreads.spinMeasured.sd, false]);
    const [along, across, own] = of("rate_and_axis") as [number, number, boolean];
    expect(along).toBeCloseTo(spreads.spinRate.sd, 9);
    expect(across).toBeCloseTo(rate * spreads.spinAxis.sd * deg, 9);
    expect(own).toBe(true);
    expect(of("rate_only")).toEqual([spreads.spinRate.sd, spreads.spinEstimated.sd, true]);
    expect(of("estimated")).toEqual([spreads.spinEstimated.sd, spreads.spinEstimated.sd, false]);
    expect(new Set(spinSources.map((source) => JSON.stringify(spinSpreads[source]))).size).toBe(4);
    expect(spinSpreads.rate_only.spread).toContain(String(spreads.spinEstimated.sd));
  });

  it("give a range that agrees with draws, rate and axis too", () => {
    const ball = ballFor(null);
    for (const source of spinSources) {
      const { carry } = landingDraws(launch, defaultAir, ball, source, 6000, 0.75);
      const mean = carry.reduce((sum, c) => sum + c, 0) / carry.length;
      const sd = Math.sqrt(carry.reduce((sum, c) => sum + (c - mean) ** 2, 0) / carry.length);
      expect(Math.abs(carryRange(launch, defaultAir, ball, source).sd / sd - 1), source).toBeLessThan(0.05);
    }
  });

  it("are told apart in a row by its word and what was measured", () => {
    const measured = { spin_source: "measured", backspin_rpm: 2000, sidespin_rpm: 100 } as const;
    expect(spinSourceOf(measured)).toBe("measured");
    expect(spinSourceOf({ ...measured, sidespin_rpm: null })).toBe("rate_and_axis");
    expect(spinSourceOf({ ...measured, spin_source: "estimated" })).toBe("estimated");
    expect(spinSourceOf({ ...measured, spin_source: null })).toBeNull();
    expect(spinSources.map(spinWord)).toEqual(["measured", "measured", "rate_only", "estimated"]);
  });
});
