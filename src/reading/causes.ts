/** Problems by their cause: a word that no input is stands once with all its rows, and not once for each of them. */
import { printable, quoted, type Problem } from "../swing/problems.ts";

/** One cause, and every row that it keeps out or makes odd. */
export interface Cause {
  readonly kind: Problem["kind"];
  readonly file: string;
  readonly field: string | null;
  /** The cell that all of its rows have; null where they differ in it, or have none. */
  readonly value: string | null;
  /** What is wrong; goes on from field and value as a problem's reason does. */
  readonly reason: string;
  /** The rows, in order; empty for a cause of the whole file. */
  readonly rows: readonly number[];
  /** The cells as they stand, the first few of them, where they differ. */
  readonly examples: readonly string[];
  /** Whether a word of the map settles it: the cell is a word that the field doesn't know. */
  readonly isWord: boolean;
}

const mostExamples = 3;

/**
 * What is said of rows that are alike and have nothing that tells them apart; empty without any.
 * @example untimedSentence(0) // ""
 * @example untimedSentence(1) // "1 row without a time is an exact copy of another, and is counted once: a ball of its own needs a time or a swing_id."
 * @example untimedSentence(3) // "3 rows without a time are exact copies of others, and are counted once: balls of their own need a time or a swing_id."
 */
export const untimedSentence = (n: number): string =>
  n === 0
    ? ""
    : n === 1
      ? "1 row without a time is an exact copy of another, and is counted once: a ball of its own needs a time or a swing_id."
      : `${n} rows without a time are exact copies of others, and are counted once: balls of their own need a time or a swing_id.`;

/**
 * How many rows are alike, over all sessions.
 * @example untimedIn(new Map([["may", 2], [null, 1]])) // 3
 */
export const untimedIn = (bySession: ReadonlyMap<string | null, number>): number =>
  [...bySession.values()].reduce((sum, n) => sum + n, 0);

/** A reason without the numbers in it, so that "the row has 3 cells" and "4 cells" are one cause. */
const bare = (reason: string): string =>
  reason.replace(/\([^)]*\d[^)]*\)\s*/g, "").replace(/[-\u2212]?\d+(?:[.,:]\d+)*/g, "#");

const isWordless = (reason: string): boolean => reason.startsWith("is not one of");

/**
 * Problems by cause, refused rows before warnings, those of most rows first. One reason is one cause, whatever number
 * stands in the cell; of a word that isn't known, each word is.
 * @example byCause([3, 5].map((row) => ({ kind: "refused", file: "a.csv", row, field: "input", value: "cage", reason: "is not one of tee, flip, live" })))[0].rows // [3, 5]
 */
export function byCause(problems: Iterable<Problem>): Cause[] {
  const causes = new Causes();
  for (const problem of problems) causes.add(problem);
  return causes.list();
}

/** Gathers problems as they come, so that a million of one cause cost no more than their rows' numbers. */
export class Causes {
  private readonly found = new Map<string, { first: Problem; values: Set<string>; rows: number[] }>();

  add(problem: Problem): void {
    const { kind, file, row, field, value, reason } = problem;
    const what = isWordless(reason)
      ? (value ?? "").trim().toLowerCase().replace(/\s+/g, " ")
      : row === null
        ? (value ?? "")
        : "";
    const key = [kind, file, field ?? "", bare(reason), what, row === null ? "all" : ""].join("\u001f");
    let cause = this.found.get(key);
    if (cause === undefined) {
      cause = { first: problem, values: new Set(), rows: [] };
      this.found.set(key, cause);
    }
    if (value !== null && cause.values.size <= mostExamples) cause.values.add(value);
    if (row !== null) cause.rows.push(row);
  }

  /** What has come so far; see `byCause`. */
  list(): Cause[] {
    const causes = [...this.found.values()].map(({ first, values, rows }): Cause => {
      const { kind, file, field, reason } = first;
      const isWord = isWordless(reason);
      const one = values.size === 1 || isWord;
      return {
        kind,
        file,
        field,
        value: one ? first.value : null,
        reason: one || rows.length < 2 ? reason : reason.replace(/\([^)]*\d[^)]*\)\s*/g, ""),
        rows: rows.sort((a, b) => a - b),
        examples: one ? [] : [...values].slice(0, mostExamples),
        isWord,
      };
    });
    const weight = (kind: Problem["kind"]): number => (kind === "refused" ? 0 : 1);
    return causes.sort((a, b) => weight(a.kind) - weight(b.kind) || b.rows.length - a.rows.length);
  }
}

/**
 * Row numbers in few words.
 * @example rowRanges([3, 5, 8, 9, 10, 20]) // "3, 5, 8 to 10 and 20"
 * @example rowRanges([1, 3, 5, 7], 2) // "1, 3 and 2 more"
 */
export function rowRanges(rows: readonly number[], most = 6): string {
  const parts: { text: string; n: number }[] = [];
  for (let i = 0; i < rows.length;) {
    let end = i;
    while (end + 1 < rows.length && rows[end + 1]! - rows[end]! <= 1) end++;
    // Two in a row are no range.
    if (end - i === 1) parts.push({ text: String(rows[i]), n: 1 }, { text: String(rows[end]), n: 1 });
    else parts.push({ text: end === i ? String(rows[i]) : `${rows[i]} to ${rows[end]}`, n: end - i + 1 });
    i = end + 1;
  }
  const shown = parts.slice(0, most);
  const rest = parts.slice(most).reduce((sum, { n }) => sum + n, 0);
  const texts = shown.map(({ text }) => text);
  if (rest > 0) texts.push(`${rest} more`);
  return texts.length < 2 ? texts.join("") : `${texts.slice(0, -1).join(", ")} and ${texts.at(-1)}`;
}

/**
 * A cause as one plain sentence, with its rows.
 * @example causeSentence({ kind: "refused", file: "a.csv", field: "input", value: "cage", reason: "is not one of tee, flip, live", rows: [3, 5], examples: [], isWord: true }) // 'a.csv, 2 rows: input "cage" is not one of tee, flip, live (rows 3 and 5).'
 */
export function causeSentence(cause: Cause): string {
  const { file, field, value, reason, rows, examples } = cause;
  const cells =
    value === null || value === ""
      ? examples.length === 0
        ? ""
        : ` (${examples.map(quoted).join(", ")}, …)`
      : ` ${quoted(value)}`;
  const what = `${field === null ? "" : `${field}${cells} `}${reason}`;
  const name = printable(file);
  if (rows.length === 0) return `${name}: ${what}.`;
  if (rows.length === 1) return `${name}, row ${rows[0]}: ${what}.`;
  return `${name}, ${rows.length} rows: ${what} (rows ${rowRanges(rows)}).`;
}

/**
 * How words that aren't known are settled, as a sentence; nothing where every cause is another.
 * @example settling([]) // ""
 */
export function settling(causes: readonly Cause[]): string {
  const cause = causes.find(({ isWord, kind }) => isWord && kind === "refused");
  if (cause === undefined) return "";
  const meant = /^is not one of ([^,]+)/.exec(cause.reason)?.[1] ?? "";
  const words = JSON.stringify({ [cause.value ?? ""]: meant });
  return `Say what such a word means in a column map: "HEADING": { "field": "${cause.field}", "words": ${printable(words)} }.`;
}
