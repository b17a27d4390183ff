import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { categoryOf } from "../../src/contact/category.ts";
import { thresholdsFrom } from "../../src/contact/thresholds.ts";
import { dirtEdge, fieldFor, playingFields } from "../../src/field/fields.ts";
import type { Category } from "../../src/swing/fields.ts";
import { deg, ft } from "../../src/units/index.ts";

const full = fieldFor("60/90");
const small = fieldFor("46/60");
/** A flight by its carry in feet, its mean ground speed in ft/s and its bearing in degrees. */
const flight = (carry_ft: number, speed_ft_s = 100, bearing_deg = 0) => ({
  carry: carry_ft * ft,
  hang: carry_ft / speed_ft_s,
  bearing: bearing_deg * deg,
});

describe("category at the edges of its bands, full field (dirt to 155.5 ft, shallow to 215.5 ft)", () => {
  it.each<[number, ReturnType<typeof flight>, Category]>([
    // Under 10°: the dirt decides.
    [-90, flight(0.5), "ground ball"],
    [9.999, flight(155.49), "ground ball"],
    [9.999, flight(155.51), "line drive"],
    [9.999, flight(155.51, 40), "line drive"],
    // From 10° the mean ground speed does, and 80 ft/s is fast enough.
    [10, flight(100, 79.999), "bloop"],
    [10, flight(100, 80.001), "line drive"],
    [24.999, flight(260, 79.999), "bloop"],
    [24.999, flight(260, 80.001), "line drive"],
    // From 25° the depth does.
    [25, flight(155.49), "pop-up"],
    [25, flight(155.51), "bloop"],
    [25, flight(215.49), "bloop"],
    [25, flight(215.51), "fly ball"],
    [49.999, flight(200, 40), "bloop"],
    [50, flight(200, 40), "pop-up"],
    [50, flight(215.49, 40), "pop-up"],
    [50, flight(215.51, 40), "fly ball"],
    [90, flight(1), "pop-up"],
  ])("%f°, %o: %s", (angle, f, category) => {
    expect(categoryOf(angle, f, full)).toBe(category);
  });

  it("puts a ball exactly on an edge where the definition does", () => {
    const edge = dirtEdge(full, 0);
    expect(categoryOf(5, { carry: edge, hang: 2, bearing: 0 }, full)).toBe("line drive");
    expect(categoryOf(30, { carry: edge, hang: 4, bearing: 0 }, full)).toBe("pop-up");
    expect(categoryOf(30, { carry: edge + 60 * ft, hang: 4, bearing: 0 }, full)).toBe("bloop");
    // 80 ft/s · 0.3048 is 24.384 m/s, and 2 s of it are exact in binary.
    expect(categoryOf(15, { carry: 80 * ft * 2, hang: 2, bearing: 0 }, full)).toBe("line drive");
  });
});

describe("category on other fields and bearings", () => {
  it("scales speed and depth with the base path", () => {
    // 60 ft bases: two thirds of 80 ft/s and of 60 ft; the dirt ends 96 ft out.
    expect(categoryOf(15, flight(120, 53.3), small)).toBe("bloop");
    expect(categoryOf(15, flight(120, 53.4), small)).toBe("line drive");
    expect(categoryOf(35, flight(135.9), small)).toBe("bloop");
    expect(categoryOf(35, flight(136.1), small)).toBe("fly ball");
    expect(categoryOf(15, flight(120, 53.4), full)).toBe("bloop");
  });

  it("follows the arc of the dirt toward the lines", () => {
    // 127.6 ft on the foul line of a full field.
    expect(categoryOf(5, flight(140, 100, 45), full)).toBe("line drive");
    expect(categoryOf(5, flight(140, 100, 0), full)).toBe("ground ball");
    expect(categoryOf(30, flight(140, 60, -45), full)).toBe("bloop");
  });

  it("mirrors left and right", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...playingFields),
        number(-90, 90),
        number(0, 500),
        number(20, 140),
        number(-180, 180),
        (field, angle, carry, speed, bearing) => {
          expect(categoryOf(angle, flight(carry, speed, -bearing), field)).toBe(
            categoryOf(angle, flight(carry, speed, bearing), field),
          );
        },
      ),
    );
  });

  it("moves with a coach's own figures", () => {
    const own = thresholdsFrom({ line_drive_from_deg: 8, bloop_speed_ft_s: 60, bloop_depth_ft: 90 });
    expect(categoryOf(9, flight(100, 70), full)).toBe("ground ball");
    expect(categoryOf(9, flight(100, 70), full, own)).toBe("line drive");
    expect(categoryOf(30, flight(230), full)).toBe("fly ball");
    expect(categoryOf(30, flight(230), full, own)).toBe("bloop");
  });
});
