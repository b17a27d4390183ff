/** What the column `flags` may say: what was assumed of a row, and what puts its reading in doubt. */
import type { EnrichedSwing } from "../swing/fields.ts";

/** Each word with what it means. */
export const flagWords = {
  no_spray: "no spray angle: carry as if hit straight away, and no bearing, lane or side",
  no_flight: "no ball can fly as the readings say, or one is outside its limits: no carry, category or place",
  listed_side: "the batter's side is the hitter's listed one, not this swing's",
  unknown_field: "the session's field is not in the table: the full field was used",
  unknown_ball: "the session's ball is not in the table: the baseball was used",
  unknown_session:
    "the session is not among the sessions, or its row was refused: default air, full field, baseball",
  doubtful_air: "the session's air has a value outside its limits: that value was not used, the default was",
  turned_back:
    "angles and contact point are corrected by what sessions.csv says; the swings' own file is as it was",
  turned_otherwise:
    "corrected before, by other amounts than sessions.csv says now, and left so: take the tracker's own file",
  few_swings: "the ceiling is more the level's figure than the hitter's own",
  no_ceiling: "too few swings for a ceiling, and no level: no power kept and no bucket",
  own_ceiling:
    "pitch speeds unknown: power kept is told by a ceiling of this kind of work alone, with the pitch's part in it",
  no_pitch_speed:
    "pitch speed unknown where most have one: the pitch's part can't be taken out, so no power kept",
  above_ceiling: "exit velocity well above the ceiling: look at the reading",
  fast_for_bat: "exit velocity more than any bat gives at this bat and pitch speed: look at the readings",
  carry_apart: "the tracker's own carry is far from the one computed: look at both",
  odd_spin: "more spin than a bat can give, or a rate that its own parts contradict: look at the spin",
  behind_plate: "said to be in play, and to leave behind the plate, through the net: look at the spray angle",
  tee_moving: "off a tee, and yet the ball came in: look at the input or the pitch speed",
  off_tee: "met where no tee stands: look at the contact point",
  stuck: "the same reading again and again: look at the tracker",
  doubled:
    "a second row with the same readings within a moment of the one before: one ball may stand here twice",
} as const;

/** A word of the column `flags`. */
export type Flag = keyof typeof flagWords;

/** Flags that tell what was assumed, left out or done, not that the reading itself is in doubt. */
const assumed: ReadonlySet<string> = new Set([
  "no_spray",
  "listed_side",
  "unknown_field",
  "unknown_ball",
  "unknown_session",
  "doubtful_air",
  "turned_back",
  "few_swings",
  "no_ceiling",
  "own_ceiling",
  "no_pitch_speed",
] satisfies Flag[]);

/** A row's flags, as words. */
type Flagged = Pick<EnrichedSwing, "flags">;

/**
 * The words of a row's flags.
 * @example flagsOf({ flags: "few_swings; stuck" }) // ["few_swings", "stuck"]
 */
export function flagsOf(row: Flagged): string[] {
  if (row.flags === null) return [];
  return row.flags
    .split(";")
    .map((flag) => flag.trim())
    .filter((flag) => flag !== "");
}

/**
 * Whether a flag puts the reading in doubt: such a swing is drawn with a ring. A flag this table doesn't know does.
 * @example isDoubtful({ flags: "few_swings;above_ceiling" }) // true
 * @example isDoubtful({ flags: "few_swings" }) // false
 */
export function isDoubtful(row: Flagged): boolean {
  return row.flags !== null && flagsOf(row).some((flag) => !assumed.has(flag));
}

/**
 * The rows whose readings are not in doubt, and how many were left out: only where the reader asks for it, and
 * never without the count.
 * @example withoutDoubtful([{ flags: "stuck" }, { flags: null }]) // { kept: [{ flags: null }], leftOut: 1 }
 */
export function withoutDoubtful<R extends Flagged>(rows: readonly R[]): { kept: R[]; leftOut: number } {
  const kept = rows.filter((row) => !isDoubtful(row));
  return { kept, leftOut: rows.length - kept.length };
}
