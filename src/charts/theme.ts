/**
 * The one look of every chart: colours, second codes, letters, sizes.
 *
 * The colours are ours. Buckets run from light to dark, so that their order survives in grey; categories stand
 * apart in lightness and along blue and yellow, which every common colour blindness keeps. Each also has a shape.
 */
import type { SymbolType } from "d3";
import type { Bucket, Category } from "../swing/fields.ts";

/** Paper and ink. The charts draw their own paper, so that they read the same on any page. */
export const paper = "#ffffff";
export const ink = "#1d1b18";
/** Second lines, axes' names, notes. 6.5 : 1 on paper. */
export const faintInk = "#5a554d";
/** Rings, grids, the field's lines: seen, not read. */
export const line = "#b9b2a5";
export const hairline = "#dcd6ca";
/** Dirt, and anything else that is ground. */
export const ground = "#efe7d8";

/** The letters of the machine that shows the chart: nothing is fetched. */
export const fontFamily = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif";

/** Letter sizes, px. None is smaller than 11 at any width: charts lay out by width, they don't scale. */
export const fontSize = { title: 16, label: 12, small: 11, figure: 15 } as const;

/** Width, px, when none is asked for, and the least there is room for. */
export const defaultWidth = 640;
export const leastWidth = 300;
/** Below this width, px, a chart lays out for a phone. */
export const phoneWidth = 480;

/** Radius of a swing's mark, px. */
export const markRadius = 4.25;
/** More swings than this in one cloud are gathered: one larger mark for swings that would lie on each other. */
export const mostMarks = 3000;

/** A shape of a given area about the origin; y runs downward. */
export interface Shape extends SymbolType {
  readonly name: string;
}

const polygon = (name: string, points: readonly (readonly [number, number])[]): Shape => {
  // Points are given in any size; every shape is drawn at the same area, so that none looks like more.
  let twice = 0;
  points.forEach(([x, y], i) => {
    const [nx, ny] = points[(i + 1) % points.length]!;
    twice += x * ny - nx * y;
  });
  const area = Math.abs(twice) / 2;
  return {
    name,
    draw(context, size) {
      const k = Math.sqrt(size / area);
      points.forEach(([x, y], i) => (i === 0 ? context.moveTo(x * k, y * k) : context.lineTo(x * k, y * k)));
      context.closePath();
    },
  };
};

const turned = (points: readonly (readonly [number, number])[], degrees: number) => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return points.map(([x, y]) => [x * c - y * s, x * s + y * c] as const);
};

const plusPoints = [
  [-1, -3],
  [1, -3],
  [1, -1],
  [3, -1],
  [3, 1],
  [1, 1],
  [1, 3],
  [-1, 3],
  [-1, 1],
  [-3, 1],
  [-3, -1],
  [-1, -1],
] as const;
const up = [
  [0, -1.15],
  [1, 0.6],
  [-1, 0.6],
] as const;
const starPoints = Array.from({ length: 10 }, (_, i) => {
  const r = i % 2 === 0 ? 1 : 0.45;
  return [r * Math.sin((i * Math.PI) / 5), -r * Math.cos((i * Math.PI) / 5)] as const;
});

const circle: Shape = {
  name: "circle",
  draw(context, size) {
    const r = Math.sqrt(size / Math.PI);
    context.moveTo(r, 0);
    context.arc(0, 0, r, 0, 2 * Math.PI);
    context.closePath();
  },
};
const halfDisc: Shape = {
  name: "half disc",
  draw(context, size) {
    const r = Math.sqrt((2 * size) / Math.PI);
    // Shifted up by a part of the radius, so that the shape sits on its point and not beside it.
    context.moveTo(-r, -0.4 * r);
    context.arc(0, -0.4 * r, r, Math.PI, 0, true);
    context.closePath();
  },
};
const down = polygon("triangle down", turned(up, 180));
const upTriangle = polygon("triangle up", up);
const diamond = polygon("diamond", [
  [0, -1],
  [1, 0],
  [0, 1],
  [-1, 0],
]);
const square = polygon("square", [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
]);
const plus = polygon("plus", plusPoints);
const times = polygon("cross", turned(plusPoints, 45));
const star = polygon("star", starPoints);

/** Points outward where a swing lies beyond the frame: up, turned as needed. */
export const beyondShape = polygon("beyond", [
  [0, -1],
  [1.2, 0.5],
  [-1.2, 0.5],
]);

/** How a value is drawn: its colour, and its shape as the second code. */
export interface Code {
  readonly colour: string;
  readonly shape: Shape;
}

/** The kinds of batted ball: down for a ground ball, up for a fly ball. */
export const categoryCodes: Readonly<Record<Category, Code>> = {
  "ground ball": { colour: "#66451a", shape: down },
  "line drive": { colour: "#0a7464", shape: diamond },
  bloop: { colour: "#b58c0f", shape: circle },
  "fly ball": { colour: "#24216f", shape: upTriangle },
  "pop-up": { colour: "#7b82d2", shape: plus },
};

/** The contact buckets, poor to good: light to dark, and on bars low to high. */
export const bucketCodes: Readonly<Record<Bucket, Code & { readonly height: number }>> = {
  mishit: { colour: "#98928a", shape: times, height: 0.25 },
  partial: { colour: "#b4611f", shape: halfDisc, height: 0.5 },
  clean: { colour: "#7d2a62", shape: square, height: 0.75 },
  flush: { colour: "#1f0d48", shape: star, height: 1 },
};

/** What the checks say of a session or a placement, from good to bad: shape first, then lightness. */
const [good, middling, bad]: readonly Code[] = [
  { colour: "#0a7464", shape: circle },
  { colour: "#a87a00", shape: upTriangle },
  { colour: "#6b1020", shape: times },
];
export const verdictCodes = { sound: good!, "look again": middling!, "hold back": bad! } as const;
export const toleranceCodes = { fine: good!, "tighten it": middling!, "redo it": bad! } as const;

/** What can come of a pitch. Only a ball in play is solid: the rest are patterns of ink on paper. */
export const outcomeCodes = {
  take: { colour: paper, pattern: null },
  miss: { colour: faintInk, pattern: "hatch" },
  foul: { colour: faintInk, pattern: "dots" },
  in_play: { colour: "#3d6b7d", pattern: null },
} as const;

/** A swing whose category or bucket is unknown. */
export const unknownCode: Code = { colour: faintInk, shape: circle };

/** What a chart states (a mean, a line, a range) in ink over the swings. */
export const statement = ink;
/** A drill's window. */
export const targetColour = "#0a6a8f";

/** Power kept, from the least shown to the most: tints light enough for ink to be read on each. */
export const powerTints = ["#fbf3e6", "#f0b98a", "#c98ab0"] as const;
/** The span of power kept that the tints and the scale in each cell cover. */
export const powerSpan = [0.6, 1] as const;

/** What a part of a gap does to the figure: solid adds, hollow takes away. */
export const partCodes = {
  adds: { colour: "#3d6b7d", fill: "#3d6b7d" },
  takes: { colour: "#8a3b12", fill: paper },
} as const;
