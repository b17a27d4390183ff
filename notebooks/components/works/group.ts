/** A group's long work, what its page has worked out beside it. The computing is in src/season. */
import { splitExitVelocity, type ExitVelocitySplit } from "../../../src/gap/parts.ts";
import { makeReady, readyIn, sidesOf, type Ready } from "../../../src/gap/rows.ts";
import { groupOver, type GroupSpan } from "../../../src/season/group.ts";
import { needsSteps, type Needs } from "../../../src/season/needs.ts";
import { stationsFor, type Station } from "../../../src/season/stations.ts";
import { filtered, noFilter, type SwingScope } from "../../../src/views/filter.ts";
import type { Span } from "../../../src/views/sessions.ts";
import type { Work } from "../apart.ts";
import { zoneFor } from "../ground.ts";
import { ofLatestScope } from "../latestScope.ts";
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

/** Which swings gaps and needs are told from. */
type NeedScope = SwingScope & Required<Span> & Pick<GroupAsked, "withoutFlagged">;

const needScope = ({ scope, needSpan, withoutFlagged }: GroupAsked): NeedScope => ({
  ...scope,
  ...needSpan,
  withoutFlagged,
});

/** Each hitter's gap, worked out when it is first asked for: the group's last column and the needs rest on the same. */
const splitsIn = ofLatestScope((library, scope: NeedScope) => {
  const ready = readyOf(library, scope.withoutFlagged);
  const made = new Map<string, ExitVelocitySplit>();
  return (hitter: string): ExitVelocitySplit => {
    const split = made.get(hitter) ?? splitExitVelocity(sidesOf(ready, hitter, scope), ready);
    made.set(hitter, split);
    return split;
  };
});

/** Who did what, and how well. */
export const groupSpan: Work<[GroupAsked], GroupSpan> = {
  name: "group",
  what: "who did what",
  *steps(library, asked) {
    const { targets } = library;
    const ready = readyOf(library, asked.withoutFlagged);
    const split = splitsIn(library, needScope(asked));
    for (const hitter of ready.hitters) {
      split(hitter);
      yield;
    }
    return groupOver(ready, { ...asked.scope, targets, gapSpan: asked.needSpan, split });
  },
};

/** Who needs what next, hitter by hitter. */
export const groupNeeds: Work<[GroupAsked], NeedsPlan> = {
  name: "needs",
  what: "who needs what next",
  *steps(library, asked) {
    const { targets } = library;
    const ready = readyOf(library, asked.withoutFlagged);
    const span = needScope(asked);
    const zone = (hitter: string) => zoneFor(library, hitter);
    const needs = yield* needsSteps(ready, { ...span, targets, zone, split: splitsIn(library, span) });
    return { needs, stations: stationsFor(needs, readyIn(ready, span), targets) };
  },
};
