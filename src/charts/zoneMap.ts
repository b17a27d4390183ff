/** Power kept in the nine cells of the zone, as the catcher sees them. */
import * as Plot from "@observablehq/plot";
import type { Cell } from "../field/zone.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { turnedWords } from "./swings.ts";
import { compose, emptyMark, laidOut, widthOf, type ChartOptions, type Words } from "./frame.ts";
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
const unknown: Interval = { n: 0, value: null, low: null, high: null };
/** Of the chart, px: the batter stands beside the cells. */
const margin = { left: 52, right: 12, top: 20 } as const;
const standing = 34;
/** From a cell's side to its scale, px, and from its foot. */
const inset = { aside: 12, foot: 13 } as const;

/**
 * The nine cells, each with the share of power kept there, how many swings, the interval in figures and on a
 * scale. A cell without swings says so.
 * @param cells the nine cells, in any order; one that is missing counts as empty
 */
export function zoneMap(cells: readonly ZoneMapCell[], options: ZoneMapOptions = {}): SVGSVGElement {
  const { bats = null, swings = [] } = options;
  const nine = ([2, 1, 0] as const).flatMap((row) =>
    ([0, 1, 2] as const).map(
      (column): ZoneMapCell =>
        cells.find((c) => c.row === row && c.column === column) ?? { row, column, n: 0, power_kept: unknown },
    ),
  );
  const n = nine.reduce((sum, c) => sum + c.n, 0);
  const zone = layZone(nine, bats, widthOf(options));

  return compose(options, {
    kind: "zone-map",
    ...wordsOf(nine, n, bats, swings),
    plot: (room) => ({
      ...laidOut({ left: 0, right: 0 }, zone.whole, room),
      x: { domain: [0, room.width], axis: null },
      y: { domain: [zone.whole, 0], axis: null },
      marks: [
        tintMark(zone),
        ...figureMarks(zone),
        ...scaleMarks(zone),
        ...(n ? [bareMark(zone)] : []),
        ...nameMarks(zone, bats),
        plateMark(zone),
        ...(bats === null ? [] : batterMarks(zone, bats)),
        ...(n ? [] : [emptyMark(undefined, [zone.middle, zone.top + 1.5 * zone.tall])]),
      ],
    }),
  });
}

function wordsOf(
  nine: readonly ZoneMapCell[],
  n: number,
  bats: "L" | "R" | null,
  swings: readonly Pick<EnrichedSwing, "flags">[],
): Words {
  const [least, greatest] = powerSpan;
  const picture = "Power kept in the nine cells of the zone";
  return {
    title: "Power kept by place",
    subtitle: [
      `${count(n, "swing")} with a place`,
      "catcher's view",
      bats === null ? "inside drawn on the left" : `batter on the ${bats === "R" ? "left" : "right"}`,
      ...turnedWords(swings),
    ],
    key: [],
    notes: [
      `Exit velocity, the pitch's part taken out, as a share of this hitter's ceiling. The bar in each cell: median and 95% interval, the ceiling taken as it stands, from ${percent(least)} to ${percent(greatest)}.`,
    ],
    description: [
      n ? `${picture}, ${count(n, "swing")}.` : `${picture}: no swings to draw.`,
      ...nine.map(({ row, column, n, power_kept: kept }) => {
        const said =
          kept.value === null ? "no swings" : `${percent(kept.value)} (${percentRange(kept)}, n ${n})`;
        return `${heights[row]} ${sides[column]}: ${said}.`;
      }),
    ],
  };
}

/** Where a power kept lies on the span shown, 0 to 1. */
const along = (value: number): number =>
  Math.max(0, Math.min(1, (value - powerSpan[0]) / (powerSpan[1] - powerSpan[0])));

/** The zone's cells, px: they keep their shape at any width. */
function layZone(nine: readonly ZoneMapCell[], bats: "L" | "R" | null, width: number) {
  const wide = Math.min(150, Math.floor((width - margin.left - margin.right - standing) / 3));
  const tall = width < phoneWidth ? 82 : 92;
  const left = margin.left + (bats === "R" ? standing : 0);
  const columnAt = (column: number): number => left + (bats === "L" ? 2 - column : column) * wide;
  const cells = nine.map(({ row, column, n, power_kept: kept }) => {
    const [x, y] = [columnAt(column), margin.top + (2 - row) * tall];
    const onScale = (value: number | null): number | null =>
      value === null ? null : x + inset.aside + along(value) * (wide - 2 * inset.aside);
    const scale = { from: x + inset.aside, to: x + wide - inset.aside, y: y + tall - inset.foot };
    const [low, value, high] = [onScale(kept.low), onScale(kept.value), onScale(kept.high)];
    return { x, y, middle: columnAt(column) + wide / 2, n, kept, scale, low, value, high };
  });
  const foot = margin.top + 3 * tall;
  return {
    cells,
    full: cells.filter((c) => c.value !== null),
    wide,
    tall,
    left,
    top: margin.top,
    middle: left + 1.5 * wide,
    right: left + 3 * wide,
    foot,
    whole: foot + 20 + 42 + 4,
    columnAt,
  };
}

type Zone = ReturnType<typeof layZone>;
type LaidCell = Zone["cells"][number];

const tintMark = ({ cells, wide, tall }: Zone): Plot.Markish =>
  Plot.rect(cells, {
    x1: "x",
    x2: (c: LaidCell) => c.x + wide,
    y1: "y",
    y2: (c: LaidCell) => c.y + tall,
    fill: ({ kept }: LaidCell) => (kept.value === null ? paper : tint(along(kept.value))),
    stroke: faintInk,
    strokeWidth: 1,
    ariaDescription: "cells",
  });

/** The power kept, its interval and its count, one below the other. */
function figureMarks({ full }: Zone): Plot.Markish[] {
  const small = { x: "middle", fontSize: fontSize.small, fill: ink };
  return [
    Plot.text(full, {
      ...small,
      y: (c: LaidCell) => c.y + 21,
      text: (c: LaidCell) => percent(c.kept.value!),
      fontSize: fontSize.title + 2,
      fontWeight: "bold",
      ariaDescription: "power kept",
    }),
    Plot.text(full, {
      ...small,
      y: (c: LaidCell) => c.y + 40,
      text: (c: LaidCell) => percentRange(c.kept),
      ariaDescription: "interval",
    }),
    Plot.text(full, {
      ...small,
      y: (c: LaidCell) => c.y + 55,
      text: (c: LaidCell) => `n ${c.n}`,
      ariaDescription: "count",
    }),
  ];
}

/** The same on a scale at each cell's foot. */
function scaleMarks({ full }: Zone): Plot.Markish[] {
  const y = (c: LaidCell): number => c.scale.y;
  return [
    Plot.link(full, {
      x1: (c: LaidCell) => c.scale.from,
      x2: (c: LaidCell) => c.scale.to,
      y1: y,
      y2: y,
      stroke: faintInk,
      strokeOpacity: 0.5,
      ariaDescription: "scale",
    }),
    Plot.link(
      full.filter((c) => c.low !== null && c.high !== null),
      {
        x1: "low",
        x2: "high",
        y1: y,
        y2: y,
        stroke: ink,
        strokeWidth: 3,
        ariaDescription: "interval on the scale",
      },
    ),
    Plot.dot(full, {
      x: "value",
      y,
      r: 4,
      fill: ink,
      stroke: paper,
      strokeWidth: 1.2,
      ariaDescription: "median on the scale",
    }),
  ];
}

const bareMark = ({ cells, tall }: Zone): Plot.Markish =>
  Plot.text(
    cells.filter((c) => c.value === null),
    {
      x: "middle",
      y: (c: LaidCell) => c.y + tall / 2,
      text: () => "no swings",
      fontSize: fontSize.small,
      fill: faintInk,
      ariaDescription: "empty cells",
    },
  );

const nameMarks = ({ left, top, wide, tall, columnAt }: Zone, bats: "L" | "R" | null): Plot.Markish[] => [
  Plot.text([2, 1, 0], {
    x: () => (bats === "R" ? left - standing - 4 : left - 6),
    y: (row: number) => top + (2.5 - row) * tall,
    text: (row: number) => heights[row]!,
    textAnchor: "end",
    fill: ink,
    ariaDescription: "height",
  }),
  Plot.text([0, 1, 2], {
    x: (column: number) => columnAt(column) + wide / 2,
    y: () => top - 8,
    text: (column: number) => sides[column]!,
    fill: ink,
    ariaDescription: "side",
  }),
];

/** The plate from behind: its front edge far, its point near. */
function plateMark({ middle, foot, wide }: Zone): Plot.Markish {
  const half = wide * 1.5 * 0.42;
  const corners = [
    [-0.86, 0],
    [0.86, 0],
    [1, 0.5],
    [0, 1],
    [-1, 0.5],
    [-0.86, 0],
  ] as const;
  return Plot.line(
    corners.map(([x, y]): [number, number] => [middle + x * half, foot + 24 + y * 24]),
    {
      stroke: faintInk,
      strokeWidth: 1.2,
      fill: paper,
      strokeLinejoin: "round",
      ariaDescription: "home plate",
    },
  );
}

/** The batter as a line on his side of the zone. */
function batterMarks({ top, tall, foot, right }: Zone, bats: "L" | "R"): Plot.Markish[] {
  const x = bats === "R" ? margin.left + 8 : right + standing - 8;
  return [
    Plot.link([0], {
      x1: () => x,
      x2: () => x,
      y1: () => top + 8,
      y2: () => foot - 8,
      stroke: line,
      strokeWidth: 1.5,
      ariaDescription: "batter",
    }),
    Plot.text([bats === "R" ? "right-handed batter" : "left-handed batter"], {
      x: () => x,
      y: () => top + 1.5 * tall,
      rotate: -90,
      fill: ink,
      stroke: paper,
      strokeWidth: 8,
      ariaDescription: "batter's side",
    }),
  ];
}
