/** Which rows count as what. */
import { isWellHit } from "../contact/bucket.ts";
import { shareOf, type Share } from "../stats/share.ts";
import type { EnrichedSwing, Input } from "../swing/fields.ts";

type Row = EnrichedSwing;

/**
 * Balls put in play with a measured exit velocity.
 * @example inPlay([]) // []
 */
export function inPlay<R extends Pick<Row, "outcome" | "exit_velocity_mph">>(rows: readonly R[]): R[] {
  return rows.filter((r) => r.outcome === "in_play" && r.exit_velocity_mph !== null);
}

/**
 * Pitches swung at: in play, fouled or missed, a take left out. A row of unknown outcome is left out as well.
 * @example swungAt([{ outcome: "take" }, { outcome: "miss" }]) // [{ outcome: "miss" }]
 */
export function swungAt<R extends Pick<Row, "outcome">>(rows: readonly R[]): R[] {
  return rows.filter((r) => r.outcome !== null && r.outcome !== "take");
}

/**
 * The rows of one input.
 * @example ofInput([{ input: "tee" }, { input: "live" }], "live") // [{ input: "live" }]
 */
export function ofInput<R extends Pick<Row, "input">>(rows: readonly R[], input: Input): R[] {
  return rows.filter((r) => r.input === input);
}

/**
 * Spray toward the pull side: positive pulled, negative the other way. Null when the batter's side or the
 * spray is unknown.
 * @returns °
 * @example towardPull({ bats: "R", spray_angle_deg: -20 }) // 20
 */
export function towardPull(row: Pick<Row, "bats" | "spray_angle_deg">): number | null {
  return outward(row.bats, row.spray_angle_deg === null ? null : -row.spray_angle_deg);
}

/**
 * Contact away from the batter: positive outside, negative inside.
 * @returns ft from the plate's middle
 * @example towardOutside({ bats: "L", contact_side_ft: -0.5 }) // 0.5
 */
export function towardOutside(row: Pick<Row, "bats" | "contact_side_ft">): number | null {
  return outward(row.bats, row.contact_side_ft);
}

function outward(bats: Row["bats"], value: number | null): number | null {
  if (bats === null || value === null) return null;
  return bats === "R" ? value : 0 - value;
}

/**
 * How many of the rows with a bucket were clean or flush.
 * @example wellHitShare([{ bucket: "flush", session: null }, { bucket: null, session: null }]).n // 1
 */
export function wellHitShare(rows: readonly Pick<Row, "bucket" | "session">[]): Share {
  return shareOf(rows.map(isWellHit), sessionsOf(rows));
}

/**
 * The session of each row, as an interval over several of them asks for.
 * @example sessionsOf([{ session: "a" }, { session: null }]) // ["a", null]
 */
export function sessionsOf(rows: readonly Pick<Row, "session">[]): (string | null)[] {
  return rows.map((r) => r.session);
}

/**
 * Rows in the order they were hit: by time where every row has one, else as they stand.
 * @example inSwingOrder([{ time: "2024-05-01T10:01" }, { time: "2024-05-01T10:00" }])[0] // { time: "2024-05-01T10:00" }
 */
export function inSwingOrder<R extends Pick<Row, "time">>(rows: readonly R[]): R[] {
  const timed = rows.map((row) => ({ row, at: row.time === null ? NaN : Date.parse(row.time) }));
  if (timed.some(({ at }) => Number.isNaN(at))) return [...rows];
  return timed.sort((a, b) => a.at - b.at).map(({ row }) => row);
}
