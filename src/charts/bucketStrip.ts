/** Contact buckets in the order they were hit: one bar a swing, its height and colour the bucket. */
import * as Plot from "@observablehq/plot";
import { buckets, type EnrichedSwing } from "../swing/fields.ts";
import { codeOf, compose, emptyMark, widthOf, type ChartOptions } from "./frame.ts";
import { flaggedWords, isFlagged, swingWords, tally, type SpokenSwing } from "./swings.ts";
import { bucketCodes, faintInk, fontSize, hairline, ink, line, paper } from "./theme.ts";
import { count, number, sayShare, shorten, textWidth, type ShareInterval } from "./text.ts";

export type StripRow = SpokenSwing & Pick<EnrichedSwing, "session" | "drill" | "outcome">;

/** A figure to stand beside a group's name, as `src/stats` gives it: "clean or flush", with its interval. */
export interface StripFigure {
  /** The group it belongs to: its name as `groupName` gives it. */
  readonly group: string;
  readonly label: string;
  readonly share: ShareInterval;
}

export interface BucketStripOptions extends ChartOptions {
  /** The name of the group a row belongs to; session and drill when absent. Groups stand as their first rows do. */
  readonly groupName?: (row: StripRow) => string;
  readonly figures?: readonly StripFigure[];
  /** Draws at most this many swings, the last ones: the strip grows with them. */
  readonly most?: number;
}

const bar = { least: 9, most: 14, tall: 30 } as const;
const rowGap = 8;
const nameHeight = 22;
const groupGap = 8;

/** The name of a row's group: its session and its drill. */
export const sessionAndDrill = (row: Pick<EnrichedSwing, "session" | "drill">): string =>
  [row.session, row.drill].filter(Boolean).join(" · ") || "no session named";

/**
 * The swings of each group from left to right in the order given, as bars: low and pale for a mishit, tall and
 * dark for flush. A swing without a bucket is a short tick below the line.
 * @param rows swings in the order they were hit
 */
export function bucketStrip(rows: readonly StripRow[], options: BucketStripOptions = {}): SVGSVGElement {
  const { groupName = sessionAndDrill, figures = [], most = 1200 } = options;
  const width = widthOf(options);
  const taken = rows.filter((r) => r.outcome !== "take");
  const drawn = taken.slice(-most);
  const groups = new Map<string, StripRow[]>();
  for (const row of drawn) {
    const name = groupName(row);
    const group = groups.get(name);
    if (group) group.push(row);
    else groups.set(name, [row]);
  }

  const margin = { left: 4, right: 4 };
  const across = width - margin.left - margin.right;
  // Tens of swings to a line, so that the marks at every tenth stand below each other.
  const longest = Math.max(10, ...[...groups.values()].map((g) => Math.ceil(g.length / 10) * 10));
  const step = Math.max(bar.least, Math.min(bar.most, Math.floor(across / longest)));
  const wide = step - 2;
  const perLine = Math.max(10, Math.floor(across / step / 10) * 10);
  const cells: { x: number; y: number; row: StripRow; words: string }[] = [];
  const names: { y: number; name: string; figure: string }[] = [];
  const lines: { y: number; to: number }[] = [];
  const tens: { x: number; y: number }[] = [];
  let y = 0;
  for (const [name, group] of groups) {
    const figure = figures.find((f) => f.group === name);
    names.push({
      y: y + 14,
      name: `${name} · ${count(group.length, "swing")}`,
      figure: figure ? `${figure.label} ${sayShare(figure.share)}` : "",
    });
    // On a phone the figure stands on a line of its own.
    const both = textWidth(names.at(-1)!.name, fontSize.label, true) + textWidth(names.at(-1)!.figure) + 16;
    const second = figure !== undefined && both > across;
    y += nameHeight + (second ? 15 : 0);
    group.forEach((row, i) => {
      const [column, down] = [i % perLine, Math.floor(i / perLine)];
      const base = y + (down + 1) * bar.tall + down * (rowGap + 4);
      if (column === 0) lines.push({ y: base, to: Math.min(perLine, group.length - i) * step });
      if (column % 10 === 9) tens.push({ x: (column + 1) * step - 1, y: base });
      cells.push({
        x: column * step + 1,
        y: base,
        row,
        words: `${i + 1}: ${swingWords(row, options.units) || row.outcome || "unknown"}`,
      });
    });
    const downs = Math.ceil(group.length / perLine);
    y += downs * bar.tall + (downs - 1) * (rowGap + 4) + rowGap + groupGap;
  }
  const tall = groups.size ? Math.ceil(y) : 90;

  const bars = cells.filter(({ row }) => row.bucket !== null);
  const ticks = cells.filter(({ row }) => row.bucket === null);
  const flagged = drawn.filter(isFlagged).length;
  const earlier = taken.length - drawn.length;

  return compose(options, {
    kind: "bucket-strip",
    title: "Contact, swing by swing",
    subtitle: [count(drawn.length, "swing"), ...flaggedWords(drawn)],
    key: buckets.map((name) => ({
      label: name,
      swatch: {
        fill: bucketCodes[name].colour,
        stroke: bucketCodes[name].colour,
        height: bucketCodes[name].height,
      },
    })),
    notes: [
      "Left to right in the order hit; a mark below the line after every tenth swing.",
      ...(ticks.length ? ["A dot below the line: foul, missed or without a bucket."] : []),
      ...(earlier
        ? [`The last ${number(drawn.length)} swings; ${number(earlier)} earlier ones not drawn.`]
        : []),
    ],
    description: [
      drawn.length
        ? `Contact buckets in swing order, ${count(drawn.length, "swing")}.`
        : "Contact buckets: no swings to draw.",
      ...[...groups].map(([name, group]) => {
        const figure = figures.find((f) => f.group === name);
        const said = tally(
          group.map((r) => r.bucket),
          buckets,
        );
        return `${name}: ${said}${figure ? `; ${figure.label} ${sayShare(figure.share)}` : ""}.`;
      }),
      flagged ? `${flagged} flagged.` : "",
      earlier ? `${earlier} earlier swings left out.` : "",
    ],
    plot: ({ top, bottom }) => ({
      height: top + tall + bottom,
      marginLeft: margin.left,
      marginRight: margin.right,
      marginTop: top,
      marginBottom: bottom,
      x: { domain: [0, across], axis: null },
      y: { domain: [tall, 0], axis: null },
      marks: [
        Plot.link(lines, {
          x1: () => 0,
          x2: "to",
          y1: "y",
          y2: "y",
          stroke: line,
          ariaDescription: "base line",
        }),
        Plot.link(tens, {
          x1: "x",
          x2: "x",
          y1: "y",
          y2: (d: { y: number }) => d.y + 5,
          stroke: faintInk,
          ariaDescription: "every tenth",
        }),
        Plot.rect(bars, {
          x1: "x",
          x2: (d: { x: number }) => d.x + wide,
          y1: "y",
          y2: (d: { y: number; row: StripRow }) => d.y - bar.tall * bucketCodes[d.row.bucket!].height,
          fill: (d: { row: StripRow }) => (isFlagged(d.row) ? paper : codeOf.bucket(d.row.bucket).colour),
          stroke: (d: { row: StripRow }) => codeOf.bucket(d.row.bucket).colour,
          inset: 0.5,
          strokeWidth: 1.4,
          ...(options.tip ? {} : { title: "words" }),
          ariaDescription: "swings",
        } as Plot.RectOptions),
        Plot.dot(ticks, {
          x: (d: { x: number }) => d.x + wide / 2,
          y: (d: { y: number }) => d.y + 4,
          r: 1.5,
          fill: faintInk,
          title: "words",
          ariaDescription: "no bucket",
        }),
        Plot.text(names, {
          x: () => 0,
          y: "y",
          text: (d: { name: string }) => shorten(d.name, across, fontSize.label, true),
          textAnchor: "start",
          fontWeight: "bold",
          fill: ink,
          ariaDescription: "groups",
        }),
        ...names
          .filter((d) => d.figure)
          .map((d) => {
            const beside = textWidth(d.name, fontSize.label, true) + textWidth(d.figure) + 16 <= across;
            return Plot.text([d], {
              x: () => (beside ? textWidth(d.name, fontSize.label, true) + 16 : 0),
              y: () => (beside ? d.y : d.y + 15),
              text: "figure",
              textAnchor: "start",
              fill: ink,
              ariaDescription: "figure",
            });
          }),
        ...(options.tip
          ? [
              Plot.tip(
                cells,
                Plot.pointer({
                  x: (d: { x: number }) => d.x + wide / 2,
                  y: (d: { y: number }) => d.y - bar.tall / 2,
                  title: "words",
                  fontSize: fontSize.label,
                }),
              ),
            ]
          : []),
        ...(groups.size ? [] : [Plot.frame({ stroke: hairline }), emptyMark()]),
      ],
    }),
  });
}
