/**
 * One line of choices over swings: two or three in sight, the rest behind "More choices" on the same line. What is chosen is
 * the filter of src/views/filter.ts, kept in the address; what no swing here has is not offered, and an address that asks for
 * it is answered in a sentence.
 */
import {
  bandWords,
  emptyFilter,
  filterSentence,
  filterWords,
  notThere,
} from "../../src/views/sentences/filter.ts";
import {
  bandText,
  chosenIn,
  chosenText,
  filtered,
  filterFrom,
  filterKeys,
  noFilter,
  offersOf,
  scopeOf,
  widenings,
  type FilterField,
  type Offered,
  type Offers,
  type SwingFilter,
} from "../../src/views/filter.ts";
import { isDoubtful } from "../../src/contact/flags.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { markedRows, type Marked } from "../../src/views/marked.ts";
import { changeSince, type SessionChange } from "../../src/views/change.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { chips, choose, held, hold, tick, type ChoiceElement, type Option as Choice } from "./choice.ts";
import { chooseDates, daysAsked, lastDay } from "./dates.ts";
import { placeIn } from "./frame.ts";
import type { PageLibrary } from "./library.ts";
import { drillOptions, every, hitterOptions, inputOptions, pick, sessionOptions } from "./pick.ts";
import { flaggedLabel } from "./trusted.ts";

/** What a page lets a reader choose. */
export interface FilterShape {
  /** In sight. */
  readonly main: readonly FilterField[];
  /** Behind "More choices". */
  readonly more: readonly FilterField[];
  /** The days that hold until the reader chooses; all when not given. */
  readonly dates?: string;
  /** What stands for all hitters, where a page can show them together. */
  readonly everyone?: string;
  readonly units: UnitSystem;
}

const named: Readonly<Record<FilterField, string>> = {
  hitter: "Hitter",
  session: "Session",
  input: "How the ball came",
  drill: "Drill",
  dates: "Dates",
  pitch_type: "Pitch type",
  pitch_speed_mph: "Pitch speed at the plate",
  pitcher: "Pitcher",
  without_flagged: "Flagged",
};

/** The control that the rest stands behind, among the line's choices. */
const moreKey = "more";

/** What was asked for and isn't there, until the reader chooses something. */
export function tellAsked(sentences: readonly string[]): void {
  const at = document.getElementById("asked");
  if (at === null || sentences.length === 0) return;
  for (const sentence of sentences) {
    if ([...at.children].some((line) => line.textContent === sentence)) continue;
    at.appendChild(document.createElement("p")).textContent = sentence;
  }
}

/** What swings of one hitter and session have to choose from, kept while the library stays. */
const keptOffers = new WeakMap<PageLibrary, Map<string, Offers>>();
function offersIn(library: PageLibrary, hitter: string, session: string): Offers {
  const kept = keptOffers.get(library) ?? new Map<string, Offers>();
  keptOffers.set(library, kept);
  const key = JSON.stringify([hitter, session]);
  if (!kept.has(key)) kept.set(key, offersOf(pick(library, { hitter, session }), library));
  return kept.get(key)!;
}

const counted = (all: readonly Offered[], none: string): Choice[] =>
  all.length === 0
    ? []
    : [{ value: every, text: none }, ...all.map(({ value, n }) => ({ value, text: `${value} (${n})` }))];

/** The choices of a field, and what of the address they don't hold. */
function optionsOf(
  field: FilterField,
  library: PageLibrary,
  shape: FilterShape,
  asked: SwingFilter,
): Choice[] {
  const { everyone, units } = shape;
  const hitter =
    shape.main.includes("hitter") || shape.more.includes("hitter") ? (asked.hitter ?? every) : every;
  const session = shape.main.includes("session") ? (asked.session ?? every) : every;
  const offers = (): Offers => offersIn(library, hitter, session);
  switch (field) {
    case "hitter":
      return [
        ...hitterOptions(library),
        ...(everyone === undefined ? [] : [{ value: every, text: everyone }]),
      ];
    case "session":
      return sessionOptions(library, hitter);
    case "input":
      return inputOptions();
    case "drill":
      return drillOptions(pick(library, { hitter, session }));
    case "pitch_type":
      return counted(offers().pitch_types, "All pitch types");
    case "pitcher":
      return counted(offers().pitchers, "All pitchers");
    case "pitch_speed_mph": {
      const bands = offers().pitch_speeds.map(({ value, n }) => ({
        value: bandText(value),
        text: `${bandWords(value, units)} (${n})`,
      }));
      const own = asked.pitch_speed_mph;
      // A band of the reader's own, which an address may hold.
      if (own !== null && !bands.some(({ value }) => value === bandText(own)))
        bands.push({ value: bandText(own), text: bandWords(own, units) });
      return bands.length === 0 ? [] : [{ value: every, text: "All pitch speeds" }, ...bands];
    }
    case "dates":
    case "without_flagged":
      return [];
  }
}

/** One choice of the line; null where there is nothing to choose from. */
function elementOf(
  field: FilterField,
  options: readonly Choice[],
  library: PageLibrary,
  shape: FilterShape,
  asked: SwingFilter,
): ChoiceElement | null {
  if (field === "dates") return chooseDates(library, shape.dates);
  if (field === "without_flagged") {
    const rows = filtered(library, { ...asked, without_flagged: false });
    const element = tick({ key: filterKeys.without_flagged, label: flaggedLabel(rows) });
    element.hidden = !asked.without_flagged && !rows.some(isDoubtful);
    return element;
  }
  if (options.length === 0 && field !== "hitter" && field !== "session") return null;
  const given = { key: filterKeys[field], label: named[field], options };
  return field === "input" ? chips(given) : choose(given);
}

/** Puts the line up as the address has it, and gives the filter that then holds. */
function putUp(library: PageLibrary, shape: FilterShape, isChange: boolean): SwingFilter {
  const mine = [...shape.main, ...shape.more];
  const address = held();
  const own = new URLSearchParams(
    mine.flatMap((field) => {
      const text = address.get(filterKeys[field]);
      return text === null ? [] : [[filterKeys[field], text]];
    }),
  );
  const { filter, troubles } = filterFrom(own);
  let asked: SwingFilter = { ...noFilter };
  const told = [...troubles];
  const line = document.getElementById("choices")!;
  const more = shape.more.length === 0 ? null : moreOf(line);
  // In this order: what can be chosen of one depends on those before it.
  const order: readonly FilterField[] = (Object.keys(filterKeys) as FilterField[]).filter((f) =>
    mine.includes(f),
  );
  for (const field of order) {
    const wish = chosenText(filter, field);
    const given = { ...asked, [field]: filter[field] };
    const options = optionsOf(field, library, shape, given);
    if (library.swings.length > 0 && field !== "without_flagged") {
      const has = field === "dates" || wish === "" || options.some(({ value }) => value === wish);
      // Another hitter has other sessions: that needs no word.
      if (!has && !(field === "session" && isChange))
        told.push(
          `${missing(field, wish, options)} ${field === "hitter" ? "The first is shown." : "All are shown."}`,
        );
      // What can't be read, or isn't there, asks for nothing.
      if (!has || (wish === "" && (own.get(filterKeys[field]) ?? "") !== "")) hold(filterKeys[field], every);
    }
    const at = shape.main.includes(field) || more === null ? line : more.panel;
    const before = [...at.children].find((one) => keyOf(one) === filterKeys[field]);
    // Days that are being filled in say nothing yet, and stay.
    const isKept =
      field === "dates" && (before as ChoiceElement | undefined)?.value === daysAsked(shape.dates);
    const element = isKept ? null : elementOf(field, options, library, shape, given);
    if (element !== null) placeIn(at, element);
    else if (!isKept) before?.remove();
    const now = field === "dates" ? daysAsked(shape.dates) : filterFrom(held()).filter[field];
    asked = { ...asked, [field]: now };
  }
  tellAsked(told);
  more?.show(asked, shape);
  return asked;
}

const missing = (field: FilterField, wish: string, options: readonly Choice[]): string =>
  notThere(
    field,
    wish,
    options.flatMap(({ value }) => (value === every ? [] : [value])),
    field === "pitch_speed_mph" ? "mph" : null,
  );

const keyOf = (element: Element | null): string => (element as HTMLElement | null)?.dataset["key"] ?? "";

/** The control that the rest of the choices stand behind. */
interface More {
  readonly panel: HTMLElement;
  show(filter: SwingFilter, shape: FilterShape): void;
}

const mores = new WeakMap<HTMLElement, More>();

function moreOf(line: HTMLElement): More {
  const known = mores.get(line);
  if (known !== undefined) return known;
  const element = document.createElement("div");
  element.className = "more-choices";
  element.dataset["key"] = moreKey;
  const button = element.appendChild(document.createElement("button"));
  button.type = "button";
  button.setAttribute("aria-expanded", "false");
  button.setAttribute("aria-controls", "more-choices");
  const clear = element.appendChild(document.createElement("button"));
  clear.type = "button";
  clear.className = "clear";
  clear.textContent = "Clear";
  clear.hidden = true;
  const panel = element.appendChild(document.createElement("div"));
  panel.id = "more-choices";
  panel.className = "panel";
  panel.setAttribute("role", "group");
  panel.setAttribute("aria-label", "More choices");
  panel.hidden = true;
  const done = document.createElement("button");
  done.type = "button";
  done.className = "done";
  done.dataset["key"] = "done";
  done.textContent = "Done";
  panel.append(done);
  const open = (isOpen: boolean): void => {
    panel.hidden = !isOpen;
    button.setAttribute("aria-expanded", String(isOpen));
  };
  button.addEventListener("click", () => open(panel.hidden));
  done.addEventListener("click", () => (open(false), button.focus()));
  element.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || panel.hidden) return;
    open(false);
    button.focus();
  });
  document.addEventListener("pointerdown", (event) => {
    if (!panel.hidden && !element.contains(event.target as Node)) open(false);
  });
  const made: More = {
    panel,
    show(filter, { more, units, dates = every }) {
      const words = filterWords(
        Object.fromEntries(more.map((field) => [field, filter[field]])) as Partial<SwingFilter>,
        units,
      );
      const isSet = more.some((field) => chosenText(filter, field) !== (field === "dates" ? dates : ""));
      button.textContent =
        isSet && words !== "" ? `${words[0]!.toUpperCase()}${words.slice(1)}` : "More choices";
      if (isSet) button.setAttribute("aria-label", `More choices: ${button.textContent}`);
      else button.removeAttribute("aria-label");
      element.classList.toggle("set", isSet);
      clear.hidden = !isSet;
      clear.setAttribute("aria-label", `Clear: ${button.textContent}`);
      clear.onclick = () => {
        for (const field of more) hold(filterKeys[field], field === "dates" ? dates : every);
        // They are made anew from the address, whatever they showed.
        for (const one of [...panel.children]) if (one !== done) one.remove();
        document.documentElement.classList.add("chosen");
        button.focus();
        element.dispatchEvent(new Event("input", { bubbles: true }));
      };
    },
  };
  mores.set(line, made);
  placeIn(line, element);
  return made;
}

async function* values(library: PageLibrary, shape: FilterShape): AsyncGenerator<SwingFilter> {
  const line = document.getElementById("choices")!;
  const keys = new Set<string>([
    moreKey,
    ...[...shape.main, ...shape.more].map((field) => filterKeys[field]),
  ]);
  for (let isChange = false; ; isChange = true) {
    const filter = putUp(library, shape, isChange);
    // Listened for before the value is handed on: a change meanwhile is not missed.
    const changed = new Promise<void>((done) => {
      const heard = (event: Event): void => {
        if (!keys.has(keyOf((event.target as Element).closest("[data-key]")))) return;
        line.removeEventListener("input", heard);
        document.getElementById("asked")?.replaceChildren();
        done();
      };
      line.addEventListener("input", heard);
    });
    yield filter;
    await changed;
  }
}

/**
 * Puts a page's choices over swings into the line. To the runtime it is a generator of filters, and cells that use it run
 * again; to them it is a value.
 */
export const filtering = values as unknown as (library: PageLibrary, shape: FilterShape) => SwingFilter;

/**
 * Which swings a filter shows, of a marked part those in it alone; `whole`, what was marked among; `all`, the same with their
 * doubtful readings; and whether the hitter has others.
 */
export function swingsOf(
  library: PageLibrary,
  filter: SwingFilter,
  marked: Marked | null = null,
): { rows: EnrichedSwing[]; all: EnrichedSwing[]; whole: EnrichedSwing[]; isNarrowed: boolean } {
  const all = filtered(library, { ...filter, without_flagged: false });
  const whole = filter.without_flagged ? filtered(library, filter) : all;
  return {
    all,
    rows: markedRows(whole, marked),
    whole,
    isNarrowed: marked !== null || chosenIn(filter).some((field) => field !== "session"),
  };
}

/** What changed since the session before, of the sessions that are shown: what lies before the days chosen is compared with. */
export function changesIn(
  library: PageLibrary,
  filter: SwingFilter,
  rows: readonly EnrichedSwing[],
): SessionChange[] {
  const { until } = scopeOf(filter, lastDay(library));
  const known = filtered(library, {
    ...filter,
    session: null,
    dates: until === null ? every : `../${until}`,
  });
  const shown = new Set(rows.map(({ session }) => session));
  return changeSince(known, library.sessions, filter.session).filter(({ to }) => shown.has(to.session));
}

/** What a page says of its filter: what is shown, or that nothing is left and what to widen; none where nothing is chosen. */
export function filterTold(
  library: PageLibrary,
  filter: SwingFilter,
  n: number,
  units: UnitSystem,
): string[] {
  if (library.swings.length === 0) return [];
  if (n === 0) return [emptyFilter(filter, widenings(library, filter), units)];
  const said = filterSentence(filter, lastDay(library), units);
  return said === null ? [] : [said];
}

export { lastDay } from "./dates.ts";
