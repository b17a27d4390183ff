import { describe, expect, it } from "vitest";
import { shownNumber } from "../../src/units/system.ts";
import { changeWords, rangeWords, valueWords } from "../../src/views/words.ts";

const change = (low: number, high: number) => ({ value: (low + high) / 2, low, high, reason: null });

describe("words for figures", () => {
  it("round, carry the unit and follow the reader's choice", () => {
    expect(valueWords(90, "mph", "us")).toBe("90 mph");
    expect(valueWords(90, "mph", "metric")).toBe("145 km/h");
    expect(valueWords(0.817, "share", "metric")).toBe("82%");
    expect(valueWords(null, "ft", "us")).toBe("unknown");
    expect(valueWords(-0.2, "deg", "us")).toBe("0°");
    expect(rangeWords(-3.4, 12, "deg", "us")).toBe("−3 to 12°");
    expect(shownNumber(70, "F", "metric")).toBeCloseTo(21.11, 2);
    expect(shownNumber(400, "ft", "metric")).toBeCloseTo(121.92, 10);
  });

  it("call a change a change only when its interval leaves zero", () => {
    expect(changeWords(change(2, 5), "mph", "us")).toBe("up by 2 to 5 mph");
    expect(changeWords(change(4, 9.4), "mph", "us")).toBe("up by 4 to 9 mph");
    expect(changeWords(change(-0.12, -0.04), "share", "us")).toBe("down by 4 to 12 points");
    expect(changeWords(change(0.26, 0.8), "mph", "us")).toBe("up by 0.3 to 0.8 mph");
    expect(changeWords(change(0.0001, 1.2), "ft", "us")).toBe("up by 1 ft at most");
    expect(changeWords(change(-1, 5), "mph", "us")).toBe("no clear change");
    expect(changeWords(change(4, 9.4), "mph", "metric")).toBe("up by 6 to 15 km/h");
  });
});
