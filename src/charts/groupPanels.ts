/** A group of hitters, a line each, and a few figures of every one: small panels side by side, each on one scale. */
import * as Plot from "@observablehq/plot";
import { largest } from "../swing/lists.ts";
import type { UnitName } from "../units/index.ts";
import { compose, emptyMark, laidOut, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import { count, number, shorten, wrap, textWidth } from "./text.ts";
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

interface Ranged {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** One hitter's line. */
export interface GroupLine {
  readonly hitter: string;
  /** What the hitter did, in few words: "55 swings". */
  readonly did: string;
}

/** One panel: a figure of every hitter. */
export interface GroupPanel {
  readonly title: string;
  readonly unit: UnitName;
  /** In the order of the lines. */
  readonly cells: readonly {
    readonly count: string;
    readonly own: number | null;
    readonly shown: Ranged | null;
  }[];
  readonly mean: Ranged | null;
}

/** So many lines are drawn closer together, so that thirty stand on one printed page. */
const many = 14;
const gap = 16;
const axisTall = 24;

/**
 * Hitters line by line, in the order given. Hollow circle: the hitter's own figure. Diamond and line: pooled with the
 * group, with its 95 % interval. Dashed: the group's mean. On a phone two panels stand side by side, the others below them.
 * @param lines hitters, as they should stand
 * @param panels figures, each with a cell for every line
 */
export function groupPanels(
  lines: readonly GroupLine[],
  panels: readonly GroupPanel[],
  options: ChartOptions = {},
): SVGSVGElement {
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const names = phone ? 92 : 106;
  const tall = lines.length > many ? 15 : 25;
  const did = phone ? 0 : 76;
  const left = names + did;
  const across = Math.max(1, phone ? Math.min(2, panels.length) : panels.length);
  const panelWidth = (width - left - 8 - (across - 1) * gap) / across;
  const titled = panels.map((panel) =>
    wrap(
      [panel.title, scaleOf(panel, options).unit].filter(Boolean).join(", "),
      panelWidth,
      fontSize.small,
      true,
    ),
  );
  const titleTall =
    15 *
      largest(
        titled.map((pieces) => pieces.length),
        1,
      ) +
    6;
  const blockTall = titleTall + lines.length * tall + axisTall;
  const blocks = Math.ceil(Math.max(1, panels.length) / across);
  const whole = lines.length === 0 ? 90 : blocks * blockTall;
  const laid = panels.map((panel, at) => {
    const scale = scaleOf(panel, options);
    const x0 = left + (at % across) * (panelWidth + gap);
    const y0 = Math.floor(at / across) * blockTall;
    const x = (value: number): number =>
      x0 + Math.min(1, Math.max(0, (scale.turn(value) - scale.from) / (scale.to - scale.from))) * panelWidth;
    return { panel, scale, x0, y0, x, titles: titled[at]! };
  });
  const mid = (y0: number, i: number): number => y0 + titleTall + (i + 0.5) * tall;
  const cells = laid.flatMap(({ panel, x, y0, scale }) =>
    panel.cells.map((cell, i) => ({ ...cell, x, y: mid(y0, i), scale, hitter: lines[i]!.hitter, panel })),
  );
  const shown = cells.filter((c) => c.shown !== null);
  const ticks = laid.flatMap(({ scale, x0, y0 }) =>
    readable(
      scale.ticks.map((tick, i) => ({
        anchor: i === 0 ? "start" : i === scale.ticks.length - 1 ? "end" : "middle",
        x: x0 + ((tick - scale.from) / (scale.to - scale.from)) * panelWidth,
        y0: y0 + titleTall,
        text: scale.write(tick),
        nought: tick === 0 && scale.from < 0,
      })),
    ),
  );
  const said = (panel: GroupPanel, value: Ranged): string => {
    const { write, turn, unit } = scaleOf(panel, options);
    const of = (v: number): string => write(turn(v));
    return `${of(value.value)} (${of(value.low)} to ${of(value.high)})${unit === "%" ? unit : ` ${unit}`}`;
  };
  const rows = Array.from({ length: blocks }, (_, b) =>
    lines.map((l, i) => ({ ...l, y: mid(b * blockTall, i) })),
  ).flat();

  return compose(options, {
    kind: "group-panels",
    title: "Hitter by hitter",
    subtitle: lines.length === 0 ? [] : [count(lines.length, "hitter")],
    key:
      lines.length === 0
        ? []
        : [
            { label: "the hitter's own", code: unknownCode, hollow: true },
            {
              label: "pooled with the group, 95%",
              code: { colour: statement, shape: categoryCodes["line drive"].shape },
            },
          ],
    notes: panels.some(({ mean }) => mean !== null) ? ["Dashed: the group's mean."] : [],
    description:
      lines.length === 0
        ? ["Hitter by hitter: nobody to draw."]
        : [
            ...panels.flatMap((p) => (p.mean === null ? [] : [`${p.title}, group: ${said(p, p.mean)}.`])),
            ...lines.map(
              ({ hitter, did: what }, i) =>
                `${hitter}, ${what}: ${panels
                  .map((p) => {
                    const cell = p.cells[i]!;
                    return `${p.title.toLowerCase()} ${cell.count}${cell.shown === null ? "" : `, ${said(p, cell.shown)}`}`;
                  })
                  .join("; ")}.`,
            ),
          ],
    plot: (room) => ({
      ...laidOut({ left: 0, right: 0, top: 0, bottom: 4 }, whole, room),
      x: { domain: [0, width], axis: null },
      y: { domain: [whole, 0], axis: null },
      marks:
        lines.length === 0
          ? [Plot.frame({ stroke: hairline }), emptyMark("nobody to draw")]
          : [
              Plot.ruleY(rows, {
                y: (r: { y: number }) => r.y + tall / 2,
                stroke: hairline,
                ariaDescription: "between hitters",
              }),
              Plot.link(ticks, {
                x1: "x",
                x2: "x",
                y1: "y0",
                y2: (t: { y0: number }) => t.y0 + lines.length * tall,
                stroke: (t: { nought: boolean }) => (t.nought ? ink : hairline),
                strokeWidth: 1,
                ariaDescription: "scale",
              }),
              ...(["start", "middle", "end"] as const).map((anchor) =>
                Plot.text(
                  ticks.filter((t) => t.anchor === anchor),
                  {
                    x: "x",
                    y: (t: { y0: number }) => t.y0 + lines.length * tall + 11,
                    text: "text",
                    textAnchor: anchor,
                    fontSize: fontSize.small,
                    fill: faintInk,
                    ariaDescription: "scale in numbers",
                  },
                ),
              ),
              Plot.text(
                laid.flatMap(({ titles, x0, y0 }) =>
                  titles.map((text, i) => ({ text, x: x0, y: y0 + 10 + 15 * i })),
                ),
                {
                  x: "x",
                  y: "y",
                  text: "text",
                  textAnchor: "start",
                  fontSize: fontSize.small,
                  fontWeight: "bold",
                  fill: ink,
                  ariaDescription: "figures",
                },
              ),
              Plot.link(
                laid.filter(({ panel }) => panel.mean !== null),
                {
                  x1: (l: (typeof laid)[number]) => l.x(l.panel.mean!.value),
                  x2: (l: (typeof laid)[number]) => l.x(l.panel.mean!.value),
                  y1: (l: (typeof laid)[number]) => l.y0 + titleTall,
                  y2: (l: (typeof laid)[number]) => l.y0 + titleTall + lines.length * tall,
                  stroke: targetColour,
                  strokeWidth: 1.3,
                  strokeDasharray: "5 3",
                  ariaDescription: "group's mean",
                },
              ),
              Plot.link(shown, {
                x1: (c: (typeof cells)[number]) => c.x(c.shown!.low),
                x2: (c: (typeof cells)[number]) => c.x(c.shown!.high),
                y1: "y",
                y2: "y",
                stroke: statement,
                strokeWidth: 2,
                ariaDescription: "pooled intervals",
              }),
              Plot.dot(
                cells.filter(({ own }) => own !== null),
                {
                  x: (c: (typeof cells)[number]) => c.x(c.own!),
                  y: "y",
                  r: 4,
                  fill: paper,
                  stroke: faintInk,
                  strokeWidth: 1.4,
                  ariaDescription: "own figures",
                },
              ),
              Plot.dot(shown, {
                x: (c: (typeof cells)[number]) => c.x(c.shown!.value),
                y: "y",
                symbol: "diamond",
                r: 4.5,
                fill: statement,
                stroke: paper,
                title: (c: (typeof cells)[number]) =>
                  `${c.hitter}, ${c.panel.title.toLowerCase()}: ${c.count}, ${said(c.panel, c.shown!)}`,
                ariaDescription: "pooled figures",
              }),
              Plot.text(
                cells.filter(({ own }) => own === null),
                {
                  x: (c: (typeof cells)[number]) => c.x(-Infinity) + 4,
                  y: "y",
                  text: () => "none",
                  textAnchor: "start",
                  fontSize: fontSize.small,
                  fill: faintInk,
                  ariaDescription: "without a figure",
                },
              ),
              Plot.text(rows, {
                x: () => 4,
                y: "y",
                text: (r: GroupLine) => shorten(r.hitter, names - 10, fontSize.label),
                textAnchor: "start",
                fill: ink,
                ariaDescription: "hitters",
              }),
              ...(did === 0
                ? []
                : [
                    Plot.text(rows, {
                      x: () => names,
                      y: "y",
                      text: (r: GroupLine) => shorten(r.did, did - 8, fontSize.small),
                      textAnchor: "start",
                      fontSize: fontSize.small,
                      fill: faintInk,
                      ariaDescription: "what they did",
                    }),
                  ]),
              ...laid.map(({ x0, y0 }) =>
                Plot.rect([0], {
                  x1: () => x0,
                  x2: () => x0 + panelWidth,
                  y1: () => y0 + titleTall,
                  y2: () => y0 + titleTall + lines.length * tall,
                  stroke: line,
                  fill: "none",
                  ariaDescription: "panel",
                }),
              ),
            ],
    }),
  });
}

/** A panel's scale: shares from none to all, anything else over what the panel takes up, with nought. */
function scaleOf(panel: GroupPanel, options: ChartOptions) {
  if (panel.unit === "share")
    return {
      unit: "%",
      turn: (v: number) => 100 * v,
      from: 0,
      to: 100,
      ticks: [0, 50, 100],
      write: (v: number) => number(v),
    };
  const { speed } = measuresOf(options);
  const turn = panel.unit === "mph" ? speed.from : (v: number): number => v;
  let [from, to] = [0, 0];
  for (const { own, shown } of panel.cells)
    for (const value of [own, shown?.low ?? null, shown?.high ?? null])
      if (value !== null) [from, to] = [Math.min(from, turn(value)), Math.max(to, turn(value))];
  const step = [1, 2, 5, 10, 20, 50].find((s) => (to - from) / s <= 2.5) ?? 100;
  [from, to] = [Math.floor(from / step) * step, Math.max(step, Math.ceil(to / step) * step)];
  const ticks = Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
  const write = (v: number): string => number(v, v % 1 === 0 ? 0 : 1);
  return { unit: panel.unit === "mph" ? speed.unit : "", turn, from, to, ticks, write };
}

/** A tick of a panel's scale, its number beside it. */
interface Tick {
  readonly anchor: string;
  readonly x: number;
  readonly text: string;
  readonly nought: boolean;
}

/** Room between two numbers of one scale, px. */
const betweenNumbers = 5;

/** The ticks, those without their number whose number would touch another's: the ends have theirs first, then nought. */
function readable<T extends Tick>(ticks: readonly T[]): T[] {
  const span = ({ anchor, x, text }: Tick): [number, number] => {
    const wide = textWidth(text, fontSize.small);
    const left = anchor === "start" ? x : anchor === "end" ? x - wide : x - wide / 2;
    return [left, left + wide];
  };
  const rank = (tick: T): number => (tick.anchor !== "middle" ? 0 : tick.nought ? 1 : 2);
  const kept: T[] = [];
  for (const tick of [...ticks].sort((a, b) => rank(a) - rank(b))) {
    const [left, right] = span(tick);
    if (
      kept.every((other) => {
        const [from, to] = span(other);
        return right + betweenNumbers <= from || to + betweenNumbers <= left;
      })
    )
      kept.push(tick);
  }
  return ticks.map((tick) => (kept.includes(tick) ? tick : { ...tick, text: "" }));
}
