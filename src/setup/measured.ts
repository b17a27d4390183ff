/** From what people can measure, tapes, a level and a sight, to the placement. */
import { plateDepth_ft, usualStand, type Placement } from "../field/tracker.ts";
import { deg } from "../units/index.ts";
import { tolerances } from "./tolerances.ts";

/** Two tapes from the tracker's middle to a mark on each foul line, equally far from the plate's rear point. */
export interface Tapes {
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

/** What was measured; the rest is taken as told or level. */
export interface Measured {
  readonly tapes?: Tapes;
  /** In place of the tapes. */
  readonly distance_ft?: number;
  readonly offset_in?: number;
  /** Along the tracker: positive when the end toward the plate is the higher one. */
  readonly tilt?: Slope;
  /** Across it: positive when the third base side is the higher one. */
  readonly roll?: Slope;
  /** Where the far sight lands at the rubber, in off its middle, positive toward first base's side. */
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
 * Where two tapes meet. Of the two places where they do, the one nearer to where trackers stand.
 * @throws BadMeasurement when they meet nowhere
 * @example standFromTapes({ toFirst_ft: 78.06, toThird_ft: 78.06, mark_ft: 90 }).distance_ft // 17.0
 * @example standFromTapes({ toFirst_ft: 78.06, toThird_ft: 78.06, mark_ft: 90 }).offset_in // 0
 */
export function standFromTapes({ toFirst_ft, toThird_ft, mark_ft }: Tapes): TapedStand {
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
  const usual = usualStand.distance_ft + plateDepth_ft;
  const both = [a - Math.sqrt(square), a + Math.sqrt(square)];
  const y = Math.abs(both[0]! - usual) <= Math.abs(both[1]! - usual) ? both[0]! : both[1]!;
  // How the place moves with each tape: the inverse of the two tapes' directions.
  const first = [(x - a) / toFirst_ft, (y - a) / toFirst_ft] as const;
  const third = [(x + a) / toThird_ft, (y - a) / toThird_ft] as const;
  const area = Math.abs(first[0] * third[1] - first[1] * third[0]);
  const error_ft = tolerances.tape_error_in / 12;
  return {
    distance_ft: y - plateDepth_ft,
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
 * How far a tracker is turned when its far sight lands beside the rubber's middle, °.
 * @param offset_in the tracker's own place off the line
 * @example yawFromFarSight(0, 12, 42.08) // -1.361
 * @example yawFromFarSight(0, -12, 42.08) // 1.361
 */
export function yawFromFarSight(offset_in: number, farSight_in: number, behind_ft: number): number {
  return -Math.atan2((farSight_in - offset_in) / 12, behind_ft) / deg;
}

/** A placement from what was measured. */
export interface MeasuredPlacement {
  readonly placement: Placement;
  readonly taped: TapedStand | null;
}

/**
 * The placement that measurements add up to.
 * @throws BadMeasurement when they can't be of one place
 * @example placementFrom({}).placement // { distance_ft: 17, offset_in: 0, yaw_deg: 0, tilt_deg: 0, roll_deg: 0 }
 */
export function placementFrom(measured: Measured): MeasuredPlacement {
  const taped = measured.tapes === undefined ? null : standFromTapes(measured.tapes);
  const distance_ft = measured.distance_ft ?? taped?.distance_ft ?? usualStand.distance_ft;
  const offset_in = measured.offset_in ?? taped?.offset_in ?? usualStand.offset_in;
  const rubber_ft = measured.rubber_ft ?? usualRubber_ft;
  const behind = rubber_ft - plateDepth_ft - distance_ft;
  if (measured.farSight_in !== undefined && behind <= 0)
    throw new BadMeasurement(
      `The tracker stands ${(distance_ft + plateDepth_ft).toFixed(1)} ft from the plate's point, at or behind the rubber at ${rubber_ft} ft: a sight needs it before the rubber.`,
    );
  return {
    taped,
    placement: {
      distance_ft,
      offset_in,
      yaw_deg:
        measured.farSight_in === undefined ? 0 : yawFromFarSight(offset_in, measured.farSight_in, behind),
      tilt_deg: measured.tilt === undefined ? 0 : slopeAngle(measured.tilt),
      roll_deg: measured.roll === undefined ? 0 : slopeAngle(measured.roll),
    },
  };
}

/** Pitching distance of a full field, ft: Official Baseball Rules, 2.01. */
export const usualRubber_ft = 60.5;
