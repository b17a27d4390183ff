import { describe, expect, it } from "vitest";
import type { CarryAnswer } from "../../src/cli/carry.ts";
import { run } from "./run.ts";

const call = (...args: string[]) => run("carry", ...args);

const hit = ["--exit-velocity", "100", "--launch-angle", "28"];
const answer = async (...args: string[]): Promise<CarryAnswer> => {
  const { status, out, err } = await call(...hit, ...args, "--json");
  expect([status, err]).toEqual([0, ""]);
  return JSON.parse(out) as CarryAnswer;
};

describe("batted carry", () => {
  it("says in sentences how far, between what, and what it assumed", async () => {
    const { status, out } = await call(...hit, "--spray-angle", "0", "--bats", "R");
    expect(status).toBe(0);
    expect(out).toMatch(/^Carry 402 ft; four in five such balls come down between 3\d\d and 4\d\d ft\.$/m);
    expect(out).toMatch(/^5\.4 s in the air, 90 ft at the highest, 6° to the right-field side of center\.$/m);
    expect(out).toMatch(
      /^Spin, estimated: 2597 rpm of backspin and 849 rpm of sidespin toward right field \(each ±500 rpm\)\.$/m,
    );
    expect(out).toMatch(/^Air, the default: 1\.194 kg\/m³\.$/m);
    expect(out).toMatch(/^Assumed: spin estimated.*70 °F.*sea-level pressure.*50 % humidity.*no wind/m);
  });

  it("is the same ball as JSON", async () => {
    const ball = await answer("--spray-angle", "0", "--bats", "R");
    expect(ball.carry_ft).toBeCloseTo(401.82, 2);
    expect(ball.carry_low_ft).toBeLessThan(ball.carry_ft);
    expect(ball.carry_high_ft).toBeGreaterThan(ball.carry_ft);
    expect(ball).toMatchObject({ spin_source: "estimated", air_source: "default", backspin_rpm: 2597 });
  });

  it("flies 28.1 ft further at 5280 ft, and says what the pressure came from", async () => {
    const ball = await answer("--spray-angle", "0", "--bats", "R", "--altitude", "5280");
    expect(Math.abs(ball.carry_ft - 401.82 - 28.1)).toBeLessThan(0.2);
    expect(ball.air_source).toBe("session");
    expect(ball.assumed.join()).toContain("standard atmosphere");
  });

  it("gives no bearing for a ball whose direction it wasn't told", async () => {
    expect((await answer()).bearing_deg).toBeNull();
    expect((await answer("--spray-angle", "-20")).bearing_deg).toBeLessThan(-10);
    expect((await call(...hit)).out).not.toContain("side of center");
  });

  it("tells the four sources of a spin apart, each with its spread, and is surer the more is known", async () => {
    const of = async (...more: string[]) => answer("--spray-angle", "0", "--bats", "R", ...more);
    const all = [
      await of("--backspin", "2500", "--sidespin", "800"),
      await of("--spin", "2600", "--spin-axis", "18"),
      await of("--spin", "2600"),
      await of(),
    ];
    expect(all.map((ball) => ball.spin_source)).toEqual([
      "measured",
      "rate_and_axis",
      "rate_only",
      "estimated",
    ]);
    expect(new Set(all.map((ball) => ball.spin_spread)).size).toBe(4);
    for (const ball of all) expect(ball.spin_spread).toMatch(/±\d+ rpm/);
    const sds = all.map((ball) => ball.carry_sd_ft);
    expect(sds[0]).toBeLessThan(sds[2]!);
    expect(sds[2]).toBeLessThan(sds[3]!);
  });

  it("says whether it would clear the fence, and how likely", async () => {
    const near = await answer("--spray-angle", "0", "--bats", "R");
    expect(near.fence).toMatchObject({ fence_height_ft: 8, short_by_ft: null, draws: 2000 });
    expect(near.fence!.chance).toBeGreaterThan(0.2);
    expect(near.fence!.chance).toBeLessThan(0.8);
    const softball = await answer("--spray-angle", "0", "--ball", "12-inch softball", "--field", "60/90");
    expect(softball).toMatchObject({ ball: "softball", fence: { result: "short", ball_height_ft: null } });
    const { out } = await call(...hit, "--spray-angle", "0", "--bats", "R");
    expect(out).toMatch(
      /^Fence of 60\/90, \d+ ft away and 8 ft high there: .* \d+ of 100 such balls clear it/m,
    );
    expect((await answer()).fence).toBeNull();
  });

  it("takes measured spin as given, and one part of it alone with the other estimated", async () => {
    const both = await answer("--backspin", "1500", "--sidespin", "-300");
    expect(both).toMatchObject({ backspin_rpm: 1500, sidespin_rpm: -300, spin_source: "measured" });
    expect(both.assumed.join()).not.toContain("estimated");
    const one = await answer("--backspin", "1500", "--bats", "R");
    expect(one).toMatchObject({ backspin_rpm: 1500, sidespin_rpm: 849, spin_source: "estimated" });
    expect(one.assumed).toContain("sidespin estimated from the launch");
  });

  it("blows", async () => {
    const none = (await answer()).carry_ft;
    expect((await answer("--wind", "10", "--wind-toward", "0")).carry_ft).toBeGreaterThan(none + 20);
    expect((await answer("--wind", "10", "--wind-toward", "180")).carry_ft).toBeLessThan(none - 20);
  });

  it("takes a ball hit down, and says topspin", async () => {
    const { status, out } = await call(
      "--exit-velocity",
      "90",
      "--launch-angle",
      "-5",
      "--spray-angle",
      "-50",
    );
    expect(status).toBe(0);
    expect(out).toContain("of topspin");
    expect(out).toContain("in foul ground");
  });

  it.each([
    [["--launch-angle", "28"], /--exit-velocity/],
    [["--exit-velocity", "fast", "--launch-angle", "28"], /--exit-velocity needs a number, not "fast"/],
    [["--exit-velocity", "", "--launch-angle", "28"], /--exit-velocity needs a number/],
    [
      ["--exit-velocity", "100", "--launch-angle", "91"],
      /--launch-angle 91 is over 90°: −90 to 90° is expected/,
    ],
    [[...hit, "--humidity", "101"], /--humidity 101 is over 100 %: 0 to 100 % is expected/],
    [[...hit, "--humidity", "-5"], /--humidity -5 is under 0 %: 0 to 100 % is expected/],
    [[...hit, "--temperature", "200"], /--temperature 200 is over 130 °F: −20 to 130 °F is expected/],
    [[...hit, "--pressure", "1013"], /--pressure 1013 is over 32 inHg: 16 to 32 inHg .*looks like hPa/],
    [[...hit, "--wind", "300", "--wind-toward", "0"], /--wind 300 is over 80 mph: 0 to 80 mph/],
    [[...hit, "--spin-axis", "10"], /--spin-axis needs --spin/],
    [[...hit, "--ball", "melon"], /--ball is one of baseball, softball, 11-inch softball, not "melon"/],
    [[...hit, "--field", "moon"], /--field is one of 60\/90, .*, not "moon"/],
    [[...hit, "--wind", "10"], /--wind needs --wind-toward/],
    [[...hit, "--wind-toward", "10"], /--wind-toward needs --wind/],
    [[...hit, "--bats", "both"], /--bats is L or R/],
    [[...hit, "--temprature", "10"], /--temprature/],
    [[...hit, "extra"], /argument/],
  ])("ends with one sentence and status 2: %j", async (args, sentence) => {
    const { status, out, err } = await call(...args);
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
});
