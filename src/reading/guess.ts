/**
 * Guessing a column map for a layout no one has described, from its headings and its values together. A guess says how
 * sure it is; what is not sure enough is asked, and left out until it is answered: nothing is taken wrong unseen.
 */
import { convert, dimension, unitNames, type UnitName } from "../units/index.ts";
import { givenFirst, missingValues, numberFrom, wordKey } from "./cells.ts";
import { dateReader, formatsOf } from "./dates.ts";
import { swingFields, type Field } from "../swing/fields.ts";
import { unitLabel } from "../swing/limits.ts";
import { isPrivate } from "./layout.ts";
import { familyFirst, headingKey, type ColumnMap, type MappedColumn } from "./maps.ts";
import { decimalMark, unitBehind } from "./measure.ts";
import type { Sample } from "./read.ts";
import {
  angleUnit,
  carryUnit,
  exitVelocityUnit,
  heightUnit,
  quantile,
  speedUnit,
  spinSign,
  spinUnit,
  sprayCount,
  type Told,
} from "./tells.ts";
import {
  headingFits,
  headingParts,
  isListed,
  isNothing,
  isOthersHand,
  isTotal,
  lettersMeant,
  namePart,
  plain,
  wordMeant,
  type HeadingFit,
  type HeadingParts,
  type Meaning,
} from "./words.ts";
import { counted } from "../swing/words.ts";

/** A field that a column could be, and how sure that is, 0 to 1. */
export interface Alternative {
  readonly field: string;
  readonly certainty: number;
}

/** What is made of one column. */
export interface GuessedColumn {
  /** As it stands in the sheet; where it stands twice, the second is "HEADING (2)". */
  readonly heading: string;
  /** Its place in the heading row, from 0. */
  readonly at: number;
  /** The field it seems to be; null when it is left out. */
  readonly field: string | null;
  /** The unit it seems to be in, where it is not the field's own. */
  readonly unit: UnitName | null;
  /** -1 where its signs are turned; null where the field has none or they are not known. */
  readonly sign: 1 | -1 | null;
  /** Added after unit and sign, in the field's own unit, where it counts from elsewhere. */
  readonly offset: number;
  /** How sure field, unit and sign are, 0 to 1: under `leastCertainty` a question asks. */
  readonly certainty: number;
  /** Why, in a few words. */
  readonly reason: string;
  /** What else it could be, the likeliest first. */
  readonly alternatives: readonly Alternative[];
  /** Whether the map takes it: what is uncertain is left out until it is answered. */
  readonly isTaken: boolean;
}

/** A word that is not the kit's own, and which of a field's words it means. */
export interface GuessedWord {
  readonly heading: string;
  readonly field: string;
  /** As it stands in the sheet. */
  readonly word: string;
  /** One of the field's words; null when that isn't known. */
  readonly means: string | null;
  readonly certainty: number;
  /** Rows of the sample with it. */
  readonly rows: number;
}

/** One answer to a question. */
export interface Choice {
  readonly key: string;
  readonly text: string;
}

/** What only someone who knows the sheet can tell. */
export interface Question {
  /**
   * What `answer` takes: `field:HEADING`, `unit:HEADING`, `sign:HEADING`, `word:HEADING:WORD` (in small letters),
   * `column:FIELD`, `all:FIELD`, `dates` or `decimal`. The second column of a heading is `HEADING (2)`.
   */
  readonly id: string;
  readonly kind: "field" | "unit" | "sign" | "word" | "column" | "all" | "dates" | "decimal";
  /** The column it is about; null when it is about the whole sheet. */
  readonly heading: string | null;
  readonly text: string;
  readonly options: readonly Choice[];
  /** Whether any other text is an answer too. */
  readonly takesText: boolean;
  /** The likeliest answer's key. */
  readonly likely: string | null;
  /** Whether the sheet can't be read without. */
  readonly isNeeded: boolean;
}

/** Answers by their question's id. Any column may be answered for, asked or not. */
export type Answers = Readonly<Record<string, string>>;

export interface GuessOptions {
  /** The exit velocity that the fastest of these hitters reaches, by their levels. */
  readonly fastest_mph?: number | null;
  /** Fields that need no column. */
  readonly filled?: readonly string[];
  readonly answers?: Answers;
}

export interface Guess {
  readonly columns: readonly GuessedColumn[];
  readonly words: readonly GuessedWord[];
  /** The way days are written, where it is not ISO 8601; null where nothing needs it or it is not known. */
  readonly dates: string | null;
  readonly decimal: "." | ",";
  /** What has to be asked, the most needed first. */
  readonly questions: readonly Question[];
  /** What is sure enough to be used: the same JSON that the commands read. */
  readonly map: ColumnMap;
  /** Needed fields that no column seems to hold. */
  readonly missing: readonly string[];
  /** What it was made of, so that answers can be worked in. */
  readonly from: { readonly sample: Sample; readonly options: GuessOptions };
}

/** Guesses that are less sure are asked about and not used. */
export const leastCertainty = 0.8;

/**
 * A guess with answers worked in, on top of those it had.
 * @example answer(guessLayout({ header: ["Batter"], rows: [], delimiter: "," }), { "all:input": "tee" }).map.always // { input: "tee" }
 */
export function answer(guess: Guess, answers: Answers): Guess {
  const { sample, options } = guess.from;
  return guessLayout(sample, { ...options, answers: { ...options.answers, ...answers } });
}

const fields: readonly Field[] = swingFields;
const fieldNamed = (name: string): Field | undefined => fields.find((field) => field.name === name);
const isNeededField = (field: Field): boolean => field.required !== undefined;
const sure = 0.98;
/** Under this a column is left out without a question. */
const worthAsking = 0.5;
/** Columns with more words than this that aren't known hold something else. */
const mostUnknownWords = 8;

/** One column, looked at. */
interface Col {
  readonly at: number;
  readonly heading: string;
  readonly parts: HeadingParts;
  readonly fits: readonly HeadingFit[];
  /** The field whose own name it has. */
  readonly own: Field | null;
  /** What stands in it, without what stands for nothing. */
  readonly cells: readonly string[];
  /** How often each of its texts stands, as `wordKey` has it. */
  readonly counts: ReadonlyMap<string, number>;
  /** Whether most of it is numbers, whatever the decimal mark. */
  readonly isNumbers: boolean;
}

/** A column's settled part of a map, as it comes to be. */
interface Taken {
  readonly col: Col;
  readonly field: Field;
  certainty: number;
  reasons: string[];
  unit: UnitName | null;
  sign: 1 | -1 | null;
  offset: number;
  order: boolean;
  words: Map<string, Meaning | null>;
  /** Whether it is kept although something is open, because the rest of it can be read. */
  isOpen: boolean;
}

const isNumber = (cell: string): boolean => {
  const text = unitBehind(cell)?.number ?? cell;
  return [".", ","].some((mark) => typeof numberFrom(text, mark as "." | ",", true) === "number");
};

function columnsOf(sample: Sample, rows: Sample["rows"]): Col[] {
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

function wordFit(field: Field, col: Col): WordFit {
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

const share = (cells: readonly string[], test: (cell: string) => boolean): number =>
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
function likelyRange({ name, unit }: Field): readonly [number, number] {
  if (name === "exit_velocity_mph") return [15, 190];
  if (name === "bat_speed_mph") return [12, 150];
  if (name === "pitch_speed_mph") return [6, 175];
  if (name === "tracker_carry_ft") return [15, 600];
  if (unit === "deg") return [0.05, 360];
  if (unit === "rpm") return [40, 9000];
  return [0, Infinity];
}

const numberOf = (cell: string, mark: "." | ","): number | null => {
  const found = numberFrom(unitBehind(cell)?.number ?? cell, mark, true);
  return typeof found === "number" ? found : null;
};

const numbersOf = (col: Col, mark: "." | ","): number[] =>
  col.cells.map((cell) => numberOf(cell, mark)).filter((value) => value !== null);

/** A number that is thousands or decimals, who knows. */
const twofold = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;

function decimalOf(cols: readonly Col[]): { mark: "." | ","; isKnown: boolean; isAsked: boolean } {
  const cells = cols.flatMap((col) => col.cells);
  const { mark, known } = decimalMark(cells);
  const unclear = cols.filter((col) =>
    col.cells.some((cell) => twofold.test(unitBehind(cell)?.number ?? cell)),
  );
  if (known || unclear.length === 0) return { mark, isKnown: known, isAsked: false };
  return { mark, isKnown: false, isAsked: true };
}

/** The mark under which the columns that could be read in two ways lie where their fields do; null when both do. */
function decimalByRange(taken: readonly Taken[]): "." | "," | null {
  const fits = (mark: "." | ","): boolean =>
    taken.every(({ col, field }) => {
      const values = numbersOf(col, mark).map(Math.abs);
      if (values.length < 5) return true;
      const tenth = quantile(values, 0.9);
      const [low, high] = likelyRange(field);
      return tenth >= low && tenth <= high && tenth <= (field.max ?? Infinity) * 1.7;
    });
  const [point, comma] = [fits("."), fits(",")];
  return point === comma ? null : point ? "." : ",";
}

/** The way days are written, and what else it could be. */
interface Days {
  readonly format: string | null;
  readonly choices: readonly string[];
  /** Whether its cells are days at all. */
  readonly isDays: boolean;
  readonly reason: string;
}

function daysOf(cells: readonly string[], isEnglish: boolean): Days {
  const none = { format: null, choices: [], reason: "" };
  if (cells.length === 0 || cells.every((cell) => /^\d{4}-\d\d-\d\d([T ]|$)/.test(cell)))
    return { ...none, isDays: true };
  const first = new Set(cells.slice(0, 20).flatMap(formatsOf));
  const reads = [...first]
    .map((format) => ({ format, values: cells.map(dateReader(format, "datetime")) }))
    .filter(({ values }) => values.filter((value) => typeof value !== "string").length <= cells.length * 0.02)
    // A clock in most of the cells stands in the format.
    .sort((a, b) => b.format.length - a.format.length);
  const longest = reads[0]?.format.length;
  const found = reads.filter(({ format }) => format.length === longest);
  const [one, other] = found;
  if (one === undefined)
    return { ...none, isDays: false, reason: "its days are written in no way that is known" };
  const format = one.format;
  if (other === undefined) return { format, choices: [], isDays: true, reason: `days are ${format}` };
  const choices = found.map((reading) => reading.format);
  const same = one.values.every((value, i) => value === other.values[i]);
  if (same) {
    const first = isEnglish && !format.includes(".") ? "MM" : "DD";
    const chosen = found.find((reading) => reading.format.startsWith(first))?.format ?? format;
    return { format: chosen, choices: [], isDays: true, reason: "its days are the same in either order" };
  }
  // Rows stand in the order in which balls were hit, forwards or backwards.
  const turns = found.map(({ values }) => {
    let [up, down] = [0, 0];
    values.forEach((value, i) => {
      const [a, b] = [String(values[i - 1] ?? value).slice(0, 10), String(value).slice(0, 10)];
      if (a < b) up++;
      else if (a > b) down++;
    });
    return { steps: up + down, turns: Math.min(up, down) };
  });
  const straight = found.filter((_, i) => turns[i]!.turns === 0 && turns[i]!.steps > 1);
  if (straight.length === 1)
    return { format: straight[0]!.format, choices: [], isDays: true, reason: "so its days stand in order" };
  const dayFirst = found.find((reading) => reading.format.startsWith("DD"));
  if (dayFirst !== undefined && (!isEnglish || dayFirst.format.includes(".")))
    return {
      format: dayFirst.format,
      choices: [],
      isDays: true,
      reason: "the day stands first, as its language writes it",
    };
  return {
    format: null,
    choices,
    isDays: true,
    reason: `its days can be read in two ways, ${choices.map((c) => `"${c}"`).join(" and ")}`,
  };
}

const metric: readonly UnitName[] = ["km/h", "m/s", "cm", "m"];
const imperial: readonly UnitName[] = ["mph", "ft", "in", "ft/s"];

/** The unit that cells, a row of units or the heading say. */
function unitSaid(field: Field, col: Col, sample: Sample): Told<UnitName> | null {
  if (field.unit === undefined) return null;
  const fits = (unit: UnitName | null): unit is UnitName =>
    unit !== null && dimension(unit) === dimension(field.unit!);
  const behind = col.cells.map((cell) => unitBehind(cell)?.unit ?? null);
  const [first] = behind.filter((unit) => unit !== null);
  if (
    first !== undefined &&
    fits(first) &&
    behind.filter((unit) => unit === first).length >= col.cells.length * 0.9
  )
    return { is: first, certainty: sure, reason: `its cells say ${first}` };
  const under = sample.units?.[col.at] ?? null;
  if (fits(under)) return { is: under, certainty: sure, reason: `the row of units says ${under}` };
  const named = col.parts.units.filter(fits);
  // "In" is a word too.
  const unit = named.find((name) => name !== "in") ?? named[0];
  return unit === undefined ? null : { is: unit, certainty: sure, reason: `its heading says ${unit}` };
}

const named = (unit: UnitName): string => unitLabel(unit).trim() || unit;
const signChoices: Readonly<Record<string, readonly Choice[]>> = {
  spray_angle_deg: [
    { key: "right", text: "positive goes toward right field, 0 to center" },
    { key: "left", text: "positive goes toward left field, 0 to center" },
    { key: "line", text: "0 is the left foul line and 90 the right one" },
  ],
  sidespin_rpm: [
    { key: "right", text: "positive curves toward right field" },
    { key: "left", text: "positive curves toward left field" },
  ],
  launch_angle_deg: [
    { key: "up", text: "positive goes up, 0 is level" },
    { key: "down", text: "positive goes down, 0 is level" },
    { key: "vertical", text: "0 is straight up" },
  ],
  spin_axis_deg: [
    { key: "back0right", text: "0 is pure backspin, 90 curves toward right field" },
    { key: "back0left", text: "0 is pure backspin, 90 curves toward left field" },
    { key: "back180right", text: "180 is pure backspin, 90 curves toward right field" },
    { key: "back180left", text: "180 is pure backspin, 90 curves toward left field" },
  ],
  contact_side_ft: [
    { key: "right", text: "positive is toward first base" },
    { key: "left", text: "positive is toward third base" },
  ],
  contact_depth_ft: [
    { key: "rear", text: "forward of the plate's rear point" },
    { key: "front", text: "forward of the plate's front edge" },
  ],
};

/** From the plate's rear point to its front edge, ft: 17 inches, by the rules of baseball and softball. */
const plateDepth_ft = 17 / 12;

/** What an answer to the question of signs does. */
const signs: Readonly<Record<string, { readonly sign: 1 | -1; readonly offset: number }>> = {
  right: { sign: 1, offset: 0 },
  left: { sign: -1, offset: 0 },
  line: { sign: 1, offset: -45 },
  up: { sign: 1, offset: 0 },
  down: { sign: -1, offset: 0 },
  vertical: { sign: -1, offset: 90 },
  back0right: { sign: 1, offset: 0 },
  back0left: { sign: -1, offset: 0 },
  back180right: { sign: -1, offset: 180 },
  back180left: { sign: 1, offset: -180 },
  rear: { sign: 1, offset: 0 },
  front: { sign: 1, offset: plateDepth_ft },
};

/**
 * What a sheet's columns are taken for, how sure that is, and what has to be asked.
 * @example guessLayout({ header: ["Batter", "EV (km/h)"], rows: [["Ana", "120"]], delimiter: "," }).map.columns["EV (km/h)"] // { field: "exit_velocity_mph", unit: "km/h" }
 */
export function guessLayout(sample: Sample, options: GuessOptions = {}): Guess {
  const answers: Answers = options.answers ?? {};
  const given = (id: string): string | undefined => (Object.hasOwn(answers, id) ? answers[id] : undefined);
  const body = sample.rows.filter((row) => !isTotal(row));
  const cols = columnsOf(sample, body);
  const questions: Question[] = [];
  const ask = (question: Omit<Question, "takesText"> & { takesText?: boolean }): void =>
    void questions.push({ takesText: false, ...question });

  const scores = new Map(cols.map((col) => [col, scoresOf(col, body.length)]));
  const taken = assigned(cols, scores, answers, given);
  const of = (name: string): Taken | undefined => taken.find(({ field }) => field.name === name);

  // Languages: headings that none of the English lists have.
  const spoken = taken.flatMap(
    ({ col, field }) => col.fits.find((fit) => fit.field === field.name)?.language ?? [],
  );
  const foreign = spoken.filter((language) => language !== "en").length;
  const isEnglish = foreign * 2 <= spoken.length || spoken.length === 0;

  // Decimals, from the columns of numbers.
  const numeric = taken.filter(({ field }) => field.type === "number");
  let { mark, isKnown, isAsked } = decimalOf(numeric.map(({ col }) => col));
  const told = given("decimal");
  if (told === "." || told === ",") [mark, isKnown, isAsked] = [told, true, false];
  else if (isAsked) {
    const byRange = decimalByRange(numeric);
    if (byRange !== null) [mark, isKnown, isAsked] = [byRange, true, false];
    else
      ask({
        id: "decimal",
        kind: "decimal",
        heading: null,
        text: "Is 1,200 one thousand two hundred here, or a little over one?",
        options: [
          { key: ".", text: "a comma parts thousands" },
          { key: ",", text: "a comma parts decimals" },
        ],
        likely: null,
        isNeeded: true,
      });
  }
  const valuesOf = ({ col }: Taken): number[] => numbersOf(col, mark);

  // Days.
  const times = taken.filter(({ field }) => field.name === "time");
  let dates: string | null = null;
  if (times.length > 0) {
    const joined = body
      .map((row) =>
        times
          .map(({ col }) => (row[col.at] ?? "").trim())
          .join(" ")
          .trim(),
      )
      .filter((cell) => cell !== "" && !missingValues.includes(cell) && !isNothing(cell));
    const days = daysOf(joined, isEnglish);
    const chosen = given("dates");
    dates = chosen !== undefined && chosen !== "" ? chosen : days.format;
    for (const time of times) {
      if (days.reason !== "") time.reasons.push(days.reason);
      if (!days.isDays || (dates === null && days.choices.length > 0)) time.certainty = 0;
    }
    if (dates === null && days.choices.length > 0 && chosen === undefined)
      ask({
        id: "dates",
        kind: "dates",
        heading: times[0]!.col.heading,
        text: `How are the days of "${times[0]!.col.heading}" written, such as ${joined[0]!}?`,
        options: [
          ...days.choices.map((format) => ({ key: format, text: format })),
          { key: "", text: "leave the days out" },
        ],
        likely: null,
        isNeeded: false,
      });
  }

  // Units: what is said first, then what the ranges tell.
  const said = new Map(taken.map((t) => [t, unitSaid(t.field, t.col, sample)]));
  const stated = [...said.values()].flatMap((unit) => unit?.is ?? []);
  const [hasMetric, hasImperial] = [metric, imperial].map((list) =>
    stated.some((unit) => list.includes(unit)),
  );
  const system =
    hasMetric !== hasImperial
      ? hasMetric
        ? "metric"
        : "imperial"
      : !hasMetric && !isEnglish
        ? "metric"
        : null;
  const around = { system, fastest_mph: options.fastest_mph ?? null } as const;
  const unitsDone = new Map<string, UnitName>();
  for (const t of numeric) {
    const { field, col } = t;
    if (field.unit === undefined) continue;
    const answered = given(`unit:${col.heading}`) as UnitName | undefined;
    if (
      answered !== undefined &&
      unitNames.includes(answered) &&
      dimension(answered) === dimension(field.unit)
    ) {
      t.unit = answered;
      t.reasons.push(`${answered}, as you say`);
    } else if (col.own === null || said.get(t)) {
      const unit = said.get(t) ?? unitTold(t, valuesOf(t));
      if (unit === null) {
        // With hardly a value there is nothing to be wrong about.
        if (valuesOf(t).length >= 5) t.certainty = Math.min(t.certainty, 0.55);
        t.unit = valuesOf(t).length >= 5 ? null : field.unit;
      } else {
        t.unit = unit.is;
        t.certainty = Math.min(t.certainty, unit.certainty);
        t.reasons.push(unit.reason);
      }
      const open = unit === null ? valuesOf(t).length >= 5 : unit.certainty < leastCertainty;
      if (open) {
        t.isOpen = true;
        ask({
          id: `unit:${col.heading}`,
          kind: "unit",
          heading: col.heading,
          text: `In which unit is "${col.heading}"${examples(col)}?`,
          options: unitNames
            .filter((name) => dimension(name) === dimension(field.unit!) && name !== "share")
            .map((name) => ({ key: name, text: named(name) })),
          likely: t.unit,
          isNeeded: isNeededField(field),
        });
      }
    } else t.unit = field.unit;
    if (t.unit !== null && !t.isOpen) unitsDone.set(field.name, t.unit);
  }

  function unitTold(t: Taken, values: number[]): Told<UnitName> | null {
    const { field } = t;
    const ball = unitsDone.get("exit_velocity_mph") ?? null;
    switch (field.name) {
      case "exit_velocity_mph":
        return exitVelocityUnit(values, around);
      case "pitch_speed_mph":
        return speedUnit(values, { low: 15, high: 105 }, ball);
      case "bat_speed_mph":
        return speedUnit(values, { low: 28, high: 95 }, ball);
      case "contact_height_ft":
        return heightUnit(values);
      case "contact_side_ft":
      case "contact_depth_ft": {
        const height = unitsDone.get("contact_height_ft");
        return height === undefined ? null : { is: height, certainty: 0.85, reason: "as the contact height" };
      }
      case "tracker_carry_ft": {
        const [speed, launch] = [of("exit_velocity_mph"), of("launch_angle_deg")];
        if (speed === undefined || launch === undefined || ball === null) return null;
        const angle = unitsDone.get("launch_angle_deg") ?? "deg";
        const balls = body.flatMap((row) => {
          const [v, a, d] = [speed, launch, t].map(({ col }) => numberOf((row[col.at] ?? "").trim(), mark));
          if (v == null || a == null || d == null) return [];
          return [{ speed_mph: convert(v, ball, "mph"), launch_deg: convert(a, angle, "deg"), value: d }];
        });
        return carryUnit(balls);
      }
      default:
        if (field.unit === "deg") return angleUnit(values);
        if (field.unit === "rpm") return spinUnit(values);
        return null;
    }
  }

  // Words.
  const words: GuessedWord[] = [];
  const nothings = new Set<string>();
  for (const t of taken) {
    const { field, col } = t;
    if (field.words === undefined) continue;
    t.words = wordFit(field, col).words;
    const open: string[] = [];
    for (const [word, meaning] of t.words) {
      const answered = given(`word:${col.heading}:${word}`);
      let found = meaning;
      if (answered !== undefined) found = answered === "" ? null : { means: answered, certainty: 1 };
      else if (meaning === null && field.name === "bats" && isBoth(word)) {
        // Someone who hits from both sides hit this ball from either.
        if (!taken.some((other) => other !== t && other.col.counts.has(word)))
          for (const cell of col.cells) if (wordKey(cell) === word) nothings.add(cell);
        continue;
      }
      const isUsed =
        found !== null && found.certainty >= Math.min(leastCertainty, answered === undefined ? 1 : 0);
      t.words.set(word, isUsed ? found : null);
      if (!isUsed && answered === undefined) open.push(word);
      const isOwn = field.words.some((own) => own.toLowerCase() === word);
      if (!isOwn)
        words.push({
          heading: col.heading,
          field: field.name,
          word: col.cells.find((cell) => wordKey(cell) === word)!,
          means: found?.means ?? null,
          certainty: found?.certainty ?? 0,
          rows: col.counts.get(word)!,
        });
    }
    for (const word of open) {
      const rows = col.counts.get(word)!;
      const guess = wordFit(field, col).words.get(word);
      ask({
        id: `word:${col.heading}:${word}`,
        kind: "word",
        heading: col.heading,
        text: `What does "${col.cells.find((cell) => wordKey(cell) === word)!}" in "${col.heading}" mean (${counted(rows, "row")})?`,
        options: [
          ...field.words.map((name) => ({ key: name, text: meaningText[name] ?? name })),
          { key: "", text: "none of these: its rows are refused" },
        ],
        likely: guess?.means ?? null,
        isNeeded: isNeededField(field),
      });
    }
  }

  // Signs.
  const hands = handsOf();
  for (const t of taken) {
    const { field, col } = t;
    const choices = signChoices[field.name];
    if (choices === undefined) continue;
    const answered = given(`sign:${col.heading}`);
    if (answered !== undefined) {
      if (Object.hasOwn(signs, answered)) use(t, answered, 1, `${textOf(choices, answered)}, as you say`);
      else t.certainty = 0;
      continue;
    }
    if (col.own !== null) {
      t.sign = 1;
      continue;
    }
    const positive = col.parts.positive;
    if (positive !== null) {
      const key = { left: "left", right: "right", up: "up", down: "down", pull: "", opposite: "" }[positive];
      const isFitting = choices.some((choice) => choice.key === key);
      if (isFitting) use(t, key, sure, `its heading says that ${textOf(choices, key)}`);
      else {
        t.certainty = 0;
        t.reasons = [
          positive === "pull" || positive === "opposite"
            ? "counted from the pull side, which changes with the hitter"
            : "its heading names an end that it can't have",
        ];
      }
      continue;
    }
    signByValues(t, choices);
  }

  function use(t: Taken, key: string, certainty: number, reason: string): void {
    const { sign, offset } = signs[key]!;
    t.sign = sign;
    t.offset = offset;
    t.certainty = Math.min(t.certainty, certainty);
    t.reasons.push(reason);
  }

  function signByValues(t: Taken, choices: readonly Choice[]): void {
    const { field, col } = t;
    const values = valuesOf(t);
    if (values.length === 0) {
      t.sign = 1;
      return;
    }
    const unit = t.unit ?? field.unit!;
    const at = (row: readonly string[], other: Taken | undefined, inUnit: UnitName): number | null => {
      if (other === undefined) return null;
      const value = numberOf((row[other.col.at] ?? "").trim(), mark);
      return value === null
        ? null
        : convert(value, other.unit ?? other.field.unit!, inUnit) * (other.sign ?? 1) + other.offset;
    };
    let likely: string | null = null;
    if (field.name === "spray_angle_deg") {
      const balls = body.flatMap((row) => {
        const value = numberOf((row[col.at] ?? "").trim(), mark);
        if (value === null) return [];
        const launch_deg = at(row, of("launch_angle_deg"), "deg");
        return [{ bats: hands(row), launch_deg, value_deg: convert(value, unit, "deg") }];
      });
      const count = sprayCount(balls);
      if (count !== null && count.certainty >= leastCertainty)
        return use(t, count.is, count.certainty, count.reason);
      if (
        quantile(
          balls.map((ball) => ball.value_deg),
          0.5,
        ) > 28
      )
        likely = "line";
    } else if (field.name === "launch_angle_deg") {
      const middle = convert(quantile(values, 0.5), unit, "deg");
      const spin = of("backspin_rpm");
      if (values.length < 10 || (middle > -12 && middle < 55) || spin !== undefined) {
        t.sign = 1;
        return;
      }
      likely = middle >= 55 ? "vertical" : "down";
    } else if (field.name === "sidespin_rpm") {
      const spray = of("spray_angle_deg");
      const isSettled = spray !== undefined && spray.sign !== null && spray.certainty >= leastCertainty;
      const groups = new Map<string, [number, number][]>();
      for (const row of isSettled ? body : []) {
        const [a, b] = [numberOf((row[col.at] ?? "").trim(), mark), at(row, spray, "deg")];
        if (a === null || b === null) continue;
        const hand = hands(row) ?? "?";
        groups.set(hand, [...(groups.get(hand) ?? []), [b, a]]);
      }
      // Each hand by itself: hands differ in both.
      const pairs = [...groups.values()].flatMap((group) => {
        const [x, y] = [0, 1].map((i) => group.reduce((sum, pair) => sum + pair[i]!, 0) / group.length);
        return group.map(([a, b]): [number, number] => [a - x!, b - y!]);
      });
      const turn = spinSign(
        pairs,
        "the direction, as it does when balls curve toward the line they are hit to",
      );
      if (turn !== null) return use(t, turn.is === 1 ? "right" : "left", turn.certainty, turn.reason);
    }
    t.certainty = Math.min(t.certainty, 0.5);
    t.isOpen = true;
    const isDepth = field.name === "contact_depth_ft";
    ask({
      id: `sign:${col.heading}`,
      kind: "sign",
      heading: col.heading,
      text: isDepth
        ? `From where is "${col.heading}" counted?`
        : field.name === "spin_axis_deg"
          ? `Where is the 0 of "${col.heading}"${examples(col)}, and which way does it turn?`
          : `Which way does "${col.heading}" count${examples(col)}?`,
      options: [...choices, { key: "", text: "leave this column out" }],
      likely,
      isNeeded: isNeededField(field),
    });
  }

  /** The side a row's ball was hit from. */
  function handsOf(): (row: readonly string[]) => "L" | "R" | null {
    const bats = of("bats");
    return (row) => {
      const word = bats?.words.get(wordKey(row[bats.col.at] ?? ""))?.means;
      return word === "L" || word === "R" ? word : null;
    };
  }

  // Names.
  const hitters = taken.filter(({ field }) => field.name === "hitter");
  if (hitters.length === 1) {
    const [t] = hitters;
    const { cells } = t!.col;
    t!.order = cells.length > 0 && share(cells, (cell) => givenFirst(cell) !== cell) >= 0.8;
    if (t!.order) t!.reasons.push("the family name stands first");
  }
  // What stands for nothing, in the columns that are used.
  for (const { col } of taken)
    for (const row of body) {
      const cell = (row[col.at] ?? "").trim();
      if (!missingValues.includes(cell) && isNothing(cell)) nothings.add(cell);
    }

  // What isn't sure is asked, where it is needed, and left out.
  const isUsed = (t: Taken): boolean => t.certainty >= leastCertainty;
  for (const t of taken) {
    const { field, col } = t;
    if (isUsed(t) || t.isOpen || field.name === "time" || given(`field:${col.heading}`) !== undefined)
      continue;
    if (!(isNeededField(field) || field.name === "spray_angle_deg") || t.certainty < worthAsking) continue;
    ask({
      id: `field:${col.heading}`,
      kind: "field",
      heading: col.heading,
      text: `Is "${col.heading}" the ${field.title.toLowerCase()}${examples(col)}?`,
      options: [
        { key: field.name, text: `yes, ${field.title.toLowerCase()}` },
        ...alternativesOf(scores.get(col)!, field).map(({ field: name }) => ({
          key: name,
          text: `no, ${fieldNamed(name)!.title.toLowerCase()}`,
        })),
        { key: "", text: "no, leave it out" },
      ],
      likely: field.name,
      isNeeded: isNeededField(field),
    });
  }

  // What every row has.
  const always: Record<string, string> = {};
  for (const field of fields) {
    const text = given(`all:${field.name}`);
    if (text !== undefined && text !== "" && of(field.name) === undefined) always[field.name] = text;
  }
  const filled = new Set([...(options.filled ?? []), ...Object.keys(always)]);
  const missing = fields
    .filter((field) => isNeededField(field) && !filled.has(field.name) && of(field.name) === undefined)
    .map(({ name }) => name);
  for (const name of missing) askMissing(fieldNamed(name)!);

  function askMissing(field: Field): void {
    const title = field.title.toLowerCase();
    if (field.words !== undefined || field.name === "hitter") {
      const above = (sample.above ?? []).flat();
      const options: readonly Choice[] =
        field.words?.map((word) => ({ key: word, text: meaningText[word] ?? word })) ??
        namesIn(sample.above ?? []).map((name) => ({ key: name, text: name }));
      const titled =
        field.words === undefined
          ? options[0]?.key
          : above.map((cell) => wordMeant(field.name, cell)?.means).find((m) => m !== undefined);
      ask({
        id: `all:${field.name}`,
        kind: "all",
        heading: null,
        text: `No column seems to hold the ${title}: what is it in all rows?`,
        options,
        takesText: field.words === undefined,
        likely: titled ?? null,
        isNeeded: true,
      });
      return;
    }
    const free = cols.filter(
      (col) => col.isNumbers && !taken.some((t) => t.col === col && isUsed(t)) && !isPrivate(col.heading),
    );
    ask({
      id: `column:${field.name}`,
      kind: "column",
      heading: null,
      text: `Which column holds the ${title}?`,
      options: free.map(({ heading }) => ({ key: heading, text: heading })),
      likely: null,
      isNeeded: true,
    });
  }

  const columns: Record<string, string | MappedColumn | null> = Object.create(null) as Record<string, never>;
  // Given names go before family names, whichever stands first.
  const order = [...taken].sort((a, b) => partRank(a) - partRank(b) || a.col.at - b.col.at);
  for (const t of order) {
    if (!isUsed(t)) continue;
    const mine = [...t.words].flatMap(([word, meaning]): [string, string][] =>
      meaning === null || t.field.words!.some((own) => own.toLowerCase() === word && own === meaning.means)
        ? []
        : [[word, meaning.means]],
    );
    const column: MappedColumn = {
      field: t.field.name,
      ...(t.unit !== null && t.unit !== t.field.unit ? { unit: t.unit } : {}),
      ...(t.sign === -1 ? { sign: -1 as const } : {}),
      ...(t.offset === 0 ? {} : { offset: t.offset }),
      ...(mine.length === 0 ? {} : { words: { ...Object.fromEntries(mine) } }),
      ...(t.order ? { order: familyFirst } : {}),
    };
    columns[t.col.heading] = Object.keys(column).length === 1 ? t.field.name : column;
  }
  for (const { heading } of cols)
    if (!Object.hasOwn(columns, heading) && heading.trim() !== "") columns[heading] = null;
  const usesDays = times.some(isUsed);
  const map: ColumnMap = {
    ...(sample.delimiter === "," ? {} : { delimiter: sample.delimiter }),
    ...(mark === "," ||
    (isKnown &&
      numeric.some(({ col }) => col.cells.some((cell) => twofold.test(unitBehind(cell)?.number ?? cell))))
      ? { decimal: mark }
      : {}),
    ...(dates === null || !usesDays ? {} : { dates }),
    ...(nothings.size === 0 ? {} : { missing: [...nothings] }),
    columns: { ...columns },
    ...(Object.keys(always).length === 0 ? {} : { always }),
  };
  return {
    columns: cols.map((col): GuessedColumn => {
      const t = taken.find((other) => other.col === col);
      const alternatives = alternativesOf(scores.get(col)!, t?.field ?? null);
      if (t === undefined) {
        const reason = isPrivate(col.heading) ? "birth dates and contacts are never stored" : "left out";
        return {
          heading: col.heading,
          at: col.at,
          field: null,
          unit: null,
          sign: null,
          offset: 0,
          certainty: 0,
          reason,
          alternatives,
          isTaken: false,
        };
      }
      return {
        heading: col.heading,
        at: col.at,
        field: t.field.name,
        unit: t.unit !== null && t.unit !== t.field.unit ? t.unit : null,
        sign: t.sign,
        offset: t.offset,
        certainty: Number(Math.min(1, t.certainty).toFixed(2)),
        reason: t.reasons.join("; "),
        alternatives,
        isTaken: isUsed(t),
      };
    }),
    words,
    dates: usesDays ? dates : null,
    decimal: mark,
    questions: questions.sort((a, b) => rankOf(a) - rankOf(b)),
    map,
    missing,
    from: { sample, options },
  };
}

/** What is needed comes first, then what most pictures need. */
const rankOf = ({ isNeeded, kind, id }: Question): number =>
  isNeeded ? (kind === "word" ? 1 : 0) : id.startsWith("sign:") ? 2 : kind === "word" ? 3 : 4;

const meaningText: Readonly<Record<string, string>> = {
  tee: "off a tee",
  flip: "a flip or a toss",
  live: "live: a pitcher, a coach's arm or a machine",
  R: "right-handed",
  L: "left-handed",
  in_play: "in play",
  foul: "a foul ball",
  miss: "a swing and a miss",
  take: "no swing",
};

const textOf = (choices: readonly Choice[], key: string): string =>
  choices.find((choice) => choice.key === key)?.text ?? key;

/** A few of a column's values, for a question. */
const examples = ({ cells }: Col): string =>
  cells.length === 0 ? "" : ` (${[...new Set(cells)].slice(0, 3).join(", ")})`;

const isBoth = (word: string): boolean =>
  ["s", "b", "switch", "both", "ambi", "switch hitter"].includes(plain(word));

const partRank = ({ field, col }: Taken): number =>
  field.name === "hitter" && namePart(col.parts.name) === "family" ? 1 : 0;

/** The names that lines over the headings give a hitter. */
function namesIn(above: readonly (readonly string[])[]): string[] {
  return above.flatMap((cells) => {
    const filledCells = cells.map((cell) => cell.trim()).filter((cell) => cell !== "");
    const parts =
      filledCells.length === 1
        ? filledCells[0]!.split(/:\s*/)
        : filledCells.map((cell) => cell.replace(/:$/, ""));
    const [label, name] = parts;
    if (label === undefined || name === undefined || name === "") return [];
    return headingFits(plain(label))[0]?.field === "hitter" ? [name] : [];
  });
}

interface Score {
  readonly field: Field;
  readonly score: number;
}

function scoresOf(col: Col, rowCount: number): Score[] {
  if (isPrivate(col.heading) || col.heading.trim() === "") return [];
  return fields
    .map((field) => ({ field, score: fitOf(field, col, rowCount) }))
    .filter(({ score }) => score >= 0.2)
    .sort((a, b) => b.score - a.score);
}

const alternativesOf = (scores: readonly Score[], field: Field | null): Alternative[] =>
  scores
    .filter((score) => score.field !== field)
    .slice(0, 4)
    .map((score) => ({ field: score.field.name, certainty: Number(Math.min(1, score.score).toFixed(2)) }));

/** Fields that more than one column may be put together to. */
const joins = (field: Field): boolean => field.name === "hitter" || field.name === "time";

/** Which column goes to which field: the surest first, each once. */
function assigned(
  cols: readonly Col[],
  scores: ReadonlyMap<Col, readonly Score[]>,
  answers: Answers,
  given: (id: string) => string | undefined,
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
    const text = given(`field:${col.heading}`);
    if (text === undefined || isPrivate(col.heading)) continue;
    answered.set(col, fieldNamed(text) ?? null);
  }
  for (const field of fields) {
    const heading = given(`column:${field.name}`);
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

/**
 * How many of a line's cells are headings that a guess knows.
 * @example headingsKnown(["Player", "EV (mph)", "x"]) // 2
 */
export function headingsKnown(headings: readonly string[]): number {
  return headings.slice(0, 300).filter(isListed).length;
}
