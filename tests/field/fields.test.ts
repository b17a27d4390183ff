import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  defaultField,
  dirtEdge,
  fenceAtLeast,
  fenceDistance,
  fenceHeight,
  fieldFor,
  findField,
  playingFields,
} from "../../src/field/fields.ts";
import { deg, ft } from "../../src/units/index.ts";

const bearing = fc.double({ min: -45, max: 45, noNaN: true });

describe("the table of fields", () => {
  it("has the four diamonds, each whole and each figure with its source", () => {
    expect(playingFields.map((f) => f.name)).toEqual(["60/90", "50/70", "46/60", "softball 43/60"]);
    for (const field of playingFields) {
      expect(Object.keys(field.sources).sort()).toEqual([
        "basePath_ft",
        "dirtRadius_ft",
        "fence",
        "pitching_ft",
      ]);
      const posts = field.fence.map((p) => p.bearing_deg);
      expect(posts[0]).toBe(-45);
      expect(posts.at(-1)).toBe(45);
      expect(posts).toEqual([...posts].sort((a, b) => a - b));
      // The arc has to close around the plate, or the edge of the dirt would not exist at some bearings.
      expect(field.dirtRadius_ft).toBeGreaterThan(field.pitching_ft);
    }
  });

  it("finds a field whatever its capitals, and falls back on the full field", () => {
    expect(findField(" Softball 43/60 ")?.basePath_ft).toBe(60);
    expect(findField("polo ground")).toBeNull();
    // What nobody named is told from what somebody did.
    expect(fieldFor(null)).toEqual({ ...defaultField, assumed: true });
    expect(fieldFor("polo ground")).toEqual({ ...defaultField, assumed: true });
    expect(fieldFor(defaultField.name)).toBe(defaultField);
    expect(fieldFor("50/70").pitching_ft).toBe(50);
  });
});

describe("edge of the dirt", () => {
  it("is pitching distance and radius added straight out", () => {
    expect(dirtEdge(fieldFor("46/60"), 0) / ft).toBeCloseTo(96, 9);
    expect(dirtEdge(fieldFor("60/90"), 0) / ft).toBeCloseTo(155.5, 9);
  });

  it("lies on the arc about the pitcher's plate at every bearing, behind the plate too", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...playingFields),
        fc.double({ min: -180, max: 180, noNaN: true }),
        (field, b) => {
          const e = dirtEdge(field, b * deg) / ft;
          const x = e * Math.sin(b * deg);
          const y = e * Math.cos(b * deg) - field.pitching_ft;
          expect(Math.hypot(x, y)).toBeCloseTo(field.dirtRadius_ft, 9);
        },
      ),
    );
  });

  it("takes in first, second and third base", () => {
    for (const field of playingFields) {
      expect(dirtEdge(field, 45 * deg) / ft).toBeGreaterThan(field.basePath_ft);
      expect(dirtEdge(field, 0) / ft).toBeGreaterThan(field.basePath_ft * Math.SQRT2);
    }
  });
});

describe("fence", () => {
  it("passes through its posts", () => {
    for (const field of playingFields) {
      for (const post of field.fence) {
        expect(fenceDistance(field, post.bearing_deg * deg)! / ft).toBeCloseTo(post.distance_ft, 9);
        expect(fenceHeight(field, post.bearing_deg * deg)! / ft).toBeCloseTo(post.height_ft, 9);
      }
    }
  });

  it("runs straight from post to post", () => {
    fc.assert(
      fc.property(fc.constantFrom(...playingFields), bearing, (field, b) => {
        const at = (angle: number, distance: number) => [
          distance * Math.sin(angle * deg),
          distance * Math.cos(angle * deg),
        ];
        const i = field.fence.findIndex((p) => p.bearing_deg >= b);
        const left = field.fence[Math.max(0, i - 1)]!;
        const right = field.fence[Math.max(1, i)]!;
        const [x, y] = at(b, fenceDistance(field, b * deg)! / ft) as [number, number];
        const [x1, y1] = at(left.bearing_deg, left.distance_ft) as [number, number];
        const [x2, y2] = at(right.bearing_deg, right.distance_ft) as [number, number];
        expect((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)).toBeCloseTo(0, 6);
      }),
    );
  });

  it("mirrors, stands outside the dirt, and ends at the foul lines", () => {
    fc.assert(
      fc.property(fc.constantFrom(...playingFields), bearing, (field, b) => {
        const here = fenceDistance(field, b * deg)!;
        // To a micrometre: within rounding of a post both sides are measured along one stretch of the fence.
        expect(fenceDistance(field, -b * deg)!).toBeCloseTo(here, 6);
        expect(here).toBeGreaterThan(dirtEdge(field, b * deg));
        expect(here).toBeGreaterThanOrEqual(fenceAtLeast(field) - 1e-9);
      }),
    );
    expect(fenceDistance(defaultField, 45.01 * deg)).toBeNull();
    expect(fenceHeight(defaultField, -46 * deg)).toBeNull();
  });
});
