/**
 * The nine cells of the zone, by where the ball was met. The outer cells are open outward: a ball met off the
 * plate, or above or below the zone, counts with the cell nearest to it, so that every measured contact has one.
 */
import table from "../../data/thresholds.json" with { type: "json" };
import type { Swing } from "../swing/fields.ts";

/** A cell: row 0 low to 2 high, column 0 inside to 2 outside, as the batter sees it. */
export interface Cell {
  readonly row: 0 | 1 | 2;
  readonly column: 0 | 1 | 2;
}

/** What sets the zone's size: entries of the thresholds' table. */
export interface ZoneShape {
  /** Width of home plate, in. */
  readonly zone_width_in: number;
  /** Bottom and top of the zone, as shares of the hitter's height. */
  readonly zone_bottom_share: number;
  readonly zone_top_share: number;
  /** Height of a hitter whose height is unknown, in. */
  readonly zone_hitter_height_in: number;
}

/** The zone's shape as data/thresholds.json has it. */
export const defaultZone: ZoneShape = {
  zone_width_in: table.zone_width_in.value,
  zone_bottom_share: table.zone_bottom_share.value,
  zone_top_share: table.zone_top_share.value,
  zone_hitter_height_in: table.zone_hitter_height_in.value,
};

/** The lines of the three by three cells, ft. */
export interface ZoneEdges {
  /** Four lines from third base's side of the plate to first base's; the plate's middle is 0. */
  readonly side_ft: readonly [number, number, number, number];
  /** Four lines from the bottom up, above the ground. */
  readonly height_ft: readonly [number, number, number, number];
}

function thirds(low: number, high: number): [number, number, number, number] {
  const step = (high - low) / 3;
  return [low, low + step, high - step, high];
}

/**
 * Where the zone's lines are, ft.
 * @param height_in the hitter's height, in
 * @example zoneEdges(72).height_ft // [1.620, 2.150, 2.680, 3.210]
 * @example zoneEdges(72).side_ft // [-0.708, -0.236, 0.236, 0.708]
 */
export function zoneEdges(height_in: number | null = null, shape: ZoneShape = defaultZone): ZoneEdges {
  const half = shape.zone_width_in / 24;
  const tall = (height_in ?? shape.zone_hitter_height_in) / 12;
  return {
    side_ft: thirds(-half, half),
    height_ft: thirds(shape.zone_bottom_share * tall, shape.zone_top_share * tall),
  };
}

/**
 * The cell a ball was met in; null when the batter's side, or the side or height of the contact, is unknown. A
 * ball on a line belongs to the middle cell.
 * @param swing contact in ft, as in swings.csv
 * @param height_in the hitter's height, in
 * @example cellOf({ bats: "R", contact_side_ft: -0.5, contact_height_ft: 1.7 }, 72) // { row: 0, column: 0 }
 * @example cellOf({ bats: "L", contact_side_ft: -0.5, contact_height_ft: 2.4 }, 72) // { row: 1, column: 2 }
 * @example cellOf({ bats: null, contact_side_ft: 0, contact_height_ft: 2.4 }) // null
 */
export function cellOf(
  swing: Pick<Swing, "bats" | "contact_side_ft" | "contact_height_ft">,
  height_in: number | null = null,
  shape: ZoneShape = defaultZone,
): Cell | null {
  const { bats, contact_side_ft: side, contact_height_ft: height } = swing;
  if (bats === null || side === null || height === null) return null;
  const { side_ft, height_ft } = zoneEdges(height_in, shape);
  const outward = bats === "R" ? side : -side;
  return {
    row: height < height_ft[1] ? 0 : height > height_ft[2] ? 2 : 1,
    column: outward < side_ft[1] ? 0 : outward > side_ft[2] ? 2 : 1,
  };
}
