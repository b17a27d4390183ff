/** One cell's text as a value: a number within its limits, a word of a list, a day, or the reason it is none. */
import { convert, dimension, type UnitName } from "../units/index.ts";
import { dateReader, dayFrom, timeFrom } from "./dates.ts";
import type { Field } from "../swing/fields.ts";
import { unguarded } from "../swing/guard.ts";
import { outsideLimits, unitLabel } from "../swing/limits.ts";
import { nameIn, notAmong, type NameTable } from "../swing/names.ts";
import { ungrouped, unitBehind } from "./measure.ts";
import { missingValues, Refusal, type CellReader } from "../swing/refusal.ts";

export { missingValues, Refusal } from "../swing/refusal.ts";
export type { CellReader, Value } from "../swing/refusal.ts";

/** How yes and no may be written. */
export const trueValues: readonly string[] = ["true", "yes", "1"];
export const falseValues: readonly string[] = ["false", "no", "0"];

/**
 * A word as it is compared: without capitals, and with one blank where there are several.
 * @example wordKey(" Front  Toss ") // "front toss"
 */
export function wordKey(word: string): string {
  return word.trim().toLowerCase().replace(/\s+/g, " ");
}

/** How a layout writes its cells, where it differs from the kit's own. */
export interface CellOptions {
  readonly decimal?: "." | ",";
  /** Whether decimals are known to be written so: the other mark parts thousands then. */
  readonly decimalKnown?: boolean;
  /** The unit the cells are in. */
  readonly unit?: UnitName;
  /** Whether each cell has to say its unit. */
  readonly unitInCells?: boolean;
  readonly sign?: 1 | -1;
  /** Added after unit and sign, in the field's own unit. */
  readonly offset?: number;
  /** The layout's words, as `wordKey` has them, to the kit's. */
  readonly words?: ReadonlyMap<string, string>;
  /** The layout's way of writing days and times, as `dateReader` takes it. */
  readonly dates?: string;
  /** Whether names are written with the family's first and a comma behind it. */
  readonly familyFirst?: boolean;
  /** Further texts that stand for "unknown". */
  readonly missing?: readonly string[];
}

const plainNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/**
 * A number as a cell writes it, or why it is none. Words, units, NaN, what is too large, and thousands marks that
 * could be decimals are refused: a wrong guess would go unseen.
 * @param known whether the decimal mark is known, and not only taken for it
 * @example numberFrom("92,4", ",") // 92.4
 * @example numberFrom("1,200.5", ".") // 1200.5
 */
export function numberFrom(cell: string, decimal: "." | ",", known = false): number | Refusal {
  // Some programs write a real minus sign.
  const signed = cell.startsWith("\u2212") ? `-${cell.slice(1)}` : cell;
  let text = decimal === "," && !signed.includes(".") ? signed.replace(",", ".") : signed;
  if (!plainNumber.test(text) || (decimal === "," && signed.includes("."))) {
    const whole = ungrouped(signed, decimal, known);
    if (whole === null) return new Refusal(notANumber(signed, decimal));
    text = whole.replace(",", ".");
  }
  const value = Number(text);
  if (!Number.isFinite(value)) return new Refusal("is too large to be a number");
  // No negative zero.
  return value + 0;
}

function notANumber(text: string, decimal: "." | ","): string {
  if (/^[+-]?(nan|inf|infinity|∞)$/i.test(text)) return "is not a finite number";
  if (decimal === "," && /^[+-]?\d*\.\d+$/.test(text))
    return "has a decimal point, where this file writes decimals with a comma";
  if (/^[+-]?\d{1,3}[.,]\d{3}$/.test(text))
    return `has a thousands mark or a decimal comma: say which with "decimal" in a column map`;
  if (/^[+-]?\d+,\d+$/.test(text)) return "has a decimal comma, where this file is read with a decimal point";
  if (/^[+-]?[\d.,]+\s*[^\d\s].*$/.test(text)) return "has more than a number in it";
  return "is not a number";
}

function numberReader(field: Field, options: CellOptions): CellReader {
  const { decimal = ".", decimalKnown = false, unitInCells = false } = options;
  const own = field.unit;
  const from = options.unit ?? own;
  const sign = options.sign ?? 1;
  const offset = options.offset ?? 0;
  const converts = own !== undefined && from !== undefined && from !== own;
  const min = field.min ?? -Infinity;
  const max = field.max ?? Infinity;
  const label = unitLabel(own);
  const show = (value: number): string =>
    `(${String(Number(value.toPrecision(5))).replace("-", "−")}${label})`;
  const column = unitLabel(from).trim();
  /** Why a unit behind a number can't stand in the column; null when it can. */
  const strange = (unit: UnitName): string | null => {
    if (unit === from) return null;
    const written = unitLabel(unit).trim();
    return own === undefined || dimension(unit) !== dimension(own)
      ? `is in ${written}, which can't become ${unitLabel(own).trim()}`
      : `is in ${written}, where this column is in ${column}`;
  };
  return (cell) => {
    let number = cell;
    let found = numberFrom(cell, decimal, decimalKnown);
    if (typeof found !== "number") {
      const measure = from === undefined ? null : unitBehind(cell);
      if (measure === null) return found;
      const reason = strange(measure.unit);
      if (reason !== null) return new Refusal(reason);
      number = measure.number;
      found = numberFrom(number, decimal, decimalKnown);
      if (typeof found !== "number") return found;
    } else if (unitInCells) return new Refusal(`has no unit, where the column's other cells say ${column}`);
    const value = sign * (converts ? convert(found, from, own) : found) + offset + 0;
    const reason = value < min || value > max ? outsideLimits(field, value) : null;
    if (reason === null) return value;
    const asItStands = !converts && offset === 0 && ungrouped(number, decimal, true) === null;
    return new Refusal(asItStands ? reason : `${show(value)} ${reason}`);
  };
}

function wordReader(field: Field, options: CellOptions): CellReader {
  const known = new Map<string, string>();
  for (const word of field.words ?? []) known.set(word.toLowerCase(), word);
  for (const [from, to] of options.words ?? []) known.set(from, to);
  const reason = `is not one of ${[...(field.words ?? [])].join(", ")}`;
  return (cell) => known.get(cell) ?? known.get(wordKey(cell)) ?? new Refusal(reason);
}

function booleanReader(options: CellOptions): CellReader {
  const known = new Map<string, boolean>();
  for (const word of trueValues) known.set(word, true);
  for (const word of falseValues) known.set(word, false);
  for (const [from, to] of options.words ?? []) known.set(from, to === "true");
  return (cell) => known.get(wordKey(cell)) ?? new Refusal("is not true or false");
}

/** A copy that doesn't keep the text it was cut from alive. */
function copy(text: string): string {
  // Joined and cut again, the text is written out anew; a cut alone would go on pointing into the file's text.
  return text.length < 13 ? text : ` ${text}`.slice(1);
}

const mostRemembered = 10_000;
const longestRemembered = 64;

/**
 * A name with the given one first.
 * @example givenFirst("Rivera, Ana") // "Ana Rivera"
 */
export function givenFirst(name: string): string {
  const [family, given, ...more] = name.split(",").map((part) => part.trim());
  return given === undefined || given === "" || more.length > 0 ? name : `${given} ${family!}`;
}

function textReader(options: CellOptions): CellReader {
  // Names and drills come again and again: one copy each.
  const remembered = new Map<string, string>();
  return (cell) => {
    const before = remembered.get(cell);
    if (before !== undefined) return before;
    const bare = unguarded(cell);
    const turned = options.familyFirst === true ? givenFirst(bare) : bare;
    const meant = options.words?.get(wordKey(bare)) ?? options.words?.get(wordKey(turned)) ?? turned;
    const text = copy(meant.normalize("NFC"));
    if (cell.length <= longestRemembered && remembered.size < mostRemembered)
      remembered.set(copy(cell), text);
    return text;
  };
}

/** A name of a table, as the table writes it; another one is refused, or left as it stands to be warned of. */
function nameReader(table: NameTable, options: CellOptions): CellReader {
  const text = textReader(options);
  return (cell) => {
    const found = text(cell);
    if (typeof found !== "string") return found;
    const name = nameIn(table, found);
    if (name !== null) return name;
    return table.others === "refused" ? new Refusal(notAmong(table, found)) : found;
  };
}

function timeReader(field: Field, options: CellOptions): CellReader {
  const type = field.type === "date" ? "date" : "datetime";
  if (options.dates !== undefined) return dateReader(options.dates, type);
  if (type === "date") return dayFrom;
  return (cell) => {
    const found = timeFrom(cell);
    return typeof found === "string" ? copy(found) : found;
  };
}

/**
 * The reader of one field's cells. Blanks around the text don't count, and neither do capitals in a word of a
 * list; an unknown is null.
 * @example cellReader({ name: "n", type: "number", max: 9, title: "", description: "" })(" 4 ") // 4
 */
export function cellReader(field: Field, options: CellOptions = {}): CellReader {
  const missing = new Set([...missingValues, ...(options.missing ?? [])]);
  const read =
    field.type === "number"
      ? numberReader(field, options)
      : field.type === "boolean"
        ? booleanReader(options)
        : field.type === "string"
          ? field.words !== undefined
            ? wordReader(field, options)
            : field.names !== undefined
              ? nameReader(field.names, options)
              : textReader(options)
          : timeReader(field, options);
  return (cell) => {
    const text = cell.trim();
    if (text.length < 3 && missing.has(text)) return null;
    if (options.missing !== undefined && missing.has(text)) return null;
    return read(text);
  };
}
