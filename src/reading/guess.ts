/**
 * Guessing a column map for a layout no one has described, from its headings and its values together. A guess says how
 * sure it is; what is not sure enough is asked, and left out until it is answered: nothing is taken wrong unseen.
 */
import { givenFirst, missingValues } from "./cells.ts";
import { alternativesOf, assigned, columnsOf, scoresOf, share } from "./guessFields.ts";
import {
  ask,
  examples,
  fieldNamed,
  fields,
  given,
  isNeededField,
  isUsed,
  meaningText,
  worthAsking,
  type Answers,
  type Choice,
  type Col,
  type Guess,
  type GuessedColumn,
  type Guessing,
  type GuessOptions,
  type Question,
  type Taken,
} from "./guessing.ts";
import { guessDays, guessDecimal, twofold, type Decimal } from "./guessMarks.ts";
import { guessSigns } from "./guessSigns.ts";
import { guessUnits } from "./guessUnits.ts";
import { guessWords } from "./guessWords.ts";
import { isPrivate } from "./layout.ts";
import { familyFirst, type ColumnMap, type MappedColumn } from "./maps.ts";
import { unitBehind } from "./measure.ts";
import type { Sample } from "./read.ts";
import type { Field } from "../swing/fields.ts";
import { headingFits, isListed, isNothing, isTotal, namePart, plain, wordMeant } from "./words.ts";

export {
  leastCertainty,
  type Alternative,
  type Answers,
  type Choice,
  type Guess,
  type GuessedColumn,
  type GuessedWord,
  type GuessOptions,
  type Question,
} from "./guessing.ts";

/**
 * A guess with answers worked in, on top of those it had.
 * @example answer(guessLayout({ header: ["Batter"], rows: [], delimiter: "," }), { "all:input": "tee" }).map.always // { input: "tee" }
 */
export function answer(guess: Guess, answers: Answers): Guess {
  const { sample, options } = guess.from;
  return guessLayout(sample, { ...options, answers: { ...options.answers, ...answers } });
}

/**
 * What a sheet's columns are taken for, how sure that is, and what has to be asked.
 * @example guessLayout({ header: ["Batter", "EV (km/h)"], rows: [["Ana", "120"]], delimiter: "," }).map.columns["EV (km/h)"] // { field: "exit_velocity_mph", unit: "km/h" }
 */
export function guessLayout(sample: Sample, options: GuessOptions = {}): Guess {
  const guessing = begin(sample, options);
  const { cols, taken, questions } = guessing;
  const numeric = taken.filter(({ field }) => field.type === "number");
  const times = taken.filter(({ field }) => field.name === "time");
  const decimal = guessDecimal(guessing, numeric);
  const dates = guessDays(guessing, times);
  guessUnits(guessing, numeric, decimal.mark);
  const words = guessWords(guessing);
  guessSigns(guessing, decimal.mark);
  guessNameOrder(taken);
  gatherNothings(guessing);
  askUnsure(guessing);
  const always = inEveryRow(guessing);
  const missing = missingFrom(guessing, always);
  for (const name of missing) askMissing(guessing, fieldNamed(name)!);
  const usedDates = times.some(isUsed) ? dates : null;
  return {
    columns: cols.map((col) => columnTold(guessing, col)),
    words,
    dates: usedDates,
    decimal: decimal.mark,
    questions: questions.sort((a, b) => rankOf(a) - rankOf(b)),
    map: mapOf(guessing, decimal, usedDates, always),
    missing,
    from: { sample, options },
  };
}

/** The sheet looked at, each column given to a field. */
function begin(sample: Sample, options: GuessOptions): Guessing {
  const body = sample.rows.filter((row) => !isTotal(row));
  const cols = columnsOf(sample, body);
  const scores = new Map(cols.map((col) => [col, scoresOf(col, body.length)]));
  const taken = assigned(cols, scores, options.answers ?? {});
  // Languages: headings that none of the English lists have.
  const spoken = taken.flatMap(
    ({ col, field }) => col.fits.find((fit) => fit.field === field.name)?.language ?? [],
  );
  const foreign = spoken.filter((language) => language !== "en").length;
  const isEnglish = foreign * 2 <= spoken.length || spoken.length === 0;
  return { sample, options, body, cols, scores, taken, isEnglish, questions: [], nothings: new Set() };
}

/** Whether a hitter's family name stands first. */
function guessNameOrder(taken: readonly Taken[]): void {
  const [t, other] = taken.filter(({ field }) => field.name === "hitter");
  if (t === undefined || other !== undefined) return;
  const { cells } = t.col;
  t.order = cells.length > 0 && share(cells, (cell) => givenFirst(cell) !== cell) >= 0.8;
  if (t.order) t.reasons.push("the family name stands first");
}

/** What stands for nothing, in the columns that are used. */
function gatherNothings({ taken, body, nothings }: Guessing): void {
  for (const { col } of taken)
    for (const row of body) {
      const cell = (row[col.at] ?? "").trim();
      if (!missingValues.includes(cell) && isNothing(cell)) nothings.add(cell);
    }
}

/** What isn't sure is asked, where it is needed, and left out. */
function askUnsure(guessing: Guessing): void {
  for (const t of guessing.taken) {
    const { field, col } = t;
    const isAnswered = given(guessing, `field:${col.heading}`) !== undefined;
    if (isUsed(t) || t.isOpen || field.name === "time" || isAnswered) continue;
    if (!(isNeededField(field) || field.name === "spray_angle_deg") || t.certainty < worthAsking) continue;
    ask(guessing, {
      id: `field:${col.heading}`,
      kind: "field",
      heading: col.heading,
      text: `Is "${col.heading}" the ${field.title.toLowerCase()}${examples(col)}?`,
      options: [
        { key: field.name, text: `yes, ${field.title.toLowerCase()}` },
        ...alternativesOf(guessing.scores.get(col)!, field).map(({ field: name }) => ({
          key: name,
          text: `no, ${fieldNamed(name)!.title.toLowerCase()}`,
        })),
        { key: "", text: "no, leave it out" },
      ],
      likely: field.name,
      isNeeded: isNeededField(field),
    });
  }
}

/** What every row has, as was answered. */
function inEveryRow(guessing: Guessing): Record<string, string> {
  const always: Record<string, string> = {};
  for (const { name } of fields) {
    const text = given(guessing, `all:${name}`);
    if (text !== undefined && text !== "" && !isTaken(guessing, name)) always[name] = text;
  }
  return always;
}

const isTaken = ({ taken }: Guessing, name: string): boolean =>
  taken.some(({ field }) => field.name === name);

/** Needed fields that no column seems to hold. */
function missingFrom(guessing: Guessing, always: Readonly<Record<string, string>>): string[] {
  const filled = new Set([...(guessing.options.filled ?? []), ...Object.keys(always)]);
  return fields
    .filter((field) => isNeededField(field) && !filled.has(field.name) && !isTaken(guessing, field.name))
    .map(({ name }) => name);
}

function askMissing(guessing: Guessing, field: Field): void {
  if (field.words !== undefined || field.name === "hitter") askOfAll(guessing, field);
  else askColumn(guessing, field);
}

/** What is it in all rows? Lines above the headings may tell. */
function askOfAll(guessing: Guessing, field: Field): void {
  const above = guessing.sample.above ?? [];
  const options: readonly Choice[] =
    field.words?.map((word) => ({ key: word, text: meaningText[word] ?? word })) ??
    namesIn(above).map((name) => ({ key: name, text: name }));
  const titled =
    field.words === undefined
      ? options[0]?.key
      : above
          .flat()
          .map((cell) => wordMeant(field.name, cell)?.means)
          .find((means) => means !== undefined);
  ask(guessing, {
    id: `all:${field.name}`,
    kind: "all",
    heading: null,
    text: `No column seems to hold the ${field.title.toLowerCase()}: what is it in all rows?`,
    options,
    takesText: field.words === undefined,
    likely: titled ?? null,
    isNeeded: true,
  });
}

function askColumn(guessing: Guessing, field: Field): void {
  const free = guessing.cols.filter(
    (col) =>
      col.isNumbers && !guessing.taken.some((t) => t.col === col && isUsed(t)) && !isPrivate(col.heading),
  );
  ask(guessing, {
    id: `column:${field.name}`,
    kind: "column",
    heading: null,
    text: `Which column holds the ${field.title.toLowerCase()}?`,
    options: free.map(({ heading }) => ({ key: heading, text: heading })),
    likely: null,
    isNeeded: true,
  });
}

/** What is sure enough to be used, as the commands read it. */
function mapOf(
  { sample, cols, taken, nothings }: Guessing,
  { mark, isKnown }: Decimal,
  dates: string | null,
  always: Readonly<Record<string, string>>,
): ColumnMap {
  const columns: Record<string, string | MappedColumn | null> = Object.create(null) as Record<string, never>;
  // Given names go before family names, whichever stands first.
  const order = [...taken].sort((a, b) => partRank(a) - partRank(b) || a.col.at - b.col.at);
  for (const t of order) if (isUsed(t)) columns[t.col.heading] = mapped(t);
  for (const { heading } of cols)
    if (!Object.hasOwn(columns, heading) && heading.trim() !== "") columns[heading] = null;
  const couldBeEither = taken.some(
    ({ field, col }) =>
      field.type === "number" && col.cells.some((cell) => twofold.test(unitBehind(cell)?.number ?? cell)),
  );
  return {
    ...(sample.delimiter === "," ? {} : { delimiter: sample.delimiter }),
    ...(mark === "," || (isKnown && couldBeEither) ? { decimal: mark } : {}),
    ...(dates === null ? {} : { dates }),
    ...(nothings.size === 0 ? {} : { missing: [...nothings] }),
    columns: { ...columns },
    ...(Object.keys(always).length === 0 ? {} : { always }),
  };
}

/** One column as a map has it. */
function mapped({ field, unit, sign, offset, words, order }: Taken): string | MappedColumn {
  const mine = [...words].flatMap(([word, meaning]): [string, string][] =>
    meaning === null || field.words!.some((own) => own.toLowerCase() === word && own === meaning.means)
      ? []
      : [[word, meaning.means]],
  );
  const column: MappedColumn = {
    field: field.name,
    ...(unit !== null && unit !== field.unit ? { unit } : {}),
    ...(sign === null || sign === 1 ? {} : { sign }),
    ...(offset === 0 ? {} : { offset }),
    ...(mine.length === 0 ? {} : { words: { ...Object.fromEntries(mine) } }),
    ...(order ? { order: familyFirst } : {}),
  };
  return Object.keys(column).length === 1 ? field.name : column;
}

/** One column as the guess tells it. */
function columnTold({ taken, scores }: Guessing, col: Col): GuessedColumn {
  const { heading, at } = col;
  const t = taken.find((other) => other.col === col);
  const alternatives = alternativesOf(scores.get(col)!, t?.field ?? null);
  if (t === undefined) {
    const reason = isPrivate(heading) ? "birth dates and contacts are never stored" : "left out";
    const none = { field: null, unit: null, sign: null, offset: 0, certainty: 0, isTaken: false };
    return { heading, at, ...none, reason, alternatives };
  }
  return {
    heading,
    at,
    field: t.field.name,
    unit: t.unit !== null && t.unit !== t.field.unit ? t.unit : null,
    sign: t.sign,
    offset: t.offset,
    certainty: Number(Math.min(1, t.certainty).toFixed(2)),
    reason: t.reasons.join("; "),
    alternatives,
    isTaken: isUsed(t),
  };
}

/** What is needed comes first, then what most pictures need. */
const rankOf = ({ isNeeded, kind, id }: Question): number =>
  isNeeded ? (kind === "word" ? 1 : 0) : id.startsWith("sign:") ? 2 : kind === "word" ? 3 : 4;

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

/**
 * How many of a line's cells are headings that a guess knows.
 * @example headingsKnown(["Player", "EV (mph)", "x"]) // 2
 */
export function headingsKnown(headings: readonly string[]): number {
  return headings.slice(0, 300).filter(isListed).length;
}
