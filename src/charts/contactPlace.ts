/** Where the ball was met, from above: to the side of the plate and forward of it. */
import * as Plot from "@observablehq/plot";
import { defaultZone } from "../field/zone.ts";
import type { EnrichedSwing, Target } from "../swing/fields.ts";
import { axesMargin, bucketCloud, bucketWords } from "./byBucket.ts";
import { axes, compose, emptyMark, laidOut, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import type { Cloud, Frame, SpokenSwing } from "./swings.ts";
import { faintInk, fontSize, hairline, ink, line, paper, statement } from "./theme.ts";
import { targetMarks } from "./targetMarks.ts";
import { number, sayInterval, spanWords, type Interval, type Measure } from "./text.ts";

export type PlaceRow = SpokenSwing & Pick<EnrichedSwing, "contact_side_ft" | "contact_depth_ft">;

/** A drill's window in side and depth, ft. Null ends are open. */
export type PlaceWindow = Pick<
  Target,
  "contact_side_ft_low" | "contact_side_ft_high" | "contact_depth_ft_low" | "contact_depth_ft_high"
>;

/** A swing whose place was measured. */
type PlacedRow = PlaceRow & { readonly contact_side_ft: number; readonly contact_depth_ft: number };

export interface ContactPlaceOptions extends ChartOptions {
  /** The side the batter stands on, to draw the line of the box; null: both lines. */
  readonly bats?: "L" | "R" | null;
  /** Mean depth, ft, as `src/stats` gives it; drawn as a line across. */
  readonly depth?: Interval | null;
  readonly target?: PlaceWindow | null;
}

/** From the plate's edge to the batter's box, ft. Official Baseball Rules, appendix: 6 in. */
const boxAway = 0.5;
/** Half of the plate's width, ft. */
const half = defaultZone.zone_width_in / 24;
/** What is shown of depth, ft. */
const depths = { low: -0.4, high: 3.6 } as const;

/**
 * The plate from above, the pitcher beyond the upper edge; each ball where it was met, its bucket as colour and
 * shape.
 * @param rows swings; those without both places are left out and counted
 */
export function contactPlace(rows: readonly PlaceRow[], options: ContactPlaceOptions = {}): SVGSVGElement {
  const { bats = null, depth = null, target = null } = options;
  const { place } = measuresOf(options);
  const drawn = rows.filter((r): r is PlacedRow => r.contact_side_ft !== null && r.contact_depth_ft !== null);
  const frame = frameOf(widthOf(options), place);
  const balls = drawn.map((row) => ({
    row,
    x: place.from(row.contact_side_ft),
    y: place.from(row.contact_depth_ft),
  }));
  const swings = bucketCloud(balls, frame, options);
  const window = target && windowOf(target, frame, place.from);
  const mean = depth?.value == null ? null : { ...depth, value: depth.value };

  return compose(options, {
    kind: "contact-place",
    ...wordsOf(drawn, rows.length, swings, depth, place),
    plot: (room) => ({
      ...laidOut(axesMargin, frame.tall, room),
      x: { domain: [...frame.x], label: null },
      y: { domain: [...frame.y], label: null },
      marks: [
        Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 5 }),
        Plot.gridY({ stroke: hairline, strokeOpacity: 1, ticks: 6 }),
        ...boxMarks(bats, frame, place),
        plateMark(place),
        ...axes(
          {
            x: `Side (${place.unit}) from the plate's middle`,
            y: `↑ Depth (${place.unit}) toward the pitcher`,
          },
          axesMargin.left,
          { x: 5, y: 6 },
        ),
        Plot.frame({ stroke: line }),
        ...(window ? targetMarks(window, { x: "x1", textAnchor: "start", dx: 4, dy: -8 }) : []),
        ...(mean ? meanMarks(mean, frame, place) : []),
        ...swings.marks,
        ...(mean ? [meanName(mean, frame, place)] : []),
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

/** One scale both ways: a plate must look like a plate. Wide charts show more to the sides, not a larger plate. */
function frameOf(width: number, place: Measure): Frame {
  const across = width - axesMargin.left - axesMargin.right;
  const tall = Math.min(420, Math.round(across * 1.2));
  const sideways = across / (tall / (depths.high - depths.low)) / 2;
  return {
    x: [place.from(-sideways), place.from(sideways)],
    y: [place.from(depths.low), place.from(depths.high)],
    across,
    tall,
  };
}

function wordsOf(
  drawn: readonly PlacedRow[],
  all: number,
  swings: Cloud,
  depth: Interval | null,
  { say, from }: Measure,
) {
  const span = (values: readonly number[]): string => spanWords(values, say, (ft) => number(from(ft)));
  const mean = depth && `Mean depth ${sayInterval(depth, say)}`;
  const [deep, aside] = [drawn.map((r) => r.contact_depth_ft), drawn.map((r) => r.contact_side_ft)];
  return bucketWords(drawn, all, swings, {
    title: "Where the ball was met",
    picture: "Contact point from above",
    seen: " seen from above",
    missing: "a measured place",
    notes: depth && depth.value !== null ? [`${mean}: the line across, its interval the band.`] : [],
    description: [
      drawn.length
        ? `Depth ${span(deep)} forward of the plate's rear point; side ${span(aside)} from its middle.`
        : "",
      mean ? `${mean}.` : "",
    ],
  });
}

/** The inner lines of the batter's box, both where the side is unknown; else the batter's name beside the one. */
function boxMarks(bats: "L" | "R" | null, frame: Frame, place: Measure): Plot.Markish[] {
  const sides = bats === "R" ? [-1] : bats === "L" ? [1] : [-1, 1];
  const boxes = sides.map((s) => s * (half + boxAway));
  const lines = boxes.map((x) =>
    Plot.link([x], {
      x1: () => place.from(x),
      x2: () => place.from(x),
      y1: () => frame.y[0],
      y2: () => place.from(Math.min(half + 3, depths.high)),
      stroke: line,
      strokeWidth: 1.5,
      ariaDescription: "batter's box",
    }),
  );
  if (bats === null) return lines;
  const right = bats === "R";
  return [
    ...lines,
    Plot.text([right ? "right-handed batter" : "left-handed batter"], {
      x: () => place.from(boxes[0]!),
      y: () => place.from(depths.low + 0.15),
      dx: right ? -8 : 8,
      rotate: right ? -90 : 90,
      textAnchor: right ? "start" : "end",
      fontSize: fontSize.small,
      fill: faintInk,
      ariaDescription: "batter's side",
    }),
  ];
}

/** The rule book's plate: 17 in wide, its sides 8½ in long, its rear point the origin. */
function plateMark(place: Measure): Plot.Markish {
  const corners = [
    [0, 0],
    [half, half],
    [half, 2 * half],
    [-half, 2 * half],
    [-half, half],
    [0, 0],
  ] as const;
  return Plot.line(
    corners.map(([side, depth]): [number, number] => [place.from(side), place.from(depth)]),
    {
      stroke: faintInk,
      strokeWidth: 1.5,
      fill: paper,
      strokeLinejoin: "round",
      ariaDescription: "home plate",
    },
  );
}

type Mean = Interval & { readonly value: number };

/** The mean depth as a line across, its interval as a band. */
function meanMarks({ value, low, high }: Mean, frame: Frame, place: Measure): Plot.Markish[] {
  const band =
    low === null || high === null
      ? []
      : [
          Plot.rect([0], {
            x1: () => frame.x[0],
            x2: () => frame.x[1],
            y1: () => place.from(low),
            y2: () => place.from(high),
            fill: statement,
            fillOpacity: 0.1,
            ariaDescription: "interval of the mean depth",
          }),
        ];
  const rule = { stroke: statement, strokeWidth: 1.3, ariaDescription: "mean depth" };
  return [...band, Plot.ruleY([place.from(value)], rule)];
}

const meanName = ({ value, high }: Mean, frame: Frame, place: Measure): Plot.Markish =>
  Plot.text([`mean ${place.say(value)}`], {
    x: () => frame.x[0],
    y: () => place.from(high ?? value),
    dx: 5,
    dy: -8,
    textAnchor: "start",
    fontWeight: "bold",
    fill: ink,
    stroke: paper,
    strokeWidth: 4,
    ariaDescription: "mean depth",
  });

function windowOf(target: PlaceWindow, frame: Frame, from: (ft: number) => number) {
  const {
    contact_side_ft_low: x1,
    contact_side_ft_high: x2,
    contact_depth_ft_low: y1,
    contact_depth_ft_high: y2,
  } = target;
  if (x1 === null && x2 === null && y1 === null && y2 === null) return null;
  const end = (value: number | null, open: number): number => (value === null ? open : from(value));
  return {
    x1: end(x1, frame.x[0]),
    x2: end(x2, frame.x[1]),
    y1: end(y1, frame.y[0]),
    y2: end(y2, frame.y[1]),
  };
}
