/** A file's heading row, understood: which column is which field, what parts the cells, how decimals are written. */
import { dimension, type UnitName } from "../units/index.ts";
import {
  cellReader,
  missingValues,
  Refusal,
  type CellOptions,
  type CellReader,
  type Value,
  wordKey,
} from "./cells.ts";
import { computedFields, type Field } from "../swing/fields.ts";
import { headingKey, type ColumnMap, type MappedColumn, type PullSign } from "./maps.ts";
import { decimalMark, unitBehind } from "./measure.ts";
import { printable, UnusableFile, type Problem } from "../swing/problems.ts";
import { delimiters, type Delimiter, type RawRecord } from "./records.ts";
import type { Table } from "../swing/tables.ts";
import { append } from "../swing/lists.ts";

/** Where one field's cells stand and how they are read. */
export interface FieldColumn {
  readonly field: Field;
  /** Positions in the row; more than one for a text that is put together. */
  readonly at: readonly number[];
  readonly read: CellReader;
  /** For directions that count from the pull side: which end is positive. */
  readonly from?: PullSign;
}

export interface Layout {
  readonly header: readonly string[];
  readonly columns: readonly FieldColumn[];
  /** Fields with the same value in every row. */
  readonly always: Readonly<Record<string, Value>>;
  readonly delimiter: Delimiter;
  readonly decimal: "." | ",";
  /** The units, by field, that the sheet itself names, where they are not the field's own. */
  readonly units: Readonly<Record<string, UnitName>>;
  /** The map it was read with. */
  readonly map: ColumnMap | null;
  /** Where the columns stand that are never kept. */
  readonly privateAt: readonly number[];
  readonly warnings: readonly Problem[];
}

/** Columns that a library's own files of refused rows begin with. */
export const refusedColumns = ["refused_file", "refused_row", "refused_reason"] as const;

/**
 * Whether headings are those of a file of refused rows: once mended, it is read as they were when they were refused.
 * @example isMended(["refused_file", "refused_row", "refused_reason", "EV"]) // true
 */
export function isMended(headings: readonly string[]): boolean {
  const there = new Set(headings.map(headingKey));
  return refusedColumns.every((name) => there.has(name));
}

/** Hitters may be children: what tells their age, or how to reach or find them, is never stored. */
const privateWords =
  /(^|_)(birth|birthday|birthdate|born|dob|age|e?_?mail|phone|telephone|mobile|cell_?phone|address|street|zip|zip_?code|postcode|postal_?code|parents?|guardians?|mother|father|emergency|contact_(name|person|number|info|details?)|ssn|passport)(_|$)/;

/**
 * Whether a heading is that of a birth date or a contact detail.
 * @example isPrivate("Date of Birth") // true
 */
export function isPrivate(heading: string): boolean {
  return privateWords.test(headingKey(heading.replace(/[^\p{L}\p{N}]+/gu, " ")));
}

interface Found {
  readonly field: Field;
  readonly column: MappedColumn;
  /** Whether the map names it, and so its unit. */
  readonly isMapped: boolean;
  readonly at: number[];
}

interface Headings {
  readonly fields: Map<string, Found>;
  readonly unknown: string[];
  readonly twice: string[];
  /** How many headings the map names. */
  readonly mapped: number;
}

function headings(header: readonly string[], table: Table, map: ColumnMap | null): Headings {
  const own = new Map(table.fields.map((f) => [f.name, f]));
  const mapped = new Map<string, MappedColumn | null>();
  for (const [heading, to] of Object.entries(map?.columns ?? {})) {
    mapped.set(headingKey(heading), typeof to === "string" ? { field: to } : to);
  }
  const order = [...mapped.keys()];
  const fields = new Map<string, Found & { keys: string[] }>();
  const unknown: string[] = [];
  const twice: string[] = [];
  let count = 0;
  const stands = new Map<string, number>();
  header.forEach((heading, at) => {
    const bare = headingKey(heading);
    const n = (stands.get(bare) ?? 0) + 1;
    stands.set(bare, n);
    // The second column of a heading has its own place in a map that names it.
    const again = `${bare}_(${n})`;
    const key = n > 1 && mapped.has(again) ? again : bare;
    const to = mapped.get(key);
    if (to !== undefined) count++;
    if (to === null) return;
    const field = own.get(to?.field ?? key);
    if (field === undefined || (map?.always !== undefined && Object.hasOwn(map.always, field.name))) {
      unknown.push(heading);
      return;
    }
    const before = fields.get(field.name);
    if (before === undefined)
      fields.set(field.name, {
        field,
        column: to ?? { field: field.name },
        isMapped: to !== undefined,
        at: [at],
        keys: [key],
      });
    // Only the map may put a field together from several columns, and each of them once.
    else if (to === undefined || before.keys.includes(key)) twice.push(field.name);
    else {
      before.at.push(at);
      before.keys.push(key);
    }
  });
  for (const { at, keys } of fields.values()) {
    if (at.length > 1) {
      const sorted = at.map((position, i) => ({ position, place: order.indexOf(keys[i]!) }));
      sorted.sort((a, b) => a.place - b.place);
      sorted.forEach(({ position }, i) => (at[i] = position));
    }
  }
  return { fields, unknown, twice, mapped: count };
}

/** The cells of a heading line for one delimiter, good enough to recognise headings by. */
export function splitHeading(line: string, delimiter: Delimiter): string[] {
  return line.split(delimiter).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1"));
}

/**
 * The delimiter under which most headings of a line are known, and how many; among equals, the one that parts it most.
 */
export function sniffDelimiter(
  line: string,
  table: Table,
  map: ColumnMap | null,
): { delimiter: Delimiter; known: number } {
  const scores = delimiters.map((delimiter) => {
    const cells = splitHeading(line, delimiter);
    const found = headings(cells, table, map);
    return { delimiter, known: found.fields.size + found.mapped, cells: cells.length };
  });
  scores.sort((a, b) => b.known - a.known || b.cells - a.cells);
  return scores[0]!;
}

/** Whether a map names any heading: one that doesn't is for files whose headings are the kit's own. */
const namesHeadings = (map: ColumnMap): boolean => Object.keys(map.columns).length > 0;

/** Whether any heading of a line is one that the map names, or, where it names none, one of the kit's own. */
export function mapFits(line: string, table: Table, map: ColumnMap): boolean {
  const candidates = map.delimiter === undefined ? delimiters : [map.delimiter];
  return candidates.some((d) => {
    const { mapped, fields } = headings(splitHeading(line, d), table, map);
    return namesHeadings(map) ? mapped > 0 : fields.size > 0;
  });
}

/** The cells of the number columns in a file's first rows. */
function* numberCells(found: Iterable<Found>, sample: readonly RawRecord[]): Generator<string> {
  for (const { field, at } of found) {
    if (field.type === "number") for (const { cells } of sample) yield cells[at[0]!] ?? "";
  }
}

/**
 * The unit behind every number of a column; null where one has none, or another.
 * @example unitOfCells(["120 km/h", "--", "118 km/h"]) // "km/h"
 * @example unitOfCells(["120 km/h", "118"]) // null
 */
export function unitOfCells(cells: Iterable<string>): UnitName | null {
  let unit: UnitName | null = null;
  for (const cell of cells) {
    const text = cell.trim();
    if (missingValues.includes(text)) continue;
    const found = unitBehind(text)?.unit ?? null;
    if (found === null || (unit !== null && found !== unit)) return null;
    unit = found;
  }
  return unit;
}

/** The unit that a sheet itself names for a column, and whether its cells do; null where nothing tells of one. */
function unitWritten(
  file: string,
  { field, column, isMapped, at }: Found,
  header: readonly string[],
  sample: readonly RawRecord[],
  units: readonly (UnitName | null)[] | null,
): { readonly unit: UnitName; readonly inCells: boolean } | null {
  const own = field.unit;
  if (own === undefined) return null;
  const place = at[0]!;
  const named = units?.[place] ?? null;
  const wanted = isMapped ? (column.unit ?? own) : null;
  if (named !== null && (dimension(named) !== dimension(own) || (wanted !== null && wanted !== named))) {
    const why = wanted === null ? `and ${named} can't become ${own}` : `where the column map says ${wanted}`;
    throw new UnusableFile(file, `has the unit ${named} under ${list([header[place]!])}, ${why}`);
  }
  if (isMapped) return null;
  if (named !== null) return { unit: named, inCells: false };
  const unit = unitOfCells(sample.map(({ cells }) => cells[place] ?? ""));
  return unit === null || dimension(unit) !== dimension(own) ? null : { unit, inCells: true };
}

function list(names: readonly string[]): string {
  const shown = names
    .slice(0, 12)
    .map((name) => (name.trim() === "" ? "(no heading)" : printable(name.slice(0, 60))));
  const more = names.length - shown.length;
  return shown.join(", ") + (more > 0 ? ` and ${more} more` : "");
}

function missingColumns(table: Table, has: (name: string) => boolean): string[] {
  const missing = table.fields.filter((f) => f.required === "always" && !has(f.name)).map((f) => f.name);
  // A file of misses and takes alone needs no measures, but then it has to say so.
  const measures = table.fields.filter((f) => f.required === "in_play" && !has(f.name)).map((f) => f.name);
  if (measures.length > 0 && !has("outcome")) append(missing, measures);
  return missing;
}

/**
 * A file's layout from its heading row and its first rows.
 * @param options `units`: what a row of units under the headings says of each column
 * @throws UnusableFile when a needed column is missing, a field has two columns, the map fits nothing, or the row of
 *   units says otherwise than the map
 */
export function layoutOf(
  file: string,
  header: readonly string[],
  sample: readonly RawRecord[],
  delimiter: Delimiter,
  table: Table,
  map: ColumnMap | null,
  options: { filled?: readonly string[]; units?: readonly (UnitName | null)[] | null } = {},
): Layout {
  const { fields, unknown, twice, mapped } = headings(header, table, map);
  const privateAt = header.flatMap((heading, at) => (isPrivate(heading) ? [at] : []));
  // Not even a map may bring them in.
  for (const [name, { at }] of fields) if (at.some((i) => privateAt.includes(i))) fields.delete(name);
  if (map !== null && mapped === 0 && namesHeadings(map)) {
    throw new UnusableFile(file, "has none of the column map's headings in its first row", "call");
  }
  if (twice.length > 0) throw new UnusableFile(file, `has more than one column for ${list(twice)}`);
  const always = map?.always ?? {};
  const filled = new Set(options.filled ?? []);
  const missing = missingColumns(
    table,
    (name) => fields.has(name) || Object.hasOwn(always, name) || filled.has(name),
  );
  if (missing.length > 0) {
    const what = missing.length === 1 ? "the column" : "the columns";
    throw new UnusableFile(file, `has no heading for ${what} ${missing.join(", ")} in its first row`);
  }
  const { mark: decimal, known: decimalKnown } =
    map?.decimal === undefined
      ? decimalMark(numberCells(fields.values(), sample))
      : { mark: map.decimal, known: true };
  const units: Record<string, UnitName> = {};
  const columns = [...fields.values()].map((found): FieldColumn => {
    const { field, column, at } = found;
    const written = unitWritten(file, found, header, sample, options.units ?? null);
    const unit = column.unit ?? written?.unit;
    const differs = written !== null && written.unit !== field.unit;
    if (differs) units[field.name] = written.unit;
    const how: CellOptions = {
      decimal,
      decimalKnown,
      ...(unit === undefined ? {} : { unit }),
      ...(differs && written.inCells ? { unitInCells: true } : {}),
      ...(typeof column.sign === "number" ? { sign: column.sign } : {}),
      ...(column.offset === undefined ? {} : { offset: column.offset }),
      ...(map?.dates === undefined ? {} : { dates: map.dates }),
      ...(map?.missing === undefined ? {} : { missing: map.missing }),
      ...(column.order === undefined ? {} : { familyFirst: true }),
      ...(column.words === undefined
        ? {}
        : {
            words: new Map(Object.entries(column.words).map(([from, to]) => [wordKey(from), to])),
          }),
    };
    const from = typeof column.sign === "string" ? { from: column.sign } : {};
    return { field, at, read: cellReader(field, how), ...from };
  });
  const fixed = Object.entries(always).map(([name, text]): [string, Value] => {
    const value = cellReader(table.fields.find((f) => f.name === name)!)(text);
    return [name, value instanceof Refusal ? null : value];
  });
  const computed = new Set(table.name === "swings" ? computedFields.map((f): string => f.name) : []);
  const anew = unknown.filter((heading) => computed.has(headingKey(heading)));
  const own = new Set<string>(refusedColumns);
  const strange = unknown.filter(
    (heading) => !computed.has(headingKey(heading)) && !own.has(headingKey(heading)) && !isPrivate(heading),
  );
  const warnings: Problem[] = [];
  const warn = (reason: string): void => {
    warnings.push({ kind: "warning", file, row: 1, field: null, value: null, reason });
  };
  if (strange.length > 0) warn(`kept out are the columns that the kit doesn't know: ${list(strange)}`);
  if (anew.length > 0) warn(`kept out, to be computed anew, are the columns ${list(anew)}`);
  for (const [name, unit] of Object.entries(units)) warn(`${name} is written in ${unit}, and is converted`);
  if (privateAt.length > 0) {
    const names = list(privateAt.map((at) => header[at]!));
    warn(`left out and not stored, because hitters may be children, are birth dates and contacts: ${names}`);
  }
  return {
    header,
    columns,
    always: Object.fromEntries(fixed),
    delimiter,
    decimal,
    units,
    map,
    privateAt,
    warnings,
  };
}
