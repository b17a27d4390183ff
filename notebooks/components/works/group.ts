/** A group's long work, what its page has worked out beside it. The computing is in src/season. */
import { makeReady, readyIn, type Ready } from "../../../src/gap/rows.ts";
import { groupOver, type GroupSpan } from "../../../src/season/group.ts";
import { needsSteps, type Needs } from "../../../src/season/needs.ts";
import { stationsFor, type Station } from "../../../src/season/stations.ts";
import { filtered, noFilter, type SwingScope } from "../../../src/views/filter.ts";
import type { Span } from "../../../src/views/sessions.ts";
import type { Work } from "../apart.ts";
import { zoneFor } from "../ground.ts";
import type { PageLibrary } from "../library.ts";

/** Which swings a group is told from. */
export interface GroupAsked {
  readonly scope: SwingScope & Required<Span>;
  /** The days that gaps and needs are told from. */
  readonly needSpan: Required<Span>;
  readonly withoutFlagged: boolean;
}

/** What each hitter needs, and the plan of stations drawn from it. */
export interface NeedsPlan {
  readonly needs: Needs;
  readonly stations: readonly Station[];
}

/** A library made ready, with its flagged swings and without: kept for the next question. */
const made = new WeakMap<PageLibrary, Map<boolean, Ready>>();

/** @throws BadThresholds when the library's own thresholds can't be used */
function readyOf(library: PageLibrary, withoutFlagged: boolean): Ready {
  const own = made.get(library) ?? new Map<boolean, Ready>();
  made.set(library, own);
  const known = own.get(withoutFlagged);
  if (known !== undefined) return known;
  const swings = withoutFlagged ? filtered(library, { ...noFilter, without_flagged: true }) : library.swings;
  const ready = makeReady({ ...library, swings });
  own.set(withoutFlagged, ready);
  return ready;
}

/** Who did what, and how well. */
export const groupSpan: Work<[GroupAsked], GroupSpan> = {
  name: "group",
  what: "who did what",
  run: (library, { scope, needSpan, withoutFlagged }) =>
    groupOver(readyOf(library, withoutFlagged), { ...scope, targets: library.targets, gapSpan: needSpan }),
};

/** Who needs what next, hitter by hitter. */
export const groupNeeds: Work<[GroupAsked], NeedsPlan> = {
  name: "needs",
  what: "who needs what next",
  *steps(library, { scope, needSpan, withoutFlagged }) {
    const { targets } = library;
    const ready = readyOf(library, withoutFlagged);
    const span = { ...scope, ...needSpan };
    const zone = (hitter: string) => zoneFor(library, hitter);
    const needs = yield* needsSteps(ready, { ...span, targets, zone });
    return { needs, stations: stationsFor(needs, readyIn(ready, span), targets) };
  },
};
