/** One flight from above: its way over the field, and the ellipse in which eight of ten such balls come down. */
import * as Plot from "@observablehq/plot";
import { ft, mph } from "../units/index.ts";
import {
  bearingWords,
  fenceWords,
  flightCodes,
  flightFigures,
  flightKey,
  flightNotes,
  rangeStroke,
  timeDots,
  type FlownBall,
  type TimeDot,
} from "./flown.ts";
import { compose, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import { ellipseOutline, layField } from "./playingField.ts";
import { faintInk, fontSize, ink, markRadius, paper } from "./theme.ts";
import { number } from "./text.ts";
import { largest, smallest } from "../swing/lists.ts";

export type FlightTopOptions = ChartOptions;

/**
 * A flight from above, on its field: the path with a dot each half second, where it lands, the 80 % ellipse about
 * that, and the wind as an arrow.
 * @param ball a flight with everything it rests on, as `oneBall` gives it
 */
export function flightTop(ball: FlownBall, options: FlightTopOptions = {}): SVGSVGElement {
  const { distance, speed } = measuresOf(options);
  const width = widthOf(options);
  const { path, flight, ellipse, air, field } = ball;
  const from = (metres: number): number => distance.from(metres / ft);
  const laid = layField(field, distance, options.units);
  const outline = ellipseOutline(ellipse, distance);
  const way = path.map(({ x, y }): [number, number] => [from(x), from(y)]);
  const dots = timeDots(path);
  const places = [...laid.fence, ...way, ...outline];
  const margin = 8;
  const span = (values: readonly number[]): [number, number] => [smallest(values, 0), largest(values, 0)];
  const [left, right] = span(places.map(([x]) => x));
  const [near, far] = span(places.map(([, y]) => y));
  // The rings' numbers stand outside the right foul line.
  const marginRight = 40;
  const across = width - margin - marginRight;
  const room = { above: 18, below: 18 };
  const perUnit = Math.min(across / (right - left), (560 - room.above - room.below) / (far - near));
  const tall = Math.round((far - near) * perUnit + room.above + room.below);
  const center = (left + right) / 2;
  const x = [center - across / 2 / perUnit, center + across / 2 / perUnit] as const;
  const y = [near - room.below / perUnit, far + room.above / perUnit] as const;
  const wind = Math.hypot(...air.wind);
  const arrow = 34 / perUnit;
  const [wx, wy] = wind > 0 ? [air.wind[0] / wind, air.wind[1] / wind] : [0, 0];
  // The arrow turns about a place in the lower left corner, where no fair ball goes.
  const [ax, ay] = [x[0] + 36 / perUnit, y[0] + 52 / perUnit];
  // A second's number stands beside the path, on its right.
  const beside = (dot: TimeDot): [number, number] => {
    const at = path.findIndex(({ t }) => t === dot.t);
    const [a, b] = [path[at - 1] ?? dot, path[at + 1] ?? dot];
    const long = Math.hypot(b.x - a.x, b.y - a.y) || 1;
    const out = 17 / perUnit;
    return [(out * (b.y - a.y)) / long, (-out * (b.x - a.x)) / long];
  };
  const apart = (a: TimeDot, b: TimeDot): number => from(Math.hypot(a.x - b.x, a.y - b.y)) * perUnit;
  const size = `${distance.say((2 * ellipse.long) / ft)} by ${distance.say((2 * ellipse.short) / ft)}`;

  return compose(options, {
    kind: "flight-top",
    title: "The flight from above",
    subtitle: [`lands ${bearingWords(flight.bearing)}`, flightFigures(ball, distance)[0]!],
    key: [
      ...flightKey(false),
      { label: "eight of ten come down inside", swatch: { ellipse: true, stroke: rangeStroke } },
    ],
    notes: [fenceWords(ball, distance), ...flightNotes(ball, options.units)],
    description: [
      `A flight from above, on the field ${field.name}: it lands ${distance.say(flight.carry / ft)} away, ${bearingWords(flight.bearing)}.`,
      `Eight of ten such balls come down in an ellipse of ${size}.`,
      wind > 0
        ? `Wind of ${speed.say(wind / mph)} blows toward ${bearingWords(Math.atan2(wx, wy))}.`
        : "No wind.",
      fenceWords(ball, distance),
    ],
    plot: ({ top, bottom }) => ({
      height: top + tall + bottom + 2 * margin,
      marginLeft: margin,
      marginRight,
      marginTop: top + margin,
      marginBottom: bottom + margin,
      x: { domain: [...x], axis: null },
      y: { domain: [...y], axis: null },
      marks: [
        ...laid.under,
        ...laid.over,
        Plot.line(outline, {
          stroke: rangeStroke,
          strokeWidth: 1.8,
          strokeDasharray: "5 3",
          ariaDescription: "landing ellipse",
        }),
        Plot.line(way, { stroke: ink, strokeWidth: 2, ariaDescription: "path" }),
        Plot.dot(dots, {
          x: (d: { x: number }) => from(d.x),
          y: (d: { y: number }) => from(d.y),
          r: { value: (d: (typeof dots)[number]) => (d.whole ? markRadius : 2.4), scale: null },
          fill: flightCodes.second.colour,
          ariaDescription: "times",
        } as Plot.DotOptions),
        Plot.text(
          dots.filter((d, i) => d.whole && (i < 2 || apart(d, dots[i - 2]!) > 13)),
          {
            x: (d: TimeDot) => from(d.x) + beside(d)[0],
            y: (d: TimeDot) => from(d.y) + beside(d)[1],
            text: (d: TimeDot) => `${number(d.t)} s`,
            fontSize: fontSize.small,
            fill: faintInk,
            stroke: paper,
            strokeWidth: 3,
            ariaDescription: "seconds",
          },
        ),
        Plot.dot([flight], {
          x: (f: { x: number }) => from(f.x),
          y: (f: { y: number }) => from(f.y),
          symbol: flightCodes.landing.shape,
          r: 5,
          fill: flightCodes.landing.colour,
          stroke: paper,
          ariaDescription: "landing",
        }),
        ...(wind > 0
          ? [
              Plot.arrow([0], {
                x1: () => ax - (wx * arrow) / 2,
                y1: () => ay - (wy * arrow) / 2,
                x2: () => ax + (wx * arrow) / 2,
                y2: () => ay + (wy * arrow) / 2,
                stroke: ink,
                strokeWidth: 2,
                headLength: 7,
                ariaDescription: "wind",
              }),
              Plot.text([0], {
                x: () => x[0],
                y: () => y[0],
                dy: -10,
                text: () => `wind ${speed.say(wind / mph)}`,
                textAnchor: "start",
                fontSize: fontSize.small,
                fill: ink,
                stroke: paper,
                strokeWidth: 3,
                ariaDescription: "wind in words",
              }),
            ]
          : []),
      ],
    }),
  });
}
