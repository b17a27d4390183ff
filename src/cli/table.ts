/**
 * Tables for a terminal. Of npm's printers the ones that know wide letters draw frames or read objects, and none lets a
 * row's last cell run on; what is hard, how wide a text stands, is `string-width`'s.
 */
import stringWidth from "string-width";
import { largest } from "../swing/lists.ts";
import { printable } from "../swing/problems.ts";

export interface TableLook {
  /** The columns' heads; none when left out. */
  readonly head?: readonly string[];
  /** Which columns are numbers, and end in line; the others begin in line. */
  readonly right?: readonly number[];
  /** Blanks before each row. */
  readonly indent?: number;
}

/**
 * Rows in columns, two blanks between them: one line a row, ending in a newline. The last cell of a row that is shorter
 * than the others runs on, and makes no column wider.
 * @example tableText([["Ana", "93"], ["Bo", "101"]], { right: [1] }) // "Ana   93\nBo   101\n"
 * @example tableText([["日本", "1"], ["Ana", "2"]]) // "日本  1\nAna   2\n"
 * @example tableText([]) // ""
 */
export function tableText(
  rows: readonly (readonly string[])[],
  { head, right = [], indent = 0 }: TableLook = {},
): string {
  const cells = (head === undefined ? rows : [head, ...rows]).map((row) => row.map(printable));
  const columns = largest(
    cells.map((row) => row.length),
    0,
  );
  const runsOn = (row: readonly string[], at: number): boolean => at === row.length - 1 && at < columns - 1;
  const widths = Array.from({ length: columns }, (_, at) =>
    largest(
      cells.map((row) => (row[at] === undefined || runsOn(row, at) ? 0 : stringWidth(row[at]))),
      0,
    ),
  );
  const placed = (row: readonly string[]): string =>
    row
      .map((cell, at) => {
        if (runsOn(row, at)) return cell;
        const blanks = " ".repeat(widths[at]! - stringWidth(cell));
        return right.includes(at) ? blanks + cell : cell + blanks;
      })
      .join("  ");
  return cells.map((row) => `${" ".repeat(indent)}${placed(row)}`.trimEnd() + "\n").join("");
}
