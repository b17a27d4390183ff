/** Rows of which nothing is known: what a row is filled in from. */
import {
  computedFields,
  swingFields,
  type EnrichedSwing,
  type Field,
  type RowOf,
  type Swing,
} from "./fields.ts";

type Unknown<Fields extends readonly Field[]> = {
  [Name in keyof RowOf<Fields>]: null;
};

function unknownOf<const Fields extends readonly Field[]>(fields: Fields): Unknown<Fields> {
  return Object.fromEntries(fields.map((field) => [field.name, null])) as Unknown<Fields>;
}

const unknownSwing = unknownOf(swingFields);
const unknownEnriched = unknownOf([...swingFields, ...computedFields]);

/** What a swing has to say for itself. */
type Needed = Pick<Swing, "hitter" | "input">;

/**
 * A swing with what is given, everything else unknown.
 * @example swingOf({ hitter: "Ada K.", input: "tee" }).exit_velocity_mph // null
 */
export function swingOf(given: Needed & Partial<Swing>): Swing {
  return Object.assign({ ...unknownSwing }, given);
}

/**
 * A swing with the computed columns and what is given, everything else unknown. Rows are filled in from a copy of
 * one with every field: growing each row by its computed columns costs fifty times as much.
 * @example enrichedOf({ hitter: "Ada K.", input: "tee" }).carry_ft // null
 */
export function enrichedOf(given: Needed & Partial<EnrichedSwing>): EnrichedSwing {
  return Object.assign({ ...unknownEnriched }, given);
}

/**
 * Makes rows with further columns, to be filled in: each a copy of the row, the new columns as given.
 * Rows that grow by `{ ...row, more }` are each of a shape of their own to the engine: fifty thousand of them took seven
 * times as long to make, and what reads them takes longer, too.
 * @param more the further columns, null as a rule
 * @example enrichedWith({ cell: null })(enrichedOf({ hitter: "Ada K.", input: "tee" })).cell // null
 */
export function enrichedWith<More extends object>(more: More): <R extends EnrichedSwing>(row: R) => R & More {
  const model = { ...unknownEnriched, ...more };
  return (row) => Object.assign({ ...model }, row);
}
