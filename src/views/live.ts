/** Live work: what was thrown, and what came of it. */
import { zoneEdges, type Cell } from "../field/zone.ts";
import { ballFor } from "../flight/ball.ts";
import { meanEstimate, quantileEstimate, type Estimate } from "../stats/estimate.ts";
import { share, sharesOf, type Share } from "../stats/share.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { ft } from "../units/index.ts";
import { inPlay, ofInput, swungAt } from "./swings.ts";
import { byCell, cells, type ZoneOptions } from "./zone.ts";

/** What can come of a pitch. */
export const outcomes = ["in_play", "foul", "miss", "take"] as const;
export type Outcome = (typeof outcomes)[number];

/** Width of a band of pitch speeds, mph. */
export const speedBand_mph = 10;

/** What came of a group of pitches. */
export interface LiveResult {
  readonly pitches: number;
  readonly swings: number;
  /** Each outcome's share of the pitches whose outcome is known. */
  readonly outcomes: readonly ({ readonly outcome: Outcome } & Share)[];
  /** Misses, of the swings. */
  readonly misses: Share;
  readonly exit_velocity_mph: Estimate;
  /** Its median. */
  readonly power_kept: Estimate;
}

export interface PitchTypeResult extends LiveResult {
  /** Null: nobody wrote down what was thrown. */
  readonly pitch_type: string | null;
}

export interface SpeedResult extends LiveResult {
  /** From low up to, not including, high; null: not measured. */
  readonly low_mph: number | null;
  readonly high_mph: number | null;
}

/** What live work shows. */
export interface LiveView extends LiveResult {
  /**
   * Pitches outside the zone that were swung at, of those whose place is known. Nothing is counted where no
   * taken pitch has a place: a tracker that places only what was hit would call every pitch swung at.
   */
  readonly chases: Share;
  /** Pitches in the zone that were swung at, counted likewise. */
  readonly zone_swings: Share;
  /** Most thrown first. */
  readonly by_pitch_type: readonly PitchTypeResult[];
  /** Slowest first, unmeasured last. */
  readonly by_speed: readonly SpeedResult[];
  /** The nine cells of the zone. */
  readonly by_place: readonly (Cell & LiveResult)[];
}

/**
 * The live rows among the given: outcomes, misses and chases, by pitch type, speed and place.
 * @param rows one hitter's swings; those of other inputs are left out
 * @example liveView([]).misses.share // null
 */
export function liveView(rows: readonly EnrichedSwing[], options: ZoneOptions = {}): LiveView {
  const pitches = ofInput(rows, "live");
  const placed = byCell(pitches, options);
  const { inside, outside } = byZone(pitches, options);
  return {
    ...resultOf(pitches),
    chases: share(swungAt(outside).length, outside.length),
    zone_swings: share(swungAt(inside).length, inside.length),
    by_pitch_type: byPitchType(pitches),
    by_speed: bySpeed(pitches),
    by_place: cells.map((cell, i) => ({ ...cell, ...resultOf(placed[i]!) })),
  };
}

function resultOf(pitches: readonly EnrichedSwing[]): LiveResult {
  const swings = swungAt(pitches);
  const balls = inPlay(pitches);
  return {
    pitches: pitches.length,
    swings: swings.length,
    outcomes: sharesOf(
      pitches.map((r) => r.outcome),
      outcomes,
    ).map(({ label, ...s }) => ({ outcome: label, ...s })),
    misses: share(swings.filter((r) => r.outcome === "miss").length, swings.length),
    exit_velocity_mph: meanEstimate(balls.map((r) => r.exit_velocity_mph)),
    power_kept: quantileEstimate(
      balls.map((r) => r.power_kept),
      0.5,
    ),
  };
}

function groupBy<K>(rows: readonly EnrichedSwing[], key: (row: EnrichedSwing) => K): Map<K, EnrichedSwing[]> {
  const groups = new Map<K, EnrichedSwing[]>();
  for (const row of rows) {
    const list = groups.get(key(row));
    if (list) list.push(row);
    else groups.set(key(row), [row]);
  }
  return groups;
}

function byPitchType(pitches: readonly EnrichedSwing[]): PitchTypeResult[] {
  return [...groupBy(pitches, (r) => r.pitch_type)]
    .map(([pitch_type, list]) => ({ pitch_type, ...resultOf(list) }))
    .sort((a, b) => Number(a.pitch_type === null) - Number(b.pitch_type === null) || b.pitches - a.pitches);
}

function bySpeed(pitches: readonly EnrichedSwing[]): SpeedResult[] {
  const low = ({ pitch_speed_mph: v }: EnrichedSwing): number | null =>
    v === null ? null : Math.floor(v / speedBand_mph) * speedBand_mph;
  return [...groupBy(pitches, low)]
    .map(([from, list]) => ({
      low_mph: from,
      high_mph: from === null ? null : from + speedBand_mph,
      ...resultOf(list),
    }))
    .sort((a, b) => (a.low_mph ?? Infinity) - (b.low_mph ?? Infinity));
}

/** A pitch any part of which crosses the zone is in it; one of unknown place or outcome is in neither list. */
function byZone(
  pitches: readonly EnrichedSwing[],
  { height_in = null, zone }: ZoneOptions,
): { inside: EnrichedSwing[]; outside: EnrichedSwing[] } {
  const placed = pitches.filter((r) => r.contact_side_ft !== null && r.contact_height_ft !== null);
  if (!placed.some((r) => r.outcome === "take")) return { inside: [], outside: [] };
  const { side_ft, height_ft } = zoneEdges(height_in, zone);
  const radius_ft = ballFor(null).radius / ft;
  const [inside, outside]: [EnrichedSwing[], EnrichedSwing[]] = [[], []];
  for (const row of placed) {
    const { contact_side_ft: x, contact_height_ft: z, outcome } = row;
    if (outcome === null) continue;
    const off =
      Math.abs(x!) > side_ft[3] + radius_ft || z! < height_ft[0] - radius_ft || z! > height_ft[3] + radius_ft;
    (off ? outside : inside).push(row);
  }
  return { inside, outside };
}
