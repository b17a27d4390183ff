/** A group's figures and needs, worked out between presses of a key and kept. The computing is in src/season. */
import { makeReady, readyIn, type Ready, type ReadySwing } from "../../src/gap/rows.ts";
import { groupOver, type GroupSpan } from "../../src/season/group.ts";
import { needsSteps, type Needs } from "../../src/season/needs.ts";
import { weeksTo } from "../../src/views/spans.ts";
import type { Span } from "../../src/views/sessions.ts";
import { filtered, noFilter, scopeOf, type SwingFilter } from "../../src/views/filter.ts";
import { lastDay } from "./dates.ts";
import { zoneFor } from "./ground.ts";
import type { PageLibrary } from "./library.ts";
import { afterPaint } from "./meanwhile.ts";

/** Weeks that needs are told from, at least: one week has too few swings for anything to be clear. */
const needWeeks = 4;

/** A group over the swings that are asked for. */
export interface GroupWork {
  readonly span: Required<Span>;
  /** The days that gaps and needs are told from. */
  readonly needSpan: Required<Span>;
  /** The swings of those days. */
  readonly needRows: readonly ReadySwing[];
  readonly group: GroupSpan;
  /** Null first, so that a page shows what it has; then the needs, worked out hitter by hitter. */
  needs(): AsyncGenerator<Needs | null>;
}

/**
 * The group of a library. A library made ready is kept for the next choice of dates.
 * @throws BadThresholds when the library's own thresholds can't be used
 */
export function groupWork(library: PageLibrary): (filter: SwingFilter) => GroupWork {
  const all = makeReady(library);
  let sure: Ready | null = null;
  const last = lastDay(library);
  const kept = new Map<string, GroupWork>();
  return (filter) => {
    const key = JSON.stringify(filter);
    const known = kept.get(key);
    if (known !== undefined) return known;
    const { since, until, ...conditions } = scopeOf(filter, last);
    const span = { since, until };
    const ready = filter.without_flagged
      ? (sure ??= makeReady({
          ...library,
          swings: filtered(library, { ...noFilter, without_flagged: true }),
        }))
      : all;
    const end = span.until ?? last;
    const weeks = end === null ? span : weeksTo(end, needWeeks);
    const longer = span.since === null || weeks.since === null || span.since < weeks.since;
    const needSpan = longer ? span : { since: weeks.since, until: span.until };
    const { targets } = library;
    let needs: Promise<Needs> | null = null;
    const work = async (): Promise<Needs> => {
      const zone = (hitter: string) => zoneFor(library, hitter);
      const steps = needsSteps(ready, { ...conditions, ...needSpan, targets, zone });
      for (;;) {
        await afterPaint();
        const step = steps.next();
        if (step.done === true) return step.value;
      }
    };
    const made: GroupWork = {
      span,
      needSpan,
      needRows: readyIn(ready, { ...conditions, ...needSpan }),
      group: groupOver(ready, { ...conditions, ...span, targets, gapSpan: needSpan }),
      needs: async function* () {
        if (needs === null) yield null;
        yield await (needs ??= work());
      },
    };
    kept.set(key, made);
    return made;
  };
}

/** To the runtime a generator of what is known so far, and cells that use it run again; to them it is a value. */
export const told = ((steps: AsyncGenerator<unknown>) => steps) as unknown as <T>(
  steps: AsyncGenerator<T>,
) => T;
