/** The days that a call names. */
import { isDay } from "../swing/day.ts";
import { Fault } from "./errors.ts";

/** A day as a call gives it, or null. */
function dayMeant(text: string | undefined, name: string): string | null {
  if (text === undefined) return null;
  if (!isDay(text)) throw new Fault(`--${name} takes a day like 2025-03-03, not "${text}".`, 2);
  return text;
}

/** The span between two days of a call. */
export function spanMeant(call: { readonly since?: string; readonly until?: string }): {
  since: string | null;
  until: string | null;
} {
  const since = dayMeant(call.since, "since");
  const until = dayMeant(call.until, "until");
  if (since !== null && until !== null && since > until)
    throw new Fault(`--since ${since} lies after --until ${until}.`, 2);
  return { since, until };
}
