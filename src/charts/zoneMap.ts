/** Power kept in the nine cells of the zone, as the catcher sees them. */
import * as Plot from "@observablehq/plot";
import type { Cell } from "../field/zone.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { turnedWords } from "./swings.ts";
import { compose, widthOf, type ChartOptions } from "./frame.ts";
import { faintInk, fontSize, ink, line, paper, phoneWidth, powerSpan, powerTints } from "./theme.ts";
import { count, percent, percentRange, type Interval } from "./text.ts";

/** One cell, as `src/views/zone.ts` gives it. */
export type ZoneMapCell = Cell & { readonly n: number; readonly power_kept: Interval };

export interface ZoneMapOptions extends ChartOptions {
  /** The side the batter stands on; null for swings from both sides, inside then drawn on the left. */
  readonly bats?: "L" | "R" | null;
  /** The swings behind the cells: those that are corrected are counted under the title. */
  readonly swings?: readonly Pick<EnrichedSwing, "flags">[];
}

/** The tint of a place on the span of power kept, 0 to 1. */
const tint = (along: number): string =>
  powerTints[Math.min(powerTints.length - 1, Math.floor(along * powerTints.length))]!;
const heights = ["low", "middle", "high"] as const;
const sides = ["inside", "middle", "outside"] as const;

/**
 * The nine cells, each with the share of power kept there, how many swings, the interval in figures and on a
 * scale. A cell without swings says so.
 * @param cells the nine cells, in any order; one that is missing counts as empty
 */
export function zoneMap(cells: readonly ZoneMapCell[], options: ZoneMapOptions = {}): SVGSVGElement {
  const { bats = null, swings = [] } = options;
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const empty: Interval = { n: 0, value: null, low: null, high: null };
  const nine = ([2, 1, 0] as const).flatMap((row) =>
    ([0, 1, 2] as const).map((column): ZoneMapCell => {
      return (
        cells.find((c) => c.row === row && c.column === column) ?? { row, column, n: 0, power_kept: empty }
      );
    }),
  );
  const n = nine.reduce((sum, c) => sum + c.n, 0);

  // Cells keep their shape at any width; the batter stands beside them.
  const standing = 34;
  const margin = { left: 52, right: 12, top: 20 };
  const cell = {
    wide: Math.min(150, Math.floor((width - margin.left - margin.right - standing) / 3)),
    tall: phone ? 82 : 92,
  };
  const zone = { left: margin.left + (bats === "R" ? standing : 0), top: margin.top };
  const plate = 42;
  const tall = margin.top + 3 * cell.tall + 20 + plate + 4;
  const columnAt = (column: number): number => zone.left + (bats === "L" ? 2 - column : column) * cell.wide;
  const laid = nine.map((c) => ({
    ...c,
    x: columnAt(c.column),
    y: zone.top + (2 - c.row) * cell.tall,
    middle: columnAt(c.column) + cell.wide / 2,
  }));
  const full = laid.filter((c) => c.power_kept.value !== null);
  const bare = laid.filter((c) => c.power_kept.value === null);
  const [least, greatest] = powerSpan;
  const along = (value: number): number => Math.max(0, Math.min(1, (value - least) / (greatest - least)));
  const inset = 12;
  const scaleX = (c: { x: number }, value: number): number =>
    c.x + inset + along(value) * (cell.wide - 2 * inset);
  const right = zone.left + 3 * cell.wide;
  const batterX = bats === "R" ? margin.left + 8 : right + standing - 8;
  const bottomOfZone = zone.top + 3 * cell.tall;
  const half = cell.wide * 1.5 * 0.42;
  const middleX = zone.left + 1.5 * cell.wide;
  const plateTop = bottomOfZone + 24;
  const seen = (x: number, y: number): [number, number] => [middleX + x * half, plateTop + y * 24];
  // From behind: the plate's front edge far, its point near.
  const platePoints = [
    seen(-0.86, 0),
    seen(0.86, 0),
    seen(1, 0.5),
    seen(0, 1),
    seen(-1, 0.5),
    seen(-0.86, 0),
  ];

  return compose(options, {
    kind: "zone-map",
    title: "Power kept by place",
    subtitle: [
      `${count(n, "swing")} with a place`,
      "catcher's view",
      ...(bats === null
        ? ["inside drawn on the left"]
        : [`batter on the ${bats === "R" ? "left" : "right"}`]),
      ...turnedWords(swings),
    ],
    key: [],
    notes: [
      `Exit velocity, the pitch's part taken out, as a share of this hitter's ceiling. The bar in each cell: median and 95% interval, the ceiling taken as it stands, from ${percent(least)} to ${percent(greatest)}.`,
    ],
    description: [
      n
        ? `Power kept in the nine cells of the zone, ${count(n, "swing")}.`
        : "Power kept in the nine cells of the zone: no swings to draw.",
      ...nine.map((c) => {
        const where = `${heights[c.row]} ${sides[c.column]}`;
        const { value } = c.power_kept;
        return value === null
          ? `${where}: no swings.`
          : `${where}: ${percent(value)} (${percentRange(c.power_kept)}, n ${c.n}).`;
      }),
    ],
    plot: ({ top, bottom, width }) => ({
      height: top + tall + bottom,
      margin: 0,
      marginTop: top,
      marginBottom: bottom,
      x: { domain: [0, width], axis: null },
      y: { domain: [tall, 0], axis: null },
      marks: [
        Plot.rect(laid, {
          x1: "x",
          x2: (c: { x: number }) => c.x + cell.wide,
          y1: "y",
          y2: (c: { y: number }) => c.y + cell.tall,
          fill: (c: ZoneMapCell) => (c.power_kept.value === null ? paper : tint(along(c.power_kept.value))),
          stroke: faintInk,
          strokeWidth: 1,
          ariaDescription: "cells",
        }),
        Plot.text(full, {
          x: "middle",
          y: (c: { y: number }) => c.y + 21,
          text: (c: ZoneMapCell) => percent(c.power_kept.value!),
          fontSize: fontSize.title + 2,
          fontWeight: "bold",
          fill: ink,
          ariaDescription: "power kept",
        }),
        Plot.text(full, {
          x: "middle",
          y: (c: { y: number }) => c.y + 40,
          text: (c: ZoneMapCell) => percentRange(c.power_kept),
          fontSize: fontSize.small,
          fill: ink,
          ariaDescription: "interval",
        }),
        Plot.text(full, {
          x: "middle",
          y: (c: { y: number }) => c.y + 55,
          text: (c: ZoneMapCell) => `n ${c.n}`,
          fontSize: fontSize.small,
          fill: ink,
          ariaDescription: "count",
        }),
        Plot.link(full, {
          x1: (c: { x: number }) => c.x + inset,
          x2: (c: { x: number }) => c.x + cell.wide - inset,
          y1: (c: { y: number }) => c.y + cell.tall - 13,
          y2: (c: { y: number }) => c.y + cell.tall - 13,
          stroke: faintInk,
          strokeOpacity: 0.5,
          ariaDescription: "scale",
        }),
        Plot.link(
          full.filter((c) => c.power_kept.low !== null && c.power_kept.high !== null),
          {
            x1: (c: (typeof laid)[number]) => scaleX(c, c.power_kept.low!),
            x2: (c: (typeof laid)[number]) => scaleX(c, c.power_kept.high!),
            y1: (c: { y: number }) => c.y + cell.tall - 13,
            y2: (c: { y: number }) => c.y + cell.tall - 13,
            stroke: ink,
            strokeWidth: 3,
            ariaDescription: "interval on the scale",
          },
        ),
        Plot.dot(full, {
          x: (c: (typeof laid)[number]) => scaleX(c, c.power_kept.value!),
          y: (c: { y: number }) => c.y + cell.tall - 13,
          r: 4,
          fill: ink,
          stroke: paper,
          strokeWidth: 1.2,
          ariaDescription: "median on the scale",
        }),
        ...(n
          ? [
              Plot.text(bare, {
                x: "middle",
                y: (c: { y: number }) => c.y + cell.tall / 2,
                text: () => "no swings",
                fontSize: fontSize.small,
                fill: faintInk,
                ariaDescription: "empty cells",
              }),
            ]
          : []),
        Plot.text([2, 1, 0], {
          x: () => (bats === "R" ? zone.left - standing - 4 : zone.left - 6),
          y: (row: number) => zone.top + (2.5 - row) * cell.tall,
          text: (row: number) => heights[row]!,
          textAnchor: "end",
          fill: ink,
          ariaDescription: "height",
        }),
        Plot.text([0, 1, 2], {
          x: (column: number) => columnAt(column) + cell.wide / 2,
          y: () => zone.top - 8,
          text: (column: number) => sides[column]!,
          fill: ink,
          ariaDescription: "side",
        }),
        Plot.line(platePoints, {
          stroke: faintInk,
          strokeWidth: 1.2,
          fill: paper,
          strokeLinejoin: "round",
          ariaDescription: "home plate",
        }),
        ...(bats === null
          ? []
          : [
              Plot.link([0], {
                x1: () => batterX,
                x2: () => batterX,
                y1: () => zone.top + 8,
                y2: () => bottomOfZone - 8,
                stroke: line,
                strokeWidth: 1.5,
                ariaDescription: "batter",
              }),
              Plot.text([bats === "R" ? "right-handed batter" : "left-handed batter"], {
                x: () => batterX,
                y: () => zone.top + 1.5 * cell.tall,
                rotate: -90,
                fill: ink,
                stroke: paper,
                strokeWidth: 8,
                ariaDescription: "batter's side",
              }),
            ]),
        ...(n
          ? []
          : [
              Plot.text(["no swings to draw"], {
                x: () => middleX,
                y: () => zone.top + 1.5 * cell.tall,
                fontSize: fontSize.figure,
                fill: faintInk,
                stroke: paper,
                strokeWidth: 5,
              }),
            ]),
      ],
    }),
  });
}
