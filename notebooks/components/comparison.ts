/** Every comparison of a library that a page asks for, made once and kept. The computing is in src/gap. */
import { group } from "d3";
import { withoutDoubtful } from "../../src/contact/flags.ts";
import { acrossHitters, beyondPitch, type Across } from "../../src/gap/across.ts";
import {
  gap,
  measureGap,
  measureTable,
  type HitterGap,
  type MeasureGap,
  type MeasureRow,
} from "../../src/gap/gap.ts";
import { gapMeasures, measureNamed, type MeasureName } from "../../src/gap/measures.ts";
import { beyondPitchOf } from "../../src/gap/parts.ts";
import { makeReady, pitchedAs, sidesOf, type Ready, type Sides } from "../../src/gap/rows.ts";
import { stabilizing, type Stabilizing } from "../../src/gap/stabilizing.ts";
import { inputs, type EnrichedSwing, type Input } from "../../src/swing/fields.ts";
import { conditionsOf, plateSpeeds, type SwingScope } from "../../src/views/filter.ts";
import { rowsInSpan } from "../../src/views/sessions.ts";
import { flipView, type FlipView } from "../../src/views/flip.ts";
import { liveView, type LiveView } from "../../src/views/live.ts";
import { inPlay, ofInput } from "../../src/views/swings.ts";
import { teeView, type TeeView } from "../../src/views/tee.ts";
import { timingView, type TimingView } from "../../src/views/timing.ts";
import { zoneCells, type ZoneCell, type ZoneOptions } from "../../src/views/zone.ts";
import type { Option } from "./choice.ts";
import { zoneFor } from "./ground.ts";
import type { PageLibrary } from "./library.ts";
import { timingSheet } from "./gapTables.ts";
import { every, pick } from "./pick.ts";
import { flipFacts, teeFacts } from "./say.ts";
import { pairs, type Scope } from "./scope.ts";

/** Every measure. */
export const measureOptions: readonly Option[] = gapMeasures.map(({ name, title }) => ({
  value: name,
  text: title,
}));

/** The gaps of a library. */
interface Gaps {
  readonly ready: Ready;
  /** The parts of a hitter's gaps, and what to know before any figure; without the measures. */
  parts(hitter: string, scope: Scope): HitterGap;
  measure(hitter: string, scope: Scope, measure: MeasureName): MeasureGap;
  /** Every measure. */
  measures(hitter: string, scope: Scope): MeasureGap[];
  /** Every measure in each kind of work, with its own interval. */
  table(hitter: string, scope: Scope): MeasureRow[];
  across(measure: MeasureName, scope: Scope): Across;
  stabilizing(input: Input, scope: Scope): Stabilizing[];
}

/** The views of a hitter's swings; of all hitters' where every one is chosen. */
interface Views {
  timing(hitter: string, input: "flip" | "live", scope: Scope): TimingView;
  tee(hitter: string, scope: Scope): TeeView;
  flip(hitter: string, scope: Scope): FlipView;
  live(hitter: string, scope: Scope): LiveView;
  /** The balls in play of one kind of work, and the nine cells they were met in. */
  balls(hitter: string, input: Input, scope: Scope): readonly EnrichedSwing[];
  cells(hitter: string, input: Input, scope: Scope): readonly ZoneCell[];
}

/** What `comparisons` gives. */
export interface Comparisons extends Gaps, Views {
  /** What may be asked next, one comparison a step: for a page to do while nobody asks it anything. */
  ahead(scope: Scope, measure: MeasureName): Generator<void>;
}

/**
 * The comparisons of a library: of all its swings, or, told to leave some out, of those whose reading is not in doubt.
 * @throws BadThresholds when the library's own thresholds can't be used
 */
export function comparisonsOf(library: PageLibrary): (leaveOut: boolean) => Comparisons {
  const all = comparisons(library);
  const { kept, leftOut } = withoutDoubtful(library.swings);
  let sure: Comparisons | null = leftOut === 0 ? all : null;
  return (leaveOut) => (leaveOut ? (sure ??= comparisons({ ...library, swings: kept })) : all);
}

/**
 * The swings that a hitter's comparisons are made of: a drill narrows the kinds of work that have it, and what is asked of
 * pitches what was pitched.
 */
export function inScope(library: PageLibrary, hitter: string, scope: SwingScope): EnrichedSwing[] {
  const days = rowsInSpan(pick(library, { hitter }), library.sessions, scope);
  const conditions = conditionsOf<EnrichedSwing>(
    scope,
    scope.pitch_speed_mph == null ? () => null : plateSpeeds(library),
  );
  const drill = conditions.find(({ field }) => field === "drill");
  const works = group(
    days,
    (row) => row.hitter,
    (row) => row.input,
  );
  const kept = new Set<EnrichedSwing>();
  for (const [, ofHitter] of works)
    for (const [input, rows] of ofHitter) {
      const pitched = pitchedAs(rows, input, conditions);
      const drilled = drill === undefined ? [] : pitched.filter(drill.met);
      for (const row of drilled.length > 0 ? drilled : pitched) kept.add(row);
    }
  return days.filter((row) => kept.has(row));
}

/**
 * The comparisons of a library. Each is computed when first asked for, and only then.
 * @throws BadThresholds when the library's own thresholds can't be used
 */
function comparisons(library: PageLibrary): Comparisons {
  const ready = makeReady(library);
  const kept = memory();
  const made = { ...gapsOf(ready, kept), ...viewsOf(library, ready, kept) };
  return { ...made, ahead: (scope, measure) => ahead(made, scope, measure) };
}

type Key = readonly (string | Partial<Scope>)[];

/** What was computed, by what it was asked of. */
interface Memory {
  has(...key: Key): boolean;
  /** Makes it when it is asked for the first time. */
  once<T>(make: () => T, ...key: Key): T;
}

function memory(): Memory {
  const kept = new Map<string, unknown>();
  return {
    has: (...key) => kept.has(JSON.stringify(key)),
    once: <T>(make: () => T, ...key: Key): T => {
      const name = JSON.stringify(key);
      if (!kept.has(name)) kept.set(name, make());
      return kept.get(name) as T;
    },
  };
}

/** What is the same whatever pair is compared. */
const anyPair = ({ from: _, to: __, ...scope }: Scope): Omit<Scope, "from" | "to"> => scope;

function gapsOf(ready: Ready, { has, once }: Memory): Gaps {
  const sides = (hitter: string, scope: Scope): Sides =>
    once(() => sidesOf(ready, hitter, scope), "sides", hitter, scope);
  /** Of the parts where the page shows them; else alone. */
  const beyond = (hitter: string, scope: Scope): ReturnType<typeof beyondPitchOf> =>
    has("parts", hitter, scope)
      ? gaps.parts(hitter, scope).exitVelocity
      : once(() => beyondPitchOf(sides(hitter, scope), ready), "beyond the pitch", hitter, scope);
  const gaps: Gaps = {
    ready,
    parts: (hitter, scope) =>
      once(() => gap(ready, hitter, { ...scope, measures: [] }), "parts", hitter, scope),
    measure: (hitter, scope, name) =>
      once(() => measureGap(measureNamed(name), sides(hitter, scope), ready), "measure", name, hitter, scope),
    measures: (hitter, scope) => gapMeasures.map(({ name }) => gaps.measure(hitter, scope, name)),
    table: (hitter, scope) => once(() => measureTable(ready, hitter, scope), "table", hitter, anyPair(scope)),
    across: (name, scope) =>
      once(
        () =>
          acrossHitters(ready, name, scope, {
            measure: (hitter) => gaps.measure(hitter, scope, name),
            split: (hitter) => beyond(hitter, scope),
          }),
        "across",
        name,
        scope,
      ),
    stabilizing: (input, scope) =>
      once(() => stabilizing(ready, input, scope), "stabilizing", input, anyPair(scope)),
  };
  return gaps;
}

function viewsOf(library: PageLibrary, ready: Ready, { once }: Memory): Views {
  const swings = (hitter: string, scope: Scope): EnrichedSwing[] =>
    (hitter === every ? ready.hitters : [hitter]).flatMap((name) =>
      inputs.flatMap((i) => sidesOf(ready, name, { ...scope, from: i, to: i }).from),
    );
  /** Once for a hitter and a drill. */
  const ofHitter = <T>(
    what: string,
    hitter: string,
    scope: Scope,
    make: (rows: EnrichedSwing[], zone: ZoneOptions) => T,
  ): T => once(() => make(swings(hitter, scope), zoneFor(library, hitter)), what, hitter, anyPair(scope));
  const known = { sessions: library.sessions, thresholds: ready.thresholds };
  const views: Views = {
    timing: (hitter, input, scope) =>
      ofHitter(`timing ${input}`, hitter, scope, (rows, zone) =>
        timingView(rows, input, { ...zone, ...known }),
      ),
    tee: (hitter, scope) => ofHitter("tee", hitter, scope, teeView),
    flip: (hitter, scope) => ofHitter("flip", hitter, scope, flipView),
    live: (hitter, scope) =>
      ofHitter("live", hitter, scope, (rows, zone) => liveView(rows, { ...zone, ...known })),
    balls: (hitter, input, scope) =>
      ofHitter(`balls ${input}`, hitter, scope, (rows) => inPlay(ofInput(rows, input))),
    cells: (hitter, input, scope) =>
      input === "live"
        ? ofHitter("live cells", hitter, scope, (rows, zone) => zoneCells(ofInput(rows, input), zone))
        : views[input](hitter, scope).cells,
  };
  return views;
}

/** Every comparison that a page in this scope may ask for, the likeliest first. */
function* ahead(made: Gaps & Views, scope: Scope, measure: MeasureName): Generator<void> {
  const { hitters } = made.ready;
  const others = pairs.map(([from, to]) => ({ ...scope, from, to }));
  const compared = (hitter: string, one: Scope) => [
    () => made.parts(hitter, one),
    ...gapMeasures.map(
      ({ name }) =>
        () =>
          made.measure(hitter, one, name),
    ),
  ];
  const ranked = (one: Scope) => [measure, beyondPitch].map((name) => () => made.across(name, one));
  const seen = (hitter: string) => [
    () => made.table(hitter, scope),
    // Figures of a view are computed when they are read: what the page shows is read here.
    ...(["flip", "live"] as const).map(
      (input) => () => timingSheet(hitter, scope, [made.timing(hitter, input, scope)]),
    ),
    () => teeFacts(made.tee(hitter, scope)),
    () => flipFacts(made.flip(hitter, scope)),
    () => made.live(hitter, scope),
    ...inputs.map((input) => () => made.cells(hitter, input, scope).map(({ power_kept }) => power_kept)),
  ];
  const steps: (() => unknown)[] = [
    ...inputs.map((input) => () => made.stabilizing(input, scope)),
    ...hitters.flatMap((hitter) => [...compared(hitter, scope), ...seen(hitter)]),
    () => made.live(every, scope),
    ...ranked(scope),
    ...others.flatMap((one) => [...hitters.flatMap((hitter) => compared(hitter, one)), ...ranked(one)]),
  ];
  for (const step of steps) {
    step();
    yield;
  }
}
