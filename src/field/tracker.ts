/**
 * The tracker: where it stands, on any side of the plate, how it is turned, and what that does to its readings. It
 * measures a ball's velocity and the place it was met at in axes of its own, which lie along the field's when it is
 * straight and level; turned, it turns both, the place about the tracker's own.
 */
import { deg, ft, inch } from "../units/index.ts";
import { add, scale, subtract, turn, type Vector } from "./vector.ts";
import { defaultZone } from "./zone.ts";

/**
 * How a tracker is turned against the field, ° each. From level and straight, its body is turned about the
 * vertical (yaw), then about the axis across (tilt), then about the axis from the plate to center field (roll).
 * The signs are of what it does to readings, and so the same on every side of the plate.
 */
export interface Turn {
  /** Positive: a sight through it to center field goes to third base's side, and readings turn toward right field. */
  readonly yaw_deg: number;
  /** Positive: its end toward the pitcher is the lower one, and launch angles read high. */
  readonly tilt_deg: number;
  /** Positive: it leans toward first base's side, and balls to right field read high, those to left field low. */
  readonly roll_deg: number;
}

/** Where a tracker stands. */
export interface Stand {
  /** From the plate's rear point along the line to the rubber, ft: positive toward the pitcher, negative behind. */
  readonly distance_ft: number;
  /** Off that line, in, positive toward first base's side. */
  readonly offset_in: number;
}

/** Where a tracker stands and how it is turned. */
export interface Placement extends Stand, Turn {}

/** Level and straight. */
export const straight: Turn = { yaw_deg: 0, tilt_deg: 0, roll_deg: 0 };

/** From the rear point of home plate to its front edge, ft; the plate is as deep as it is wide. */
export const plateDepth_ft = (defaultZone.zone_width_in * inch) / ft;

/**
 * The tracker's place on the ground, ft.
 * @example trackerPlace({ distance_ft: -13.7, offset_in: 6 }) // [0.5, -13.7, 0]
 */
export function trackerPlace({ distance_ft, offset_in }: Stand): Vector {
  return [offset_in / 12, distance_ft, 0];
}

/**
 * How far a tracker stands from the plate's rear point, ft, whichever way.
 * @example farFromPlate({ distance_ft: -4, offset_in: 36 }) // 5
 */
export function farFromPlate({ distance_ft, offset_in }: Stand): number {
  return Math.hypot(distance_ft, offset_in / 12);
}

const [across, forward, upward]: readonly Vector[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/**
 * A vector in the field's axes, as a turned tracker has it.
 * @example turnedReading([0, 1, 0], { yaw_deg: 90, tilt_deg: 0, roll_deg: 0 }) // [1, 0, 0]
 */
export function turnedReading(v: Vector, { yaw_deg, tilt_deg, roll_deg }: Turn): Vector {
  const tilted = turn(turn(v, upward!, -yaw_deg * deg), across!, tilt_deg * deg);
  return roll_deg === 0 ? tilted : turn(tilted, forward!, -roll_deg * deg);
}

/**
 * The inverse: a turned tracker's vector in the field's axes.
 * @example trueVector([1, 0, 0], { yaw_deg: 90, tilt_deg: 0, roll_deg: 0 }) // [0, 1, 0]
 */
export function trueVector(v: Vector, { yaw_deg, tilt_deg, roll_deg }: Turn): Vector {
  const leant = roll_deg === 0 ? v : turn(v, forward!, roll_deg * deg);
  return turn(turn(leant, across!, -tilt_deg * deg), upward!, yaw_deg * deg);
}

/** What a tracker has of a ball: its velocity, in any unit, and the place it was met at, ft. */
export interface Reading {
  readonly velocity: Vector;
  readonly contact: Vector;
}

/**
 * What a tracker takes for its place, and whether it takes its scale from the distance it was told (a picture's
 * scale) or measures lengths and speeds directly.
 */
export interface Believed {
  readonly stand: Stand;
  readonly scaled: boolean;
}

/** How much too large a reading is: as far as it believes to stand over as far as it does; 1 where the scale is its own. */
function scaleOf(placement: Stand, { stand, scaled }: Believed): number {
  if (!scaled) return 1;
  const [far, told] = [farFromPlate(placement), farFromPlate(stand)];
  if (!(far > 0 && told > 0))
    throw new RangeError("a tracker that takes its scale from its place stands off the plate");
  return told / far;
}

/**
 * What a tracker in this placement reads, believing that it stands elsewhere, level and straight.
 * @throws RangeError where its scale comes from its place and it stands on the plate's rear point
 */
export function readFrom(truth: Reading, placement: Placement, believed: Believed): Reading {
  const k = scaleOf(placement, believed);
  const seen = subtract(truth.contact, trackerPlace(placement));
  return {
    velocity: scale(turnedReading(truth.velocity, placement), k),
    contact: add(trackerPlace(believed.stand), scale(turnedReading(seen, placement), k)),
  };
}

/**
 * The inverse: what was, from what a tracker in this placement read.
 * @throws RangeError where its scale comes from its place and it stands on the plate's rear point
 */
export function truthFrom(reading: Reading, placement: Placement, believed: Believed): Reading {
  const k = scaleOf(placement, believed);
  const seen = scale(subtract(reading.contact, trackerPlace(believed.stand)), 1 / k);
  return {
    velocity: trueVector(scale(reading.velocity, 1 / k), placement),
    contact: add(trackerPlace(placement), trueVector(seen, placement)),
  };
}
