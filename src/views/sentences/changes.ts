/** What is said in and under the table of changes: by how much, what chance alone would do, what is known of days, what stands. */
import { chanceAllowed } from "../../stats/holm.ts";
import { fewestDays } from "../../stats/dayChange.ts";
import { largest } from "../../swing/lists.ts";
import type { UnitSystem } from "../../units/system.ts";
import type { Change, SessionChange } from "../change.ts";
import { counted, listed } from "../../swing/words.ts";
import { changeWords, signedRange } from "../words.ts";

/** Said where there is no session before. */
export const nothingBefore = "There is no earlier session of the same work to compare with.";

/**
 * One line of the table: a change or none, or, where days can't be counted, what these swings differ by and no more.
 * @example changeLine({ difference: { value: 3.1, low: 1.8, high: 5.1, reason: null }, unit: "mph", days: 0 }, "us") // "+3.1 mph (1.8 to 5.1), days not counted"
 * @example changeLine({ difference: { value: 3.1, low: 1.8, high: 5.1, reason: null }, unit: "mph", days: 4 }, "us") // "up by 2 to 5 mph"
 */
export function changeLine(
  { difference, unit, days }: Pick<Change, "unit" | "days"> & { difference: Told },
  system: UnitSystem,
): string {
  if (days > 0 || difference.low === null) return changeWords(difference, unit, system);
  return `${signedRange(difference, unit, system)}, days not counted`;
}

type Told = Pick<Change["difference"], "value" | "low" | "high" | "reason">;

/**
 * How many of so many lines at 95 % chance alone would mark; null for no line.
 * @example chanceSentence(42) // "Of 42 lines at 95%, about 2 stand out by chance alone."
 * @example chanceSentence(7) // "Of 7 lines at 95%, one stands out by chance alone in about 1 table of 3."
 * @example chanceSentence(1) // "One line at 95% stands out by chance alone 1 time in 20."
 * @example chanceSentence(0) // null
 */
export function chanceSentence(lines: number): string | null {
  if (lines === 0) return null;
  if (lines === 1) return `One line at 95% stands out by chance alone 1 time in ${1 / chanceOfOne}.`;
  const expected = lines * chanceOfOne;
  if (expected >= 0.75)
    return `Of ${lines} lines at 95%, about ${Math.round(expected)} ${Math.round(expected) === 1 ? "stands" : "stand"} out by chance alone.`;
  const tables = Math.round(1 / (1 - (1 - chanceOfOne) ** lines));
  return `Of ${lines} lines at 95%, one stands out by chance alone in about 1 table of ${tables}.`;
}

/** Without what subtraction leaves behind the last digit. */
const chanceOfOne = Math.round(chanceAllowed * 1000) / 1000;

/**
 * What to know of a table of changes, one sentence each: chance, days, and what stands and may be repeated above.
 * @example changeNotes([]) // []
 */
export function changeNotes(tables: readonly SessionChange[]): string[] {
  const told = tables.filter((t) => t.changes.some((c) => c.difference.low !== null));
  const known = told.filter((t) => t.changes.some((c) => c.days > 0));
  const unknown = told.filter((t) => !known.includes(t));
  const lines = known.flatMap((t) => t.changes).filter((c) => c.days > 0);
  const notes: string[] = [];
  const chance = chanceSentence(lines.length);
  if (chance !== null) notes.push(chance);
  if (known.length > 0) {
    const from = known.map(({ input, changes }) =>
      counted(largest(changes.map((c) => c.days)), `earlier ${input} session`),
    );
    notes.push(`How much days differ is counted in, as ${listed(from)} show it.`);
  }
  if (unknown.length > 0)
    notes.push(
      `${unknown.length === told.length ? "Days" : `Days of ${listed(unknown.map((t) => t.input))} work`} differ too, and with fewer than ${fewestDays} earlier sessions nobody can say by how much. These lines count swings and no days: a good or a bad day moves many of them, so none is called a change.`,
    );
  if (known.length > 0) {
    const standing = lines.filter((c) => c.stands).length;
    notes.push(
      standing === 0
        ? `No change stands out once all ${counted(lines.length, "line")} are looked at together (Holm), so none is put into a sentence.`
        : `${standing} of ${counted(lines.length, "line")} ${standing === 1 ? "stands" : "stand"} out with all of them looked at together (Holm): ${standing === 1 ? "it is" : "they are"} clear.`,
    );
  }
  return notes;
}
