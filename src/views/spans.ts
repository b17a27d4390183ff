/** Spans of days that a reader asks for by name: this week, the last four, or from one day to another. */
import { isDay, isoOf } from "../swing/day.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { sessionLists, type Span } from "./sessions.ts";

/** Spans that have a name, and how many weeks each is long. */
export const namedSpans = { week: 1, "four-weeks": 4 } as const;
export type SpanName = keyof typeof namedSpans;

/** A text that asks for no such span. */
export class BadSpan extends Error {
  override readonly name = "BadSpan";
}

const dayLength = 86_400_000;

/**
 * The last day that anything took place: what "this week" is counted from, so that a library of last year has its
 * last week, and the same library gives the same on any day.
 * @example latestDay([{ session: null, time: "2025-03-03T10:00:00" }], []) // "2025-03-03"
 * @example latestDay([], []) // null
 */
export function latestDay(
  rows: readonly Pick<EnrichedSwing, "session" | "time">[],
  sessions: readonly Pick<Session, "session" | "date">[],
): string | null {
  let latest = sessionLists(rows, sessions).at(-1)?.date ?? null;
  for (const { session, time } of rows)
    if (session === null && time !== null && (latest === null || time.slice(0, 10) > latest))
      latest = time.slice(0, 10);
  return latest;
}

/**
 * The weeks up to the one a day lies in, Monday to Sunday (ISO 8601).
 * @param weeks how many, the day's own included
 * @example weeksTo("2025-04-12", 1) // { since: "2025-04-07", until: "2025-04-13" }
 * @example weeksTo("2025-04-13", 4) // { since: "2025-03-17", until: "2025-04-13" }
 */
export function weeksTo(date: string, weeks: number): { since: string; until: string } {
  const at = Date.parse(date);
  const monday = at - ((new Date(at).getUTCDay() + 6) % 7) * dayLength;
  return { since: isoOf(monday - (weeks - 1) * 7 * dayLength), until: isoOf(monday + 6 * dayLength) };
}

/**
 * The span that a text asks for: a name, or a first and a last day parted by a slash as ISO 8601 has intervals; an end
 * that is left out, or written "..", is open. Nothing asks for all days.
 * @param latest the library's last day; without one a named span is open, since nothing has a day
 * @throws BadSpan when it is neither
 * @example spanNamed("week", "2025-04-12") // { since: "2025-04-07", until: "2025-04-13" }
 * @example spanNamed("2025-03-01/2025-03-31", null) // { since: "2025-03-01", until: "2025-03-31" }
 * @example spanNamed("2025-03-01/..", null) // { since: "2025-03-01", until: null }
 * @example spanNamed("", "2025-04-12") // { since: null, until: null }
 */
export function spanNamed(text: string, latest: string | null): Required<Span> {
  if (text === "") return { since: null, until: null };
  if (Object.hasOwn(namedSpans, text))
    return latest === null ? { since: null, until: null } : weeksTo(latest, namedSpans[text as SpanName]);
  const [since, until, more] = text.split("/").map((end) => (end === "" || end === ".." ? null : end));
  if (until === undefined || more !== undefined || [since, until].some((end) => end && !isDay(end)))
    throw new BadSpan(
      `dates are ${Object.keys(namedSpans).join(", ")}, or a first and a last day as in 2025-05-01/2025-05-31, not ${JSON.stringify(text)}`,
    );
  if (since && until && since > until)
    throw new BadSpan(`the first day, ${since}, is after the last, ${until}`);
  return { since: since ?? null, until };
}
