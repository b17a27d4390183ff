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
  landingMark,
  pathMarks,
  rangeStroke,
  secondMarks,
  smallDot,
  timeDots,
  type FlownBall,
} from "./flown.ts";
import {
  axes,
  compose,
  laidOut,
  measuresOf,
  roundStep,
  widthOf,
  type ChartOptions,
  type Words,
} from "./frame.ts";
import { firstFree, lineBoxes, markBox, middleOf, textBox } from "./labels.ts";
import { faintInk, fontSize, hairline, ink, line, markRadius, paper, phoneWidth } from "./theme.ts";
import { number, textWidth, type Measure } from "./text.ts";

/** Room for the path's height, px: a pop-up is drawn smaller to fit. */
const tallest = 300;
/** The range's bar and its words stand in the ground, px. */
const below = 30;
const margin = { left: 40, right: 12, top: 22, bottom: 40 };

export type FlightSideOptions = ChartOptions;

/**
 * A flight from the side: the path with a dot each half second, its highest point, where it lands with the 80 %
 * range of the carry as a bar on the ground, and the fence where the ball gets to it or would.
 * @param ball a flight with everything it rests on, as `oneBall` gives it
 */
export function flightSide(ball: FlownBall, options: FlightSideOptions = {}): SVGSVGElement {
  const view = viewOf(ball, options);
  const { distance, width, wide, tall, perUnit } = view;
  const labels = placeLabels(view);
  // The highest tick leaves room for the axis's name.
  const heights = [0, 1, 2, 3]
    .map((i) => i * roundStep(tall / perUnit / 3.5))
    .filter((v) => v * perUnit <= tall - 4);

  return compose(options, {
    kind: "flight-side",
    ...wordsOf(ball, view, options),
    plot: (room) => ({
      ...laidOut(margin, tall + below, room),
      x: { domain: [0, wide], axis: null },
      y: { domain: [-below / perUnit, tall / perUnit], axis: null },
      marks: [
        ...axes(
          { x: `distance from home plate, ${distance.unit}`, y: `height, ${distance.unit} (same scale)` },
          margin.left,
          { x: width < phoneWidth ? 4 : 8, y: heights },
        ),
        Plot.ruleY([0], { stroke: line, ariaDescription: "ground" }),
        ...fenceMarks(view, labels.fence),
        underApex(view),
        ...pathMarks(view.path, view.dots, view.along, view.up),
        secondMarks(labels.seconds),
        ...rangeMarks(view),
        ...(view.rises ? apexMarks(view, labels.apex) : []),
        landingMark([view.carry, 0]),
      ],
    }),
  });
}

/** The flight in the reader's units, and how large it is drawn. */
function viewOf({ path, flight, range, fence }: FlownBall, options: FlightSideOptions) {
  const { distance } = measuresOf(options);
  const width = widthOf(options);
  const across = width - margin.left - margin.right;
  const from = (metres: number): number => distance.from(metres / ft);
  const [carry, low, high] = [from(flight.carry), from(range.low), from(range.high)];
  const top = from(flight.apex) * 1.08;
  const wall =
    fence?.distance == null
      ? null
      : { at: from(fence.distance), high: fence.fence === null ? 0 : from(fence.fence) };
  const farthest = Math.max(high, carry * 1.02);
  const near = wall !== null && wall.at < 1.35 * farthest;
  const reach = Math.max(near ? Math.max(wall.at, farthest) : farthest, from(30 * ft));
  const perUnit = Math.min(across / (reach * 1.04), tallest / Math.max(1, top));
  const wide = across / perUnit;
  const apex = apexOf(path);
  return {
    distance,
    width,
    across,
    perUnit,
    wide,
    tall: Math.max(width < phoneWidth ? 90 : 120, Math.ceil(top * perUnit) + 16),
    along: (p: { x: number; y: number }): number => from(Math.hypot(p.x, p.y)),
    up: (p: { z: number }): number => from(p.z),
    path,
    dots: timeDots(path),
    apex,
    // A ball hit downward is highest where it was met.
    rises: apex.t > 0,
    apexWords: distance.say(flight.apex / ft),
    carry,
    low,
    high,
    rangeWords: `80%: ${number(low)} to ${distance.say(range.high / ft)}`,
    /** The fence, where it is in view. */
    wall: wall !== null && wall.at <= wide ? wall : null,
  };
}

type View = ReturnType<typeof viewOf>;
type Place = readonly [number, number];

function wordsOf(ball: FlownBall, { distance, dots, rises }: View, { units }: FlightSideOptions): Words {
  const figures = flightFigures(ball, distance);
  const fence = fenceWords(ball, distance);
  const seconds = dots.filter((d) => d.whole).map((d) => secondWords(d, distance));
  return {
    title: "The flight from the side",
    subtitle: figures,
    key: flightKey(rises),
    notes: [fence, ...flightNotes(ball, units)],
    description: [
      `A flight from the side: ${figures.join(", ")}.`,
      dots.length ? `Each second after contact: ${seconds.join("; ")}.` : "",
      fence,
    ],
  };
}

const secondWords = ({ t, x, y, z }: FlightPoint, { say }: Measure): string =>
  `${number(t)} s ${say(Math.hypot(x, y) / ft)} out and ${say(z / ft)} up`;

/** Where the labels stand, in the scales' units: laid out in px from the ground at home plate, y downward. */
function placeLabels({ perUnit, across, tall, along, up, path, dots, apex, ...view }: View) {
  const px = (x: number, y: number): [number, number] => [x * perUnit, -y * perUnit];
  const inUnits = ([x, y]: Place): Place => [x / perUnit, -y / perUnit];
  const on = (p: FlightPoint): [number, number] => px(along(p), up(p));
  const frame = { left: 2, right: across + margin.right - 2, top: -tall, bottom: -1 };
  const [apexX, apexY] = on(apex);
  const half = textWidth(view.apexWords, fontSize.label, true) / 2 + 2;
  const apexAt = Math.max(frame.left + half, Math.min(frame.right - half, apexX));
  const apexBox = textBox(view.apexWords, fontSize.label, [apexAt, apexY - 13], true);
  const taken = [
    ...lineBoxes(path.map(on), 1.5),
    ...dots.map((dot) => markBox(on(dot), dot.whole ? markRadius : smallDot)),
    ...(view.rises ? [apexBox, markBox(on(apex), 6)] : []),
    markBox(px(view.carry, 0), 6),
    ...(view.wall ? lineBoxes([px(view.wall.at, 0), px(view.wall.at, view.wall.high)], 2) : []),
  ];
  /** The label's middle, and its place taken; null where nothing is free. */
  const settle = (text: string, places: readonly Place[]): Place | null => {
    const boxes = places.map((place) => textBox(text, fontSize.small, place));
    const box = firstFree(boxes, taken, frame);
    if (box === null) return null;
    taken.push(box);
    return inUnits(middleOf(box));
  };
  return {
    apex: inUnits(middleOf(apexBox)),
    fence: view.wall && settle("fence", besideFence(px(view.wall.at, view.wall.high))),
    seconds: dots.flatMap((dot) => {
      if (!dot.whole) return [];
      const text = `${number(dot.t)} s`;
      const at = settle(text, besidePath(text, on(dot), dot.t < apex.t));
      return at ? [{ at, text }] : [];
    }),
  };
}

/** Where a second's number may stand about its dot, px: under the path, then inside its arc, then outside. */
function besidePath(text: string, [x, y]: Place, rising: boolean): Place[] {
  const aside = textWidth(text, fontSize.small) / 2 + 10;
  const inward = rising ? aside : -aside;
  return [
    [x, y + 13],
    [x + inward, y + 4],
    [x - inward, y - 4],
    [x, y - 13],
  ];
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

function fenceMarks({ wall }: View, name: Place | null): Plot.Markish[] {
  if (wall === null) return [];
  const post = { y1: 0, y2: wall.high, stroke: faintInk, strokeWidth: 3, ariaDescription: "fence" };
  const look = { fontSize: fontSize.small, fill: faintInk, stroke: paper, strokeWidth: 3 };
  return [
    Plot.ruleX([wall.at], post),
    ...(name ? [Plot.text([name], { ...look, text: () => "fence", ariaDescription: "fence's name" })] : []),
  ];
}

const underApex = ({ apex, along, up }: View): Plot.Markish =>
  Plot.link([apex], {
    x1: along,
    x2: along,
    y1: () => 0,
    y2: up,
    stroke: hairline,
    strokeDasharray: "2 3",
    ariaDescription: "under the apex",
  });

/** The range as a bar in the ground, its words below it and inside the frame. */
function rangeMarks({ low, high, wide, perUnit, rangeWords }: View): Plot.Markish[] {
  const bar = -14 / perUnit;
  const half = textWidth(rangeWords, fontSize.small) / 2 / perUnit;
  return [
    Plot.link([0], {
      x1: () => low,
      x2: () => high,
      y1: () => bar,
      y2: () => bar,
      stroke: rangeStroke,
      strokeWidth: 3,
      ariaDescription: "range",
    }),
    Plot.text([rangeWords], {
      x: () => Math.min(wide - half, Math.max(half, (low + high) / 2)),
      y: () => bar,
      dy: 11,
      fontSize: fontSize.small,
      fill: ink,
      ariaDescription: "range in words",
    }),
  ];
}

const apexMarks = ({ apex, along, up, apexWords }: View, name: Place): Plot.Markish[] => [
  Plot.dot([apex], {
    x: along,
    y: up,
    symbol: flightCodes.apex.shape,
    r: 5,
    fill: flightCodes.apex.colour,
    stroke: paper,
    ariaDescription: "apex",
  }),
  Plot.text([name], {
    text: () => apexWords,
    fontSize: fontSize.label,
    fontWeight: "bold",
    fill: ink,
    stroke: paper,
    strokeWidth: 3,
    ariaDescription: "apex in words",
  }),
];
