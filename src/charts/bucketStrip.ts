/** Swing by swing, in the order they were hit: one bar a swing, as high as the power kept, its colour the bucket. */
import * as Plot from "@observablehq/plot";
import { groups as grouped } from "d3";
import { isDoubtful } from "../contact/flags.ts";
import { buckets, type EnrichedSwing } from "../swing/fields.ts";
import { isWellHit } from "../contact/bucket.ts";
import { largest } from "../swing/lists.ts";
import { codeOf, compose, emptyFrame, widthOf, type ChartOptions, type Words, laidOut } from "./frame.ts";
import { flaggedWords, swingWords, tally, type SpokenSwing } from "./swings.ts";
import { accent, bucketCodes, faintInk, ink, line, paper, fontSize } from "./theme.ts";
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

const margin = { left: 4, right: 4 };
/** From this width, px, there is room for two columns. */
const twoColumns = 600;

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
  const { groupName = sessionAndDrill, figures = [], most = 1200, tip = false } = options;
  const width = widthOf(options);
  const taken = rows.filter((r) => r.outcome !== "take");
  const drawn = taken.slice(-most);
  const groups = grouped(drawn, groupName).map(([name, swings]): Group => {
    const figure = figures.find((f) => f.group === name);
    return { name, swings, told: figure ? toldOf(figure) : "" };
  });
  const strip = layStrip(groups, width, options);
  return compose(options, {
    kind: "bucket-strip",
    balls: strip.bars.map(({ row }) => row),
    ...wordsOf(groups, drawn, taken.length - drawn.length, strip),
    plot: (room) => ({
      ...laidOut(margin, strip.tall, room),
      x: { domain: [0, width - margin.left - margin.right], axis: null },
      y: { domain: [strip.tall, 0], axis: null },
      marks: [
        ...lineMarks(strip),
        ...swingMarks(strip, tip),
        ...nameMarks(strip),
        ...(tip ? [tipMark(strip, width)] : []),
        ...(groups.length ? [] : emptyFrame()),
      ],
    }),
  });
}

/** Swings that stand together, and what their figure says; empty for none. */
interface Group {
  readonly name: string;
  readonly swings: readonly StripRow[];
  readonly told: string;
}

function wordsOf(
  groups: readonly Group[],
  drawn: readonly StripRow[],
  earlier: number,
  { feet, ticks }: Strip,
): Words {
  const flagged = drawn.filter(isDoubtful).length;
  const swings = count(drawn.length, "swing");
  return {
    title: "Swing by swing",
    subtitle: [swings, ...flaggedWords(drawn)],
    key: buckets.map((name) => {
      const { colour, height } = bucketCodes[name];
      const fill = isWellHit({ bucket: name }) ? colour : paper;
      return { label: name, swatch: { fill, stroke: colour, height } };
    }),
    notes: [
      "In the order hit, a mark after every tenth. Height: how much of the swing's own power reached the ball; filled: clean or flush.",
      ...(feet.length ? ["A foot on the line: missed; a hollow one: foul."] : []),
      ...(ticks.length ? ["A dot below the line: no bucket."] : []),
      ...(earlier
        ? [`The last ${number(drawn.length)} swings; ${count(earlier, "earlier one")} not drawn.`]
        : []),
    ],
    description: [
      drawn.length ? `Contact buckets in swing order, ${swings}.` : "Contact buckets: no swings to draw.",
      ...groups.map(({ name, swings, told }) => {
        const split = tally(
          swings.map((r) => r.bucket),
          buckets,
        );
        return `${name}: ${split}${told && `; ${told}`}.`;
      }),
      flagged ? `${flagged} flagged.` : "",
      earlier ? `${earlier} earlier swings left out.` : "",
    ],
  };
}

/** How wide a column, a swing and a line of swings are. */
interface Grid {
  readonly columns: 1 | 2;
  /** Of a column, px. */
  readonly room: number;
  /** From a bar to the next, px. */
  readonly step: number;
  /** Tens of swings, so that the marks at every tenth stand below each other. */
  readonly perLine: number;
}

/** On a wide page groups of few swings stand in two columns. */
function gridOf(groups: readonly Group[], width: number): Grid {
  const across = width - margin.left - margin.right;
  const lengths = groups.map(({ swings }) => swings.length);
  const mostTens = Math.ceil(largest(lengths, 1) / 10) * 10;
  const half = (across - besideGap) / 2;
  const columns = width >= twoColumns && groups.length > 1 && mostTens * bar.least <= half ? 2 : 1;
  const room = columns === 2 ? half : across;
  const step = Math.max(bar.least, Math.min(bar.most, Math.floor(room / mostTens)));
  return { columns, room, step, perLine: Math.max(10, Math.floor(room / step / 10) * 10) };
}

/** A group's name with its count, where its figure stands from that, px, and how high all of it is. */
function layGroup({ name, swings, told }: Group, { room, perLine }: Grid) {
  const n = ` · ${count(swings.length, "swing")}`;
  // A name may be cut, its count not.
  const heading = shorten(name, room - textWidth(n, fontSize.label, true), fontSize.label, true) + n;
  const named = textWidth(heading, fontSize.label, true);
  const beside = told === "" || named + besideGap + textWidth(told) <= room;
  const downs = Math.ceil(swings.length / perLine);
  const nameTall = nameHeight + (beside ? 0 : toldHeight);
  return {
    heading,
    toldAt: beside ? ([named + besideGap, 0] as const) : ([0, toldHeight] as const),
    nameTall,
    tall: nameTall + downs * bar.tall + (downs - 1) * lineGap + groupGap,
  };
}

/** A swing in its place: the left end of its foot, px. */
interface StripCell {
  readonly x: number;
  readonly y: number;
  readonly row: StripRow;
  readonly words: string;
}

/** Where everything stands, px. */
function layStrip(groups: readonly Group[], width: number, options: BucketStripOptions) {
  const grid = gridOf(groups, width);
  const { columns, room, step, perLine } = grid;
  const cells: StripCell[] = [];
  const names: { x: number; y: number; text: string; bold: boolean }[] = [];
  const lines: { from: number; to: number; y: number }[] = [];
  const tens: { x: number; y: number }[] = [];
  let [y, rowTall] = [0, 0];
  for (const [k, group] of groups.entries()) {
    const { heading, toldAt, nameTall, tall } = layGroup(group, grid);
    if (k % columns === 0) [y, rowTall] = [y + rowTall, 0];
    const left = (k % columns) * (room + besideGap);
    const { told, swings } = group;
    names.push({ x: left, y: y + 14, text: heading, bold: true });
    if (told) names.push({ x: left + toldAt[0], y: y + 14 + toldAt[1], text: told, bold: false });
    swings.forEach((row, i) => {
      const [column, down] = [i % perLine, Math.floor(i / perLine)];
      const base = y + nameTall + (down + 1) * bar.tall + down * lineGap;
      if (column === 0)
        lines.push({ from: left, to: left + Math.min(perLine, swings.length - i) * step, y: base });
      if (column % 10 === 9) tens.push({ x: left + (column + 1) * step - 1, y: base });
      const words = swingWords(row, options.units) || row.outcome || "unknown";
      cells.push({ x: left + column * step + 1, y: base, row, words: `${i + 1}: ${words}` });
    });
    rowTall = Math.max(rowTall, tall);
  }
  const unrated = cells.filter(({ row }) => row.bucket === null);
  const hasFoot = ({ row }: StripCell): boolean => row.outcome === "miss" || row.outcome === "foul";
  return {
    wide: step - 2,
    tall: groups.length ? Math.ceil(y + rowTall) : 90,
    names,
    lines,
    tens,
    cells,
    bars: cells.filter(({ row }) => row.bucket !== null),
    feet: unrated.filter(hasFoot),
    ticks: unrated.filter((cell) => !hasFoot(cell)),
  };
}

type Strip = ReturnType<typeof layStrip>;

/** The lines that swings stand on, with a mark after every tenth. */
const lineMarks = ({ lines, tens }: Strip): Plot.Markish[] => [
  Plot.link(lines, { x1: "from", x2: "to", y1: "y", y2: "y", stroke: line, ariaDescription: "base line" }),
  Plot.link(tens, {
    x1: "x",
    x2: "x",
    y1: "y",
    y2: (d: { y: number }) => d.y + 5,
    stroke: faintInk,
    ariaDescription: "every tenth",
  }),
];

/** Bars by bucket, feet for misses and fouls, rings for what is flagged, dots where there is no bucket. */
function swingMarks({ bars, feet, ticks, wide }: Strip, tip: boolean): Plot.Markish[] {
  const missed = ({ row }: StripCell): boolean => row.outcome === "miss";
  const span = { x1: "x", x2: (d: StripCell) => d.x + wide, y1: "y", inset: 0.5 };
  const middle = (d: StripCell): number => d.x + wide / 2;
  return [
    Plot.rect(bars, {
      ...span,
      y2: (d: StripCell) => d.y - heightOf(d.row),
      fill: ({ row }: StripCell) => (isWellHit(row) ? codeOf.bucket(row.bucket).colour : paper),
      stroke: ({ row }: StripCell) => codeOf.bucket(row.bucket).colour,
      strokeWidth: 1.4,
      ...(tip ? {} : { title: "words" }),
      ariaDescription: "swings",
    } as Plot.RectOptions),
    Plot.rect(feet, {
      ...span,
      y2: (d: StripCell) => d.y - foot,
      fill: (d: StripCell) => (missed(d) ? accent : paper),
      stroke: (d: StripCell) => (missed(d) ? accent : faintInk),
      strokeWidth: 1,
      title: "words",
      ariaDescription: "missed or foul",
    } as Plot.RectOptions),
    Plot.dot(
      bars.filter(({ row }) => isDoubtful(row)),
      {
        x: middle,
        y: (d: StripCell) => d.y - heightOf(d.row) - 5,
        r: 2.5,
        stroke: ink,
        strokeWidth: 0.9,
        ariaDescription: "in doubt",
      },
    ),
    Plot.dot(ticks, {
      x: middle,
      y: (d: StripCell) => d.y + 4,
      r: 1.5,
      fill: faintInk,
      title: "words",
      ariaDescription: "no bucket",
    }),
  ];
}

const nameMarks = ({ names }: Strip): Plot.Markish[] =>
  [true, false].map((bold) =>
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
  );

const tipMark = ({ cells, wide }: Strip, width: number): Plot.Markish =>
  pointedTip(cells, { x: (d) => d.x + wide / 2, y: (d) => d.y - bar.tall / 2, title: "words" }, width);
