/** Words and numbers as the charts write them, and how much room they take where nothing can measure them. */
import { format, max, min } from "d3";
import { counted } from "../swing/words.ts";
import { convert } from "../units/index.ts";
import type { UnitSystem } from "../units/system.ts";
import { fontSize } from "./theme.ts";

/** Advance widths of ASCII 32 to 126, thousandths of the letter size: Helvetica's, from its AFM file. */
// prettier-ignore
const advances = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
  556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
  260, 334, 584,
];
/** System letters run wider than Helvetica by up to this. */
const wider = 1.16;

/**
 * About how wide a text is, px: on the wide side, for layout without a browser.
 * @example textWidth("n 12", 12) > textWidth("n 1", 12) // true
 */
export function textWidth(text: string, size: number = fontSize.label, bold = false): number {
  let sum = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0)!;
    sum += advances[code - 32] ?? (code > 0x2e80 ? 1000 : 584);
  }
  return (sum * size * wider * (bold ? 1.07 : 1)) / 1000;
}

/**
 * A text broken at its spaces into lines no wider than a width, px. A word wider than that is broken between its letters.
 * @example wrap("one two", 1000) // ["one two"]
 * @example wrap("mm mmmm", 24) // ["mm", "mm", "mm"]
 */
export function wrap(text: string, width: number, size: number = fontSize.label, bold = false): string[] {
  const lines: string[] = [];
  const words = text.split(/\s+/).filter(Boolean);
  for (const word of words.flatMap((one) => piecesOf(one, width, size, bold))) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, size, bold) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A word in pieces no wider than a width, px: a letter each at the least. */
function piecesOf(word: string, width: number, size: number, bold: boolean): string[] {
  if (textWidth(word, size, bold) <= width) return [word];
  const pieces: string[] = [];
  for (const letter of word) {
    const longer = (pieces.at(-1) ?? "") + letter;
    if (pieces.length > 0 && textWidth(longer, size, bold) <= width) pieces[pieces.length - 1] = longer;
    else pieces.push(letter);
  }
  return pieces;
}

/** A text cut to a width, px, with an ellipsis where it was cut. */
export function shorten(text: string, width: number, size: number = fontSize.label, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && textWidth(`${letters.join("")}…`, size, bold) > width) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

export type { UnitSystem } from "../units/system.ts";

/** A measure as a chart shows it: the table's unit turned into the reader's. */
export interface Measure {
  /** As written after a number: "mph", "ft". */
  readonly unit: string;
  /** From the table's unit. */
  from(value: number): number;
  /** The number and its unit. */
  say(value: number): string;
}

const whole = format(",.0f");
const tenth = format(",.1f");

/** A number as written: no decimals unless asked for. Minus is a minus sign. */
export const number = (value: number, decimals: 0 | 1 = 0): string => {
  const text = decimals === 0 ? whole(value) : tenth(value);
  return /^−[0.]+$/.test(text) ? text.slice(1) : text;
};

function measure(
  from: Parameters<typeof convert>[1],
  to: Parameters<typeof convert>[2],
  unit: string,
): Measure {
  const turn = (value: number): number => convert(value, from, to);
  return { unit, from: turn, say: (value) => `${number(turn(value))} ${unit}` };
}

/** What the charts measure, in a reader's units. Speeds come as mph, lengths as ft. */
export const measures: Readonly<Record<UnitSystem, { speed: Measure; distance: Measure; place: Measure }>> = {
  us: {
    speed: measure("mph", "mph", "mph"),
    distance: measure("ft", "ft", "ft"),
    place: measure("ft", "in", "in"),
  },
  metric: {
    speed: measure("mph", "km/h", "km/h"),
    distance: measure("ft", "m", "m"),
    place: measure("ft", "cm", "cm"),
  },
};

/** A share as a whole percentage. */
export const percent = (share: number): string => `${number(share * 100)}%`;

/** A figure with its interval, as `src/stats` gives it. */
export interface Interval {
  readonly n: number;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** A count out of n with its interval, as `src/stats` gives it. */
export interface ShareInterval {
  readonly count: number;
  readonly n: number;
  readonly share: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * A figure with its interval and its count in words.
 * @param write how one value is written
 * @example sayInterval({ n: 20, value: 8.1, low: 6, high: 11 }, (v) => `${v}°`) // "8.1° (6° to 11°, n 20)"
 * @example sayInterval({ n: 2, value: 8, low: null, high: null }, String) // "8 (no interval, n 2)"
 * @example sayInterval({ n: 0, value: null, low: null, high: null }, String) // "unknown (n 0)"
 */
export function sayInterval(figure: Interval, write: (value: number) => string): string {
  if (figure.value === null) return `unknown (n ${figure.n})`;
  return `${write(figure.value)} (${sayRange(figure, write)}, n ${figure.n})`;
}

/** The interval alone: "6 to 11", or that there is none. */
function sayRange(figure: Pick<Interval, "low" | "high">, write: (value: number) => string): string {
  if (figure.low === null || figure.high === null) return "no interval";
  return `${write(figure.low)} to ${write(figure.high)}`;
}

/** A share's interval as short as it can be told: "17–32%". */
export function percentRange(share: Pick<ShareInterval, "low" | "high">): string {
  if (share.low === null || share.high === null) return "no interval";
  return `${number(share.low * 100)}–${percent(share.high)}`;
}

/** A share in words: "24% (31 of 129; 17–32%)". */
export function sayShare(share: ShareInterval): string {
  if (share.share === null) return `none (n ${share.n})`;
  return `${percent(share.share)} (${share.count} of ${share.n}; ${percentRange(share)})`;
}

/** A count and its noun, thousands grouped: "1 swing", "1,200 swings". */
export const count = (n: number, noun: string, plural = `${noun}s`): string =>
  counted(n, noun, plural, number);

/**
 * The least and the greatest of some values in words, the unit after the second: "61 to 99 mph". Empty for none.
 * @example spanWords([3, 1, 2], (v) => `${v} ft`, String) // "1 to 3 ft"
 */
export function spanWords(
  values: readonly number[],
  say: (value: number) => string,
  plain: (value: number) => string = say,
): string {
  const [least, greatest] = [min(values), max(values)];
  return least === undefined || greatest === undefined ? "" : `${plain(least)} to ${say(greatest)}`;
}
