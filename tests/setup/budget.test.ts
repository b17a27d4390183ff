import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { straight, usualStand, type Placement } from "../../src/field/tracker.ts";
import { errorBudget, toleranceOf, type BudgetMeasure } from "../../src/setup/budget.ts";
import { toleranceTable, tolerances } from "../../src/setup/tolerances.ts";

const at = (changes: Partial<Placement>): Placement => ({ ...usualStand, ...straight, ...changes });
const bias = (changes: Partial<Placement>, measure: BudgetMeasure, scaled = true): number =>
  errorBudget(at(changes), { scaled }).measures.find((m) => m.measure === measure)!.value;

describe("the error budget", () => {
  it("of a placement as told is nothing, in every measure", () => {
    const budget = errorBudget(at({}));
    expect(budget.verdict).toBe("fine");
    for (const { value } of budget.measures) expect(value).toBeCloseTo(0, 9);
    for (const { advice } of budget.causes) expect(advice).toBeNull();
    expect(budget.doubts).toEqual([]);
  });

  it("of a turn is the turn in spray, its sine times the distance at the plate, and no speed", () => {
    expect(bias({ yaw_deg: 2 }, "spray_angle_deg")).toBeCloseTo(2, 9);
    expect(bias({ yaw_deg: 2 }, "exit_velocity_mph")).toBeCloseTo(0, 9);
    expect(bias({ yaw_deg: 2 }, "launch_angle_deg")).toBeCloseTo(0, 9);
    // The farthest of the three is met 17.22 ft from the tracker: a chord of 2 × 17.22 × sin 1°.
    expect(bias({ yaw_deg: 2 }, "contact_ft")).toBeCloseTo(2 * 17.2188 * Math.sin(Math.PI / 180), 2);
  });

  it("of a tilt is the tilt in launch for the ball to center", () => {
    const budget = errorBudget(at({ tilt_deg: 1 }));
    expect(budget.balls[1]!.biases.launch_angle_deg).toBeCloseTo(1, 9);
    // Near the angle that carries farthest a degree costs nothing; a liner gains feet by it.
    expect(budget.balls[0]!.biases.carry_ft).toBeGreaterThan(4);
    expect(Math.abs(budget.balls[1]!.biases.carry_ft)).toBeLessThan(1);
    expect(budget.causes.find((c) => c.cause === "tilt_deg")!.advice).toMatch(/^Lower its nose.*1\.0°/);
  });

  it("of a lean raises balls to right and lowers balls to left", () => {
    const [left, , right] = errorBudget(at({ roll_deg: 2 })).balls;
    expect(left!.biases.launch_angle_deg).toBeLessThan(-0.5);
    expect(right!.biases.launch_angle_deg).toBeGreaterThan(0.5);
  });

  it("of a wrong distance is in the speed where the scale comes from it, else in the depth alone", () => {
    expect(bias({ distance_ft: 18 }, "exit_velocity_mph")).toBeCloseTo(95 * (17 / 18 - 1), 6);
    expect(bias({ distance_ft: 18 }, "exit_velocity_mph", false)).toBeCloseTo(0, 9);
    expect(bias({ distance_ft: 18 }, "contact_ft", false)).toBeCloseTo(1, 9);
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
    const metres = errorBudget(at({ distance_ft: 5.2 }));
    expect(metres.doubts.join()).toMatch(/5\.2 m would be 17\.1 ft: was it measured in metres\?/);
    expect(metres.verdict).toBe("redo it");
    const steep = errorBudget(at({ tilt_deg: 40 }));
    expect(steep.doubts.join()).toMatch(/A tilt of 40° is not how a tracker is left standing/);
    expect(steep.balls[1]!.biases.launch_angle_deg).toBeCloseTo(40, 9);
    expect(errorBudget(at({ distance_ft: 55 })).doubts).toHaveLength(1);
    expect(() => errorBudget(at({ distance_ft: NaN }))).toThrow(RangeError);
  });

  it("says which way to move", () => {
    const advice = (changes: Partial<Placement>): string =>
      errorBudget(at(changes))
        .causes.flatMap((c) => (c.advice === null ? [] : [c.advice]))
        .join();
    expect(advice({ distance_ft: 18 })).toMatch(/^Move it 12\.0 in toward the plate/);
    expect(advice({ offset_in: 3 })).toBe("Move it 3.0 in toward third base's side.");
    expect(advice({ yaw_deg: 1 })).toMatch(
      /far sight, 8\.8 in off at the rubber, moves toward first base's side/,
    );
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
