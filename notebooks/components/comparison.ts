/** Every comparison of a library that a page asks for, made once and kept. The computing is in src/gap. */
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
import { makeReady, sidesOf, type Ready } from "../../src/gap/rows.ts";
import { settling, type Settling } from "../../src/gap/settling.ts";
import { inputs, type EnrichedSwing, type Input } from "../../src/swing/fields.ts";
import { flipView, type FlipView } from "../../src/views/flip.ts";
import { liveView, type LiveView } from "../../src/views/live.ts";
import { inPlay, ofInput } from "../../src/views/swings.ts";
import { teeView, type TeeView } from "../../src/views/tee.ts";
import { timingView, type TimingView } from "../../src/views/timing.ts";
import { zoneCells, type ZoneCell } from "../../src/views/zone.ts";
import type { Option } from "./choice.ts";
import { zoneFor } from "./ground.ts";
import type { PageLibrary } from "./library.ts";
import { every } from "./pick.ts";

/** Two kinds of work, and the drill that narrows them; `every` for all of the work. */
export interface Scope {
  readonly from: Input;
  readonly to: Input;
  readonly drill: string;
}

const pairs = [
  ["tee", "live", "Tee to live"],
  ["tee", "flip", "Tee to flip"],
  ["flip", "live", "Flip to live"],
] as const;

/** The pairs of kinds of work. */
export const pairOptions: readonly Option[] = pairs.map(([from, to, text]) => ({
  value: `${from}-${to}`,
  text,
}));

/** The two ends of a pair. */
export function pairOf(value: string): { from: Input; to: Input } {
  const [from, to] = pairs.find(([a, b]) => `${a}-${b}` === value) ?? pairs[0];
  return { from, to };
}

/** Every measure. */
export const measureOptions: readonly Option[] = gapMeasures.map(({ name, title }) => ({
  value: name,
  text: title,
}));

/** The three views of a hitter's swings; of all hitters' where every one is chosen. */
export interface Views {
  readonly tee: TeeView;
  readonly flip: FlipView;
  readonly live: LiveView;
  /** The balls in play of each kind of work, and the nine cells they were met in. */
  readonly balls: Readonly<Record<Input, readonly EnrichedSwing[]>>;
  readonly cells: Readonly<Record<Input, readonly ZoneCell[]>>;
}

/** What `comparisons` gives. */
export interface Comparisons {
  readonly ready: Ready;
  /** The parts of a hitter's gaps, and what to know before any figure; without the measures. */
  parts(hitter: string, scope: Scope): HitterGap;
  measure(hitter: string, scope: Scope, measure: MeasureName): MeasureGap;
  /** Every measure. */
  measures(hitter: string, scope: Scope): MeasureGap[];
  /** Every measure in each kind of work, with its own interval. */
  table(hitter: string, scope: Scope): MeasureRow[];
  across(measure: MeasureName, scope: Scope): Across;
  settling(input: Input, scope: Scope): Settling[];
  timing(hitter: string, input: "flip" | "live", scope: Scope): TimingView;
  views(hitter: string, scope: Scope): Views;
  /** What may be asked next, one comparison a step: for a page to do while nobody asks it anything. */
  ahead(scope: Scope, measure: MeasureName): Generator<void>;
}

/**
 * The comparisons of a library. Each is computed when first asked for, and only then.
 * @throws BadThresholds when the library's own thresholds can't be used
 */
export function comparisons(library: PageLibrary): Comparisons {
  const ready = makeReady(library);
  const kept = new Map<string, unknown>();
  const once = <T>(make: () => T, ...key: readonly (string | Scope)[]): T => {
    const name = JSON.stringify(key);
    if (!kept.has(name)) kept.set(name, make());
    return kept.get(name) as T;
  };
  const options = ({ from, to, drill }: Scope) => ({ from, to, drill: drill === every ? null : drill });
  const anyPair = ({ drill }: Scope): string => drill;
  const swings = (hitter: string, scope: Scope): EnrichedSwing[] =>
    (hitter === every ? ready.hitters : [hitter]).flatMap((name) =>
      inputs.flatMap((i) => sidesOf(ready, name, { ...options(scope), from: i, to: i }).from),
    );
  const made: Comparisons = {
    ready,
    parts: (hitter, scope) =>
      once(() => gap(ready, hitter, { ...options(scope), measures: [] }), "parts", hitter, scope),
    measure: (hitter, scope, name) =>
      once(
        () => measureGap(measureNamed(name), sidesOf(ready, hitter, options(scope)), ready),
        "measure",
        name,
        hitter,
        scope,
      ),
    measures: (hitter, scope) => gapMeasures.map(({ name }) => made.measure(hitter, scope, name)),
    table: (hitter, scope) =>
      once(() => measureTable(ready, hitter, options(scope)), "table", hitter, anyPair(scope)),
    across: (name, scope) => once(() => acrossHitters(ready, name, options(scope)), "across", name, scope),
    settling: (input, scope) =>
      once(() => settling(ready, input, { drill: options(scope).drill }), "settling", input, anyPair(scope)),
    timing: (hitter, input, scope) =>
      once(
        () =>
          timingView(swings(hitter, scope), input, {
            ...zoneFor(library, hitter),
            sessions: library.sessions,
            thresholds: ready.thresholds,
          }),
        "timing",
        input,
        hitter,
        anyPair(scope),
      ),
    views: (hitter, scope) =>
      once(
        () => {
          const rows = swings(hitter, scope);
          const zone = zoneFor(library, hitter);
          const each = <T>(make: (input: Input) => T) =>
            Object.fromEntries(inputs.map((input) => [input, make(input)])) as Record<Input, T>;
          const balls = each((input) => inPlay(ofInput(rows, input)));
          return {
            tee: teeView(rows, zone),
            flip: flipView(rows, zone),
            live: liveView(rows, { ...zone, sessions: library.sessions }),
            balls,
            cells: each((input) => zoneCells(balls[input], zone)),
          };
        },
        "views",
        hitter,
        anyPair(scope),
      ),
    *ahead(scope, measure) {
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
      const steps: (() => unknown)[] = [
        ...inputs.map((input) => () => made.settling(input, scope)),
        ...ready.hitters.flatMap((hitter) => [
          ...compared(hitter, scope),
          () => made.table(hitter, scope),
          ...(["flip", "live"] as const).map((input) => () => made.timing(hitter, input, scope)),
          () => made.views(hitter, scope),
        ]),
        () => made.views(every, scope),
        ...ranked(scope),
        ...others.flatMap((one) => [
          ...ready.hitters.flatMap((hitter) => compared(hitter, one)),
          ...ranked(one),
        ]),
      ];
      for (const step of steps) {
        step();
        yield;
      }
    },
  };
  return made;
}
