import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { straight, type Placement, type Stand } from "../../src/field/tracker.ts";
import { errorBudget, toleranceOf, type BudgetMeasure } from "../../src/setup/budget.ts";
import { toleranceTable, tolerances } from "../../src/setup/tolerances.ts";

/** Before, behind and beside the plate. */
const stands: readonly Stand[] = [
  { distance_ft: 18.5, offset_in: 0 },
  { distance_ft: -13.7, offset_in: 31.4 },
  { distance_ft: 2.6, offset_in: -148 },
];
const [told] = stands as [Stand];
const at = (changes: Partial<Placement>, stand = told): Placement => ({ ...stand, ...straight, ...changes });
const bias = (changes: Partial<Placement>, measure: BudgetMeasure, scaled = true): number =>
  errorBudget(at(changes), { believed: told, scaled }).measures.find((m) => m.measure === measure)!.value;

describe("the error budget", () => {
  it("of a placement as told is nothing, in every measure", () => {
    for (const stand of stands) {
      const budget = errorBudget(at({}, stand));
      expect(budget.verdict).toBe("fine");
      for (const { value } of budget.measures) expect(value).toBeCloseTo(0, 9);
      for (const { advice } of budget.causes) expect(advice).toBeNull();
      expect(budget.doubts).toEqual([]);
    }
  });

  it("of a turn is the turn in spray, its sine times the distance at the plate, and no speed", () => {
    expect(bias({ yaw_deg: 2 }, "spray_angle_deg")).toBeCloseTo(2, 9);
    expect(bias({ yaw_deg: 2 }, "exit_velocity_mph")).toBeCloseTo(0, 9);
    expect(bias({ yaw_deg: 2 }, "launch_angle_deg")).toBeCloseTo(0, 9);
    // The farthest of the three is met 0.3 ft aside and 1.2 ft forward: a chord of 2 × 17.303 × sin 1°.
    expect(bias({ yaw_deg: 2 }, "contact_ft")).toBeCloseTo(
      2 * Math.hypot(0.3, 17.3) * Math.sin(Math.PI / 180),
      6,
    );
  });

  it("of a turn from behind or beside the plate is as large in spray, and at the plate what the chord says", () => {
    for (const stand of stands) {
      const budget = errorBudget(at({ yaw_deg: 2 }, stand));
      const value = (measure: BudgetMeasure): number =>
        budget.measures.find((m) => m.measure === measure)!.value;
      expect(value("spray_angle_deg")).toBeCloseTo(2, 9);
      expect(value("launch_angle_deg")).toBeCloseTo(0, 9);
      const farthest = Math.max(
        ...budget.balls.map(({ ball: { contact_ft: c } }) =>
          Math.hypot(c[0] - stand.offset_in / 12, c[1] - stand.distance_ft),
        ),
      );
      expect(value("contact_ft")).toBeCloseTo(2 * farthest * Math.sin(Math.PI / 180), 6);
    }
  });

  it("of a tilt is the tilt in launch for the ball to center", () => {
    const budget = errorBudget(at({ tilt_deg: 1 }));
    expect(budget.balls[1]!.biases.launch_angle_deg).toBeCloseTo(1, 9);
    // Near the angle that carries farthest a degree costs nothing; a liner gains feet by it.
    expect(budget.balls[0]!.biases.carry_ft).toBeGreaterThan(4);
    expect(Math.abs(budget.balls[1]!.biases.carry_ft)).toBeLessThan(1);
    expect(budget.causes.find((c) => c.cause === "tilt_deg")!.advice).toMatch(
      /^Raise its end toward the pitcher by 1\.0°/,
    );
  });

  it("of a lean raises balls to right and lowers balls to left", () => {
    const [left, , right] = errorBudget(at({ roll_deg: 2 })).balls;
    expect(left!.biases.launch_angle_deg).toBeLessThan(-0.5);
    expect(right!.biases.launch_angle_deg).toBeGreaterThan(0.5);
  });

  it("of a wrong distance is in the speed where the scale comes from it, else in the depth alone", () => {
    expect(bias({ distance_ft: 19.5 }, "exit_velocity_mph")).toBeCloseTo(95 * (18.5 / 19.5 - 1), 6);
    expect(bias({ distance_ft: 19.5 }, "exit_velocity_mph", false)).toBeCloseTo(0, 9);
    expect(bias({ distance_ft: 19.5 }, "contact_ft", false)).toBeCloseTo(1, 9);
    // Behind the plate a foot farther back reads slower as well.
    const behind = { distance_ft: -13, offset_in: 0 };
    const back = errorBudget(at({ distance_ft: -14 }, behind), { believed: behind });
    expect(back.measures[0]!.value).toBeCloseTo(95 * (13 / 14 - 1), 6);
  });

  it("grows with the misplacement, and its verdict never gets better", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("yaw_deg" as const, "tilt_deg" as const),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (cause, size) => {
          const [less, more] = [errorBudget(at({ [cause]: size })), errorBudget(at({ [cause]: size + 1 }))];
          const rank = (v: string): number => ["fine", "tighten it", "redo it"].indexOf(v);
          expect(rank(more.verdict)).toBeGreaterThanOrEqual(rank(less.verdict));
        },
      ),
      { numRuns: 30 },
    );
  });

  it("turns at the table's limits", () => {
    expect(toleranceOf("launch_angle_deg", tolerances.fine_launch_angle_deg)).toBe("fine");
    expect(toleranceOf("launch_angle_deg", tolerances.fine_launch_angle_deg + 0.01)).toBe("tighten it");
    expect(toleranceOf("launch_angle_deg", -tolerances.redo_launch_angle_deg)).toBe("redo it");
  });

  it("names what looks like a slip, and still says what it can", () => {
    const metres = errorBudget(at({ distance_ft: -5.2 }), { believed: told });
    expect(metres.doubts.join()).toMatch(
      /stands 5\.2 ft from the plate's point: .* in metres\? 5\.2 m would be 17\.1 ft/,
    );
    expect(metres.verdict).toBe("redo it");
    // Twelve feet aside is far enough, however near along the line.
    expect(errorBudget(at({}, stands[2])).doubts).toEqual([]);
    expect(errorBudget(at({ distance_ft: 1.6 }), { units: "metric" }).doubts.join()).toMatch(
      /stands 0\.49 m from/,
    );
    const steep = errorBudget(at({ tilt_deg: 40 }));
    expect(steep.doubts.join()).toMatch(/A tilt of 40° is not how a tracker is left standing/);
    expect(steep.balls[1]!.biases.launch_angle_deg).toBeCloseTo(40, 9);
    expect(errorBudget(at({ distance_ft: -75 })).doubts).toHaveLength(1);
    expect(() => errorBudget(at({ distance_ft: NaN }))).toThrow(RangeError);
  });

  it("says which way to move", () => {
    const advice = (changes: Partial<Placement>, believed = told, units: "us" | "metric" = "us"): string =>
      errorBudget(at(changes, believed), { believed, units })
        .causes.flatMap((c) => (c.advice === null ? [] : [c.advice]))
        .join();
    expect(advice({ distance_ft: 19.5 })).toMatch(/^Move it 12\.0 in away from the pitcher/);
    expect(advice({ distance_ft: -14.7 }, stands[1])).toMatch(/^Move it 12\.0 in toward the pitcher/);
    expect(advice({ offset_in: 3 })).toMatch(/^Move it 3\.0 in toward third base's side/);
    // 42 ft to the rubber: 42 tan 1° = 8.8 in.
    expect(advice({ yaw_deg: 1 })).toMatch(
      /a sight through it to the rubber has to come 8\.8 in farther toward first base's side/,
    );
    expect(advice({ yaw_deg: 1 }, told, "metric")).toMatch(/22\.3 cm farther/);
    expect(advice({ roll_deg: -1 })).toMatch(/Raise its third base side by 1\.0°: 0\.21 in in a foot/);
  });
});

describe("the table of tolerances", () => {
  it("gives each a reason, a source and limits that hold it", () => {
    const entries = Object.entries(toleranceTable);
    expect(entries.length).toBeGreaterThan(20);
    for (const [name, { value, min, max, reason, source }] of entries) {
      expect(value, name).toBeGreaterThanOrEqual(min);
      expect(value, name).toBeLessThanOrEqual(max);
      expect(reason.length, name).toBeGreaterThan(20);
      expect(source, name).not.toBe("");
    }
    for (const pair of [
      "exit_velocity_mph",
      "launch_angle_deg",
      "spray_angle_deg",
      "contact_ft",
      "carry_ft",
    ] as const)
      expect(tolerances[`fine_${pair}`]).toBeLessThan(tolerances[`redo_${pair}`]);
    for (const pair of ["turn_deg", "exit_velocity_mph", "contact_ft", "doubtful_share"] as const)
      expect(tolerances[`look_${pair}`]).toBeLessThan(tolerances[`hold_${pair}`]);
  });
});
