/** Which swings a page shows, and what there is to choose from. Choosing rows is all that happens here. */
import { byName } from "../../src/swing/byName.ts";
import { inputs, type EnrichedSwing, type Input } from "../../src/swing/fields.ts";
import { sessionLists } from "../../src/views/sessions.ts";
import type { Option } from "./choice.ts";
import type { PageLibrary } from "./library.ts";

/** The value of a choice that leaves nothing out: no hitter, session, drill or input is named by an empty text. */
export const every = "";

type Rows = readonly EnrichedSwing[];

/** What is wanted; `every`, or nothing, where it does not matter. */
export interface Wanted {
  readonly hitter?: string;
  readonly session?: string;
  readonly drill?: string;
  readonly input?: string;
}

/** The library's swings that are wanted, in its order. */
export function pick({ swings }: Pick<PageLibrary, "swings">, wanted: Wanted): EnrichedSwing[] {
  const kept = (want: string | undefined, value: string | null): boolean =>
    want === undefined || want === every || want === value;
  return swings.filter(
    (row) =>
      kept(wanted.hitter, row.hitter) &&
      kept(wanted.session, row.session) &&
      kept(wanted.drill, row.drill) &&
      kept(wanted.input, row.input),
  );
}

/** The hitters with swings, by name. */
export function hitterOptions({ swings }: Pick<PageLibrary, "swings">): Option[] {
  return counted(swings.map((row) => row.hitter)).sort((a, b) => byName(a.value, b.value));
}

/** A hitter's sessions, latest first, and all of them together. */
export function sessionOptions(library: Pick<PageLibrary, "swings" | "sessions">, hitter: string): Option[] {
  const rows = pick(library, { hitter });
  const ordered = sessionLists(rows, library.sessions).reverse();
  const named = ordered.map(({ session, date, rows: list }) => ({
    value: session,
    // Many a session is named by its date already.
    text: `${date === null || session.includes(date) ? "" : `${date}, `}${session} (${list.length})`,
  }));
  return named.length === 1 ? named : [...named, { value: every, text: `All sessions (${rows.length})` }];
}

/** All drills together, and each drill among the rows. */
export function drillOptions(rows: Rows): Option[] {
  const named = rows.flatMap(({ drill }) => (drill === null ? [] : [drill]));
  return [{ value: every, text: `All work (${rows.length})` }, ...counted(named)];
}

/** All inputs together, and each one, whether there are rows of it or not. */
export function inputOptions(): Option[] {
  const words: Record<Input, string> = { tee: "Tee", flip: "Flip", live: "Live" };
  return [{ value: every, text: "All" }, ...inputs.map((value) => ({ value, text: words[value] }))];
}

/** What the strip of swings is parted by: the drills of one session, or the sessions. */
export function stripGroup(session: string): (row: Pick<EnrichedSwing, "session" | "drill">) => string {
  return (row) => (session === every ? row.session : row.drill) ?? "not named";
}

/** Each value with how often it occurs, in the order of first sight. */
function counted(values: readonly string[]): Option[] {
  const counts = new Map<string, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].map(([value, n]) => ({ value, text: `${value} (${n})` }));
}
