/** Swings as marks: colour and shape by code, filled where well hit, ringed where flagged, held inside the frame. */
import * as Plot from "@observablehq/plot";
import { flagsOf, isDoubtful } from "../contact/flags.ts";
import { spinBasis, type SpinBasis } from "../contact/spinBasis.ts";
import { categories, type Category, type EnrichedSwing } from "../swing/fields.ts";
import { isWellHit } from "../contact/bucket.ts";
import { codeOf, type KeyEntry } from "./frame.ts";
import { beyondShape } from "./shapes.ts";
import { faintInk, ink, markRadius, mostMarks, paper, type Code } from "./theme.ts";
import { listed } from "../swing/words.ts";
import { count, measures, number, type UnitSystem } from "./text.ts";
import { pointedTip } from "./tip.ts";

/** What a swing's own words are made of. */
export type SpokenSwing = Pick<
  EnrichedSwing,
  | "exit_velocity_mph"
  | "launch_angle_deg"
  | "carry_ft"
  | "carry_low_ft"
  | "carry_high_ft"
  | "category"
  | "bucket"
  | "flags"
>;

/** How many of the drawn are flagged, and how many corrected, for the line under the title; empty for none. */
export function flaggedWords(rows: readonly Pick<EnrichedSwing, "flags">[]): string[] {
  const flagged = rows.filter(isDoubtful).length;
  return [...(flagged ? [`${number(flagged)} flagged (ringed)`] : []), ...turnedWords(rows)];
}

/** How many of the swings are corrected; empty for none. */
export function turnedWords(rows: readonly Pick<EnrichedSwing, "flags">[]): string[] {
  const turned = rows.filter((row) => flagsOf(row).includes("turned_back")).length;
  return turned ? [`${number(turned)} corrected, as sessions.csv says`] : [];
}

/** A swing's numbers in words, for whoever points at it. */
export function swingWords(row: SpokenSwing, system: UnitSystem = "us"): string {
  const { speed, distance } = measures[system];
  const range =
    row.carry_low_ft === null || row.carry_high_ft === null
      ? ""
      : ` (${number(distance.from(row.carry_low_ft))} to ${number(distance.from(row.carry_high_ft))})`;
  return [
    row.exit_velocity_mph === null ? null : speed.say(row.exit_velocity_mph),
    row.launch_angle_deg === null ? null : `launch ${number(row.launch_angle_deg)}°`,
    row.carry_ft === null ? null : `carry ${distance.say(row.carry_ft)}${range}`,
    row.category,
    row.bucket,
    row.flags ? `flagged: ${row.flags.replaceAll("_", " ").replaceAll(";", ", ")}` : null,
  ]
    .filter(Boolean)
    .join(", ");
}

/** A swing where it is to be drawn, in the scales' units. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly code: Code;
  readonly fill: Fill;
  readonly flagged: boolean;
  readonly words: string;
}

/** Solid: clean or flush. Hollow: partial or mishit. Pale: no bucket to tell by. */
type Fill = "solid" | "hollow" | "pale";

/**
 * How well a swing was hit, and whether its reading is in doubt, as its mark shows them.
 * @example fillOf({ bucket: "flush", flags: null }) // { fill: "solid", flagged: false }
 * @example fillOf({ bucket: null, flags: null }) // { fill: "pale", flagged: false }
 */
export function fillOf(row: Pick<EnrichedSwing, "bucket" | "flags">): Pick<Spot, "fill" | "flagged"> {
  const well = isWellHit(row);
  return { fill: well === null ? "pale" : well ? "solid" : "hollow", flagged: isDoubtful(row) };
}

/** A swing at its place in the scales' units, drawn by its category, with its numbers in words. */
export const spotOf = (row: SpokenSwing, [x, y]: readonly [number, number], units?: UnitSystem): Spot => ({
  x,
  y,
  code: codeOf.category(row.category),
  ...fillOf(row),
  words: swingWords(row, units),
});

/** What the marks' fill says, for the end of a chart's key; empty for no swings. */
export function fillKey(rows: readonly Pick<EnrichedSwing, "bucket">[]): KeyEntry[] {
  const well = rows.map(isWellHit);
  const [rated, unrated] = [well.some((w) => w !== null), well.includes(null)];
  return [
    ...(rated ? [{ label: "filled: clean or flush" }] : []),
    ...(unrated ? [{ label: "pale: no bucket" }] : []),
  ];
}

/** The part of the plane that is shown: x to the right, y up. */
export interface Frame {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** px from the left end of x to the right, and from the low end of y to the high. */
  readonly across: number;
  readonly tall: number;
}

export interface Cloud {
  readonly marks: Plot.Markish[];
  /** How many swings lie outside the frame: each is drawn at its edge with an arrow. */
  readonly beyond: number;
  /** What the reader must know of how the swings were drawn. */
  readonly notes: string[];
}

/** Whatever lies below shows through a little; a pale mark more. */
const fillOpacity: Readonly<Record<Fill, number>> = { solid: 0.92, hollow: 0.75, pale: 0.3 };

/** Room for an arrow at the frame's edge, px. */
const arrowRoom = 13;

/** Marks for swings: in the order given, those beyond the frame at its edge, very many gathered. */
export function cloud(spots: readonly Spot[], frame: Frame, tip = false): Cloud {
  const perX = frame.across / (frame.x[1] - frame.x[0]);
  const perY = frame.tall / (frame.y[1] - frame.y[0]);
  const { held, arrows } = holdInside(spots, frame, perX, perY);
  const many = held.length > mostMarks;
  const drawn = many ? gather(held, perX, perY) : held.map((spot) => ({ ...spot, r: markRadius }));
  const notes = [
    ...(arrows.length
      ? [`${count(arrows.length, "swing")} beyond the frame, at its edge with an arrow.`]
      : []),
    ...(many ? ["Swings too close to tell apart share one larger mark."] : []),
  ];
  return {
    marks: [
      ballMarks(drawn, tip),
      ...(drawn.some((s) => s.flagged) ? [flagMarks(drawn.filter((s) => s.flagged))] : []),
      ...(arrows.length ? [arrowMarks(arrows)] : []),
      // No picture is narrower than what its swings stand in.
      ...(tip ? [pointedTip(held, { x: "x", y: "y", title: "words", maxRadius: 24 }, frame.across)] : []),
    ],
    beyond: arrows.length,
    notes,
  };
}

/** A spot as it is drawn. */
type Drawn = Spot & { readonly r: number };

/** An arrow at the frame's edge, turned to where the swing lies, degrees clockwise from up. */
interface Arrow {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** The spots, those beyond the frame at its edge, and an arrow for each of those. */
function holdInside(spots: readonly Spot[], frame: Frame, perX: number, perY: number) {
  const arrows: Arrow[] = [];
  const held = spots.map((spot) => {
    let { x, y } = spot;
    let turn: number | null = null;
    if (x < frame.x[0]) [x, turn] = [frame.x[0] + arrowRoom / perX, -90];
    else if (x > frame.x[1]) [x, turn] = [frame.x[1] - arrowRoom / perX, 90];
    if (y < frame.y[0]) [y, turn] = [frame.y[0] + arrowRoom / perY, 180];
    else if (y > frame.y[1]) [y, turn] = [frame.y[1] - arrowRoom / perY, 0];
    if (turn === null) return spot;
    const [toX, toY] = [Math.sin((turn * Math.PI) / 180), Math.cos((turn * Math.PI) / 180)];
    arrows.push({ x: x + (toX * 9) / perX, y: y + (toY * 9) / perY, turn });
    return { ...spot, x, y };
  });
  return { held, arrows };
}

const ballMarks = (drawn: readonly Drawn[], tip: boolean): Plot.Markish =>
  Plot.dot(drawn, {
    x: "x",
    y: "y",
    r: { value: "r", scale: null },
    symbol: (s: Spot) => s.code.shape,
    fill: (s: Spot) => (s.fill === "hollow" ? paper : s.code.colour),
    fillOpacity: (s: Spot) => fillOpacity[s.fill],
    stroke: (s: Spot) => (s.fill === "solid" ? paper : s.code.colour),
    strokeWidth: (s: Spot) => (s.fill === "solid" ? 0.7 : 1.4),
    sort: null,
    ariaDescription: "swings",
    ...(tip ? {} : { title: "words" }),
  } as Plot.DotOptions);

const flagMarks = (flagged: readonly Drawn[]): Plot.Markish =>
  Plot.dot(flagged, {
    x: "x",
    y: "y",
    r: { value: (s: Drawn) => s.r * 1.9, scale: null },
    stroke: ink,
    strokeWidth: 0.9,
    strokeDasharray: "2 1.6",
    ariaDescription: "in doubt",
  });

const arrowMarks = (arrows: readonly Arrow[]): Plot.Markish =>
  Plot.dot(arrows, {
    x: "x",
    y: "y",
    rotate: "turn",
    symbol: beyondShape,
    r: 3.5,
    fill: faintInk,
    stroke: "none",
    ariaDescription: "beyond the frame",
  });

/** One mark for the swings of one code in one small square of the picture. */
function gather(spots: readonly Spot[], perX: number, perY: number) {
  const side = markRadius * 1.5;
  const squares = new Map<string, { spot: Spot; n: number }>();
  for (const spot of spots) {
    const key = [
      Math.round((spot.x * perX) / side),
      Math.round((spot.y * perY) / side),
      spot.code.colour,
      spot.fill,
      spot.flagged,
    ].join(" ");
    const square = squares.get(key);
    if (square) square.n++;
    else squares.set(key, { spot, n: 1 });
  }
  return [...squares.values()].map(({ spot, n }) => ({
    ...spot,
    words: n === 1 ? spot.words : `${count(n, "swing")} here`,
    r: markRadius * Math.min(2, 0.8 * n ** 0.25),
  }));
}

/** How many of each, in the order given, those with none left out: "3 bloop and 1 pop-up". */
export function tally(values: readonly (string | null)[], order: readonly string[]): string {
  const counts = new Map<string | null, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  const known = order.filter((name) => counts.has(name)).map((name) => `${counts.get(name)} ${name}`);
  const unknown = counts.get(null);
  return listed(unknown ? [...known, `${unknown} unknown`] : known);
}

/** How many of each category there are, in their order, with the ones that none is of. */
export const categoryCounts = (rows: readonly Pick<EnrichedSwing, "category">[]): Map<Category, number> =>
  new Map(categories.map((name) => [name, rows.filter((row) => row.category === name).length]));

/** How many of each category, as a sentence; empty for no swings. */
export function categorySentence(rows: readonly Pick<EnrichedSwing, "category">[]): string {
  return rows.length === 0
    ? ""
    : `By category: ${tally(
        rows.map((row) => row.category),
        categories,
      )}.`;
}

/** The columns that tell what a carry rests on. */
export type CarryBasis = SpinBasis & Pick<EnrichedSwing, "air_source">;

/** What the computed carry rests on: each source of the spin with its spread, and the air where it was assumed. */
export function assumptions(rows: readonly CarryBasis[]): string {
  const spins = spinBasis(rows);
  const n = number(rows.length);
  const air = rows.filter((r) => r.air_source === "default").length;
  return [
    ...(spins ? [`Spin behind the carry: ${spins}.`] : []),
    ...(air ? [`The default air for ${air === rows.length ? `all ${n}` : `${number(air)} of ${n}`}.`] : []),
  ].join(" ");
}
