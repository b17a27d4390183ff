/**
 * Before the first swing: what a tracker's placement does to every number, exactly, and whether that is tolerable.
 * The readings of three typical balls are computed from where the tracker stands and compared with the balls.
 */
import {
  farFromPlate,
  readFrom,
  straight,
  type Placement,
  type Reading,
  type Stand,
  type Turn,
} from "../field/tracker.ts";
import { departureOf, norm, subtract, velocityOf, type Vector } from "../field/vector.ts";
import { defaultAir } from "../flight/air.ts";
import { ballFor } from "../flight/ball.ts";
import { fly } from "../flight/carry.ts";
import { deg, ft, mph, rpm } from "../units/index.ts";
import type { UnitSystem } from "../units/system.ts";
import { farSentence, nearSentence, oddTurnSentence } from "../views/sentences/setup.ts";
import { farWords, lengthWords, sideOf, slopeWords } from "./lengths.ts";
import { usualRubber_ft } from "./measured.ts";
import { tolerances, type Tolerances } from "./tolerances.ts";

/** What to do about a bias. */
const toleranceWords = ["fine", "tighten it", "redo it"] as const;
export type Tolerance = (typeof toleranceWords)[number];

/** What a placement biases. */
const budgetMeasures = [
  "exit_velocity_mph",
  "launch_angle_deg",
  "spray_angle_deg",
  "contact_ft",
  "carry_ft",
] as const;
export type BudgetMeasure = (typeof budgetMeasures)[number];

/** A typical ball: its name, its launch, its spin and where it is met. Common practice, no source. */
export interface TypicalBall {
  readonly name: string;
  readonly exitVelocity_mph: number;
  readonly launchAngle_deg: number;
  readonly sprayAngle_deg: number;
  readonly backspin_rpm: number;
  readonly contact_ft: Vector;
}

/** Three balls, to three parts of the field: a lean shows only away from the middle. */
const typicalBalls: readonly TypicalBall[] = [
  {
    name: "a liner to left",
    exitVelocity_mph: 90,
    launchAngle_deg: 12,
    sprayAngle_deg: -25,
    backspin_rpm: 800,
    contact_ft: [-0.3, 2.2, 2.6],
  },
  {
    name: "a fly ball to center",
    exitVelocity_mph: 95,
    launchAngle_deg: 28,
    sprayAngle_deg: 0,
    backspin_rpm: 2200,
    contact_ft: [0, 1.7, 2.5],
  },
  {
    name: "a high fly ball to right",
    exitVelocity_mph: 85,
    launchAngle_deg: 38,
    sprayAngle_deg: 25,
    backspin_rpm: 2600,
    contact_ft: [0.3, 1.2, 2.3],
  },
];

/** A bias: the reading less the truth, in the measure's unit. */
export type Biases = Readonly<Record<BudgetMeasure, number>>;

/** One typical ball as it is read. */
export interface BallBias {
  readonly ball: TypicalBall;
  readonly carry_ft: number;
  /** Where the tracker takes it to have been met, ft. */
  readonly readContact_ft: Vector;
  readonly biases: Biases;
}

/** A measure's bias on the ball where it is greatest, and what to do about it. */
export interface MeasureBias {
  readonly measure: BudgetMeasure;
  readonly value: number;
  readonly ball: string;
  readonly verdict: Tolerance;
}

/** What can be wrong with a placement. */
export const causes = ["distance_ft", "offset_in", "yaw_deg", "tilt_deg", "roll_deg"] as const;
export type Cause = (typeof causes)[number];

/** One cause by itself: how far off it is, what it alone biases, and what to move by how much. */
export interface CauseBias {
  readonly cause: Cause;
  readonly off: number;
  readonly measures: readonly MeasureBias[];
  readonly verdict: Tolerance;
  /** A sentence; null where there is nothing to move. */
  readonly advice: string | null;
}

/** The error budget of a placement. */
export interface Budget {
  readonly placement: Placement;
  readonly believed: Stand;
  readonly scaled: boolean;
  readonly balls: readonly BallBias[];
  readonly measures: readonly MeasureBias[];
  readonly causes: readonly CauseBias[];
  readonly verdict: Tolerance;
  /** The units that its sentences are written in; the numbers stay as their names say. */
  readonly units: UnitSystem;
  /** What looks like a slip of the tape or the pen, a sentence each. */
  readonly doubts: readonly string[];
}

export interface BudgetOptions {
  /** Where the tracker was told that it stands; where it does stand, when not given. */
  readonly believed?: Stand;
  /** Whether it takes its scale from that distance; false for one that measures speed directly. */
  readonly scaled?: boolean;
  readonly tolerances?: Tolerances;
  /** Of the sentences. */
  readonly units?: UnitSystem;
}

const limits: Readonly<Record<BudgetMeasure, readonly [keyof Tolerances, keyof Tolerances]>> = {
  exit_velocity_mph: ["fine_exit_velocity_mph", "redo_exit_velocity_mph"],
  launch_angle_deg: ["fine_launch_angle_deg", "redo_launch_angle_deg"],
  spray_angle_deg: ["fine_spray_angle_deg", "redo_spray_angle_deg"],
  contact_ft: ["fine_contact_ft", "redo_contact_ft"],
  carry_ft: ["fine_carry_ft", "redo_carry_ft"],
};

/**
 * What to do about a bias.
 * @example toleranceOf("launch_angle_deg", -0.2) // "fine"
 * @example toleranceOf("launch_angle_deg", 3) // "redo it"
 */
export function toleranceOf(measure: BudgetMeasure, bias: number, table: Tolerances = tolerances): Tolerance {
  const [fine, redo] = limits[measure];
  const size = Math.abs(bias);
  // A tape's or a level's last digit must not decide.
  if (size <= table[fine] + 1e-9) return "fine";
  return size < table[redo] ? "tighten it" : "redo it";
}

const worse = (a: Tolerance, b: Tolerance): Tolerance =>
  toleranceWords[Math.max(toleranceWords.indexOf(a), toleranceWords.indexOf(b))]!;

function carryOf(reading: Reading, backspin_rpm: number): number {
  const { speed, launchAngle_deg, sprayAngle_deg } = departureOf(reading.velocity);
  const launch = {
    speed: speed * mph,
    launchAngle: launchAngle_deg * deg,
    sprayAngle: sprayAngle_deg * deg,
    backspin: backspin_rpm * rpm,
    sidespin: 0,
    contact: [reading.contact[0] * ft, reading.contact[1] * ft, reading.contact[2] * ft] as const,
  };
  return fly(launch, defaultAir, ballFor(null)).carry / ft;
}

function biasOf(ball: TypicalBall, placement: Placement, believed: Stand, scaled: boolean): BallBias {
  const truth: Reading = {
    velocity: velocityOf(ball.exitVelocity_mph, ball.launchAngle_deg, ball.sprayAngle_deg),
    contact: ball.contact_ft,
  };
  const reading = readFrom(truth, placement, { stand: believed, scaled });
  const seen = departureOf(reading.velocity);
  const carry_ft = carryOf(truth, ball.backspin_rpm);
  return {
    ball,
    carry_ft,
    readContact_ft: reading.contact,
    biases: {
      exit_velocity_mph: seen.speed - ball.exitVelocity_mph,
      launch_angle_deg: seen.launchAngle_deg - ball.launchAngle_deg,
      spray_angle_deg: around(seen.sprayAngle_deg - ball.sprayAngle_deg),
      contact_ft: norm(subtract(reading.contact, truth.contact)),
      carry_ft: carryOf(reading, ball.backspin_rpm) - carry_ft,
    },
  };
}

/** An angle's difference, the short way round. */
const around = (angle_deg: number): number => ((((angle_deg + 180) % 360) + 360) % 360) - 180;

function worstOf(balls: readonly BallBias[], table: Tolerances): MeasureBias[] {
  return budgetMeasures.map((measure) => {
    const worst = balls.reduce((a, b) =>
      Math.abs(b.biases[measure]) > Math.abs(a.biases[measure]) + 1e-9 ? b : a,
    );
    const value = worst.biases[measure];
    return { measure, value, ball: worst.ball.name, verdict: toleranceOf(measure, value, table) };
  });
}

const verdictOf = (measures: readonly MeasureBias[]): Tolerance =>
  measures.reduce<Tolerance>((all, { verdict }) => worse(all, verdict), "fine");

/**
 * The error budget of a placement, measured.
 * @throws RangeError for a place on the plate's rear point, or a number that is none
 * @example errorBudget({ distance_ft: -13.7, offset_in: 31, yaw_deg: 0, tilt_deg: 0, roll_deg: 0 }).verdict // "fine"
 * @example errorBudget({ distance_ft: 21.6, offset_in: 0, yaw_deg: 3, tilt_deg: 0, roll_deg: 0 }).verdict // "redo it"
 */
export function errorBudget(placement: Placement, options: BudgetOptions = {}): Budget {
  const { distance_ft, offset_in } = placement;
  const { believed = { distance_ft, offset_in }, scaled = true, tolerances: table = tolerances } = options;
  const units = options.units ?? "us";
  if (!causes.every((cause) => Number.isFinite(placement[cause])))
    throw new RangeError("a placement is five finite numbers");
  const balls = typicalBalls.map((ball) => biasOf(ball, placement, believed, scaled));
  const measures = worstOf(balls, table);
  const level: Placement = { ...believed, ...straight };
  return {
    placement,
    believed,
    scaled,
    balls,
    measures,
    causes: causes.map((cause): CauseBias => {
      const off = placement[cause] - level[cause];
      const alone = { ...level, [cause]: placement[cause] };
      const own = worstOf(
        typicalBalls.map((ball) => biasOf(ball, alone, believed, scaled)),
        table,
      );
      return {
        cause,
        off,
        measures: own,
        verdict: verdictOf(own),
        advice: adviceOn(cause, off, believed, units),
      };
    }),
    verdict: verdictOf(measures),
    units,
    doubts: doubtsOf(placement, table, units),
  };
}

/**
 * What a turn alone asks for, wherever the tracker stands: by the directions that it biases, without the place of
 * contact, which depends on where it stands.
 * @example turnVerdict({ yaw_deg: 3, tilt_deg: 0, roll_deg: 0 }) // "redo it"
 */
export function turnVerdict(turn: Turn, table: Tolerances = tolerances): Tolerance {
  // Any place does: a direction doesn't depend on it.
  const anywhere: Stand = { distance_ft: 1, offset_in: 0 };
  const balls = typicalBalls.map((ball) => biasOf(ball, { ...anywhere, ...turn }, anywhere, false));
  return verdictOf(
    worstOf(balls, table).filter(
      ({ measure }) => measure === "launch_angle_deg" || measure === "spray_angle_deg",
    ),
  );
}

function adviceOn(cause: Cause, off: number, believed: Stand, units: UnitSystem): string | null {
  const size = Math.abs(off);
  const degrees = `${size.toFixed(1)}°`;
  if (size < 0.05) return null;
  switch (cause) {
    case "distance_ft":
      return `Move it ${lengthWords(size * 12, units)} ${off > 0 ? "away from" : "toward"} the pitcher, or tell it the distance you measured.`;
    case "offset_in":
      return `Move it ${lengthWords(size, units)} toward ${sideOf(-off)} base's side, or tell it the offset you measured.`;
    case "yaw_deg": {
      const way = `toward ${sideOf(off)} base's side`;
      // Where a turn shows at the rubber is easier to see than an angle; from the rubber on there is nothing to sight.
      const ahead_ft = usualRubber_ft - believed.distance_ft;
      if (ahead_ft < 1) return `Turn it by ${degrees}, its end away from the plate ${way}.`;
      const aside = Math.tan(Math.min(size, 80) * deg) * ahead_ft * 12;
      return `Turn it by ${degrees}: a sight through it to the rubber has to come ${lengthWords(aside, units)} farther ${way}.`;
    }
    case "tilt_deg":
      return `${off > 0 ? "Raise" : "Lower"} its end toward the pitcher by ${degrees}: ${slopeWords(size, units)}.`;
    case "roll_deg":
      return `Raise its ${sideOf(off)} base side by ${degrees}: ${slopeWords(size, units)}.`;
  }
}

function doubtsOf(placement: Placement, table: Tolerances, units: UnitSystem): string[] {
  const far = farFromPlate(placement);
  const doubts: string[] = [];
  // A table in metres has a third of the number, and no other sign.
  if (far < table.odd_near_ft)
    doubts.push(
      nearSentence(
        farWords(far, units),
        units === "metric" ? null : { number: far.toFixed(1), far: farWords(far / ft) },
      ),
    );
  if (far > table.odd_far_ft) doubts.push(farSentence(farWords(far, units)));
  for (const [cause, name] of [
    ["yaw_deg", "turn"],
    ["tilt_deg", "tilt"],
    ["roll_deg", "lean"],
  ] as const) {
    if (Math.abs(placement[cause]) > table.odd_turn_deg) doubts.push(oddTurnSentence(name, placement[cause]));
  }
  return doubts;
}
