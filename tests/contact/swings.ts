import { sessionFields, type Session, type Swing } from "../../src/swing/fields.ts";
import { swingOf } from "../../src/swing/unknown.ts";

let made = 0;

/** A tee swing of one hitter with what is given, and nothing else known. */
export function swing(given: Partial<Swing>): Swing {
  return swingOf({ swing_id: `w${made++}`, hitter: "Hitter A", input: "tee", outcome: "in_play", ...given });
}

/** A ball in play at an exit velocity (mph) and a launch angle (°). */
export const ball = (
  exit_velocity_mph: number,
  launch_angle_deg: number,
  given: Partial<Swing> = {},
): Swing => swing({ exit_velocity_mph, launch_angle_deg, ...given });

const unknown = Object.fromEntries(sessionFields.map((f) => [f.name, null])) as unknown as Session;

/** A session of which nothing is known but what is given. */
export const sessionOf = (name: string, given: Partial<Session>): Session => ({
  ...unknown,
  session: name,
  ...given,
});
