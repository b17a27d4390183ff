/** Which column is which field: by its heading and its values together. */
import { missingValues, numberFrom, wordKey } from "./cells.ts";
import { formatsOf } from "./dates.ts";
import {
  fieldNamed,
  fields,
  givenIn,
  numbersOf,
  sure,
  worthAsking,
  type Alternative,
  type Answers,
  type Col,
  type Score,
  type Taken,
} from "./guessing.ts";
import { isPrivate } from "./layout.ts";
import { headingKey } from "./maps.ts";
import { unitBehind } from "./measure.ts";
import type { Sample } from "./read.ts";
import type { Field } from "../swing/fields.ts";
import { quantile } from "./tells.ts";
import {
  headingFits,
  headingParts,
  isNothing,
  isOthersHand,
  lettersMeant,
  namePart,
  wordMeant,
  type Meaning,
} from "./words.ts";

/** Columns with more words than this that aren't known hold something else. */
const mostUnknownWords = 8;

const isNumber = (cell: string): boolean => {
  const text = unitBehind(cell)?.number ?? cell;
  return [".", ","].some((mark) => typeof numberFrom(text, mark as "." | ",", true) === "number");
};

/** A sheet's columns, looked at. */
export function columnsOf(sample: Sample, rows: Sample["rows"]): Col[] {
  const seen = new Map<string, number>();
  return sample.header.map((given, at): Col => {
    const key = headingKey(given);
    const n = (seen.get(key) ?? 0) + 1;
    seen.set(key, n);
    const parts = headingParts(given);
    const cells = rows
      .map((row) => (row[at] ?? "").trim())
      .filter((cell) => !missingValues.includes(cell) && !isNothing(cell));
    const counts = new Map<string, number>();
    for (const cell of cells) counts.set(wordKey(cell), (counts.get(wordKey(cell)) ?? 0) + 1);
    const numbers = cells.filter(isNumber).length;
    return {
      at,
      heading: n === 1 ? given : `${given} (${n})`,
      parts,
      fits: given.trim() === "" || isPrivate(given) ? [] : headingFits(parts.name),
      own: fieldNamed(key) ?? null,
      cells,
      counts,
      isNumbers: numbers > 0 && numbers >= cells.length * 0.6,
    };
  });
}

/** What a column's words mean as those of a field, and how much of it is known. */
interface WordFit {
  readonly words: Map<string, Meaning | null>;
  /** Of the rows, and of the words. */
  readonly rows: number;
  readonly known: number;
  readonly byLetters: boolean;
}

/** What a column's words mean as those of a field that has words. */
export function wordFit(field: Field, col: Col): WordFit {
  const all = [...col.counts.keys()];
  const letters = all.length > 12 ? null : lettersMeant(field.name, all);
  let byLetters = false;
  const words = new Map<string, Meaning | null>();
  let rows = 0;
  for (const [text, n] of col.counts) {
    const exact = field.words!.find((word) => word.toLowerCase() === text);
    let meaning: Meaning | null =
      exact === undefined ? wordMeant(field.name, text) : { means: exact, certainty: 1 };
    if (meaning === null) {
      const means = letters?.get(text);
      if (means !== undefined) {
        meaning = { means, certainty: all.length > 1 ? 0.88 : 0.6 };
        byLetters = true;
      }
    }
    words.set(text, meaning);
    if (meaning !== null) rows += n;
  }
  const known = [...words.values()].filter((meaning) => meaning !== null).length;
  return {
    words,
    rows: col.cells.length === 0 ? 0 : rows / col.cells.length,
    known: all.length === 0 ? 0 : known / all.length,
    byLetters,
  };
}

const looksLikeDay = (cell: string): boolean =>
  /^\d{4}-\d\d-\d\d([T ]|$)/.test(cell) || formatsOf(cell).length > 0;
const looksLikeClock = (cell: string): boolean => /^\d{1,2}:\d\d(:\d\d([.,]\d+)?)?(\s?[ap]m)?$/i.test(cell);

export const share = (cells: readonly string[], test: (cell: string) => boolean): number =>
  cells.length === 0 ? 1 : cells.filter(test).length / cells.length;

/** Whether numbers only count a file's rows: the next file has them again. */
function counts(cells: readonly string[]): boolean {
  return cells.length > 0 && cells.every((cell, i) => cell === String(i) || cell === String(i + 1));
}

/** How well a column fits a field by heading and values, 0 to 1 (over 1 where it has the field's own name). */
function fitOf(field: Field, col: Col, rowCount: number): number {
  if (col.own !== null) return col.own === field ? 2 : 0;
  const heading = col.fits.find((fit) => fit.field === field.name)?.score ?? 0;
  const { cells } = col;
  if (field.words !== undefined) {
    if (cells.length === 0) return heading;
    if (field.name === "bats" && isOthersHand(col.parts.name)) return 0;
    const { rows, known, byLetters } = wordFit(field, col);
    const variety = col.counts.size;
    const isWhole = rows > 0.97;
    const isFilled = cells.length >= rowCount * 0.9;
    const unknown = Math.round((1 - known) * variety);
    if (isWhole) {
      // Letters and hands could stand for something else where the heading says nothing.
      const plainWords = !byLetters || variety > 1;
      const telling =
        field.name === "outcome"
          ? variety > 1 && !byLetters
          : field.name === "bats"
            ? variety > 1
            : isFilled && plainWords;
      const alone = telling ? (variety > 1 ? 0.9 : 0.82) : 0.4;
      const other = col.fits[0];
      // Hands and results give way to what the heading plainly says, and the input to nothing.
      if (field.name !== "input" && heading < 0.5 && other !== undefined && other.score >= 0.9) return 0.3;
      return 1 - (1 - alone) * (1 - 0.8 * heading) + (field.name === "input" && variety > 1 ? 0.08 : 0);
    }
    if (unknown > mostUnknownWords || (col.isNumbers && rows === 0)) return 0;
    if (rows >= 0.5 || known >= 0.5) return 1 - (1 - 0.7) * (1 - 0.75 * heading);
    return heading * (heading >= 0.9 || known > 0 ? 0.9 : 0.6);
  }
  if (heading === 0) return 0;
  if (field.type === "number") {
    if (cells.length === 0) return heading;
    if (!col.isNumbers) return 0;
    return Math.min(sure, heading + 0.12 * plausible(field, col));
  }
  if (field.type === "datetime") {
    const found = Math.max(share(cells, looksLikeDay), share(cells, looksLikeClock));
    return found < 0.8 ? 0 : Math.min(sure, heading + 0.12);
  }
  if (field.name === "hitter") {
    if (share(cells, (cell) => /\p{L}/u.test(cell)) < 0.8) return heading * 0.5;
    return Math.min(sure, heading + 0.12);
  }
  if (field.name === "swing_id") {
    if (cells.length < rowCount || col.counts.size < cells.length || counts(cells)) return 0;
    return heading;
  }
  if (field.name === "pitcher" && col.isNumbers) return 0;
  return heading;
}

/** Whether a column's numbers could be those of a field in some unit: 1, or less than nothing where they can't. */
function plausible(field: Field, col: Col): number {
  const values = numbersOf(col, ".").concat(numbersOf(col, ","));
  if (values.length < 5) return 1;
  const tenth = quantile(values.map(Math.abs), 0.9);
  const [low, high] = likelyRange(field);
  return tenth >= low && tenth <= high ? 1 : -3;
}

/** Where a column's ninth decile may lie, in any unit. Common practice, no source. */
export function likelyRange({ name, unit }: Field): readonly [number, number] {
  if (name === "exit_velocity_mph") return [15, 190];
  if (name === "bat_speed_mph") return [12, 150];
  if (name === "pitch_speed_mph") return [6, 175];
  if (name === "tracker_carry_ft") return [15, 600];
  if (unit === "deg") return [0.05, 360];
  if (unit === "rpm") return [40, 9000];
  return [0, Infinity];
}

/** The fields that a column could be, the likeliest first. */
export function scoresOf(col: Col, rowCount: number): Score[] {
  if (isPrivate(col.heading) || col.heading.trim() === "") return [];
  return fields
    .map((field) => ({ field, score: fitOf(field, col, rowCount) }))
    .filter(({ score }) => score >= 0.2)
    .sort((a, b) => b.score - a.score);
}

export const alternativesOf = (scores: readonly Score[], field: Field | null): Alternative[] =>
  scores
    .filter((score) => score.field !== field)
    .slice(0, 4)
    .map((score) => ({ field: score.field.name, certainty: Number(Math.min(1, score.score).toFixed(2)) }));

/** Fields that more than one column may be put together to. */
const joins = (field: Field): boolean => field.name === "hitter" || field.name === "time";

/** Which column goes to which field: the surest first, each once. */
export function assigned(
  cols: readonly Col[],
  scores: ReadonlyMap<Col, readonly Score[]>,
  answers: Answers,
): Taken[] {
  const taken: Taken[] = [];
  const take = (col: Col, field: Field, certainty: number, reason: string): void => {
    taken.push({
      col,
      field,
      certainty: Math.min(certainty > 1 ? (col.own === field ? 1 : sure) : certainty, 1),
      reasons: [reason],
      unit: null,
      sign: null,
      offset: 0,
      order: false,
      words: new Map(),
      isOpen: false,
    });
  };
  const answered = new Map<Col, Field | null>();
  for (const col of cols) {
    const text = givenIn(answers, `field:${col.heading}`);
    if (text === undefined || isPrivate(col.heading)) continue;
    answered.set(col, fieldNamed(text) ?? null);
  }
  for (const field of fields) {
    const heading = givenIn(answers, `column:${field.name}`);
    const col = cols.find((other) => other.heading === heading);
    if (col !== undefined && !isPrivate(col.heading)) answered.set(col, field);
  }
  for (const [col, field] of answered) {
    const isTwice = field !== null && !joins(field) && taken.some((t) => t.field === field);
    if (field !== null && !isTwice) take(col, field, 1, "as you say");
  }
  const filled = new Set(
    Object.keys(answers).flatMap((id) => (id.startsWith("all:") && answers[id] !== "" ? [id.slice(4)] : [])),
  );
  const pairs = cols
    .filter((col) => !answered.has(col))
    .flatMap((col) => scores.get(col)!.map(({ field, score }) => ({ col, field, score })))
    .filter(({ score }) => score >= worthAsking)
    .sort((a, b) => b.score - a.score || a.col.at - b.col.at);
  const isFree = (col: Col): boolean => !taken.some((t) => t.col === col);
  for (const { col, field, score } of pairs) {
    if (!isFree(col) || filled.has(field.name)) continue;
    const before = taken.filter((t) => t.field === field);
    if (before.length > 0 && !isPart(field, col, before)) {
      // Two that fit alike and say different things: who knows which.
      const [t] = before;
      const isTie =
        t!.reasons[0] !== "as you say" &&
        score >= t!.certainty - 0.03 &&
        score < 1.5 &&
        !sameCells(t!.col, col);
      if (isTie && col.cells.length > 0 && t!.col.cells.length > 0 && !joins(field))
        t!.certainty = Math.min(t!.certainty, 0.7);
      continue;
    }
    const heading = col.fits.find((fit) => fit.field === field.name)?.score ?? 0;
    const byWords = field.words !== undefined && col.cells.length > 0 && col.own === null;
    take(
      col,
      field,
      score,
      byWords && heading < 0.5 ? "by its values" : byWords ? "by its heading and values" : "by its heading",
    );
  }
  inputAnyway(cols, taken, answered, filled, take);
  return taken.sort((a, b) => fields.indexOf(a.field) - fields.indexOf(b.field) || a.col.at - b.col.at);
}

/** Where no column is headed as the input, one of few words of which most mean it is, whatever its heading. */
function inputAnyway(
  cols: readonly Col[],
  taken: Taken[],
  answered: ReadonlyMap<Col, Field | null>,
  filled: ReadonlySet<string>,
  take: (col: Col, field: Field, certainty: number, reason: string) => void,
): void {
  const input = fieldNamed("input")!;
  if (filled.has("input") || taken.some((t) => t.field === input)) return;
  const fits = cols
    .filter(
      (col) => !answered.has(col) && !isPrivate(col.heading) && col.counts.size > 1 && col.counts.size <= 12,
    )
    .filter(
      (col) =>
        !taken.some(
          (t) =>
            t.col === col &&
            (t.field.words !== undefined || t.field.type !== "string" || t.field.name === "hitter"),
        ),
    )
    .map((col) => ({ col, fit: wordFit(input, col) }))
    .filter(({ fit }) => fit.rows >= 0.5 && fit.known >= 0.5)
    .sort((a, b) => b.fit.rows - a.fit.rows);
  const [best] = fits;
  if (best === undefined) return;
  const at = taken.findIndex((t) => t.col === best.col);
  if (at >= 0) taken.splice(at, 1);
  take(best.col, input, 0.85, "by its values");
}

const sameCells = (a: Col, b: Col): boolean =>
  a.cells.length === b.cells.length && a.cells.every((cell, i) => cell === b.cells[i]);

/** Whether a column is a further part of a field: a clock beside a day, a family name beside a given one. */
function isPart(field: Field, col: Col, before: readonly Taken[]): boolean {
  if (!joins(field) || before.length > 1) return false;
  const [first] = before;
  if (field.name === "time") {
    const [a, b] = [first!.col, col].map(
      ({ cells }) => share(cells, looksLikeDay) >= 0.8 && !cells.some((cell) => cell.includes(":")),
    );
    const [c, d] = [first!.col, col].map(({ cells }) => share(cells, looksLikeClock) >= 0.8);
    if (first!.col.cells.length === 0 || col.cells.length === 0)
      return /date|day|clock|time/.test(col.parts.name);
    return (a! && d!) || (b! && c!);
  }
  const parts = [first!.col, col].map(({ parts: { name } }) => namePart(name));
  return parts[0] !== parts[1] && (parts.includes("given") || parts.includes("family"));
}
