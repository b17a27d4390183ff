/** A gap as the parts it is made of: from one kind of work's figure, part by part, to the other's. */
import * as Plot from "@observablehq/plot";
import { compose, emptyMark, measuresOf, widthOf, type ChartOptions, laidOut } from "./frame.ts";
import { faintInk, fontSize, hairline, ink, paper, partCodes, statement } from "./theme.ts";
import { signedNumber } from "../swing/words.ts";
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

/** One row: an end, or a part with its bar between two levels. */
interface Row {
  readonly name: string;
  readonly words: string;
  readonly lines: readonly string[];
  readonly kind: "end" | "part" | "untold";
  /** Level before and after. */
  readonly before: number;
  readonly after: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly y: number;
}

const bar = { tall: 16, gap: 16, line: 15, head: 7 } as const;

const capital = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

/**
 * The first figure, each part as an arrow from where the last one ended, and the second figure. Parts that add are
 * solid and point right, parts that take away are hollow and point left; the line below a part is its interval.
 * @param rows parts that add up to the gap, in the order shown; null draws an empty frame
 */
export function waterfall(rows: WaterfallRows | null, options: WaterfallOptions = {}): SVGSVGElement {
  const { unit = "mph", measure = unit === "mph" ? "Exit velocity" : "Launch angle" } = options;
  const { speed } = measuresOf(options);
  const turn = (v: number): number => (unit === "mph" ? speed.from(v) : v);
  const sign = unit === "mph" ? ` ${speed.unit}` : "°";
  const plain = (v: number): string => `${number(turn(v), 1)}${sign}`;
  const signed = (v: number): string => signedNumber(turn(v), 1);
  const ranged = ({ low, high }: Omit<WaterfallPart, "part" | "reason" | "value">): string =>
    low === null || high === null ? "" : ` (${signed(low)} to ${signed(high)})`;
  const width = widthOf(options);
  const margin = { left: 8, right: 8, bottom: 40 };
  const across = width - margin.left - margin.right;
  const laid: Row[] = [];
  let y = 0;
  let level = rows?.from.mean ?? 0;
  const put = (row: Omit<Row, "y" | "lines">): void => {
    const lines = wrap(`${row.name}: ${row.words}`, across - 20);
    y += lines.length * bar.line;
    laid.push({ ...row, lines, y });
    y += (row.kind === "untold" ? 0 : bar.tall) + bar.gap;
  };
  const whole = rows !== null && rows.from.mean !== null && rows.to.mean !== null;
  if (whole) {
    const { from, to, parts, gap } = rows;
    const end = (
      { name, mean, n }: WaterfallEnd,
      more: string,
    ): Pick<Row, "name" | "words" | "kind" | "low" | "high"> => ({
      name,
      words: `${plain(mean!)}, ${count(n, "ball")} in play${more}`,
      kind: "end",
      low: null,
      high: null,
    });
    put({ ...end(from, ""), before: level, after: level });
    for (const { part, value, low, high, reason } of parts) {
      if (value === null)
        put({
          name: capital(part),
          words: `can't be told (${reason ?? "not measured"}); it is in what is left`,
          kind: "untold",
          before: level,
          after: level,
          low,
          high,
        });
      else {
        put({
          name: capital(part),
          words: `${signed(value)}${ranged({ low, high }) || (reason === null ? "" : ` (${reason})`)}`,
          kind: "part",
          before: level,
          after: level + value,
          low: low === null ? null : level + low,
          high: high === null ? null : level + high,
        });
        level += value;
      }
    }
    const more = gap.value === null ? "" : `; in all ${signed(gap.value)}${ranged(gap)}`;
    put({ ...end(to, more), before: to.mean!, after: to.mean! });
  }
  const tall = laid.length > 0 ? y : 90;
  const ends = laid.flatMap((r) => [r.before, r.after, ...(r.low === null ? [] : [r.low, r.high!])]);
  const [least, most] = [smallest(ends), largest(ends)];
  const room = Math.max(0.06 * (most - least), 0.5);
  const domain = laid.length > 0 ? [turn(least - room), turn(most + room)] : [0, 1];
  const x = (v: number): number => turn(v);
  const px = (domain[1]! - domain[0]!) / across;
  const parts = laid.filter((r) => r.kind === "part");
  const drawn = laid.filter((r) => r.kind !== "untold");
  const middle = (r: Row): number => r.y + bar.tall / 2;
  const arrow = ({ before, after, y }: Row): [number, number][] => {
    const [a, b] = [x(before), x(after)];
    const head = Math.sign(b - a) * Math.min(bar.head * px, Math.abs(b - a));
    return [
      [a, y],
      [b - head, y],
      [b, y + bar.tall / 2],
      [b - head, y + bar.tall],
      [a, y + bar.tall],
      [a, y],
    ];
  };
  const intervals = parts.filter((r) => r.low !== null && r.high !== null);
  const below = (r: Row): number => r.y + bar.tall + 5;

  return compose(options, {
    kind: "waterfall",
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
    description: whole
      ? [`${measure} in parts.`, ...laid.map((r) => `${r.name}: ${r.words}.`)]
      : [`${measure} in parts: no swings to draw.`, rows?.gap.reason ? `${capital(rows.gap.reason)}.` : ""],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain, label: null, axis: null },
      y: { domain: [tall, 0], axis: null },
      marks:
        laid.length === 0
          ? [Plot.frame({ stroke: hairline }), emptyMark()]
          : [
              Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 6 }),
              Plot.axisX({
                anchor: "bottom",
                ticks: 6,
                tickSize: 4,
                color: ink,
                fontSize: fontSize.label,
                label: null,
              }),
              Plot.text([`${measure}, mean (${unit === "mph" ? speed.unit : "°"})`], {
                frameAnchor: "bottom",
                dy: 34,
                fill: ink,
                ariaDescription: "x axis",
              }),
              Plot.link(drawn.slice(0, -1), {
                x1: (r: Row) => x(r.after),
                x2: (r: Row) => x(r.after),
                y1: middle,
                y2: (r: Row) => middle(drawn[drawn.indexOf(r) + 1]!),
                stroke: faintInk,
                strokeDasharray: "3 3",
                ariaDescription: "levels",
              }),
              ...parts.map((r) => {
                const code = r.after >= r.before ? partCodes.adds : partCodes.takes;
                return Plot.line(arrow(r), {
                  fill: code.fill,
                  stroke: code.colour,
                  strokeWidth: 1.6,
                  ariaDescription: "parts",
                });
              }),
              Plot.link(intervals, {
                x1: (r: Row) => x(r.low!),
                x2: (r: Row) => x(r.high!),
                y1: below,
                y2: below,
                stroke: statement,
                strokeWidth: 1.6,
                ariaDescription: "intervals",
              }),
              ...(["low", "high"] as const).map((end) =>
                Plot.link(intervals, {
                  x1: (r: Row) => x(r[end]!),
                  x2: (r: Row) => x(r[end]!),
                  y1: (r: Row) => below(r) - 3,
                  y2: (r: Row) => below(r) + 3,
                  stroke: statement,
                  strokeWidth: 1.6,
                  ariaDescription: `${end} ends`,
                }),
              ),
              Plot.dot(
                laid.filter((r) => r.kind === "end"),
                {
                  x: (r: Row) => x(r.after),
                  y: middle,
                  symbol: "diamond",
                  r: 7,
                  fill: statement,
                  stroke: paper,
                  ariaDescription: "means",
                },
              ),
              Plot.text(
                laid.flatMap((r) =>
                  r.lines.map((text, i) => ({ text, y: r.y - (r.lines.length - i) * bar.line })),
                ),
                {
                  x: () => domain[0]!,
                  y: (t: { y: number }) => t.y + bar.line / 2 - 1,
                  text: "text",
                  textAnchor: "start",
                  fill: ink,
                  stroke: paper,
                  strokeWidth: 4,
                  ariaDescription: "words",
                },
              ),
            ],
    }),
  });
}
