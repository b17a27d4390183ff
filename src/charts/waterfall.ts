/** A gap as the parts it is made of: from one kind of work's figure, part by part, to the other's. */
import * as Plot from "@observablehq/plot";
import {
  axisBelow,
  compose,
  emptyFrame,
  measuresOf,
  widthOf,
  type ChartOptions,
  type Words,
  laidOut,
} from "./frame.ts";
import { faintInk, hairline, ink, paper, partCodes, statement } from "./theme.ts";
import { capital, signedNumber } from "../swing/words.ts";
import { count, number, wrap } from "./text.ts";
import { largest, smallest } from "../swing/lists.ts";

/** One part, as `src/gap/parts.ts` gives it. Without a value it is left in the last part. */
export interface WaterfallPart {
  readonly part: string;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Why there is no value, or no interval. */
  readonly reason: string | null;
}

/** One end: the mean of one kind of work. */
export interface WaterfallEnd {
  readonly name: string;
  readonly n: number;
  readonly mean: number | null;
}

/** What is drawn. */
export interface WaterfallRows {
  readonly from: WaterfallEnd;
  readonly to: WaterfallEnd;
  readonly parts: readonly WaterfallPart[];
  /** The whole gap. */
  readonly gap: Omit<WaterfallPart, "part">;
}

export interface WaterfallOptions extends ChartOptions {
  /** Unit of the figures: mph when not given. */
  readonly unit?: "mph" | "deg" | undefined;
  /** What is measured, with a capital: "Exit velocity". */
  readonly measure?: string | undefined;
}

const margin = { left: 8, right: 8, bottom: 40 };
const bar = { tall: 16, gap: 16, line: 15, head: 7 } as const;

/**
 * The first figure, each part as an arrow from where the last one ended, and the second figure. Parts that add are
 * solid and point right, parts that take away are hollow and point left; the line below a part is its interval.
 * @param rows parts that add up to the gap, in the order shown; null draws an empty frame
 */
export function waterfall(rows: WaterfallRows | null, options: WaterfallOptions = {}): SVGSVGElement {
  const { unit = "mph", measure = unit === "mph" ? "Exit velocity" : "Launch angle" } = options;
  const say = sayingOf(unit, options);
  const laid = layRows(rows === null ? [] : rowsOf(rows, say), say, widthOf(options));
  return compose(options, {
    kind: "waterfall",
    ...wordsOf(laid, measure, rows?.gap.reason ?? null),
    plot: (room) => ({
      ...laidOut(margin, laid.tall, room),
      x: { domain: laid.domain, label: null, axis: null },
      y: { domain: [laid.tall, 0], axis: null },
      marks:
        laid.rows.length === 0
          ? emptyFrame()
          : [
              Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 6 }),
              ...axisBelow(`${measure}, mean (${say.unit})`, 6),
              levelMark(laid),
              ...laid.parts.map((row) => arrowMark(row, laid)),
              ...intervalMarks(laid),
              endMark(laid),
              wordsMark(laid),
            ],
    }),
  });
}

/** How figures are shown and written. */
interface Saying {
  readonly unit: string;
  readonly turn: (value: number) => number;
  readonly plain: (value: number) => string;
  readonly signed: (value: number) => string;
  /** An interval behind its figure; empty for none. */
  readonly ranged: (figure: Pick<WaterfallPart, "low" | "high">) => string;
}

function sayingOf(unit: "mph" | "deg", options: ChartOptions): Saying {
  const { speed } = measuresOf(options);
  const [sign, turn] = unit === "mph" ? [` ${speed.unit}`, speed.from] : ["°", (v: number) => v];
  const signed = (v: number): string => signedNumber(turn(v), 1);
  return {
    unit: sign.trim(),
    turn,
    plain: (v) => `${number(turn(v), 1)}${sign}`,
    signed,
    ranged: ({ low, high }) => (low === null || high === null ? "" : ` (${signed(low)} to ${signed(high)})`),
  };
}

/** One row: an end, or a part with its bar between two levels. */
interface Row {
  readonly name: string;
  readonly words: string;
  readonly kind: "end" | "part" | "untold";
  /** Level before and after. */
  readonly before: number;
  readonly after: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** The ends and, between them, the parts: each begins where the last one ended. Empty without both ends. */
function rowsOf({ from, to, parts, gap }: WaterfallRows, say: Saying): Row[] {
  if (from.mean === null || to.mean === null) return [];
  const end = ({ name, n }: WaterfallEnd, mean: number, more: string): Row => ({
    name,
    words: `${say.plain(mean)}, ${count(n, "ball")} in play${more}`,
    kind: "end",
    before: mean,
    after: mean,
    low: null,
    high: null,
  });
  const rows = [end(from, from.mean, "")];
  for (const part of parts) rows.push(partRow(part, rows.at(-1)!.after, say));
  const more = gap.value === null ? "" : `; in all ${say.signed(gap.value)}${say.ranged(gap)}`;
  return [...rows, end(to, to.mean, more)];
}

function partRow({ part, value, low, high, reason }: WaterfallPart, before: number, say: Saying): Row {
  const name = capital(part);
  if (value === null) {
    const words = `can't be told (${reason ?? "not measured"}); it is in what is left`;
    return { name, words, kind: "untold", before, after: before, low, high };
  }
  const behind = say.ranged({ low, high }) || (reason === null ? "" : ` (${reason})`);
  return {
    name,
    words: `${say.signed(value)}${behind}`,
    kind: "part",
    before,
    after: before + value,
    low: low === null ? null : before + low,
    high: high === null ? null : before + high,
  };
}

interface LaidRow extends Row {
  readonly lines: readonly string[];
  /** Below the words. */
  readonly y: number;
}

/** Each row's words above its bar, px; levels as shown. */
function layRows(rows: readonly Row[], { turn }: Saying, width: number) {
  const across = width - margin.left - margin.right;
  let y = 0;
  const laid = rows.map((row): LaidRow => {
    const lines = wrap(`${row.name}: ${row.words}`, across - 20);
    y += lines.length * bar.line;
    const at = { ...row, lines, y };
    y += (row.kind === "untold" ? 0 : bar.tall) + bar.gap;
    return at;
  });
  const ends = laid.flatMap((r) => [r.before, r.after, ...(r.low === null ? [] : [r.low, r.high!])]);
  const [least, most] = [smallest(ends), largest(ends)];
  const room = Math.max(0.06 * (most - least), 0.5);
  const domain: [number, number] = rows.length > 0 ? [turn(least - room), turn(most + room)] : [0, 1];
  const parts = laid.filter((r) => r.kind === "part");
  return {
    rows: laid,
    parts,
    intervals: parts.filter((r) => r.low !== null && r.high !== null),
    turn,
    domain,
    perPx: (domain[1] - domain[0]) / across,
    tall: rows.length > 0 ? y : 90,
  };
}

type Laid = ReturnType<typeof layRows>;

function wordsOf({ rows, intervals }: Laid, measure: string, reason: string | null): Words {
  return {
    title: "What the gap is made of",
    subtitle: [`${measure}, mean`],
    key: [
      { label: "adds", swatch: { fill: partCodes.adds.fill, stroke: partCodes.adds.colour } },
      { label: "takes away", swatch: { fill: partCodes.takes.fill, stroke: partCodes.takes.colour } },
    ],
    notes:
      intervals.length > 0
        ? ["The thin line under a part: its 95% interval, from where the part begins."]
        : [],
    description: rows.length
      ? [`${measure} in parts.`, ...rows.map((r) => `${r.name}: ${r.words}.`)]
      : [`${measure} in parts: no swings to draw.`, reason ? `${capital(reason)}.` : ""],
  };
}

const middle = (r: LaidRow): number => r.y + bar.tall / 2;

/** From each row down to the next: the level it ends at. */
function levelMark({ rows, turn }: Laid): Plot.Markish {
  const drawn = rows.filter((r) => r.kind !== "untold");
  const at = (r: LaidRow): number => turn(r.after);
  return Plot.link(drawn.slice(0, -1), {
    x1: at,
    x2: at,
    y1: middle,
    y2: (r: LaidRow) => middle(drawn[drawn.indexOf(r) + 1]!),
    stroke: faintInk,
    strokeDasharray: "3 3",
    ariaDescription: "levels",
  });
}

function arrowMark({ before, after, y }: LaidRow, { turn, perPx }: Laid): Plot.Markish {
  const [a, b] = [turn(before), turn(after)];
  const head = Math.sign(b - a) * Math.min(bar.head * perPx, Math.abs(b - a));
  const code = after >= before ? partCodes.adds : partCodes.takes;
  const outline: [number, number][] = [
    [a, y],
    [b - head, y],
    [b, y + bar.tall / 2],
    [b - head, y + bar.tall],
    [a, y + bar.tall],
    [a, y],
  ];
  return Plot.line(outline, {
    fill: code.fill,
    stroke: code.colour,
    strokeWidth: 1.6,
    ariaDescription: "parts",
  });
}

/** A thin line under each part, with its ends. */
function intervalMarks({ intervals, turn }: Laid): Plot.Markish[] {
  const below = (r: LaidRow): number => r.y + bar.tall + 5;
  const look = { stroke: statement, strokeWidth: 1.6 };
  const [low, high] = [(r: LaidRow) => turn(r.low!), (r: LaidRow) => turn(r.high!)];
  const tip = (at: (r: LaidRow) => number, which: string): Plot.Markish =>
    Plot.link(intervals, {
      ...look,
      x1: at,
      x2: at,
      y1: (r: LaidRow) => below(r) - 3,
      y2: (r: LaidRow) => below(r) + 3,
      ariaDescription: `${which} ends`,
    });
  return [
    Plot.link(intervals, {
      ...look,
      x1: low,
      x2: high,
      y1: below,
      y2: below,
      ariaDescription: "intervals",
    }),
    tip(low, "low"),
    tip(high, "high"),
  ];
}

const endMark = ({ rows, turn }: Laid): Plot.Markish =>
  Plot.dot(
    rows.filter((r) => r.kind === "end"),
    {
      x: (r: LaidRow) => turn(r.after),
      y: middle,
      symbol: "diamond",
      r: 7,
      fill: statement,
      stroke: paper,
      ariaDescription: "means",
    },
  );

const wordsMark = ({ rows, domain }: Laid): Plot.Markish =>
  Plot.text(
    rows.flatMap((r) => r.lines.map((text, i) => ({ text, y: r.y - (r.lines.length - i) * bar.line }))),
    {
      x: () => domain[0],
      y: (t: { y: number }) => t.y + bar.line / 2 - 1,
      text: "text",
      textAnchor: "start",
      fill: ink,
      stroke: paper,
      strokeWidth: 4,
      ariaDescription: "words",
    },
  );
