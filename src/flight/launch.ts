/** How a ball leaves the bat. */
import type { Swing } from "../swing/fields.ts";
import { deg, ft, mph } from "../units/index.ts";
import { spinOf, type SpinFields, type SpinSource } from "./spin.ts";

/** A launch in SI: m/s, rad, rad/s, m. */
export interface Launch {
  readonly speed: number;
  /** Above the horizontal. */
  readonly launchAngle: number;
  /** 0 to center field, negative to the left-field side. */
  readonly sprayAngle: number;
  /** Positive lifts. */
  readonly backspin: number;
  /** Positive curves toward right field. */
  readonly sidespin: number;
  /** Where the ball was met, (x, y, z); `unmeasuredContact` when absent. */
  readonly contact?: readonly [number, number, number];
}

/** The contact point when none was measured: 3 ft above the rear point of the plate. */
export const unmeasuredContact: readonly [number, number, number] = [0, 0, 3 * ft];

/** The fields of a swing that a launch is read from. */
export type LaunchFields = SpinFields &
  Pick<Swing, "exit_velocity_mph" | "contact_side_ft" | "contact_depth_ft" | "contact_height_ft">;

/**
 * The launch of a swing and where its spin came from; null without an exit velocity or a launch angle. An unknown
 * spray angle counts as the middle of the field: the carry is good, the bearing then means nothing.
 */
export function launchOf(swing: LaunchFields): { launch: Launch; spinSource: SpinSource } | null {
  const { exit_velocity_mph: speed, launch_angle_deg: angle } = swing;
  if (speed === null || angle === null) return null;
  const { backspin, sidespin, source } = spinOf(swing);
  const { contact_side_ft: x, contact_depth_ft: y, contact_height_ft: z } = swing;
  const launch: Launch = {
    speed: speed * mph,
    launchAngle: angle * deg,
    sprayAngle: (swing.spray_angle_deg ?? 0) * deg,
    backspin,
    sidespin,
  };
  if (x === null && y === null && z === null) return { launch, spinSource: source };
  const contact: [number, number, number] = [
    x === null ? unmeasuredContact[0] : x * ft,
    y === null ? unmeasuredContact[1] : y * ft,
    z === null ? unmeasuredContact[2] : z * ft,
  ];
  return { launch: { ...launch, contact }, spinSource: source };
}
