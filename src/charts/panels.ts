/** Panels one below the other, each on a scale of its own: where they stand, and the marks that they share. */
import * as Plot from "@observablehq/plot";
import type { UnitName } from "../units/index.ts";
import { roundStep } from "./frame.ts";
import { number, shorten } from "./text.ts";
import { accent, faintInk, fontSize, hairline, ink, line as lineColour } from "./theme.ts";

/** How tall a panel is, with room for its words above it and a gap below it, px. */
export interface PanelSize {
  readonly tall: number;
  readonly head: number;
  readonly gap: number;
}

/** A panel's place, px downward. */
export interface PlacedPanel {
  readonly top: number;
  readonly foot: number;
  /** Where a value as it is shown stands. */
  readonly yOf: (value: number) => number;
  readonly yTicks: readonly number[];
}

/** The foot of so many panels, px. */
export const panelsFloor = (count: number, { tall, head, gap }: PanelSize): number =>
  Math.max(1, count) * (head + tall + gap) - gap;

/**
 * The place of one panel.
 * @param i its number from above, from 0 on
 * @param span the values that it covers, as shown
 * @param between least distance of two numbers of its axis, as a share of what it covers
 */
export function placePanel(
  i: number,
  { tall, head, gap }: PanelSize,
  span: { readonly from: number; readonly extent: number },
  between: number,
): PlacedPanel {
  const { from, extent } = span;
  const top = i * (head + tall + gap) + head;
  const step = roundStep(between * extent);
  const yTicks: number[] = [];
  for (let v = Math.ceil(from / step) * step; v <= from + extent; v += step) yTicks.push(v);
  return { top, foot: top + tall, yOf: (v) => top + tall * (1 - (v - from) / extent), yTicks };
}

/** A panel's grid with its numbers at the left edge. */
export const panelGrid = ({ yTicks, yOf }: PlacedPanel, left: number, unit: UnitName): Plot.Markish[] => [
  Plot.ruleY(yTicks, { y: yOf, stroke: hairline, ariaDescription: "grid" }),
  Plot.text(yTicks, {
    x: () => left,
    y: yOf,
    text: (v: number) => (unit === "share" ? `${number(v)}%` : number(v)),
    dx: -6,
    textAnchor: "end",
    fontSize: fontSize.label,
    fill: ink,
    ariaDescription: "y axis",
  }),
];

/**
 * What each panel says, above it, and its floor.
 * @param room px: of the head above a panel, of the margin left of it, and of the whole chart
 */
export const panelHeads = <Panel extends PlacedPanel>(
  panels: readonly Panel[],
  edges: readonly [number, number],
  says: (panel: Panel) => string,
  room: { readonly head: number; readonly left: number; readonly width: number },
): Plot.Markish[] => [
  Plot.text(panels, {
    x: () => edges[0],
    y: (l: Panel) => l.top - room.head / 2,
    dx: 4 - room.left,
    textAnchor: "start",
    text: (l: Panel) => shorten(says(l), room.width - 12, fontSize.label, true),
    fontWeight: "bold",
    fill: ink,
    ariaDescription: "what each panel says",
  }),
  Plot.link(panels, {
    x1: () => edges[0],
    x2: () => edges[1],
    y1: "foot",
    y2: "foot",
    stroke: lineColour,
    ariaDescription: "floors",
  }),
];

/**
 * A line with the band of its interval: solid where it stands, dashed where it could be chance.
 * @param of the points of the band and of the line, and where each stands
 * @param name what it is a line of
 */
export function bandedLine<Point>(
  of: {
    readonly band: readonly Point[];
    readonly line: readonly Point[];
    readonly x: (point: Point) => number;
    readonly low: (point: Point) => number;
    readonly high: (point: Point) => number;
    readonly y: (point: Point) => number;
  },
  stands: boolean,
  name: string,
): Plot.Markish[] {
  const colour = stands ? accent : faintInk;
  return [
    Plot.areaY(of.band, {
      x: of.x,
      y1: of.low,
      y2: of.high,
      fill: colour,
      fillOpacity: 0.14,
      ariaDescription: `interval of the ${name}`,
    }),
    Plot.line(of.line, {
      x: of.x,
      y: of.y,
      stroke: colour,
      strokeWidth: 2,
      ...(stands ? {} : { strokeDasharray: "5 4" }),
      ariaDescription: name,
    }),
  ];
}
