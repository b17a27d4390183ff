/** Where the ball was met, from above: to the side of the plate and forward of it. */
import * as Plot from "@observablehq/plot";
import { defaultZone } from "../field/zone.ts";
import { buckets, type EnrichedSwing, type Target } from "../swing/fields.ts";
import { accountOf } from "./account.ts";
import {
  axes,
  codeOf,
  compose,
  emptyMark,
  laidOut,
  measuresOf,
  widthOf,
  type ChartOptions,
} from "./frame.ts";
import {
  cloud,
  fillKey,
  fillOf,
  flaggedWords,
  swingWords,
  tally,
  type SpokenSwing,
  type Spot,
} from "./swings.ts";
import { bucketCodes, faintInk, fontSize, hairline, ink, line, paper, statement } from "./theme.ts";
import { targetMarks } from "./targetMarks.ts";
import { count, number, sayInterval, spanWords, type Interval } from "./text.ts";

export type PlaceRow = SpokenSwing & Pick<EnrichedSwing, "contact_side_ft" | "contact_depth_ft">;

/** A drill's window in side and depth, ft. Null ends are open. */
export type PlaceWindow = Pick<
  Target,
  "contact_side_ft_low" | "contact_side_ft_high" | "contact_depth_ft_low" | "contact_depth_ft_high"
>;

export interface ContactPlaceOptions extends ChartOptions {
  /** The side the batter stands on, to draw the line of the box; null: both lines. */
  readonly bats?: "L" | "R" | null;
  /** Mean depth, ft, as `src/stats` gives it; drawn as a line across. */
  readonly depth?: Interval | null;
  readonly target?: PlaceWindow | null;
}

/** From the plate's edge to the batter's box, ft. Official Baseball Rules, appendix: 6 in. */
const boxAway = 0.5;

/**
 * The plate from above, the pitcher beyond the upper edge; each ball where it was met, its bucket as colour and
 * shape.
 * @param rows swings; those without both places are left out and counted
 */
export function contactPlace(rows: readonly PlaceRow[], options: ContactPlaceOptions = {}): SVGSVGElement {
  const { bats = null, depth = null, target = null } = options;
  const { place } = measuresOf(options);
  const width = widthOf(options);
  const drawn = rows.filter((r) => r.contact_side_ft !== null && r.contact_depth_ft !== null);

  const margin = { left: 46, right: 12, top: 24, bottom: 42 };
  const across = width - margin.left - margin.right;
  // One scale both ways: a plate must look like a plate. Wide charts show more to the sides, not a larger plate.
  const depths = { low: -0.4, high: 3.6 };
  const tall = Math.min(420, Math.round(across * 1.2));
  const perFt = tall / (depths.high - depths.low);
  const sideways = across / perFt / 2;
  const frame = {
    x: [place.from(-sideways), place.from(sideways)] as const,
    y: [place.from(depths.low), place.from(depths.high)] as const,
    across,
    tall,
  };
  const at = (side_ft: number, depth_ft: number): [number, number] => [
    place.from(side_ft),
    place.from(depth_ft),
  ];

  const spots = drawn.map((row): Spot => {
    const [x, y] = at(row.contact_side_ft!, row.contact_depth_ft!);
    return {
      x,
      y,
      code: codeOf.bucket(row.bucket),
      ...fillOf(row),
      words: swingWords(row, options.units),
    };
  });
  const swings = cloud(spots, frame, options.tip);
  const half = defaultZone.zone_width_in / 24;
  // The rule book's plate: 17 in wide, its sides 8½ in long, its rear point the origin.
  const plate = [
    at(0, 0),
    at(half, half),
    at(half, 2 * half),
    at(-half, 2 * half),
    at(-half, half),
    at(0, 0),
  ];
  const boxSides = bats === "R" ? [-1] : bats === "L" ? [1] : [-1, 1];
  const boxes = boxSides.map((s) => s * (half + boxAway));
  const say = (ft: number): string => place.say(ft);
  const plain = (ft: number): string => number(place.from(ft));
  const account = accountOf(drawn, rows.length, "a measured place", swings);
  const window = target && windowOf(target, frame, place.from);
  const batter = bats === "R" ? "right-handed batter" : "left-handed batter";

  return compose(options, {
    kind: "contact-place",
    title: "Where the ball was met",
    subtitle: [`${count(drawn.length, "swing")} seen from above`, ...flaggedWords(drawn)],
    key: [...buckets.map((name) => ({ label: name, code: bucketCodes[name] })), ...fillKey(drawn)],
    notes: [
      ...(depth && depth.value !== null
        ? [`Mean depth ${sayInterval(depth, say)}: the line across, its interval the band.`]
        : []),
      ...account.notes,
    ],
    description: [
      drawn.length
        ? `Contact point from above for ${count(drawn.length, "swing")}, by bucket: ${tally(
            drawn.map((r) => r.bucket),
            buckets,
          )}.`
        : "Contact point from above: no swings to draw.",
      drawn.length
        ? `Depth ${spanWords(
            drawn.map((r) => r.contact_depth_ft!),
            say,
            plain,
          )} forward of the plate's rear point; side ${spanWords(
            drawn.map((r) => r.contact_side_ft!),
            say,
            plain,
          )} from its middle.`
        : "",
      depth ? `Mean depth ${sayInterval(depth, say)}.` : "",
      ...account.sentences,
    ],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain: [...frame.x], label: null },
      y: { domain: [...frame.y], label: null },
      marks: [
        Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 5 }),
        Plot.gridY({ stroke: hairline, strokeOpacity: 1, ticks: 6 }),
        ...boxes.map((x) =>
          Plot.link([x], {
            x1: () => place.from(x),
            x2: () => place.from(x),
            y1: () => frame.y[0],
            y2: () => place.from(Math.min(half + 3, depths.high)),
            stroke: line,
            strokeWidth: 1.5,
            ariaDescription: "batter's box",
          }),
        ),
        ...(bats === null
          ? []
          : [
              Plot.text([batter], {
                x: () => place.from(boxes[0]!),
                y: () => place.from(depths.low + 0.15),
                dx: bats === "R" ? -8 : 8,
                rotate: bats === "R" ? -90 : 90,
                textAnchor: bats === "R" ? "start" : "end",
                fontSize: fontSize.small,
                fill: faintInk,
                ariaDescription: "batter's side",
              }),
            ]),
        Plot.line(plate, {
          stroke: faintInk,
          strokeWidth: 1.5,
          fill: paper,
          strokeLinejoin: "round",
          ariaDescription: "home plate",
        }),
        ...axes(
          {
            x: `Side (${place.unit}) from the plate's middle`,
            y: `↑ Depth (${place.unit}) toward the pitcher`,
          },
          margin.left,
          { x: 5, y: 6 },
        ),
        Plot.frame({ stroke: line }),
        ...(window ? targetMarks(window, { x: "x1", textAnchor: "start", dx: 4, dy: -8 }) : []),
        ...(depth && depth.value !== null
          ? [
              ...(depth.low !== null && depth.high !== null
                ? [
                    Plot.rect([depth], {
                      x1: () => frame.x[0],
                      x2: () => frame.x[1],
                      y1: () => place.from(depth.low!),
                      y2: () => place.from(depth.high!),
                      fill: statement,
                      fillOpacity: 0.1,
                      ariaDescription: "interval of the mean depth",
                    }),
                  ]
                : []),
              Plot.ruleY([place.from(depth.value)], {
                stroke: statement,
                strokeWidth: 1.3,
                ariaDescription: "mean depth",
              }),
            ]
          : []),
        ...swings.marks,
        ...(depth && depth.value !== null
          ? [
              Plot.text([`mean ${say(depth.value)}`], {
                x: () => frame.x[0],
                y: () => place.from(depth.high ?? depth.value!),
                dx: 5,
                dy: -8,
                textAnchor: "start",
                fontWeight: "bold",
                fill: ink,
                stroke: paper,
                strokeWidth: 4,
                ariaDescription: "mean depth",
              }),
            ]
          : []),
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

function windowOf(
  target: PlaceWindow,
  frame: { x: readonly [number, number]; y: readonly [number, number] },
  from: (ft: number) => number,
) {
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
