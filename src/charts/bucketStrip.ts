/** Swing by swing, in the order they were hit: one bar a swing, as high as the power kept, its colour the bucket. */
import * as Plot from "@observablehq/plot";
import { isDoubtful } from "../contact/flags.ts";
import { buckets, type EnrichedSwing } from "../swing/fields.ts";
import { isWellHit } from "../contact/bucket.ts";
import { codeOf, compose, emptyMark, widthOf, type ChartOptions, laidOut } from "./frame.ts";
import { flaggedWords, swingWords, tally, type SpokenSwing } from "./swings.ts";
import { accent, bucketCodes, faintInk, fontSize, hairline, ink, line, paper } from "./theme.ts";
import { count, number, sayShare, shorten, textWidth, type ShareInterval } from "./text.ts";
import { pointedTip } from "./tip.ts";

export type StripRow = SpokenSwing & Pick<EnrichedSwing, "session" | "drill" | "outcome" | "power_kept">;

/** A figure to stand beside a group's name, as `src/stats` gives it: "clean or flush", with its interval. */
export interface StripFigure {
  /** The group it belongs to: its name as `groupName` gives it. */
  readonly group: string;
  readonly label: string;
  readonly share: ShareInterval;
  /** Why there is no share, where none of the group can be judged. */
  readonly reason?: string | undefined;
}

/** "clean or flush 24% (31 of 129; 17–32%)", or why there is none. */
const toldOf = ({ label, share, reason = "no ball has a bucket" }: StripFigure): string =>
  share.share === null ? `${label}: ${reason}` : `${label} ${sayShare(share)}`;

export interface BucketStripOptions extends ChartOptions {
  /** The name of the group a row belongs to; session and drill when absent. Groups stand as their first rows do. */
  readonly groupName?: (row: StripRow) => string;
  readonly figures?: readonly StripFigure[];
  /** Draws at most this many swings, the last ones: the strip grows with them. */
  readonly most?: number;
}

const bar = { least: 9, most: 15, tall: 40 } as const;
/** A miss and a foul leave a foot on the line, px high. */
const foot = 3.5;
/** The most that a bar shows: a little over the ceiling, which a good swing may pass. */
const mostPower = 1.06;
/** px: between the lines of one group, below a group, its name's height, a figure's own line, and beside. */
const [lineGap, groupGap, nameHeight, toldHeight, besideGap] = [16, 16, 28, 15, 20];

/** From this width, px, there is room for two columns. */
const twoColumns = 600;

interface Group {
  readonly heading: string;
  readonly told: string;
  /** Where the figure stands from the name, px. */
  readonly toldAt: readonly [number, number];
  readonly rows: readonly StripRow[];
  readonly nameTall: number;
  readonly tall: number;
}

/** How high a swing's bar stands, px. */
const heightOf = ({ power_kept: power, bucket }: StripRow): number =>
  Math.max(
    foot,
    bar.tall * (power === null ? bucketCodes[bucket!].height : Math.min(power, mostPower) / mostPower),
  );

/** The name of a row's group: its session and its drill. */
const sessionAndDrill = (row: Pick<EnrichedSwing, "session" | "drill">): string =>
  [row.session, row.drill].filter(Boolean).join(" · ") || "no session named";

/**
 * The swings of each group from left to right in the order given, as bars: as high as the power kept (as its bucket,
 * where that is unknown), filled for clean or flush. A miss is a foot in the accent's colour, a foul a hollow one; a
 * ball in play without a bucket is a dot below the line.
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
  // On a wide page groups of few swings stand in two columns.
  const most10 = Math.ceil([...groups.values()].reduce((m, g) => Math.max(m, g.length), 1) / 10) * 10;
  const half = (across - besideGap) / 2;
  const columns = width >= twoColumns && groups.size > 1 && most10 * bar.least <= half ? 2 : 1;
  const room = columns === 2 ? half : across;
  const step = Math.max(bar.least, Math.min(bar.most, Math.floor(room / most10)));
  const wide = step - 2;
  // Tens of swings to a line, so that the marks at every tenth stand below each other.
  const perLine = Math.max(10, Math.floor(room / step / 10) * 10);
  const laid = [...groups].map(([name, group]): Group => {
    const figure = figures.find((f) => f.group === name);
    const n = ` · ${count(group.length, "swing")}`;
    // A name may be cut, its count not.
    const heading = shorten(name, room - textWidth(n, fontSize.label, true), fontSize.label, true) + n;
    const told = figure ? toldOf(figure) : "";
    const named = textWidth(heading, fontSize.label, true);
    const beside = told === "" || named + besideGap + textWidth(told) <= room;
    const downs = Math.ceil(group.length / perLine);
    const nameTall = nameHeight + (beside ? 0 : toldHeight);
    return {
      heading,
      told,
      toldAt: beside ? [named + besideGap, 0] : [0, toldHeight],
      rows: group,
      nameTall,
      tall: nameTall + downs * bar.tall + (downs - 1) * lineGap + groupGap,
    };
  });
  const cells: { x: number; y: number; row: StripRow; words: string }[] = [];
  const names: { x: number; y: number; text: string; bold: boolean }[] = [];
  const lines: { from: number; to: number; y: number }[] = [];
  const tens: { x: number; y: number }[] = [];
  let [y, rowTall] = [0, 0];
  for (const [k, group] of laid.entries()) {
    if (k % columns === 0) [y, rowTall] = [y + rowTall, 0];
    const left = (k % columns) * (room + besideGap);
    names.push({ x: left, y: y + 14, text: group.heading, bold: true });
    if (group.told)
      names.push({ x: left + group.toldAt[0], y: y + 14 + group.toldAt[1], text: group.told, bold: false });
    group.rows.forEach((row, i) => {
      const [column, down] = [i % perLine, Math.floor(i / perLine)];
      const base = y + group.nameTall + (down + 1) * bar.tall + down * lineGap;
      if (column === 0)
        lines.push({ from: left, to: left + Math.min(perLine, group.rows.length - i) * step, y: base });
      if (column % 10 === 9) tens.push({ x: left + (column + 1) * step - 1, y: base });
      const words = swingWords(row, options.units) || row.outcome || "unknown";
      cells.push({ x: left + column * step + 1, y: base, row, words: `${i + 1}: ${words}` });
    });
    rowTall = Math.max(rowTall, group.tall);
  }
  y += rowTall;
  const tall = groups.size ? Math.ceil(y) : 90;

  const bars = cells.filter(({ row }) => row.bucket !== null);
  const feet = cells.filter(
    ({ row }) => row.bucket === null && (row.outcome === "miss" || row.outcome === "foul"),
  );
  const ticks = cells.filter((cell) => cell.row.bucket === null && !feet.includes(cell));
  const flagged = drawn.filter(isDoubtful).length;
  const earlier = taken.length - drawn.length;

  return compose(options, {
    kind: "bucket-strip",
    balls: bars.map(({ row }) => row),
    title: "Swing by swing",
    subtitle: [count(drawn.length, "swing"), ...flaggedWords(drawn)],
    key: buckets.map((name) => ({
      label: name,
      swatch: {
        fill: isWellHit({ bucket: name }) ? bucketCodes[name].colour : paper,
        stroke: bucketCodes[name].colour,
        height: bucketCodes[name].height,
      },
    })),
    notes: [
      "In the order hit, a mark after every tenth. Height: how much of the swing's own power reached the ball; filled: clean or flush.",
      ...(feet.length ? ["A foot on the line: missed; a hollow one: foul."] : []),
      ...(ticks.length ? ["A dot below the line: no bucket."] : []),
      ...(earlier
        ? [`The last ${number(drawn.length)} swings; ${count(earlier, "earlier one")} not drawn.`]
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
        return `${name}: ${said}${figure ? `; ${toldOf(figure)}` : ""}.`;
      }),
      flagged ? `${flagged} flagged.` : "",
      earlier ? `${earlier} earlier swings left out.` : "",
    ],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain: [0, across], axis: null },
      y: { domain: [tall, 0], axis: null },
      marks: [
        Plot.link(lines, {
          x1: "from",
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
          y2: (d: { y: number; row: StripRow }) => d.y - heightOf(d.row),
          fill: (d: { row: StripRow }) => (isWellHit(d.row) ? codeOf.bucket(d.row.bucket).colour : paper),
          stroke: (d: { row: StripRow }) => codeOf.bucket(d.row.bucket).colour,
          inset: 0.5,
          strokeWidth: 1.4,
          ...(options.tip ? {} : { title: "words" }),
          ariaDescription: "swings",
        } as Plot.RectOptions),
        Plot.rect(feet, {
          x1: "x",
          x2: (d: { x: number }) => d.x + wide,
          y1: "y",
          y2: (d: { y: number }) => d.y - foot,
          fill: (d: { row: StripRow }) => (d.row.outcome === "miss" ? accent : paper),
          stroke: (d: { row: StripRow }) => (d.row.outcome === "miss" ? accent : faintInk),
          inset: 0.5,
          strokeWidth: 1,
          title: "words",
          ariaDescription: "missed or foul",
        } as Plot.RectOptions),
        Plot.dot(
          bars.filter(({ row }) => isDoubtful(row)),
          {
            x: (d: { x: number }) => d.x + wide / 2,
            y: (d: { y: number; row: StripRow }) => d.y - heightOf(d.row) - 5,
            r: 2.5,
            stroke: ink,
            strokeWidth: 0.9,
            ariaDescription: "in doubt",
          },
        ),
        Plot.dot(ticks, {
          x: (d: { x: number }) => d.x + wide / 2,
          y: (d: { y: number }) => d.y + 4,
          r: 1.5,
          fill: faintInk,
          title: "words",
          ariaDescription: "no bucket",
        }),
        ...[true, false].map((bold) =>
          Plot.text(
            names.filter((d) => d.bold === bold),
            {
              x: "x",
              y: "y",
              text: "text",
              textAnchor: "start",
              fontWeight: bold ? "bold" : "normal",
              fill: ink,
              ariaDescription: bold ? "groups" : "figures",
            },
          ),
        ),
        ...(options.tip
          ? [
              pointedTip(
                cells,
                {
                  x: (d) => d.x + wide / 2,
                  y: (d) => d.y - bar.tall / 2,
                  title: "words",
                },
                width,
              ),
            ]
          : []),
        ...(groups.size ? [] : [Plot.frame({ stroke: hairline }), emptyMark()]),
      ],
    }),
  });
}
