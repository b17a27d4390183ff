/** A group's figures and needs, asked for and kept. The computing is in src/season. */
import type { GroupSpan } from "../../src/season/group.ts";
import { scopeOf, type SwingFilter } from "../../src/views/filter.ts";
import type { Span } from "../../src/views/sessions.ts";
import { weeksTo } from "../../src/views/spans.ts";
import { apart, isApart, type Display } from "./apart.ts";
import { lastDay } from "./dates.ts";
import type { PageLibrary } from "./library.ts";
import { afterPaint } from "./meanwhile.ts";
import { groupNeeds, groupSpan, type GroupAsked, type NeedsPlan } from "./works/group.ts";

/** Weeks that needs are told from, at least: one week has too few swings for anything to be clear. */
const needWeeks = 4;

/** A group over the swings that are asked for. */
export interface GroupWork {
  /** The days that gaps and needs are told from. */
  readonly needSpan: Required<Span>;
  readonly group: GroupSpan;
  /** Null first, so that a page shows what it has; then who needs what. */
  plan(): AsyncGenerator<NeedsPlan | null>;
}

/** Plans that were told already, by library and question: they need no null before them. */
const plans = new WeakMap<PageLibrary, Map<string, NeedsPlan>>();

/**
 * The group of a library.
 * @param display the cell's own: it says meanwhile what is worked out
 * @throws BadThresholds when the library's own thresholds can't be used
 */
export async function groupWork(
  display: Display,
  library: PageLibrary,
  filter: SwingFilter,
): Promise<GroupWork> {
  const asked = askedBy(library, filter);
  const group = apart(display, groupSpan, library, asked);
  // Beside the page asked for at once: what an older choice still waits for gives way to both. In the page once the group is seen.
  const seen = isApart(library) ? Promise.resolve() : afterPaint();
  const plan = seen.then(() => apart(() => {}, groupNeeds, library, asked));
  // Why there is none is said where it is waited for.
  plan.catch(() => undefined);
  const known = plans.get(library) ?? new Map<string, NeedsPlan>();
  plans.set(library, known);
  const key = JSON.stringify(asked);
  return {
    needSpan: asked.needSpan,
    group: await group,
    plan: async function* () {
      if (!known.has(key)) yield null;
      const found = await plan;
      known.set(key, found);
      yield found;
    },
  };
}

function askedBy(library: PageLibrary, filter: SwingFilter): GroupAsked {
  const last = lastDay(library);
  const scope = scopeOf(filter, last);
  const { since, until } = scope;
  const end = until ?? last;
  const weeks = end === null ? { since, until } : weeksTo(end, needWeeks);
  const isLonger = since === null || weeks.since === null || since < weeks.since;
  return {
    scope,
    needSpan: { since: isLonger ? since : weeks.since, until },
    withoutFlagged: filter.without_flagged,
  };
}

/** To the runtime a generator of what is known so far, and cells that use it run again; to them it is a value. */
export const told = ((steps: AsyncGenerator<unknown>) => steps) as unknown as <T>(
  steps: AsyncGenerator<T>,
) => T;
