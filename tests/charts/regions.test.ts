import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { regionsOf, type GridPoint } from "../../src/charts/regions.ts";

const area = (ring: readonly GridPoint[]): number =>
  ring.slice(1).reduce((sum, [x, y], i) => sum + (ring[i]![0] * y - x * ring[i]![1]) / 2, 0);

describe("regions of a grid", () => {
  it("of one name is the whole grid", () => {
    const { rings, borders } = regionsOf(["a", "a", "a", "a", "a", "a"], 3);
    expect(borders).toHaveLength(0);
    expect(rings.get("a")!.reduce((sum, ring) => sum + area(ring), 0)).toBeCloseTo(6, 9);
  });

  it("side by side share one straight border", () => {
    const { borders } = regionsOf(["a", "b", "a", "b", "a", "b"], 2);
    expect(borders).toHaveLength(1);
    expect(borders[0]!.map(([i]) => i)).toEqual([1, 1]);
  });

  it("straighten the steps of a slanting border", () => {
    const names = Array.from({ length: 30 * 60 }, (_, k) =>
      Math.floor(k / 60) > (k % 60) / 4 + 3 ? "a" : "b",
    );
    const { borders } = regionsOf(names, 60);
    expect(borders).toHaveLength(1);
    expect(borders[0]!.length).toBeLessThan(8);
    // Node (i, j) is the middle of its square; the line j = i / 4 + 3.
    for (const [i, j] of borders[0]!) expect(Math.abs(j - 0.5 - ((i - 0.5) / 4 + 3))).toBeLessThan(1.2);
  });

  it("together cover the grid once, whatever the names: shared borders leave neither gap nor overlap", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }).chain((columns) =>
          fc.tuple(
            fc.constant(columns),
            fc.integer({ min: 1, max: 9 }).chain((rows) =>
              fc.array(fc.constantFrom("a", "b", "c"), {
                minLength: columns * rows,
                maxLength: columns * rows,
              }),
            ),
          ),
        ),
        ([columns, names]) => {
          const { rings } = regionsOf(names, columns);
          const total = [...rings.values()].flat().reduce((sum, ring) => sum + area(ring), 0);
          expect(total).toBeCloseTo(names.length, 6);
        },
      ),
      { numRuns: 200 },
    );
  });
});
