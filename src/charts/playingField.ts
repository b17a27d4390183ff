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
  const place = (distance_ft: number, bearing_deg: number): Place =>
    at(distance.from(distance_ft), bearing_deg);
  const fenceAt = (bearing_deg: number): number =>
    (fenceDistance(field, bearing_deg * radians) ?? dirtEdge(field, bearing_deg * radians)) / ft;
  const fence = bearings.map((b) => place(fenceAt(b), b));
  const deepest = largest(fence.map(([, y]) => y));
  const rings = ringsOf(deepest, units);
  const pole = distance.from(fenceAt(45));
  // A ring ends at the fence: past it stand the words of the lanes. A line breaks where there is no number.
  const ringPaths = rings.map((r) =>
    bearings.map((b): Place => (r > distance.from(fenceAt(b)) ? [NaN, NaN] : at(r, b))),
  );
  const dirt = bearings.map((b) => place(dirtEdge(field, b * radians) / ft, b));
  const b = field.basePath_ft;
  const bases = [place(b, 45), place(b * Math.SQRT2, 0), place(b, -45)];
  const outline = [home, ...fence, home];
  const numbers = rings
    .filter((r) => r < pole)
    .map((r) => ({ at: [r * Math.SQRT1_2, r * Math.SQRT1_2] as Place, words: `${r} ${distance.unit}` }));
  return {
    numbers,
    place,
    fenceAt,
    fence,
    widest: largest(fence.map(([x]) => Math.abs(x))),
    deepest,
    under: groundMarks(outline, dirt, bases, ringPaths),
    over: lineMarks(outline, fence, bases, numbers),
  };
}

const home: Place = [0, 0];
const bearings = Array.from({ length: 181 }, (_, i) => -45 + i / 2);

/** A place at a distance in a direction. */
const at = (r: number, bearing_deg: number): Place => [
  r * Math.sin(bearing_deg * radians),
  r * Math.cos(bearing_deg * radians),
];

/** The rings of distance, in the reader's unit; one along the fence would only blur it. */
function ringsOf(deepest: number, units: UnitSystem | undefined): number[] {
  const step = units === "metric" ? (deepest > 90 ? 30 : 15) : deepest > 280 ? 100 : 50;
  return Array.from({ length: Math.floor(deepest / step) }, (_, i) => (i + 1) * step).filter(
    (r) => r < 0.97 * deepest,
  );
}

const groundMarks = (
  outline: Place[],
  dirt: Place[],
  bases: Place[],
  rings: readonly Place[][],
): Plot.Markish[] => [
  Plot.line(outline, { fill: grass, ariaDescription: "fair territory" }),
  Plot.line([home, ...dirt, home], { fill: ground, ariaDescription: "dirt" }),
  Plot.line(dirt, { stroke: line, ariaDescription: "edge of the dirt" }),
  Plot.line([home, ...bases, home], { stroke: line, fill: grass, ariaDescription: "base paths" }),
  rings.map((ring) => Plot.line(ring, { stroke: hairline, strokeDasharray: "2 3", ariaDescription: "ring" })),
];

const lineMarks = (
  outline: Place[],
  fence: Place[],
  bases: Place[],
  numbers: LaidField["numbers"],
): Plot.Markish[] => [
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
];

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
