/** How a sheet writes its decimals and its days, as its cells tell, or as is asked. */
import { missingValues } from "./cells.ts";
import { dateReader, formatsOf } from "./dates.ts";
import { likelyRange } from "./guessFields.ts";
import { ask, given, numbersOf, type Col, type Guessing, type Taken } from "./guessing.ts";
import { decimalMark, unitBehind } from "./measure.ts";
import { quantile } from "./tells.ts";
import { isNothing } from "./words.ts";

/** The decimal mark, and whether cells or an answer settle it. */
export interface Decimal {
  readonly mark: "." | ",";
  readonly isKnown: boolean;
}

/** A number that is thousands or decimals, who knows. */
export const twofold = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;

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

/** The decimal mark of the columns of numbers: by their cells, by an answer, by the ranges of their fields, or asked. */
export function guessDecimal(guessing: Guessing, numeric: readonly Taken[]): Decimal {
  const found = decimalOf(numeric.map(({ col }) => col));
  const told = given(guessing, "decimal");
  if (told === "." || told === ",") return { mark: told, isKnown: true };
  if (!found.isAsked) return found;
  const byRange = decimalByRange(numeric);
  if (byRange !== null) return { mark: byRange, isKnown: true };
  ask(guessing, {
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
  return found;
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

/** How days are written in the columns that are the time; null where nothing needs it or it is not known. */
export function guessDays(guessing: Guessing, times: readonly Taken[]): string | null {
  const [first] = times;
  if (first === undefined) return null;
  const joined = guessing.body
    .map((row) =>
      times
        .map(({ col }) => (row[col.at] ?? "").trim())
        .join(" ")
        .trim(),
    )
    .filter((cell) => cell !== "" && !missingValues.includes(cell) && !isNothing(cell));
  const days = daysOf(joined, guessing.isEnglish);
  const chosen = given(guessing, "dates");
  const dates = chosen !== undefined && chosen !== "" ? chosen : days.format;
  const isOpen = dates === null && days.choices.length > 0;
  for (const time of times) {
    if (days.reason !== "") time.reasons.push(days.reason);
    if (!days.isDays || isOpen) time.certainty = 0;
  }
  if (isOpen && chosen === undefined)
    ask(guessing, {
      id: "dates",
      kind: "dates",
      heading: first.col.heading,
      text: `How are the days of "${first.col.heading}" written, such as ${joined[0]!}?`,
      options: [
        ...days.choices.map((format) => ({ key: format, text: format })),
        { key: "", text: "leave the days out" },
      ],
      likely: null,
      isNeeded: false,
    });
  return dates;
}
