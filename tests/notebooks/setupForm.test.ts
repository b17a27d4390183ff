/** What the setup form makes of what is typed. */
import { describe, expect, it } from "vitest";
import { setupGiven } from "../../notebooks/components/setupForm.ts";

const typed =
  (boxes: Record<string, string>) =>
  (key: string): string =>
    boxes[key] ?? "";

describe("setupGiven", () => {
  it("takes empty boxes as the usual stand, level and straight", () => {
    for (const way of ["numbers", "measured"] as const) {
      const { budget, trouble } = setupGiven(typed({}), way, true);
      expect(trouble).toBeNull();
      expect(budget!.verdict).toBe("fine");
    }
  });

  it("reads a comma, a real minus, and both ways of knowing", () => {
    const numbers = setupGiven(typed({ distance: "17,5", tilt: "\u22121" }), "numbers", true).budget!;
    expect(numbers.placement).toMatchObject({ distance_ft: 17.5, tilt_deg: -1 });
    const measured = setupGiven(typed({ rise: "-0.25", tilt: "40", tape1: "77.9" }), "measured", true);
    expect(measured.budget!.placement.tilt_deg).toBeCloseTo(-1.193, 3);
    expect(measured.taped!.offset_in).toBeGreaterThan(0.5);
  });

  it("says in a sentence what can't be used, naming the box", () => {
    expect(setupGiven(typed({ yaw: "left" }), "numbers", true)).toEqual({
      budget: null,
      taped: null,
      trouble: "“left” is no number: Turn, ° (+ right field).",
    });
    expect(setupGiven(typed({ tilt: "60" }), "numbers", true).trouble).toMatch(/^60 is outside -45 to 45/);
    expect(setupGiven(typed({ tape1: "20", tape3: "20" }), "measured", true).trouble).toMatch(/meet nowhere/);
    expect(setupGiven(typed({ distance: "5.2" }), "numbers", true).budget!.doubts).toHaveLength(1);
  });
});
