/** A field from above with a hitter's balls: what each most likely would have been, and its chance of falling in. */
import * as Plot from "@observablehq/plot";
import { assumedFieldWords, type PlayingField } from "../field/fields.ts";
import { largest, smallest } from "../swing/lists.ts";
import { compose, emptyMark, laidOut, measuresOf, widthOf, type ChartOptions } from "./frame.ts";
import { halfWithNumbers, layField } from "./playingField.ts";
import { count, number, percent } from "./text.ts";
import { bucketCodes, categoryCodes, faintInk, fontSize, hairline, ink, paper, powerTints } from "./theme.ts";

/** One ball. */
export interface ChanceBall {
  readonly carry_ft: number;
  readonly bearing_deg: number;
  readonly over: number;
  readonly caught: number;
  readonly fielded: number;
  readonly down: number;
}

export interface FieldChancesOptions extends ChartOptions {
  readonly field: PlayingField;
  /** Where the fielders stand, m. */
  readonly fielders?: readonly { readonly name: string; readonly x: number; readonly y: number }[];
}

const foot = 0.3048;
const results = ["over", "down", "caught", "fielded"] as const;
type Result = (typeof results)[number];

/** The shape says what is most likely, the tint how likely it falls in. */
const shapes = {
  over: bucketCodes.flush.shape,
  down: categoryCodes["line drive"].shape,
  caught: categoryCodes.bloop.shape,
  fielded: categoryCodes["ground ball"].shape,
} as const;
const words: Readonly<Record<Result, string>> = {
  over: "over the fence",
  down: "falls in or gets through",
  caught: "caught",
  fielded: "out on the ground",
};

const likeliest = (ball: ChanceBall): Result =>
  results.reduce((best, one) => (ball[one] > ball[best] ? one : best), "over");
const safe = ({ over, down }: ChanceBall): number => over + down;
const tintOf = (ball: ChanceBall): string =>
  safe(ball) >= 0.75 ? ink : powerTints[Math.min(powerTints.length - 1, Math.floor(safe(ball) / 0.15))]!;

/**
 * Each ball where it comes down on the field: its shape is what most likely comes of it, the darker the likelier it is to
 * fall in or to go over.
 * @param balls from `src/defence`
 */
export function fieldChances(balls: readonly ChanceBall[], options: FieldChancesOptions): SVGSVGElement {
  const { field, fielders = [] } = options;
  const { distance } = measuresOf(options);
  const width = widthOf(options);
  const laid = layField(field, distance, options.units);
  const margin = 4;
  const across = width - 2 * margin;
  const beyond = 1.14;
  const perUnit = Math.min(
    across / 2 / (laid.widest * 1.12),
    halfWithNumbers(field, across / 2) / laid.widest,
    560 / (laid.deepest * beyond),
  );
  const below = 22;
  const top = laid.deepest * beyond;
  const tall = Math.round(top * perUnit + below);
  const placed = balls.map((ball) => {
    const [x, y] = laid.place(
      Math.min(ball.carry_ft, laid.fenceAt(ball.bearing_deg) * 1.1),
      ball.bearing_deg,
    );
    return { ...ball, x, y, result: likeliest(ball) };
  });
  // Those likely to fall in lie on top.
  placed.sort((a, b) => safe(a) - safe(b));
  const stands = fielders.map(({ name, x, y }) => ({
    name,
    x: distance.from(x / foot),
    y: distance.from(y / foot),
  }));
  const sum = (of: (ball: ChanceBall) => number): number => balls.reduce((all, ball) => all + of(ball), 0);
  const told = results.map(
    (result) =>
      `${words[result]} ${number(
        sum((ball) => ball[result]),
        1,
      )}`,
  );
  type Placed = (typeof placed)[number];

  return compose(options, {
    kind: "field-chances",
    title: "What these balls would have been",
    subtitle: [count(balls.length, "fair ball"), "an estimate"],
    key: results
      .filter((result) => placed.some((ball) => ball.result === result))
      .map((result) => ({
        label: `most likely ${words[result]}`,
        code: { colour: faintInk, shape: shapes[result] },
      })),
    notes: [
      "The darker, the likelier to fall in or go over: from under 15% in five steps to 75% and more in ink. + a fielder.",
      assumedFieldWords(field),
    ],
    description:
      balls.length === 0
        ? [`No fair ball to draw on the field ${field.name}.`]
        : [
            `${count(balls.length, "fair ball")} on the field ${field.name}, as sums of chances: ${told.join(", ")}.`,
            ...results.map((result) => {
              const own = placed.filter((ball) => ball.result === result);
              return own.length === 0
                ? ""
                : `Most likely ${words[result]}: ${own.length}, chance of falling in or going over ${percent(smallest(own.map(safe)))} to ${percent(largest(own.map(safe)))}.`;
            }),
          ],
    plot: (room) => ({
      ...laidOut({ left: margin, right: margin, top: 0, bottom: 0 }, tall, room),
      x: { domain: [-across / 2 / perUnit, across / 2 / perUnit], axis: null },
      y: { domain: [-below / perUnit, tall / perUnit - below / perUnit], axis: null },
      marks: [
        ...laid.under,
        ...laid.over,
        Plot.dot(stands, {
          x: "x",
          y: "y",
          symbol: categoryCodes["pop-up"].shape,
          r: 5,
          fill: paper,
          stroke: ink,
          title: "name",
          ariaDescription: "fielders",
        }),
        Plot.dot(placed, {
          x: "x",
          y: "y",
          symbol: (b: Placed) => shapes[b.result],
          r: 4.5,
          fill: tintOf,
          stroke: (b: Placed) => (safe(b) >= 0.75 ? paper : ink),
          strokeWidth: 0.8,
          title: (b: Placed) =>
            `${distance.say(b.carry_ft)}: ${results.map((r) => `${words[r]} ${percent(b[r])}`).join(", ")}`,
          ariaDescription: "balls",
        }),
        ...(balls.length === 0 ? [Plot.frame({ stroke: hairline }), emptyMark("no fair ball to draw")] : []),
        Plot.text([[0, 0]], {
          dy: 14,
          text: () => "home",
          fontSize: fontSize.small,
          fill: faintInk,
          ariaDescription: "home plate",
        }),
      ],
    }),
  });
}
