/** Whether the swings of a page can be believed: a badge a session, and which swings are in doubt. */
import { trustBadge } from "../../src/charts/trustBadge.ts";
import { flagsOf, isDoubtful } from "../../src/contact/flags.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { counted } from "../../src/swing/words.ts";
import { ceilingOverAll } from "../../src/views/sentences/filter.ts";
import { sessionLists } from "../../src/views/sessions.ts";
import type { PageLibrary } from "./library.ts";
import { box, nothing, unbroken } from "./show.ts";

type Rows = readonly EnrichedSwing[];

/** The words beside the box that leaves flagged swings out, with their count. */
export function flaggedLabel(rows: Rows): string {
  return `Leave out flagged swings (${rows.filter(isDoubtful).length})`;
}

/** How many of the rows are left out, as a sentence; none where nothing is. */
export function leftOut(rows: Rows, leaveOut: boolean, where = "every figure here"): string[] {
  const n = leaveOut ? rows.filter(isDoubtful).length : 0;
  return n === 0 ? [] : [`${n} flagged ${n === 1 ? "swing is" : "swings are"} left out of ${where}.`];
}

/** The swings whose contact point is known, which the zone's cells are made of. */
export function placed(rows: Rows): EnrichedSwing[] {
  return rows.filter((row) => row.contact_side_ft !== null && row.contact_height_ft !== null);
}

/** One session: its badge, its name and the reasons. */
function line(trust: PageLibrary["trust"][number]): HTMLElement {
  const item = document.createElement("li");
  const said = trust.reasons.join(" ") || "Nothing speaks against it.";
  item.append(trustBadge(trust), ...unbroken(` ${trust.session}: ${said}`));
  return item;
}

function list(all: PageLibrary["trust"]): HTMLElement {
  const element = document.createElement("ul");
  element.className = "sessions";
  element.append(...all.map(line));
  return element;
}

/**
 * How many swings of how many sessions the figures rest on, the least sound of them by its badge, and what is left out.
 * @param isNarrowed whether the hitter has other swings, which the ceiling is told from as well
 */
export function restsOn(
  library: PageLibrary,
  rows: Rows,
  leaveOut: boolean,
  isNarrowed = false,
): HTMLElement {
  const known = new Map(library.trust.map((trust) => [trust.session, trust]));
  const all = sessionLists(rows, library.sessions).flatMap(({ session }) => known.get(session) ?? []);
  const element = document.createElement("span");
  element.className = "sessions";
  const order = ["hold back", "look again", "sound"] as const;
  const worst = all.toSorted((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict))[0];
  if (worst !== undefined) element.append(trustBadge(worst), " ");
  const sessions =
    all.length === 1
      ? all[0]!.session
      : order
          .map((verdict) => [verdict, all.filter((one) => one.verdict === verdict).length] as const)
          .filter(([, n]) => n > 0)
          .map(([verdict, n]) => `${n} ${verdict}`)
          .join(", ");
  const of =
    all.length > 1 ? ` in ${all.length} sessions: ${sessions}.` : all.length === 1 ? `, ${sessions}.` : ".";
  const said = [
    `${counted(rows.length, "swing")}${of}`,
    ...leftOut(rows, leaveOut),
    ...(isNarrowed ? [ceilingOverAll] : []),
  ];
  element.append(...unbroken(said.join(" ")));
  return element;
}

/**
 * The badge of each session that the swings come from, with the reasons, latest first; those that are sound are folded
 * away where there are many. Then how many swings are corrected.
 */
export function trusted(library: PageLibrary, rows: Rows): HTMLElement {
  const known = new Map(library.trust.map((trust) => [trust.session, trust]));
  const all = sessionLists(rows, library.sessions)
    .reverse()
    .flatMap(({ session }) => known.get(session) ?? []);
  const few = all.length <= 2 ? all : all.filter(({ verdict }) => verdict !== "sound");
  const rest = all.filter((one) => !few.includes(one));
  const parts: HTMLElement[] = few.length === 0 ? [] : [list(few)];
  if (rest.length > 0) {
    const details = document.createElement("details");
    const sessions = counted(rest.length, "session");
    const summary = details.appendChild(document.createElement("summary"));
    summary.textContent = `Trust: ${few.length === 0 ? "" : "the other "}${sessions} sound`;
    details.append(list(rest));
    parts.push(details);
  }
  const turned = rows.filter((row) => flagsOf(row).includes("turned_back")).length;
  const nameless = rows.filter(({ session }) => session === null).length;
  const said = [
    ...(turned > 0
      ? [`${turned} of these swings are corrected, as sessions.csv says, in every figure here.`]
      : []),
    ...(nameless > 0 ? [`${nameless} without a session: no placement or calibration can be known.`] : []),
  ];
  if (said.length > 0) parts.push(nothing(said.join(" ")));
  return box("trusted", ...parts);
}
