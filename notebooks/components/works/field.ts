/** The long work of a page of balls on a field. The computing is in src/defence. */
import { onFieldSteps, type Ground, type OnField } from "../../../src/defence/onField.ts";
import { filtered, type SwingFilter } from "../../../src/views/filter.ts";
import { inPlay } from "../../../src/views/swings.ts";
import type { Work } from "../apart.ts";
import { ofLatestScope } from "../latestScope.ts";
import type { PageLibrary } from "../library.ts";

/** What was found, by hitter, as long as all else that was chosen stays. */
const foundIn = ofLatestScope<Map<SwingFilter["hitter"], OnField>, { filter: SwingFilter; ground: Ground }>(
  () => new Map(),
);

function* flown(library: PageLibrary, filter: SwingFilter, ground: Ground): Generator<void, OnField> {
  const found = foundIn(library, { filter: { ...filter, hitter: null }, ground });
  const known = found.get(filter.hitter);
  if (known !== undefined) return known;
  const made = yield* onFieldSteps(inPlay(filtered(library, filter)), ground);
  found.set(filter.hitter, made);
  return made;
}

/** What came of each ball on a field. */
export const flownOn: Work<[SwingFilter, Ground], OnField> = {
  name: "on a field",
  what: "what each ball would have been on this field",
  steps: flown,
};

/** So many hitters' balls are flown before anybody asks: of those who have most, since they are waited for longest. */
const ahead = 50;

/** The same of other hitters, who may be asked for next. */
export const flownAhead: Work<[SwingFilter, Ground], null> = {
  name: "on a field ahead",
  what: "what may be asked next",
  isIdle: true,
  *steps(library, filter, ground) {
    const swings = new Map<string, number>();
    for (const { hitter } of library.swings) swings.set(hitter, (swings.get(hitter) ?? 0) + 1);
    const most = [...swings].sort(([, a], [, b]) => b - a).slice(0, ahead);
    for (const [hitter] of most) yield* flown(library, { ...filter, hitter }, ground);
    return null;
  },
};
