/** The rows that a command could not use, as one CSV that can be corrected and read again. */
import { isPrivate, refusedColumns } from "../reading/layout.ts";
import { problemSentence, type RefusedRow } from "../swing/problems.ts";
import { csvAsItStood, csvCell } from "../library/write.ts";

/** A file's refused rows, under the headings they had. */
export interface RefusedRows {
  readonly file: string;
  readonly header: readonly string[];
  readonly rows: readonly RefusedRow[];
}

/**
 * The refused rows of all files as one CSV: where each was, why it was refused, and its cells under the
 * headings they had. Once corrected it can be read again: the first three columns are not the kit's, and are put aside.
 * Birth dates and contacts are left out.
 */
export function* refusedPieces(files: readonly RefusedRows[]): Generator<string> {
  const own: readonly string[] = refusedColumns;
  const names = [...own];
  const places = new Map(names.map((name, at) => [name, at]));
  const table = files.flatMap(({ file, header, rows }) => {
    const at = header.map((heading, i) => {
      // A table of refused rows that is refused again tells the last place and reason.
      if (isPrivate(heading) || own.includes(heading)) return null;
      return heading === "" || header.indexOf(heading) < i ? `cell ${i + 1}` : heading;
    });
    const hides = header.some(isPrivate);
    return rows.map(({ row, cells, problems }) => {
      const line: string[] = [csvCell(file), String(row), csvCell(problems.map(problemSentence).join(" "))];
      // A row whose quotation marks don't match is one cell, which may hold anything of the row.
      const whole = cells.length > 1 || header.length <= 1;
      cells.forEach((cell, i) => {
        // More cells than headings: none of them is lost.
        const name = i < at.length ? at[i]! : `cell ${i + 1}`;
        if (name === null || (hides && !whole)) return;
        const place = places.get(name) ?? names.push(name) - 1;
        places.set(name, place);
        line[place] = csvAsItStood(cell);
      });
      return line;
    });
  });
  let text = `${names.map(csvCell).join(",")}\r\n`;
  for (const line of table) {
    text += `${Array.from(names, (_, i) => line[i] ?? "").join(",")}\r\n`;
    if (text.length > 1 << 18) {
      yield text;
      text = "";
    }
  }
  yield text;
}
