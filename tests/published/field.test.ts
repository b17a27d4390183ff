/** The diamonds against the rule books. */
import { describe, expect, it } from "vitest";
import { dirtEdge, fenceDistance, fieldFor, homeToSecond, playingFields } from "../../src/field/fields.ts";
import { deg, ft, inch } from "../../src/units/index.ts";

describe("home plate to second base", () => {
  // Official Baseball Rules, rule 2.01: 127 ft 3⅜ in, which the rule gives to an eighth of an inch.
  it("is 127 ft 3⅜ in on 90 ft bases", () => {
    expect(Math.abs(homeToSecond(fieldFor("60/90")) - (127 * ft + 3.375 * inch))).toBeLessThan(inch / 16);
  });

  // Youth rule book: 84 ft 10¼ in, given to a quarter of an inch.
  it("is 84 ft 10¼ in on 60 ft bases", () => {
    for (const name of ["46/60", "softball 43/60"]) {
      expect(Math.abs(homeToSecond(fieldFor(name)) - (84 * ft + 10.25 * inch))).toBeLessThan(inch / 8);
    }
  });

  // Groundskeepers' layout tables, common practice: 99 ft on 70 ft bases, to the foot's nearest inch.
  it("is 99 ft on 70 ft bases", () => {
    expect(homeToSecond(fieldFor("50/70")) / ft).toBeCloseTo(99, 1);
  });
});

describe("what the rule books lay out", () => {
  // Official Baseball Rules, rule 2.01: 90 ft bases, 60 ft 6 in to the pitcher's plate; the diagram's grass
  // line has a radius of 95 ft. Youth and softball rule books, from memory. 50/70's arc: layout tables.
  it.each([
    ["60/90", 90, 60.5, 95],
    ["50/70", 70, 50, 65],
    ["46/60", 60, 46, 50],
    ["softball 43/60", 60, 43, 60],
  ])("%s", (name, base, pitching, radius) => {
    expect(playingFields.map((f) => f.name)).toContain(name);
    const field = fieldFor(name);
    expect([field.basePath_ft, field.pitching_ft, field.dirtRadius_ft]).toEqual([base, pitching, radius]);
  });

  // Official Baseball Rules, rule 2.01: a professional park built since 1958 has its fence at least 325 ft away
  // on the foul lines and 400 ft in center field.
  it("has the full field's fence at the rule book's least distances", () => {
    const field = fieldFor("60/90");
    expect(fenceDistance(field, 45 * deg)! / ft).toBeCloseTo(325, 6);
    expect(fenceDistance(field, 0)! / ft).toBeCloseTo(400, 6);
  });

  // Mechanics of the circle, by hand: on the foul line of a full field 60.5·cos 45° + √(95² − 60.5²/2) ft.
  it("has the dirt 127.6 ft out on the foul line of a full field", () => {
    expect(dirtEdge(fieldFor("60/90"), 45 * deg) / ft).toBeCloseTo(127.6, 1);
  });
});
