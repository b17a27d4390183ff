/** One flight from the side: height over distance, the same scale both ways. */
import * as Plot from "@observablehq/plot";
import type { FlightPoint } from "../flight/trajectory.ts";
import { ft } from "../units/index.ts";
import {
  apexOf,
  fenceWords,
  flightCodes,
  flightFigures,
  flightKey,
  flightNotes,
  rangeStroke,
  timeDots,
  type FlownBall,
} from "./flown.ts";
import { compose, laidOut, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import { firstFree, lineBoxes, markBox, middleOf, textBox } from "./labels.ts";
import { faintInk, fontSize, hairline, ink, line, markRadius, paper, phoneWidth } from "./theme.ts";
import { number, textWidth } from "./text.ts";

/** Room for the path's height, px: a pop-up is drawn smaller to fit. */
const tallest = 300;

export type FlightSideOptions = ChartOptions;

/**
 * A flight from the side: the path with a dot each half second, its highest point, where it lands with the 80 %
 * range of the carry as a bar on the ground, and the fence where the ball gets to it or would.
 * @param ball a flight with everything it rests on, as `oneBall` gives it
 */
export function flightSide(ball: FlownBall, options: FlightSideOptions = {}): SVGSVGElement {
  const { distance } = measuresOf(options);
  const width = widthOf(options);
  const { path, flight, range, fence } = ball;
  const from = (metres: number): number => distance.from(metres / ft);
  const along = (p: { x: number; y: number }): number => from(Math.hypot(p.x, p.y));
  const up = (p: { z: number }): number => from(p.z);
  const fenceAt = fence?.distance == null ? null : from(fence.distance);
  const fenceHigh = fence?.fence == null ? 0 : from(fence.fence);

  const margin = { left: 40, right: 12, top: 22, bottom: 40 };
  const farthest = Math.max(from(range.high), from(flight.carry), from(flight.carry) * 1.02);
  const reach = Math.max(
    fenceAt !== null && fenceAt < 1.35 * farthest ? Math.max(fenceAt, farthest) : farthest,
    from(30 * ft),
  );
  const across = width - margin.left - margin.right;
  const perUnit = Math.min(across / (reach * 1.04), tallest / Math.max(1, from(flight.apex) * 1.08));
  const wide = across / perUnit;
  // The range's bar and its words stand in the ground.
  const below = 30;
  const least = width < phoneWidth ? 90 : 120;
  const tall = Math.max(least, Math.ceil(from(flight.apex) * 1.08 * perUnit) + 16);
  const inView = fenceAt !== null && fenceAt <= wide;
  const dots = timeDots(path);
  const apex = apexOf(path);
  // A ball hit downward is highest where it was met.
  const rises = apex.t > 0;
  const low = from(range.low);
  const high = from(range.high);
  const words = `80%: ${number(low)} to ${distance.say(range.high / ft)}`;
  // The words keep inside the frame.
  const half = textWidth(words, fontSize.small) / 2 / perUnit;
  const middle = Math.min(wide - half, Math.max(half, (low + high) / 2));
  const bar = -14 / perUnit;

  // Labels are laid out in px from the ground at home plate, y downward, and drawn where they fit.
  const px = (x: number, y: number): [number, number] => [x * perUnit, -y * perUnit];
  const on = (p: FlightPoint): [number, number] => px(along(p), up(p));
  const frame = { left: 2, right: across + margin.right - 2, top: -tall, bottom: -1 };
  const apexWords = distance.say(flight.apex / ft);
  const [apexX, apexY] = on(apex);
  const apexHalf = textWidth(apexWords, fontSize.label, true) / 2 + 2;
  const apexBox = textBox(
    apexWords,
    fontSize.label,
    [Math.max(frame.left + apexHalf, Math.min(frame.right - apexHalf, apexX)), apexY - 13],
    true,
  );
  const taken = [
    ...lineBoxes(path.map(on), 1.5),
    ...dots.map((dot) => markBox(on(dot), dot.whole ? markRadius : 2.4)),
    ...(rises ? [apexBox, markBox(on(apex), 6)] : []),
    markBox(px(from(flight.carry), 0), 6),
    ...(inView ? lineBoxes([px(fenceAt, 0), px(fenceAt, fenceHigh)], 2) : []),
  ];
  /** The label's middle in the scales' units, and its place taken; null where nothing is free. */
  const settle = (text: string, places: readonly (readonly [number, number])[]): [number, number] | null => {
    const boxes = places.map((place) => textBox(text, fontSize.small, place));
    const box = firstFree(boxes, taken, frame);
    if (box === null) return null;
    taken.push(box);
    const [x, y] = middleOf(box);
    return [x / perUnit, -y / perUnit];
  };
  const fenceName = inView ? settle("fence", besideFence(px(fenceAt, fenceHigh))) : null;
  const seconds = dots.flatMap((dot) => {
    if (!dot.whole) return [];
    const [x, y] = on(dot);
    const text = `${number(dot.t)} s`;
    const aside = textWidth(text, fontSize.small) / 2 + 10;
    // Under the path, then inside its arc, then outside.
    const inward = dot.t < apex.t ? aside : -aside;
    const at = settle(text, [
      [x, y + 13],
      [x + inward, y + 4],
      [x - inward, y - 4],
      [x, y - 13],
    ]);
    return at ? [{ at, text }] : [];
  });

  return compose(options, {
    kind: "flight-side",
    title: "The flight from the side",
    subtitle: flightFigures(ball, distance),
    key: flightKey(rises),
    notes: [fenceWords(ball, distance), ...flightNotes(ball, options.units)],
    description: [
      `A flight from the side: ${flightFigures(ball, distance).join(", ")}.`,
      dots.length
        ? `Each second after contact: ${dots
            .filter((d) => d.whole)
            .map(
              (d) =>
                `${number(d.t)} s ${distance.say(Math.hypot(d.x, d.y) / ft)} out and ${distance.say(d.z / ft)} up`,
            )
            .join("; ")}.`
        : "",
      fenceWords(ball, distance),
    ],
    plot: (room) => ({
      ...laidOut(margin, tall + below, room),
      x: { domain: [0, wide], axis: null },
      y: { domain: [-below / perUnit, tall / perUnit], axis: null },
      marks: [
        Plot.axisX({
          anchor: "bottom",
          ticks: width < phoneWidth ? 4 : 8,
          tickSize: 4,
          color: ink,
          fontSize: fontSize.label,
          label: null,
        }),
        Plot.axisY(
          Array.from({ length: 4 }, (_, i) => i * niceStep(tall / perUnit)).filter(
            // The highest leaves room for the axis's name.
            (v) => v * perUnit <= tall - 4,
          ),
          { anchor: "left", tickSize: 4, color: ink, fontSize: fontSize.label, label: null },
        ),
        Plot.text([`distance from home plate, ${distance.unit}`], {
          frameAnchor: "bottom",
          dy: 34,
          fill: ink,
          ariaDescription: "x axis",
        }),
        Plot.text([`height, ${distance.unit} (same scale)`], {
          frameAnchor: "top-left",
          dx: 4 - margin.left,
          dy: -16,
          fill: ink,
          textAnchor: "start",
          ariaDescription: "y axis",
        }),
        Plot.ruleY([0], { stroke: line, ariaDescription: "ground" }),
        ...(inView
          ? [
              Plot.ruleX([fenceAt], {
                y1: 0,
                y2: fenceHigh,
                stroke: faintInk,
                strokeWidth: 3,
                ariaDescription: "fence",
              }),
            ]
          : []),
        ...(fenceName
          ? [
              Plot.text([fenceName], {
                text: () => "fence",
                fontSize: fontSize.small,
                fill: faintInk,
                stroke: paper,
                strokeWidth: 3,
                ariaDescription: "fence's name",
              }),
            ]
          : []),
        Plot.link([apex], {
          x1: along,
          x2: along,
          y1: () => 0,
          y2: up,
          stroke: hairline,
          strokeDasharray: "2 3",
          ariaDescription: "under the apex",
        }),
        Plot.line(path, { x: along, y: up, stroke: ink, strokeWidth: 2, ariaDescription: "path" }),
        Plot.dot(dots, {
          x: along,
          y: up,
          r: { value: (d: (typeof dots)[number]) => (d.whole ? markRadius : 2.4), scale: null },
          fill: flightCodes.second.colour,
          ariaDescription: "times",
        } as Plot.DotOptions),
        Plot.text(seconds, {
          x: ({ at }: (typeof seconds)[number]) => at[0],
          y: ({ at }: (typeof seconds)[number]) => at[1],
          text: "text",
          fontSize: fontSize.small,
          fill: faintInk,
          stroke: paper,
          strokeWidth: 3,
          ariaDescription: "seconds",
        }),
        Plot.link([0], {
          x1: () => low,
          x2: () => high,
          y1: () => bar,
          y2: () => bar,
          stroke: rangeStroke,
          strokeWidth: 3,
          ariaDescription: "range",
        }),
        Plot.text([words], {
          x: () => middle,
          y: () => bar,
          dy: 11,
          fontSize: fontSize.small,
          fill: ink,
          ariaDescription: "range in words",
        }),
        ...(rises
          ? [
              Plot.dot([apex], {
                x: along,
                y: up,
                symbol: flightCodes.apex.shape,
                r: 5,
                fill: flightCodes.apex.colour,
                stroke: paper,
                ariaDescription: "apex",
              }),
              Plot.text([middleOf(apexBox)], {
                x: ([x]: [number, number]) => x / perUnit,
                y: ([, y]: [number, number]) => -y / perUnit,
                text: () => apexWords,
                fontSize: fontSize.label,
                fontWeight: "bold",
                fill: ink,
                stroke: paper,
                strokeWidth: 3,
                ariaDescription: "apex in words",
              }),
            ]
          : []),
        Plot.dot([0], {
          x: () => from(flight.carry),
          y: () => 0,
          symbol: flightCodes.landing.shape,
          r: 5,
          fill: flightCodes.landing.colour,
          stroke: paper,
          ariaDescription: "landing",
        }),
      ],
    }),
  });
}

/** Where the fence's name may stand about its top, px, the best first. */
function besideFence([x, y]: readonly [number, number]): [number, number][] {
  const aside = textWidth("fence", fontSize.small) / 2 + 5;
  // Above the ground, however low the fence.
  const level = Math.min(y + 2, -fontSize.small * 0.55 - 1.5);
  return [
    [x - aside, level],
    [x - aside - 7, level],
    [x + aside, level],
    [x, y - 9],
    [x + aside, y - 9],
    [x - aside, y - 9],
    [x, y - 22],
    [x + aside, y - 22],
    [x - aside, y - 22],
  ];
}

/** A step of 1, 2 or 5 that goes three times into a span, or a little more. */
function niceStep(span: number): number {
  const rough = span / 3.5;
  const power = 10 ** Math.floor(Math.log10(rough));
  const lead = rough / power;
  return (lead > 5 ? 10 : lead > 2 ? 5 : lead > 1 ? 2 : 1) * power;
}
