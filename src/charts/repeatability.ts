/** How alike the balls leave the bat: launch angle against spray angle. */
import * as Plot from "@observablehq/plot";
import { buckets, type EnrichedSwing } from "../swing/fields.ts";
import { accountOf } from "./account.ts";
import { axes, codeOf, compose, emptyMark, laidOut, widthOf, type ChartOptions } from "./frame.ts";
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
import { bucketCodes, faintInk, fontSize, hairline, line, paper, statement } from "./theme.ts";
import { count, number, sayInterval, type Interval } from "./text.ts";

export type RepeatRow = SpokenSwing & Pick<EnrichedSwing, "spray_angle_deg" | "bats">;

/** A figure for each of the two angles, °. */
export interface Angles {
  readonly launch_angle_deg: Interval;
  readonly spray_angle_deg: Interval;
}

export interface RepeatabilityOptions extends ChartOptions {
  /** Standard deviations, as `src/views/repeatability.ts` gives them. */
  readonly spread: Angles;
  /** Means: with them the spread is drawn around the middle as well as told. */
  readonly middle?: Angles | null;
}

const degrees = (value: number): string => `${number(value, 1)}°`;

/**
 * Each ball at its spray angle (across) and launch angle (up), one scale for both, its bucket as colour and shape;
 * the spread of either angle in words and, around the given means, as a cross of one standard deviation each way.
 * @param rows balls in play; those without both angles are left out and counted
 */
export function repeatability(rows: readonly RepeatRow[], options: RepeatabilityOptions): SVGSVGElement {
  const { spread, middle = null } = options;
  const width = widthOf(options);
  const drawn = rows.filter((r) => r.launch_angle_deg !== null && r.spray_angle_deg !== null);
  const margin = { left: 40, right: 12, top: 24, bottom: 42 };
  const across = width - margin.left - margin.right;
  const [x, y] = [[-60, 60] as const, [-30, 60] as const];
  const tall = Math.round((across * (y[1] - y[0])) / (x[1] - x[0]));
  const frame = { x, y, across, tall };

  const spots = drawn.map((row): Spot => ({
    x: row.spray_angle_deg!,
    y: row.launch_angle_deg!,
    code: codeOf.bucket(row.bucket),
    ...fillOf(row),
    words: swingWords(row, options.units),
  }));
  const swings = cloud(spots, frame, options.tip);
  const bats = new Set(drawn.map((r) => r.bats).filter((side) => side !== null));
  const pull = bats.size === 1 ? [...bats][0]! : null;
  const account = accountOf(drawn, rows.length, "both angles", swings);
  const cross = middle && crossOf(spread, middle);
  const told = [
    `Launch angle spread ${sayInterval(spread.launch_angle_deg, degrees)}.`,
    `Spray angle spread ${sayInterval(spread.spray_angle_deg, degrees)}.`,
  ];

  return compose(options, {
    kind: "repeatability",
    title: "How alike the balls leave the bat",
    subtitle: [count(drawn.length, "swing"), ...flaggedWords(drawn)],
    key: [...buckets.map((name) => ({ label: name, code: bucketCodes[name] })), ...fillKey(drawn)],
    notes: [
      ...told,
      ...(cross
        ? [
            "Spread: one standard deviation, with its 95% interval. The cross reaches that far from the means.",
          ]
        : ["Spread: one standard deviation, with its 95% interval."]),
      ...account.notes,
    ],
    description: [
      drawn.length
        ? `Spray angle against launch angle for ${count(drawn.length, "swing")}, by bucket: ${tally(
            drawn.map((r) => r.bucket),
            buckets,
          )}.`
        : "Spray angle against launch angle: no swings to draw.",
      ...told,
      middle
        ? `Mean launch angle ${sayInterval(middle.launch_angle_deg, degrees)}, mean spray angle ${sayInterval(middle.spray_angle_deg, degrees)}.`
        : "",
      ...account.sentences,
    ],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain: [...x], label: null },
      y: { domain: [...y], label: null },
      marks: [
        Plot.gridX([-45, -15, 15, 45], { stroke: hairline, strokeOpacity: 1 }),
        Plot.ruleX([-45, 45], { stroke: line, strokeDasharray: "4 3", ariaDescription: "foul lines" }),
        Plot.ruleY([0], { stroke: line }),
        ...axes({ x: "Spray angle (°), 0 to center field", y: "Launch angle (°)" }, margin.left),
        Plot.frame({ stroke: line }),
        Plot.text([pull === "R" ? "← pull side" : pull === "L" ? "← opposite field" : "← left field"], {
          frameAnchor: "bottom-left",
          dx: 6,
          dy: -7,
          fontSize: fontSize.small,
          fill: faintInk,
          ariaDescription: "direction",
        }),
        Plot.text([pull === "R" ? "opposite field →" : pull === "L" ? "pull side →" : "right field →"], {
          frameAnchor: "bottom-right",
          dx: -6,
          dy: -7,
          fontSize: fontSize.small,
          fill: faintInk,
          ariaDescription: "direction",
        }),
        ...swings.marks,
        ...(cross
          ? [
              Plot.line(cross.ring, {
                stroke: paper,
                strokeWidth: 3.5,
                strokeOpacity: 0.8,
                ariaDescription: "paper behind the ring",
              }),
              Plot.line(cross.ring, {
                stroke: statement,
                strokeWidth: 1.3,
                ariaDescription: "one standard deviation around the means",
              }),
              Plot.link(cross.arms, {
                x1: "x1",
                y1: "y1",
                x2: "x2",
                y2: "y2",
                stroke: paper,
                strokeWidth: 4.5,
                strokeOpacity: 0.8,
                ariaDescription: "paper behind the cross",
              }),
              Plot.link(cross.arms, {
                x1: "x1",
                y1: "y1",
                x2: "x2",
                y2: "y2",
                stroke: statement,
                strokeWidth: 2,
                ariaDescription: "spread",
              }),
            ]
          : []),
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

/** Arms of one standard deviation through the means, and the ring around their ends. */
function crossOf(spread: Angles, middle: Angles) {
  const [mx, my] = [middle.spray_angle_deg.value, middle.launch_angle_deg.value];
  const [sx, sy] = [spread.spray_angle_deg.value, spread.launch_angle_deg.value];
  if (mx === null || my === null || sx === null || sy === null) return null;
  return {
    arms: [
      { x1: mx - sx, x2: mx + sx, y1: my, y2: my },
      { x1: mx, x2: mx, y1: my - sy, y2: my + sy },
    ],
    ring: Array.from({ length: 73 }, (_, i): [number, number] => {
      const t = (i * Math.PI) / 36;
      return [mx + sx * Math.cos(t), my + sy * Math.sin(t)];
    }),
  };
}
