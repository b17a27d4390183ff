/** Spin off the bat: measured, pieced together from what was measured, or estimated from the launch. */
import type { EnrichedSwing, Swing } from "../swing/fields.ts";
import { deg, rpm } from "../units/index.ts";

/**
 * Where a spin came from: backspin and sidespin measured, its rate and axis measured, its rate alone, or nothing.
 * Each has a spread of its own.
 */
export const spinSources = ["measured", "rate_and_axis", "rate_only", "estimated"] as const;
export type SpinSource = (typeof spinSources)[number];

/**
 * A source as the field `spin_source` has it: both ways of measuring all of a spin are measured.
 * @example spinWord("rate_and_axis") // "measured"
 */
export function spinWord(source: SpinSource): NonNullable<EnrichedSwing["spin_source"]> {
  return source === "rate_and_axis" ? "measured" : source;
}

/**
 * The source behind an enriched row, told from its word and from what was measured.
 * @example spinSourceOf({ spin_source: "measured", backspin_rpm: null, sidespin_rpm: null }) // "rate_and_axis"
 */
export function spinSourceOf(
  row: Pick<EnrichedSwing, "spin_source" | "backspin_rpm" | "sidespin_rpm">,
): SpinSource | null {
  if (row.spin_source !== "measured") return row.spin_source;
  return row.backspin_rpm === null || row.sidespin_rpm === null ? "rate_and_axis" : "measured";
}

/** Backspin (positive lifts) and sidespin (positive curves toward right field), rad/s. */
export interface SpinRates {
  readonly backspin: number;
  readonly sidespin: number;
}

export interface Spin extends SpinRates {
  readonly source: SpinSource;
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/**
 * Backspin and sidespin expected of a launch (angles in rad, spins in rad/s): in degrees and rpm, with h = +1
 * for a right-handed batter, −1 for a left-handed one and 0 when unknown, backspin = −763 + 120 θ + 21 φ h
 * within −2000…4000 and sidespin = 849 h + 94 φ within ±3000.
 * Source: a regression to tracked fly balls, coefficients from memory.
 * @example estimateSpin(Math.PI / 6, 0, "R").backspin // 297.09
 */
export function estimateSpin(launchAngle: number, sprayAngle: number, bats: "L" | "R" | null): SpinRates {
  const theta = launchAngle / deg;
  const phi = sprayAngle / deg;
  const h = bats === "R" ? 1 : bats === "L" ? -1 : 0;
  return {
    backspin: clamp(-763 + 120 * theta + 21 * phi * h, -2000, 4000) * rpm,
    sidespin: clamp(849 * h + 94 * phi, -3000, 3000) * rpm,
  };
}

/** The fields of a swing that its spin is read from. */
export type SpinFields = Pick<
  Swing,
  | "bats"
  | "launch_angle_deg"
  | "spray_angle_deg"
  | "backspin_rpm"
  | "sidespin_rpm"
  | "spin_rpm"
  | "spin_axis_deg"
>;

/**
 * The spin of a swing. `measured`: backspin and sidespin. `rate_and_axis`: those two. `rate_only`: the measured rate about
 * the estimated axis. `estimated`: from the launch; a backspin or a sidespin measured alone is kept, and the
 * other one estimated. An unknown spray angle counts as the middle of the field.
 * @throws RangeError when something must be estimated and there is no launch angle.
 */
export function spinOf(swing: SpinFields): Spin {
  const { backspin_rpm: back, sidespin_rpm: side, spin_rpm: rate, spin_axis_deg: axis } = swing;
  if (back !== null && side !== null) {
    return { backspin: back * rpm, sidespin: side * rpm, source: "measured" };
  }
  if (rate !== null && axis !== null) {
    return {
      backspin: rate * rpm * Math.cos(axis * deg),
      sidespin: rate * rpm * Math.sin(axis * deg),
      source: "rate_and_axis",
    };
  }
  if (swing.launch_angle_deg === null)
    throw new RangeError("a spin can't be estimated without a launch angle");
  const estimate = estimateSpin(swing.launch_angle_deg * deg, (swing.spray_angle_deg ?? 0) * deg, swing.bats);
  if (rate !== null) {
    const direction = Math.atan2(estimate.sidespin, estimate.backspin);
    return {
      backspin: rate * rpm * Math.cos(direction),
      sidespin: rate * rpm * Math.sin(direction),
      source: "rate_only",
    };
  }
  return {
    backspin: back === null ? estimate.backspin : back * rpm,
    sidespin: side === null ? estimate.sidespin : side * rpm,
    source: "estimated",
  };
}
