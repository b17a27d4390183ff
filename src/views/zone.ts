/** The nine cells of the zone: what a hitter keeps of the power in each. */
import { cellOf, type Cell, type ZoneShape } from "../field/zone.ts";
import { meanEstimate, quantileEstimate, type Estimate } from "../stats/estimate.ts";
import { lazily } from "../stats/lazily.ts";
import type { Share } from "../stats/share.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { inPlay, sessionsOf, wellHitShare } from "./swings.ts";

/** What sets the cells: the hitter's height, and the zone's shape when a library has its own. */
export interface ZoneOptions {
  readonly height_in?: number | null;
  readonly zone?: ZoneShape;
}

/** One cell's balls in play. */
export interface ZoneCell extends Cell {
  /** Balls in play met there. */
  readonly n: number;
  /** Median: a ball hit nearly straight up or misread would carry a mean away. */
  readonly power_kept: Estimate;
  readonly exit_velocity_mph: Estimate;
  /** Clean or flush, of those with a bucket. */
  readonly well_hit: Share;
}

const thirds = [0, 1, 2] as const;

/** All nine cells, low row first, inside first. */
export const cells: readonly Cell[] = thirds.flatMap((row) => thirds.map((column) => ({ row, column })));

/**
 * The nine cells with the balls in play met in each; a ball whose place is unknown is in none.
 * @param rows one hitter's swings
 * @example zoneCells([]).length // 9
 */
export function zoneCells(rows: readonly EnrichedSwing[], options: ZoneOptions = {}): ZoneCell[] {
  const placed = byCell(inPlay(rows), options);
  return cells.map(({ row, column }) => {
    const here = placed[row * 3 + column]!;
    return lazily<ZoneCell>({
      row: () => row,
      column: () => column,
      n: () => here.length,
      power_kept: () =>
        quantileEstimate(
          here.map((r) => r.power_kept),
          0.5,
          sessionsOf(here),
        ),
      exit_velocity_mph: () =>
        meanEstimate(
          here.map((r) => r.exit_velocity_mph),
          sessionsOf(here),
        ),
      well_hit: () => wellHitShare(here),
    });
  });
}

/**
 * Rows by the cell they were met in, in the order of `cells`; rows of unknown place are left out.
 * @example byCell([]) // [[], [], [], [], [], [], [], [], []]
 */
export function byCell<R extends Pick<EnrichedSwing, "bats" | "contact_side_ft" | "contact_height_ft">>(
  rows: readonly R[],
  { height_in = null, zone }: ZoneOptions = {},
): R[][] {
  const lists: R[][] = cells.map(() => []);
  for (const row of rows) {
    const cell = cellOf(row, height_in, zone);
    if (cell !== null) lists[cell.row * 3 + cell.column]!.push(row);
  }
  return lists;
}

/**
 * A cell in words.
 * @example cellName({ row: 0, column: 2 }) // "low and outside"
 * @example cellName({ row: 1, column: 1 }) // "middle of the zone"
 */
export function cellName({ row, column }: Cell): string {
  const height = ["low", "middle", "high"][row]!;
  const side = ["inside", "middle", "outside"][column]!;
  if (row === 1 && column === 1) return "middle of the zone";
  if (row === 1) return `${side}, middle height`;
  return column === 1 ? `${height}, over the middle` : `${height} and ${side}`;
}
