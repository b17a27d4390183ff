/** What a table's columns hold, for a terminal. */
import { mostTexts, type ColumnSummary } from "../reading/check.ts";
import { tables } from "../swing/tables.ts";
import { tableText } from "./table.ts";

/** Decimals a column of numbers is shown with: the wider it may range, the fewer. */
function decimalsOf(name: string): number {
  const field = tables.flatMap((t) => t.fields).find((f) => f.name === name);
  const range = (field?.max ?? 1) - (field?.min ?? 0);
  return range > 1000 ? 0 : range <= 20 ? 2 : 1;
}

/** The columns as a plain table. */
export function columnTable(columns: readonly ColumnSummary[]): string {
  const rows = columns
    .filter((c) => c.filled > 0)
    .map((c) => {
      const start = [c.field, String(c.filled)];
      if (c.median !== null)
        return [...start, ...[c.min, c.median, c.max].map((v) => v!.toFixed(decimalsOf(c.field)))];
      if (c.words !== null) return [...start, c.words.map(({ word, count: n }) => `${word} ${n}`).join(", ")];
      if (c.texts !== null)
        return [...start, `${c.texts}${c.texts === mostTexts ? " or more" : ""} different`];
      return [...start, `${c.first?.slice(0, 16) ?? ""} to ${c.last?.slice(0, 16) ?? ""}`];
    });
  const table = tableText(rows, { head: ["column", "filled", "min", "median", "max"], right: [1, 2, 3, 4] });
  const empty = columns.filter((c) => c.filled === 0).map((c) => c.field);
  return empty.length === 0 ? table : `${table}Nothing in: ${empty.join(", ")}.\n`;
}
