/** Putting single rows of a sheet right where they stand: every other row stays as it is. */
import { Lines, Records, type Delimiter } from "./records.ts";
import { missingValues } from "./cells.ts";

/**
 * A row as a line of a sheet, its cells as they are.
 * @example rowLine(["Ana", "12,5", 'the "L"'], ",") // 'Ana,"12,5","the ""L"""'
 */
export function rowLine(cells: readonly string[], delimiter: Delimiter): string {
  return cells
    .map((cell) => {
      if (missingValues.includes(cell)) return cell;
      const quotes = cell.includes(delimiter) || /["\r\n]|^\s|\s$/.test(cell);
      return quotes ? `"${cell.replaceAll('"', '""')}"` : cell;
    })
    .join(delimiter);
}

/**
 * A sheet's text with some of its rows replaced, in pieces.
 * @param fixes the new line of each row, by the number that a spreadsheet shows
 */
export async function* mended(
  pieces: AsyncIterable<string> | Iterable<string>,
  delimiter: Delimiter,
  fixes: ReadonlyMap<number, string>,
): AsyncGenerator<string> {
  const lines = new Lines();
  const records = new Records(delimiter);
  let waiting: string[] = [];
  const take = (line: string, last: boolean): string => {
    const row = records.rows + 1;
    waiting.push(line);
    const made = records.push([line], last);
    if (records.isOpen) return "";
    const fixed = fixes.get(row);
    // Where a quotation mark is never closed, the row is the line that opens it.
    const isOne = waiting.length === 1 || (made.length === 1 && records.rows === row);
    const kept = fixed === undefined ? waiting : [fixed, ...(isOne ? [] : waiting.slice(1))];
    waiting = [];
    return kept.map((text) => `${text}\n`).join("");
  };
  let held: string | null = null;
  for await (const piece of pieces) {
    let text = "";
    for (const line of lines.push(piece)) {
      if (held !== null) text += take(held, false);
      held = line;
    }
    if (text !== "") yield text;
  }
  let text = "";
  for (const line of lines.end()) {
    if (held !== null) text += take(held, false);
    held = line;
  }
  if (held !== null) text += take(held, true);
  if (text !== "") yield text;
}
