/** A ball that was tapped in and not tracked: what of it was measured, what was seen, and the row that it makes. */
import { laneEdges_deg } from "../field/lanes.ts";
import type { Input, Lane, Session } from "../swing/fields.ts";
import { deg } from "../units/index.ts";
import { oneBall } from "./oneBall.ts";

/** What can be said of a ball by eye. */
export const seenKinds = ["ground ball", "line drive", "fly ball", "pop-up", "foul", "miss"] as const;
export type Seen = (typeof seenKinds)[number];

/** Fair lanes from the left-field line to the right-field line. */
export const tappedLanes = ["left line", "left-center", "center", "right-center", "right line"] as const;

/** A ball as it was tapped in; null is unknown. */
export interface Tapped {
  readonly hitter: string;
  readonly bats: "L" | "R" | null;
  readonly input: Input;
  readonly drill: string | null;
  readonly exit_velocity_mph: number | null;
  readonly launch_angle_deg: number | null;
  readonly lane: Exclude<Lane, "foul"> | null;
  readonly seen: Seen | null;
}

/** Where and when. */
export interface TappedAt {
  /** The swing's id: the same ball told twice is one row. */
  readonly id: string;
  /** Local time, ISO 8601, to the second. */
  readonly time: string;
  readonly session: Partial<Session> & Pick<Session, "session">;
}

/** How often the direction is set right for the curve of the flight. */
const turns = 3;

/**
 * The direction off the bat from which such a ball comes down in the middle of its lane: the one that was seen is where
 * it came down, and a ball curves on its way.
 */
function directionTo(lane: Exclude<Lane, "foul">, tapped: Tapped, session: Partial<Session>): number {
  const at = tappedLanes.indexOf(lane);
  const middle = (laneEdges_deg[at]! + laneEdges_deg[at + 1]!) / 2;
  let spray = middle;
  for (let turn = 0; turn < turns; turn++) {
    const { ball } = oneBall(
      {
        ...nothingKnown,
        ...session,
        bats: tapped.bats,
        exit_velocity_mph: tapped.exit_velocity_mph,
        launch_angle_deg: tapped.launch_angle_deg,
        spray_angle_deg: spray,
      },
      0,
    );
    const landed = ball?.path.at(-1);
    if (landed === undefined) return middle;
    spray -= Math.atan2(landed.x, landed.y) / deg - middle;
  }
  return Math.round(spray * 10) / 10;
}

const nothingKnown = {
  backspin_rpm: null,
  sidespin_rpm: null,
  spin_rpm: null,
  spin_axis_deg: null,
  contact_side_ft: null,
  contact_depth_ft: null,
  contact_height_ft: null,
} as const;

/** Whether a tapped ball says anything at all. */
export const saysSomething = ({ exit_velocity_mph, launch_angle_deg, lane, seen }: Tapped): boolean =>
  exit_velocity_mph !== null || launch_angle_deg !== null || lane !== null || seen !== null;

/**
 * The row of a tapped ball, cell by cell. A ball in play counts as one only with a measured speed and angle: else the
 * outcome stays unknown and the note keeps what was seen. Neither number is ever guessed from the other, or from the eye.
 * @example tappedRow({ hitter: "Ana", bats: "R", input: "tee", drill: null, exit_velocity_mph: null, launch_angle_deg: null, lane: null, seen: "miss" }, { id: "hand-1", time: "2025-04-01T17:00:00", session: { session: "a" } }).outcome // "miss"
 */
export function tappedRow(tapped: Tapped, { id, time, session }: TappedAt): Record<string, string> {
  const { exit_velocity_mph: speed, launch_angle_deg: angle, lane, seen } = tapped;
  const measured = speed !== null && angle !== null;
  const isMiss = seen === "miss";
  const outcome = isMiss ? "miss" : seen === "foul" ? "foul" : measured ? "in_play" : "";
  const words = [
    ...(isMiss || seen === null || seen === "foul" ? [] : [seen]),
    ...(lane === null || isMiss ? [] : [lane]),
    ...(outcome !== "" || speed === null ? [] : [`${speed} mph`]),
    ...(outcome !== "" || angle === null ? [] : [`${angle}°`]),
  ];
  const lacking = [...(speed === null ? ["speed"] : []), ...(angle === null ? ["angle"] : [])];
  const unmeasured = isMiss || measured ? "" : `; no measured ${lacking.join(", no measured ")}`;
  const note = `by hand${words.length > 0 ? `: ${words.join(", ")}${measured ? ", by eye" : ""}` : ""}${unmeasured}`;
  // A speed alone would make the row a ball in play, which needs both.
  const text = (value: number | null): string => (value === null || outcome === "" ? "" : String(value));
  return {
    swing_id: id,
    session: session.session,
    time,
    hitter: tapped.hitter,
    bats: tapped.bats ?? "",
    input: tapped.input,
    drill: tapped.drill ?? "",
    outcome,
    exit_velocity_mph: text(isMiss ? null : speed),
    launch_angle_deg: text(isMiss ? null : angle),
    spray_angle_deg:
      lane === null || !measured || outcome !== "in_play" ? "" : String(directionTo(lane, tapped, session)),
    note,
  };
}
