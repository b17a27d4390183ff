/**
 * Guessing a column map for a layout no one has described, from its headings and its values. A guess is shown, never
 * used unseen.
 */
import { convert, dimension, type UnitName } from "../units/index.ts";
import { missingValues, numberFrom, wordKey } from "./cells.ts";
import { oddities, overLevel } from "./check.ts";
import { swingFields, type Field } from "../swing/fields.ts";
import { isPrivate, unitOfCells } from "./layout.ts";
import { headingKey, type ColumnMap, type MappedColumn } from "./maps.ts";
import { decimalMark, unitBehind, unitSpelled } from "./measure.ts";
import type { Sample } from "./read.ts";

/** A field that a column could be, and how sure that is, 0 to 1. */
export interface Alternative {
  readonly field: string;
  readonly certainty: number;
}

/** What is made of one column. */
export interface GuessedColumn {
  /** As it stands in the sheet. */
  readonly heading: string;
  /** Its place in the heading row, from 0. */
  readonly at: number;
  /** The field it seems to be; null when it is left out. */
  readonly field: string | null;
  /** The unit it seems to be in, where it is not the field's own. */
  readonly unit: UnitName | null;
  /** -1 where its signs are turned; null where the field has none or they are not known. */
  readonly sign: 1 | -1 | null;
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
  /** What `answer` takes: `field:HEADING`, `unit:HEADING`, `sign:HEADING`, `word:HEADING:WORD`, `column:FIELD`, `all:FIELD`, `dates` or `decimal`. */
  readonly id: string;
  readonly kind: "field" | "unit" | "sign" | "word" | "column" | "all" | "dates" | "decimal";
  /** The column it is about; null when it is about the whole sheet. */
  readonly heading: string | null;
  readonly text: string;
  /** The answers to choose from; empty where any text will do. */
  readonly options: readonly Choice[];
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

type Name = (typeof swingFields)[number]["name"];

/**
 * Words of the trade by which a heading is known, the most telling first; compared without units, capitals and
 * signs. Common practice, no source.
 */
const headingWords: readonly (readonly [Name, RegExp])[] = [
  ["swing_id", /^(swing|hit|ball|row|event|record)?_?(id|uuid|guid|key)$|^(swing|hit)_(no|nr|number)$/],
  ["session", /^(session|sitting|practice|training)(_(id|name|title))?$/],
  ["pitcher", /^(pitcher|thrower|thrown_by)(_name)?$/],
  ["pitch_type", /^(pitch|ball)_?(type|kind|class)$/],
  [
    "pitch_speed_mph",
    /^(pitch|incoming|inbound|throw|release)_?(ball_)?(speed|velo|velocity)?$|^(pitch)_(mph|kmh|kph)$/,
  ],
  ["bat_speed_mph", /^(bat|swing|barrel)(_head)?_(speed|velo|velocity)$/],
  ["attack_angle_deg", /^(attack|swing|bat|bat_path)_angle$/],
  [
    "exit_velocity_mph",
    /^(ev|exit(_ball)?_?(velo|velocity|speed)|(batted_)?ball_(exit_)?(speed|velo|velocity)|hit_(speed|velo|velocity)|speed_off(_the)?_bat|off_the_bat|speed|velo|velocity)$/,
  ],
  [
    "launch_angle_deg",
    /^(la|launch(_angle)?|vert?(ical)?(_launch)?(_angle)?|v_?angle|vla|elevation(_angle)?|loft(_angle)?|rise|up(ward)?_angle|angle(_up)?)$/,
  ],
  [
    "spray_angle_deg",
    /^(spray(_angle)?|hor(iz(ontal)?)?(_launch)?(_angle|_dir(ection)?)?|h_?angle|hla|((ball|hit|launch|spray)_)?dir(ection)?|bearing|azimuth|side_angle)$/,
  ],
  ["backspin_rpm", /^back_?spin(_rate)?$/],
  ["sidespin_rpm", /^side_?spin(_rate)?$/],
  ["spin_axis_deg", /^(spin_)?axis$|^spin_(direction|tilt)$/],
  ["spin_rpm", /^(ball_|hit_)?spin(_rate)?$|^total_spin$/],
  ["contact_side_ft", /^(contact|impact)(_point)?_(x|side|horizontal|across)$|^side_of_(contact|impact)$/],
  ["contact_depth_ft", /^(contact|impact)(_point)?_(y|depth|forward)$|^depth_of_(contact|impact)$/],
  ["contact_height_ft", /^(contact|impact)(_point)?_(z|height|vertical|up)$|^height_of_(contact|impact)$/],
  ["bats", /^(bats|stance|side|stands|(batter|batting|hitter|hitting)_(side|hand|stance)|handedness|b_?h)$/],
  [
    "hitter",
    /^(hitter|batter|player|athlete|name|who)(_?name)?$|^full_name$|^(first|last|given|family|sur)_?name$/,
  ],
  ["drill", /^(drill|exercise|task|station)(_name)?$/],
  [
    "input",
    /^(input|ball_(from|source|comes_from)|(hit|swing|practice|session|pitch)_mode|mode|feed|delivery|from|source)$/,
  ],
  ["outcome", /^(outcome|result|(hit|swing|play)_result|what_happened)$/],
  [
    "time",
    /^(time(_?stamp)?|date(_?time)?|day|clock|when|(swing|hit|start)_time|recorded(_at)?|created(_at)?)$/,
  ],
  ["note", /^(notes?|comments?|remarks?)$/],
];

/** A heading's unit, and the heading without it. */
function parted(heading: string): { bare: string; unit: UnitName | null } {
  const text = heading.toLowerCase().replaceAll("_", " ");
  // A unit stands in brackets or at the end.
  const tail = /[([{]([^)\]}]*)[)\]}]\s*$/.exec(text)?.[1] ?? / ([^ ]+)$/.exec(text)?.[1] ?? "";
  const units = tail.split(/[\s,;]+/).map(unitSpelled);
  // "In" is a word too.
  const unit = units.find((u) => u !== null && u !== "in") ?? units.find((u) => u !== null) ?? null;
  if (unit === null) return { bare: keyOf(text.replace(/[([{][^)\]}]*[)\]}]\s*$/, "")), unit };
  return { bare: keyOf(text.slice(0, text.lastIndexOf(tail))), unit };
}

const keyOf = (text: string): string => headingKey(text.replace(/[^\p{L}\p{N}]+/gu, " ")).replace(/_+$/, "");

/** Words of a list, as layouts write them. Common practice, no source. */
const listWords: Readonly<Record<string, readonly (readonly [RegExp, string])[]>> = {
  bats: [
    [/^(r|right|rh|rhh|rhb|righty|right[- ]?handed)$/, "R"],
    [/^(l|left|lh|lhh|lhb|lefty|left[- ]?handed)$/, "L"],
  ],
  input: [
    [/^(tee|off (the |a )?tee|batting tee|t(ee)?[- ]?ball|stand)$/, "tee"],
    [/^(flips?|(front|soft|side|under ?hand)[- ]?toss|toss)$/, "flip"],
    [/^(live|bp|batting practice|(pitching )?machine|pitch(ed|er|ing)?|overhand|game)$/, "live"],
  ],
  outcome: [
    [/^(in[- _]?play|fair|hit|ball in play)$/, "in_play"],
    [/^(foul|foul ball)$/, "foul"],
    [/^(miss(ed)?|swing (and|&) (a )?miss|swung through|whiff)$/, "miss"],
    [/^(take|taken|let go|no swing|ball|called strike)$/, "take"],
  ],
};

/** Words that stand for no number, where numbers are. Common practice, no source. */
const noNumber = /^(n\.?\/?[av]\.?|null|none|nil|nan|\?+|[\u2013\u2014]|\.)$/i;

const cellsAt = (sample: Sample, at: number): string[] =>
  sample.rows.map((row) => (row[at] ?? "").trim()).filter((cell) => !missingValues.includes(cell));

type Decimals = ReturnType<typeof decimalMark>;

/** The numbers of a column, whatever units stand behind them; null when it is no column of numbers. */
function numbersAt(sample: Sample, at: number, { mark, known }: Decimals): number[] | null {
  const cells = cellsAt(sample, at);
  const found = cells
    .map((cell) => numberFrom(unitBehind(cell)?.number ?? cell, mark, known))
    .filter((value) => typeof value === "number");
  return found.length > 0 && found.length >= cells.length * 0.6 ? found : null;
}

const quantile = (values: readonly number[], q: number): number =>
  [...values].sort((a, b) => a - b)[Math.floor((values.length - 1) * q)]!;

const speedRange = (name: keyof typeof oddities.speeds): readonly [number, number] => [
  oddities.speeds[name].ms,
  oddities.speeds[name].kmh,
];

/**
 * Where a column's ninth decile lies when the unit is right; the first unit that fits is taken. Common practice,
 * no source.
 */
const likely: Readonly<Partial<Record<Name, readonly [number, number]>>> = {
  exit_velocity_mph: speedRange("exit_velocity_mph"),
  pitch_speed_mph: speedRange("pitch_speed_mph"),
  bat_speed_mph: speedRange("bat_speed_mph"),
  launch_angle_deg: [10, 75],
  spray_angle_deg: [12, 80],
  spin_rpm: [900, 7000],
  contact_height_ft: [oddities.contactHeight_ft, 4.6],
};

/** The unit in which a column's values are those of its field; null when none is, or its own. */
function unitByRange(field: Field, values: readonly number[], fastest: number | null): UnitName | null {
  const range = likely[field.name as Name];
  if (field.unit === undefined || range === undefined || values.length < 5) return null;
  const own = field.unit;
  const high =
    field.name === "exit_velocity_mph" && fastest !== null
      ? Math.min(range[1], fastest * overLevel)
      : range[1];
  const fits = (unit: UnitName): boolean => {
    const size = Math.abs(convert(quantile(values.map(Math.abs), 0.9), unit, own));
    return size >= range[0] && size <= high;
  };
  if (fits(own)) return null;
  const units: readonly UnitName[] = ["km/h", "m/s", "ft/s", "rad", "m", "cm", "in", "rad/s"];
  return units.find((unit) => dimension(unit) === dimension(own) && fits(unit)) ?? null;
}

/** The way a column of days or times is written, when only one reads all of it; two when it could be either. */
function datesOf(cells: readonly string[]): { format: string | null; doubt: string | null } {
  if (cells.length === 0 || cells.every((cell) => /^\d{4}-\d\d-\d\d([T ]|$)/.test(cell)))
    return { format: null, doubt: null };
  const parts = cells.map((cell) =>
    /^(\d{1,4})([./-])(\d{1,2})\2(\d{2,4})(?:[T ,]+(\d{1,2}:\d\d(?::\d\d(?:[.,]\d+)?)?)(\s*[AaPp][Mm])?)?$/.exec(
      cell,
    ),
  );
  if (parts.some((part) => part === null)) return { format: null, doubt: null };
  const [, , mark] = parts[0]!;
  const clock = parts.find((part) => part![5] !== undefined);
  const tail =
    clock === undefined || clock === null
      ? ""
      : ` ${clock[6] === undefined ? "HH" : "hh"}:mm${clock[5]!.split(":").length > 2 ? ":ss" : ""}${clock[6] === undefined ? "" : " A"}`;
  if (parts.every((part) => part![1]!.length === 4))
    return { format: `YYYY${mark}MM${mark}DD${tail}`, doubt: null };
  const firstOver = parts.some((part) => Number(part![1]) > 12);
  const secondOver = parts.some((part) => Number(part![3]) > 12);
  if (firstOver && !secondOver) return { format: `DD${mark}MM${mark}YYYY${tail}`, doubt: null };
  if (secondOver && !firstOver) return { format: `MM${mark}DD${mark}YYYY${tail}`, doubt: null };
  // A point between day and month puts the day first wherever it is used.
  if (mark === "." && !firstOver) return { format: `DD.MM.YYYY${tail}`, doubt: null };
  return {
    format: null,
    doubt: `its days can be read in two ways, "DD${mark}MM${mark}YYYY${tail}" and "MM${mark}DD${mark}YYYY${tail}": say which as the map's dates`,
  };
}

/**
 * What a sheet's columns are taken for, how sure that is, and what has to be asked.
 * @example guessLayout({ header: ["Batter", "EV (km/h)"], rows: [["Ana", "120"]], delimiter: "," }).map.columns["EV (km/h)"] // { field: "exit_velocity_mph", unit: "km/h" }
 */
export function guessLayout(sample: Sample, options: GuessOptions = {}): Guess {
  const own = new Map<string, Field>(swingFields.map((field) => [field.name, field]));
  const decimal = decimalMark(sample.rows.flat());
  const taken = new Map<string, number>();
  const found = sample.header.map(
    (
      heading,
      at,
    ): { at: number; heading: string; field: Field | null; unit: UnitName | null; rank: number } => {
      const { bare, unit } = parted(heading);
      if (isPrivate(heading) || heading.trim() === "")
        return { at, heading, field: null, unit: null, rank: -1 };
      const exact = own.get(headingKey(heading));
      if (exact !== undefined) return { at, heading, field: exact, unit: null, rank: 1000 };
      const rank = headingWords.findIndex(([, pattern]) => pattern.test(bare));
      const field = rank < 0 ? null : own.get(headingWords[rank]![0])!;
      return { at, heading, field, unit, rank: rank < 0 ? -1 : 100 - rank };
    },
  );
  // A text may be put together from a first and a last name; of two columns of numbers the better heading is taken.
  const joins = (field: Field): boolean => field.name === "hitter" || field.name === "time";
  for (const column of [...found].sort((a, b) => b.rank - a.rank || a.at - b.at)) {
    if (column.field === null) continue;
    const cells = cellsAt(sample, column.at);
    const misfits =
      column.field.type === "number" && cells.length > 0 && numbersAt(sample, column.at, decimal) === null;
    const parts = /(^|\W)(first|last|given|family|sur)|day|date|clock|time/i;
    const second = taken.has(column.field.name) && !(joins(column.field) && parts.test(column.heading));
    if (misfits || second) column.field = null;
    else taken.set(column.field.name, column.at);
  }
  byValues(sample, found, taken, own);
  const columns: Record<string, string | MappedColumn | null> = Object.create(null) as Record<string, never>;
  const guessed: { heading: string; field: string | null; unit: UnitName | null; why: string }[] = [];
  const unknowns = new Set<string>();
  let dates: string | null = null;
  const times = found.filter(({ field }) => field?.name === "time").map(({ at }) => at);
  if (times.length > 0) {
    const joined = sample.rows
      .map((row) =>
        times
          .map((at) => (row[at] ?? "").trim())
          .join(" ")
          .trim(),
      )
      .filter((cell) => cell !== "");
    const { format, doubt } = datesOf(joined);
    dates = format;
    if (doubt !== null) for (const at of times) found[at]!.field = null;
    if (doubt !== null)
      for (const at of times)
        guessed.push({ heading: found[at]!.heading, field: null, unit: null, why: doubt });
  }
  for (const { at, heading, field, unit: named } of found) {
    if (guessed.some((column) => column.heading === heading)) {
      columns[heading] = null;
      continue;
    }
    if (field === null) {
      const why = isPrivate(heading) ? "birth dates and contacts are never stored" : "left out";
      guessed.push({ heading, field: null, unit: null, why });
      if (heading.trim() !== "") columns[heading] = null;
      continue;
    }
    const values = field.type === "number" ? numbersAt(sample, at, decimal) : null;
    // What stands behind the numbers tells most, then the row of units, then the heading.
    const written = [unitOfCells(cellsAt(sample, at)), sample.units?.[at] ?? null, named].find(
      (name) => name !== null && field.unit !== undefined && dimension(name) === dimension(field.unit),
    );
    const byRange =
      written !== undefined || values === null
        ? null
        : unitByRange(field, values, options.fastest_mph ?? null);
    const unit = written ?? byRange;
    const words = wordsOf(field, cellsAt(sample, at));
    for (const cell of values === null ? [] : cellsAt(sample, at))
      if (noNumber.test(cell)) unknowns.add(cell);
    const converts = unit !== null && unit !== field.unit;
    const column: MappedColumn = {
      field: field.name,
      ...(converts ? { unit } : {}),
      ...(words === null ? {} : { words }),
    };
    columns[heading] = Object.keys(column).length === 1 ? field.name : column;
    const why =
      byRange === null ? "by its heading" : `by its heading; the values fit ${byRange}, not ${field.unit}`;
    guessed.push({
      heading,
      field: field.name,
      unit: converts ? unit : null,
      why: valued.has(found[at]!) ? "by its values" : why,
    });
  }
  const answers = options.answers ?? {};
  const always: Record<string, string> = {};
  for (const field of swingFields) {
    const given = answers[`all:${field.name}`];
    if (given !== undefined && !guessed.some((column) => column.field === field.name))
      always[field.name] = given;
  }
  const filled = new Set([...(options.filled ?? []), ...Object.keys(always)]);
  const has = (name: string): boolean => filled.has(name) || guessed.some((column) => column.field === name);
  const missing = swingFields
    .filter((field) => "required" in field && !has(field.name))
    .map((field) => field.name);
  const map: ColumnMap = {
    ...(sample.delimiter === "," ? {} : { delimiter: sample.delimiter }),
    ...(decimal.mark === "," ? { decimal: decimal.mark } : {}),
    ...(dates === null ? {} : { dates }),
    ...(unknowns.size === 0 ? {} : { missing: [...unknowns] }),
    columns: { ...columns },
    ...(Object.keys(always).length === 0 ? {} : { always }),
  };
  const order = new Map(sample.header.map((heading, at) => [heading, at]));
  guessed.sort((a, b) => order.get(a.heading)! - order.get(b.heading)!);
  const words = guessed.flatMap(({ heading, field }) => {
    const column = columns[heading];
    if (typeof column !== "object" || column?.words === undefined || field === null) return [];
    return Object.entries(column.words).map(([word, means]): GuessedWord => {
      const rows = cellsAt(sample, order.get(heading)!).filter((cell) => wordKey(cell) === word).length;
      return { heading, field, word, means, certainty: 0.95, rows };
    });
  });
  const questions = missing.map((name): Question => {
    const field: Field = own.get(name)!;
    const isWord = field.words !== undefined || name === "hitter";
    return {
      id: isWord ? `all:${name}` : `column:${name}`,
      kind: isWord ? "all" : "column",
      heading: null,
      text: isWord
        ? `No column seems to hold ${field.title.toLowerCase()}: what is it in all rows?`
        : `Which column holds ${field.title.toLowerCase()}?`,
      options: isWord
        ? (field.words ?? []).map((word) => ({ key: word, text: word }))
        : guessed
            .filter((column) => column.field === null && column.heading !== "" && !isPrivate(column.heading))
            .map(({ heading }) => ({ key: heading, text: heading })),
      likely: null,
      isNeeded: true,
    };
  });
  return {
    columns: guessed.map(({ heading, field, unit, why }): GuessedColumn => ({
      heading,
      at: order.get(heading)!,
      field,
      unit,
      sign: null,
      certainty: field === null ? 0 : 0.9,
      reason: why,
      alternatives: [],
      isTaken: field !== null,
    })),
    words,
    dates,
    decimal: decimal.mark,
    questions,
    map,
    missing,
    from: { sample, options },
  };
}

/**
 * How many of a line's cells are headings that a guess knows.
 * @example headingsKnown(["Player", "EV (mph)", "x"]) // 2
 */
export function headingsKnown(headings: readonly string[]): number {
  return headings.filter((heading) => headingWords.some(([, pattern]) => pattern.test(parted(heading).bare)))
    .length;
}

/** Columns that were told by their values. */
const valued = new WeakSet<object>();

/** Columns of words that no heading tells: the side and the input are known by what stands in them. */
function byValues(
  sample: Sample,
  found: { at: number; field: Field | null; rank: number; heading: string }[],
  taken: Map<string, number>,
  own: ReadonlyMap<string, Field>,
): void {
  for (const name of ["input", "bats", "outcome"]) {
    if (taken.has(name)) continue;
    const column = found.find(({ at, field, heading }) => {
      if (field !== null || isPrivate(heading)) return false;
      const cells = cellsAt(sample, at).map(wordKey);
      return (
        cells.length > 1 && cells.every((cell) => listWords[name]!.some(([pattern]) => pattern.test(cell)))
      );
    });
    if (column === undefined) continue;
    column.field = own.get(name)!;
    valued.add(column);
    taken.set(name, column.at);
  }
}

/** The words of a column that are not the kit's own, with what they mean; null when there is none. */
function wordsOf(field: Field, cells: readonly string[]): Record<string, string> | null {
  const list = listWords[field.name];
  if (list === undefined) return null;
  const words: Record<string, string> = Object.create(null) as Record<string, string>;
  for (const cell of new Set(cells.map(wordKey))) {
    if (field.words?.some((word) => word.toLowerCase() === cell) === true) continue;
    const meant = list.find(([pattern]) => pattern.test(cell));
    if (meant !== undefined) words[cell] = meant[1];
  }
  return Object.keys(words).length === 0 ? null : { ...words };
}
