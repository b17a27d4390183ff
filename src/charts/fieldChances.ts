/** A field from above with a hitter's balls: what each most likely would have been, and its chance of falling in. */
import * as Plot from "@observablehq/plot";
import { assumedFieldWords, type PlayingField } from "../field/fields.ts";
import { largest, smallest } from "../swing/lists.ts";
import { ft } from "../units/index.ts";
import { compose, emptyFrame, laidOut, measuresOf, widthOf, type ChartOptions, type Words } from "./frame.ts";
import { halfWithNumbers, layField, type LaidField } from "./playingField.ts";
import { count, number, percent, type Measure } from "./text.ts";
import { bucketCodes, categoryCodes, faintInk, fontSize, ink, paper, powerTints } from "./theme.ts";

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
const isInk = (ball: ChanceBall): boolean => safe(ball) >= 0.75;
const tintOf = (ball: ChanceBall): string =>
  isInk(ball) ? ink : powerTints[Math.min(powerTints.length - 1, Math.floor(safe(ball) / 0.15))]!;

/** A ball where it is drawn, in the scales' units. */
type Placed = ChanceBall & { readonly x: number; readonly y: number; readonly result: Result };

/** All that stands in the picture, in the scales' units. */
interface View {
  readonly laid: LaidField;
  readonly placed: readonly Placed[];
  readonly stands: readonly { readonly name: string; readonly x: number; readonly y: number }[];
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** px. */
  readonly tall: number;
}

const margin = 4;
/** px below home plate. */
const below = 22;
/** How far past the fence a ball is drawn at the most, and how much field is shown outward and to a side, as shares. */
const past = { ball: 1.1, outward: 1.14, sideward: 1.12 } as const;

/**
 * Each ball where it comes down on the field: its shape is what most likely comes of it, the darker the likelier it is to
 * fall in or to go over.
 * @param balls from `src/defence`
 */
export function fieldChances(balls: readonly ChanceBall[], options: FieldChancesOptions): SVGSVGElement {
  const view = lay(balls, options);
  return compose(options, {
    kind: "field-chances",
    ...wordsOf(view.placed, options.field),
    plot: (room) => ({
      ...laidOut({ left: margin, right: margin, top: 0, bottom: 0 }, view.tall, room),
      x: { domain: [...view.x], axis: null },
      y: { domain: [...view.y], axis: null },
      marks: marksOf(view, measuresOf(options).distance),
    }),
  });
}

/** Lays the field out, the fielders on it, and the balls: those likely to fall in lie on top. */
function lay(balls: readonly ChanceBall[], options: FieldChancesOptions): View {
  const { field, fielders = [] } = options;
  const { distance } = measuresOf(options);
  const laid = layField(field, distance, options.units);
  const across = widthOf(options) - 2 * margin;
  const outward = laid.deepest * past.outward;
  const perUnit = Math.min(
    across / 2 / (laid.widest * past.sideward),
    halfWithNumbers(field, across / 2) / laid.widest,
    560 / outward,
  );
  const tall = Math.round(outward * perUnit + below);
  const placed = balls.map((ball): Placed => {
    const { carry_ft, bearing_deg } = ball;
    const [x, y] = laid.place(Math.min(carry_ft, laid.fenceAt(bearing_deg) * past.ball), bearing_deg);
    return { ...ball, x, y, result: likeliest(ball) };
  });
  return {
    laid,
    placed: placed.sort((a, b) => safe(a) - safe(b)),
    stands: fielders.map(({ name, x, y }) => ({ name, x: distance.from(x / ft), y: distance.from(y / ft) })),
    x: [-across / 2 / perUnit, across / 2 / perUnit],
    y: [-below / perUnit, tall / perUnit - below / perUnit],
    tall,
  };
}

/** What the chart says: how many balls, what the chances add up to, and what is most likely of how many. */
function wordsOf(balls: readonly Placed[], field: PlayingField): Words {
  const fair = count(balls.length, "fair ball");
  const of = (result: Result): readonly Placed[] => balls.filter((ball) => ball.result === result);
  const met = results.filter((result) => of(result).length > 0);
  const chances = (result: Result): number => balls.reduce((all, ball) => all + ball[result], 0);
  const likeliestWords = (result: Result): string => {
    const chance = of(result).map(safe);
    return `Most likely ${words[result]}: ${chance.length}, chance of falling in or going over ${percent(smallest(chance))} to ${percent(largest(chance))}.`;
  };
  return {
    title: "What these balls would have been",
    subtitle: [fair, "an estimate"],
    key: met.map((result) => ({
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
            `${fair} on the field ${field.name}, as sums of chances: ${results.map((result) => `${words[result]} ${number(chances(result), 1)}`).join(", ")}.`,
            ...met.map(likeliestWords),
          ],
  };
}

/** The field, the fielders and the balls. */
const marksOf = ({ laid, stands, placed }: View, distance: Measure): Plot.Markish[] => [
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
    stroke: (b: Placed) => (isInk(b) ? paper : ink),
    strokeWidth: 0.8,
    title: (b: Placed) =>
      `${distance.say(b.carry_ft)}: ${results.map((r) => `${words[r]} ${percent(b[r])}`).join(", ")}`,
    ariaDescription: "balls",
  }),
  ...(placed.length === 0 ? emptyFrame("no fair ball to draw") : []),
  Plot.text([[0, 0]], {
    dy: 14,
    text: () => "home",
    fontSize: fontSize.small,
    fill: faintInk,
    ariaDescription: "home plate",
  }),
];
