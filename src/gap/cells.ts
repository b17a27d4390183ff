/** The nine cells of the zone as groups: where they are too thin to compare, neighbours merge. */
import { cellName, cells } from "../views/zone.ts";

/** With fewer balls than this on either side a cell has no mean worth comparing. Common practice, no source. */
export const fewestInCell = 5;

/** Cells taken together. */
export interface CellGroup {
  /** Numbers of the cells, 3·row + column, that a ball was met in on either side. */
  readonly cells: readonly number[];
  /** In words. */
  readonly name: string;
}

const touching = (a: number, b: number): boolean =>
  Math.abs(Math.floor(a / 3) - Math.floor(b / 3)) + Math.abs((a % 3) - (b % 3)) === 1;

/**
 * Groups of touching cells, each with enough balls on both sides: the thinnest cell joins the thinnest of its
 * neighbours until none is thin. It goes by counts alone and never by what the balls did.
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
  let groups = cells.map((_, i) => ({ cells: [i], from: from[i]!, to: to[i]! }));
  const least = (g: (typeof groups)[number]): number => Math.min(g.from, g.to);
  const order = (a: (typeof groups)[number], b: (typeof groups)[number]): number =>
    least(a) - least(b) || a.from + a.to - (b.from + b.to) || a.cells[0]! - b.cells[0]!;
  while (groups.length > 1) {
    const thinnest = [...groups].sort(order)[0]!;
    if (least(thinnest) >= fewest) break;
    const other = groups
      .filter((g) => g !== thinnest && g.cells.some((a) => thinnest.cells.some((b) => touching(a, b))))
      .sort(order)[0]!;
    const joined = {
      cells: [...thinnest.cells, ...other.cells].sort((a, b) => a - b),
      from: thinnest.from + other.from,
      to: thinnest.to + other.to,
    };
    groups = [...groups.filter((g) => g !== thinnest && g !== other), joined];
  }
  return groups
    .map((g) => g.cells.filter((c) => from[c]! + to[c]! > 0))
    .filter((list) => list.length > 0)
    .sort((a, b) => a[0]! - b[0]!)
    .map((list) => ({ cells: list, name: list.map((c) => cellName(cells[c]!)).join(" + ") }));
}
