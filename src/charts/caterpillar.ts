/** One gap across hitters: each one's own figure, and pooled with the group. */
import * as Plot from "@observablehq/plot";
import { max, min } from "d3";
import type { UnitName } from "../units/index.ts";
import { compose, emptyMark, measuresOf, widthOf, type ChartOptions, laidOut } from "./frame.ts";
import {
  categoryCodes,
  faintInk,
  fontSize,
  hairline,
  ink,
  line,
  paper,
  phoneWidth,
  statement,
  targetColour,
  unknownCode,
} from "./theme.ts";
import { signedNumber } from "../swing/words.ts";
import { count, number, shorten } from "./text.ts";

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
  const { unit = "mph", measure = "Exit velocity, mean", group = null, from = "tee", to = "live" } = options;
  const { chosen = null } = options;
  const { turn, sign } = shown(unit, options);
  const signed = (v: number): string => signedNumber(turn(v), 1);
  const said = ({ value, low, high }: Ranged): string =>
    value === null
      ? "unknown"
      : `${signed(value)}${sign} (${low === null || high === null ? "no interval" : `${signed(low)} to ${signed(high)}`})`;
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const margin = { left: rows.length === 0 ? 8 : phone ? 104 : 150, right: 10, top: 6, bottom: 42 };
  const across = width - margin.left - margin.right;
  const tall = Math.max(rows.length * row.tall, 90);
  const laid = rows.map((r, i) => ({ ...r, y: i * row.tall }));
  type Laid = (typeof laid)[number];
  const known = laid.filter((r) => r.raw.value !== null);
  const ends = [
    0,
    ...laid.flatMap(({ raw, pooled }) => [
      raw.value,
      raw.low,
      raw.high,
      pooled?.low ?? null,
      pooled?.high ?? null,
    ]),
    ...(group === null ? [] : [group.low, group.high]),
  ].filter((v): v is number => v !== null);
  const [least, most] = [min(ends)!, max(ends)!];
  const room = 0.05 * (most - least) || 1 / Math.abs(turn(1));
  const domain = [turn(least - room), turn(most + room)];
  const few = laid.filter((r) => r.warning !== null);
  // One sign a reason, in the order met: the words stand once, below.
  const reasons = [...new Set(few.map((r) => reasonOf(r.warning!)))];
  const marks = ["*", "†", "‡", "§"];
  const markOf = (r: CaterpillarRow): string =>
    r.warning === null ? "" : (marks[reasons.indexOf(reasonOf(r.warning))] ?? "*");
  const ranged = (pick: (r: CaterpillarRow) => Ranged | null) =>
    laid.filter((r) => {
      const figure = pick(r);
      return figure !== null && figure.low !== null && figure.high !== null;
    });
  const pooledRows = laid.filter((r) => r.pooled !== null);

  return compose(options, {
    kind: "caterpillar",
    title: "The gap, hitter by hitter",
    subtitle: [measure, `${to} less ${from}`, ...(rows.length ? [count(rows.length, "hitter")] : [])],
    key: rows.length
      ? [
          { label: "the hitter's own, with its 95% interval", code: unknownCode, hollow: true },
          {
            label: "pooled with the group",
            code: { colour: statement, shape: categoryCodes["line drive"].shape },
          },
          ...(group === null
            ? []
            : [{ label: "group", swatch: { fill: bandFill, stroke: targetColour } } as const]),
        ]
      : [],
    notes: reasons.map((reason, i) => `${marks[i] ?? "*"} ${reason}.`),
    description: rows.length
      ? [
          `${measure}, ${to} less ${from}, for ${count(rows.length, "hitter")}.`,
          group === null ? "" : `Group: ${said({ value: group.mean, low: group.low, high: group.high })}.`,
          ...rows.map(
            (r) =>
              `${r.hitter}, n ${r.n.from} and ${r.n.to}: ${r.raw.value === null ? (r.raw.reason ?? "unknown") : said(r.raw)}${r.pooled === null ? "" : `; pooled ${said(r.pooled)}`}${r.warning === null ? "" : `; ${r.warning}`}.`,
          ),
        ]
      : [`${measure}, hitter by hitter: no swings to draw.`],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain, label: null, axis: null },
      y: { domain: [tall, 0], axis: null },
      marks: rows.length
        ? [
            ...(group === null
              ? []
              : [
                  Plot.rect([group], {
                    x1: (g: { low: number }) => turn(g.low),
                    x2: (g: { high: number }) => turn(g.high),
                    y1: () => 0,
                    y2: () => tall,
                    fill: bandFill,
                    ariaDescription: "group's interval",
                  }),
                  Plot.ruleX([turn(group.mean)], {
                    stroke: targetColour,
                    strokeWidth: 1.4,
                    strokeDasharray: "6 3",
                    ariaDescription: "group's mean",
                  }),
                ]),
            Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: phone ? 4 : 7 }),
            Plot.ruleX([0], { stroke: ink, strokeWidth: 1.2, ariaDescription: "no gap" }),
            Plot.axisX({
              anchor: "bottom",
              ticks: phone ? 4 : 7,
              tickSize: 4,
              tickFormat: (v: number) =>
                v > 0 ? `+${number(v, v % 1 === 0 ? 0 : 1)}` : number(v, v % 1 === 0 ? 0 : 1),
              color: ink,
              fontSize: fontSize.label,
              label: null,
            }),
            Plot.text([`${to} − ${from} (${sign.trim()})`], {
              frameAnchor: "bottom",
              dy: 34,
              fill: ink,
              ariaDescription: "x axis",
            }),
            Plot.link(
              ranged((r) => r.raw),
              {
                x1: (r: Laid) => turn(r.raw.low!),
                x2: (r: Laid) => turn(r.raw.high!),
                y1: (r: Laid) => r.y + row.raw,
                y2: (r: Laid) => r.y + row.raw,
                stroke: faintInk,
                strokeWidth: 1.3,
                ariaDescription: "own intervals",
              },
            ),
            Plot.link(pooledRows, {
              x1: (r: Laid) => turn(r.pooled!.low),
              x2: (r: Laid) => turn(r.pooled!.high),
              y1: (r: Laid) => r.y + row.pooled,
              y2: (r: Laid) => r.y + row.pooled,
              stroke: statement,
              strokeWidth: 3,
              ariaDescription: "pooled intervals",
            }),
            Plot.dot(known, {
              x: (r: Laid) => turn(r.raw.value!),
              y: (r: Laid) => r.y + row.raw,
              r: 4.5,
              fill: paper,
              stroke: faintInk,
              strokeWidth: 1.6,
              title: (r: Laid) => `${r.hitter}: ${said(r.raw)}`,
              ariaDescription: "own figures",
            }),
            Plot.dot(pooledRows, {
              x: (r: Laid) => turn(r.pooled!.value),
              y: (r: Laid) => r.y + row.pooled,
              symbol: "diamond",
              r: 5.5,
              fill: statement,
              stroke: paper,
              title: (r: Laid) => `${r.hitter}: ${said(r.pooled!)}`,
              ariaDescription: "pooled figures",
            }),
            Plot.text(
              laid.filter((r) => r.raw.value === null),
              {
                x: () => domain[0]!,
                y: (r: Laid) => r.y + row.tall / 2,
                text: (r: Laid) => shorten(r.raw.reason ?? "no gap", across - 12, fontSize.small),
                dx: 6,
                textAnchor: "start",
                fontSize: fontSize.small,
                fill: faintInk,
                stroke: paper,
                strokeWidth: 4,
                ariaDescription: "without a gap",
              },
            ),
            ...[true, false].map((bold) =>
              Plot.text(
                laid.filter((r) => (r.hitter === chosen) === bold),
                {
                  x: () => domain[0]!,
                  y: (r: Laid) => r.y + row.name,
                  dx: 4 - margin.left,
                  text: (r: Laid) =>
                    `${shorten(r.hitter, margin.left - 26, fontSize.label, bold)}${bold ? " ▸" : ""}`,
                  textAnchor: "start",
                  fontWeight: bold ? "bold" : "normal",
                  fill: ink,
                  ariaDescription: "hitters",
                },
              ),
            ),
            Plot.text(laid, {
              x: () => domain[0]!,
              y: (r: Laid) => r.y + row.count,
              dx: 4 - margin.left,
              text: (r: Laid) => `n ${r.n.from} and ${r.n.to} ${markOf(r)}`.trim(),
              textAnchor: "start",
              fontSize: fontSize.small,
              fill: faintInk,
              ariaDescription: "counts",
            }),
            Plot.ruleY(
              laid.slice(1).map((r) => r.y - 3),
              { stroke: hairline, insetLeft: -margin.left + 4, ariaDescription: "between hitters" },
            ),
            Plot.frame({ stroke: line }),
          ]
        : [Plot.frame({ stroke: hairline }), emptyMark()],
    }),
  });
}

const bandFill = "#dbe8ee";

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
