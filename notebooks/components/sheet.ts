/** A table that can be taken away: shown in words, and downloaded as CSV with every digit. */
import { csvText } from "../../src/reading/csv.ts";
import { box, table } from "./show.ts";
import { counted } from "../../src/swing/words.ts";

/** A table as shown, and its rows as a file holds them. */
export interface Sheet {
  /** The file's name, without its end. */
  readonly file: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** All with the same columns. */
  readonly records: readonly Readonly<Record<string, string | number | null>>[];
}

/**
 * A sheet's text as CSV: unknown is empty, and a text that a spreadsheet would compute is guarded.
 * @example sheetText({ file: "a", head: [], rows: [], records: [{ hitter: "=A", n: 2 }] }) // "hitter,n\r\n'=A,2\r\n"
 */
function sheetText({ records }: Sheet): string {
  return csvText(
    records,
    Object.keys(records[0] ?? {}).map((name) => ({ name })),
  );
}

/** From so many columns on a table stands across the page. */
const widest = 6;

/** The table with its download below it. */
export function sheet(one: Sheet): HTMLElement {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "download";
  button.textContent = "Download as CSV";
  button.setAttribute("aria-label", `Download as CSV: ${one.file}`);
  button.addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([sheetText(one)], { type: "text/csv;charset=utf-8" }));
    link.download = `${one.file}.csv`;
    link.click();
    // The browser reads it after the click: not before the next turn may it be forgotten.
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  });
  // Many columns take the page's whole width.
  const wide = one.head.length >= widest;
  return box(wide ? "sheet wide" : "sheet", table(one.head, one.rows), button);
}

/** A long sheet, folded away under a line that says what it holds. */
export function folded(summary: string, one: Sheet): HTMLElement {
  const details = document.createElement("details");
  details.appendChild(document.createElement("summary")).textContent =
    `${summary} (${counted(one.rows.length, "row")})`;
  details.appendChild(sheet(one));
  return details;
}
