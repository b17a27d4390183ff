/** The swings that a comparison is made of: chosen, with what the comparison needs of each worked out. */
import { group } from "d3-array";
import { swingPitchSpeed } from "../contact/collision.ts";
import { findLevel } from "../contact/levels.ts";
import { thresholdsFrom, type Thresholds } from "../contact/thresholds.ts";
import { cellOf } from "../field/zone.ts";
import { byName } from "../swing/byName.ts";
import type { EnrichedSwing, Hitter, Input, Session } from "../swing/fields.ts";
import { enrichedWith } from "../swing/unknown.ts";
import { conditionsOf, type Condition, type SwingScope } from "../views/filter.ts";
import { inSpan } from "../views/sessions.ts";
import type { CeilingSwings } from "./ceilingAnew.ts";

/** What a comparison needs of a library; a library opened in a page is one. */
export interface GapSource {
  readonly swings: readonly EnrichedSwing[];
  readonly sessions: readonly Session[];
  readonly hitters: readonly Hitter[];
  /** The library's own thresholds.json, parsed, or null. */
  readonly thresholds: unknown;
}

/**
 * Which swings, and which two kinds of work. A drill narrows the side, or both, that has it. What is asked of pitches narrows
 * what was pitched: a tee stays as it is, and so do flips of which nobody wrote it down.
 */
export interface GapScope extends SwingScope {
  /** Tee when not given. */
  readonly from?: Input;
  /** Live when not given. */
  readonly to?: Input;
}

/** A swing made ready. */
export interface ReadySwing extends EnrichedSwing {
  /** Pitch speed where bat meets ball, mph: 0 on a tee, null when unknown. */
  readonly plate_speed_mph: number | null;
  /** Number of the cell of the zone it was met in, 3·row + column; null when unknown. */
  readonly cell: number | null;
  /** ISO 8601 date of the session, else of the swing. */
  readonly date: string | null;
}

type More = Omit<ReadySwing, keyof EnrichedSwing>;
const readied = enrichedWith<{ -readonly [K in keyof More]: More[K] }>({
  plate_speed_mph: null,
  cell: null,
  date: null,
});

/** A library made ready: do it once, compare often. */
export interface Ready {
  readonly swings: readonly ReadySwing[];
  readonly hitters: readonly string[];
  /** The level each hitter plays at, as far as the hitters' table says. */
  readonly levels: ReadonlyMap<string, string>;
  readonly thresholds: Thresholds;
}

/**
 * Makes a library's swings ready: pitch speed at the plate, the cell of the zone by the hitter's height, the
 * batter's side from the hitters' table where the swing has none, the date.
 * @throws BadThresholds when the library's own thresholds can't be used
 * @example makeReady({ swings: [], sessions: [], hitters: [], thresholds: null }).hitters // []
 */
export function makeReady(source: GapSource): Ready {
  const thresholds = thresholdsFrom(source.thresholds);
  const sessions = new Map(source.sessions.map((s) => [s.session, s]));
  const listed = new Map(source.hitters.map((h) => [h.hitter, h]));
  const swings = source.swings.map((swing): ReadySwing => {
    const session = swing.session === null ? null : (sessions.get(swing.session) ?? null);
    const hitter = listed.get(swing.hitter);
    const side = hitter?.bats === "L" || hitter?.bats === "R" ? hitter.bats : null;
    const row = readied(swing);
    row.bats ??= side;
    const cell = cellOf(row, hitter?.height_in ?? null, thresholds);
    row.plate_speed_mph = swingPitchSpeed(swing, session, thresholds);
    row.cell = cell === null ? null : cell.row * 3 + cell.column;
    row.date = session?.date ?? swing.time?.slice(0, 10) ?? null;
    return row;
  });
  const hitters = [...new Set(swings.map((s) => s.hitter))].sort(byName);
  const levels = new Map(
    hitters.flatMap((name): [string, string][] => {
      const level = listed.get(name)?.level ?? null;
      return level === null ? [] : [[name, level]];
    }),
  );
  return { swings, hitters, levels, thresholds };
}

/**
 * The swings that meet every condition of a scope, whatever kind of work they are.
 * @example readyIn({ swings: [], hitters: [], thresholds: {} }, { pitcher: "Jory B." }) // []
 */
export function readyIn({ swings }: Pick<Ready, "swings">, scope: SwingScope): readonly ReadySwing[] {
  const { since = null, until = null } = scope;
  const conditions = conditionsOf<ReadySwing>(scope, (row) =>
    row.input === "tee" ? null : row.plate_speed_mph,
  );
  if (since === null && until === null && conditions.length === 0) return swings;
  return swings.filter((row) => inSpan(row.date, scope) && conditions.every(({ met }) => met(row)));
}

/** The two sides of a comparison. */
export interface Sides {
  readonly from: readonly ReadySwing[];
  readonly to: readonly ReadySwing[];
  /** What the hitter's ceilings were made of; without it they are taken to be given. */
  readonly ceilings?: CeilingSwings;
}

/**
 * One hitter's swings in scope, side by side.
 * @example sidesOf({ swings: [], hitters: [], thresholds: {} }, "A", {}).from // []
 */
export function sidesOf(ready: Ready, hitter: string, scope: GapScope): Sides {
  const { since = null, until = null } = scope;
  const conditions = conditionsOf<ReadySwing>(scope, (row) => row.plate_speed_mph);
  const side = (input: Input): readonly ReadySwing[] => {
    const rows = sorted(ready.swings).get(hitter)?.get(input) ?? [];
    const days = since === null && until === null ? rows : rows.filter(({ date }) => inSpan(date, scope));
    return pitchedAs(days, input, conditions);
  };
  const [from, to] = [side(scope.from ?? "tee"), side(scope.to ?? "live")];
  const ceilings: CeilingSwings = {
    rows: [...(sorted(ready.swings).get(hitter)?.values() ?? [])].flat(),
    leveled: findLevel(ready.levels?.get(hitter) ?? null) !== null,
  };
  const drill = conditions.find(({ field }) => field === "drill");
  if (drill === undefined) return { from, to, ceilings };
  const [a, b] = [from.filter(drill.met), to.filter(drill.met)];
  // A drill belongs to one kind of work as a rule: the other side then stays as it is.
  if (a.length === 0 && b.length === 0) return { from: a, to: b, ceilings };
  return { from: a.length === 0 ? from : a, to: b.length === 0 ? to : b, ceilings };
}

/**
 * The swings of one kind of work that meet what is asked of their pitches. Off a tee nothing is pitched; flips of which nobody
 * wrote down what is asked stay as they are.
 * @param rows one hitter's, of this input
 * @example pitchedAs([], "live", []) // []
 */
export function pitchedAs<R>(
  rows: readonly R[],
  input: Input,
  conditions: readonly Condition<R>[],
): readonly R[] {
  const asked = conditions.filter(
    ({ field, known }) =>
      field !== "drill" && (input === "live" || (input === "flip" && rows.some((row) => known(row)))),
  );
  return asked.length === 0 ? rows : rows.filter((row) => asked.every(({ met }) => met(row)));
}

type Sorted = ReadonlyMap<string, ReadonlyMap<Input, readonly ReadySwing[]>>;

/** A library is asked for each hitter's work many times over: its swings are sorted out once. */
const sortedOut = new WeakMap<readonly ReadySwing[], Sorted>();

function sorted(swings: readonly ReadySwing[]): Sorted {
  const known = sortedOut.get(swings);
  if (known !== undefined) return known;
  const made = group(
    swings,
    (s) => s.hitter,
    (s) => s.input,
  );
  sortedOut.set(swings, made);
  return made;
}
