/**
 * The tracker in front of the plate: where it stands, how it is turned, and what that does to its readings. It
 * measures a ball's velocity and the place it was met at in axes of its own; turned, it turns both, the place about
 * the tracker's own.
 */
import { deg, ft, inch } from "../units/index.ts";
import { add, scale, subtract, turn, type Vector } from "./vector.ts";
import { defaultZone } from "./zone.ts";

/**
 * How a tracker is turned against the field, ° each. From level and straight, its body is turned about the
 * vertical (yaw), then about the axis across (tilt), then about the axis from the plate to center field (roll).
 */
export interface Turn {
  /** Positive: its far sight goes to third base's side, and readings turn toward right field. */
  readonly yaw_deg: number;
  /** Positive: its nose, which faces the plate, points up, and launch angles read high. */
  readonly tilt_deg: number;
  /** Positive: it leans toward first base's side, and balls to right field read high, those to left field low. */
  readonly roll_deg: number;
}

/** Where a tracker stands. */
export interface Stand {
  /** From the plate's front edge, ft. */
  readonly distance_ft: number;
  /** Off the line to the middle of the rubber, in, positive toward first base's side. */
  readonly offset_in: number;
}

/** Where a tracker stands and how it is turned. */
export interface Placement extends Stand, Turn {}

/** Level and straight. */
export const straight: Turn = { yaw_deg: 0, tilt_deg: 0, roll_deg: 0 };

/** Common practice for a unit in front of the plate, no source. */
export const usualStand: Stand = { distance_ft: 17, offset_in: 0 };

/** From the rear point of home plate to its front edge, ft; the plate is as deep as it is wide. */
export const plateDepth_ft = (defaultZone.zone_width_in * inch) / ft;

/**
 * The tracker's place on the ground, ft.
 * @example trackerPlace({ distance_ft: 17, offset_in: 6 }) // [0.5, 18.42, 0]
 */
export function trackerPlace({ distance_ft, offset_in }: Stand): Vector {
  return [offset_in / 12, plateDepth_ft + distance_ft, 0];
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

/** How much too large a reading is: the distance believed over the true one; 1 where the scale is the tracker's own. */
const scaleOf = (placement: Stand, { stand, scaled }: Believed): number =>
  scaled ? stand.distance_ft / placement.distance_ft : 1;

/**
 * What a tracker in this placement reads, believing that it stands elsewhere, level and straight.
 * @throws RangeError for a distance that is not above 0
 */
export function readFrom(truth: Reading, placement: Placement, believed: Believed): Reading {
  if (!(placement.distance_ft > 0)) throw new RangeError("a tracker's distance is above 0");
  const k = scaleOf(placement, believed);
  const seen = subtract(truth.contact, trackerPlace(placement));
  return {
    velocity: scale(turnedReading(truth.velocity, placement), k),
    contact: add(trackerPlace(believed.stand), scale(turnedReading(seen, placement), k)),
  };
}

/**
 * The inverse: what was, from what a tracker in this placement read.
 * @throws RangeError for a distance that is not above 0
 */
export function truthFrom(reading: Reading, placement: Placement, believed: Believed): Reading {
  if (!(placement.distance_ft > 0)) throw new RangeError("a tracker's distance is above 0");
  const k = scaleOf(placement, believed);
  const seen = scale(subtract(reading.contact, trackerPlace(believed.stand)), 1 / k);
  return {
    velocity: trueVector(scale(reading.velocity, 1 / k), placement),
    contact: add(trackerPlace(placement), trueVector(seen, placement)),
  };
}
