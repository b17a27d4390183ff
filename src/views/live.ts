/** Live work: what was thrown, and what came of it. */
import { swingPitchSpeed, type PitchSpeedSource } from "../contact/collision.ts";
import { defaultThresholds, type Thresholds } from "../contact/thresholds.ts";
import { zoneEdges, type Cell } from "../field/zone.ts";
import { ballFor } from "../flight/ball.ts";
import { meanEstimate, quantileEstimate, type Estimate } from "../stats/estimate.ts";
import { shareOf, sharesOf, type Share } from "../stats/share.ts";
import type { Bucket, EnrichedSwing } from "../swing/fields.ts";
import { ft } from "../units/index.ts";
import { bucketShares } from "./shares.ts";
import { inPlay, ofInput, sessionsOf, swungAt, wellHitShare } from "./swings.ts";
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
  /** Each contact bucket's share of the balls in play that have one, worst first. */
  readonly buckets: readonly ({ readonly bucket: Bucket } & Share)[];
  /** Clean or flush, of the same balls. */
  readonly well_hit: Share;
}

export interface PitchTypeResult extends LiveResult {
  /** Null: nobody wrote down what was thrown. */
  readonly pitch_type: string | null;
}

export interface PitcherResult extends LiveResult {
  /** Null: nobody wrote down who threw. */
  readonly pitcher: string | null;
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
  /** Most thrown first. */
  readonly by_pitcher: readonly PitcherResult[];
  /** The nine cells of the zone. */
  readonly by_place: readonly (Cell & LiveResult)[];
}

/** What sets the cells, and where pitch speeds were measured. */
export type LiveOptions = ZoneOptions & PitchSpeedSource;

/**
 * The live rows among the given: outcomes, misses and chases, by pitch type, speed at the plate, pitcher and place.
 * @param rows one hitter's swings; those of other inputs are left out
 * @example liveView([]).misses.share // null
 */
export function liveView(rows: readonly EnrichedSwing[], options: LiveOptions = {}): LiveView {
  const pitches = ofInput(rows, "live");
  const placed = byCell(pitches, options);
  const { inside, outside } = byZone(pitches, options);
  return {
    ...resultOf(pitches),
    chases: swungShare(outside),
    zone_swings: swungShare(inside),
    by_pitch_type: byName(pitches, (r) => r.pitch_type).map(({ name, ...r }) => ({ pitch_type: name, ...r })),
    by_speed: bySpeed(pitches, options.sessions ?? [], options.thresholds ?? defaultThresholds),
    by_pitcher: byName(pitches, (r) => r.pitcher).map(({ name, ...r }) => ({ pitcher: name, ...r })),
    by_place: cells.map((cell, i) => ({ ...cell, ...resultOf(placed[i]!) })),
  };
}

/** How many of some pitches were swung at. */
function swungShare(pitches: readonly EnrichedSwing[]): Share {
  return shareOf(
    pitches.map((r) => swungAt([r]).length > 0),
    sessionsOf(pitches),
  );
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
      sessionsOf(pitches),
    ).map(({ label, ...s }) => ({ outcome: label, ...s })),
    misses: shareOf(
      swings.map((r) => r.outcome === "miss"),
      sessionsOf(swings),
    ),
    exit_velocity_mph: meanEstimate(
      balls.map((r) => r.exit_velocity_mph),
      sessionsOf(balls),
    ),
    power_kept: quantileEstimate(
      balls.map((r) => r.power_kept),
      0.5,
      sessionsOf(balls),
    ),
    buckets: bucketShares(balls),
    well_hit: wellHitShare(balls),
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

/** Most thrown first, the unnamed last. */
function byName(
  pitches: readonly EnrichedSwing[],
  nameOf: (row: EnrichedSwing) => string | null,
): (LiveResult & { name: string | null })[] {
  return [...groupBy(pitches, nameOf)]
    .map(([name, list]) => ({ name, ...resultOf(list) }))
    .sort((a, b) => Number(a.name === null) - Number(b.name === null) || b.pitches - a.pitches);
}

/**
 * The lower end of a speed's band, mph.
 * @example bandOf(83) // 80
 */
export function bandOf(speed_mph: number): number {
  return Math.floor(speed_mph / speedBand_mph) * speedBand_mph;
}

function bySpeed(
  pitches: readonly EnrichedSwing[],
  sessions: NonNullable<LiveOptions["sessions"]>,
  thresholds: Thresholds,
): SpeedResult[] {
  const named = new Map(sessions.map((s) => [s.session, s]));
  const low = (row: EnrichedSwing): number | null => {
    const speed = swingPitchSpeed(row, named.get(row.session ?? "") ?? null, thresholds);
    return speed === null ? null : bandOf(speed);
  };
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
