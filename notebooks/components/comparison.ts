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
import { thresholdsFrom, type Thresholds } from "../../src/contact/thresholds.ts";
import { gapMeasures, measureNamed, type MeasureName } from "../../src/gap/measures.ts";
import { beyondPitchOf } from "../../src/gap/parts.ts";
import { makeReady, pitchedAs, sidesOf, type Ready, type Sides } from "../../src/gap/rows.ts";
import { stabilizing, type Stabilizing } from "../../src/gap/stabilizing.ts";
import { byName } from "../../src/swing/byName.ts";
import { inputs, type EnrichedSwing, type Input } from "../../src/swing/fields.ts";
import { once } from "../../src/swing/once.ts";
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
  readonly hitters: readonly string[];
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

/** A comparison that takes a while: what it is, and what it is asked of. */
export type Ask =
  | readonly ["parts" | "table" | "tee" | "flip" | "live", hitter: string, scope: Scope]
  | readonly ["measure", hitter: string, scope: Scope, measure: MeasureName]
  | readonly ["across", measure: MeasureName, scope: Scope]
  | readonly ["stabilizing", input: Input, scope: Scope]
  | readonly ["timing", hitter: string, input: "flip" | "live", scope: Scope]
  | readonly ["live cells", hitter: string, scope: Scope];

/** What a comparison asks for in turn. */
export const asksOf = {
  measures: (hitter: string, scope: Scope): Ask[] =>
    gapMeasures.map(({ name }) => ["measure", hitter, scope, name]),
  cells: (hitter: string, input: Input, scope: Scope): Ask =>
    input === "live" ? ["live cells", hitter, scope] : [input, hitter, scope],
};

/** The answer to one. */
export function answerTo(compare: Comparisons, ask: Ask): unknown {
  switch (ask[0]) {
    case "measure":
      return compare.measure(ask[1], ask[2], ask[3]);
    case "across":
      return compare.across(ask[1], ask[2]);
    case "stabilizing":
      return compare.stabilizing(ask[1], ask[2]);
    case "timing":
      return compare.timing(ask[1], ask[2], ask[3]);
    case "live cells":
      return compare.cells(ask[1], "live", ask[2]);
    default:
      return compare[ask[0]](ask[1], ask[2]);
  }
}

/** What `comparisons` gives. */
export interface Comparisons extends Gaps, Views {
  /** Whether it has been computed. */
  has(ask: Ask): boolean;
  /** Takes what was computed elsewhere. */
  put(ask: Ask, answer: unknown): void;
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
  const thresholds = thresholdsFrom(library.thresholds);
  const kept = memory();
  // One hitter's swings are made ready without those of all others, which many a page never asks for.
  const all = once(() => makeReady(library));
  const own = (hitter: string): Ready =>
    kept.also(() => makeReady({ ...library, swings: pick(library, { hitter }) }), "ready", hitter);
  const ready: ReadyOf = (hitter) => (hitter === every ? all() : own(hitter));
  const gaps = gapsOf(library, ready, kept);
  const made = { ...gaps, ...viewsOf(library, thresholds, ready, gaps.hitters, kept) };
  return { ...made, has: kept.has, put: kept.put, ahead: (scope, measure) => ahead(made, scope, measure) };
}

/** The swings made ready: a hitter's, or all. */
type ReadyOf = (hitter: string) => Ready;

/** What was computed, by what was asked. */
interface Memory {
  has(ask: Ask): boolean;
  put(ask: Ask, answer: unknown): void;
  /** Makes it when it is asked for the first time. */
  first<T>(make: () => T, ...ask: Ask): T;
  /** The same of what no other thread is asked for. */
  also<T>(make: () => T, ...what: readonly unknown[]): T;
}

/** What is the same whatever pair is compared. */
const anyPair = ({ from: _, to: __, ...scope }: Scope): Omit<Scope, "from" | "to"> => scope;

const isOfAPair = ([what]: Ask): boolean => what === "parts" || what === "measure" || what === "across";

const keyOf = (ask: Ask): string =>
  JSON.stringify(
    ask,
    isOfAPair(ask)
      ? undefined
      : (_, value: unknown) =>
          typeof value === "object" && value !== null && "from" in value ? anyPair(value as Scope) : value,
  );

function memory(): Memory {
  const kept = new Map<string, unknown>();
  const under = <T>(key: string, make: () => T): T => {
    if (!kept.has(key)) kept.set(key, make());
    return kept.get(key) as T;
  };
  return {
    has: (ask) => kept.has(keyOf(ask)),
    put: (ask, answer) => void kept.set(keyOf(ask), answer),
    first: (make, ...ask) => under(keyOf(ask), make),
    also: (make, ...what) => under(JSON.stringify(["also", ...what]), make),
  };
}

function gapsOf(library: PageLibrary, ready: ReadyOf, { has, first, also }: Memory): Gaps {
  const sides = (hitter: string, scope: Scope): Sides =>
    also(() => sidesOf(ready(hitter), hitter, scope), "sides", hitter, scope);
  /** Of the parts where the page shows them; else alone. */
  const beyond = (hitter: string, scope: Scope): ReturnType<typeof beyondPitchOf> =>
    has(["parts", hitter, scope])
      ? gaps.parts(hitter, scope).exitVelocity
      : also(() => beyondPitchOf(sides(hitter, scope), ready(hitter)), "beyond the pitch", hitter, scope);
  const gaps: Gaps = {
    hitters: [...new Set(library.swings.map(({ hitter }) => hitter))].sort(byName),
    parts: (hitter, scope) =>
      first(() => gap(ready(hitter), hitter, { ...scope, measures: [] }), "parts", hitter, scope),
    measure: (hitter, scope, name) =>
      first(
        () => measureGap(measureNamed(name), sides(hitter, scope), ready(hitter)),
        "measure",
        hitter,
        scope,
        name,
      ),
    measures: (hitter, scope) => gapMeasures.map(({ name }) => gaps.measure(hitter, scope, name)),
    table: (hitter, scope) => first(() => measureTable(ready(hitter), hitter, scope), "table", hitter, scope),
    across: (name, scope) =>
      first(
        () =>
          acrossHitters(ready(every), name, scope, {
            measure: (hitter) => gaps.measure(hitter, scope, name),
            split: (hitter) => beyond(hitter, scope),
          }),
        "across",
        name,
        scope,
      ),
    stabilizing: (input, scope) =>
      first(() => stabilizing(ready(every), input, scope), "stabilizing", input, scope),
  };
  return gaps;
}

function viewsOf(
  library: PageLibrary,
  thresholds: Thresholds,
  ready: ReadyOf,
  hitters: readonly string[],
  { first, also }: Memory,
): Views {
  const swings = (hitter: string, scope: Scope): EnrichedSwing[] =>
    (hitter === every ? hitters : [hitter]).flatMap((name) =>
      inputs.flatMap((i) => sidesOf(ready(hitter), name, { ...scope, from: i, to: i }).from),
    );
  const known = { sessions: library.sessions, thresholds };
  const zone = (hitter: string): ZoneOptions => zoneFor(library, hitter);
  const views: Views = {
    timing: (hitter, input, scope) =>
      first(
        () => timingView(swings(hitter, scope), input, { ...zone(hitter), ...known }),
        "timing",
        hitter,
        input,
        scope,
      ),
    tee: (hitter, scope) => first(() => teeView(swings(hitter, scope), zone(hitter)), "tee", hitter, scope),
    flip: (hitter, scope) =>
      first(() => flipView(swings(hitter, scope), zone(hitter)), "flip", hitter, scope),
    live: (hitter, scope) =>
      first(() => liveView(swings(hitter, scope), { ...zone(hitter), ...known }), "live", hitter, scope),
    balls: (hitter, input, scope) =>
      also(
        () =>
          inPlay(
            hitter === every
              ? ofInput(swings(hitter, scope), input)
              : sidesOf(ready(hitter), hitter, { ...scope, from: input, to: input }).from,
          ),
        "balls",
        hitter,
        input,
        anyPair(scope),
      ),
    cells: (hitter, input, scope) =>
      input === "live"
        ? first(
            () => zoneCells(ofInput(swings(hitter, scope), "live"), zone(hitter)),
            "live cells",
            hitter,
            scope,
          )
        : views[input](hitter, scope).cells,
  };
  return views;
}

/** Every comparison that a page in this scope may ask for, the likeliest first. */
function* ahead(made: Gaps & Views, scope: Scope, measure: MeasureName): Generator<void> {
  const { hitters } = made;
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
