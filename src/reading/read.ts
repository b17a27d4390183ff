/**
 * Reading the tables from CSV files. Nothing is lost: each row of a file is taken, or refused with its reasons and
 * kept beside, or is an exact copy of one already taken, which is counted.
 */
import type { UnitName } from "../units/index.ts";
import { cellReader, Refusal } from "./cells.ts";
import type { Field, Hitter, NameRow, OwnField, Session, Swing, Target } from "../swing/fields.ts";
import { isBuiltField } from "../swing/names.ts";
import { targetMeasures } from "../swing/fields.ts";
import { fingerprint } from "../swing/identity.ts";
import { layoutOf, mapFits, sniffDelimiter, splitHeading, type FieldColumn, type Layout } from "./layout.ts";
import { hasNeeded, type ColumnMap } from "./maps.ts";
import { unitsNamed } from "./measure.ts";
import { nameIn, notAmong } from "../swing/names.ts";
import { quoted, UnusableFile, type Problem, type RefusedRow } from "../swing/problems.ts";
import { Lines, longestLine, Records, type Delimiter, type RawRecord, delimiters } from "./records.ts";
import { swingTroubles, type Trouble } from "../swing/rules.ts";
import { furtherTables, tableOf, tables, type Table } from "../swing/tables.ts";
import type { TextSource } from "./text.ts";
import { isTotal } from "./words.ts";
import { append, largest } from "../swing/lists.ts";
import { counted } from "../swing/words.ts";

export { UnusableFile } from "../swing/problems.ts";
export type { Problem, RefusedRow } from "../swing/problems.ts";

/** The row type of each table. */
export interface Rows {
  swings: Swing;
  sessions: Session;
  hitters: Hitter;
  targets: Target;
  names: NameRow;
  fields: OwnField;
}

/** Where each key of one table was first seen. */
class Keys {
  private readonly files: string[] = [];
  /** The file's number and the row's as one number: a million keys should stay small. */
  private readonly places = new Map<string, number>();
  /** Fingerprints of rows whose key is not the fingerprint itself. */
  private readonly prints = new Map<string, string>();

  /** Notes a key, or tells where it stands already and whether the row there is the same. */
  note(key: string, print: string, file: string, row: number): { place: string; same: boolean } | null {
    const before = this.places.get(key);
    if (before !== undefined) {
      const where = this.files[Math.floor(before / 2 ** 32)]!;
      const place = `row ${before % 2 ** 32}${where === file ? "" : ` of ${where}`}`;
      return { place, same: (this.prints.get(key) ?? key) === print };
    }
    if (this.files.at(-1) !== file) this.files.push(file);
    this.places.set(key, (this.files.length - 1) * 2 ** 32 + row);
    if (key !== print) this.prints.set(key, print);
    return null;
  }
}

/** The keys seen so far, so that several files are read as one set of tables: a copy is told across files. */
export class Seen {
  private readonly tables = new Map<Table["name"], Keys>();

  of(table: Table["name"]): Keys {
    const keys = this.tables.get(table) ?? new Keys();
    this.tables.set(table, keys);
    return keys;
  }
}

export interface ReadOptions {
  /** How the file's layout becomes the kit's. */
  map?: ColumnMap | null;
  /** Whether a map that fits no heading is put aside, instead of refusing the file. */
  mapIfFits?: boolean;
  /** What problems call the file: its path unless told otherwise. */
  name?: string;
  /** Keys of the files read before. */
  seen?: Seen;
  /** Values, by field, for rows that don't tell theirs. */
  fill?: Readonly<Record<string, string>>;
  /** Told the cells of each row that is taken, as they stand under the file's headings. */
  onTaken?: (cells: readonly string[], header: readonly string[]) => void;
}

/** What was read from one piece of a file. */
export interface Batch<T> {
  readonly table: Table["name"];
  readonly rows: T[];
  /** The row number of each row. */
  readonly numbers: number[];
  readonly refused: RefusedRow[];
  /** A warning for each copy of a row already taken. */
  readonly copies: Problem[];
  /** Warnings about other single rows, which are taken: a name that its table doesn't hold. */
  readonly warnings: Problem[];
  /** Bytes read so far. */
  readonly bytes: number;
}

/** What is known of a file once it has been read. */
export interface Summary {
  readonly file: string;
  readonly table: Table["name"];
  readonly sha256: string;
  /** The heading row, as it stands. */
  readonly header: readonly string[];
  /** How it was read. */
  readonly layout: Pick<Layout, "delimiter" | "decimal" | "units" | "map" | "privateAt"> & {
    /** Fields that have a column. */
    readonly fields: readonly string[];
  };
  /** Rows in the file: taken, refused and copies. Blank rows don't count. */
  readonly read: number;
  /** Rows that are exact copies of one already taken. */
  readonly duplicates: number;
  /** Those of them that neither a time nor an id tells from it, by session: two balls alike would count as one. */
  readonly untimed: ReadonlyMap<string | null, number>;
  /** Warnings about the file as a whole. */
  readonly problems: readonly Problem[];
}

/** A file, read. `read` = rows + refused + duplicates. */
export interface Reading<T> {
  file: string;
  sha256: string;
  header: readonly string[];
  rows: T[];
  /** The row number of each row. */
  numbers: number[];
  problems: Problem[];
  refused: RefusedRow[];
  read: number;
  duplicates: number;
  untimed: Summary["untimed"];
}

type Loose = Record<string, string | number | boolean | null>;

/** The rows' first lines: enough to tell the delimiter and the decimal mark from. */
const sampleSize = 200;

/** What a table asks of a row beyond its single cells. May fill in what follows from the rest. */
const rowRules: Readonly<Record<Table["name"], (row: Loose, troubles: Trouble[]) => void>> = {
  swings(row, troubles) {
    for (const trouble of swingTroubles(row as unknown as Swing))
      if (!troubles.some((t) => t.field === trouble.field)) troubles.push(trouble);
  },
  sessions() {},
  hitters() {},
  names() {},
  fields(row, troubles) {
    const { field, base_path_ft: path, pitching_ft: pitching, dirt_radius_ft: dirt } = row;
    if (typeof field === "string" && isBuiltField(field))
      troubles.push({ field: "field", value: field, reason: "is a name of the field table itself" });
    // Its arc is cut by every line of sight: it can't lie within the pitching distance's own circle.
    if (typeof pitching === "number" && typeof dirt === "number" && dirt <= pitching * Math.SQRT1_2)
      troubles.push({
        field: "dirt_radius_ft",
        value: String(dirt),
        reason: "is too small for the pitching distance",
      });
    const nearest = ["left_ft", "left_center_ft", "center_ft", "right_center_ft", "right_ft"] as const;
    for (const name of nearest) {
      const fence = row[name];
      if (typeof path === "number" && typeof fence === "number" && fence < path)
        troubles.push({ field: name, value: String(fence), reason: `is nearer than the bases, ${path}` });
    }
  },
  targets(row, troubles) {
    for (const name of targetMeasures) {
      const low = row[`${name}_low`];
      const high = row[`${name}_high`];
      if (typeof low === "number" && typeof high === "number" && low > high) {
        troubles.push({ field: `${name}_low`, value: String(low), reason: `is over ${name}_high, ${high}` });
      }
    }
  },
};

/** Turns records into rows of one table. */
class RowMaker {
  private readonly file: string;
  private readonly table: Table;
  private readonly layout: Layout;
  private readonly seen: Keys;
  private readonly onTaken: ReadOptions["onTaken"];
  private readonly blank: Loose;
  private readonly totals = new Map<string, boolean>();
  private readonly always: readonly string[];
  private readonly pulled: readonly FieldColumn[];
  private readonly named: readonly Field[];
  private readonly fill: readonly (readonly [string, string | number | boolean | null])[];
  read = 0;
  duplicates = 0;
  readonly untimed = new Map<string | null, number>();

  constructor(
    file: string,
    table: Table,
    layout: Layout,
    seen: Keys,
    fill: Readonly<Record<string, string>> = {},
    onTaken?: ReadOptions["onTaken"],
  ) {
    this.onTaken = onTaken;
    this.fill = Object.entries(fill).map(([name, text]) => {
      const field = table.fields.find((f) => f.name === name);
      const value = field === undefined ? null : cellReader(field)(text);
      if (field === undefined || value instanceof Refusal) {
        const what = value instanceof Refusal ? value.reason : `is no field of ${table.name}`;
        throw new UnusableFile(file, `can't be filled: ${name} ${quoted(text)} ${what}`, "call");
      }
      return [name, value] as const;
    });
    this.file = file;
    this.table = table;
    this.layout = layout;
    this.seen = seen;
    this.blank = Object.fromEntries(table.fields.map((f) => [f.name, layout.always[f.name] ?? null]));
    this.named = table.fields.filter((f) => f.names?.others === "warned of");
    this.always = table.fields.filter((f) => f.required === "always").map((f) => f.name);
    this.pulled = layout.columns.filter((column) => column.from !== undefined);
  }

  /** A direction that counts from the pull side, as it counts from center field: right-handed hitters pull to the left. */
  private turn(
    { field, at, from }: FieldColumn,
    row: Loose,
    cells: readonly string[],
    troubles: Trouble[],
  ): void {
    const value = row[field.name];
    // Straight ahead is straight ahead for both.
    if (typeof value !== "number" || value === 0) return;
    const { bats } = row;
    if (bats === "L" || bats === "R") row[field.name] = (bats === "L") === (from === "pull") ? value : -value;
    else if (!troubles.some((trouble) => trouble.field === "bats"))
      troubles.push({
        field: field.name,
        value: cells[at[0]!]!.trim(),
        reason: "counts from the pull side, and the side that the ball was hit from is unknown",
      });
  }

  private isTotal(hitter: string): boolean {
    let is = this.totals.get(hitter);
    if (is === undefined) {
      is = isTotal([hitter]);
      if (this.totals.size < 10_000) this.totals.set(hitter, is);
    }
    return is;
  }

  take(record: RawRecord, batch: Batch<Loose>): void {
    const { row: number, cells, fault } = record;
    if (fault !== null) return this.refuse(record, [{ field: null, value: null, reason: fault }], batch);
    if (cells[0]!.trim() === "" && cells.every((cell) => cell.trim() === "")) return;
    if (cells.length !== this.layout.header.length) {
      const [has, heads] = [cells.length, this.layout.header.length];
      const reason = `the row has ${counted(has, "cell")}, where the heading row has ${heads}`;
      return this.refuse(record, [{ field: null, value: null, reason }], batch);
    }
    const row: Loose = { ...this.blank };
    const troubles: Trouble[] = [];
    for (const { field, at, read } of this.layout.columns) {
      const cell = at.length === 1 ? cells[at[0]!]! : joined(at, cells);
      const value = read(cell);
      if (value instanceof Refusal)
        troubles.push({ field: field.name, value: cell.trim(), reason: value.reason });
      else row[field.name] = value;
    }
    for (const [name, value] of this.fill) {
      // A cell that can't be read is no empty one.
      if (row[name] === null && !troubles.some((t) => t.field === name)) row[name] = value;
    }
    for (const column of this.pulled) this.turn(column, row, cells, troubles);
    for (const name of this.always) {
      if (row[name] === null && !troubles.some((t) => t.field === name)) {
        troubles.push({ field: name, value: null, reason: "is missing" });
      }
    }
    const { hitter } = row;
    // Under a table whose every row gets its input, a line of means would pass for a swing.
    if (this.table.name === "swings" && typeof hitter === "string" && this.isTotal(hitter))
      troubles.push({ field: "hitter", value: hitter, reason: "is a line of totals or means, and no swing" });
    rowRules[this.table.name](row, troubles);
    if (troubles.length > 0) return this.refuse(record, troubles, batch, row);
    const print = fingerprint(row, this.table.fields, this.table.key);
    const given = row[this.table.key];
    const key = typeof given === "string" ? given : print;
    row[this.table.key] = key;
    const before = this.seen.note(key, print, this.file, number);
    if (before === null || before.same) this.onTaken?.(cells, this.layout.header);
    if (before === null) {
      this.read++;
      this.warn(row, number, batch);
      batch.rows.push(row);
      batch.numbers.push(number);
      return;
    }
    if (!before.same) {
      const reason = `stands in ${before.place} already, with other values`;
      return this.refuse(record, [{ field: this.table.key, value: key, reason }], batch, row);
    }
    this.read++;
    this.duplicates++;
    if (this.table.name === "swings" && typeof given !== "string" && (row["time"] ?? null) === null) {
      const session = (row["session"] ?? null) as string | null;
      this.untimed.set(session, (this.untimed.get(session) ?? 0) + 1);
    }
    const reason = `the row is an exact copy of ${before.place}, and is counted once`;
    batch.copies.push({ kind: "warning", file: this.file, row: number, field: null, value: null, reason });
  }

  /** Warns of names that their table doesn't hold, where a row with one is still of use. */
  private warn(row: Loose, number: number, batch: Batch<Loose>): void {
    for (const { name: field, names } of this.named) {
      const value = row[field];
      if (typeof value !== "string" || nameIn(names!, value) !== null) continue;
      const reason = `${notAmong(names!, value)}; ${names!.without!}`;
      batch.warnings.push({ kind: "warning", file: this.file, row: number, field, value, reason });
    }
  }

  private refuse(
    record: RawRecord,
    troubles: readonly Trouble[],
    batch: Batch<Loose>,
    row: Loose = Object.fromEntries(this.fill),
  ): void {
    this.read++;
    const problems = troubles.map(({ field, value, reason }): Problem => ({
      kind: "refused",
      file: this.file,
      row: record.row,
      field,
      value,
      reason,
    }));
    const session = typeof row["session"] === "string" ? row["session"] : null;
    batch.refused.push({ row: record.row, cells: record.cells, problems, session });
  }
}

function joined(at: readonly number[], cells: readonly string[]): string {
  return at
    .map((i) => cells[i]!.trim())
    .filter((cell) => cell !== "")
    .join(" ");
}

/**
 * Reads one table from text that comes in pieces, batch by batch, in steady memory but for the keys.
 * @returns what is known of the file, when the last batch has been given
 * @throws UnusableFile when nothing of it can be used
 */
export async function* scanText<N extends Table["name"]>(
  name: N,
  source: TextSource,
  options: ReadOptions = {},
): AsyncGenerator<Batch<Rows[N]>, Summary> {
  // The fields of a table and its row type come from one definition.
  return yield* scan([tableOf(name)], source, options) as unknown as AsyncGenerator<Batch<Rows[N]>, Summary>;
}

/** Reads whichever of the candidate tables the headings fit best. */
async function* scan(
  candidates: readonly Table[],
  source: TextSource,
  options: ReadOptions,
): AsyncGenerator<Batch<Loose>, Summary> {
  const file = options.name ?? source.file;
  const lines = new Lines();
  // The first lines wait until there are enough to tell the layout from.
  let waiting: string[] | null = [];
  let maker: RowMaker | null = null;
  let records: Records | null = null;
  let layout: Layout | null = null;
  let table: Table = candidates[0]!;

  const begin = (last: boolean): RawRecord[] => {
    const start = startOf(file, waiting!, candidates, options);
    table = start.table;
    waiting = null;
    records = new Records(start.delimiter, start.skipped);
    const [heading, ...rest] = records.push(start.lines, last);
    if (heading === undefined || heading.fault !== null) {
      throw new UnusableFile(file, "has a heading row whose quotation marks don't match");
    }
    const header = heading.cells.map((cell) => cell.trim());
    const units = unitsUnder(rest);
    if (units !== null) rest.shift();
    layout = layoutOf(file, header, rest.slice(0, sampleSize), start.delimiter, table, start.map, {
      ...(options.fill === undefined ? {} : { filled: Object.keys(options.fill) }),
      units,
    });
    const seen = (options.seen ?? new Seen()).of(table.name);
    maker = new RowMaker(file, table, layout, seen, options.fill, options.onTaken);
    return rest;
  };
  const batchOf = (found: readonly RawRecord[]): Batch<Loose> => {
    const bytes = source.bytes();
    const batch: Batch<Loose> = {
      table: table.name,
      rows: [],
      numbers: [],
      refused: [],
      copies: [],
      warnings: [],
      bytes,
    };
    for (const record of found) maker!.take(record, batch);
    return batch;
  };

  for await (const piece of source.pieces) {
    const further = lines.push(piece);
    if (waiting !== null) {
      append(waiting, further);
      if (waiting.length > sampleSize) yield batchOf(begin(false));
    } else yield batchOf(records!.push(further, false));
    if (lines.waiting > longestLine) throw new UnusableFile(file, tooLong);
    if (records !== null && (records as Records).isHopeless) {
      throw new UnusableFile(file, "has quotation marks that don't match, row after row");
    }
  }
  const further = lines.end();
  if (waiting !== null) {
    append(waiting, further);
    yield batchOf(begin(true));
  } else yield batchOf(records!.push(further, true));
  const { read, duplicates, untimed } = maker!;
  if (read === 0) throw new UnusableFile(file, "has a heading row and nothing under it");
  const { header, warnings, columns, ...how } = layout! as Layout;
  return {
    file,
    table: table.name,
    sha256: source.sha256(),
    header,
    layout: { ...how, fields: columns.map((c) => c.field.name) },
    read,
    duplicates,
    untimed,
    problems: warnings,
  };
}

interface Start {
  readonly lines: readonly string[];
  /** Rows before the heading row. */
  readonly skipped: number;
  readonly delimiter: Delimiter;
  readonly table: Table;
  readonly map: ColumnMap | null;
}

/** What a row of units right under the headings says of each column; null when there is none. */
function unitsUnder(rows: readonly RawRecord[]): readonly (UnitName | null)[] | null {
  const first = rows[0];
  return first === undefined || first.fault !== null ? null : unitsNamed(first.cells);
}

const tooLong = "has a line so long that it is no row of a table";

/** Lines over the headings that are looked through for them, and how many known headings tell a heading row. */
const longestTitle = 20;
const leastHeadings = 2;

/** Cells in the widest heading row that can be a table's. */
const mostColumns = 10_000;

function refuseWide(file: string, line: string): void {
  for (const delimiter of delimiters) {
    let cells = 1;
    for (let at = line.indexOf(delimiter); at >= 0; at = line.indexOf(delimiter, at + 1)) cells++;
    if (cells > mostColumns)
      throw new UnusableFile(file, `has a row of ${cells} cells among its first: no table is so wide`);
  }
}

/** The heading row's place, its table and delimiter, and whether the map is used. */
function startOf(
  file: string,
  lines: readonly string[],
  candidates: readonly Table[],
  options: ReadOptions,
  recognise: (headings: readonly string[]) => number = () => 0,
): Start {
  let skipped = lines.findIndex((line) => line.trim() !== "");
  if (skipped < 0) throw new UnusableFile(file, "is empty");
  // Before anything compares the headings with each other.
  for (const line of lines.slice(skipped, skipped + longestTitle)) refuseWide(file, line);
  // Spreadsheets may name the delimiter in a line of its own.
  const named = /^sep=([,;|\t])$/i.exec(lines[skipped]!)?.[1] as Delimiter | undefined;
  if (named !== undefined) skipped++;
  // A title may stand over the headings: a line that knows none gives way to one near it that knows several.
  const known = (line: string): number =>
    largest([
      ...candidates.map((table) => sniffDelimiter(line, table, options.map ?? null).known),
      ...delimiters.map((delimiter) => recognise(splitHeading(line, delimiter))),
    ]);
  const top = skipped < lines.length ? known(lines[skipped]!) : leastHeadings;
  if (top < leastHeadings) {
    const near = lines.slice(skipped, skipped + longestTitle);
    const below = near.findIndex((line) => known(line) >= leastHeadings);
    if (below > 0) skipped += below;
  }
  const heading = lines[skipped];
  if (heading === undefined) throw new UnusableFile(file, "is empty");
  const table = fittingTable(heading, candidates);
  let map = options.map ?? null;
  if (map !== null && options.mapIfFits === true && !mapFits(heading, table, map)) map = null;
  const delimiter = map?.delimiter ?? named ?? sniffDelimiter(heading, table, map).delimiter;
  return { lines: lines.slice(skipped), skipped, delimiter, table, map };
}

/** The table that knows most of the headings; of equals the first that finds all it needs there, else the first. */
function fittingTable(heading: string, candidates: readonly Table[]): Table {
  const scores = candidates.map((table) => sniffDelimiter(heading, table, null).known);
  const most = largest(scores);
  const best = candidates.filter((_, i) => scores[i] === most);
  const headings = (table: Table): readonly string[] => {
    const { delimiter } = sniffDelimiter(heading, table, null);
    return new Records(delimiter, 0).push([heading], true)[0]?.cells ?? [];
  };
  return best.find((table) => hasNeeded(table, headings(table))) ?? best[0]!;
}

/**
 * Reads text whose table is told from its headings, or from the map when there is one; see `scanText`.
 */
export async function* scanTextAny(
  source: TextSource,
  options: ReadOptions = {},
): AsyncGenerator<Batch<object>, Summary> {
  const candidates = options.map ? [tableOf(options.map.table ?? "swings")] : [...tables, ...furtherTables];
  return yield* scan(candidates, source, options);
}

/** The first rows of a sheet, whatever it is. */
export interface Sample {
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly delimiter: Delimiter;
  /** What a row of units under the headings says of each column; null when there is none. */
  readonly units?: readonly (UnitName | null)[] | null;
  /** The lines over the headings. */
  readonly above?: readonly (readonly string[])[];
}

/**
 * The heading row and the first rows of a text, whatever they are.
 * @param recognise how many of a line's cells are headings, where they aren't the kit's own
 * @throws UnusableFile when it is no text, or empty
 */
export async function sampleOf(
  source: TextSource,
  recognise?: (headings: readonly string[]) => number,
): Promise<Sample> {
  const { file } = source;
  const lines = new Lines();
  const first: string[] = [];
  for await (const piece of source.pieces) {
    append(first, lines.push(piece));
    if (lines.waiting > longestLine) throw new UnusableFile(file, tooLong);
    if (first.length > sampleSize) break;
  }
  if (first.length <= sampleSize) append(first, lines.end());
  const start = startOf(file, first, [tableOf("swings")], {}, recognise);
  const [heading, ...rest] = new Records(start.delimiter, start.skipped).push(start.lines, true);
  const units = unitsUnder(rest);
  if (units !== null) rest.shift();
  const rows = rest.filter((record) => record.fault === null).map((record) => record.cells);
  return {
    header: (heading?.cells ?? []).map((cell) => cell.trim()),
    rows: rows.slice(0, sampleSize),
    delimiter: start.delimiter,
    units,
    above: first
      .slice(0, start.skipped)
      .filter((line) => line.trim() !== "")
      .map((line) => splitHeading(line, start.delimiter)),
  };
}

/** Collects the batches of a scan. */
export async function collect<T>(scan: AsyncGenerator<Batch<T>, Summary>): Promise<Reading<T>> {
  const rows: T[] = [];
  const numbers: number[] = [];
  const refused: RefusedRow[] = [];
  const warnings: Problem[] = [];
  for (;;) {
    const step = await scan.next();
    if (step.done === true) {
      const { problems, file, sha256, header, read, duplicates, untimed } = step.value;
      const all = [...problems, ...warnings, ...refused.flatMap((r) => r.problems)];
      all.sort((a, b) => (a.row ?? 0) - (b.row ?? 0));
      return { file, sha256, header, rows, numbers, problems: all, refused, read, duplicates, untimed };
    }
    for (const row of step.value.rows) rows.push(row);
    for (const number of step.value.numbers) numbers.push(number);
    for (const row of step.value.refused) refused.push(row);
    append(warnings, step.value.copies);
    append(warnings, step.value.warnings);
  }
}
