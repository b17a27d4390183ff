/**
 * The ceiling: the exit velocity a hitter's own swing can reach at a launch angle, C·f(θ − θ₀). One for a hitter and
 * side of the plate, from all kinds of work, so that tee, flip and live are measured with one stick: a pitch adds q·v
 * to the same swing's exit velocity, which is taken out on both sides. θ₀ is the angle of the hitter's hardest
 * contact, f the shape (shape.ts); C, the top-end exit velocity, is drawn toward the level's figure while swings are
 * few.
 */
import { median, quantile } from "d3-array";
import type { Hitter, Input, Session, Swing } from "../swing/fields.ts";
import { swingPitchSpeed } from "./collision.ts";
import { findLevel } from "./levels.ts";
import { pooledShape, shapeAt, type Shape } from "./shape.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/** A hitter's ceiling from one side of the plate. */
export interface Ceiling {
  /** Top-end exit velocity, the pitch's part taken out, mph; null when the swings are too few and no level is known. */
  readonly top_mph: number | null;
  /** Launch angle of the hardest contact, °. */
  readonly angle_deg: number;
  /** Where that angle is from: the hitter's measured attack angles, or the table. */
  readonly angleSource: "attack angle" | "assumed";
  /** Swings it was made from. */
  readonly n: number;
  /** Share of the figure that is the hitter's own; the rest is the level's. */
  readonly ownShare: number;
  readonly source: "swings" | "level" | "swings and level" | "fixed" | "unknown";
}

/** The side of the plate a swing is from, as far as that is known. */
export type PlateSide = "L" | "R" | "unknown";

/** A hitter's ceilings from one side of the plate. */
export interface SideCeilings {
  /** The one for all kinds of work. */
  readonly together: Ceiling;
  /** Kinds of work whose pitch speeds are unknown: each has one of its own, with the pitch's part left in. */
  readonly alone: Readonly<Partial<Record<Input, Ceiling>>>;
}

/** The ceilings of a library. */
export interface Ceilings {
  readonly shape: Shape;
  readonly byHitter: ReadonlyMap<string, Readonly<Partial<Record<PlateSide, SideCeilings>>>>;
}

/** What ceilings need of a library beside its swings. */
export interface CeilingTables {
  readonly sessions: readonly Session[];
  readonly hitters: readonly Hitter[];
}

/** Whether a swing can count toward a ceiling: a ball in play with its launch measured. */
function measuredInPlay(swing: Swing): boolean {
  return (
    (swing.outcome === "in_play" || swing.outcome === null) &&
    swing.exit_velocity_mph !== null &&
    swing.launch_angle_deg !== null
  );
}

/**
 * Exit velocity of the swing's own: what is left without the pitch's part, q·v.
 * @param pitchSpeed_mph at the plate; 0 off a tee
 * @example ownSpeed(100, 80, 0.2) // 84
 */
export function ownSpeed(exitVelocity_mph: number, pitchSpeed_mph: number, q: number): number {
  return exitVelocity_mph - q * pitchSpeed_mph;
}

/**
 * Top-end exit velocity, mph: the 95th percentile (linear between order statistics) of speed ÷ shape over the swings
 * within the ceiling's range, drawn toward the level's figure with weight n/(n + 15). Without a level it stands
 * alone, once the swings weigh as much as a level would.
 * @param speeds exit velocities, the pitch's part taken out, mph
 * @param offs_deg launch angles less the best one, °, one for each
 * @param levelTop_mph the level's figure, or null
 * @example topExitVelocity([], [], { middles_deg: [], corrections: [], n: [] }, 94).top_mph // 94
 * @example topExitVelocity([90], [-2], { middles_deg: [], corrections: [], n: [] }, 94).top_mph // 93.75
 * @example topExitVelocity([90], [-2], { middles_deg: [], corrections: [], n: [] }, null).top_mph // null
 */
export function topExitVelocity(
  speeds: readonly number[],
  offs_deg: readonly number[],
  shape: Shape,
  levelTop_mph: number | null,
  thresholds: Thresholds = defaultThresholds,
): Pick<Ceiling, "top_mph" | "n" | "ownShare" | "source"> {
  const straightened = new Float64Array(speeds.length);
  let n = 0;
  for (let i = 0; i < speeds.length; i++) {
    const share = shapeAt(shape, offs_deg[i]!, thresholds);
    if (share !== null) straightened[n++] = speeds[i]! / share;
  }
  const own = quantile(straightened.subarray(0, n), thresholds.ceiling_quantile) ?? null;
  if (own === null) {
    return { top_mph: levelTop_mph, n, ownShare: 0, source: levelTop_mph === null ? "unknown" : "level" };
  }
  const prior = thresholds.ceiling_prior_swings;
  if (levelTop_mph === null) {
    return n >= prior
      ? { top_mph: own, n, ownShare: 1, source: "swings" }
      : { top_mph: null, n, ownShare: 0, source: "unknown" };
  }
  const ownShare = n / (n + prior);
  return {
    top_mph: ownShare * own + (1 - ownShare) * levelTop_mph,
    n,
    ownShare,
    source: prior === 0 ? "swings" : "swings and level",
  };
}

/**
 * The ceiling at a launch angle, the pitch's part taken out, mph; null when the ceiling is unknown, or the angle is
 * outside its range.
 * @example ceilingAt({ top_mph: 100, angle_deg: 10 }, { middles_deg: [], corrections: [], n: [] }, 8) // 100
 * @example ceilingAt({ top_mph: 100, angle_deg: 10 }, { middles_deg: [], corrections: [], n: [] }, -21) // null
 */
export function ceilingAt(
  ceiling: Pick<Ceiling, "top_mph" | "angle_deg">,
  shape: Shape,
  launchAngle_deg: number,
  thresholds: Thresholds = defaultThresholds,
): number | null {
  const share = shapeAt(shape, launchAngle_deg - ceiling.angle_deg, thresholds);
  return ceiling.top_mph === null || share === null ? null : ceiling.top_mph * share;
}

/** A ceiling, and what of an exit velocity it is held against. */
export interface CeilingFor {
  readonly ceiling: Ceiling;
  /** Pitch speed to take out, mph: 0 where the pitch's part is left in; null when it is unknown. */
  readonly pitchSpeed_mph: number | null;
  /** Whether it is of this kind of work alone, its pitch speeds being unknown. */
  readonly alone: boolean;
}

/**
 * The ceiling that a swing is held against; undefined when its hitter has none from that side.
 * @param bats the side of this swing, the hitter's listed one filled in
 * @param pitchSpeed_mph at the plate, 0 off a tee, null when unknown
 * @example ceilingFor({ shape: null, byHitter: new Map() }, "A", "R", "tee", 0) // undefined
 */
export function ceilingFor(
  ceilings: Ceilings,
  hitter: string,
  bats: "L" | "R" | null,
  input: Input,
  pitchSpeed_mph: number | null,
): CeilingFor | undefined {
  const own = ceilings.byHitter.get(hitter)?.[bats ?? "unknown"];
  if (own === undefined) return undefined;
  const alone = own.alone[input];
  return alone === undefined
    ? { ceiling: own.together, pitchSpeed_mph, alone: false }
    : { ceiling: alone, pitchSpeed_mph: 0, alone: true };
}

/** The balls of one hitter, side of the plate and kind of work. */
interface Gathered {
  readonly speeds: number[];
  readonly launchAngles: number[];
  /** Pitch speed of each, NaN when unknown. */
  readonly pitches: number[];
}

type Gather = Partial<Record<Input, Gathered>> & { attackAngles: number[] };

/**
 * Every hitter's ceilings. A kind of work in which the pitch speed of more than half of the balls is unknown keeps a
 * ceiling of its own; where fewer are unknown, those balls are left out.
 * @param fixed ceilings given instead, mph at the best angle, the pitch's part taken out, by hitter
 * @example ceilingsOf([], { sessions: [], hitters: [] }).byHitter.size // 0
 */
export function ceilingsOf(
  swings: Iterable<Swing>,
  { sessions, hitters }: CeilingTables,
  thresholds: Thresholds = defaultThresholds,
  fixed: Readonly<Record<string, number>> = {},
): Ceilings {
  const bySession = new Map(sessions.map((s) => [s.session, s]));
  const listed = new Map(hitters.map((h) => [h.hitter, h]));
  const gathered = new Map<string, Partial<Record<PlateSide, Gather>>>();
  for (const swing of swings) {
    let bySide = gathered.get(swing.hitter);
    if (bySide === undefined) gathered.set(swing.hitter, (bySide = {}));
    const own = (bySide[plateSide(swing, listed.get(swing.hitter))] ??= { attackAngles: [] });
    const balls = (own[swing.input] ??= { speeds: [], launchAngles: [], pitches: [] });
    if (!measuredInPlay(swing)) continue;
    const session = swing.session === null ? null : (bySession.get(swing.session) ?? null);
    balls.speeds.push(swing.exit_velocity_mph!);
    balls.launchAngles.push(swing.launch_angle_deg!);
    balls.pitches.push(swingPitchSpeed(swing, session, thresholds) ?? NaN);
    if (swing.attack_angle_deg !== null) own.attackAngles.push(swing.attack_angle_deg);
  }
  const made = [...gathered].flatMap(([hitter, bySide]) =>
    (Object.entries(bySide) as [PlateSide, Gather][]).map(([side, own]) => ({
      hitter,
      side,
      ...sampled(own, thresholds),
    })),
  );
  const shape = pooledShape(
    made.flatMap(({ together, alone }) => [together, ...alone.map(([, sample]) => sample)]),
    thresholds,
  );
  const byHitter = new Map<string, Partial<Record<PlateSide, SideCeilings>>>();
  for (const { hitter, side, together, alone, angle_deg, angleSource } of made) {
    const level = findLevel(listed.get(hitter)?.level ?? null)?.top_exit_velocity_mph ?? null;
    const given = Object.hasOwn(fixed, hitter)
      ? ({ top_mph: fixed[hitter]!, ownShare: 1, source: "fixed" } as const)
      : {};
    const ceiling = ({ speeds, offs_deg }: Sample): Ceiling => ({
      ...topExitVelocity(speeds, offs_deg, shape, level, thresholds),
      ...given,
      angle_deg,
      angleSource,
    });
    const own = byHitter.get(hitter) ?? {};
    byHitter.set(hitter, own);
    own[side] = {
      together: ceiling(together),
      alone: Object.fromEntries(alone.map(([input, sample]) => [input, ceiling(sample)])),
    };
  }
  return { shape, byHitter };
}

/** The side of the plate a swing is from: its own, else the hitter's listed one. */
function plateSide(swing: Pick<Swing, "bats">, hitter: Hitter | undefined): PlateSide {
  if (swing.bats !== null) return swing.bats;
  return hitter?.bats === "L" || hitter?.bats === "R" ? hitter.bats : "unknown";
}

interface Sample {
  readonly speeds: number[];
  readonly offs_deg: number[];
}

/** A hitter's balls from one side of the plate, laid together where their pitch speeds are known. */
function sampled(
  { attackAngles, ...byInput }: Gather,
  { ceiling_angle_deg, collision_q: q }: Thresholds,
): Pick<Ceiling, "angle_deg" | "angleSource"> & { together: Sample; alone: [Input, Sample][] } {
  const attack = median(attackAngles);
  const angle_deg = attack ?? ceiling_angle_deg;
  const together: Sample = { speeds: [], offs_deg: [] };
  const alone: [Input, Sample][] = [];
  for (const [input, { speeds, launchAngles, pitches }] of Object.entries(byInput) as [Input, Gathered][]) {
    const unknown = pitches.reduce((sum, v) => sum + Number(Number.isNaN(v)), 0);
    if (unknown > pitches.length / 2) {
      alone.push([input, { speeds, offs_deg: launchAngles.map((angle) => angle - angle_deg) }]);
      continue;
    }
    speeds.forEach((speed, i) => {
      if (Number.isNaN(pitches[i]!)) return;
      together.speeds.push(ownSpeed(speed, pitches[i]!, q));
      together.offs_deg.push(launchAngles[i]! - angle_deg);
    });
  }
  const angleSource = attack === undefined ? "assumed" : "attack angle";
  return { angle_deg, angleSource, together, alone };
}
