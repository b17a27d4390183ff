/** A measure as a sheet writes it: a number, its decimal and thousands marks, and the unit that may stand behind it. */
import { missingValues } from "../swing/refusal.ts";
import type { UnitName } from "../units/index.ts";

/** How units are written, in headings, in rows of their own and behind a number. Common practice, no source. */
const spellings: readonly (readonly [UnitName, RegExp])[] = [
  ["km/h", /^(km\/?[hu]|km\/hr|kph|公里\/小?[时時]|キロ)$/i],
  ["m/s", /^(m\/s(ec)?|mps|米\/秒)$/i],
  ["ft/s", /^(ft\/s(ec)?|fps)$/i],
  ["mph", /^(mph|mi\/hr?)$/i],
  ["rpm", /^(rpm|r\/min|rev\/min|u\/min|tr\/min|giri\/min|omw\/min)$/i],
  ["rad/s", /^rad\/s$/i],
  ["rad", /^(rad|radians?)$/i],
  ["deg", /^([°º]|deg|degrees?|grad|grados?|degr[ée]s?|grad[oi]|graden|度|도)$/i],
  ["cm", /^(cm|centimet(er|re)s?|厘米|公分)$/i],
  ["in", /^(in|inch(es)?|["″”]|zoll|pulgadas?|pouces?|pollici|duim|英寸)$/i],
  ["ft", /^(ft|feet|foot|['′’]|pies|pieds?|piedi|voet|英尺)$/i],
  ["m", /^(m|met(er|re)s?|metros|m[èe]tres|metri|米|メートル|미터)$/i],
  ["inHg", /^in ?hg$/i],
  ["hPa", /^(hpa|mbar)$/i],
  ["Pa", /^pa$/i],
  ["F", /^[°º]? ?f$/i],
  ["C", /^[°º]? ?c$/i],
  ["K", /^k$/i],
  ["pct", /^(%|pct|percent)$/i],
];

/**
 * The unit that a text spells; null when it spells none.
 * @example unitSpelled("kph") // "km/h"
 */
export function unitSpelled(text: string): UnitName | null {
  const bare = text.trim().replace(/(?<=[a-z])\.$/i, "");
  return spellings.find(([, pattern]) => pattern.test(bare))?.[0] ?? null;
}

/** Inches or feet, or the same as above: in a row of nothing else nobody can tell. */
const ditto = /^["″”'′’]$/;

/**
 * The units that a row of nothing else names, as some sheets have under their headings; null for any other row, and for
 * one of quotation marks alone.
 * @example unitsNamed(["", "(mph)", "deg"]) // [null, "mph", "deg"]
 * @example unitsNamed(["Ana", "mph", "deg"]) // null
 */
export function unitsNamed(cells: readonly string[]): readonly (UnitName | null)[] | null {
  const units: (UnitName | null)[] = [];
  let isSure = false;
  for (const cell of cells) {
    const text = cell.trim().replace(/^[([{](.*)[)\]}]$/, "$1");
    const unit = unitSpelled(text);
    if (unit === null && !missingValues.includes(text)) return null;
    isSure ||= unit !== null && !ditto.test(text);
    units.push(unit);
  }
  return isSure && units.filter((unit) => unit !== null).length > 1 ? units : null;
}

const behindNumber =
  /^([+\-\u2212]?(?:\d(?:(?:[.,\s]|['\u2019](?=\d{3}))?\d)*\.?|\.\d+)(?:[eE][+-]?\d+)?)\s*([^\d\s.,].*)$/;

/**
 * A cell's number and the unit behind it; null when no unit is.
 * @example unitBehind("1,200 rpm") // { number: "1,200", unit: "rpm" }
 */
export function unitBehind(cell: string): { readonly number: string; readonly unit: UnitName } | null {
  const [, number, text] = behindNumber.exec(cell) ?? [];
  const unit = text === undefined ? null : unitSpelled(text);
  return unit === null ? null : { number: number!, unit };
}

const blank = /[ \u00a0\u202f'\u2019]/g;
/** A number whose thousands are parted by blanks or apostrophes, which no decimal mark is. */
const blanks = /^[+-]?[1-9]\d{0,2}(?:[ \u00a0\u202f'\u2019]\d{3})+(?:[.,]\d+)?$/;
/** By one of the marks that others have for decimals. */
const groups = {
  ".": /^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/,
  ",": /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?$/,
};

/**
 * A number without its thousands marks; null when it has none, or what could be decimals as well.
 * @param known whether the file is known to write decimals so
 * @example ungrouped("1,200", ".", true) // "1200"
 * @example ungrouped("1,200", ".", false) // null
 */
export function ungrouped(text: string, decimal: "." | ",", known: boolean): string | null {
  if (blanks.test(text)) return text.replace(blank, "");
  if (!groups[decimal].test(text)) return null;
  const other = decimal === "." ? "," : ".";
  // Two marks, or two of one kind, can only be read in one way.
  const clear = text.includes(decimal) || text.indexOf(other) !== text.lastIndexOf(other);
  return known || clear ? text.replaceAll(other, "") : null;
}

/** Decimals that are no thousands: other than three digits, behind too many digits, or behind a nought. */
const decimals = {
  ".": /^[+-]?(?:\d*\.(?:\d{1,2}|\d{4,})|(?:0|\d{4,})\.\d+|\d{1,3}(?:,\d{3})+\.\d+)$/,
  ",": /^[+-]?(?:\d*,(?:\d{1,2}|\d{4,})|(?:0|\d{4,}),\d+|\d{1,3}(?:\.\d{3})+,\d+)$/,
};

/**
 * How cells write decimals: with a comma, where numbers such as 92,4 stand and none such as 92.4. A mark before
 * exactly three digits could be a thousands mark, and proves nothing.
 * @returns the mark, a point where nothing is proved, and whether it is known
 * @example decimalMark(["92,4", "1.200 rpm"]) // { mark: ",", known: true }
 * @example decimalMark(["1,200"]) // { mark: ".", known: false }
 */
export function decimalMark(cells: Iterable<string>): { readonly mark: "." | ","; readonly known: boolean } {
  let comma = false;
  for (const cell of cells) {
    const text = cell.trim();
    const signed = (unitBehind(text)?.number ?? text).replace("\u2212", "-");
    const number = blanks.test(signed) ? signed.replace(blank, "") : signed;
    if (decimals["."].test(number)) return { mark: ".", known: true };
    if (decimals[","].test(number)) comma = true;
  }
  return { mark: comma ? "," : ".", known: comma };
}
