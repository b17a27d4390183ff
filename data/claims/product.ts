/** What the kit says of made-up swings, by the functions that its pages, reports and commands call. */
import { JSDOM } from "jsdom";
import { enrich } from "../../src/contact/enrich.ts";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { makeReady, type Ready } from "../../src/gap/rows.ts";
import { viewsOf, type WorkViews } from "../../src/report/workViews.ts";
import type { EnrichedSwing, Hitter, Session, Swing, Target } from "../../src/swing/fields.ts";
import { changeSince, type SessionChange } from "../../src/views/change.ts";
import { headline, type Headline } from "../../src/views/headline.ts";
import { targetResult, type TargetResult } from "../../src/views/target.ts";

/** A library in memory. */
export interface Library {
  readonly swings: readonly Swing[];
  readonly sessions: readonly Session[];
  readonly hitters: readonly Hitter[];
}

/** A library made ready for comparisons. */
export function readyOf(library: Library): Ready {
  return makeReady({ ...library, swings: enrich(library), thresholds: null });
}

/** What a hitter's report is made of. */
export interface Reported {
  readonly rows: readonly EnrichedSwing[];
  readonly views: WorkViews;
  readonly targets: readonly TargetResult[];
  readonly changes: readonly SessionChange[];
  readonly headline: Headline;
}

/**
 * What the report of one hitter says; `session` as for a report of one.
 */
export function reported(
  library: Library,
  hitter: string,
  session: string | null = null,
  targets: readonly Target[] = [],
): Reported {
  const all = enrich(library).filter((r) => r.hitter === hitter);
  const rows = session === null ? all : all.filter((r) => r.session === session);
  const { sessions, hitters } = library;
  const listed = hitters.find((h) => h.hitter === hitter);
  const zone = { height_in: listed?.height_in ?? null, zone: defaultThresholds };
  const results = targets.map((t) => targetResult(rows, t));
  const changes = changeSince(all, sessions, session);
  return {
    rows,
    views: viewsOf(rows, { ...zone, sessions, thresholds: defaultThresholds }),
    targets: results,
    changes,
    headline: headline(rows, { targets: results, changes, zone, system: "us" }),
  };
}

const { document } = new JSDOM("").window;

/** Page components make elements: here they are made, and their sentences read. */
export function sentencesOf(make: () => HTMLElement): string[] {
  const before = Object.getOwnPropertyDescriptor(globalThis, "document");
  Object.assign(globalThis, { document });
  try {
    const element = make();
    return [...element.querySelectorAll("p, li")].map((e) => e.textContent ?? "");
  } finally {
    if (before === undefined) Reflect.deleteProperty(globalThis, "document");
    else Object.defineProperty(globalThis, "document", before);
  }
}
