/** A group's page: each hitter's gap is worked out once for its figures and its needs, and is what each would find alone. */
import { join } from "node:path";
import { beforeEach, expect, it, vi } from "vitest";
import { pageLibrary, type LibraryFile } from "../../notebooks/components/library.ts";
import { groupNeeds, groupSpan, type GroupAsked } from "../../notebooks/components/works/group.ts";
import { zoneFor } from "../../notebooks/components/ground.ts";
import { LibrarySource } from "../../notebooks/plugins/library-file.ts";
import * as parts from "../../src/gap/parts.ts";
import { makeReady } from "../../src/gap/rows.ts";
import { groupOver, type GroupSpan } from "../../src/season/group.ts";
import { needs, type Needs } from "../../src/season/needs.ts";
import { allSteps } from "../../src/swing/lists.ts";
import { filtered, noFilter } from "../../src/views/filter.ts";
import { root } from "../house/files.ts";

vi.mock("../../src/gap/parts.ts", async (original) => {
  const own = await original<typeof parts>();
  return {
    ...own,
    splitExitVelocity: vi.fn(own.splitExitVelocity),
    beyondPitchOf: vi.fn(own.beyondPitchOf),
  };
});
const [whole, beyond] = [vi.mocked(parts.splitExitVelocity), vi.mocked(parts.beyondPitchOf)];
beforeEach(() => {
  whole.mockClear();
  beyond.mockClear();
});

const library = pageLibrary(
  JSON.parse(await new LibrarySource(join(root, "data/demo")).text()) as LibraryFile,
);
const week = { since: "2025-04-07", until: "2025-04-13" };
const weeks = { since: "2025-03-17", until: "2025-04-13" };
const asked: GroupAsked = { scope: week, needSpan: weeks, withoutFlagged: false };

const answered = (now: GroupAsked): { group: GroupSpan; needs: Needs } => {
  const work = groupSpan as Extract<typeof groupSpan, { steps: unknown }>;
  const plan = groupNeeds as Extract<typeof groupNeeds, { steps: unknown }>;
  const group = allSteps(work.steps(library, now));
  return { group, needs: allSteps(plan.steps(library, now)).needs };
};

it("asks for each hitter's gap once, and again only where other swings are its own", () => {
  const hitters = answered(asked).group.rows.length;
  expect(hitters).toBe(8);
  expect(whole).toHaveBeenCalledTimes(hitters);
  // Other days of the same weeks: the gaps are told from the weeks.
  answered({ ...asked, scope: { ...week, since: "2025-04-01" } });
  expect(whole).toHaveBeenCalledTimes(hitters);
  answered({ ...asked, needSpan: { since: null, until: "2025-04-13" } });
  expect(whole).toHaveBeenCalledTimes(2 * hitters);
  answered({ ...asked, needSpan: { since: null, until: "2025-04-13" }, withoutFlagged: true });
  expect(whole).toHaveBeenCalledTimes(3 * hitters);
  expect(beyond).not.toHaveBeenCalled();
});

it.each([
  ["four weeks", asked],
  ["a drill", { ...asked, scope: { ...week, drill: "Tee, middle" } }],
  ["without flagged swings", { ...asked, withoutFlagged: true }],
])("finds what the figures and the needs find each by itself: %s", (_, now) => {
  const { withoutFlagged, scope, needSpan } = now;
  const swings = withoutFlagged ? filtered(library, { ...noFilter, without_flagged: true }) : library.swings;
  const ready = makeReady({ ...library, swings });
  const { targets } = library;
  const zone = (hitter: string) => zoneFor(library, hitter);
  const found = answered(now);
  expect(found.group).toEqual(groupOver(ready, { ...scope, targets, gapSpan: needSpan }));
  expect(found.needs).toEqual(needs(ready, { ...scope, ...needSpan, targets, zone }));
  expect(beyond).toHaveBeenCalled();
});
