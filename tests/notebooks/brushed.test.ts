/** A drag over a chart and the ends it means: there and back, up and across, in both units. */
import * as Plot from "@observablehq/plot";
import fc from "fast-check";
import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { endsBetween, pixelsOf, tableValue, type ChartScale } from "../../notebooks/components/brushed.ts";
import { sprayChart } from "../../src/charts/sprayChart.ts";
import { fieldFor } from "../../src/field/fields.ts";
import { unitSystems } from "../../src/units/system.ts";
import { inMarked } from "../../src/views/marked.ts";
import { swing } from "../views/rows.ts";

const { document } = new JSDOM("").window;
/** The scales of a drawing of Plot's own. */
const scaleOf = (svg: Element, name: "x" | "y"): ChartScale =>
  (svg as unknown as { scale: (name: string) => ChartScale }).scale(name);

const plain = Plot.plot({
  document,
  width: 300,
  height: 200,
  margin: 0,
  x: { domain: [50, 110] },
  y: { domain: [-20, 60] },
  marks: [Plot.frame()],
} as Plot.PlotOptions);
const [x, y] = [scaleOf(plain, "x"), scaleOf(plain, "y")];

describe("a drag", () => {
  it("means whole units across and up, the lesser first, whichever way it went", () => {
    // 5 px to the mph, 2.5 px to the degree downward from 60.
    for (const [a, b] of [
      [50, 150],
      [150, 50],
    ] as const) {
      expect(endsBetween(a, b, x, "mph", "us")).toEqual({ low: 60, high: 80 });
      expect(endsBetween(a, b, y, "deg", "us")).toEqual({ low: 0, high: 40 });
    }
    expect(endsBetween(51, 149, x, "mph", "us")).toEqual({ low: 60, high: 80 });
  });

  it("is open at the frame's edge", () => {
    expect(endsBetween(0, 150, x, "mph", "us")).toEqual({ low: null, high: 80 });
    expect(endsBetween(1, 300, x, "mph", "us")).toEqual({ low: null, high: null });
    expect(endsBetween(0, 100, y, "deg", "us")).toEqual({ low: 20, high: null });
    expect(endsBetween(100, 200, y, "deg", "us")).toEqual({ low: null, high: 20 });
  });

  it("is drawn again where it was, to half a unit", () => {
    const px = fc.integer({ min: 3, max: 197 });
    fc.assert(
      fc.property(px, px, fc.constantFrom("x", "y"), (a, b, way) => {
        fc.pre(a !== b);
        const [scale, unit, perUnit] = way === "x" ? ([x, "mph", 5] as const) : ([y, "deg", 2.5] as const);
        const [from, to] = pixelsOf(endsBetween(a, b, scale, unit, "us"), scale, unit, "us");
        expect(Math.abs(from - Math.min(a, b))).toBeLessThanOrEqual(perUnit / 2 + 1e-9);
        expect(Math.abs(to - Math.max(a, b))).toBeLessThanOrEqual(perUnit / 2 + 1e-9);
      }),
    );
  });

  it("keeps a part that reaches beyond the frame at its edge", () => {
    expect(pixelsOf({ low: 10, high: 200 }, x, "mph", "us")).toEqual([0, 300]);
    expect(pixelsOf({ low: null, high: null }, y, "deg", "us")).toEqual([0, 200]);
  });

  it("over a spray chart holds the ball drawn under it alone, in either unit", () => {
    const rows = [
      swing({ carry_ft: 210, bearing_deg: 20, category: "fly ball" }),
      swing({ carry_ft: 190, bearing_deg: -30, category: "fly ball" }),
    ];
    for (const units of unitSystems) {
      const svg = sprayChart(rows, { document, field: fieldFor(null), units, width: 400 });
      const marks = [...svg.querySelectorAll('[aria-description="swings"] > *')];
      expect(marks).toHaveLength(rows.length);
      marks.forEach((mark, i) => {
        const [, px, py] = /translate\((-?[\d.]+)[ ,]+(-?[\d.]+)\)/.exec(mark.getAttribute("transform")!)!;
        const around = (at: string, way: "x" | "y") =>
          endsBetween(Number(at) - 8, Number(at) + 8, scaleOf(svg, way), "ft", units);
        const isIn = inMarked({ chart: "field", x: around(px!, "x"), y: around(py!, "y") });
        expect(rows.map(isIn)).toEqual(rows.map((_, j) => j === i));
      });
    }
  });
});

describe("a written end", () => {
  it("is kept in the tables' unit", () => {
    expect(tableValue(80, "mph", "us")).toBe(80);
    // A mile is 1.609344 km, a foot 0.3048 m, by the yard and pound agreement of 1959.
    expect(tableValue(160.9344, "mph", "metric")).toBe(100);
    expect(tableValue(30.48, "ft", "metric")).toBe(100);
    expect(tableValue(-12, "deg", "metric")).toBe(-12);
  });
});
