/** What can be wrong with a file, a row or a cell, and how it is said. */
import { sessionOfPath } from "./partition.ts";

/** One thing found wrong (`refused`: the row is kept out) or odd (`warning`: the row is used). */
export interface Problem {
  readonly kind: "refused" | "warning";
  readonly file: string;
  /** The number a spreadsheet shows, the header being row 1; null for the whole file. */
  readonly row: number | null;
  readonly field: string | null;
  /** The cell as it stands in the file. */
  readonly value: string | null;
  /** What is wrong: with a field it goes on from the field's name, without one it stands alone. */
  readonly reason: string;
}

/** Whether a problem is that of a whole file that couldn't be read: nothing of what stands in it is in any figure. */
export const isUnread = ({ kind, row, field }: Problem): boolean =>
  kind === "refused" && row === null && field === null;

/** A row kept out, whole, so that nothing is lost. */
export interface RefusedRow {
  readonly row: number;
  /** The cells as they stand in the file; a row whose quotation marks don't match is one cell. */
  readonly cells: readonly string[];
  readonly problems: readonly Problem[];
  /** The session it belongs to, where that can be told. */
  readonly session: string | null;
}

/** A file of which nothing can be used. The message is one plain sentence. */
export class UnusableFile extends Error {
  override readonly name = "UnusableFile";
  readonly file: string;
  /** The sentence without the file's name. */
  readonly reason: string;
  /** `data`: what is in the file. `call`: the file asked for is not there, or not a file. */
  readonly fault: "data" | "call";

  constructor(file: string, reason: string, fault: "data" | "call" = "data") {
    super(`${printable(file)} ${reason}.`);
    this.file = file;
    this.reason = reason;
    this.fault = fault;
  }
}

/** Text that can't move a terminal's cursor or turn the direction of reading. */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cs}\u2028\u2029]/gu, "\ufffd");
}

/**
 * Lines of text, each of them printable.
 * @example printableLines("a\u001b[2J\nb") // "a\ufffd[2J\nb"
 */
export function printableLines(text: string): string {
  return text.split("\n").map(printable).join("\n");
}

/**
 * A cell's text between quotation marks, shortened.
 * @example quoted("Ana\tB") // '"Ana\ufffdB"'
 */
export function quoted(text: string): string {
  const letters = Array.from(text.length > 200 ? text.slice(0, 200) : text);
  const shown = letters.length > 40 ? `${letters.slice(0, 39).join("")}…` : letters.join("");
  return `"${printable(shown)}"`;
}

/**
 * A session as a sentence names it.
 * @example sessionNamed("May 5") // 'the session "May 5"'
 * @example sessionNamed(null) // "the swings without a session"
 */
export const sessionNamed = (session: string | null): string =>
  session === null ? "the swings without a session" : `the session ${quoted(session)}`;

/**
 * A library's file as a sentence names it: the session stands before a path that doesn't say it as it is.
 * @example fileNamed("swings/session=may/swings.parquet") // "swings/session=may/swings.parquet"
 * @example fileNamed("swings/session=5%2F5/swings.parquet") // 'The session "5/5" (swings/session=5%2F5/swings.parquet)'
 */
export function fileNamed(path: string): string {
  const session = sessionOfPath(path);
  if (session === undefined || (session !== null && path.includes(`session=${session}`)))
    return printable(path);
  const name = sessionNamed(session);
  return `${name[0]!.toUpperCase()}${name.slice(1)} (${printable(path)})`;
}

/**
 * Where refused rows wait, as a sentence without its end.
 * @param path their session's folder
 * @example refusedWait("may/swings/session=May 5") // 'Refused rows of the session "May 5" wait in may/swings/session=May 5'
 */
export const refusedWait = (path: string): string => `${refusedOf(path)} wait in ${printable(path)}`;

/**
 * Whose the refused rows of a folder are.
 * @param path their session's folder
 * @example refusedOf("swings/session=May 5") // 'Refused rows of the session "May 5"'
 */
export const refusedOf = (path: string): string =>
  `Refused rows of ${sessionNamed(sessionOfPath(path) ?? null)}`;

/** What is wrong, as a sentence without the file and the row. */
export function problemReason(problem: Problem): string {
  const value = problem.value === null || problem.value === "" ? "" : ` ${quoted(problem.value)}`;
  const subject = problem.field === null ? "" : `${problem.field}${value} `;
  return `${subject}${problem.reason}.`;
}

/**
 * A problem as one plain sentence.
 * @example problemSentence({ kind: "refused", file: "a.csv", row: 7, field: "input", value: "tea", reason: "is not one of tee, flip, live" }) // 'a.csv, row 7: input "tea" is not one of tee, flip, live.'
 */
export function problemSentence(problem: Problem): string {
  const place = problem.row === null ? "" : `, row ${problem.row}`;
  const reason = problemReason(problem);
  // What is wrong with a whole file may name its session itself.
  const session = sessionOfPath(problem.file);
  const isNamed = session !== undefined && reason.includes(sessionNamed(session));
  return `${isNamed ? printable(problem.file) : fileNamed(problem.file)}${place}: ${reason}`;
}
