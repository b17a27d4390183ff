/** A group of hitters, a line each, and a few figures of every one: small panels side by side, each on one scale. */
import * as Plot from "@observablehq/plot";
import { largest } from "../swing/lists.ts";
import type { UnitName } from "../units/index.ts";
import { compose, emptyFrame, laidOut, measuresOf, widthOf, type ChartOptions, type Words } from "./frame.ts";
import { count, number, shorten, wrap, textWidth } from "./text.ts";
import {
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
/** px: between panels, a panel's scale in numbers, a line of its title. */
const [gap, axisTall, titleLine] = [16, 24, 15];

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
  const scaled = panels.map((panel) => ({ panel, scale: scaleOf(panel, options) }));
  const group = layGroup(lines, scaled, widthOf(options));
  return compose(options, {
    kind: "group-panels",
    ...wordsOf(lines, scaled),
    plot: (room) => ({
      ...laidOut({ left: 0, right: 0, top: 0, bottom: 4 }, group.whole, room),
      x: { domain: [0, group.width], axis: null },
      y: { domain: [group.whole, 0], axis: null },
      marks:
        lines.length === 0
          ? emptyFrame("nobody to draw")
          : [
              ...scaleMarks(group),
              titleMark(group),
              meanMark(group),
              ...figureMarks(group),
              ...nameMarks(group),
              ...frameMarks(group),
            ],
    }),
  });
}

interface ScaledPanel {
  readonly panel: GroupPanel;
  readonly scale: Scale;
}

/** A figure and its interval, on a panel's scale and with its unit. */
function said({ write, turn, unit }: Scale, { value, low, high }: Ranged): string {
  const of = (v: number): string => write(turn(v));
  return `${of(value)} (${of(low)} to ${of(high)})${unit === "%" ? unit : ` ${unit}`}`;
}

function wordsOf(lines: readonly GroupLine[], panels: readonly ScaledPanel[]): Words {
  const title = "Hitter by hitter";
  const notes = panels.some(({ panel }) => panel.mean !== null) ? ["Dashed: the group's mean."] : [];
  if (lines.length === 0)
    return { title, subtitle: [], key: [], notes, description: [`${title}: nobody to draw.`] };
  const figureOf = ({ panel, scale }: ScaledPanel, i: number): string => {
    const { count, shown } = panel.cells[i]!;
    return `${panel.title.toLowerCase()} ${count}${shown === null ? "" : `, ${said(scale, shown)}`}`;
  };
  return {
    title,
    subtitle: [count(lines.length, "hitter")],
    key: [
      { label: "the hitter's own", code: unknownCode, hollow: true },
      { label: "pooled with the group, 95%", code: statementCode },
    ],
    notes,
    description: [
      ...panels.flatMap(({ panel: { title, mean }, scale }) =>
        mean === null ? [] : [`${title}, group: ${said(scale, mean)}.`],
      ),
      ...lines.map(
        ({ hitter, did }, i) => `${hitter}, ${did}: ${panels.map((p) => figureOf(p, i)).join("; ")}.`,
      ),
    ],
  };
}

/** Where everything stands, px: names and panels from left to right, hitters downward. */
function layGroup(lines: readonly GroupLine[], scaled: readonly ScaledPanel[], width: number) {
  const phone = width < phoneWidth;
  // The names are what a reader looks for: as wide as the longest, but never most of the picture.
  const longest = largest(
    lines.map(({ hitter }) => textWidth(hitter, fontSize.label) + 10),
    0,
  );
  const names = Math.ceil(Math.min(Math.max(phone ? 92 : 106, longest), (phone ? 0.28 : 0.24) * width));
  const did = phone ? 0 : 76;
  const tall = lines.length > many ? 15 : 25;
  const body = lines.length * tall;
  const across = Math.max(1, phone ? Math.min(2, scaled.length) : scaled.length);
  const panelWidth = (width - names - did - 8 - (across - 1) * gap) / across;
  const titles = scaled.map(({ panel, scale }) =>
    wrap([panel.title, scale.unit].filter(Boolean).join(", "), panelWidth, fontSize.small, true),
  );
  const mostLines = largest(
    titles.map((pieces) => pieces.length),
    1,
  );
  const titleTall = titleLine * mostLines + 6;
  const blockTall = titleTall + body + axisTall;
  const blocks = Math.ceil(Math.max(1, scaled.length) / across);
  const panels = scaled.map((one, at) => {
    const y0 = Math.floor(at / across) * blockTall;
    const left = names + did + (at % across) * (panelWidth + gap);
    const place = { left, right: left + panelWidth, y0, top: y0 + titleTall, foot: y0 + titleTall + body };
    return layPanel(one, place, lines, titles[at]!, tall);
  });
  const rows = Array.from({ length: blocks }, (_, b) =>
    lines.map((l, i) => ({ ...l, y: b * blockTall + titleTall + (i + 0.5) * tall })),
  ).flat();
  return { width, names, did, tall, rows, panels, whole: lines.length === 0 ? 90 : blocks * blockTall };
}

type Group = ReturnType<typeof layGroup>;

interface PanelPlace {
  readonly left: number;
  readonly right: number;
  /** Of the panel with its title, of its frame, and the frame's end. */
  readonly y0: number;
  readonly top: number;
  readonly foot: number;
}

function layPanel(
  { panel, scale }: ScaledPanel,
  place: PanelPlace,
  lines: readonly GroupLine[],
  titles: readonly string[],
  tall: number,
) {
  const { left, right, top, foot } = place;
  const along = (shown: number): number => (shown - scale.from) / (scale.to - scale.from);
  const x = (value: number): number =>
    left + Math.min(1, Math.max(0, along(scale.turn(value)))) * (right - left);
  const last = scale.ticks.length - 1;
  return {
    ...place,
    titles,
    mean: panel.mean && x(panel.mean.value),
    ticks: readable(
      scale.ticks.map((tick, i) => ({
        anchor: i === 0 ? "start" : i === last ? "end" : "middle",
        x: left + along(tick) * (right - left),
        top,
        foot,
        text: scale.write(tick),
        nought: tick === 0 && scale.from < 0,
      })),
    ),
    cells: panel.cells.map(({ count, own, shown }, i) => ({
      left,
      y: top + (i + 0.5) * tall,
      own: own === null ? null : x(own),
      shown: shown && { value: x(shown.value), low: x(shown.low), high: x(shown.high) },
      words: shown
        ? `${lines[i]!.hitter}, ${panel.title.toLowerCase()}: ${count}, ${said(scale, shown)}`
        : "",
    })),
  };
}

/** Lines between hitters, and each panel's ticks with their numbers below. */
function scaleMarks({ rows, panels, tall }: Group): Plot.Markish[] {
  const ticks = panels.flatMap((panel) => panel.ticks);
  type Mark = (typeof ticks)[number];
  return [
    Plot.ruleY(rows, {
      y: (r: { y: number }) => r.y + tall / 2,
      stroke: hairline,
      ariaDescription: "between hitters",
    }),
    Plot.link(ticks, {
      x1: "x",
      x2: "x",
      y1: "top",
      y2: "foot",
      stroke: (t: Mark) => (t.nought ? ink : hairline),
      strokeWidth: 1,
      ariaDescription: "scale",
    }),
    ...(["start", "middle", "end"] as const).map((textAnchor) =>
      Plot.text(
        ticks.filter((t) => t.anchor === textAnchor),
        {
          x: "x",
          y: (t: Mark) => t.foot + 11,
          text: "text",
          textAnchor,
          fontSize: fontSize.small,
          fill: faintInk,
          ariaDescription: "scale in numbers",
        },
      ),
    ),
  ];
}

const titleMark = ({ panels }: Group): Plot.Markish =>
  Plot.text(
    panels.flatMap(({ titles, left, y0 }) =>
      titles.map((text, i) => ({ text, x: left, y: y0 + 10 + titleLine * i })),
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
  );

const meanMark = ({ panels }: Group): Plot.Markish =>
  Plot.link(
    panels.filter(({ mean }) => mean !== null),
    {
      x1: "mean",
      x2: "mean",
      y1: "top",
      y2: "foot",
      stroke: targetColour,
      strokeWidth: 1.3,
      strokeDasharray: "5 3",
      ariaDescription: "group's mean",
    },
  );

/** Each hitter's figures: the own one, the pooled one with its interval, or that there is none. */
function figureMarks({ panels }: Group): Plot.Markish[] {
  const cells = panels.flatMap((panel) => panel.cells);
  const own = cells.filter((c) => c.own !== null);
  const shown = cells.flatMap((c) => (c.shown === null ? [] : [{ ...c.shown, y: c.y, words: c.words }]));
  return [
    Plot.link(shown, {
      x1: "low",
      x2: "high",
      y1: "y",
      y2: "y",
      stroke: statement,
      strokeWidth: 2,
      ariaDescription: "pooled intervals",
    }),
    Plot.dot(own, {
      x: "own",
      y: "y",
      r: 4,
      fill: paper,
      stroke: faintInk,
      strokeWidth: 1.4,
      ariaDescription: "own figures",
    }),
    Plot.dot(shown, {
      x: "value",
      y: "y",
      symbol: "diamond",
      r: 4.5,
      fill: statement,
      stroke: paper,
      title: "words",
      ariaDescription: "pooled figures",
    }),
    Plot.text(
      cells.filter((c) => c.own === null),
      {
        x: (c: { left: number }) => c.left + 4,
        y: "y",
        text: () => "none",
        textAnchor: "start",
        fontSize: fontSize.small,
        fill: faintInk,
        ariaDescription: "without a figure",
      },
    ),
  ];
}

/** The hitters' names, and what each did where there is room for it. */
const nameMarks = ({ rows, names, did }: Group): Plot.Markish[] => [
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
];

const frameMarks = ({ panels }: Group): Plot.Markish[] =>
  panels.map((panel) =>
    Plot.rect([panel], {
      x1: "left",
      x2: "right",
      y1: "top",
      y2: "foot",
      stroke: line,
      fill: "none",
      ariaDescription: "panel",
    }),
  );

/** How a panel's figures are shown: their unit, their numbers, and the span and ticks in those. */
interface Scale {
  readonly unit: string;
  readonly turn: (value: number) => number;
  readonly write: (shown: number) => string;
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

/** A panel's scale: shares from none to all, anything else over what the panel takes up, with nought. */
function scaleOf(panel: GroupPanel, options: ChartOptions): Scale {
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
