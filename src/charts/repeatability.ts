/** How alike the balls leave the bat: launch angle against spray angle. */
import * as Plot from "@observablehq/plot";
import type { EnrichedSwing } from "../swing/fields.ts";
import { axesMargin, bucketCloud, bucketWords } from "./byBucket.ts";
import { axes, compose, emptyMark, laidOut, widthOf, type ChartOptions } from "./frame.ts";
import type { Cloud, SpokenSwing } from "./swings.ts";
import { faintInk, fontSize, hairline, line, paper, statement } from "./theme.ts";
import { number, sayInterval, type Interval } from "./text.ts";

export type RepeatRow = SpokenSwing & Pick<EnrichedSwing, "spray_angle_deg" | "bats">;

/** A ball with both angles. */
type AngledRow = RepeatRow & { readonly launch_angle_deg: number; readonly spray_angle_deg: number };

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

const margin = { ...axesMargin, left: 40 };
/** What is shown of spray (across) and launch angle (up), °. */
const shown = { x: [-60, 60], y: [-30, 60] } as const;

/**
 * Each ball at its spray angle (across) and launch angle (up), one scale for both, its bucket as colour and shape;
 * the spread of either angle in words and, around the given means, as a cross of one standard deviation each way.
 * @param rows balls in play; those without both angles are left out and counted
 */
export function repeatability(rows: readonly RepeatRow[], options: RepeatabilityOptions): SVGSVGElement {
  const { spread, middle = null } = options;
  const drawn = rows.filter((r): r is AngledRow => r.launch_angle_deg !== null && r.spray_angle_deg !== null);
  const across = widthOf(options) - margin.left - margin.right;
  const tall = Math.round((across * (shown.y[1] - shown.y[0])) / (shown.x[1] - shown.x[0]));
  const balls = drawn.map((row) => ({ row, x: row.spray_angle_deg, y: row.launch_angle_deg }));
  const swings = bucketCloud(balls, { ...shown, across, tall }, options);
  const cross = middle && crossOf(spread, middle);

  return compose(options, {
    kind: "repeatability",
    ...wordsOf(drawn, rows.length, swings, options, cross !== null),
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain: [...shown.x], label: null },
      y: { domain: [...shown.y], label: null },
      marks: [
        Plot.gridX([-45, -15, 15, 45], { stroke: hairline, strokeOpacity: 1 }),
        Plot.ruleX([-45, 45], { stroke: line, strokeDasharray: "4 3", ariaDescription: "foul lines" }),
        Plot.ruleY([0], { stroke: line }),
        ...axes({ x: "Spray angle (°), 0 to center field", y: "Launch angle (°)" }, margin.left),
        Plot.frame({ stroke: line }),
        ...directionMarks(drawn),
        ...swings.marks,
        ...(cross ? crossMarks(cross) : []),
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

function wordsOf(
  drawn: readonly AngledRow[],
  all: number,
  swings: Cloud,
  { spread, middle }: RepeatabilityOptions,
  crossed: boolean,
) {
  const degrees = (figure: Interval): string => sayInterval(figure, (value) => `${number(value, 1)}°`);
  const told = [
    `Launch angle spread ${degrees(spread.launch_angle_deg)}.`,
    `Spray angle spread ${degrees(spread.spray_angle_deg)}.`,
  ];
  const reach = crossed ? " The cross reaches that far from the means." : "";
  const means =
    middle &&
    `Mean launch angle ${degrees(middle.launch_angle_deg)}, mean spray angle ${degrees(middle.spray_angle_deg)}.`;
  return bucketWords(drawn, all, swings, {
    title: "How alike the balls leave the bat",
    picture: "Spray angle against launch angle",
    missing: "both angles",
    notes: [...told, `Spread: one standard deviation, with its 95% interval.${reach}`],
    description: [...told, means ?? ""],
  });
}

/** Which way is which, in the lower corners: by the batter's side where all have one. */
function directionMarks(drawn: readonly AngledRow[]): Plot.Markish[] {
  const bats = new Set(drawn.map((r) => r.bats).filter((side) => side !== null));
  const pull = bats.size === 1 ? [...bats][0]! : null;
  const [left, right] =
    pull === null
      ? ["left field", "right field"]
      : pull === "R"
        ? ["pull side", "opposite field"]
        : ["opposite field", "pull side"];
  const look = { dy: -7, fontSize: fontSize.small, fill: faintInk, ariaDescription: "direction" };
  return [
    Plot.text([`← ${left}`], { ...look, frameAnchor: "bottom-left", dx: 6 }),
    Plot.text([`${right} →`], { ...look, frameAnchor: "bottom-right", dx: -6 }),
  ];
}

/** The cross and its ring, each on paper that parts it from the balls below. */
function crossMarks({ arms, ring }: Cross): Plot.Markish[] {
  const ends = { x1: "x1", y1: "y1", x2: "x2", y2: "y2" };
  const under = (what: string) => ({
    stroke: paper,
    strokeOpacity: 0.8,
    ariaDescription: `paper behind the ${what}`,
  });
  return [
    Plot.line(ring, { ...under("ring"), strokeWidth: 3.5 }),
    Plot.line(ring, {
      stroke: statement,
      strokeWidth: 1.3,
      ariaDescription: "one standard deviation around the means",
    }),
    Plot.link(arms, { ...ends, ...under("cross"), strokeWidth: 4.5 }),
    Plot.link(arms, { ...ends, stroke: statement, strokeWidth: 2, ariaDescription: "spread" }),
  ];
}

interface Cross {
  readonly arms: { x1: number; x2: number; y1: number; y2: number }[];
  readonly ring: [number, number][];
}

/** Arms of one standard deviation through the means, and the ring around their ends. */
function crossOf(spread: Angles, middle: Angles): Cross | null {
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
