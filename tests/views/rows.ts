/** Rows for tests: everything unknown but what a test gives. */
import fc from "fast-check";
import {
  computedFields,
  inputs,
  swingFields,
  targetMeasures,
  type EnrichedSwing,
  type Field,
  type Target,
} from "../../src/swing/fields.ts";
import { enrichedOf } from "../../src/swing/unknown.ts";

const fields: readonly Field[] = [...swingFields, ...computedFields];

/** A right-handed hitter's ball off the tee, in play, unless told otherwise. */
export const swing = (given: Partial<EnrichedSwing> = {}): EnrichedSwing =>
  enrichedOf({
    swing_id: "s",
    hitter: "Robin Test",
    bats: "R",
    input: "tee",
    outcome: "in_play",
    exit_velocity_mph: 80,
    launch_angle_deg: 12,
    ...given,
  });

/** A target with an open window but for what a test gives. */
export const target = (given: Partial<Target> & { drill: string }): Target => ({
  ...(Object.fromEntries(
    targetMeasures.flatMap((m) => [
      [`${m}_low`, null],
      [`${m}_high`, null],
    ]),
  ) as Omit<Target, "drill">),
  ...given,
});

const arbitraryValue = (f: Field): fc.Arbitrary<unknown> => {
  if (f.words) return fc.constantFrom(...f.words);
  if (f.type === "number")
    return fc.double({ min: f.min ?? -2000, max: f.max ?? 2000, noNaN: true, noDefaultInfinity: true });
  return fc.string({ maxLength: 6 });
};

/** Any row the field definitions allow, with unknowns anywhere they may be. */
export const arbitrarySwing: fc.Arbitrary<EnrichedSwing> = fc
  .record(
    Object.fromEntries(
      fields.map((f) => [
        f.name,
        f.required === "always" ? arbitraryValue(f) : fc.option(arbitraryValue(f), { freq: 3 }),
      ]),
    ),
  )
  .map(
    (row) =>
      ({
        ...row,
        hitter: "Robin Test",
        session: row["session"] === null ? null : `day ${String(row["session"]).length}`,
        drill: row["drill"] === null ? null : "drill",
      }) as EnrichedSwing,
  );

/** Each number in a result, however deep, with the way to it. */
export function numbersIn(value: unknown, path = ""): [string, number][] {
  if (typeof value === "number") return [[path, value]];
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${path}.${key}`));
}

export { inputs };
