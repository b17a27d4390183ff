import { describe, expect, it } from "vitest";
import { ballFor, balls, findBall } from "../../src/flight/ball.ts";
import { launchOf, unmeasuredContact } from "../../src/flight/launch.ts";
import { estimateSpin, spinOf, type SpinFields } from "../../src/flight/spin.ts";
import { deg, ft, mph, rpm } from "../../src/units/index.ts";

const swing: SpinFields = {
  bats: "R",
  launch_angle_deg: 28,
  spray_angle_deg: -10,
  backspin_rpm: null,
  sidespin_rpm: null,
  spin_rpm: null,
  spin_axis_deg: null,
};

describe("the estimate", () => {
  // By hand: −763 + 120·28 + 21·(−10) = 2387; 849 − 940 = −91; left-handed: 2807 and −1789.
  it.each([
    ["R", 2387, -91],
    ["L", 2807, -1789],
    [null, 2597, -940],
  ] as const)("for %s, 28° and −10°: %d and %d rpm", (bats, back, side) => {
    const spin = estimateSpin(28 * deg, -10 * deg, bats);
    expect(spin.backspin / rpm).toBeCloseTo(back, 8);
    expect(spin.sidespin / rpm).toBeCloseTo(side, 8);
  });

  it("is held within −2000 to 4000 and ±3000 rpm", () => {
    expect(estimateSpin(90 * deg, 0, "R").backspin / rpm).toBeCloseTo(4000, 8);
    expect(estimateSpin(-90 * deg, 0, "R").backspin / rpm).toBeCloseTo(-2000, 8);
    expect(estimateSpin(0, 45 * deg, "R").sidespin / rpm).toBeCloseTo(3000, 8);
    expect(estimateSpin(0, -60 * deg, "L").sidespin / rpm).toBeCloseTo(-3000, 8);
  });

  it("mirrors with the batter's side", () => {
    const right = estimateSpin(20 * deg, 15 * deg, "R");
    const left = estimateSpin(20 * deg, -15 * deg, "L");
    expect(left.backspin).toBeCloseTo(right.backspin, 12);
    expect(left.sidespin).toBeCloseTo(-right.sidespin, 12);
  });
});

describe("the spin of a swing", () => {
  it("is measured by backspin and sidespin", () => {
    const spin = spinOf({ ...swing, backspin_rpm: 1800, sidespin_rpm: -700 });
    expect(spin.source).toBe("measured");
    expect(spin.backspin / rpm).toBeCloseTo(1800, 9);
    expect(spin.sidespin / rpm).toBeCloseTo(-700, 9);
  });

  it("is measured by rate and axis: 0° backspin, 90° toward right field, 180° topspin", () => {
    const at = (axis: number) => spinOf({ ...swing, spin_rpm: 2000, spin_axis_deg: axis });
    expect(at(0).backspin / rpm).toBeCloseTo(2000, 9);
    expect(at(90).sidespin / rpm).toBeCloseTo(2000, 9);
    expect(at(90).backspin).toBeCloseTo(0, 9);
    expect(at(180).backspin / rpm).toBeCloseTo(-2000, 9);
    expect(at(-90).sidespin / rpm).toBeCloseTo(-2000, 9);
    expect(at(30).source).toBe("rate_and_axis");
  });

  it("is the measured rate about the estimated axis when the rate alone is known", () => {
    const spin = spinOf({ ...swing, spin_rpm: 1500 });
    expect(spin.source).toBe("rate_only");
    expect(Math.hypot(spin.backspin, spin.sidespin) / rpm).toBeCloseTo(1500, 9);
    expect(spin.sidespin / spin.backspin).toBeCloseTo(-91 / 2387, 9);
    expect(spinOf({ ...swing, spin_rpm: 0 })).toEqual({ backspin: 0, sidespin: -0, source: "rate_only" });
  });

  it("is estimated otherwise, keeping what was measured", () => {
    expect(spinOf(swing).source).toBe("estimated");
    expect(spinOf(swing).backspin / rpm).toBeCloseTo(2387, 8);
    const kept = spinOf({ ...swing, backspin_rpm: 1000 });
    expect(kept.source).toBe("estimated");
    expect(kept.backspin / rpm).toBeCloseTo(1000, 9);
    expect(kept.sidespin / rpm).toBeCloseTo(-91, 8);
    expect(spinOf({ ...swing, spray_angle_deg: null }).sidespin / rpm).toBeCloseTo(849, 8);
  });

  it("can't be estimated without a launch angle", () => {
    expect(() => spinOf({ ...swing, launch_angle_deg: null })).toThrow(RangeError);
  });
});

describe("the launch of a swing", () => {
  const fields = {
    ...swing,
    exit_velocity_mph: 90,
    contact_side_ft: null,
    contact_depth_ft: null,
    contact_height_ft: null,
  };

  it("is in SI, with the contact point left out when unmeasured", () => {
    const launched = launchOf(fields)!;
    expect(launched.launch.speed).toBeCloseTo(90 * mph, 12);
    expect(launched.launch.launchAngle).toBeCloseTo(28 * deg, 12);
    expect(launched.launch.contact).toBeUndefined();
    expect(launched.spinSource).toBe("estimated");
  });

  it("fills what is missing of a measured contact point from the unmeasured one", () => {
    expect(launchOf({ ...fields, contact_depth_ft: 2 })!.launch.contact).toEqual([
      0,
      2 * ft,
      unmeasuredContact[2],
    ]);
  });

  it("is null without an exit velocity or a launch angle", () => {
    expect(launchOf({ ...fields, exit_velocity_mph: null })).toBeNull();
    expect(launchOf({ ...fields, launch_angle_deg: null })).toBeNull();
  });
});

describe("balls", () => {
  it("are a baseball when none is named, and found whatever the case", () => {
    expect(ballFor(null)).toBe(balls[0]);
    expect(ballFor("Softball").name).toBe("softball");
    expect(ballFor("12-inch softball")).toBe(ballFor("softball"));
    expect(findBall("beach ball")).toBeNull();
    expect(() => ballFor("beach ball")).toThrow(/"beach ball"/);
  });

  // 5.125 oz is 145.29 g; 9.125 in around is 36.9 mm of radius. 6.625 oz is 187.8 g; 12 in around 48.51 mm.
  it("weigh and measure what the rule books' middles are", () => {
    expect(ballFor("baseball").mass).toBeCloseTo(0.14529, 5);
    expect(ballFor("baseball").radius).toBeCloseTo(0.036888, 6);
    expect(ballFor("softball").mass).toBeCloseTo(0.18782, 5);
    expect(ballFor("softball").radius).toBeCloseTo(0.04851, 5);
    // 6 oz is 170.1 g; 11 in around 44.47 mm.
    expect(ballFor("11-inch softball").mass).toBeCloseTo(0.1701, 5);
    expect(ballFor("11-inch softball").radius).toBeCloseTo(0.044468, 6);
  });

  it("say that a softball's drag and lift are borrowed", () => {
    for (const { name, aerodynamics, assumed } of balls) {
      if (name === "baseball") expect([aerodynamics, ...assumed].join()).not.toMatch(/assum/i);
      else expect(aerodynamics).toMatch(/^Assumption/);
      expect(assumed).toHaveLength(name === "baseball" ? 0 : 1);
    }
  });
});
