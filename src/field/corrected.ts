/**
 * A session's readings corrected by what its row of sessions.csv says: a recorded step, and undone by emptying
 * those cells. The swings' own file is never changed.
 */
import type { Session, Swing } from "../swing/fields.ts";
import { trackerPlace, trueVector, type Turn } from "./tracker.ts";
import { add, departureOf, subtract, velocityOf, type Vector } from "./vector.ts";

/** The cells of a session that say how far its readings are corrected, and where the tracker stood. */
export type TurnedSession = Pick<
  Session,
  | "turned_back_yaw_deg"
  | "turned_back_tilt_deg"
  | "turned_back_roll_deg"
  | "tracker_distance_ft"
  | "tracker_offset_in"
>;

/** The cells of a swing that a turned tracker reads wrong, and the one that tells that they are corrected. */
export type TurnedSwing = Pick<
  Swing,
  | "launch_angle_deg"
  | "spray_angle_deg"
  | "contact_side_ft"
  | "contact_depth_ft"
  | "contact_height_ft"
  | "turned_back"
>;

/**
 * What a session is corrected by; null for nothing.
 * @example turnOf({ turned_back_yaw_deg: 3, turned_back_tilt_deg: null, turned_back_roll_deg: null }).yaw_deg // 3
 * @example turnOf({ turned_back_yaw_deg: 0, turned_back_tilt_deg: null, turned_back_roll_deg: null }) // null
 */
export function turnOf(
  session: Pick<Session, "turned_back_yaw_deg" | "turned_back_tilt_deg" | "turned_back_roll_deg">,
): Turn | null {
  const turn = {
    yaw_deg: session.turned_back_yaw_deg ?? 0,
    tilt_deg: session.turned_back_tilt_deg ?? 0,
    roll_deg: session.turned_back_roll_deg ?? 0,
  };
  return turn.yaw_deg === 0 && turn.tilt_deg === 0 && turn.roll_deg === 0 ? null : turn;
}

/**
 * A turn as a swing's row tells what it is corrected by: what is not turned is left out.
 * @example turnText({ yaw_deg: 3, tilt_deg: -1.5, roll_deg: 0 }) // "yaw 3 tilt -1.5"
 */
export function turnText({ yaw_deg, tilt_deg, roll_deg }: Turn): string {
  return Object.entries({ yaw: yaw_deg, tilt: tilt_deg, roll: roll_deg })
    .filter(([, amount]) => amount !== 0)
    .map(([name, amount]) => `${name} ${amount}`)
    .join(" ");
}

/** Where a ball is met when a part of the place is unknown, ft: over the plate, waist high. */
const usualContact: Vector = [0, 1.5, 2.5];

/**
 * A swing of a session that is corrected, and its row says so; the swing itself where nothing is to be turned, or
 * where its row says that it was turned already: nothing is turned twice. Unknown stays unknown: without a
 * spray angle the launch angle is turned as a ball's to center, and a coordinate of the contact point that is
 * missing stands in at the middle of the plate, waist high, for the others' sake alone. Everything turning about the
 * tracker, the place is unknown where no distance of the tracker is logged. Exit velocity doesn't turn, and spin is
 * told from the ball's own direction, which turns with it.
 * @returns a new row
 */
export function corrected<S extends TurnedSwing>(swing: S, session: TurnedSession | null): S {
  const turn = session === null ? null : turnOf(session);
  if (turn === null || swing.turned_back !== null) return swing;
  const { contact_side_ft: x, contact_depth_ft: y, contact_height_ft: z } = swing;
  const isPlaced = x !== null || y !== null || z !== null;
  if (swing.launch_angle_deg === null && !isPlaced) return swing;
  const turned: { -readonly [K in keyof TurnedSwing]: TurnedSwing[K] } = { ...swing };
  turned.turned_back = turnText(turn);
  if (swing.launch_angle_deg !== null) {
    const read = velocityOf(1, swing.launch_angle_deg, swing.spray_angle_deg ?? turn.yaw_deg);
    const was = departureOf(trueVector(read, turn));
    turned.launch_angle_deg = was.launchAngle_deg;
    if (swing.spray_angle_deg !== null) turned.spray_angle_deg = was.sprayAngle_deg;
  }
  const distance_ft = session!.tracker_distance_ft;
  if (isPlaced && distance_ft === null) {
    turned.contact_side_ft = turned.contact_depth_ft = turned.contact_height_ft = null;
  } else if (isPlaced) {
    const place = trackerPlace({ distance_ft: distance_ft!, offset_in: session!.tracker_offset_in ?? 0 });
    const read: Vector = [x ?? usualContact[0], y ?? usualContact[1], z ?? usualContact[2]];
    const was = add(place, trueVector(subtract(read, place), turn));
    if (x !== null) turned.contact_side_ft = was[0];
    if (y !== null) turned.contact_depth_ft = was[1];
    if (z !== null) turned.contact_height_ft = was[2];
  }
  return { ...swing, ...turned };
}
