/** One gap across hitters: each one's own figure, and pooled with the group. */
import * as Plot from "@observablehq/plot";
import { max, min } from "d3";
import type { UnitName } from "../units/index.ts";
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
import {
  band,
  faintInk,
  fontSize,
  hairline,
  ink,
  line,
  paper,
  phoneWidth,
  statement,
  statementCode,
  targetColour,
  unknownCode,
} from "./theme.ts";
import { signedNumber } from "../swing/words.ts";
import { count, number, shorten, wrap } from "./text.ts";

interface Ranged {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** One hitter, as `src/gap/across.ts` gives it. */
export interface CaterpillarRow {
  readonly hitter: string;
  readonly n: { readonly from: number; readonly to: number };
  /** The hitter's own figure. */
  readonly raw: Ranged & { readonly reason: string | null };
  /** Pooled with the group. */
  readonly pooled: { readonly value: number; readonly low: number; readonly high: number } | null;
  /** Why the place in the order says nothing. */
  readonly warning: string | null;
}

export interface CaterpillarOptions extends ChartOptions {
  /** Unit of the figures; a share is written in points of a hundred. */
  readonly unit?: UnitName | undefined;
  /** What is measured: "Exit velocity, mean". */
  readonly measure?: string | undefined;
  /** The group's mean with its interval; null for no group. */
  readonly group?: { readonly mean: number; readonly low: number; readonly high: number } | null | undefined;
  /** The two kinds of work, in words: the axis says which is taken from which. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  /** The hitter the page is about: set in bold. */
  readonly chosen?: string | null | undefined;
}

const row = { tall: 42, name: 12, count: 26, raw: 12, pooled: 26 } as const;

/**
 * A line a hitter, in the order given: hollow circle and thin line the hitter's own gap with its 95 % interval,
 * diamond and thick line the same pooled with the group.
 * @param rows hitters, as they should stand
 */
export function caterpillar(
  rows: readonly CaterpillarRow[],
  options: CaterpillarOptions = {},
): SVGSVGElement {
  const { unit = "mph", from = "tee", to = "live", group = null } = options;
  const told = { ...shown(unit, options), ...footnotes(rows) };
  const laid = layRows(rows, told, options);
  const { sign } = told;
  return compose(options, {
    kind: "caterpillar",
    ...wordsOf(rows, told, options),
    plot: (room) => ({
      ...laidOut(laid.margin, laid.tall, room),
      x: { domain: laid.domain, label: null, axis: null },
      y: { domain: [laid.tall, 0], axis: null },
      marks: rows.length
        ? [
            ...(group === null ? [] : groupMarks(group, laid, told)),
            Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: laid.ticks }),
            Plot.ruleX([0], { stroke: ink, strokeWidth: 1.2, ariaDescription: "no gap" }),
            ...axisBelow(`${to} − ${from} (${sign.trim()})`, laid.ticks, tickWords),
            ...intervalMarks(laid),
            ...figureMarks(laid),
            withoutMark(laid),
            ...nameMarks(laid, options.chosen ?? null),
            Plot.ruleY(
              laid.rows.slice(1).map((r) => r.y - 3),
              { stroke: hairline, insetLeft: -laid.margin.left + 4, ariaDescription: "between hitters" },
            ),
            Plot.frame({ stroke: line }),
          ]
        : emptyFrame(),
    }),
  });
}

const tickWords = (v: number): string => `${v > 0 ? "+" : ""}${number(v, v % 1 === 0 ? 0 : 1)}`;

/** How a unit is shown, and each warning's sign. */
type Told = ReturnType<typeof shown> & ReturnType<typeof footnotes>;

/** A figure and its interval in words. */
function said({ value, low, high }: Ranged, { turn, sign }: Told): string {
  if (value === null) return "unknown";
  const signed = (v: number): string => signedNumber(turn(v), 1);
  const range = low === null || high === null ? "no interval" : `${signed(low)} to ${signed(high)}`;
  return `${signed(value)}${sign} (${range})`;
}

/** One sign a reason, in the order met: the words stand once, below. */
function footnotes(rows: readonly CaterpillarRow[]) {
  const signs = ["*", "†", "‡", "§"];
  const reasons = [...new Set(rows.flatMap((r) => (r.warning === null ? [] : [reasonOf(r.warning)])))];
  return {
    signOf: ({ warning }: CaterpillarRow): string =>
      warning === null ? "" : (signs[reasons.indexOf(reasonOf(warning))] ?? "*"),
    notes: reasons.map((reason, i) => `${signs[i] ?? "*"} ${reason}.`),
  };
}

function wordsOf(rows: readonly CaterpillarRow[], told: Told, options: CaterpillarOptions): Words {
  const { measure = "Exit velocity, mean", group = null, from = "tee", to = "live" } = options;
  const title = "The gap, hitter by hitter";
  const subtitle = [measure, `${to} less ${from}`];
  if (rows.length === 0)
    return {
      title,
      subtitle,
      key: [],
      notes: [],
      description: [`${measure}, hitter by hitter: no swings to draw.`],
    };
  const hitters = count(rows.length, "hitter");
  return {
    title,
    subtitle: [...subtitle, hitters],
    key: [
      { label: "the hitter's own, with its 95% interval", code: unknownCode, hollow: true },
      { label: "pooled with the group", code: statementCode },
      ...(group === null ? [] : [{ label: "group", swatch: { fill: band, stroke: targetColour } }]),
    ],
    notes: told.notes,
    description: [
      `${measure}, ${to} less ${from}, for ${hitters}.`,
      group === null ? "" : `Group: ${said({ ...group, value: group.mean }, told)}.`,
      ...rows.map(({ hitter, n, raw, pooled, warning }) => {
        const own = raw.value === null ? (raw.reason ?? "unknown") : said(raw, told);
        const shared = pooled === null ? "" : `; pooled ${said(pooled, told)}`;
        return `${hitter}, n ${n.from} and ${n.to}: ${own}${shared}${warning === null ? "" : `; ${warning}`}.`;
      }),
    ],
  };
}

/** The hitters' lines: figures as shown, and where each line begins, px. */
function layRows(rows: readonly CaterpillarRow[], told: Told, options: CaterpillarOptions) {
  const { turn } = told;
  const { group = null } = options;
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const margin = { left: rows.length === 0 ? 8 : phone ? 104 : 150, right: 10, top: 6, bottom: 42 };
  const ends = [
    0,
    ...rows.flatMap(({ raw, pooled }) => [raw.value, raw.low, raw.high, pooled?.low, pooled?.high]),
    ...(group === null ? [] : [group.low, group.high]),
  ].filter((v): v is number => v != null);
  const [least, most] = [min(ends)!, max(ends)!];
  const room = 0.05 * (most - least) || 1 / Math.abs(turn(1));
  const shownOr = (v: number | null): number | null => (v === null ? null : turn(v));
  const turned = ({ value, low, high }: Ranged) => ({
    value: shownOr(value),
    low: shownOr(low),
    high: shownOr(high),
  });
  return {
    rows: rows.map((r, i) => ({
      hitter: r.hitter,
      counts: `n ${r.n.from} and ${r.n.to} ${told.signOf(r)}`.trim(),
      reason: r.raw.reason ?? "no gap",
      y: i * row.tall,
      own: { ...turned(r.raw), words: `${r.hitter}: ${said(r.raw, told)}` },
      pooled: r.pooled && { ...turned(r.pooled), words: `${r.hitter}: ${said(r.pooled, told)}` },
    })),
    margin,
    ticks: phone ? 4 : 7,
    across: width - margin.left - margin.right,
    tall: Math.max(rows.length * row.tall, 90),
    domain: [turn(least - room), turn(most + room)] as [number, number],
  };
}

type Laid = ReturnType<typeof layRows>;
type LaidRow = Laid["rows"][number];

const groupMarks = (
  { mean, low, high }: NonNullable<CaterpillarOptions["group"]>,
  { tall }: Laid,
  { turn }: Told,
): Plot.Markish[] => [
  Plot.rect([0], {
    x1: () => turn(low),
    x2: () => turn(high),
    y1: () => 0,
    y2: () => tall,
    fill: band,
    ariaDescription: "group's interval",
  }),
  Plot.ruleX([turn(mean)], {
    stroke: targetColour,
    strokeWidth: 1.4,
    strokeDasharray: "6 3",
    ariaDescription: "group's mean",
  }),
];

/** The own figures and the pooled ones, each at its height in the line, those with a value or an interval. */
const ownOf = ({ rows }: Laid) => rows.map(({ own, y }) => ({ ...own, y: y + row.raw }));
const pooledOf = ({ rows }: Laid) =>
  rows.flatMap(({ pooled, y }) => (pooled === null ? [] : [{ ...pooled, y: y + row.pooled }]));

const intervalMarks = (laid: Laid): Plot.Markish[] => [
  Plot.link(
    ownOf(laid).filter(({ low, high }) => low !== null && high !== null),
    {
      x1: "low",
      x2: "high",
      y1: "y",
      y2: "y",
      stroke: faintInk,
      strokeWidth: 1.3,
      ariaDescription: "own intervals",
    },
  ),
  Plot.link(pooledOf(laid), {
    x1: "low",
    x2: "high",
    y1: "y",
    y2: "y",
    stroke: statement,
    strokeWidth: 3,
    ariaDescription: "pooled intervals",
  }),
];

const figureMarks = (laid: Laid): Plot.Markish[] => [
  Plot.dot(
    ownOf(laid).filter(({ value }) => value !== null),
    {
      x: "value",
      y: "y",
      r: 4.5,
      fill: paper,
      stroke: faintInk,
      strokeWidth: 1.6,
      title: "words",
      ariaDescription: "own figures",
    },
  ),
  Plot.dot(pooledOf(laid), {
    x: "value",
    y: "y",
    symbol: "diamond",
    r: 5.5,
    fill: statement,
    stroke: paper,
    title: "words",
    ariaDescription: "pooled figures",
  }),
];

const withoutMark = ({ rows, domain, across }: Laid): Plot.Markish =>
  Plot.text(
    rows.filter((r) => r.own.value === null),
    {
      x: () => domain[0],
      y: (r: LaidRow) => r.y + row.tall / 2,
      text: (r: LaidRow) => wrap(r.reason, across - 12, fontSize.small).join("\n"),
      dx: 6,
      textAnchor: "start",
      fontSize: fontSize.small,
      fill: faintInk,
      stroke: paper,
      strokeWidth: 4,
      ariaDescription: "without a gap",
    },
  );

/** The hitters' names, the chosen one in bold, and their counts. */
function nameMarks({ rows, domain, margin }: Laid, chosen: string | null): Plot.Markish[] {
  const beside = { x: () => domain[0], dx: 4 - margin.left, textAnchor: "start" } as const;
  return [
    ...[true, false].map((bold) =>
      Plot.text(
        rows.filter((r) => (r.hitter === chosen) === bold),
        {
          ...beside,
          y: (r: LaidRow) => r.y + row.name,
          text: (r: LaidRow) =>
            `${shorten(r.hitter, margin.left - 26, fontSize.label, bold)}${bold ? " ▸" : ""}`,
          fontWeight: bold ? "bold" : "normal",
          fill: ink,
          ariaDescription: "hitters",
        },
      ),
    ),
    Plot.text(rows, {
      ...beside,
      y: (r: LaidRow) => r.y + row.count,
      text: "counts",
      fontSize: fontSize.small,
      fill: faintInk,
      ariaDescription: "counts",
    }),
  ];
}

/** How a unit is shown: its numbers and the sign after them. */
function shown(unit: UnitName, options: ChartOptions): { turn: (v: number) => number; sign: string } {
  const { speed, distance } = measuresOf(options);
  if (unit === "mph") return { turn: speed.from, sign: ` ${speed.unit}` };
  if (unit === "ft") return { turn: distance.from, sign: ` ${distance.unit}` };
  if (unit === "share") return { turn: (v) => 100 * v, sign: " points" };
  return { turn: (v) => v, sign: unit === "deg" ? "°" : ` ${unit}` };
}

/** A warning without the counts, which stand beside the name. */
const reasonOf = (warning: string): string => warning.split(":")[0]!;
