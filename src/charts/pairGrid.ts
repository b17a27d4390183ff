/** Hitters by pitchers, a strip in each cell: what the pair came to, and what hitter and pitcher make one expect. */
import * as Plot from "@observablehq/plot";
import { largest } from "../swing/lists.ts";
import type { UnitName } from "../units/index.ts";
import { compose, emptyMark, laidOut, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
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
const axisTall = 22;

/**
 * A row a hitter, a column a pitcher, all strips on one scale. Diamond and line: the pair's figure, pooled, with its 95 %
 * interval. Upright stroke: what is expected. A square in the accent, with a word: a pair that stands.
 */
export function pairGrid(
  pairs: readonly GridPair[],
  { measure = "Clean or flush, of swings", unit = "share", ...options }: PairGridOptions = {},
): SVGSVGElement {
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const hitters = [...new Set(pairs.map((p) => p.hitter))];
  const pitchers = [...new Set(pairs.map((p) => p.pitcher))].sort((a, b) => a.localeCompare(b, "en"));
  const left = phone ? 66 : 110;
  // On a phone so many pitchers stand side by side, the others below them.
  const across = Math.max(
    1,
    Math.min(pitchers.length, Math.floor((width - left - 8 + gap) / ((phone ? 70 : 80) + gap))),
  );
  const cellWide = (width - left - 8 - (across - 1) * gap) / across;
  const titles = pitchers.map((name) => wrap(name, cellWide, fontSize.small, true).slice(0, 2));
  const titleTall =
    15 *
      largest(
        titles.map((t) => t.length),
        1,
      ) +
    6;
  const blockTall = titleTall + hitters.length * row.tall + axisTall;
  const whole = pairs.length === 0 ? 90 : Math.ceil(pitchers.length / across) * blockTall;
  const { turn, sign, digits } = scaleOf(unit, options);
  const ends = pairs.flatMap(({ pooled, expected }) => [
    ...(pooled === null ? [] : [turn(pooled.low), turn(pooled.high)]),
    ...(expected === null ? [] : [turn(expected)]),
  ]);
  const to =
    unit === "share"
      ? Math.min(100, Math.ceil(largest(ends, 40) / 20) * 20)
      : Math.ceil(largest(ends, 0) / 5) * 5;
  const least = ends.reduce((a, b) => Math.min(a, b), to);
  const from =
    unit === "share"
      ? measure.startsWith("Power")
        ? Math.floor(least / 20) * 20
        : 0
      : Math.floor(least / 5) * 5;
  const written = (v: number): string => `${number(turn(v), digits)}${sign}`;
  const place = (pitcher: string): { x0: number; y0: number } => {
    const at = pitchers.indexOf(pitcher);
    return { x0: left + (at % across) * (cellWide + gap), y0: Math.floor(at / across) * blockTall };
  };
  const cells = pairs.map((pair) => {
    const { x0, y0 } = place(pair.pitcher);
    const x = (v: number): number =>
      x0 + Math.min(1, Math.max(0, (turn(v) - from) / Math.max(1e-9, to - from))) * cellWide;
    return { ...pair, x0, x, top: y0 + titleTall + hitters.indexOf(pair.hitter) * row.tall };
  });
  type Cell = (typeof cells)[number];
  const known = cells.filter((c) => c.pooled !== null);
  const expecting = known.filter((c) => c.expected !== null);
  const standing = known.filter((c) => c.stands !== null);
  const plain = known.filter((c) => c.stands === null);
  const heads = pitchers.flatMap((pitcher, i) => {
    const { x0, y0 } = place(pitcher);
    return titles[i]!.map((text, k) => ({
      x: x0,
      y: y0 + 11 + 15 * k,
      text: shorten(text, cellWide, fontSize.small, true),
    }));
  });
  const blocks = Array.from({ length: Math.ceil(pitchers.length / across) }, (_, b) => b * blockTall);
  const names = blocks.flatMap((y0) =>
    hitters.map((hitter, i) => ({
      hitter,
      y: y0 + titleTall + i * row.tall + row.strip,
      rule: y0 + titleTall + i * row.tall,
    })),
  );
  const axes = pitchers.flatMap((pitcher) => {
    const { x0, y0 } = place(pitcher);
    const y = y0 + titleTall + hitters.length * row.tall;
    return [
      { x: x0, y: y + 13, text: `${number(from, 0)}`, anchor: "start" },
      { x: x0 + cellWide, y: y + 13, text: `${number(to, 0)}${sign}`, anchor: "end" },
    ];
  });
  const about = (c: GridPair): string =>
    c.pooled === null
      ? `${count(c.n, "swing")}, too few`
      : `${written(c.pooled.value)} (${written(c.pooled.low)} to ${written(c.pooled.high)})${c.expected === null ? "" : `, expected ${written(c.expected)}`}, ${count(c.n, "swing")}${c.stands === null ? "" : `; clearly ${c.stands}`}`;
  const text = {
    textAnchor: "start",
    fontSize: fontSize.small,
    fill: faintInk,
  } as const;

  return compose(options, {
    kind: "pair-grid",
    title: "Hitters against pitchers",
    subtitle: [measure],
    key:
      pairs.length === 0
        ? []
        : [
            {
              label: "the pair, pooled, with its 95% interval",
              code: { colour: statement, shape: categoryCodes["line drive"].shape },
            },
            ...(standing.length === 0
              ? []
              : [{ label: "clearly apart", swatch: { fill: accent, stroke: accent } } as const]),
          ],
    notes:
      pairs.length === 0
        ? []
        : [
            "Upright stroke: what the hitter does against others and others against the pitcher make one expect.",
          ],
    description:
      pairs.length === 0
        ? ["Hitters against pitchers: no live pitch to draw."]
        : [`${measure}.`, ...pairs.map((c) => `${c.hitter} against ${c.pitcher}: ${about(c)}.`)],
    plot: (room) => ({
      ...laidOut({ left: 0, right: 0, top: 0, bottom: 0 }, whole, room),
      x: { domain: [0, width], axis: null },
      y: { domain: [whole, 0], axis: null },
      marks:
        pairs.length === 0
          ? [Plot.frame({ stroke: hairline }), emptyMark()]
          : [
              Plot.link(names, {
                x1: () => 4,
                x2: () => width - 8,
                y1: (r: (typeof names)[number]) => r.rule,
                y2: (r: (typeof names)[number]) => r.rule,
                stroke: hairline,
                ariaDescription: "between hitters",
              }),
              Plot.link(cells, {
                x1: (c: Cell) => c.x0,
                x2: (c: Cell) => c.x0 + cellWide,
                y1: (c: Cell) => c.top + row.strip,
                y2: (c: Cell) => c.top + row.strip,
                stroke: line,
                ariaDescription: "scales",
              }),
              Plot.link(known, {
                x1: (c: Cell) => c.x(c.pooled!.low),
                x2: (c: Cell) => c.x(c.pooled!.high),
                y1: (c: Cell) => c.top + row.strip,
                y2: (c: Cell) => c.top + row.strip,
                stroke: (c: Cell) => (c.stands === null ? statement : accent),
                strokeWidth: 3,
                ariaDescription: "intervals",
              }),
              Plot.link(expecting, {
                x1: (c: Cell) => c.x(c.expected!),
                x2: (c: Cell) => c.x(c.expected!),
                y1: (c: Cell) => c.top + row.strip - 9,
                y2: (c: Cell) => c.top + row.strip + 9,
                stroke: faintInk,
                strokeWidth: 1.6,
                ariaDescription: "expected",
              }),
              Plot.dot(plain, {
                x: (c: Cell) => c.x(c.pooled!.value),
                y: (c: Cell) => c.top + row.strip,
                symbol: "diamond",
                r: 5,
                fill: statement,
                stroke: paper,
                title: (c: Cell) => `${c.hitter} against ${c.pitcher}: ${about(c)}`,
                ariaDescription: "pairs",
              }),
              Plot.dot(standing, {
                x: (c: Cell) => c.x(c.pooled!.value),
                y: (c: Cell) => c.top + row.strip,
                symbol: "square",
                r: 6,
                fill: accent,
                stroke: paper,
                title: (c: Cell) => `${c.hitter} against ${c.pitcher}: ${about(c)}`,
                ariaDescription: "pairs that stand",
              }),
              Plot.text(cells, {
                ...text,
                x: (c: Cell) => c.x0,
                y: (c: Cell) => c.top + row.count + 2,
                text: (c: Cell) =>
                  shorten(
                    c.pooled === null
                      ? `n ${c.n}, too few`
                      : `n ${c.n}${c.stands === null ? "" : `, ${c.stands}`}`,
                    cellWide,
                    fontSize.small,
                  ),
                fill: (c: Cell) => (c.stands === null ? faintInk : ink),
                ariaDescription: "counts",
              }),
              Plot.text(names, {
                ...text,
                x: () => 4,
                y: (r: (typeof names)[number]) => r.y,
                text: (r: (typeof names)[number]) => shorten(r.hitter, left - 12, fontSize.label),
                fontSize: fontSize.label,
                fill: ink,
                ariaDescription: "hitters",
              }),
              Plot.text(heads, {
                ...text,
                x: (h: (typeof heads)[number]) => h.x,
                y: (h: (typeof heads)[number]) => h.y,
                text: (h: (typeof heads)[number]) => h.text,
                fontWeight: "bold",
                fill: ink,
                ariaDescription: "pitchers",
              }),
              ...(["start", "end"] as const).map((anchor) =>
                Plot.text(
                  axes.filter((a) => a.anchor === anchor),
                  {
                    ...text,
                    x: (a: (typeof axes)[number]) => a.x,
                    y: (a: (typeof axes)[number]) => a.y,
                    text: (a: (typeof axes)[number]) => a.text,
                    textAnchor: anchor,
                    ariaDescription: "ends of the scale",
                  },
                ),
              ),
            ],
    }),
  });
}

/** How a unit is shown: its numbers and the sign after them. */
function scaleOf(
  unit: UnitName,
  options: ChartOptions,
): { turn: (v: number) => number; sign: string; digits: 0 | 1 } {
  const { speed } = measuresOf(options);
  if (unit === "mph") return { turn: speed.from, sign: ` ${speed.unit}`, digits: 1 };
  return { turn: (v) => 100 * v, sign: "%", digits: 0 };
}
