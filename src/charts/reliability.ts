/** How many swings a measure needs: reliability against swings, a row a measure. */
import * as Plot from "@observablehq/plot";
import { compose, emptyMark, widthOf, type ChartOptions, laidOut } from "./frame.ts";
import { categoryCodes, faintInk, fontSize, hairline, ink, line, paper, statement } from "./theme.ts";
import { count, number, wrap } from "./text.ts";
import { largest } from "../swing/lists.ts";

/** One measure, as `src/gap/stabilizing.ts` gives it. */
export interface ReliabilityRow {
  readonly title: string;
  readonly hitters: number;
  readonly swings: number;
  /** Swings until it is stable, with its interval; null where that can't be told. */
  readonly needed: {
    readonly value: number | null;
    readonly low: number | null;
    readonly high: number | null;
  };
  /** The second opinion, by halves. */
  readonly halves: { readonly needed: number | null };
  readonly curve: readonly {
    readonly swings: number;
    readonly reliability: number;
    readonly low: number;
    readonly high: number;
  }[];
  /** In plain words. */
  readonly words: string;
}

export interface ReliabilityOptions extends ChartOptions {
  /** The reliability at which a measure counts as stable. */
  readonly stable?: number | undefined;
}

/** Swings shown: the axis is by doublings, since the second ten tell less than the first. */
const span = [1, 300] as const;
const ticks = [1, 2, 5, 10, 20, 50, 100, 200] as const;
const row = { tall: 54, line: 15, gap: 16 } as const;
const band = "#d9d4ea";

/**
 * A row a measure: its reliability from 0 at the row's foot to 1 at its head, the band its 95 % interval, and a
 * diamond where it is stable; a hollow triangle is the second opinion from halves. A measure that can't be told
 * has its sentence alone.
 * @param rows measures, in the order to be drawn
 */
export function reliability(
  rows: readonly ReliabilityRow[],
  options: ReliabilityOptions = {},
): SVGSVGElement {
  const { stable = 0.7 } = options;
  const width = widthOf(options);
  const margin = { left: 34, right: 12, bottom: 42 };
  let y = 0;
  const laid = rows.map((r) => {
    const lines = wrap(r.words, width - 28);
    y += lines.length * row.line + 7;
    const told = r.curve.length > 0;
    const at = { ...r, lines, told, y };
    y += (told ? row.tall : 0) + row.gap;
    return at;
  });
  type Laid = (typeof laid)[number];
  const tall = laid.length > 0 ? y : 90;
  const drawn = laid.filter((r) => r.told);
  const height = (r: Laid, value: number): number => r.y + row.tall * (1 - value);
  const within = (swings: number | null): swings is number => swings !== null && swings <= span[1];
  const crossed = drawn.filter((r) => within(r.needed.value));
  const second = drawn.filter((r) => within(r.halves.needed));
  const off = drawn.filter((r) => r.needed.value !== null && !within(r.needed.value));
  const hitters = largest(
    rows.map((r) => r.hitters),
    0,
  );

  return compose(options, {
    kind: "reliability",
    title: "How many swings until it stabilizes",
    subtitle: rows.length ? [count(hitters, "hitter")] : [],
    key: drawn.length
      ? [
          { label: "stable", code: { colour: statement, shape: categoryCodes["line drive"].shape } },
          {
            label: "second opinion, from halves",
            code: { colour: faintInk, shape: categoryCodes["ground ball"].shape },
            hollow: true,
          },
          { label: "95% interval", swatch: { fill: band, stroke: faintInk } },
        ]
      : [],
    notes: [
      `Stable: a reliability of ${stable}${drawn.length ? " (dashed line)" : ""}. Then ${number(stable * 100)}% of the variance between hitters' figures is between the hitters, and the rest chance.`,
    ],
    description: rows.length
      ? [
          `How many swings each measure needs until its reliability is ${stable}.`,
          ...rows.map(
            (r) =>
              `${r.words}${r.halves.needed === null ? "" : ` By halves: about ${count(r.halves.needed, "swing")}.`} ${count(r.hitters, "hitter")}, ${count(r.swings, "swing")}.`,
          ),
        ]
      : ["How many swings each measure needs: no swings to draw."],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { type: "log", domain: [...span], label: null, axis: null },
      y: { domain: [tall, 0], axis: null },
      marks: laid.length
        ? [
            Plot.text([...ticks], {
              x: (v: number) => v,
              y: () => tall,
              dy: 12,
              text: (v: number) => number(v),
              fill: ink,
              ariaDescription: "swings",
            }),
            Plot.text(["Swings of each hitter"], {
              frameAnchor: "bottom",
              dy: 34,
              fill: ink,
              ariaDescription: "x axis",
            }),
            ...drawn.flatMap((r) => [
              Plot.link([...ticks], {
                x1: (v: number) => v,
                x2: (v: number) => v,
                y1: () => r.y,
                y2: () => r.y + row.tall,
                stroke: hairline,
                ariaDescription: "grid",
              }),
              Plot.areaY([...r.curve], {
                x: "swings",
                y1: (c: { low: number }) => height(r, c.low),
                y2: (c: { high: number }) => height(r, c.high),
                fill: band,
                ariaDescription: "interval",
              }),
              Plot.link([0, 1], {
                x1: () => span[0],
                x2: () => span[1],
                y1: (v: number) => height(r, v),
                y2: (v: number) => height(r, v),
                stroke: line,
                ariaDescription: "foot and head",
              }),
              Plot.link([stable], {
                x1: () => span[0],
                x2: () => span[1],
                y1: (v: number) => height(r, v),
                y2: (v: number) => height(r, v),
                stroke: faintInk,
                strokeDasharray: "4 3",
                ariaDescription: "stable",
              }),
              Plot.line([...r.curve], {
                x: "swings",
                y: (c: { reliability: number }) => height(r, c.reliability),
                stroke: statement,
                strokeWidth: 2,
                ariaDescription: "reliability",
              }),
            ]),
            Plot.text(
              drawn.flatMap((r) => [0, stable, 1].map((v) => ({ v, y: height(r, v) }))),
              {
                x: () => span[0],
                y: "y",
                dx: -5,
                text: (t: { v: number }) => number(t.v, t.v % 1 === 0 ? 0 : 1),
                textAnchor: "end",
                fontSize: fontSize.small,
                fill: faintInk,
                ariaDescription: "reliability scale",
              },
            ),
            Plot.link(crossed, {
              x1: (r: Laid) => r.needed.value!,
              x2: (r: Laid) => r.needed.value!,
              y1: (r: Laid) => height(r, stable),
              y2: (r: Laid) => height(r, 0),
              stroke: statement,
              strokeWidth: 1,
              ariaDescription: "down to the swings",
            }),
            Plot.dot(second, {
              x: (r: Laid) => r.halves.needed!,
              y: (r: Laid) => height(r, stable) - 7,
              symbol: categoryCodes["ground ball"].shape,
              r: 4.5,
              fill: paper,
              stroke: faintInk,
              strokeWidth: 1.6,
              ariaDescription: "second opinion",
            }),
            Plot.dot(crossed, {
              x: (r: Laid) => r.needed.value!,
              y: (r: Laid) => height(r, stable),
              symbol: categoryCodes["line drive"].shape,
              r: 5,
              fill: statement,
              stroke: paper,
              ariaDescription: "stable at",
            }),
            Plot.text(off, {
              x: () => span[1],
              y: (r: Laid) => height(r, stable),
              dx: -4,
              dy: 9,
              text: (r: Laid) => `${number(r.needed.value!)} →`,
              textAnchor: "end",
              fontSize: fontSize.small,
              fill: ink,
              stroke: paper,
              strokeWidth: 4,
              ariaDescription: "stable beyond the axis",
            }),
            Plot.text(
              laid.flatMap((r) =>
                r.lines.map((text, i) => ({ text, y: r.y - 7 - (r.lines.length - i - 0.5) * row.line })),
              ),
              {
                x: () => span[0],
                y: "y",
                dx: 4 - margin.left,
                text: "text",
                textAnchor: "start",
                fill: ink,
                ariaDescription: "words",
              },
            ),
          ]
        : [Plot.frame({ stroke: hairline }), emptyMark()],
    }),
  });
}
