/** A playing field from above, as the ground under a chart: dirt, base paths, rings of distance, foul lines, fence. */
import * as Plot from "@observablehq/plot";
import { dirtEdge, fenceDistance, type PlayingField } from "../field/fields.ts";
import { ellipseOutline as outlineOf, type LandingEllipse } from "../flight/ellipse.ts";
import { ft } from "../units/index.ts";
import { faintInk, fontSize, ground, hairline, line, paper } from "./theme.ts";
import type { Measure, UnitSystem } from "./text.ts";

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
  const widest = Math.max(...fence.map(([x]) => Math.abs(x)));
  const deepest = Math.max(...fence.map(([, y]) => y));
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
  return {
    place,
    fenceAt,
    fence,
    widest,
    deepest,
    under: [
      Plot.line([[0, 0], ...dirt, [0, 0]], { fill: ground, ariaDescription: "dirt" }),
      Plot.line(dirt, { stroke: line, ariaDescription: "edge of the dirt" }),
      Plot.line([[0, 0], bases[0]!, bases[1]!, bases[2]!, [0, 0]], {
        stroke: line,
        fill: paper,
        fillOpacity: 0.7,
        ariaDescription: "base paths",
      }),
      ringPaths.map((ring) =>
        Plot.line(ring, { stroke: hairline, strokeDasharray: "2 3", ariaDescription: "ring" }),
      ),
    ],
    over: [
      Plot.line(outline, {
        stroke: faintInk,
        strokeWidth: 1.5,
        strokeLinejoin: "round",
        ariaDescription: "foul lines and fence",
      }),
      Plot.dot(bases, {
        symbol: "diamond",
        r: 3.5,
        fill: paper,
        stroke: faintInk,
        strokeWidth: 1,
        ariaDescription: "bases",
      }),
      Plot.text(
        rings.filter((r) => r < pole),
        {
          x: (r: number) => r * Math.SQRT1_2,
          y: (r: number) => r * Math.SQRT1_2,
          text: (r: number) => `${r} ${distance.unit}`,
          textAnchor: "start",
          dx: 4,
          dy: 9,
          fontSize: fontSize.small,
          fill: faintInk,
          stroke: paper,
          strokeWidth: 3,
          ariaDescription: "distance",
        },
      ),
    ],
  };
}

/** The outline of a landing ellipse in the reader's units. */
export function ellipseOutline(ellipse: LandingEllipse, distance: Measure): Place[] {
  return outlineOf(ellipse).map(([x, y]): Place => [distance.from(x / ft), distance.from(y / ft)]);
}
