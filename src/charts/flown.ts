/** What the two pictures of one flight share: its points as times, and its words. */
import * as Plot from "@observablehq/plot";
import type { OneBall } from "../contact/oneBall.ts";
import { spinSpreads } from "../flight/spreads.ts";
import type { FlightPoint } from "../flight/trajectory.ts";
import { deg, ft } from "../units/index.ts";
import { phraseIn, type UnitSystem } from "../units/system.ts";
import type { KeyEntry } from "./frame.ts";
import {
  accent,
  categoryCodes,
  colour,
  faintInk,
  fontSize,
  ink,
  markRadius,
  paper,
  statement,
  type Code,
} from "./theme.ts";
import { number, type Measure } from "./text.ts";

/** A ball as the flight's charts need it: what `oneBall` says of it. */
export type FlownBall = Pick<
  OneBall,
  "flight" | "path" | "range" | "ellipse" | "fence" | "field" | "spinSource" | "air" | "assumed"
>;

/** A dot on the path: a larger one each second, a smaller one at the half. */
export interface TimeDot extends FlightPoint {
  readonly whole: boolean;
}

/**
 * The points of a path at every half second after contact; neither contact nor landing.
 * @example timeDots([{ t: 0, x: 0, y: 0, z: 1 }, { t: 0.5, x: 0, y: 9, z: 2 }, { t: 0.7, x: 0, y: 12, z: 0 }]).length // 1
 */
export function timeDots(path: readonly FlightPoint[]): TimeDot[] {
  const halves = (t: number): number => Math.round(2 * t);
  return path
    .slice(1, -1)
    .filter(({ t }) => Math.abs(2 * t - halves(t)) < 1e-6)
    .map((point) => ({ ...point, whole: halves(point.t) % 2 === 0 }));
}

/** The point of a path that is highest. */
export function apexOf(path: readonly FlightPoint[]): FlightPoint {
  return path.reduce((top, point) => (point.z > top.z ? point : top));
}

const { shape: dot } = categoryCodes.bloop;
const { shape: cross } = categoryCodes["pop-up"];
const { shape: up } = categoryCodes["fly ball"];

/** How the marks of a flight are drawn. */
export const flightCodes = {
  second: { colour: ink, shape: dot },
  apex: { colour: colour("in-play"), shape: up },
  landing: { colour: accent, shape: cross },
} as const satisfies Record<string, Code>;

/** The key of a flight's marks. */
export const flightKey = (apex: boolean): KeyEntry[] => [
  { label: "each second (small: half)", code: flightCodes.second },
  ...(apex ? [{ label: "highest point", code: flightCodes.apex }] : []),
  { label: "lands", code: flightCodes.landing },
];

/** The flight in figures: how far with its range, how long, how high. */
export function flightFigures({ flight, range }: FlownBall, distance: Measure): string[] {
  const between = `${number(distance.from(range.low / ft))} to ${number(distance.from(range.high / ft))}`;
  return [
    `carry ${distance.say(flight.carry / ft)} (80%: ${between})`,
    `${number(flight.hang, 1)} s in the air`,
    `apex ${distance.say(flight.apex / ft)}`,
  ];
}

/** What the flight rests on. */
export function flightNotes({ spinSource, assumed, range }: FlownBall, system: UnitSystem = "us"): string[] {
  const { words, spread } = spinSpreads[spinSource];
  return [
    `Spin: ${words} (${spread}).`,
    ...(assumed.length ? [`Assumed: ${phraseIn(assumed.join("; "), system)}.`] : []),
    ...(range.method === "draws" ? ["The range is from seeded draws."] : []),
  ];
}

/** A direction in words: "12° to the left of center". */
export function bearingWords(bearing: number): string {
  const off = Math.round(Math.abs(bearing / deg));
  return off === 0 ? "dead center" : `${off}° to the ${bearing < 0 ? "left" : "right"} of center`;
}

/** The fence in a sentence; empty when the direction is unknown. */
export function fenceWords({ fence, field }: FlownBall, distance: Measure): string {
  if (fence === null) return "";
  const chance = fence.draws === 0 ? "out of reach" : `${number(100 * fence.chance)} of 100 clear it`;
  const at = `Fence of ${field.name}`;
  if (fence.result === "foul") return `Foul before it gets to a fence: ${chance}.`;
  const where = `${at}, ${distance.say(fence.distance! / ft)} away, ${distance.say(fence.fence! / ft)} high`;
  if (fence.result === "short") return `${where}: short by ${distance.say(fence.missing! / ft)}; ${chance}.`;
  return `${where}: the ball is ${distance.say(fence.height! / ft)} up there; ${chance}.`;
}

/** The line of a range. */
export const rangeStroke = statement;

/** Radius of a half second's dot, px. */
export const smallDot = 2.4;

/** A path and its dots. */
export const pathMarks = (
  path: readonly FlightPoint[],
  dots: readonly TimeDot[],
  x: (point: FlightPoint) => number,
  y: (point: FlightPoint) => number,
): Plot.Markish[] => [
  Plot.line(path as FlightPoint[], { x, y, stroke: ink, strokeWidth: 2, ariaDescription: "path" }),
  Plot.dot(
    dots as TimeDot[],
    {
      x,
      y,
      r: { value: (d: TimeDot) => (d.whole ? markRadius : smallDot), scale: null },
      fill: flightCodes.second.colour,
      ariaDescription: "times",
    } as Plot.DotOptions,
  ),
];

/** The seconds in numbers, each at its place. */
export const secondMarks = (
  seconds: readonly { readonly at: readonly [number, number]; readonly text: string }[],
): Plot.Markish =>
  Plot.text(seconds, {
    x: ({ at }: (typeof seconds)[number]) => at[0],
    y: ({ at }: (typeof seconds)[number]) => at[1],
    text: "text",
    fontSize: fontSize.small,
    fill: faintInk,
    stroke: paper,
    strokeWidth: 3,
    ariaDescription: "seconds",
  });

/** Where a flight lands. */
export const landingMark = (place: readonly [number, number]): Plot.Markish =>
  Plot.dot([place], {
    x: ([x]: typeof place) => x,
    y: ([, y]: typeof place) => y,
    symbol: flightCodes.landing.shape,
    r: 5,
    fill: flightCodes.landing.colour,
    stroke: paper,
    ariaDescription: "landing",
  });
