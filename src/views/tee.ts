/** Tee work: the ball waits, so what differs is where it was set and how it was struck. */
import { meanEstimate, type Estimate } from "../stats/estimate.ts";
import { lazily } from "../stats/lazily.ts";
import { slopeEstimate } from "../stats/slope.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { repeatability, type Repeatability } from "./repeatability.ts";
import { inPlay, ofInput, sessionsOf, swungAt, towardOutside } from "./swings.ts";
import { zoneCells, type ZoneCell, type ZoneOptions } from "./zone.ts";

/** Exit velocity against where the ball was met: mph for each foot. */
export interface PlaceSlopes {
  /** Farther from the batter. */
  readonly outward: Estimate;
  readonly upward: Estimate;
  /** Farther toward the pitcher. */
  readonly forward: Estimate;
}

/** What tee work shows. */
export interface TeeView {
  readonly swings: number;
  readonly in_play: number;
  readonly exit_velocity_mph: Estimate;
  /** The nine cells, and the balls in play whose place is unknown. */
  readonly cells: readonly ZoneCell[];
  readonly unplaced: number;
  readonly place: PlaceSlopes;
  readonly repeatability: Repeatability;
}

/**
 * The tee rows among the given, as contact point against result and as repeatability.
 * @param rows one hitter's swings; those of other inputs are left out
 * @example teeView([]).swings // 0
 */
export function teeView(rows: readonly EnrichedSwing[], options: ZoneOptions = {}): TeeView {
  return { ...placeAndResult(ofInput(rows, "tee"), options) };
}

/**
 * Contact point against result, and repeatability, of the rows as given: what tee and flip have in common.
 * @example placeAndResult([]).cells.length // 9
 */
export function placeAndResult(rows: readonly EnrichedSwing[], options: ZoneOptions = {}): TeeView {
  const balls = inPlay(rows);
  const cells = zoneCells(balls, options);
  return {
    swings: swungAt(rows).length,
    in_play: balls.length,
    exit_velocity_mph: meanEstimate(
      balls.map((r) => r.exit_velocity_mph),
      sessionsOf(balls),
    ),
    cells,
    unplaced: balls.length - cells.reduce((sum, cell) => sum + cell.n, 0),
    place: placeSlopes(balls),
    repeatability: repeatability(balls),
  };
}

function placeSlopes(balls: readonly EnrichedSwing[]): PlaceSlopes {
  const speed = balls.map((r) => r.exit_velocity_mph);
  const sessions = sessionsOf(balls);
  return lazily<PlaceSlopes>({
    outward: () => slopeEstimate(balls.map(towardOutside), speed, sessions),
    upward: () =>
      slopeEstimate(
        balls.map((r) => r.contact_height_ft),
        speed,
        sessions,
      ),
    forward: () =>
      slopeEstimate(
        balls.map((r) => r.contact_depth_ft),
        speed,
        sessions,
      ),
  });
}
