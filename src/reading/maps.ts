/**
 * Column maps: how a layout that is not the kit's own becomes it. A map is a JSON object:
 *
 * ```json
 * {
 *   "name": "Metric sheet",
 *   "delimiter": ";", "decimal": ",", "encoding": "windows-1252",
 *   "dates": "DD.MM.YYYY HH:mm:ss",
 *   "missing": ["n/a"],
 *   "columns": {
 *     "Player": "hitter",
 *     "Speed": { "field": "exit_velocity_mph", "unit": "km/h" },
 *     "Direction": { "field": "spray_angle_deg", "sign": -1 },
 *     "From": { "field": "input", "words": { "stand": "tee", "front toss": "flip", "pitcher": "live" } },
 *     "Firmware": null
 *   },
 *   "always": { "drill": "opposite field" }
 * }
 * ```
 *
 * Headings are compared without regard to capitals, blanks around them, or blank, hyphen and underscore between
 * words; the kit's own field names are understood beside the map's. A heading mapped to null is left out without a
 * warning. Two headings mapped to one text or time field (a day and a clock, a first and a last name) are joined with
 * a blank. A direction that is counted from the pull side has `"sign": "pull"` where positive is that side, and "opposite" where
 * it is the other; it takes the side that the row was hit from. `always` fills a field the layout has no column for. A number is converted from its unit, then multiplied
 * by `sign`, then `offset` is added in the field's own unit. `"order": "last, first"` turns a name that is written
 * "Rivera, Ana". Where the headings are the kit's own, `columns` may be
 * left out: `{ "encoding": "windows-1252" }`, `{ "dates": "MM/DD/YYYY" }`.
 */
import { dimension, isUnitName, type UnitName } from "../units/index.ts";
import { cellReader, Refusal } from "./cells.ts";
import { isDateFormat } from "./dates.ts";
import type { Field } from "../swing/fields.ts";
import { nameIn, notAmong } from "../swing/names.ts";
import { UnusableFile } from "../swing/problems.ts";
import { delimiters, type Delimiter } from "./records.ts";
import { furtherTables, tableOf, tables, type Table } from "../swing/tables.ts";
import { append } from "../swing/lists.ts";

/** How a column's numbers count: as they stand, turned round, or from the side that the hitter pulls to. */
export type Sign = 1 | -1 | PullSign;
export type PullSign = "pull" | "opposite";

/** What becomes of one column. */
export interface MappedColumn {
  readonly field: string;
  readonly unit?: UnitName;
  readonly sign?: Sign;
  readonly offset?: number;
  readonly words?: Readonly<Record<string, string>>;
  /** How a name is written whose family name comes first. */
  readonly order?: typeof familyFirst;
}

/** The one order of a name's parts that a map may name. */
export const familyFirst = "last, first";

/** A layout, as its JSON file describes it. */
export interface ColumnMap {
  readonly name?: string;
  /** The table its rows go to: swings unless told otherwise. */
  readonly table?: Table["name"];
  readonly delimiter?: Delimiter;
  readonly decimal?: "." | ",";
  readonly encoding?: string;
  readonly dates?: string;
  readonly missing?: readonly string[];
  readonly columns: Readonly<Record<string, string | MappedColumn | null>>;
  readonly always?: Readonly<Record<string, string>>;
}

/**
 * A heading as it is compared.
 * @example headingKey(" Exit-Velocity  Mph ") // "exit_velocity_mph"
 */
export function headingKey(heading: string): string {
  return heading
    .normalize("NFC")
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, "_");
}

const mapKeys = [
  "name",
  "table",
  "delimiter",
  "decimal",
  "encoding",
  "dates",
  "missing",
  "columns",
  "always",
];
/** What a map may say of a file whose headings are the kit's own. */
const textKeys = ["delimiter", "decimal", "encoding", "dates", "missing", "always"];
const columnKeys = ["field", "unit", "sign", "offset", "words", "order"];

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const show = (value: unknown): string => JSON.stringify(value) ?? String(value);

/** Whether a name is that of a text encoding that can be read. */
export function isEncoding(name: unknown): boolean {
  if (typeof name !== "string") return false;
  try {
    new TextDecoder(name);
    return true;
  } catch {
    return false;
  }
}

function columnProblems(at: string, column: Record<string, unknown>, field: Field): string[] {
  const found: string[] = [];
  const { unit, sign, offset, words, order } = column;
  for (const key of Object.keys(column)) {
    if (!columnKeys.includes(key))
      found.push(`${at} has ${show(key)}, which no column has (${columnKeys.join(", ")})`);
  }
  if (unit !== undefined) {
    if (typeof unit !== "string" || !isUnitName(unit)) found.push(`${at} has the unknown unit ${show(unit)}`);
    else if (field.unit === undefined) found.push(`${at} has a unit, and ${field.name} takes none`);
    else if (dimension(unit) !== dimension(field.unit)) {
      found.push(`${at} is in ${unit}, which can't become ${field.name}'s ${field.unit}`);
    }
  }
  const isPull = sign === "pull" || sign === "opposite";
  if (sign !== undefined && sign !== 1 && sign !== -1 && !isPull)
    found.push(`${at} has the sign ${show(sign)}, which is not 1, -1, "pull" or "opposite"`);
  if (isPull && field.name !== "spray_angle_deg")
    found.push(`${at} counts from the pull side, which only spray_angle_deg can`);
  if (isPull && offset !== undefined) found.push(`${at} counts from the pull side, and has an offset`);
  if (offset !== undefined && (typeof offset !== "number" || !Number.isFinite(offset))) {
    found.push(`${at} has the offset ${show(offset)}, which is not a number`);
  }
  if ((sign !== undefined || offset !== undefined) && field.type !== "number") {
    found.push(`${at} has a sign or an offset, and ${field.name} is not a number`);
  }
  if (order !== undefined && order !== familyFirst)
    found.push(`${at} has the order ${show(order)}, which is not ${show(familyFirst)}`);
  else if (order !== undefined && (field.type !== "string" || field.words !== undefined))
    found.push(`${at} has an order of names, and ${field.name} is no name`);
  if (words === undefined) return found;
  if (!isObject(words)) return [...found, `${at} has words that are not an object`];
  if (field.type === "number") return [...found, `${at} has words, and ${field.name} is a number`];
  const allowed = field.type === "boolean" ? ["true", "false"] : field.words;
  for (const [from, to] of Object.entries(words)) {
    if (typeof to !== "string") found.push(`${at} turns ${show(from)} into ${show(to)}, which is not text`);
    else if (allowed !== undefined && !allowed.includes(to)) {
      found.push(`${at} turns ${show(from)} into ${show(to)}, which is not one of ${allowed.join(", ")}`);
    } else if (field.names?.others === "refused" && nameIn(field.names, to) === null) {
      found.push(`${at} turns ${show(from)} into ${show(to)}, which ${notAmong(field.names, to)}`);
    }
  }
  return found;
}

/** The fields of the table a map is for. */
function fieldsOf(map: Pick<ColumnMap, "table">): readonly Field[] {
  return tables.find((t) => t.name === (map.table ?? "swings"))!.fields;
}

/**
 * What is wrong with a column map, each as a plain phrase; an empty list for a good one.
 * @example columnMapProblems({ columns: { Speed: "speed" } }) // ['"Speed" goes to "speed", which is no field of swings']
 */
export function columnMapProblems(value: unknown): string[] {
  if (!isObject(value)) return ["it is not a JSON object"];
  const found: string[] = [];
  for (const key of Object.keys(value)) {
    if (!mapKeys.includes(key))
      found.push(`it has ${show(key)}, which no column map has (${mapKeys.join(", ")})`);
  }
  const { name, table = "swings", delimiter, decimal, encoding, dates, missing, columns, always } = value;
  if (name !== undefined && typeof name !== "string") found.push("its name is not text");
  const names = tables.map((t) => t.name);
  if (!names.some((n) => n === table)) {
    return [...found, `its table is ${show(table)}, which is not one of ${names.join(", ")}`];
  }
  if (delimiter !== undefined && !delimiters.some((d) => d === delimiter)) {
    found.push(`its delimiter is ${show(delimiter)}, which is not a comma, a semicolon, a tab or a bar`);
  }
  if (decimal !== undefined && decimal !== "." && decimal !== ",") {
    found.push(`its decimal mark is ${show(decimal)}, which is not "." or ","`);
  }
  if (encoding !== undefined && !isEncoding(encoding))
    found.push(`its encoding ${show(encoding)} is unknown`);
  if (dates !== undefined && (typeof dates !== "string" || !isDateFormat(dates))) {
    found.push(
      `its dates are ${show(dates)}, which is not made of YYYY (or YY), MM (or MMM), DD, HH (or hh with A), mm and ss`,
    );
  }
  if (missing !== undefined && !(Array.isArray(missing) && missing.every((m) => typeof m === "string"))) {
    found.push("its missing is not a list of texts");
  }
  const fields = new Map(fieldsOf({ table: table as Table["name"] }).map((f) => [f.name, f]));
  const mapped = columns === undefined && textKeys.some((key) => key in value) ? {} : columns;
  if (!isObject(mapped)) return [...found, "it has no columns"];
  if (columns !== undefined && Object.keys(mapped).length === 0) found.push("its columns are empty");
  const headings = new Set<string>();
  const taken = new Map<string, string>();
  for (const [heading, to] of Object.entries(mapped)) {
    const at = show(heading);
    if (headings.has(headingKey(heading))) found.push(`${at} stands twice`);
    headings.add(headingKey(heading));
    if (to === null) continue;
    const column = typeof to === "string" ? { field: to } : to;
    if (!isObject(column) || typeof column["field"] !== "string") {
      found.push(`${at} goes to ${show(to)}, which names no field`);
      continue;
    }
    const field = fields.get(column["field"]);
    if (field === undefined) {
      found.push(`${at} goes to ${show(column["field"])}, which is no field of ${String(table)}`);
      continue;
    }
    const before = taken.get(field.name);
    const joins = (field.type === "string" && field.words === undefined) || field.type === "datetime";
    if (before !== undefined && !joins) found.push(`${before} and ${at} both go to ${field.name}`);
    taken.set(field.name, at);
    append(found, columnProblems(at, column, field));
  }
  if (always !== undefined && !isObject(always)) found.push("its always is not an object");
  for (const [name, text] of isObject(always) ? Object.entries(always) : []) {
    const field = fields.get(name);
    if (field === undefined)
      found.push(`it always fills ${show(name)}, which is no field of ${String(table)}`);
    else if (typeof text !== "string")
      found.push(`it always fills ${name} with ${show(text)}, which is not text`);
    else {
      const value = cellReader(field)(text);
      if (value instanceof Refusal)
        found.push(`it always fills ${name} with ${show(text)}, which ${value.reason}`);
      if (taken.has(name)) found.push(`it always fills ${name}, and has a column for it`);
    }
  }
  return found;
}

/**
 * A column map from a parsed JSON value.
 * @throws UnusableFile with everything that is wrong with it, in one sentence.
 */
export function columnMapFrom(value: unknown, file: string): ColumnMap {
  const found = columnMapProblems(value);
  if (found.length > 0)
    throw new UnusableFile(file, `can't be used as a column map: ${found.join("; ")}`, "call");
  return { columns: {}, ...(value as Partial<ColumnMap>) };
}

/**
 * A column map from the text of its JSON file.
 * @throws UnusableFile when it is not JSON, or is no column map.
 */
export function columnMapFromText(text: string, file: string): ColumnMap {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch (error) {
    throw new UnusableFile(file, `is not JSON (${(error as Error).message})`, "call");
  }
  return columnMapFrom(value, file);
}

/**
 * Whether a map was made for a sheet with these headings: each of its own stands there.
 * @example fitsHeadings({ columns: { "EV (km/h)": null } }, ["Batter", "ev (KM/H)"]) // true
 * @example fitsHeadings({ columns: { EV: null } }, ["Batter"]) // false
 */
export function fitsHeadings(map: ColumnMap, headings: readonly string[]): boolean {
  const there = new Set(headings.map(headingKey));
  return Object.keys(map.columns).every((heading) => there.has(headingKey(heading)));
}

/**
 * Whether headings hold all that a table needs.
 * @example hasNeeded({ fields: [] }, ["hitter"]) // true
 */
export function hasNeeded({ fields }: Pick<Table, "fields">, headings: readonly string[]): boolean {
  const there = new Set(headings.map(headingKey));
  return fields.every((field) => !("required" in field) || there.has(headingKey(field.name)));
}

/**
 * Whether headings are the kit's own and hold what a swing needs, so that the sheet is read without a map. What only a
 * ball in play has may be absent beside an outcome.
 * @example isOwnSheet(["hitter", "input", "outcome"]) // true
 * @example isOwnSheet(["hitter", "input", "EV"]) // false
 */
export function isOwnSheet(headings: readonly string[]): boolean {
  const there = new Set(headings.map(headingKey));
  const isMet = (field: Field): boolean =>
    there.has(field.name) || (field.required === "in_play" && there.has("outcome"));
  return tableOf("swings").fields.every((field) => field.required === undefined || isMet(field));
}

/**
 * Refuses, where swings are wanted, a table that lies beside them: its headings are all those of one, and hold what
 * it needs.
 * @throws UnusableFile that says which table it is, and where a library reads it
 * @example refuseBeside("a.csv", ["hitter", "input", "level"]) // undefined
 */
export function refuseBeside(file: string, headings: readonly string[]): void {
  const beside = [...tables, ...furtherTables].find(
    (table) =>
      table.name !== "swings" &&
      hasNeeded(table, headings) &&
      headings.every((heading) =>
        table.fields.some((field) => headingKey(field.name) === headingKey(heading)),
      ),
  );
  if (beside === undefined) return;
  throw new UnusableFile(
    file,
    `is a table of ${beside.name}, not of swings: a library reads it as ${beside.name}.csv in its own folder`,
    "call",
  );
}

/**
 * Whether more rows were refused under a map than taken: then it is no map of the file, and is not kept.
 * @example mostRefused({ read: 200, refused: 101 }) // true
 */
export const mostRefused = ({
  read,
  refused,
}: {
  readonly read: number;
  readonly refused: number;
}): boolean => refused * 2 > read;
