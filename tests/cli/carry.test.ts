import { describe, expect, it, vi } from "vitest";
import type { CarryAnswer } from "../../src/cli/carry.ts";
import { main } from "../../src/cli/main.ts";

async function call(...args: string[]): Promise<{ status: number; out: string; err: string }> {
  const said = { out: "", err: "" };
  const out = vi
    .spyOn(process.stdout, "write")
    .mockImplementation((text) => Boolean((said.out += String(text))));
  const err = vi
    .spyOn(process.stderr, "write")
    .mockImplementation((text) => Boolean((said.err += String(text))));
  try {
    return { status: await main(["carry", ...args]), ...said };
  } finally {
    out.mockRestore();
    err.mockRestore();
  }
}

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
      /^Spin, estimated: 2597 rpm of backspin and 849 rpm of sidespin toward right field\.$/m,
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
    [["--exit-velocity", "100", "--launch-angle", "91"], /--launch-angle 91 is outside -90 to 90 deg/],
    [[...hit, "--humidity", "101"], /--humidity 101 is outside 0 to 100/],
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
