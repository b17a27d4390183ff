/** Where a ball came down: the five lanes and the three sides of fair territory. */
import type { Lane, Side, Swing } from "../swing/fields.ts";

/** The foul lines stand this far to either side of center field. They belong to fair territory. */
export const foulLine_deg = 45;

/** Bearings between the lanes, from the left-field line to the right-field line: fifths of 18°. */
export const laneEdges_deg = [-45, -27, -9, 9, 27, 45] as const;

/** Bearings between the sides: thirds of 30°. */
export const sideEdges_deg = [-45, -15, 15, 45] as const;

/**
 * The lane of a landing point's bearing. A ball on an edge belongs to the lane nearer center field, and one on
 * the foul line is fair, so that left and right mirror each other.
 * @param bearing_deg °, −180 to 180
 * @example laneOf(-45) // "left line"
 * @example laneOf(9) // "center"
 * @example laneOf(45.1) // "foul"
 */
export function laneOf(bearing_deg: number): Lane {
  const away = Math.abs(bearing_deg);
  if (away <= laneEdges_deg[3]) return "center";
  if (away <= laneEdges_deg[4]) return bearing_deg < 0 ? "left-center" : "right-center";
  if (away <= foulLine_deg) return bearing_deg < 0 ? "left line" : "right line";
  return "foul";
}

/**
 * The side of a landing point's bearing, for the side the batter stood on; null for a foul ball or an unknown
 * batter's side. A ball on an edge belongs to the middle.
 * @param bearing_deg °, −180 to 180
 * @example sideOf(-30, "R") // "pull"
 * @example sideOf(-30, "L") // "opposite"
 */
export function sideOf(bearing_deg: number, bats: Swing["bats"]): Side | null {
  if (bats === null || !(Math.abs(bearing_deg) <= foulLine_deg)) return null;
  const towardPull = bats === "R" ? -bearing_deg : bearing_deg;
  if (towardPull > sideEdges_deg[2]) return "pull";
  return towardPull < sideEdges_deg[1] ? "opposite" : "middle";
}
