/** What a guess is made of: its questions and answers, its columns, and how far it has come. */
import type { UnitName } from "../units/index.ts";
import { numberFrom } from "./cells.ts";
import type { ColumnMap, Sign } from "./maps.ts";
import { unitBehind } from "./measure.ts";
import type { Sample } from "./read.ts";
import { swingFields, type Field } from "../swing/fields.ts";
import type { HeadingFit, HeadingParts, Meaning } from "./words.ts";

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
  /** As a map has it, -1 where its signs are turned; null where the field has none or they are not known. */
  readonly sign: Sign | null;
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

export const fields: readonly Field[] = swingFields;
export const fieldNamed = (name: string): Field | undefined => fields.find((field) => field.name === name);
export const isNeededField = (field: Field): boolean => field.required !== undefined;
export const sure = 0.98;
/** Under this a column is left out without a question. */
export const worthAsking = 0.5;
/** One column, looked at. */
export interface Col {
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
export interface Taken {
  readonly col: Col;
  readonly field: Field;
  certainty: number;
  reasons: string[];
  unit: UnitName | null;
  sign: Sign | null;
  offset: number;
  order: boolean;
  words: Map<string, Meaning | null>;
  /** Whether it is kept although something is open, because the rest of it can be read. */
  isOpen: boolean;
}

/** A guess as it comes to be: the sheet, what its columns are taken for so far, and what has to be asked. */
export interface Guessing {
  readonly sample: Sample;
  readonly options: GuessOptions;
  /** The sheet's rows without its totals. */
  readonly body: Sample["rows"];
  readonly cols: readonly Col[];
  /** What each column could be. */
  readonly scores: ReadonlyMap<Col, readonly Score[]>;
  readonly taken: readonly Taken[];
  /** Whether its headings are English, as far as they tell. */
  readonly isEnglish: boolean;
  readonly questions: Question[];
  /** What stands for nothing in this sheet. */
  readonly nothings: Set<string>;
}

/** A field with how well a column fits it. */
export interface Score {
  readonly field: Field;
  readonly score: number;
}

/** The answer to a question, when there is one. */
export function givenIn(answers: Answers, id: string): string | undefined {
  return Object.hasOwn(answers, id) ? answers[id] : undefined;
}

export const given = ({ options }: Guessing, id: string): string | undefined =>
  givenIn(options.answers ?? {}, id);

/** Asks what only someone who knows the sheet can tell. */
export function ask(
  { questions }: Guessing,
  question: Omit<Question, "takesText"> & { takesText?: boolean },
): void {
  questions.push({ takesText: false, ...question });
}

/** What is taken for a field. */
export const takenFor = ({ taken }: Guessing, name: string): Taken | undefined =>
  taken.find(({ field }) => field.name === name);

/** Whether something is sure enough to be used. */
export const isUsed = (t: Taken): boolean => t.certainty >= leastCertainty;

export const numberOf = (cell: string, mark: "." | ","): number | null => {
  const found = numberFrom(unitBehind(cell)?.number ?? cell, mark, true);
  return typeof found === "number" ? found : null;
};

export const numbersOf = (col: Col, mark: "." | ","): number[] =>
  col.cells.map((cell) => numberOf(cell, mark)).filter((value) => value !== null);

/** A few of a column's values, for a question. */
export const examples = ({ cells }: Col): string =>
  cells.length === 0 ? "" : ` (${[...new Set(cells)].slice(0, 3).join(", ")})`;

export const meaningText: Readonly<Record<string, string>> = {
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
