/**
 * Swings made comparable from day to day: the pitch's part taken out of the exit velocity, the carry flown in standard air
 * with what is left, and the exit velocity at like launch angles, so that faster pitching, a warmer day or more flips are
 * not read as a hitter's change.
 */
import { swingPitchSpeed } from "../contact/collision.ts";
import { ownSpeed } from "../contact/ceiling.ts";
import type { Thresholds } from "../contact/thresholds.ts";
import { defaultAir } from "../flight/air.ts";
import { ballFor, findBall } from "../flight/ball.ts";
import { fly } from "../flight/carry.ts";
import { launchOf } from "../flight/launch.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { enrichedWith } from "../swing/unknown.ts";
import { ft } from "../units/index.ts";

/** A swing made comparable: `exit_velocity_mph` and `carry_ft` are the hitter's own, null where the pitch is unknown. */
export interface EvenedSwing extends EnrichedSwing {
  /**
   * Own exit velocity over what the ceiling's shape leaves at its launch angle, mph: what the swing would have had at the
   * hitter's best angle. Null far off the best angle, and where the pitch or the ceiling is unknown.
   */
  readonly like_angle_mph: number | null;
}

/** A swing with its column for like angles, nothing in it. */
export const withLikeAngle = enrichedWith<{ like_angle_mph: number | null }>({ like_angle_mph: null });

/**
 * One hitter's swings, evened out. The ceiling takes part as a scale alone: power kept times its top. The air is the
 * default one, the ball the session's.
 * @param rows one hitter's enriched swings: all there are, as the ceiling's top is read from them
 * @example evened([], [], { collision_q: 0.2 }) // []
 */
export function evened(
  rows: readonly EnrichedSwing[],
  sessions: readonly Session[],
  thresholds: Thresholds,
): EvenedSwing[] {
  const known = new Map(sessions.map((s) => [s.session, s]));
  const own = rows.map((row): number | null => {
    const session = row.session === null ? null : (known.get(row.session) ?? null);
    const pitch = swingPitchSpeed(row, session, thresholds);
    return row.exit_velocity_mph === null || pitch === null
      ? null
      : ownSpeed(row.exit_velocity_mph, pitch, thresholds.collision_q);
  });
  // Own speed over power kept is the ceiling at that angle; its largest is the top, as the shape is 1 at its best.
  const tops = new Map<string, number>();
  const kind = (row: EnrichedSwing): string => `${row.bats} ${row.input}`;
  rows.forEach((row, i) => {
    if (own[i] === null || row.power_kept === null || !(row.power_kept > 0)) return;
    tops.set(kind(row), Math.max(tops.get(kind(row)) ?? 0, own[i]! / row.power_kept));
  });
  return rows.map((row, i) => {
    const speed = own[i]!;
    const top = tops.get(kind(row));
    const launch =
      speed === null || speed <= 0 || row.carry_ft === null
        ? null
        : launchOf({ ...row, exit_velocity_mph: speed });
    const named = row.session === null ? null : (known.get(row.session)?.ball ?? null);
    const ball = (named === null ? null : findBall(named)) ?? ballFor(null);
    const even = withLikeAngle(row);
    even.exit_velocity_mph = speed;
    even.carry_ft = launch === null ? null : fly(launch.launch, defaultAir, ball).carry / ft;
    if (speed !== null && row.power_kept !== null && top !== undefined)
      even.like_angle_mph = row.power_kept * top;
    return even;
  });
}
