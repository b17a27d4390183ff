/** Days and times: ISO 8601, or a format that a column map names. What could be read in two ways is not guessed at. */
import { Refusal, type CellReader } from "../swing/refusal.ts";
import { largest } from "../swing/lists.ts";
import { monthNamed } from "./months.ts";

const daysIn = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

function isDay(year: number, month: number, day: number): boolean {
  if (month < 1 || month > 12 || day < 1 || day > daysIn[month - 1]!) return false;
  return !(month === 2 && day === 29) || (year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0));
}

const isoDay = /^(\d{4})-(\d\d)-(\d\d)$/;
const isoTime =
  /^(\d{4})-(\d\d)-(\d\d)(?:[T ]([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d|60)(?:[.,]\d{1,9})?)?(?:Z|[+-](?:[01]\d|2[0-3])(?::?[0-5]\d)?)?)?$/;

/** An ISO 8601 day as it stands, or why it is none. */
export function dayFrom(cell: string): string | Refusal {
  const found = isoDay.exec(cell);
  if (found === null) return new Refusal(otherForms(cell, "date") ?? "is not an ISO 8601 date (2026-05-31)");
  if (!isDay(Number(found[1]), Number(found[2]), Number(found[3])))
    return new Refusal("is a day no calendar has");
  return cell;
}

/**
 * An ISO 8601 day or time, the two parted by a T, or why it is none.
 * @example timeFrom("2026-05-31 09:30") // "2026-05-31T09:30"
 */
export function timeFrom(cell: string): string | Refusal {
  const found = isoTime.exec(cell);
  if (found === null)
    return new Refusal(otherForms(cell, "datetime") ?? "is not an ISO 8601 time (2026-05-31T09:30:00)");
  if (!isDay(Number(found[1]), Number(found[2]), Number(found[3])))
    return new Refusal("is a day no calendar has");
  return cell.charAt(10) === " " ? `${cell.slice(0, 10)}T${cell.slice(11)}` : cell;
}

const dateTokens = {
  YYYY: "(\\d{4})",
  YY: "(\\d{2})",
  MMM: "([^\\d\\s.,/-]{3,}\\.?)",
  MM: "(\\d{1,2})",
  DD: "(\\d{1,2})",
  HH: "(\\d{1,2})",
  hh: "(\\d{1,2})",
  mm: "(\\d{1,2})",
  ss: "(\\d{1,2}(?:[.,]\\d{1,9})?)",
  A: "([AaPp][Mm])",
} as const;
type DateToken = keyof typeof dateTokens;

/** The tokens of a date format in order, and the pattern of the cells; null when it has no year, month and day. */
function datePattern(format: string): { tokens: DateToken[]; pattern: RegExp } | null {
  const tokens: DateToken[] = [];
  let source = "";
  for (const part of format.split(/(YYYY|YY|MMM|MM|DD|HH|hh|mm|ss|A)/)) {
    if (Object.hasOwn(dateTokens, part)) {
      tokens.push(part as DateToken);
      source += dateTokens[part as DateToken];
    } else source += part.replace(/[.*+?^${}()|[\]\\/-]/g, "\\$&").replace(/ /g, "\\s+");
  }
  const once = new Set(tokens).size === tokens.length;
  const years = tokens.filter((t) => t === "YYYY" || t === "YY").length;
  const months = tokens.filter((t) => t === "MMM" || t === "MM").length;
  const dated = years === 1 && months === 1 && tokens.includes("DD");
  const half =
    tokens.includes("hh") === tokens.includes("A") && !(tokens.includes("hh") && tokens.includes("HH"));
  return once && dated && half ? { tokens, pattern: new RegExp(`^${source}$`) } : null;
}

/**
 * Whether a text is a date format: YYYY (or YY for 20YY), MM (or MMM for a month's name, whole or short, in any language
 * of months.ts), DD, and HH or hh with A, mm, ss, each at most once.
 */
export function isDateFormat(format: string): boolean {
  return datePattern(format) !== null;
}

/**
 * A reader of days or times written another way, giving ISO 8601. A cell without its clock part gives the day.
 * @example dateReader("DD.MM.YYYY HH:mm", "datetime")("31.5.2026 09:30") // "2026-05-31T09:30:00"
 * @example dateReader("MMM DD, YYYY", "date")("Sept. 3, 2026") // "2026-09-03"
 */
export function dateReader(format: string, type: "date" | "datetime"): CellReader {
  const whole = datePattern(format);
  if (whole === null) throw new RangeError(`${format} is no date format`);
  // The day alone, where a cell has no clock part.
  const year4 = format.includes("YYYY");
  const monthToken = format.includes("MMM") ? "MMM" : "MM";
  const dayEnd = largest([year4 ? "YYYY" : "YY", monthToken, "DD"].map((t) => format.indexOf(t) + t.length));
  const dayOnly = datePattern(format.slice(0, dayEnd + (/^[日일]/.test(format.slice(dayEnd)) ? 1 : 0)));
  const two = (value: number): string => String(value).padStart(2, "0");
  return (cell) => {
    const form = whole.pattern.test(cell) ? whole : dayOnly;
    const found = form?.pattern.exec(cell);
    if (form === null || !found) return new Refusal(`is not written as ${format}`);
    const part = (token: DateToken): string => {
      const at = form.tokens.indexOf(token);
      return at < 0 ? "" : found[at + 1]!;
    };
    const yyyy = year4 ? part("YYYY") : `20${part("YY")}`;
    const month = monthToken === "MM" ? Number(part("MM")) : monthNamed(part("MMM"));
    if (month === null) return new Refusal(`is not written as ${format}`);
    const [year, day] = [Number(yyyy), Number(part("DD"))];
    if (!isDay(year, month, day)) return new Refusal("is a day no calendar has");
    const date = `${yyyy}-${two(month)}-${two(day)}`;
    if (type === "date" || !(form.tokens.includes("HH") || form.tokens.includes("hh"))) return date;
    const half = form.tokens.includes("hh");
    let hour = Number(part(half ? "hh" : "HH"));
    if (half && (hour < 1 || hour > 12)) return new Refusal("is a time no clock shows");
    if (half) hour = (hour % 12) + (part("A").toLowerCase() === "pm" ? 12 : 0);
    const minute = Number(part("mm") || "0");
    const seconds = (part("ss") || "00").replace(",", ".");
    if (hour > 23 || minute > 59 || Number(seconds) >= 61) return new Refusal("is a time no clock shows");
    return `${date}T${two(hour)}:${two(minute)}:${/^\d(\.|$)/.test(seconds) ? `0${seconds}` : seconds}`;
  };
}

const dayParts = /^(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})(.*)$/s;
/** With a month's name, as in "12 Apr 2026", "Apr 12, 2026" or "12 de abril de 2026". */
const namedFirst = /^(\p{L}{3,}\.?)([ ./-]{1,2})(\d{1,2})(, ?|[ ./-]{1,2})(\d{4})(.*)$/su;
const namedSecond =
  /^(\d{1,4})([ ./-]{1,2}| de )(\p{L}{3,}\.?)(, ?|[ ./-]{1,2}| de )(\d{4}|\d{1,2})(?!\d)(.*)$/su;
const inSigns = /^\d{4}([年년] ?)\d{1,2}([月월] ?)\d{1,2}([日일])(.*)$/s;
const clockParts = /^([T ]|, ?)\d{1,2}:\d\d(:\d\d(?:[.,]\d+)?)?(?:( ?)[ap]m)?$/i;

/**
 * The formats that a day, and the clock behind it, may be written in.
 * @example formatsOf("31/05/2026") // ["DD/MM/YYYY", "MM/DD/YYYY"]
 * @example formatsOf("12 Apr 2026 09:30") // ["DD MMM YYYY HH:mm"]
 */
export function formatsOf(cell: string): string[] {
  const { days, clock } = daysWritten(cell);
  if (clock === "") return days;
  const [, gap, seconds, blank] = clockParts.exec(clock) ?? [];
  if (gap === undefined) return [];
  const half = blank === undefined ? "" : `${blank}A`;
  const time = `${gap}${half === "" ? "HH" : "hh"}:mm${seconds === undefined ? "" : ":ss"}${half}`;
  return days.map((day) => day + time);
}

/** The formats of a cell's day, and what stands behind it. */
function daysWritten(cell: string): { readonly days: string[]; readonly clock: string } {
  const none = { days: [], clock: "" };
  const first = namedFirst.exec(cell);
  if (first !== null) {
    const [, month, a, , b, , clock] = first;
    return monthNamed(month!) === null ? none : { days: [`MMM${a}DD${b}YYYY`], clock: clock! };
  }
  const second = namedSecond.exec(cell);
  if (second !== null) {
    const [, start, a, month, b, end, clock] = second;
    const isYearFirst = start!.length === 4;
    const ends = isYearFirst ? end!.length < 3 : start!.length < 3 && [4, 2].includes(end!.length);
    if (!ends || monthNamed(month!) === null) return none;
    return {
      days: [isYearFirst ? `YYYY${a}MMM${b}DD` : `DD${a}MMM${b}${"Y".repeat(end!.length)}`],
      clock: clock!,
    };
  }
  const signs = inSigns.exec(cell);
  if (signs !== null) return { days: [`YYYY${signs[1]}MM${signs[2]}DD${signs[3]}`], clock: signs[4]! };
  const [, start, mark, , end, clock] = dayParts.exec(cell) ?? [];
  if (start === undefined || mark === undefined || end === undefined || clock === undefined) return none;
  const orders =
    start.length === 4
      ? [["YYYY", "MM", "DD"]]
      : [4, 2].includes(end.length) && start.length < 3
        ? [
            ["DD", "MM", "Y".repeat(end.length)],
            ["MM", "DD", "Y".repeat(end.length)],
          ]
        : [];
  return { days: orders.map((order) => order.join(mark)), clock };
}

/**
 * Why a day that is not written as ISO 8601 is not guessed at: with everything it may mean, and what to say to
 * have it read. Null for a text that is no day in any form known here.
 * @example otherForms("03/04/2025", "date") // 'could be 2025-04-03 (DD/MM/YYYY) or 2025-03-04 (MM/DD/YYYY): say which with "dates" in a column map'
 */
export function otherForms(cell: string, type: "date" | "datetime"): string | null {
  const readings = formatsOf(cell).flatMap((format) => {
    const value = dateReader(format, type)(cell);
    return typeof value === "string" ? [{ format, value }] : [];
  });
  const [one, other] = readings;
  if (one === undefined) return null;
  if (other === undefined)
    return `is not ISO 8601: if it is ${one.value} (${one.format}), say so with "dates" in a column map`;
  const [day, month] = [`${one.value} (${one.format})`, `${other.value} (${other.format})`];
  return one.value === other.value
    ? `is ${one.value} both as ${one.format} and as ${other.format}, and other rows may not be: say which with "dates" in a column map`
    : `could be ${day} or ${month}: say which with "dates" in a column map`;
}
