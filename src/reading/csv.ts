/** Rows as CSV text (RFC 4180), safe to open in a spreadsheet; no files, so that a browser can do it too. */
import { missingValues } from "./cells.ts";
import type { Field } from "../swing/fields.ts";
import { guarded } from "../swing/guard.ts";

function textCell(text: string): string {
  const safe = guarded(text);
  return /[",\r\n]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/**
 * One cell. A number is written with every digit it has, a text that a spreadsheet would compute gets a `'` in
 * front, which reading takes off again, and unknown is empty.
 * @example csvCell("=1+1") // "'=1+1"
 */
export function csvCell(value: unknown): string {
  if (value === null || value === undefined) return "";
  if (typeof value === "number") return Number.isFinite(value) ? String(value) : "";
  if (typeof value === "boolean") return String(value);
  return textCell(String(value));
}

/**
 * One cell of another file, as it stood there: what reading takes for a number or for unknown is not guarded, so that
 * the row can be read again.
 * @example csvAsItStood("-12,5") // '"-12,5"'
 * @example csvAsItStood("-") // "-"
 * @example csvAsItStood("-1+2") // "'-1+2"
 */
export function csvAsItStood(text: string): string {
  if (missingValues.includes(text)) return text;
  if (!/^[-+\u2212]?[\d.,]+$/.test(text)) return textCell(text);
  return text.includes(",") ? `"${text}"` : text;
}

type Named = Pick<Field, "name">;

/** The heading row, with its line end. */
export function csvHeader(fields: readonly Named[]): string {
  return `${fields.map((f) => csvCell(f.name)).join(",")}\r\n`;
}

/** One row, with its line end. */
export function csvRow(row: object, fields: readonly Named[]): string {
  const values = row as Readonly<Record<string, unknown>>;
  let text = csvCell(values[fields[0]!.name]);
  for (let i = 1; i < fields.length; i++) text += `,${csvCell(values[fields[i]!.name])}`;
  return `${text}\r\n`;
}

/**
 * A whole table as CSV text.
 * @example csvText([{ a: 1, b: null }], [{ name: "a" }, { name: "b" }]) // "a,b\r\n1,\r\n"
 */
export function csvText(rows: Iterable<object>, fields: readonly Named[]): string {
  let text = csvHeader(fields);
  for (const row of rows) text += csvRow(row, fields);
  return text;
}
