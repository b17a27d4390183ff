/** The nine cells of the zone as groups: where they are too thin to compare, neighbours merge. */
import { cellName, cells } from "../views/zone.ts";
import { smallest } from "../swing/lists.ts";

/** With fewer balls than this on either side a cell has no mean worth comparing. Common practice, no source. */
export const fewestInCell = 5;

/** Cells taken together. */
export interface CellGroup {
  /** Numbers of the cells, 3·row + column, that a ball was met in on either side. */
  readonly cells: readonly number[];
  /** In words. */
  readonly name: string;
}

/** Steps from cell to cell. */
const steps = (a: number, b: number): number =>
  Math.abs(Math.floor(a / 3) - Math.floor(b / 3)) + Math.abs((a % 3) - (b % 3));

/**
 * Groups of neighbouring cells, each with enough balls on both sides: the thinnest joins the thinnest of those next
 * to it until none is thin. Cells that no ball was met in are passed over. It goes by counts alone and never by what the balls did.
 * @param from balls in each of the nine cells, first side
 * @param to the second side
 * @example mergeThin([9, 9, 9, 9, 9, 9, 9, 9, 9], [9, 9, 9, 9, 9, 9, 9, 9, 9]).length // 9
 * @example mergeThin([9, 0, 0, 0, 0, 0, 0, 0, 0], [0, 0, 0, 0, 0, 0, 0, 0, 9]).length // 1
 */
export function mergeThin(
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  fewest: number = fewestInCell,
): CellGroup[] {
  let groups = cells
    .map((_, i) => ({ cells: [i], from: from[i]!, to: to[i]! }))
    .filter((g) => g.from + g.to > 0);
  type Group = (typeof groups)[number];
  const least = (g: Group): number => Math.min(g.from, g.to);
  const order = (a: Group, b: Group): number =>
    least(a) - least(b) || a.from + a.to - (b.from + b.to) || a.cells[0]! - b.cells[0]!;
  while (groups.length > 1) {
    const thinnest = [...groups].sort(order)[0]!;
    if (least(thinnest) >= fewest) break;
    const apart = (g: Group): number =>
      smallest(g.cells.flatMap((a) => thinnest.cells.map((b) => steps(a, b))));
    const other = groups.filter((g) => g !== thinnest).sort((a, b) => apart(a) - apart(b) || order(a, b))[0]!;
    const joined = {
      cells: [...thinnest.cells, ...other.cells].sort((a, b) => a - b),
      from: thinnest.from + other.from,
      to: thinnest.to + other.to,
    };
    groups = [...groups.filter((g) => g !== thinnest && g !== other), joined];
  }
  return groups
    .map((g) => g.cells)
    .sort((a, b) => a[0]! - b[0]!)
    .map((list) => ({ cells: list, name: list.map((c) => cellName(cells[c]!)).join(" + ") }));
}
