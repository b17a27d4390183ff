/** What is said of a library's readings: in doubt, corrected, sessions that can be believed. */
import { counted } from "../../swing/words.ts";

/**
 * How many readings are in doubt, and what is done with them.
 * @example doubtfulSentence(0, 0) // "There is no reading of an exit velocity."
 * @example doubtfulSentence(0, 40) // "None of 40 readings is in doubt."
 * @example doubtfulSentence(1, 40) // "1 of 40 readings is in doubt. It is ringed in the charts, and counted unless you leave it out."
 * @example doubtfulSentence(2, 2) // "2 of 2 readings are in doubt. They are ringed in the charts, and counted unless you leave them out."
 */
export function doubtfulSentence(doubtful: number, readings: number): string {
  if (readings === 0) return "There is no reading of an exit velocity.";
  const of = counted(readings, "reading");
  if (doubtful === 0) return `None of ${of} is in doubt.`;
  return doubtful === 1
    ? `1 of ${of} is in doubt. It is ringed in the charts, and counted unless you leave it out.`
    : `${doubtful} of ${of} are in doubt. They are ringed in the charts, and counted unless you leave them out.`;
}

/**
 * Flagged rows of a report; null for none.
 * @example flaggedSentence(1, true) // "1 flagged row left out of every figure, as asked."
 * @example flaggedSentence(3, false) // "3 flagged rows: ringed in the charts, and in the figures."
 * @example flaggedSentence(0, true) // null
 */
export function flaggedSentence(flagged: number, leftOut: boolean): string | null {
  if (flagged === 0) return null;
  const rows = counted(flagged, "flagged row");
  return leftOut
    ? `${rows} left out of every figure, as asked.`
    : `${rows}: ringed in the charts, and in the figures.`;
}

/**
 * Rows whose readings are corrected; null for none.
 * @example turnedRowsSentence(1, 2) // "1 of 2 rows corrected, as sessions.csv says."
 * @example turnedRowsSentence(0, 2) // null
 */
export function turnedRowsSentence(turned: number, rows: number): string | null {
  return turned === 0 ? null : `${turned} of ${counted(rows, "row")} corrected, as sessions.csv says.`;
}

/**
 * The sessions that are sound, as a line of a report says it; null for none.
 * @param others how many are not sound
 * @param alone how many of the sound ones were compared with none
 * @example soundWords(12, 2, 6) // "the other 12 sessions sound, 6 of them not compared"
 * @example soundWords(1, 1, 0) // "the other session sound"
 * @example soundWords(1, 0, 1) // "1 session sound, not compared"
 * @example soundWords(0, 3, 0) // null
 */
export function soundWords(sound: number, others: number, alone: number): string | null {
  if (sound === 0) return null;
  const sessions = counted(sound, "session");
  const which = others === 0 ? sessions : sound === 1 ? "the other session" : `the other ${sessions}`;
  const compared = alone === 0 ? "" : `, ${alone === sound ? "" : `${alone} of them `}not compared`;
  return `${which} sound${compared}`;
}
