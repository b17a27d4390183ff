/** Which days: all, this week, the last four, or from one day to another; kept in the address as every choice is. */
import { filterFrom, filterKeys } from "../../src/views/filter.ts";
import { latestDay, namedSpans, spanNamed, type SpanName } from "../../src/views/spans.ts";
import { spanTitles } from "../../src/views/sentences/filter.ts";
import { held, hold, type ChoiceElement } from "./choice.ts";
import type { PageLibrary } from "./library.ts";
import { every } from "./pick.ts";

type Dated = Pick<PageLibrary, "swings" | "sessions">;

const own = "own";
const key = filterKeys.dates;

/** Asked for with each choice; a library's rows are the same until it is opened again. */
const lastDays = new WeakMap<Dated["swings"], string | null>();

/** The library's last day: what "this week" is counted from. */
export function lastDay({ swings, sessions }: Dated): string | null {
  if (!lastDays.has(swings)) lastDays.set(swings, latestDay(swings, sessions));
  return lastDays.get(swings)!;
}

/** The days that hold: the address's, else the page's own. An address that was written wrongly asks for all of them. */
export const daysAsked = (otherwise = every): string =>
  held().has(key) ? filterFrom(held()).filter.dates : otherwise;

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
export function chooseDates(library: Dated, otherwise = every): ChoiceElement {
  const asked = daysAsked(otherwise);
  const isOwn = asked !== every && !Object.hasOwn(namedSpans, asked);
  const span = spanNamed(asked, lastDay(library));
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
  for (const one of Object.keys(namedSpans) as SpanName[]) {
    const title = spanTitles[one].replace(/^the /, "");
    select.add(new Option(`${title[0]!.toUpperCase()}${title.slice(1)}`, one));
  }
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
  if (asked !== every) hold(key, isOwn ? read() : asked);
  return Object.defineProperty(element, "value", { get: read }) as unknown as ChoiceElement;
}
