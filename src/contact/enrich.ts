/** The computed columns of a swing: flight, category, place, contact and where the figures came from. */
import { fieldFor, findField, type PlayingField } from "../field/fields.ts";
import { laneOf, sideOf } from "../field/lanes.ts";
import { corrected, turnOf, turnText } from "../field/corrected.ts";
import { airFor, type Air } from "../flight/air.ts";
import { ballFor, findBall, type Ball } from "../flight/ball.ts";
import { fly } from "../flight/carry.ts";
import { launchOf } from "../flight/launch.ts";
import { flyWithRange } from "../flight/range.ts";
import { spinWord } from "../flight/spin.ts";
import {
  sessionFields,
  swingFields,
  type EnrichedSwing,
  type Field,
  type Hitter,
  type Session,
  type Swing,
} from "../swing/fields.ts";
import { enrichedOf } from "../swing/unknown.ts";
import { outsideIn } from "../swing/limits.ts";
import { deg, ft } from "../units/index.ts";
import { bucketOf } from "./bucket.ts";
import { categoryOf } from "./category.ts";
import { ceilingAt, ceilingFor, ceilingsOf, ownSpeed, type Ceilings, type CeilingFor } from "./ceiling.ts";
import { collisionExitVelocity, swingPitchSpeed } from "./collision.ts";
import type { Flag } from "./flags.ts";
import { misreads, Neighbours, type FlagsById } from "./misreads.ts";
import { thresholdsFrom, type Thresholds } from "./thresholds.ts";
import { append } from "../swing/lists.ts";

/** What an enricher is made from; the swings, for the ceilings. */
export interface EnricherSource {
  readonly swings: Iterable<Swing>;
  /** The ceilings that an enricher of the same swings has found already, instead of finding them anew. */
  readonly ceilings?: Ceilings;
  /** What it has found of rows beside one another, likewise. */
  readonly neighbours?: FlagsById;
  readonly sessions: readonly Session[];
  /** Whether there was a table of sessions at all; when absent, whether `sessions` has any. */
  readonly sessionsGiven?: boolean;
  readonly hitters: readonly Hitter[];
  /** The library's own thresholds.json, parsed, or null. */
  readonly thresholds?: unknown;
}

/** What enriching needs of a library. */
export interface EnrichSource extends EnricherSource {
  readonly swings: readonly Swing[];
}

/** How to enrich. */
export interface EnrichOptions {
  /** Ceilings given instead of computed, mph at the best angle, the pitch's part taken out, by hitter. */
  readonly ceilings?: Readonly<Record<string, number>>;
  /** Whether a carry gets its range; it does unless told not to. A range costs three times what its flight does. */
  readonly ranges?: boolean;
}

/** A library made ready: enriches one swing at a time, for those who can't hold all of them twice. */
export interface Enricher {
  readonly thresholds: Thresholds;
  readonly ceilings: Ceilings;
  readonly neighbours: FlagsById;
  enrich(swing: Swing): EnrichedSwing;
}

/** What all swings of a session share. */
interface Surroundings {
  readonly session: Session | null;
  readonly air: Air;
  readonly ball: Ball;
  readonly field: PlayingField;
  readonly flags: readonly Flag[];
  /** What its readings are corrected by; null for nothing. */
  readonly turn: string | null;
}

const limited = (fields: readonly Field[], names: readonly string[]): Field[] =>
  fields.filter(({ name }) => names.includes(name));
const airFields = limited(sessionFields, [
  "temperature_f",
  "pressure_inhg",
  "altitude_ft",
  "humidity_pct",
  "wind_mph",
  "wind_toward_deg",
]);
/** Of these every swing is looked at: a loop over plain limits, a hundredth of what its flight takes. */
const launchLimits = limited(swingFields, [
  "exit_velocity_mph",
  "launch_angle_deg",
  "spray_angle_deg",
  "backspin_rpm",
  "sidespin_rpm",
  "spin_rpm",
  "spin_axis_deg",
  "contact_side_ft",
  "contact_depth_ft",
  "contact_height_ft",
]).map(({ name, min, max }) => ({ name: name as keyof Swing, min: min!, max: max! }));

/** The first field of a launch whose value is outside its limits, or null. */
function launchOutside(swing: Swing): keyof Swing | null {
  for (const { name, min, max } of launchLimits) {
    const value = swing[name];
    if (value !== null && !((value as number) >= min && (value as number) <= max)) return name;
  }
  return null;
}

function surroundingsOf(session: Session | null): Surroundings {
  const ball = session?.ball ?? null;
  const field = session?.field ?? null;
  const flags: Flag[] = [];
  if (field !== null && findField(field) === null) flags.push("unknown_field");
  const doubtful = session === null ? [] : outsideIn(session, airFields);
  if (doubtful.length > 0) flags.push("doubtful_air");
  const knownBall = ball === null || findBall(ball) !== null;
  if (!knownBall) flags.push("unknown_ball");
  const turn = session === null ? null : turnOf(session);
  return {
    session,
    turn: turn === null ? null : turnText(turn),
    air: airFor({ ...session, ...Object.fromEntries(doubtful.map(({ field: name }) => [name, null])) }),
    ball: ballFor(knownBall ? ball : null),
    field: fieldFor(field),
    flags,
  };
}

/** Whether the bat and pitch speed beside an exit velocity are too low for it, whatever the bat. */
function fastForBat(swing: Swing, pitch: number | null, thresholds: Thresholds): boolean {
  if (swing.bat_speed_mph === null || pitch === null) return false;
  return (
    swing.exit_velocity_mph! > collisionExitVelocity(pitch, swing.bat_speed_mph, thresholds.collision_q_most)
  );
}

/** What surrounds the swings of each session; `unknown_session` where a table of sessions doesn't have it. */
function surroundingsIn(source: EnricherSource): (session: string | null) => Surroundings {
  const bySession = new Map(source.sessions.map((s) => [s.session, surroundingsOf(s)]));
  const unnamed = surroundingsOf(null);
  const sessionsGiven = source.sessionsGiven ?? source.sessions.length > 0;
  const unknown: Surroundings = sessionsGiven ? { ...unnamed, flags: ["unknown_session"] } : unnamed;
  return (session) => (session === null ? unnamed : (bySession.get(session) ?? unknown));
}

const listedSides = (hitters: readonly Hitter[]): ReadonlyMap<string, "L" | "R"> =>
  new Map(hitters.flatMap(({ hitter, bats }) => (bats === "L" || bats === "R" ? [[hitter, bats]] : [])));

/**
 * Fills in flight, category and place.
 * @throws RangeError for a reading that no ball can have
 */
function addFlight(
  row: EnrichedSwing,
  { launch, spinSource }: NonNullable<ReturnType<typeof launchOf>>,
  { air, ball, field }: Surroundings,
  bats: "L" | "R" | null,
  thresholds: Thresholds,
  ranges: boolean,
): void {
  const { flight, range } = ranges
    ? flyWithRange(launch, air, ball, spinSource)
    : { flight: fly(launch, air, ball), range: null };
  row.carry_ft = flight.carry / ft;
  if (range !== null) {
    row.carry_low_ft = range.low / ft;
    row.carry_high_ft = range.high / ft;
  }
  row.hang_s = flight.hang;
  row.apex_ft = flight.apex / ft;
  row.category = categoryOf(row.launch_angle_deg!, flight, field, thresholds);
  if (row.spray_angle_deg === null) return;
  row.bearing_deg = flight.bearing / deg;
  row.lane = laneOf(row.bearing_deg);
  row.side = sideOf(row.bearing_deg, bats);
}

/** Fills in power kept and bucket. */
function addContact(
  row: EnrichedSwing,
  held: CeilingFor | undefined,
  shape: Ceilings["shape"],
  thresholds: Thresholds,
  flags: Flag[],
): void {
  if (held === undefined || held.ceiling.top_mph === null) {
    flags.push("no_ceiling");
    return;
  }
  const { ceiling, pitchSpeed_mph, alone } = held;
  if (alone) flags.push("own_ceiling");
  if (pitchSpeed_mph === null) {
    flags.push("no_pitch_speed");
    return;
  }
  if (ceiling.ownShare < 0.5) flags.push("few_swings");
  const angle = row.launch_angle_deg!;
  const most = ceilingAt(ceiling, shape, angle, thresholds);
  if (most === null) {
    // So far from the best angle it was met on the ball's edge: there is no power to keep.
    row.bucket = "mishit";
    return;
  }
  const own = ownSpeed(row.exit_velocity_mph!, pitchSpeed_mph, thresholds.collision_q);
  row.power_kept = Math.max(0, own / most);
  row.bucket = bucketOf(row.power_kept, angle, thresholds);
  if (row.power_kept > thresholds.above_ceiling_share) flags.push("above_ceiling");
}

/**
 * Makes a library ready for enriching: the air of each session, the ceilings of each hitter.
 * @throws BadThresholds when the library's own thresholds can't be used
 */
export function enricher(source: EnricherSource, options: EnrichOptions = {}): Enricher {
  const thresholds = thresholdsFrom(source.thresholds);
  const surroundings = surroundingsIn(source);
  const watch = new Neighbours(thresholds);
  const straightened = (swing: Swing): Swing => {
    const { turn, session } = surroundings(swing.session);
    return turn === null ? swing : corrected(swing, session);
  };
  /** The swings as they count: looked at beside one another, and corrected where their session is. */
  function* seen(): Generator<Swing> {
    for (const swing of source.swings) {
      watch.see(swing);
      yield straightened(swing);
    }
  }
  const ceilings = source.ceilings ?? ceilingsOf(seen(), source, thresholds, options.ceilings);
  const neighbours = source.neighbours ?? watch.flags;
  const sides = listedSides(source.hitters);

  function enrich(given: Swing): EnrichedSwing {
    const swing = straightened(given);
    const row: EnrichedSwing = enrichedOf(swing);
    if (swing.outcome === "miss" || swing.outcome === "take") return row;
    const bats = swing.bats ?? sides.get(swing.hitter) ?? null;
    const launched = launchOf(bats === swing.bats ? swing : { ...swing, bats });
    if (launched === null) return row;
    const around = surroundings(swing.session);
    const { session } = around;
    const flags: Flag[] = [...around.flags];
    if (swing.turned_back !== null)
      flags.push(session === null || swing.turned_back === around.turn ? "turned_back" : "turned_otherwise");
    if (swing.spray_angle_deg === null) flags.push("no_spray");
    const outside = launchOutside(swing);
    try {
      if (outside !== null) throw new RangeError(`${outside} is outside its limits`);
      addFlight(row, launched, around, bats, thresholds, options.ranges ?? true);
    } catch (error) {
      // One reading that no ball can have must not cost the others their columns.
      if (!(error instanceof RangeError)) throw error;
      flags.push("no_flight");
    }
    if (bats !== swing.bats) flags.push("listed_side");
    const pitchSpeed = swingPitchSpeed(swing, session, thresholds);
    // Contact is told from these two alone.
    if (outside !== "exit_velocity_mph" && outside !== "launch_angle_deg") {
      const held = ceilingFor(ceilings, swing.hitter, bats, swing.input, pitchSpeed);
      addContact(row, held, ceilings.shape, thresholds, flags);
    }
    if (fastForBat(swing, pitchSpeed, thresholds)) flags.push("fast_for_bat");
    append(flags, misreads(swing, row.carry_ft, pitchSpeed, thresholds));
    const beside = swing.swing_id === null ? undefined : neighbours.get(swing.swing_id);
    if (beside !== undefined) append(flags, beside);
    row.spin_source = spinWord(launched.spinSource);
    row.air_source = around.air.source;
    if (flags.length > 0) row.flags = flags.join(";");
    return row;
  }

  return { thresholds, ceilings, neighbours, enrich };
}

/**
 * Every swing with the computed columns, in the order given. A miss, a take and a swing without exit velocity
 * or launch angle have nulls in them.
 * @throws BadThresholds when the library's own thresholds can't be used
 * @example enrich({ swings: [], sessions: [], hitters: [] }) // []
 */
export function enrich(source: EnrichSource, options: EnrichOptions = {}): EnrichedSwing[] {
  return source.swings.map(enricher(source, options).enrich);
}
