/** Hitters by pitchers, a strip in each cell: what the pair came to, and what hitter and pitcher make one expect. */
import * as Plot from "@observablehq/plot";
import { byName } from "../swing/byName.ts";
import { largest } from "../swing/lists.ts";
import type { UnitName } from "../units/index.ts";
import {
  compose,
  emptyMark,
  laidOut,
  measuresOf,
  widthOf,
  type ChartOptions,
  type KeyEntry,
  type Words,
} from "./frame.ts";
import { count, number, shorten, wrap } from "./text.ts";
import {
  accent,
  categoryCodes,
  faintInk,
  fontSize,
  hairline,
  ink,
  line,
  paper,
  phoneWidth,
  statement,
} from "./theme.ts";

/** A pair's cell. */
export interface GridPair {
  readonly hitter: string;
  readonly pitcher: string;
  readonly n: number;
  /** Pooled toward the sum of hitter and pitcher; null: too few swings. */
  readonly pooled: { readonly value: number; readonly low: number; readonly high: number } | null;
  readonly expected: number | null;
  /** Whether it stands with all pairs looked at together. */
  readonly stands: "harder" | "easier" | null;
}

export interface PairGridOptions extends ChartOptions {
  /** What is measured, and its unit. */
  readonly measure?: string;
  readonly unit?: UnitName;
}

const row = { tall: 44, strip: 17, count: 33 } as const;
const gap = 12;
const right = 8;
const axisTall = 22;
const titleLine = 15;
const emptyTall = 90;

/** A pair where it stands: its strip's left end, its top, and where a value lies on it. */
interface Cell extends GridPair {
  readonly x0: number;
  readonly top: number;
  readonly x: (value: number) => number;
}

/** A text in its place. */
interface Placed {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

/** Where everything is drawn. */
interface Grid {
  readonly width: number;
  readonly left: number;
  readonly cellWide: number;
  /** The height of all blocks together. */
  readonly whole: number;
  readonly cells: readonly Cell[];
  /** The hitters' names, with the rule over each, once a block. */
  readonly names: readonly (Placed & { readonly rule: number })[];
  readonly heads: readonly Placed[];
  readonly axes: readonly (Placed & { readonly anchor: "start" | "end" })[];
  /** A pair's figure in words. */
  readonly about: (pair: GridPair) => string;
}

/**
 * A row a hitter, a column a pitcher, all strips on one scale. Diamond and line: the pair's figure, pooled, with its 95 %
 * interval. Upright stroke: what is expected. A square in the accent, with a word: a pair that stands.
 */
export function pairGrid(
  pairs: readonly GridPair[],
  { measure = "Clean or flush, of swings", unit = "share", ...options }: PairGridOptions = {},
): SVGSVGElement {
  const grid = layGrid(pairs, unit, options);
  const { width, whole } = grid;
  return compose(options, {
    kind: "pair-grid",
    ...wordsOf(grid, measure),
    plot: (room) => ({
      ...laidOut({ left: 0, right: 0, top: 0, bottom: 0 }, whole, room),
      x: { domain: [0, width], axis: null },
      y: { domain: [whole, 0], axis: null },
      marks:
        pairs.length === 0
          ? [Plot.frame({ stroke: hairline }), emptyMark()]
          : [...stripMarks(grid), ...pairMarks(grid), ...nameMarks(grid)],
    }),
  });
}

function layGrid(pairs: readonly GridPair[], unit: UnitName, options: ChartOptions): Grid {
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const hitters = [...new Set(pairs.map((p) => p.hitter))];
  const pitchers = [...new Set(pairs.map((p) => p.pitcher))].sort(byName);
  const left = phone ? 66 : 110;
  // On a phone so many pitchers stand side by side, the others below them.
  const across = Math.max(
    1,
    Math.min(pitchers.length, Math.floor((width - left - right + gap) / ((phone ? 70 : 80) + gap))),
  );
  const cellWide = (width - left - right - (across - 1) * gap) / across;
  const titles = pitchers.map((name) => wrap(name, cellWide, fontSize.small, true).slice(0, 2));
  const titleTall =
    titleLine *
      largest(
        titles.map((t) => t.length),
        1,
      ) +
    6;
  const rowsTall = hitters.length * row.tall;
  const blockTall = titleTall + rowsTall + axisTall;
  const blocks = Array.from({ length: Math.ceil(pitchers.length / across) }, (_, b) => b * blockTall);
  const place = (pitcher: string): { x0: number; y0: number } => {
    const at = pitchers.indexOf(pitcher);
    return { x0: left + (at % across) * (cellWide + gap), y0: Math.floor(at / across) * blockTall };
  };
  const scale = scaleOf(pairs, unit, options);
  const { from, to, turn, sign } = scale;
  return {
    width,
    left,
    cellWide,
    whole: pairs.length === 0 ? emptyTall : blocks.length * blockTall,
    cells: pairs.map((pair): Cell => {
      const { x0, y0 } = place(pair.pitcher);
      const x = (v: number): number =>
        x0 + Math.min(1, Math.max(0, (turn(v) - from) / Math.max(1e-9, to - from))) * cellWide;
      return { ...pair, x0, x, top: y0 + titleTall + hitters.indexOf(pair.hitter) * row.tall };
    }),
    names: blocks.flatMap((y0) =>
      hitters.map((hitter, i) => {
        const rule = y0 + titleTall + i * row.tall;
        return { x: 4, y: rule + row.strip, rule, text: shorten(hitter, left - 12, fontSize.label) };
      }),
    ),
    heads: pitchers.flatMap((pitcher, i) => {
      const { x0, y0 } = place(pitcher);
      return titles[i]!.map((line, k) => ({
        x: x0,
        y: y0 + 11 + titleLine * k,
        text: shorten(line, cellWide, fontSize.small, true),
      }));
    }),
    axes: pitchers.flatMap((pitcher) => {
      const { x0, y0 } = place(pitcher);
      const y = y0 + titleTall + rowsTall + 13;
      return [
        { x: x0, y, text: number(from, 0), anchor: "start" },
        { x: x0 + cellWide, y, text: `${number(to, 0)}${sign}`, anchor: "end" },
      ] as const;
    }),
    about: (pair) => aboutPair(pair, scale),
  };
}

/** One scale for all strips: its ends, and how a value is turned into its unit and written. */
interface Scale {
  readonly from: number;
  readonly to: number;
  readonly turn: (value: number) => number;
  readonly sign: string;
  readonly digits: 0 | 1;
}

function scaleOf(pairs: readonly GridPair[], unit: UnitName, options: ChartOptions): Scale {
  const { speed } = measuresOf(options);
  const isShare = unit !== "mph";
  const turn = isShare ? (v: number): number => 100 * v : speed.from;
  const ends = pairs.flatMap(({ pooled, expected }) => [
    ...(pooled === null ? [] : [turn(pooled.low), turn(pooled.high)]),
    ...(expected === null ? [] : [turn(expected)]),
  ]);
  const step = isShare ? 20 : 5;
  const up = Math.ceil(largest(ends, isShare ? 40 : 0) / step) * step;
  const to = isShare ? Math.min(100, up) : up;
  const least = ends.reduce((a, b) => Math.min(a, b), to);
  // Shares that are all large would lie together at one end of a scale from 0.
  const from = isShare && least < 50 ? 0 : Math.floor(least / step) * step;
  return { from, to, turn, ...(isShare ? { sign: "%", digits: 0 } : { sign: ` ${speed.unit}`, digits: 1 }) };
}

function aboutPair({ n, pooled, expected, stands }: GridPair, { turn, sign, digits }: Scale): string {
  const written = (v: number): string => `${number(turn(v), digits)}${sign}`;
  const swings = count(n, "swing");
  if (pooled === null) return `${swings}, too few`;
  const range = `${written(pooled.value)} (${written(pooled.low)} to ${written(pooled.high)})`;
  const beside = expected === null ? "" : `, expected ${written(expected)}`;
  return `${range}${beside}, ${swings}${stands === null ? "" : `; clearly ${stands}`}`;
}

const pairSaid = ({ hitter, pitcher }: GridPair, about: string): string =>
  `${hitter} against ${pitcher}: ${about}`;

function wordsOf({ cells, about }: Grid, measure: string): Words {
  const title = "Hitters against pitchers";
  if (cells.length === 0)
    return {
      title,
      subtitle: [measure],
      key: [],
      notes: [],
      description: [`${title}: no live pitch to draw.`],
    };
  const pooled: KeyEntry = {
    label: "the pair, pooled, with its 95% interval",
    code: { colour: statement, shape: categoryCodes["line drive"].shape },
  };
  const apart: KeyEntry = { label: "clearly apart", swatch: { fill: accent, stroke: accent } };
  return {
    title,
    subtitle: [measure],
    key: cells.some((c) => c.pooled !== null && c.stands !== null) ? [pooled, apart] : [pooled],
    notes: [
      "Upright stroke: what the hitter does against others and others against the pitcher make one expect.",
    ],
    description: [`${measure}.`, ...cells.map((c) => `${pairSaid(c, about(c))}.`)],
  };
}

const strip = (c: Cell): number => c.top + row.strip;

/** Rules between hitters, a scale in each cell. */
const stripMarks = ({ names, cells, width, cellWide }: Grid): Plot.Markish[] => [
  Plot.link(names, {
    x1: () => 4,
    x2: () => width - right,
    y1: (n: Grid["names"][number]) => n.rule,
    y2: (n: Grid["names"][number]) => n.rule,
    stroke: hairline,
    ariaDescription: "between hitters",
  }),
  Plot.link(cells, {
    x1: (c: Cell) => c.x0,
    x2: (c: Cell) => c.x0 + cellWide,
    y1: strip,
    y2: strip,
    stroke: line,
    ariaDescription: "scales",
  }),
];

/** Each pair's interval, what is expected, its figure, its count. */
function pairMarks({ cells, cellWide, about }: Grid): Plot.Markish[] {
  const known = cells.filter((c) => c.pooled !== null);
  const dot = {
    x: (c: Cell) => c.x(c.pooled!.value),
    y: strip,
    stroke: paper,
    title: (c: Cell) => pairSaid(c, about(c)),
  };
  return [
    Plot.link(known, {
      x1: (c: Cell) => c.x(c.pooled!.low),
      x2: (c: Cell) => c.x(c.pooled!.high),
      y1: strip,
      y2: strip,
      stroke: (c: Cell) => (c.stands === null ? statement : accent),
      strokeWidth: 3,
      ariaDescription: "intervals",
    }),
    Plot.link(
      known.filter((c) => c.expected !== null),
      {
        x1: (c: Cell) => c.x(c.expected!),
        x2: (c: Cell) => c.x(c.expected!),
        y1: (c: Cell) => strip(c) - 9,
        y2: (c: Cell) => strip(c) + 9,
        stroke: faintInk,
        strokeWidth: 1.6,
        ariaDescription: "expected",
      },
    ),
    Plot.dot(
      known.filter((c) => c.stands === null),
      { ...dot, symbol: "diamond", r: 5, fill: statement, ariaDescription: "pairs" },
    ),
    Plot.dot(
      known.filter((c) => c.stands !== null),
      { ...dot, symbol: "square", r: 6, fill: accent, ariaDescription: "pairs that stand" },
    ),
    Plot.text(cells, {
      ...words,
      x: (c: Cell) => c.x0,
      y: (c: Cell) => c.top + row.count + 2,
      text: ({ n, pooled, stands }: Cell) =>
        shorten(
          pooled === null ? `n ${n}, too few` : `n ${n}${stands === null ? "" : `, ${stands}`}`,
          cellWide,
          fontSize.small,
        ),
      fill: (c: Cell) => (c.stands === null ? faintInk : ink),
      ariaDescription: "counts",
    }),
  ];
}

const words = { textAnchor: "start", fontSize: fontSize.small, fill: faintInk } as const;
const placed = {
  x: (t: Placed) => t.x,
  y: (t: Placed) => t.y,
  text: (t: Placed) => t.text,
};

/** Hitters at the left, pitchers above, the ends of the scale below. */
const nameMarks = ({ names, heads, axes }: Grid): Plot.Markish[] => [
  Plot.text(names, {
    ...words,
    ...placed,
    fontSize: fontSize.label,
    fill: ink,
    ariaDescription: "hitters",
  }),
  Plot.text(heads, { ...words, ...placed, fontWeight: "bold", fill: ink, ariaDescription: "pitchers" }),
  ...(["start", "end"] as const).map((anchor) =>
    Plot.text(
      axes.filter((a) => a.anchor === anchor),
      { ...words, ...placed, textAnchor: anchor, ariaDescription: "ends of the scale" },
    ),
  ),
];
