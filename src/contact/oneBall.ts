/** One ball with all that can be said of it: for a page where a reader tries things, and for the command line. */
import { findField, fieldFor, type PlayingField } from "../field/fields.ts";
import { airFor, type Air, type SessionAir } from "../flight/air.ts";
import { ballFor, findBall, type Ball } from "../flight/ball.ts";
import type { Flight } from "../flight/carry.ts";
import { landingEllipse, type LandingEllipse } from "../flight/ellipse.ts";
import { launchOf, type Launch, type LaunchFields } from "../flight/launch.ts";
import { flyWithRange, type CarryRange } from "../flight/range.ts";
import type { SpinSource } from "../flight/spin.ts";
import { trajectory, type FlightPoint } from "../flight/trajectory.ts";
import { sessionFields, swingFields, type Session } from "../swing/fields.ts";
import { outsideIn, type Amiss } from "../swing/limits.ts";
import { fenceOdds, type FenceOdds } from "./fence.ts";

/** What a ball is computed from, in the tables' fields and units; null is unknown. */
export type BallGiven = LaunchFields & SessionAir & Partial<Pick<Session, "field" | "ball">>;

/** A ball's flight, its doubt, and everything it was computed from, SI. */
export interface OneBall {
  readonly launch: Launch;
  readonly spinSource: SpinSource;
  readonly air: Air;
  readonly ball: Ball;
  readonly field: PlayingField;
  readonly flight: Flight;
  /** Points along the flight every `pathStep_s`, the last one where it lands. */
  readonly path: readonly FlightPoint[];
  readonly range: CarryRange;
  /** Where eight of ten such balls come down. */
  readonly ellipse: LandingEllipse;
  /** Null when the direction is unknown. */
  readonly fence: FenceOdds | null;
  /** One phrase for everything that was assumed. */
  readonly assumed: readonly string[];
}

/** Time between the points of a path, s. */
const pathStep_s = 0.05;

/** A ball, or what is wrong with what was given: a sentence each. */
export type BallAnswer =
  | { readonly ball: OneBall; readonly amiss: readonly [] }
  | { readonly ball: null; readonly amiss: readonly Amiss[] };

/** What of a launch was assumed. */
function assumedOf(given: BallGiven, spinSource: SpinSource, field: PlayingField, ball: Ball): string[] {
  const { backspin_rpm: back, sidespin_rpm: side, bats, spray_angle_deg: spray } = given;
  const part =
    spinSource === "rate_only"
      ? "spin axis"
      : back !== null
        ? "sidespin"
        : side !== null
          ? "backspin"
          : "spin";
  const contact = [given.contact_side_ft, given.contact_depth_ft, given.contact_height_ft];
  return [
    ...(spinSource === "estimated" || spinSource === "rate_only"
      ? [`${part} estimated from the launch${bats === null ? ", the batter's side unknown" : ""}`]
      : []),
    ...(spray === null ? ["hit straight away to center field"] : []),
    ...(contact.every((value) => value === null) ? ["met 3 ft above the plate"] : []),
    ...(given.ball == null ? [ball.title] : []),
    ...ball.assumed,
    ...(given.field == null ? [`the fence of the ${field.title.toLowerCase()}`] : []),
  ];
}

/**
 * Everything about one ball, or what is wrong with what was given: a value outside its field's limits, a wind
 * without its direction, a ball or a field that no table has.
 * @param draws behind the chance of clearing the fence; the fence's own count when left out
 */
export function oneBall(given: BallGiven, draws?: number): BallAnswer {
  const amiss: Amiss[] = outsideIn(given, [...swingFields, ...sessionFields]);
  const { exit_velocity_mph, launch_angle_deg, wind_mph = null, wind_toward_deg = null } = given;
  if (exit_velocity_mph === null) {
    amiss.push({ field: "exit_velocity_mph", sentence: "A flight needs an exit velocity." });
  }
  if (launch_angle_deg === null) {
    amiss.push({ field: "launch_angle_deg", sentence: "A flight needs a launch angle." });
  }
  if (wind_mph !== null && wind_mph !== 0 && wind_toward_deg === null && given.indoor !== true) {
    amiss.push({
      field: "wind_toward_deg",
      sentence:
        "A wind needs the direction it blows to: 0 is out to center field, 90 toward the right-field side.",
    });
  }
  const ball = given.ball == null ? ballFor(null) : findBall(given.ball);
  if (ball === null) amiss.push({ field: "ball", sentence: `The ball table has no "${given.ball}".` });
  const field = given.field == null ? fieldFor(null) : findField(given.field);
  if (field === null) amiss.push({ field: "field", sentence: `The field table has no "${given.field}".` });
  if (amiss.length > 0 || ball === null || field === null) return { ball: null, amiss };
  const { launch, spinSource } = launchOf(given)!;
  const air = airFor(given);
  const { flight, range } = flyWithRange(launch, air, ball, spinSource);
  return {
    ball: {
      launch,
      spinSource,
      air,
      ball,
      field,
      flight,
      path: trajectory(launch, air, ball, pathStep_s, flight),
      range,
      ellipse: landingEllipse(range.landing),
      fence:
        given.spray_angle_deg === null
          ? null
          : fenceOdds(launch, air, ball, spinSource, field, { range, draws }),
      assumed: [...assumedOf(given, spinSource, field, ball), ...air.assumed],
    },
    amiss: [],
  };
}
