/** From what people can measure, tapes, a level and a sight, to the placement. */
import type { Placement } from "../field/tracker.ts";
import { deg } from "../units/index.ts";
import { tolerances } from "./tolerances.ts";

/** Two tapes from the tracker's middle to a mark on each foul line, equally far from the plate's rear point. */
export interface Tapes {
  /** Two tapes meet at two places: on the plate's side of the marks, or beyond them; the plate's when not given. */
  readonly beyond?: boolean;
  readonly toFirst_ft: number;
  readonly toThird_ft: number;
  /** From the plate's rear point to each mark along its line, ft: 90 for the corners at the bases. */
  readonly mark_ft: number;
}

/** A slope that a level shows: so much higher over such a length. */
export interface Slope {
  readonly rise_in: number;
  readonly over_in: number;
}

/** What was measured: a place, by tapes or as numbers; the rest is taken as on the line, straight and level. */
export interface Measured {
  readonly tapes?: Tapes;
  /** In place of the tapes. */
  readonly distance_ft?: number;
  readonly offset_in?: number;
  /** Along the line to the rubber: positive when the end away from the pitcher is the higher one. */
  readonly tilt?: Slope;
  /** Across it: positive when the third base side is the higher one. */
  readonly roll?: Slope;
  /** Where a sight through it lands at the rubber, in off its middle, positive toward first base's side. */
  readonly farSight_in?: number;
  /** From the plate's rear point to the rubber, ft; 60.5 when not given. */
  readonly rubber_ft?: number;
}

/** Where two tapes put the tracker, and how much half an inch on each tape would move it. */
export interface TapedStand {
  readonly distance_ft: number;
  readonly offset_in: number;
  readonly distanceDoubt_ft: number;
  readonly offsetDoubt_in: number;
}

/** Thrown when measurements can't be of one place; the message is one plain sentence. */
export class BadMeasurement extends Error {
  override readonly name = "BadMeasurement";
  /** The call is at fault. */
  readonly fault = "call";
}

/**
 * Where two tapes meet.
 * @throws BadMeasurement when they meet nowhere
 * @example standFromTapes({ toFirst_ft: 100, toThird_ft: 100, mark_ft: 90 }).distance_ft // -13.5
 * @example standFromTapes({ toFirst_ft: 75, toThird_ft: 78, mark_ft: 90 }).offset_in // 21.6
 */
export function standFromTapes({ toFirst_ft, toThird_ft, mark_ft, beyond = false }: Tapes): TapedStand {
  const lengths = [toFirst_ft, toThird_ft, mark_ft];
  if (!lengths.every((l) => Number.isFinite(l) && l > 0))
    throw new BadMeasurement("Two tape lengths and how far out their marks are have to be above 0.");
  const a = mark_ft / Math.SQRT2;
  const x = (toThird_ft ** 2 - toFirst_ft ** 2) / (4 * a);
  const square = toFirst_ft ** 2 - (x - a) ** 2;
  if (square < 0)
    throw new BadMeasurement(
      `Tapes of ${toFirst_ft} and ${toThird_ft} ft meet nowhere between marks ${(2 * a).toFixed(1)} ft apart: measure again, both in feet.`,
    );
  const y = a + (beyond ? 1 : -1) * Math.sqrt(square);
  // How the place moves with each tape: the inverse of the two tapes' directions.
  const first = [(x - a) / toFirst_ft, (y - a) / toFirst_ft] as const;
  const third = [(x + a) / toThird_ft, (y - a) / toThird_ft] as const;
  const area = Math.abs(first[0] * third[1] - first[1] * third[0]);
  const error_ft = tolerances.tape_error_in / 12;
  return {
    distance_ft: y,
    offset_in: x * 12,
    distanceDoubt_ft: (error_ft * Math.hypot(first[0], third[0])) / area,
    offsetDoubt_in: (12 * error_ft * Math.hypot(first[1], third[1])) / area,
  };
}

/**
 * The angle of a slope, °.
 * @throws BadMeasurement for a length that is not above 0
 * @example slopeAngle({ rise_in: 0.25, over_in: 12 }) // 1.193
 */
export function slopeAngle({ rise_in, over_in }: Slope): number {
  if (!(over_in > 0)) throw new BadMeasurement("A level's length has to be above 0 in.");
  return Math.atan2(rise_in, over_in) / deg;
}

/**
 * How far a tracker is turned when a sight through it lands beside the rubber's middle, °.
 * @param offset_in the tracker's own place off the line
 * @param ahead_ft from the tracker to the rubber, along the line
 * @example yawFromFarSight(0, 12, 42.08) // -1.361
 * @example yawFromFarSight(0, -12, 42.08) // 1.361
 */
export function yawFromFarSight(offset_in: number, farSight_in: number, ahead_ft: number): number {
  return -Math.atan2((farSight_in - offset_in) / 12, ahead_ft) / deg;
}

/** Why there is no placement without a place. */
export const noPlace =
  "Where does the tracker stand? Trackers differ, and no distance is taken for granted: give its distance from the plate's rear point, along the line to the rubber, below 0 behind the plate.";

/** A placement from what was measured. */
export interface MeasuredPlacement {
  readonly placement: Placement;
  readonly taped: TapedStand | null;
}

/**
 * The placement that measurements add up to.
 * @throws BadMeasurement when they can't be of one place, or give none
 * @example placementFrom({ distance_ft: -13.7 }).placement // { distance_ft: -13.7, offset_in: 0, yaw_deg: 0, tilt_deg: 0, roll_deg: 0 }
 */
export function placementFrom(measured: Measured): MeasuredPlacement {
  const taped = measured.tapes === undefined ? null : standFromTapes(measured.tapes);
  const distance_ft = measured.distance_ft ?? taped?.distance_ft;
  if (distance_ft === undefined) throw new BadMeasurement(noPlace);
  const offset_in = measured.offset_in ?? taped?.offset_in ?? 0;
  const rubber_ft = measured.rubber_ft ?? usualRubber_ft;
  const ahead_ft = rubber_ft - distance_ft;
  if (measured.farSight_in !== undefined && ahead_ft <= 0)
    throw new BadMeasurement(
      `The tracker stands ${distance_ft.toFixed(1)} ft from the plate's point, at or beyond the rubber at ${rubber_ft} ft: a sight needs it before the rubber.`,
    );
  return {
    taped,
    placement: {
      distance_ft,
      offset_in,
      yaw_deg:
        measured.farSight_in === undefined ? 0 : yawFromFarSight(offset_in, measured.farSight_in, ahead_ft),
      tilt_deg: measured.tilt === undefined ? 0 : slopeAngle(measured.tilt),
      roll_deg: measured.roll === undefined ? 0 : slopeAngle(measured.roll),
    },
  };
}

/** Pitching distance of a full field, ft: Official Baseball Rules, 2.01. */
export const usualRubber_ft = 60.5;
