/**
 * The ceiling: the exit velocity a hitter can reach at a launch angle, C·cos(θ − θ₀). θ₀ is the angle of the
 * hitter's hardest contact; C, the top-end exit velocity, comes from the hitter's own swings in that input,
 * drawn toward the level's figure while they are few.
 */
import { median, quantile } from "d3";
import type { Hitter, Input, Swing } from "../swing/fields.ts";
import { deg } from "../units/index.ts";
import { findLevel } from "./levels.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/** A hitter's ceiling in one input. */
export interface Ceiling {
  /** Top-end exit velocity, mph; null when the swings are too few and no level is known. */
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

/** The ceilings of one hitter, by input; only inputs the hitter has swings in. */
export type HitterCeilings = Partial<Record<Input, Ceiling>>;

/** Whether a swing counts toward the ceiling's swings: a ball in play with its launch measured. */
function measuredInPlay(swing: Swing): boolean {
  return (
    (swing.outcome === "in_play" || swing.outcome === null) &&
    swing.exit_velocity_mph !== null &&
    swing.launch_angle_deg !== null
  );
}

/**
 * Top-end exit velocity, mph: the 95th percentile (linear between order statistics) of exit velocity ÷
 * cos(θ − θ₀) over the swings within the window of θ₀, drawn toward the level's figure with weight n/(n + 15).
 * Without a level it stands alone, once the swings weigh as much as a level would.
 * @param exitVelocities mph
 * @param launchAngles °, one for each exit velocity
 * @param levelTop_mph the level's figure, or null
 * @example topExitVelocity([], [], 10, 94).top_mph // 94
 * @example topExitVelocity([90], [10], 10, 94).top_mph // 93.75
 * @example topExitVelocity([90], [10], 10, null).top_mph // null
 */
export function topExitVelocity(
  exitVelocities: readonly number[],
  launchAngles: readonly number[],
  angle_deg: number,
  levelTop_mph: number | null,
  thresholds: Thresholds = defaultThresholds,
): Pick<Ceiling, "top_mph" | "n" | "ownShare" | "source"> {
  const straightened = new Float64Array(exitVelocities.length);
  let n = 0;
  for (let i = 0; i < exitVelocities.length; i++) {
    const off = launchAngles[i]! - angle_deg;
    if (Math.abs(off) <= thresholds.ceiling_window_deg) {
      straightened[n++] = exitVelocities[i]! / Math.cos(off * deg);
    }
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
 * The ceiling at a launch angle, mph; null when the ceiling is unknown, or the angle is so far from the hardest
 * contact's (90° and more) that the formula has none.
 * @example ceilingAt({ top_mph: 100, angle_deg: 10 }, 70) // 50.0
 * @example ceilingAt({ top_mph: 100, angle_deg: 10 }, -80) // null
 */
export function ceilingAt(
  ceiling: Pick<Ceiling, "top_mph" | "angle_deg">,
  launchAngle_deg: number,
): number | null {
  const off = launchAngle_deg - ceiling.angle_deg;
  if (ceiling.top_mph === null || !(Math.abs(off) < 90)) return null;
  return ceiling.top_mph * Math.cos(off * deg);
}

interface Gathered {
  exitVelocities: number[];
  launchAngles: number[];
  attackAngles: number[];
}

/**
 * Every hitter's ceilings.
 * @param fixed ceilings given instead, mph at the best angle, by hitter
 * @example ceilingsOf([], []).size // 0
 */
export function ceilingsOf(
  swings: Iterable<Swing>,
  hitters: readonly Hitter[],
  thresholds: Thresholds = defaultThresholds,
  fixed: Readonly<Record<string, number>> = {},
): Map<string, HitterCeilings> {
  const gathered = new Map<string, Partial<Record<Input, Gathered>>>();
  for (const swing of swings) {
    let byInput = gathered.get(swing.hitter);
    if (byInput === undefined) gathered.set(swing.hitter, (byInput = {}));
    const group = (byInput[swing.input] ??= { exitVelocities: [], launchAngles: [], attackAngles: [] });
    if (!measuredInPlay(swing)) continue;
    group.exitVelocities.push(swing.exit_velocity_mph!);
    group.launchAngles.push(swing.launch_angle_deg!);
    if (swing.attack_angle_deg !== null) group.attackAngles.push(swing.attack_angle_deg);
  }
  const levelOf = new Map(hitters.map((h) => [h.hitter, findLevel(h.level)]));
  const ceilings = new Map<string, HitterCeilings>();
  for (const [hitter, byInput] of gathered) {
    const own: HitterCeilings = {};
    for (const [input, group] of Object.entries(byInput) as [Input, Gathered][]) {
      const attack = median(group.attackAngles);
      const angle_deg = attack ?? thresholds.ceiling_angle_deg;
      const fixedTop = Object.hasOwn(fixed, hitter) ? fixed[hitter]! : null;
      const top = topExitVelocity(
        group.exitVelocities,
        group.launchAngles,
        angle_deg,
        levelOf.get(hitter)?.top_exit_velocity_mph ?? null,
        thresholds,
      );
      own[input] = {
        ...top,
        ...(fixedTop === null ? {} : { top_mph: fixedTop, ownShare: 1, source: "fixed" }),
        angle_deg,
        angleSource: attack === undefined ? "assumed" : "attack angle",
      };
    }
    ceilings.set(hitter, own);
  }
  return ceilings;
}
