/** Timing: how far forward the ball was met, and to which side that sent it. */
import * as Plot from "@observablehq/plot";
import { max, min } from "d3";
import type { EnrichedSwing } from "../swing/fields.ts";
import { axesMargin, bucketCloud, bucketWords } from "./byBucket.ts";
import { axes, compose, emptyMark, laidOut, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import type { Cloud, SpokenSwing } from "./swings.ts";
import { faintInk, fontSize, hairline, line, phoneWidth, statement } from "./theme.ts";
import { count, number, sayInterval, spanWords, type Interval, type Measure } from "./text.ts";

export type TimingRow = SpokenSwing & Pick<EnrichedSwing, "contact_depth_ft" | "spray_angle_deg" | "bats">;

/** A straight line of spray on depth: its slope with its interval, and the point it turns about. */
export interface TimingLine {
  /** ° toward the pull side for each foot farther forward, as `src/views/flip.ts` gives it. */
  readonly slope: Interval;
  /** Means of depth (ft) and of spray toward the pull side (°): the line runs through them; null for none. */
  readonly through: { readonly depth_ft: number; readonly pull_deg: number } | null;
}

export interface TimingOptions extends ChartOptions {
  readonly line?: TimingLine | null;
}

/** Spray toward the pull side, °: left field is a right-handed batter's. */
function towardPull({ bats, spray_angle_deg }: Pick<TimingRow, "bats" | "spray_angle_deg">): number | null {
  if (bats === null || spray_angle_deg === null) return null;
  return bats === "L" ? spray_angle_deg : 0 - spray_angle_deg;
}

/** What is shown of depth, ft, and of spray toward the pull side, °. */
const shown = { depth_ft: [-0.5, 4] as const, pull_deg: [-65, 65] as const };

/**
 * Each ball at the depth where it was met (across) and its spray toward the pull side (up), its bucket as colour
 * and shape; the given line, and where it would lie at either end of its slope's interval.
 * @param rows balls in play; those without depth, spray or the batter's side are left out and counted
 */
export function timing(rows: readonly TimingRow[], options: TimingOptions = {}): SVGSVGElement {
  const { line: fit = null } = options;
  const { place } = measuresOf(options);
  const width = widthOf(options);
  const drawn = rows.flatMap((row) => {
    const pull = towardPull(row);
    return pull === null || row.contact_depth_ft === null ? [] : [{ row, pull, depth: row.contact_depth_ft }];
  });
  const across = width - axesMargin.left - axesMargin.right;
  const tall = width < phoneWidth ? 290 : Math.min(420, Math.round(across * 0.62));
  const x = [place.from(shown.depth_ft[0]), place.from(shown.depth_ft[1])] as const;
  const y = shown.pull_deg;
  const balls = drawn.map(({ row, pull, depth }) => ({
    row,
    x: place.from(depth),
    y: pull,
    more: [
      `${number(Math.abs(pull))}° ${pull >= 0 ? "to the pull side" : "to the opposite field"}`,
      `met ${place.say(depth)} forward`,
    ],
  }));
  const swings = bucketCloud(balls, { x, y, across, tall }, options);
  const depths = drawn.map(({ depth }) => depth);
  const fitted = fit && depths.length ? lineOver(fit, depths, place.from) : null;

  return compose(options, {
    kind: "timing",
    ...wordsOf(drawn, rows.length, swings, options, fitted?.band != null),
    plot: (room) => ({
      ...laidOut(axesMargin, tall, room),
      x: { domain: [...x], label: null },
      y: { domain: [...y], label: null },
      marks: [
        ...groundMarks(place),
        ...(fitted ? lineMarks(fitted) : []),
        ...swings.marks,
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

function wordsOf(
  drawn: readonly { readonly row: TimingRow; readonly depth: number }[],
  all: number,
  swings: Cloud,
  options: TimingOptions,
  banded: boolean,
) {
  const { place } = measuresOf(options);
  const told = slopeWords(options);
  const span = spanWords(
    drawn.map(({ depth }) => depth),
    place.say,
    (ft) => number(place.from(ft)),
  );
  return bucketWords(
    drawn.map(({ row }) => row),
    all,
    swings,
    {
      title: "Timing: depth against direction",
      picture: "Contact depth against spray",
      missing: "depth, spray or batter's side",
      notes: [told, ...(banded ? ["Shaded: where the line may lie, by the 95% interval of its slope."] : [])],
      description: [span && `Depth ${span}.`, told],
    },
  );
}

/** What a little farther forward comes to; empty without a line. */
function slopeWords({ line: fit, units }: TimingOptions): string {
  if (!fit) return "";
  if (fit.slope.value === null) return `No line from ${count(fit.slope.n, "swing")}.`;
  // Per inch or 10 cm: a foot is more than anybody moves.
  const [step, feet] = units === "metric" ? ["10 cm", 10 / 30.48] : ["inch", 1 / 12];
  const more = sayInterval(scaled(fit.slope, feet), (v) => `${number(v, 1)}°`);
  return `Each ${step} farther forward: ${more} more to the pull side.`;
}

/** The foul lines and center field, both axes, and which way is which. */
function groundMarks(place: Measure): Plot.Markish[] {
  const ways = [
    { way: "↑ pull side", frameAnchor: "top-right", dy: 7 },
    { way: "↓ opposite field", frameAnchor: "bottom-right", dy: -7 },
  ] as const;
  return [
    Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 6 }),
    Plot.ruleY([-45, 45], { stroke: line, strokeDasharray: "4 3", ariaDescription: "foul lines" }),
    Plot.ruleY([0], { stroke: line, ariaDescription: "center field" }),
    ...axes(
      {
        x: `Depth (${place.unit}) forward of the plate's rear point`,
        y: "Spray angle (°) from center field",
      },
      axesMargin.left,
      { x: 6, y: 7, yFormat: (v) => number(Math.abs(v)) },
    ),
    Plot.frame({ stroke: line }),
    ...ways.map(({ way, frameAnchor, dy }) =>
      Plot.text([way], {
        frameAnchor,
        dx: -6,
        dy,
        fontSize: fontSize.small,
        fill: faintInk,
        ariaDescription: "direction",
      }),
    ),
  ];
}

const lineMarks = ({ line: fitted, band }: Fitted): Plot.Markish[] => [
  ...(band ?? []).map((wing) =>
    Plot.line(wing, {
      fill: statement,
      fillOpacity: 0.1,
      clip: "frame",
      ariaDescription: "interval of the line",
    }),
  ),
  Plot.line(fitted, { stroke: statement, strokeWidth: 2, clip: "frame", ariaDescription: "line" }),
];

type Path = [number, number][];

interface Fitted {
  readonly line: Path;
  readonly band: Path[] | null;
}

/** The line over the depths there are, beyond which nobody swung, and the wings between its slope's ends. */
function lineOver(
  { slope, through }: TimingLine,
  depths: readonly number[],
  place: (ft: number) => number,
): Fitted | null {
  if (slope.value === null || through === null) return null;
  const [low, high] = shown.depth_ft;
  const ends = [min(depths)!, max(depths)!].map((d) => Math.max(low, Math.min(high, d)));
  const along = (degPerFt: number): Path =>
    ends.map((d) => [place(d), through.pull_deg + degPerFt * (d - through.depth_ft)]);
  const pivot: [number, number] = [place(through.depth_ft), through.pull_deg];
  if (slope.low === null || slope.high === null) return { line: along(slope.value), band: null };
  const [least, most] = [along(slope.low), along(slope.high)];
  return { line: along(slope.value), band: least.map((end, i) => [pivot, end, most[i]!, pivot]) };
}

function scaled(figure: Interval, by: number): Interval {
  const times = (v: number | null): number | null => (v === null ? null : v * by);
  return { n: figure.n, value: times(figure.value), low: times(figure.low), high: times(figure.high) };
}
