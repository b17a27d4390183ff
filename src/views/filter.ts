/**
 * One filter for every page and command: whose swings, of which session, input, drill and days, which pitches, and whether
 * readings in doubt count. It is written into an address and read from one, and applied to swings; what is said of it stands
 * in `sentences/filter.ts`.
 */
import { swingPitchSpeed } from "../contact/collision.ts";
import { isDoubtful } from "../contact/flags.ts";
import { thresholdsFrom } from "../contact/thresholds.ts";
import { byName } from "../swing/byName.ts";
import { inputs, type EnrichedSwing, type Input, type Session } from "../swing/fields.ts";
import { bandOf, speedBand_mph } from "./live.ts";
import { rowsInSpan, type Span } from "./sessions.ts";
import { BadSpan, latestDay, spanNamed } from "./spans.ts";

/** Pitch speeds where bat meets ball, from low up to, not including, high, mph. */
export interface SpeedBand {
  readonly low: number;
  readonly high: number;
}

/** Which pitches, and which drill: what a swing has or lacks by itself. Null or absent: any. */
export interface SwingConditions {
  readonly drill?: string | null;
  readonly pitch_type?: string | null;
  readonly pitch_speed_mph?: SpeedBand | null;
  readonly pitcher?: string | null;
}

/** Which of a hitter's swings, the days as dates. */
export interface SwingScope extends SwingConditions, Span {}

/** All that can be chosen; null, and no `dates`, for any. */
export interface SwingFilter {
  readonly hitter: string | null;
  readonly session: string | null;
  readonly input: Input | null;
  readonly drill: string | null;
  /** As `spanNamed` takes them: a named span, or a first and a last day. */
  readonly dates: string;
  readonly pitch_type: string | null;
  readonly pitch_speed_mph: SpeedBand | null;
  readonly pitcher: string | null;
  /** Whether readings in doubt are left out. */
  readonly without_flagged: boolean;
}

/** The filter that leaves nothing out. */
export const noFilter: SwingFilter = {
  hitter: null,
  session: null,
  input: null,
  drill: null,
  dates: "",
  pitch_type: null,
  pitch_speed_mph: null,
  pitcher: null,
  without_flagged: false,
};

/** What can be chosen, by its name in an address. */
export const filterKeys = {
  hitter: "hitter",
  session: "session",
  input: "input",
  drill: "drill",
  dates: "dates",
  pitch_type: "pitch-type",
  pitch_speed_mph: "pitch-speed",
  pitcher: "pitcher",
  without_flagged: "flagged",
} as const satisfies Record<keyof SwingFilter, string>;
export type FilterField = keyof SwingFilter;

/** A text that no band of pitch speeds is written as. */
export class BadBand extends Error {
  override readonly name = "BadBand";
}

/**
 * A band as an address and a call write it.
 * @example bandText({ low: 70, high: 80 }) // "70-80"
 */
export const bandText = ({ low, high }: SpeedBand): string => `${low}-${high}`;

/**
 * The band that a text means, in mph at the plate.
 * @throws BadBand when it means none
 * @example bandNamed("70-80") // { low: 70, high: 80 }
 */
export function bandNamed(text: string): SpeedBand {
  const [, a, b] = /^\s*(\d{1,3}(?:\.\d+)?)\s*(?:-|–|to)\s*(\d{1,3}(?:\.\d+)?)\s*$/.exec(text) ?? [];
  if (a === undefined || b === undefined)
    throw new BadBand(`pitch speeds are two numbers of mph as in 70-80, not ${JSON.stringify(text)}`);
  const [low, high] = [Number(a), Number(b)];
  if (low >= high) throw new BadBand(`of pitch speeds the lower comes first, as in 70-80, not ${a}-${b}`);
  return { low, high };
}

/**
 * The band of the live view that a speed at the plate lies in.
 * @example bandAround(83) // { low: 80, high: 90 }
 */
export const bandAround = (speed_mph: number): SpeedBand => ({
  low: bandOf(speed_mph),
  high: bandOf(speed_mph) + speedBand_mph,
});

/** One field of a filter as an address writes it; empty where nothing is chosen. */
export function chosenText(filter: SwingFilter, field: FilterField): string {
  const value = filter[field];
  if (value === null || value === false) return "";
  if (value === true) return "yes";
  return typeof value === "string" ? value : bandText(value);
}

/**
 * The filter that an address holds. What can't be read is told, a sentence each, and leaves nothing out.
 * @example filterFrom(new URLSearchParams("input=tee&dates=week")).filter.input // "tee"
 * @example filterFrom(new URLSearchParams("pitch-speed=fast")).troubles // ["The address asks for pitch-speed=fast, but pitch speeds are two numbers of mph as in 70-80, not \"fast\"; all are shown."]
 */
export function filterFrom(params: Pick<URLSearchParams, "get">): {
  filter: SwingFilter;
  troubles: string[];
} {
  const troubles: string[] = [];
  const text = (field: FilterField): string => params.get(filterKeys[field]) ?? "";
  const named = (field: FilterField): string | null => (text(field) === "" ? null : text(field));
  const read = <T>(field: FilterField, none: T, of: (given: string) => T): T => {
    if (text(field) === "") return none;
    try {
      return of(text(field));
    } catch (error) {
      if (!(error instanceof BadSpan || error instanceof BadBand || error instanceof BadInput)) throw error;
      troubles.push(
        `The address asks for ${filterKeys[field]}=${text(field)}, but ${error.message}; all are shown.`,
      );
      return none;
    }
  };
  const filter: SwingFilter = {
    hitter: named("hitter"),
    session: named("session"),
    input: read<Input | null>("input", null, inputNamed),
    drill: named("drill"),
    dates: read("dates", "", (given) => (spanNamed(given, null), given)),
    pitch_type: named("pitch_type"),
    pitch_speed_mph: read<SpeedBand | null>("pitch_speed_mph", null, bandNamed),
    pitcher: named("pitcher"),
    without_flagged: text("without_flagged") === "yes",
  };
  return { filter, troubles };
}

class BadInput extends Error {}

function inputNamed(text: string): Input {
  const found = inputs.find((input) => input === text);
  if (found === undefined) throw new BadInput(`a ball comes by ${inputs.join(", ")}`);
  return found;
}

/** What a filter is applied with: where pitch speeds were measured, and when sessions took place. */
export interface FilterSource {
  readonly sessions: readonly Pick<Session, "session" | "date" | "pitch_speed_at">[];
  /** The library's own thresholds.json, parsed, or null. */
  readonly thresholds: unknown;
}

type Row = Pick<EnrichedSwing, "hitter" | "session" | "time" | "input" | "drill"> &
  Pick<EnrichedSwing, "pitch_type" | "pitch_speed_mph" | "pitcher" | "flags">;

/**
 * What gives a swing's pitch speed where bat meets ball, mph; null where it wasn't measured, and on a tee, where there is
 * no pitch.
 * @throws BadThresholds when the library's own thresholds can't be used
 * @example plateSpeeds({ sessions: [], thresholds: null })({ input: "live", session: null, pitch_speed_mph: 82 }) // 82
 * @example plateSpeeds({ sessions: [], thresholds: null })({ input: "tee", session: null, pitch_speed_mph: null }) // null
 */
export function plateSpeeds({
  sessions,
  thresholds,
}: FilterSource): (row: Pick<Row, "input" | "session" | "pitch_speed_mph">) => number | null {
  const known = new Map(sessions.map((one) => [one.session, one]));
  const figures = thresholdsFrom(thresholds);
  return (row) =>
    row.input === "tee" ? null : swingPitchSpeed(row, known.get(row.session ?? "") ?? null, figures);
}

/** One condition: whether a swing has what it asks about, and whether it meets it. */
export interface Condition<R> {
  readonly field: keyof SwingConditions;
  readonly known: (row: R) => boolean;
  readonly met: (row: R) => boolean;
}

/**
 * Drill, pitch type, pitch speed and pitcher as conditions, those that are set alone.
 * @param speedOf a swing's pitch speed at the plate, mph; null where there is none
 */
export function conditionsOf<R extends Pick<Row, "drill" | "pitch_type" | "pitcher">>(
  { drill = null, pitch_type = null, pitch_speed_mph: band = null, pitcher = null }: SwingConditions,
  speedOf: (row: R) => number | null,
): Condition<R>[] {
  const named = (field: "drill" | "pitch_type" | "pitcher", wanted: string | null): Condition<R> | null =>
    wanted === null
      ? null
      : { field, known: (row) => row[field] !== null, met: (row) => row[field] === wanted };
  const fast = (row: R): boolean => {
    const speed = speedOf(row);
    return band !== null && speed !== null && speed >= band.low && speed < band.high;
  };
  const all = [
    named("drill", drill),
    named("pitch_type", pitch_type),
    band === null
      ? null
      : { field: "pitch_speed_mph" as const, known: (row: R) => speedOf(row) !== null, met: fast },
    named("pitcher", pitcher),
  ];
  return all.filter((one) => one !== null);
}

/**
 * The swings of a scope: those days', that drill's, those pitches'.
 * @example rowsInScope([{ session: null, time: null, input: "live", drill: null, pitch_type: "slider", pitch_speed_mph: 78, pitcher: null }], { sessions: [], thresholds: null }, { pitch_type: "fastball" }) // []
 */
export function rowsInScope<R extends Omit<Row, "hitter" | "flags">>(
  rows: readonly R[],
  source: FilterSource,
  scope: SwingScope,
): R[] {
  // Most scopes ask for no speed, and then no threshold is read.
  const speedOf = scope.pitch_speed_mph == null ? () => null : plateSpeeds(source);
  const conditions = conditionsOf<R>(scope, speedOf);
  const days = rowsInSpan(rows, source.sessions, scope);
  return conditions.length === 0 ? [...days] : days.filter((row) => conditions.every(({ met }) => met(row)));
}

/** A library to filter. */
export interface FilterLibrary<R extends Row = EnrichedSwing> extends FilterSource {
  readonly swings: readonly R[];
}

/**
 * A filter's scope: its named days as dates, counted from the library's last day.
 * @param latest from `latestDay`
 * @example scopeOf({ ...noFilter, dates: "week" }, "2025-04-12").since // "2025-04-07"
 */
export function scopeOf(filter: SwingFilter, latest: string | null): SwingScope & Required<Span> {
  const { drill, pitch_type, pitch_speed_mph, pitcher, dates } = filter;
  return { drill, pitch_type, pitch_speed_mph, pitcher, ...spanNamed(dates, latest) };
}

/**
 * The swings that a filter leaves, in the library's order.
 * @throws BadThresholds when a pitch speed is asked for and the library's own thresholds can't be used
 * @example filtered({ swings: [], sessions: [], thresholds: null }, noFilter) // []
 */
export function filtered<R extends Row>(library: FilterLibrary<R>, filter: SwingFilter): R[] {
  const { hitter, session, input, without_flagged } = filter;
  const own = library.swings.filter(
    (row) =>
      (hitter === null || row.hitter === hitter) &&
      (session === null || row.session === session) &&
      (input === null || row.input === input) &&
      !(without_flagged && isDoubtful(row)),
  );
  const latest = filter.dates === "" ? null : latestDay(library.swings, library.sessions);
  return rowsInScope(own, library, scopeOf(filter, latest));
}

/** What is chosen beyond whose swings they are. */
const narrowing = (Object.keys(filterKeys) as FilterField[]).filter((field) => field !== "hitter");

/** What is chosen in a filter, the hitter left out. */
export const chosenIn = (filter: SwingFilter): FilterField[] =>
  narrowing.filter((field) => chosenText(filter, field) !== "");

/** How many swings there would be without one of the things that are chosen. */
export interface Widening {
  readonly field: FilterField;
  readonly n: number;
}

/**
 * What to widen where a filter leaves no swing: each thing that is chosen and without which there would be some, the one
 * with most swings first.
 * @example widenings({ swings: [], sessions: [], thresholds: null }, { ...noFilter, dates: "week" }) // []
 */
export function widenings<R extends Row>(library: FilterLibrary<R>, filter: SwingFilter): Widening[] {
  return chosenIn(filter)
    .map((field) => ({ field, n: filtered(library, { ...filter, [field]: noFilter[field] }).length }))
    .filter(({ n }) => n > 0)
    .sort((a, b) => b.n - a.n);
}

/** A value that some swings have, and how many. */
export interface Offered<T = string> {
  readonly value: T;
  readonly n: number;
}

/** What can be chosen among some swings: only what one of them has. */
export interface Offers {
  /** In the order tee, flip, live. */
  readonly inputs: readonly Offered<Input>[];
  /** In the order of first sight. */
  readonly drills: readonly Offered[];
  /** Most thrown first. */
  readonly pitch_types: readonly Offered[];
  /** The live view's bands, slowest first. */
  readonly pitch_speeds: readonly Offered<SpeedBand>[];
  /** Most thrown first. */
  readonly pitchers: readonly Offered[];
  readonly flagged: number;
}

/**
 * What some swings have to choose from.
 * @throws BadThresholds when the library's own thresholds can't be used
 * @example offersOf([], { sessions: [], thresholds: null }).pitchers // []
 */
export function offersOf(rows: readonly Row[], source: FilterSource): Offers {
  const speedOf = plateSpeeds(source);
  const most = (list: Offered[]): Offered[] => list.sort((a, b) => b.n - a.n || byName(a.value, b.value));
  const bands = tally(rows.map(speedOf).map((speed) => (speed === null ? null : bandOf(speed))));
  return {
    inputs: inputs
      .map((value) => ({ value, n: rows.filter((row) => row.input === value).length }))
      .filter(({ n }) => n > 0),
    drills: tally(rows.map((row) => row.drill)),
    pitch_types: most(tally(rows.map((row) => row.pitch_type))),
    pitch_speeds: bands
      .sort((a, b) => a.value - b.value)
      .map(({ value, n }) => ({ value: bandAround(value), n })),
    pitchers: most(tally(rows.map((row) => row.pitcher))),
    flagged: rows.filter(isDoubtful).length,
  };
}

/** Each known value with how often it occurs, in the order of first sight. */
function tally<T>(values: readonly (T | null)[]): Offered<T>[] {
  const counts = new Map<T, number>();
  for (const value of values) if (value !== null) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].map(([value, n]) => ({ value, n }));
}
