/** Timing: how far forward the ball was met, and to which side that sent it. */
import * as Plot from "@observablehq/plot";
import { max, min } from "d3";
import { buckets, type EnrichedSwing } from "../swing/fields.ts";
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
import { bucketCodes, faintInk, fontSize, hairline, line, phoneWidth, statement } from "./theme.ts";
import { count, number, sayInterval, spanWords, type Interval } from "./text.ts";

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
  const phone = width < phoneWidth;
  const placed = rows.map((row) => ({ row, pull: towardPull(row) }));
  const drawn = placed.filter(
    (p): p is { row: TimingRow; pull: number } => p.pull !== null && p.row.contact_depth_ft !== null,
  );

  const margin = { left: 46, right: 12, top: 24, bottom: 42 };
  const across = width - margin.left - margin.right;
  const tall = phone ? 290 : Math.min(420, Math.round(across * 0.62));
  const x = [place.from(shown.depth_ft[0]), place.from(shown.depth_ft[1])] as const;
  const y = shown.pull_deg;
  const spots = drawn.map(({ row, pull }): Spot => ({
    x: place.from(row.contact_depth_ft!),
    y: pull,
    code: codeOf.bucket(row.bucket),
    ...fillOf(row),
    words: [
      swingWords(row, options.units),
      `${number(Math.abs(pull))}° ${pull >= 0 ? "to the pull side" : "to the opposite field"}`,
      `met ${place.say(row.contact_depth_ft!)} forward`,
    ].join(", "),
  }));
  const swings = cloud(spots, { x, y, across, tall }, options.tip);
  const account = accountOf(
    drawn.map(({ row }) => row),
    rows.length,
    "depth, spray or batter's side",
    swings,
  );
  const depths = drawn.map(({ row }) => row.contact_depth_ft!);
  const fitted = fit && depths.length ? lineOver(fit, depths, place.from) : null;
  // Per inch or 10 cm: a foot is more than anybody moves.
  const step =
    options.units === "metric" ? { words: "10 cm", feet: 10 / 30.48 } : { words: "inch", feet: 1 / 12 };
  const told = !fit
    ? ""
    : fit.slope.value === null
      ? `No line from ${count(fit.slope.n, "swing")}.`
      : `Each ${step.words} farther forward: ${sayInterval(scaled(fit.slope, step.feet), (v) => `${number(v, 1)}°`)} more to the pull side.`;

  return compose(options, {
    kind: "timing",
    title: "Timing: depth against direction",
    subtitle: [count(drawn.length, "swing"), ...flaggedWords(drawn.map(({ row }) => row))],
    key: [
      ...buckets.map((name) => ({ label: name, code: bucketCodes[name] })),
      ...fillKey(drawn.map(({ row }) => row)),
    ],
    notes: [
      told,
      ...(fitted?.band ? ["Shaded: where the line may lie, by the 95% interval of its slope."] : []),
      ...account.notes,
    ],
    description: [
      drawn.length
        ? `Contact depth against spray for ${count(drawn.length, "swing")}, by bucket: ${tally(
            drawn.map(({ row }) => row.bucket),
            buckets,
          )}. Depth ${spanWords(depths, place.say, (v) => number(place.from(v)))}.`
        : "Contact depth against spray: no swings to draw.",
      told,
      ...account.sentences,
    ],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain: [...x], label: null },
      y: { domain: [...y], label: null },
      marks: [
        Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 6 }),
        Plot.ruleY([-45, 45], { stroke: line, strokeDasharray: "4 3", ariaDescription: "foul lines" }),
        Plot.ruleY([0], { stroke: line, ariaDescription: "center field" }),
        ...axes(
          {
            x: `Depth (${place.unit}) forward of the plate's rear point`,
            y: "Spray angle (°) from center field",
          },
          margin.left,
          { x: 6, y: 7, yFormat: (v) => number(Math.abs(v)) },
        ),
        Plot.frame({ stroke: line }),
        ...(["top-right", "bottom-right"] as const).map((frameAnchor, i) =>
          Plot.text([["↑ pull side", "↓ opposite field"][i]!], {
            frameAnchor,
            dx: -6,
            dy: i === 0 ? 7 : -7,
            fontSize: fontSize.small,
            fill: faintInk,
            ariaDescription: "direction",
          }),
        ),
        ...(fitted?.band ?? []).map((wing) =>
          Plot.line(wing, {
            fill: statement,
            fillOpacity: 0.1,
            clip: "frame",
            ariaDescription: "interval of the line",
          }),
        ),
        ...(fitted
          ? [
              Plot.line(fitted.line, {
                stroke: statement,
                strokeWidth: 2,
                clip: "frame",
                ariaDescription: "line",
              }),
            ]
          : []),
        ...swings.marks,
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

type Path = [number, number][];

/** The line over the depths there are, beyond which nobody swung, and the wings between its slope's ends. */
function lineOver(
  { slope, through }: TimingLine,
  depths: readonly number[],
  place: (ft: number) => number,
): { line: Path; band: Path[] | null } | null {
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
