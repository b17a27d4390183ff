/** Sessions in the order they took place. */
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { inSwingOrder } from "./swings.ts";

/** One session's swings, in swing order. */
export interface SessionSwings<R> {
  readonly session: string;
  /** ISO 8601 date; null when neither the session nor a swing has one. */
  readonly date: string | null;
  readonly rows: readonly R[];
}

/**
 * The sessions among the rows, oldest first: by the session's date, else by its earliest swing, those without
 * either before all others in the order they stand. Rows without a session are left out.
 * @param sessions the sessions table
 * @example sessionsInOrder([{ session: "b", time: null }, { session: null, time: null }], []).map((s) => s.session) // ["b"]
 */
export function sessionsInOrder<R extends Pick<EnrichedSwing, "session" | "time">>(
  rows: readonly R[],
  sessions: readonly Pick<Session, "session" | "date">[],
): SessionSwings<R>[] {
  return sessionLists(rows, sessions).map((one) => ({ ...one, rows: inSwingOrder(one.rows) }));
}

/**
 * The same for who asks for no order within a session: its swings stand as they were given, which a large library gives
 * many times sooner.
 * @example sessionLists([{ session: "b", time: null }, { session: null, time: null }], []).map((s) => s.session) // ["b"]
 */
export function sessionLists<R extends Pick<EnrichedSwing, "session" | "time">>(
  rows: readonly R[],
  sessions: readonly Pick<Session, "session" | "date">[],
): SessionSwings<R>[] {
  const dates = new Map(sessions.map((s) => [s.session, s.date]));
  const lists = new Map<string, R[]>();
  for (const row of rows) {
    if (row.session === null) continue;
    const list = lists.get(row.session);
    if (list) list.push(row);
    else lists.set(row.session, [row]);
  }
  return [...lists]
    .map(([session, list]) => {
      let first: string | null = null;
      for (const { time } of list) if (time !== null && (first === null || time < first)) first = time;
      const date = dates.get(session) ?? first?.slice(0, 10) ?? null;
      // Two sittings on one day are told apart by their first swing.
      return { session, date, rows: list, key: `${date ?? ""} ${first ?? ""}` };
    })
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ session, date, rows: list }) => ({ session, date, rows: list }));
}

/** Days from one to another, both within; null where an end is open. ISO 8601. */
export interface Span {
  readonly since?: string | null;
  readonly until?: string | null;
}

/**
 * Whether a day lies in a span; one that isn't known lies in the open span alone.
 * @example inSpan("2025-03-03", { since: "2025-03-01" }) // true
 * @example inSpan(null, { since: "2025-03-01" }) // false
 */
export function inSpan(date: string | null, { since = null, until = null }: Span): boolean {
  if (since === null && until === null) return true;
  return date !== null && (since === null || date >= since) && (until === null || date <= until);
}

/**
 * The rows of a span, by their session's date, else by their own time.
 * @example rowsInSpan([{ session: null, time: "2025-03-03T10:00:00" }], [], { until: "2025-03-02" }) // []
 */
export function rowsInSpan<R extends Pick<EnrichedSwing, "session" | "time">>(
  rows: readonly R[],
  sessions: readonly Pick<Session, "session" | "date">[],
  span: Span,
): readonly R[] {
  const dates = new Map(sessions.map(({ session, date }) => [session, date]));
  return rows.filter(({ session, time }) =>
    inSpan((session === null ? null : dates.get(session)) ?? time?.slice(0, 10) ?? null, span),
  );
}
