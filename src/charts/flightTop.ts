/** One flight from above: its way over the field, and the ellipse in which eight of ten such balls come down. */
import * as Plot from "@observablehq/plot";
import { ft, mph } from "../units/index.ts";
import {
  bearingWords,
  fenceWords,
  flightFigures,
  flightKey,
  flightNotes,
  landingMark,
  pathMarks,
  rangeStroke,
  secondMarks,
  timeDots,
  type FlownBall,
  type TimeDot,
} from "./flown.ts";
import { compose, laidOut, measuresOf, widthOf, type ChartOptions, type Words } from "./frame.ts";
import { ellipseOutline, layField } from "./playingField.ts";
import { fontSize, ink, paper } from "./theme.ts";
import { number } from "./text.ts";
import { largest, smallest } from "../swing/lists.ts";

/** Room about the picture, px: the rings' numbers stand outside the right foul line. */
const margin = { left: 8, right: 40, top: 8, bottom: 8 };
/** Room over the farthest and under the nearest place, px. */
const room = { above: 18, below: 18 };

export type FlightTopOptions = ChartOptions;

/**
 * A flight from above, on its field: the path with a dot each half second, where it lands, the 80 % ellipse about
 * that, and the wind as an arrow.
 * @param ball a flight with everything it rests on, as `oneBall` gives it
 */
export function flightTop(ball: FlownBall, options: FlightTopOptions = {}): SVGSVGElement {
  const view = viewOf(ball, options);
  return compose(options, {
    kind: "flight-top",
    ...wordsOf(ball, options),
    plot: (words) => ({
      ...laidOut(margin, view.tall, words),
      x: { domain: [...view.x], axis: null },
      y: { domain: [...view.y], axis: null },
      marks: [
        ...view.laid.under,
        ...view.laid.over,
        Plot.line(view.outline, {
          stroke: rangeStroke,
          strokeWidth: 1.8,
          strokeDasharray: "5 3",
          ariaDescription: "landing ellipse",
        }),
        ...pathMarks(ball.path, view.dots, view.across, view.out),
        secondMarks(secondsOf(ball, view)),
        landingMark([view.across(ball.flight), view.out(ball.flight)]),
        ...windMarks(ball, view, options),
      ],
    }),
  });
}

/** The field and the flight in the reader's units, and how large they are drawn. */
function viewOf({ path, ellipse, field }: FlownBall, options: FlightTopOptions) {
  const { distance } = measuresOf(options);
  const from = (metres: number): number => distance.from(metres / ft);
  const [across, out] = [(p: { x: number }) => from(p.x), (p: { y: number }) => from(p.y)];
  const laid = layField(field, distance, options.units);
  const outline = ellipseOutline(ellipse, distance);
  const places = [...laid.fence, ...path.map((p): [number, number] => [across(p), out(p)]), ...outline];
  const span = (values: readonly number[]): [number, number] => [smallest(values, 0), largest(values, 0)];
  const [left, right] = span(places.map(([x]) => x));
  const [near, far] = span(places.map(([, y]) => y));
  const wide = widthOf(options) - margin.left - margin.right;
  const perUnit = Math.min(wide / (right - left), (560 - room.above - room.below) / (far - near));
  const center = (left + right) / 2;
  return {
    laid,
    outline,
    dots: timeDots(path),
    across,
    out,
    perUnit,
    tall: Math.round((far - near) * perUnit + room.above + room.below),
    x: [center - wide / 2 / perUnit, center + wide / 2 / perUnit] as const,
    y: [near - room.below / perUnit, far + room.above / perUnit] as const,
  };
}

type View = ReturnType<typeof viewOf>;

/** The wind's speed, m/s, and the direction it blows in. */
function windOf({ air }: FlownBall) {
  const wind = Math.hypot(...air.wind);
  return wind > 0 ? { wind, toward: [air.wind[0] / wind, air.wind[1] / wind] as const } : null;
}

function wordsOf(ball: FlownBall, options: FlightTopOptions): Words {
  const { flight, ellipse, field } = ball;
  const { distance, speed } = measuresOf(options);
  const blows = windOf(ball);
  const fence = fenceWords(ball, distance);
  const size = `${distance.say((2 * ellipse.long) / ft)} by ${distance.say((2 * ellipse.short) / ft)}`;
  return {
    title: "The flight from above",
    subtitle: [`lands ${bearingWords(flight.bearing)}`, flightFigures(ball, distance)[0]!],
    key: [
      ...flightKey(false),
      { label: "eight of ten come down inside", swatch: { ellipse: true, stroke: rangeStroke } },
    ],
    notes: [fence, ...flightNotes(ball, options.units)],
    description: [
      `A flight from above, on the field ${field.name}: it lands ${distance.say(flight.carry / ft)} away, ${bearingWords(flight.bearing)}.`,
      `Eight of ten such balls come down in an ellipse of ${size}.`,
      blows
        ? `Wind of ${speed.say(blows.wind / mph)} blows toward ${bearingWords(Math.atan2(...blows.toward))}.`
        : "No wind.",
      fence,
    ],
  };
}

/** The seconds' numbers beside the path, on its right, where they don't touch the one before. */
function secondsOf({ path }: FlownBall, { dots, across, out, perUnit }: View) {
  const apart = (a: TimeDot, b: TimeDot): number =>
    Math.hypot(across(a) - across(b), out(a) - out(b)) * perUnit;
  return dots
    .filter((d, i) => d.whole && (i < 2 || apart(d, dots[i - 2]!) > 13))
    .map((dot) => {
      const at = path.findIndex(({ t }) => t === dot.t);
      const [a, b] = [path[at - 1] ?? dot, path[at + 1] ?? dot];
      const long = Math.hypot(b.x - a.x, b.y - a.y) || 1;
      const aside = 17 / perUnit;
      const place = [
        across(dot) + (aside * (b.y - a.y)) / long,
        out(dot) + (-aside * (b.x - a.x)) / long,
      ] as const;
      return { at: place, text: `${number(dot.t)} s` };
    });
}

/** An arrow in the lower left corner, where no fair ball goes. */
function windMarks(ball: FlownBall, { x, y, perUnit }: View, options: FlightTopOptions): Plot.Markish[] {
  const blows = windOf(ball);
  if (blows === null) return [];
  const { say } = measuresOf(options).speed;
  const arrow = 34 / perUnit;
  const [wx, wy] = blows.toward;
  const [ax, ay] = [x[0] + 36 / perUnit, y[0] + 52 / perUnit];
  return [
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
    Plot.text([`wind ${say(blows.wind / mph)}`], {
      x: () => x[0],
      y: () => y[0],
      dy: -10,
      textAnchor: "start",
      fontSize: fontSize.small,
      fill: ink,
      stroke: paper,
      strokeWidth: 3,
      ariaDescription: "wind in words",
    }),
  ];
}
