/** The last ball's way over the field, drawn to be read from across a cage. */
import * as Plot from "@observablehq/plot";
import { assumedFieldWords, type PlayingField } from "../field/fields.ts";
import type { LandingEllipse } from "../flight/ellipse.ts";
import type { FlightPoint } from "../flight/trajectory.ts";
import { largest, smallest } from "../swing/lists.ts";
import { ft } from "../units/index.ts";
import { bearingWords } from "./flown.ts";
import { compose, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import { ellipseOutline, halfWithNumbers, layField } from "./playingField.ts";
import { number } from "./text.ts";
import { accent, paper } from "./theme.ts";

/** A flight to draw. */
export interface LastFlight {
  /** Points from contact to landing, SI, the last where it lands. */
  readonly path: readonly FlightPoint[];
  /** Where eight of ten such balls come down. */
  readonly ellipse: LandingEllipse;
  readonly carry_ft: number;
}

export interface LastFlightOptions extends ChartOptions {
  readonly field: PlayingField;
  /** The picture's height at the most, px. */
  readonly tallest?: number | undefined;
}

/**
 * The field from above with one flight on it: the path in the accent, a ring where it lands, the range about it. None:
 * the field alone.
 * @param flight null for a swing without a flight
 */
export function lastFlight(flight: LastFlight | null, options: LastFlightOptions): SVGSVGElement {
  const { distance } = measuresOf(options);
  const width = widthOf(options);
  const { field, tallest = 560 } = options;
  const laid = layField(field, distance, options.units);
  const from = (metres: number): number => distance.from(metres / ft);
  const way = (flight?.path ?? []).map(({ x, y }): [number, number] => [from(x), from(y)]);
  const outline = flight === null ? [] : ellipseOutline(flight.ellipse, distance);
  const margin = 10;
  const places = [...way, ...outline];
  const reach = {
    side: largest([laid.widest, ...places.map(([x]) => Math.abs(x))]),
    far: largest([laid.deepest, ...places.map(([, y]) => y)]),
    near: smallest([0, ...places.map(([, y]) => y)]),
  };
  const across = width - 2 * margin;
  const half = halfWithNumbers(field, across / 2);
  const perUnit = Math.min(half / reach.side, (tallest - 24) / (reach.far - reach.near));
  const tall = Math.round((reach.far - reach.near) * perUnit + 24);
  const landing = way.at(-1);
  return compose(options, {
    kind: "last-flight",
    title: flight === null ? "No flight to draw" : "Where it went",
    subtitle: [],
    key: [],
    notes: [assumedFieldWords(field)],
    description: [
      landing === undefined || flight === null
        ? `The field ${field.name}; the last swing has no flight.`
        : `The last ball on the field ${field.name}: it came down ${distance.say(flight.carry_ft)} away, ${bearingWords(Math.atan2(landing[0], landing[1]))}; eight of ten such balls come down in an ellipse ${number(from(2 * flight.ellipse.long))} by ${distance.say((2 * flight.ellipse.short) / ft)}.`,
    ],
    plot: ({ top, bottom }) => ({
      height: top + tall + bottom + 2 * margin,
      marginLeft: margin,
      marginRight: margin,
      marginTop: top + margin,
      marginBottom: bottom + margin,
      x: { domain: [-across / 2 / perUnit, across / 2 / perUnit], axis: null },
      y: { domain: [reach.near - 12 / perUnit, reach.far + 12 / perUnit], axis: null },
      marks: [
        ...laid.under,
        ...laid.over,
        Plot.line(outline, {
          stroke: accent,
          strokeWidth: 2,
          strokeDasharray: "6 5",
          ariaDescription: "landing ellipse",
        }),
        Plot.line(way, { stroke: paper, strokeWidth: 7, strokeLinecap: "round" }),
        Plot.line(way, { stroke: accent, strokeWidth: 4, strokeLinecap: "round", ariaDescription: "path" }),
        Plot.dot(landing === undefined ? [] : [landing], {
          r: 9,
          fill: paper,
          stroke: accent,
          strokeWidth: 4,
          ariaDescription: "landing",
        }),
      ],
    }),
  });
}
