/** Where the balls came down, seen from above: the playing field, the landing points, the share of each lane. */
import * as Plot from "@observablehq/plot";
import { isDoubtful } from "../contact/flags.ts";
import type { PlayingField } from "../field/fields.ts";
import { laneEdges_deg } from "../field/lanes.ts";
import type { LandingEllipse } from "../flight/ellipse.ts";
import { categories, type EnrichedSwing, type Lane } from "../swing/fields.ts";
import { ft } from "../units/index.ts";
import { accountOf } from "./account.ts";
import { codeOf, compose, emptyMark, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import { ellipseOutline, layField } from "./playingField.ts";
import {
  assumptions,
  cloud,
  flaggedWords,
  swingWords,
  tally,
  type CarryBasis,
  type SpokenSwing,
  type Spot,
} from "./swings.ts";
import { categoryCodes, faintInk, fontSize, ink, line, paper, phoneWidth, statement } from "./theme.ts";
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

const fairLanes = ["left line", "left-center", "center", "right-center", "right line"] as const;
const radians = Math.PI / 180;

/**
 * The field from above, home plate below: foul lines, dirt, fence and rings of distance; each ball where it came
 * down, its category as colour and shape; past the fence each lane's share with its count and interval.
 * @param rows swings; those without carry or bearing are left out and counted
 */
export function sprayChart(rows: readonly SprayRow[], options: SprayChartOptions): SVGSVGElement {
  const { field, lanes = [], range = null } = options;
  const { distance } = measuresOf(options);
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const drawn = rows.filter((r) => r.carry_ft !== null && r.bearing_deg !== null);
  const laid = layField(field, distance, options.units);
  const { place, fenceAt, widest, deepest } = laid;

  // Scale: the fence fits, and so do the words past the fence of the outer lanes.
  const lettering = { half: 30, above: 68, out: phone ? 36 : 42 };
  const margin = 4;
  const across = width - 2 * margin;
  const outer = (laneEdges_deg[4]! + laneEdges_deg[5]!) / 2;
  const perUnit = Math.min(
    (across / 2 - 8) / widest,
    (across / 2 - lettering.half - lettering.out * Math.sin(outer * radians)) /
      place(fenceAt(outer), outer)[0],
    (640 - lettering.above) / deepest,
  );
  const below = 34;
  const tall = Math.round(deepest * perUnit + lettering.above + below);
  const frame = {
    x: [-across / 2 / perUnit, across / 2 / perUnit] as const,
    y: [-below / perUnit, tall / perUnit - below / perUnit] as const,
    across,
    tall,
  };

  const spots = drawn.map((row): Spot => {
    const [x, y] = hold(place(row.carry_ft!, row.bearing_deg!), frame);
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
  const laneWords = fairLanes.map((lane, i) => {
    const middle = (laneEdges_deg[i]! + laneEdges_deg[i + 1]!) / 2;
    const [fx, fy] = place(fenceAt(middle), middle);
    const out = lettering.out / perUnit;
    return {
      lane,
      share: byLane.get(lane) ?? null,
      x: fx + out * Math.sin(middle * radians),
      y: fy + out * Math.cos(middle * radians),
    };
  });
  const shared = laneWords.filter((l): l is typeof l & { share: LaneShare } => l.share !== null);
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
        ? [`By each lane: its share of the balls that came down, how many, and the 95% interval.`]
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
      drawn.length
        ? `By category: ${tally(
            drawn.map((r) => r.category),
            categories,
          )}.`
        : "",
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
      height: top + tall + bottom + 2 * margin,
      marginLeft: margin,
      marginRight: margin,
      marginTop: top + margin,
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
              Plot.line(ellipseOutline(range.ellipse, distance), {
                stroke: statement,
                strokeWidth: 1.8,
                strokeDasharray: "5 3",
                ariaDescription: "landing ellipse",
              }),
            ]
          : []),
        Plot.text(shared, {
          x: "x",
          y: "y",
          dy: -13,
          text: ({ share }: { share: LaneShare }) => (share.share === null ? "–" : percent(share.share)),
          fontSize: fontSize.figure,
          fontWeight: "bold",
          fill: ink,
          stroke: paper,
          strokeWidth: 4,
          ariaDescription: "share of the lane",
        }),
        Plot.text(shared, {
          x: "x",
          y: "y",
          dy: 2,
          text: ({ share }: { share: LaneShare }) => `${share.count} of ${share.n}`,
          fontSize: fontSize.small,
          fill: ink,
          stroke: paper,
          strokeWidth: 4,
          ariaDescription: "count",
        }),
        Plot.text(shared, {
          x: "x",
          y: "y",
          dy: 15,
          text: ({ share }: { share: LaneShare }) => percentRange(share),
          fontSize: fontSize.small,
          fill: faintInk,
          stroke: paper,
          strokeWidth: 4,
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
