/** How many swings a measure needs: reliability against swings, a row a measure. */
import * as Plot from "@observablehq/plot";
import {
  compose,
  emptyFrame,
  nameBelow,
  widthOf,
  type ChartOptions,
  type KeyEntry,
  type Words,
  laidOut,
} from "./frame.ts";
import {
  band,
  categoryCodes,
  faintInk,
  fontSize,
  hairline,
  ink,
  line,
  paper,
  statement,
  statementCode,
} from "./theme.ts";
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
const margin = { left: 34, right: 12, bottom: 42 };
const halvesCode = { colour: faintInk, shape: categoryCodes["ground ball"].shape };

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
  const laid = layRows(rows, widthOf(options));
  return compose(options, {
    kind: "reliability",
    ...wordsOf(rows, stable),
    plot: (room) => ({
      ...laidOut(margin, laid.tall, room),
      x: { type: "log", domain: [...span], label: null, axis: null },
      y: { domain: [laid.tall, 0], axis: null },
      marks: rows.length
        ? [
            ...axisMarks(laid),
            ...laid.drawn.flatMap((row) => curveMarks(row, stable)),
            scaleMark(laid, stable),
            ...neededMarks(laid, stable),
            wordsMark(laid),
          ]
        : emptyFrame(),
    }),
  });
}

const isTold = ({ curve }: ReliabilityRow): boolean => curve.length > 0;

function wordsOf(rows: readonly ReliabilityRow[], stable: number): Words {
  const drawn = rows.some(isTold);
  const hitters = rows.map((r) => r.hitters);
  const key: KeyEntry[] = [
    { label: "stable", code: statementCode },
    { label: "second opinion, from halves", code: halvesCode, hollow: true },
    { label: "95% interval", swatch: { fill: band, stroke: faintInk } },
  ];
  return {
    title: "How many swings until it stabilizes",
    subtitle: rows.length ? [count(largest(hitters, 0), "hitter")] : [],
    key: drawn ? key : [],
    notes: [
      `Stable: a reliability of ${stable}${drawn ? " (dashed line)" : ""}. Then ${number(stable * 100)}% of the variance between hitters' figures is between the hitters, and the rest chance.`,
    ],
    description: rows.length
      ? [
          `How many swings each measure needs until its reliability is ${stable}.`,
          ...rows.map(({ words, halves, hitters, swings }) => {
            const second =
              halves.needed === null ? "" : ` By halves: about ${count(halves.needed, "swing")}.`;
            return `${words}${second} ${count(hitters, "hitter")}, ${count(swings, "swing")}.`;
          }),
        ]
      : ["How many swings each measure needs: no swings to draw."],
  };
}

interface LaidRow extends ReliabilityRow {
  readonly lines: readonly string[];
  /** Below the words. */
  readonly y: number;
}

/** Each measure's words, and its curve below them where it can be told, px. */
function layRows(rows: readonly ReliabilityRow[], width: number) {
  let y = 0;
  const laid = rows.map((r): LaidRow => {
    const lines = wrap(r.words, width - 28);
    y += lines.length * row.line + 7;
    const at = { ...r, lines, y };
    y += (isTold(r) ? row.tall : 0) + row.gap;
    return at;
  });
  return { rows: laid, drawn: laid.filter(isTold), tall: rows.length > 0 ? y : 90 };
}

type Laid = ReturnType<typeof layRows>;

/** Where a reliability stands in a row, px. */
const height = (r: LaidRow, value: number): number => r.y + row.tall * (1 - value);

const axisMarks = ({ tall }: Laid): Plot.Markish[] => [
  Plot.text([...ticks], {
    x: (v: number) => v,
    y: () => tall,
    dy: 12,
    text: (v: number) => number(v),
    fill: ink,
    ariaDescription: "swings",
  }),
  nameBelow("Swings of each hitter"),
];

/** One measure: grid, interval, the lines at 0, 1 and where it is stable, and the reliability itself. */
function curveMarks(r: LaidRow, stable: number): Plot.Markish[] {
  const levels = (values: number[], look: Plot.LinkOptions): Plot.Markish =>
    Plot.link(values, {
      x1: () => span[0],
      x2: () => span[1],
      y1: (v: number) => height(r, v),
      y2: (v: number) => height(r, v),
      ...look,
    });
  return [
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
    levels([0, 1], { stroke: line, ariaDescription: "foot and head" }),
    levels([stable], { stroke: faintInk, strokeDasharray: "4 3", ariaDescription: "stable" }),
    Plot.line([...r.curve], {
      x: "swings",
      y: (c: { reliability: number }) => height(r, c.reliability),
      stroke: statement,
      strokeWidth: 2,
      ariaDescription: "reliability",
    }),
  ];
}

const scaleMark = ({ drawn }: Laid, stable: number): Plot.Markish =>
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
  );

/** Where each measure is stable, by both opinions; a number at the edge where that lies beyond it. */
function neededMarks({ drawn }: Laid, stable: number): Plot.Markish[] {
  const within = (swings: number | null): boolean => swings !== null && swings <= span[1];
  const needed = (r: LaidRow): number => r.needed.value!;
  const level = (r: LaidRow): number => height(r, stable);
  const crossed = drawn.filter((r) => within(r.needed.value));
  const beyond = drawn.filter((r) => r.needed.value !== null && !within(r.needed.value));
  return [
    Plot.link(crossed, {
      x1: needed,
      x2: needed,
      y1: level,
      y2: (r: LaidRow) => height(r, 0),
      stroke: statement,
      strokeWidth: 1,
      ariaDescription: "down to the swings",
    }),
    Plot.dot(
      drawn.filter((r) => within(r.halves.needed)),
      {
        x: (r: LaidRow) => r.halves.needed!,
        y: (r: LaidRow) => level(r) - 7,
        symbol: halvesCode.shape,
        r: 4.5,
        fill: paper,
        stroke: halvesCode.colour,
        strokeWidth: 1.6,
        ariaDescription: "second opinion",
      },
    ),
    Plot.dot(crossed, {
      x: needed,
      y: level,
      symbol: statementCode.shape,
      r: 5,
      fill: statement,
      stroke: paper,
      ariaDescription: "stable at",
    }),
    Plot.text(beyond, {
      x: () => span[1],
      y: level,
      dx: -4,
      dy: 9,
      text: (r: LaidRow) => `${number(needed(r))} →`,
      textAnchor: "end",
      fontSize: fontSize.small,
      fill: ink,
      stroke: paper,
      strokeWidth: 4,
      ariaDescription: "stable beyond the axis",
    }),
  ];
}

const wordsMark = ({ rows }: Laid): Plot.Markish =>
  Plot.text(
    rows.flatMap((r) =>
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
  );
