import { describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { usualCircumstances, whatIf, type Circumstances } from "../../src/contact/whatIf.ts";
import { ball, swing } from "./swings.ts";

const swings = enrich({
  swings: [
    ball(101, 28, { spray_angle_deg: 0, bats: "R" }),
    ball(96, 24, { spray_angle_deg: -30, bats: "R", spin_rpm: 2000 }),
    ball(103, 30, { bats: "L" }),
    ball(70, -5, { spray_angle_deg: 10 }),
    swing({ outcome: "miss" }),
  ],
  sessions: [],
  hitters: [],
});
const here: Circumstances = { name: "here", air: { altitude_ft: 0 } };

describe("what if", () => {
  it("flies the same swings in each of the circumstances, against the first", () => {
    const [first, high, small] = whatIf(swings, [
      here,
      { name: "high", air: { altitude_ft: 5280 } },
      { name: "small", air: { altitude_ft: 0 }, field: "46/60", ball: "softball" },
    ]);
    expect(first).toMatchObject({ name: "here", n: 4, left_out: 1, change_ft: 0, without_direction: 1 });
    expect(first!.balls.map((b) => b.swing_id)).toEqual(swings.slice(0, 4).map((s) => s.swing_id));
    // Denver's mile against the sea, for a ball near 400 ft: about 6 ft by 1000 ft (Adair), so some 30.
    const change = high!.balls[0]!.change_ft;
    expect(change).toBeGreaterThan(25);
    expect(change).toBeLessThan(36);
    expect(high!.balls[0]!.carry_ft).toBeCloseTo(first!.balls[0]!.carry_ft + change, 9);
    expect(high!.over).toBeGreaterThan(first!.over);
    expect(small!.field.name).toBe("46/60");
    expect(small!.change_ft!).toBeLessThan(0);
    expect(small!.over).toBeGreaterThan(1.9);
    for (const each of high!.balls) {
      expect(each.carry_low_ft).toBeLessThan(each.carry_ft);
      expect(each.carry_high_ft).toBeGreaterThan(each.carry_ft);
    }
    expect(high!.change_low_ft!).toBeLessThanOrEqual(high!.change_ft!);
    expect(high!.change_high_ft!).toBeGreaterThanOrEqual(high!.change_ft!);
  });

  it("adds up chances of going over, not verdicts, with the spread of their sum", () => {
    const [only] = whatIf(swings, [here]);
    const chances = only!.balls.map((b) => b.chance).filter((p) => p !== null);
    expect(chances).toHaveLength(3);
    expect(only!.over).toBeCloseTo(
      chances.reduce((a, b) => a + b),
      12,
    );
    expect(only!.over % 1).not.toBe(0);
    expect(only!.over_sd ** 2).toBeCloseTo(
      chances.reduce((sum, p) => sum + p * (1 - p), 0),
      12,
    );
    expect(only!.balls[2]!.chance).toBeNull();
  });

  it("names everything that was assumed, the source of each spin with its spread", () => {
    const [sea, full] = whatIf(swings, [
      { name: "nothing known", air: {} },
      {
        name: "all known",
        air: { temperature_f: 60, pressure_inhg: 29, humidity_pct: 30, wind_mph: 0 },
        ball: "baseball",
        field: "60/90",
      },
    ]);
    expect(sea!.assumed.slice(1)).toEqual([
      "a baseball",
      "the fence of the full field, 90 ft bases",
      "70 °F",
      "sea-level pressure",
      "50 % humidity",
      "no wind",
    ]);
    expect(full!.assumed).toHaveLength(1);
    expect(full!.assumed[0]).toBe(
      "spin: rate measured, axis estimated (±100 rpm, and ±500 rpm across) for 1 of 4; " +
        "estimated from the launch (each ±500 rpm) for 3 of 4",
    );
  });

  it("is empty without swings, and unknown instead of 0", () => {
    expect(whatIf([], [here])[0]).toMatchObject({ n: 0, carry_ft: null, change_ft: null, over: 0 });
    expect(whatIf(swings, [])).toEqual([]);
  });

  it("has usual circumstances: each differs from the first in what its name says", () => {
    const windy = usualCircumstances({ pressure_inhg: 29, wind_mph: 5, wind_toward_deg: 10 }, "60/90");
    const names = windy.map(({ name }) => name);
    expect(names).toEqual([...new Set(names)]);
    expect(names.filter((name) => name.includes("wind"))).toHaveLength(4);
    expect(names.filter((name) => name.includes("field"))).toHaveLength(3);
    expect(usualCircumstances({}).some(({ name }) => name === "no wind")).toBe(false);
    const cases = new Map(whatIf(swings, windy).map((each) => [each.name, each]));
    const carry = (name: string): number => cases.get(name)!.balls[0]!.carry_ft;
    const is = carry("as it is");
    expect(carry("a cold day, 45 °F")).toBeLessThan(is);
    expect(carry("a hot day, 95 °F")).toBeGreaterThan(is);
    // A mile high is thinner than the pressure that was given.
    expect(carry("a mile high, 5,280 ft")).toBeGreaterThan(is + 15);
    expect(carry("wind out to center, 10 mph")).toBeGreaterThan(is);
    expect(carry("wind in from center, 10 mph")).toBeLessThan(carry("no wind"));
    expect(carry("on a 46/60 field")).toBe(is);
    expect(cases.get("on a 46/60 field")!.over).toBeGreaterThan(cases.get("as it is")!.over);
  });
});
