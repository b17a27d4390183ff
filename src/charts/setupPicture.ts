/** What the two pictures of a setup share: px drawing at a stated scale, and its words. */
import * as Plot from "@observablehq/plot";
import type { Placement } from "../field/tracker.ts";
import type { Budget, Cause } from "../setup/budget.ts";
import { placeWords } from "../setup/lengths.ts";
import { capital } from "../swing/words.ts";
import type { KeyEntry } from "./frame.ts";
import { number } from "./text.ts";
import { faintInk, fontSize, ground, line, paper, statement, toleranceCodes, verdictCodes } from "./theme.ts";

/** A point, px, y downward. */
export type Px = readonly [number, number];

/** Room at either side of the picture, px. */
export const pad = 12;

/** Its box from above and from the side, ft; only its middle is to scale, trackers differ. */
export const box_ft = { long: 1, wide: 0.8, tall: 0.9 } as const;

/** From the rear point of the plate to where the rubber's front edge is, ft: a full field's. */
export const rubber_ft = 60.5;

/** What is drawn of what stands, and of what should. */
export const setupKey: readonly KeyEntry[] = [
  { label: "as it stands", swatch: { fill: statement, stroke: statement } },
  { label: "as it should", swatch: { fill: paper, stroke: faintInk } },
  { label: "ball met here", code: { colour: toleranceCodes.fine.colour, shape: verdictCodes.sound.shape } },
  {
    label: "read here",
    hollow: true,
    code: { colour: toleranceCodes["redo it"].colour, shape: verdictCodes.sound.shape },
  },
];

/** The corners of a box about a middle, turned by an angle in rad (clockwise on the screen), px. */
export function boxAt([x, y]: Px, across: number, down: number, angle: number): Px[] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
      [-1, -1],
    ] as const
  ).map(([i, j]) => {
    const [u, v] = [(i * across) / 2, (j * down) / 2];
    return [x + u * c - v * s, y + u * s + v * c];
  });
}

/** A closed shape. */
export const shape = (
  points: readonly Px[],
  fill: string,
  stroke: string,
  description: string,
): Plot.Markish =>
  Plot.line(points as Px[], {
    fill,
    stroke,
    strokeWidth: 1.2,
    strokeLinejoin: "miter",
    ariaDescription: description,
  });

/** A line; dashed for what should be. */
export const path = (
  points: readonly Px[],
  stroke: string,
  description: string,
  dashed = false,
  strokeWidth = 1.5,
): Plot.Markish =>
  Plot.line(points as Px[], {
    stroke,
    strokeWidth,
    ariaDescription: description,
    ...(dashed ? { strokeDasharray: "5,4" } : {}),
  });

/** A word at a point. */
export const word = (
  [x, y]: Px,
  text: string,
  anchor: "start" | "middle" | "end" = "middle",
  fill: string = faintInk,
): Plot.Markish =>
  Plot.text([[x, y]] as Px[], {
    text: () => text,
    textAnchor: anchor,
    fill,
    fontSize: fontSize.small,
    stroke: paper,
    strokeWidth: 4,
  });

/** Where a ball was met, and where the tracker has it. */
export function metAndRead(met: Px, read: Px): Plot.Markish[] {
  return [
    path([met, read], faintInk, "from met to read", false, 1),
    Plot.dot([read] as Px[], {
      r: 4,
      fill: paper,
      stroke: toleranceCodes["redo it"].colour,
      strokeWidth: 1.6,
      ariaDescription: "read here",
    }),
    Plot.dot([met] as Px[], {
      r: 4,
      fill: toleranceCodes.fine.colour,
      stroke: paper,
      strokeWidth: 0.8,
      ariaDescription: "ball met here",
    }),
  ];
}

/** The ground under a panel. */
export const groundBand = (from: Px, to: Px): Plot.Markish =>
  Plot.rect([{ a: from, b: to }], {
    x1: (d: { a: Px }) => d.a[0],
    y1: (d: { a: Px }) => d.a[1],
    x2: (d: { b: Px }) => d.b[0],
    y2: (d: { b: Px }) => d.b[1],
    fill: ground,
    ariaDescription: "ground",
  });

/** A plain line of the field. */
export const fieldLine = (points: readonly Px[], description: string): Plot.Markish =>
  path(points, line, description, true, 1.2);

/** The same, level from one end to the other, px. */
export const levelLine = (
  y: number,
  [left, right]: readonly [number, number],
  description: string,
): Plot.Markish =>
  fieldLine(
    [
      [left, y],
      [right, y],
    ],
    description,
  );

/** The tracker's box as it should stand, and as it stands. */
export const trackerBoxes = (should: readonly Px[], stands: readonly Px[], more = ""): Plot.Markish[] => [
  shape(should, "none", faintInk, `as it should${more}`),
  shape(stands, statement, statement, `as it stands${more}`),
];

/** A picture in px: no scales and no axes. */
export const inPx = (height: number, marks: Plot.Markish[]): Plot.PlotOptions => ({
  height,
  margin: 0,
  x: { type: "identity", axis: null },
  y: { type: "identity", axis: null },
  marks,
});

/** What to move, of some of the causes, each with what it is worth. */
export function adviceWords(budget: Budget, causes: readonly Cause[]): string[] {
  const said = budget.causes
    .filter((c) => causes.includes(c.cause) && c.advice !== null && c.verdict !== "fine")
    .map((c) => `${capital(c.verdict)}: ${c.advice}`);
  return said.length > 0 ? said : ["Nothing to move here."];
}

/** A placement's numbers in words. */
export function placementWords({ placement: p, units }: Budget): string {
  return `${placeWords(p, units)}, turned ${number(p.yaw_deg, 1)}°, ${levelWords(p)}`;
}

/**
 * How level a tracker stands, in words.
 * @example levelWords({ tilt_deg: -1.2, roll_deg: 0 }) // "pitcher's end up 1.2°, first base side level"
 */
export function levelWords({ tilt_deg, roll_deg }: Pick<Placement, "tilt_deg" | "roll_deg">): string {
  const side = (name: string, down_deg: number): string => {
    const shown = number(Math.abs(down_deg), 1);
    return Number(shown) === 0 ? `${name} level` : `${name} ${down_deg > 0 ? "down" : "up"} ${shown}°`;
  };
  return `${side("pitcher's end", tilt_deg)}, ${side("first base side", roll_deg)}`;
}

/** A straight line through a point, from edge to edge of a panel. */
export function through([x, y]: Px, [u, v]: Px, [[left, top], [right, bottom]]: readonly [Px, Px]): [Px, Px] {
  let [least, most] = [-Infinity, Infinity];
  for (const [at, step, low, high] of [
    [x, u, left, right],
    [y, v, top, bottom],
  ] as const) {
    if (Math.abs(step) < 1e-9) continue;
    const ends = [(low - at) / step, (high - at) / step].sort((a, b) => a - b);
    least = Math.max(least, ends[0]!);
    most = Math.min(most, ends[1]!);
  }
  const end = Math.max(least, most);
  return [
    [x + u * least, y + v * least],
    [x + u * end, y + v * end],
  ];
}

/** An arrow from where it stands to where it should. */
export const moveArrow = ([x1, y1]: Px, [x2, y2]: Px): Plot.Markish[] =>
  [5, 2].map((strokeWidth) =>
    Plot.arrow([0], {
      x1: () => x1,
      y1: () => y1,
      x2: () => x2,
      y2: () => y2,
      stroke: strokeWidth === 5 ? paper : faintInk,
      strokeWidth,
      headLength: strokeWidth === 5 ? 5 : 9,
      ariaDescription: "move it so",
    }),
  );
