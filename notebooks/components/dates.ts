/** Which days: all, this week, the last four, or from one day to another; kept in the address as every choice is. */
import { BadSpan, latestDay, namedSpans, spanNamed, type SpanName } from "../../src/views/spans.ts";
import type { Span } from "../../src/views/sessions.ts";
import { rowsInSpan } from "../../src/views/sessions.ts";
import { held, hold } from "./choice.ts";
import type { Asked } from "./frame.ts";
import type { PageLibrary } from "./library.ts";
import { every } from "./pick.ts";

type Dated = Pick<PageLibrary, "swings" | "sessions">;

const words: Readonly<Record<SpanName, string>> = { week: "This week", "four-weeks": "Last four weeks" };
const own = "own";
const key = "dates";

/** The library's last day: what "this week" is counted from. */
export const lastDay = ({ swings, sessions }: Dated): string | null => latestDay(swings, sessions);

/**
 * The days that a choice asks for. An address that somebody wrote wrongly asks for all of them.
 * @example spanOf({ swings: [], sessions: [] }, "2025-03-01/2025-03-31") // { since: "2025-03-01", until: "2025-03-31" }
 */
export function spanOf(library: Dated, dates: string): Required<Span> {
  try {
    return spanNamed(dates, lastDay(library));
  } catch (error) {
    if (error instanceof BadSpan) return { since: null, until: null };
    throw error;
  }
}

/** The library with the swings of those days alone. */
export function within<Library extends Dated>(library: Library, dates: string): Library {
  if (dates === every) return library;
  return { ...library, swings: rowsInSpan(library.swings, library.sessions, spanOf(library, dates)) };
}

function dayInput(name: string, value: string | null): HTMLInputElement {
  const input = document.createElement("input");
  input.type = "date";
  input.setAttribute("aria-label", name);
  input.value = value ?? "";
  return input;
}

/**
 * Which days, as a list with two days to fill in where the last of it is chosen.
 * @param otherwise what holds until the reader chooses
 */
export function chooseDates(library: Dated, otherwise = every): Asked<string> {
  const asked = held().get(key) ?? otherwise;
  const isOwn = asked !== every && !Object.hasOwn(words, asked);
  const span = spanOf(library, asked);
  const element = document.createElement("span");
  element.className = "choice dates";
  element.dataset["key"] = key;
  const label = element.appendChild(document.createElement("label"));
  label.title = "Dates";
  const name = label.appendChild(document.createElement("span"));
  name.className = "unseen";
  name.textContent = "Dates";
  const select = label.appendChild(document.createElement("select"));
  select.add(new Option("All days", every));
  for (const span of Object.keys(namedSpans) as SpanName[]) select.add(new Option(words[span], span));
  select.add(new Option("From … to …", own));
  select.value = isOwn ? own : asked;
  const ends = element.appendChild(document.createElement("span"));
  ends.className = "ends";
  const from = dayInput("First day", isOwn ? span.since : null);
  const to = dayInput("Last day", isOwn ? span.until : null);
  ends.append(from, " to ", to);
  ends.hidden = !isOwn;
  const read = (): string => {
    if (select.value !== own) return select.value;
    if (from.value === "" && to.value === "") return every;
    // Days filled in the wrong way round are meant the other way.
    const [a, b] = from.value !== "" && to.value !== "" && from.value > to.value ? [to, from] : [from, to];
    return `${a.value || ".."}/${b.value || ".."}`;
  };
  element.addEventListener("input", () => {
    ends.hidden = select.value !== own;
    document.documentElement.classList.add("chosen");
    hold(key, read());
  });
  if (asked !== every || otherwise !== every) hold(key, isOwn ? read() : asked);
  return Object.defineProperty(element, "value", { get: read }) as unknown as Asked<string>;
}
