/** Where the balls came down, seen from above: the playing field, the landing points, the share of each lane. */
import * as Plot from "@observablehq/plot";
import { max } from "d3";
import { isDoubtful } from "../contact/flags.ts";
import type { PlayingField } from "../field/fields.ts";
import { laneEdges_deg } from "../field/lanes.ts";
import type { LandingEllipse } from "../flight/ellipse.ts";
import { categories, type EnrichedSwing, type Lane } from "../swing/fields.ts";
import { ft } from "../units/index.ts";
import { accountOf } from "./account.ts";
import { codeOf, compose, emptyMark, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import { ellipseOutline, halfWithNumbers, layField } from "./playingField.ts";
import {
  assumptions,
  categorySentence,
  cloud,
  flaggedWords,
  swingWords,
  type CarryBasis,
  type SpokenSwing,
  type Spot,
} from "./swings.ts";
import { categoryCodes, faintInk, fontSize, ink, line, paper, statement } from "./theme.ts";
import { count, number, percent, percentRange, sayShare, spanWords, type ShareInterval } from "./text.ts";

export type SprayRow = SpokenSwing & CarryBasis & Pick<EnrichedSwing, "bearing_deg">;

/** A lane's share, as `src/views/lanes.ts` gives it. */
export type LaneShare = { readonly lane: Lane } & ShareInterval;

/** Where one ball may have come down: the range of its carry, and the ellipse of its landing point. */
export interface LandingRange {
  readonly carry_ft: number;
  readonly carry_low_ft: number;
  readonly carry_high_ft: number;
  readonly ellipse: LandingEllipse;
  /** What the ellipse is about: "where eight of ten balls like the longest come down". */
  readonly label: string;
}

export interface SprayChartOptions extends ChartOptions {
  readonly field: PlayingField;
  /** None: the lanes are drawn without shares. */
  readonly lanes?: readonly LaneShare[];
  readonly range?: LandingRange | null;
}

/** A lane's words: where they stand across, in the field's units. */
interface LaneWords {
  readonly lane: Lane;
  readonly share: LaneShare;
  readonly x: number;
}

const fairLanes = ["left line", "left-center", "center", "right-center", "right line"] as const;
/** The field's height at the most, px. */
const tallest = 580;

/** Balls so far past the fence, as a share of the field's size, are still drawn where they came down. */
const mostBeyond = 0.2;
/** Room around the outermost ball or fence, px. */
const edgeRoom = 12;
/** The band of the lanes' words over the field: its height, the least width of a lane's, and each line's distance from the band's lower end, px. */
const band = { height: 60, column: 70, lane: -50, share: -34, count: -18, interval: -5 };

/**
 * The field from above, home plate below: foul lines, dirt, fence and rings of distance; each ball where it came
 * down, its category as colour and shape. Each lane's share, with its count and interval, stands in a band over the
 * field, where no ball can come to lie.
 * @param rows swings; those without carry or bearing are left out and counted
 */
export function sprayChart(rows: readonly SprayRow[], options: SprayChartOptions): SVGSVGElement {
  const { field, lanes = [], range = null } = options;
  const { distance } = measuresOf(options);
  const width = widthOf(options);
  const drawn = rows.filter((r) => r.carry_ft !== null && r.bearing_deg !== null);
  const laid = layField(field, distance, options.units);
  const { place, fenceAt, widest, deepest } = laid;

  const landed = drawn.map((row) => ({ row, at: place(row.carry_ft!, row.bearing_deg!) }));

  const outline = range === null ? [] : ellipseOutline(range.ellipse, distance);

  // Scale: the fence fits, and so does what came down not far past it.
  const places = [...landed.map(({ at }) => at), ...outline];
  const reach = (size: number, of: (at: readonly [number, number]) => number): number =>
    Math.min(size * (1 + mostBeyond), Math.max(size, max(places, of) ?? 0));
  const sideward = reach(widest, ([x]) => Math.abs(x));
  const outward = reach(deepest, ([, y]) => y);
  const margin = 4;
  const across = width - 2 * margin;
  const perUnit = Math.min(
    (across / 2 - edgeRoom) / sideward,
    tallest / outward,
    halfWithNumbers(field, across / 2) / widest,
  );
  const below = 34;
  const tall = Math.round(outward * perUnit + edgeRoom + below);
  const frame = {
    x: [-across / 2 / perUnit, across / 2 / perUnit] as const,
    y: [-below / perUnit, tall / perUnit - below / perUnit] as const,
    across,
    tall,
  };

  const spots = landed.map(({ row, at }): Spot => {
    const [x, y] = hold(at, frame);
    return {
      x,
      y,
      code: codeOf.category(row.category),
      hollow: isDoubtful(row),
      words: swingWords(row, options.units),
    };
  });
  const swings = cloud(spots, frame, options.tip);

  const byLane = new Map(lanes.map((l) => [l.lane, l]));
  // Side by side in the lanes' order: a fifth of the fence's width each, or as much as their words need.
  const column =
    Math.min(across, Math.max(fairLanes.length * band.column, 2 * widest * perUnit)) /
    fairLanes.length /
    perUnit;
  const shared = fairLanes.flatMap((lane, i) => {
    const share = byLane.get(lane);
    return share === undefined ? [] : [{ lane, share, x: (i - 2) * column }];
  });
  const overField = shared.length ? band.height : 0;
  const words = (text: (lane: LaneWords) => string, dy: number, style: Plot.TextOptions): Plot.Text =>
    Plot.text(shared, {
      x: "x",
      y: () => frame.y[1],
      dy,
      text,
      fontSize: fontSize.small,
      fill: ink,
      stroke: paper,
      strokeWidth: 4,
      ...style,
    });
  const foul = byLane.get("foul") ?? null;
  const account = accountOf(drawn, rows.length, "a landing point", swings);
  const carries = drawn.map((r) => r.carry_ft!);

  return compose(options, {
    kind: "spray-chart",
    title: "Spray chart",
    subtitle: [`${count(drawn.length, "landing point")}`, ...flaggedWords(drawn)],
    key: categories.map((name) => ({ label: name, code: categoryCodes[name] })),
    notes: [
      ...(lanes.length
        ? [`Over each lane: its share of the balls that came down, how many, and the 95% interval.`]
        : []),
      ...(foul && foul.n > 0 ? [`Foul: ${sayShare(foul)}.`] : []),
      ...account.notes,
      ...(range ? [`Outlined: ${range.label}.`] : []),
      assumptions(drawn),
    ],
    description: [
      drawn.length
        ? `${count(drawn.length, "landing point")} on the field ${field.name}, carry ${spanWords(carries, distance.say, (v) => number(distance.from(v)))}.`
        : "Landing points on the field: no swings to draw.",
      categorySentence(drawn),
      shared.length
        ? `By lane: ${shared.map(({ lane, share }) => `${lane} ${sayShare(share)}`).join("; ")}.`
        : "",
      foul ? `Foul: ${sayShare(foul)}.` : "",
      ...account.sentences,
      range
        ? `${range.label}: carry ${distance.say(range.carry_ft)} (${number(distance.from(range.carry_low_ft))} to ${number(distance.from(range.carry_high_ft))}); the ellipse is ${distance.say((2 * range.ellipse.long) / ft)} long and ${distance.say((2 * range.ellipse.short) / ft)} wide.`
        : "",
    ],
    plot: ({ top, bottom }) => ({
      height: top + overField + tall + bottom + 2 * margin,
      marginLeft: margin,
      marginRight: margin,
      marginTop: top + overField + margin,
      marginBottom: bottom + margin,
      x: { domain: [...frame.x], axis: null },
      y: { domain: [...frame.y], axis: null },
      marks: [
        ...laid.under,
        laneEdges_deg.slice(1, -1).map((edge) =>
          Plot.link([edge], {
            x1: () => 0,
            y1: () => 0,
            x2: () => place(fenceAt(edge), edge)[0],
            y2: () => place(fenceAt(edge), edge)[1],
            stroke: line,
            strokeDasharray: "1 4",
            strokeLinecap: "round",
            ariaDescription: "edge of a lane",
          }),
        ),
        ...laid.over,
        ...swings.marks,
        ...(range
          ? [
              Plot.line(outline, {
                stroke: statement,
                strokeWidth: 1.8,
                strokeDasharray: "5 3",
                ariaDescription: "landing ellipse",
              }),
            ]
          : []),
        words(({ lane }) => lane, band.lane, { fill: faintInk, ariaDescription: "lane" }),
        words(({ share: { share } }) => (share === null ? "–" : percent(share)), band.share, {
          fontSize: fontSize.figure,
          fontWeight: "bold",
          ariaDescription: "share of the lane",
        }),
        words(({ share }) => `${share.count} of ${share.n}`, band.count, { ariaDescription: "count" }),
        words(({ share }) => percentRange(share), band.interval, {
          fill: faintInk,
          ariaDescription: "interval",
        }),
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

/** A landing point beyond the frame, drawn in toward home plate until only just outside: its bearing stays. */
function hold(
  [x, y]: readonly [number, number],
  frame: { x: readonly [number, number]; y: readonly [number, number] },
): [number, number] {
  const k = Math.max(1, x > 0 ? x / frame.x[1] : x / frame.x[0], y > 0 ? y / frame.y[1] : y / frame.y[0]);
  return k === 1 ? [x, y] : [(x / k) * 1.0001, (y / k) * 1.0001];
}
