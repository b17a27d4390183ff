/**
 * A part of a chart that a reader marks, and the swings in it: of the field from above, or of exit velocity against launch
 * angle. It is written into an address and read from one; what is said of it stands in `sentences/marked.ts`.
 */
import type { EnrichedSwing } from "../swing/fields.ts";
import { deg, type UnitName } from "../units/index.ts";
import { inPlay } from "./swings.ts";

type Placed = Pick<EnrichedSwing, "exit_velocity_mph" | "launch_angle_deg" | "carry_ft" | "bearing_deg">;

/** One measure of a chart that is marked, in the tables' unit. */
export interface MarkedMeasure {
  readonly unit: UnitName;
  readonly of: (row: Placed) => number | null;
}

/** Where a ball came down, ft: toward first base's side of the line to center field, and out along it; null when unknown. */
const landing =
  (part: (angle: number) => number) =>
  ({ carry_ft, bearing_deg }: Placed): number | null =>
    carry_ft === null || bearing_deg === null ? null : carry_ft * part(bearing_deg * deg);

/** The charts that can be marked, each with what it has across and up. */
export const markedCharts = {
  field: { x: { unit: "ft", of: landing(Math.sin) }, y: { unit: "ft", of: landing(Math.cos) } },
  contact: {
    x: { unit: "mph", of: (row: Placed) => row.exit_velocity_mph },
    y: { unit: "deg", of: (row: Placed) => row.launch_angle_deg },
  },
} as const satisfies Record<string, { readonly x: MarkedMeasure; readonly y: MarkedMeasure }>;
export type MarkedChart = keyof typeof markedCharts;

/** From a low to a high, both within; null where it is open. */
export interface Ends {
  readonly low: number | null;
  readonly high: number | null;
}

/** A marked part of a chart, its ends in the tables' units. */
export interface Marked {
  readonly chart: MarkedChart;
  readonly x: Ends;
  readonly y: Ends;
}

/** A text that marks no part. */
export class BadMark extends Error {
  override readonly name = "BadMark";
}

const endsText = ({ low, high }: Ends): string => `${low ?? ""}..${high ?? ""}`;

/**
 * A marked part as an address holds it.
 * @example markedText({ chart: "contact", x: { low: 80, high: 95 }, y: { low: 10, high: null } }) // "contact_80..95_10.."
 */
export const markedText = ({ chart, x, y }: Marked): string => `${chart}_${endsText(x)}_${endsText(y)}`;

const number = String.raw`-?\d{1,4}(?:\.\d+)?`;
const written = new RegExp(`^([a-z]+)_(${number})?\\.\\.(${number})?_(${number})?\\.\\.(${number})?$`);

/**
 * The part that a text marks.
 * @throws BadMark when it marks none
 * @example markedNamed("field_-40..60_200..").y // { low: 200, high: null }
 */
export function markedNamed(text: string): Marked {
  const [, chart = "", ...ends] = written.exec(text) ?? [];
  if (!Object.hasOwn(markedCharts, chart))
    throw new BadMark(
      `a part is marked as in contact_80..95_10..30 or field_-40..60_200.., not ${JSON.stringify(text)}`,
    );
  const [x1, x2, y1, y2] = [0, 1, 2, 3].map((i) => (ends[i] === undefined ? null : Number(ends[i])));
  const [x, y] = [
    { low: x1!, high: x2! },
    { low: y1!, high: y2! },
  ];
  if (isTurned(x) || isTurned(y))
    throw new BadMark(`of a part’s ends the lower comes first, which ${text} has the other way round`);
  return { chart: chart as MarkedChart, x, y };
}

/**
 * Whether the lower end lies over the higher one.
 * @example isTurned({ low: 90, high: 80 }) // true
 * @example isTurned({ low: 90, high: null }) // false
 */
export const isTurned = ({ low, high }: Ends): boolean => low !== null && high !== null && low > high;

const isWithin = (value: number | null, { low, high }: Ends): boolean =>
  value !== null && (low === null || value >= low) && (high === null || value <= high);

/**
 * What tells whether a swing lies in a marked part: one whose place isn't known lies in none.
 * @example inMarked({ chart: "contact", x: { low: 80, high: 95 }, y: { low: 10, high: null } })({ exit_velocity_mph: 95, launch_angle_deg: 24, carry_ft: null, bearing_deg: null }) // true
 * @example inMarked({ chart: "field", x: { low: null, high: 0 }, y: { low: null, high: null } })({ exit_velocity_mph: 95, launch_angle_deg: 24, carry_ft: null, bearing_deg: null }) // false
 */
export function inMarked({ chart, x, y }: Marked): (row: Placed) => boolean {
  const measures = markedCharts[chart];
  return (row) => isWithin(measures.x.of(row), x) && isWithin(measures.y.of(row), y);
}

/**
 * The swings of a marked part: balls in play, as the chart shows them; all where nothing is marked.
 * @example markedRows([], null) // []
 */
export function markedRows<R extends Placed & Pick<EnrichedSwing, "outcome">>(
  rows: readonly R[],
  marked: Marked | null,
): R[] {
  return marked === null ? [...rows] : inPlay(rows).filter(inMarked(marked));
}
