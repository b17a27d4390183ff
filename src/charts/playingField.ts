/** A playing field from above, as the ground under a chart: dirt, base paths, rings of distance, foul lines, fence. */
import * as Plot from "@observablehq/plot";
import { dirtEdge, fenceDistance, type PlayingField } from "../field/fields.ts";
import { ellipseOutline as outlineOf, type LandingEllipse } from "../flight/ellipse.ts";
import { ft } from "../units/index.ts";
import { faintInk, fontSize, grass, ground, hairline, ink, line, paper } from "./theme.ts";
import { measures, textWidth, type Measure, type UnitSystem } from "./text.ts";
import { largest, smallest } from "../swing/lists.ts";

type Place = [number, number];

/** A field in a reader's units: x to the right, y toward center field. */
export interface LaidField {
  /** Where a distance, ft, in a direction lies. */
  readonly place: (distance_ft: number, bearing_deg: number) => Place;
  /** To the fence, ft; to the edge of the dirt behind the foul lines. */
  readonly fenceAt: (bearing_deg: number) => number;
  readonly fence: readonly Place[];
  /** How far the fence reaches to a side, and outward. */
  readonly widest: number;
  readonly deepest: number;
  /** Each ring's number, written from its place outside the right foul line on. */
  readonly numbers: readonly { readonly at: Place; readonly words: string }[];
  /** What lies under the balls, and the lines over it: what a chart adds may stand between. */
  readonly under: Plot.Markish[];
  readonly over: Plot.Markish[];
}

const radians = Math.PI / 180;

/** Lays a field out. */
export function layField(field: PlayingField, distance: Measure, units: UnitSystem | undefined): LaidField {
  const place = (distance_ft: number, bearing_deg: number): Place => {
    const r = distance.from(distance_ft);
    return [r * Math.sin(bearing_deg * radians), r * Math.cos(bearing_deg * radians)];
  };
  const fenceAt = (bearing_deg: number): number =>
    (fenceDistance(field, bearing_deg * radians) ?? dirtEdge(field, bearing_deg * radians)) / ft;
  const bearings = Array.from({ length: 181 }, (_, i) => -45 + i / 2);
  const fence = bearings.map((b) => place(fenceAt(b), b));
  const widest = largest(fence.map(([x]) => Math.abs(x)));
  const deepest = largest(fence.map(([, y]) => y));
  const ringStep = units === "metric" ? (deepest > 90 ? 30 : 15) : deepest > 280 ? 100 : 50;
  const rings = Array.from({ length: Math.floor(deepest / ringStep) }, (_, i) => (i + 1) * ringStep).filter(
    // A ring along the fence would only blur it.
    (r) => r < 0.97 * deepest,
  );
  const pole = distance.from(fenceAt(45));
  // A ring ends at the fence: past it stand the words of the lanes. A line breaks where there is no number.
  const ringPaths = rings.map((r) =>
    bearings.map((b): Place =>
      r > distance.from(fenceAt(b)) ? [NaN, NaN] : [r * Math.sin(b * radians), r * Math.cos(b * radians)],
    ),
  );
  const dirt = bearings.map((b) => place(dirtEdge(field, b * radians) / ft, b));
  const b = field.basePath_ft;
  const bases = [place(b, 45), place(b * Math.SQRT2, 0), place(b, -45)];
  const outline = [[0, 0] as Place, ...fence, [0, 0] as Place];
  const numbers = rings
    .filter((r) => r < pole)
    .map((r) => ({ at: [r * Math.SQRT1_2, r * Math.SQRT1_2] as Place, words: `${r} ${distance.unit}` }));
  return {
    numbers,
    place,
    fenceAt,
    fence,
    widest,
    deepest,
    under: [
      Plot.line(outline, { fill: grass, ariaDescription: "fair territory" }),
      Plot.line([[0, 0], ...dirt, [0, 0]], { fill: ground, ariaDescription: "dirt" }),
      Plot.line(dirt, { stroke: line, ariaDescription: "edge of the dirt" }),
      Plot.line([[0, 0], bases[0]!, bases[1]!, bases[2]!, [0, 0]], {
        stroke: line,
        fill: grass,
        ariaDescription: "base paths",
      }),
      ringPaths.map((ring) =>
        Plot.line(ring, { stroke: hairline, strokeDasharray: "2 3", ariaDescription: "ring" }),
      ),
    ],
    over: [
      Plot.line(outline, {
        stroke: ink,
        strokeWidth: 0.8,
        strokeLinejoin: "round",
        ariaDescription: "foul lines and fence",
      }),
      Plot.line(fence, {
        stroke: ink,
        strokeWidth: 1.7,
        strokeLinejoin: "round",
        strokeLinecap: "round",
        ariaDescription: "fence",
      }),
      Plot.dot(bases, {
        symbol: "diamond",
        r: 3.5,
        fill: paper,
        stroke: faintInk,
        strokeWidth: 1,
        ariaDescription: "bases",
      }),
      Plot.text(numbers, {
        x: ({ at }: { at: Place }) => at[0],
        y: ({ at }: { at: Place }) => at[1],
        text: "words",
        textAnchor: "start",
        dx: 4,
        dy: 9,
        fontSize: fontSize.small,
        fill: faintInk,
        stroke: paper,
        strokeWidth: 3,
        ariaDescription: "distance",
      }),
    ],
  };
}

/** From a ring to the end of its number, beside the words' own width, px. */
const besideNumber = 6;

/**
 * How wide half of a field may be drawn, px, so that its rings' numbers fit into half a picture beside the right foul
 * line: numbers of either system, for a field is as large in feet as it is in metres.
 */
export function halfWithNumbers(field: PlayingField, half: number): number {
  const systems = Object.entries(measures) as [UnitSystem, (typeof measures)[UnitSystem]][];
  const widths = systems.flatMap(([system, { distance }]) => {
    const { numbers, widest } = layField(field, distance, system);
    return numbers.map(
      ({ at, words }) => (half - besideNumber - textWidth(words, fontSize.small)) * (widest / at[0]),
    );
  });
  return smallest(widths, half);
}

/** The outline of a landing ellipse in the reader's units. */
export function ellipseOutline(ellipse: LandingEllipse, distance: Measure): Place[] {
  return outlineOf(ellipse).map(([x, y]): Place => [distance.from(x / ft), distance.from(y / ft)]);
}
