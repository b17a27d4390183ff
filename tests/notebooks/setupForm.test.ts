/** What the setup form makes of what is typed. */
import { describe, expect, it } from "vitest";
import { setupGiven } from "../../notebooks/components/setupForm.ts";

const typed =
  (boxes: Record<string, string>) =>
  (key: string): string =>
    boxes[key] ?? "";

const known = { way: "numbers", scaled: true } as const;

describe("setupGiven", () => {
  it("asks where the tracker stands, and takes the rest as on the line, straight and as told", () => {
    for (const way of ["numbers", "measured"] as const)
      expect(setupGiven(typed({}), { ...known, way })).toEqual({
        budget: null,
        taped: null,
        trouble: expect.stringMatching(/^Where does the tracker stand\?/) as string,
      });
    const { budget } = setupGiven(typed({ distance: "-13.7" }), known);
    expect(budget!.verdict).toBe("fine");
    expect(budget!.believed).toEqual({ distance_ft: -13.7, offset_in: 0 });
  });

  it("reads a comma, a real minus, and both ways of knowing", () => {
    const numbers = setupGiven(typed({ distance: "\u221217,5", tilt: "\u22121" }), known).budget!;
    expect(numbers.placement).toMatchObject({ distance_ft: -17.5, tilt_deg: -1 });
    const tapes = { rise: "-0.25", tilt: "40", tape1: "77.9", tape3: "78.06" };
    const measured = setupGiven(typed(tapes), { ...known, way: "measured" });
    expect(measured.budget!.placement.tilt_deg).toBeCloseTo(-1.193, 3);
    expect(measured.taped!.offset_in).toBeGreaterThan(0.5);
    const beyond = setupGiven(typed({ tape1: "20", tape3: "20", marks: "12" }), {
      ...known,
      way: "measured",
      beyond: true,
    });
    // By hand: 12 ÷ √2 = 8.485 ft along and aside; √(20² − 8.485²) = 18.111 farther.
    expect(beyond.budget!.placement.distance_ft).toBeCloseTo(26.596, 3);
  });

  it("says in a sentence what can't be used, naming the box, in the reader's units", () => {
    expect(setupGiven(typed({ yaw: "left" }), known)).toEqual({
      budget: null,
      taped: null,
      trouble: "“left” is no number: Turn (+ right field).",
    });
    expect(setupGiven(typed({ tilt: "60" }), known).trouble).toMatch(/^60 is outside −45 to 45/);
    expect(setupGiven(typed({ distance: "120" }), { ...known, units: "metric" }).trouble).toMatch(
      /^36\.6 is outside −30\.5 to 30\.5: Distance along/,
    );
    expect(setupGiven(typed({ tape1: "20", tape3: "20" }), { ...known, way: "measured" }).trouble).toMatch(
      /meet nowhere/,
    );
    expect(setupGiven(typed({ distance: "5.2" }), known).budget!.doubts).toHaveLength(1);
  });
});
