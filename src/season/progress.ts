/**
 * What has changed over a season: each measure's line through a hitter's sessions, for each kind of work, with the pitch
 * and the air taken out; and which of those lines may be put into a sentence.
 */
import { withoutDoubtful } from "../contact/flags.ts";
import { findLevel, levelBand } from "../contact/levels.ts";
import { thresholdsFrom, type Thresholds } from "../contact/thresholds.ts";
import { fewestDays } from "../stats/dayChange.ts";
import { chanceAllowed, holmWeighted } from "../stats/holm.ts";
import { sessionTrend, theilSen } from "../stats/sessionTrend.ts";
import { inputs, type Input } from "../swing/fields.ts";
import { rowsInScope, type SwingScope } from "../views/filter.ts";
import { sessionsInOrder, type SessionSwings } from "../views/sessions.ts";
import { ofInput } from "../views/swings.ts";
import type { UnitName } from "../units/index.ts";
import type { GapSource } from "../gap/rows.ts";
import { evened, type EvenedSwing } from "./evened.ts";
import { seasonMeasures, topMeasure, type SeasonMeasure } from "./measures.ts";
import { sessionFigures, type SessionFigure } from "./sessionFigures.ts";

/** What a season is made of: what a comparison is; a library opened in a page is one. */
export type SeasonSource = GapSource;

/** Which of a hitter's swings. */
export type SeasonScope = SwingScope;

/** Where a line stands, with its interval. */
export interface LineAt {
  readonly weeks: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A change over the whole span, with its interval; null where there is none. */
export interface SpanChange {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** One measure of one kind of work over the sessions. */
export interface TrendLine {
  readonly measure: string;
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down" | null;
  /** Null: all kinds of work together. */
  readonly input: Input | null;
  readonly first: boolean;
  readonly sessions: readonly SessionFigure[];
  /** Weeks from the first of the sessions to the last. */
  readonly weeks: number;
  /** By how much the line rises over those weeks. */
  readonly change: SpanChange & { readonly p: number | null };
  /** The same by the median of the slopes between any two sessions, which no single session can pull. */
  readonly second: SpanChange;
  /** The line along the weeks; none without a change. */
  readonly line: readonly LineAt[];
  /** How much one swing differs within a day and days about the line: standard deviations; null where unknown. */
  readonly swing_sd: number | null;
  readonly day_sd: number | null;
  /** Whether its own interval leaves 0 out. */
  readonly marked: boolean;
  /** Whether it stands with all of the hitter's lines looked at together: only then it may be put in a sentence. */
  readonly stands: boolean;
  /** Which way, where it stands. */
  readonly verdict: "improving" | "declining" | "higher" | "lower" | null;
  /** Why there is no change to give. */
  readonly reason: string | null;
}

/** A hitter's season. */
export interface HitterProgress {
  readonly hitter: string;
  readonly level: string | null;
  /** Swings, dated sessions, and the weeks from the first of them to the last. */
  readonly swings: number;
  readonly sessions: number;
  readonly weeks: number;
  /** Readings in doubt that are in no figure, and sessions without a date, which are in no line. */
  readonly left_out: number;
  readonly without_date: readonly string[];
  readonly lines: readonly TrendLine[];
  /** The top of the hitter's speeds at like angles, all work together, and what the level makes one expect. */
  readonly ceiling: TrendLine & { readonly band: { readonly low: number; readonly high: number } | null };
}

/** Sessions of a kind of work from which on a change may be told: the latest, and those that show how days differ. */
export const fewestSessions = fewestDays + 1;

/** Weeks that a trend takes: within fewer, a good spell would be read as one. A judgement. */
const fewestWeeks = 2;

/**
 * Share of the chance allowed that is kept for the first measure's lines, so that looking at the others as well costs it
 * little. A judgement, fixed beforehand.
 */
const shareOfFirst = 0.8;

/** Points that a line is drawn through. */
const linePoints = 24;

/**
 * One hitter's season. A line is marked where its own 95 % interval leaves 0 out; it stands, and may be told, after Holm
 * over all of the hitter's lines, the first measure's having most of the chance allowed.
 * @param source the whole library, enriched
 * @example progress({ swings: [], sessions: [], hitters: [], thresholds: null }, "A").lines.length // 0
 */
export function progress(source: SeasonSource, hitter: string, scope: SeasonScope = {}): HitterProgress {
  const thresholds = thresholdsFrom(source.thresholds);
  const all = source.swings.filter((row) => row.hitter === hitter);
  const { kept, leftOut } = withoutDoubtful(all);
  const own = rowsInScope(evened(kept, source.sessions, thresholds), source, scope);
  const ordered = sessionsInOrder(own, source.sessions);
  const dates = ordered.flatMap(({ date }) => date ?? []);
  const judged = standingOf(
    inputs.flatMap((input) => {
      const rows = ofInput(own, input);
      return rows.length === 0 ? [] : followed(sessionsInOrder(rows, source.sessions), input, thresholds);
    }),
  );
  const level = findLevel(source.hitters.find((h) => h.hitter === hitter)?.level ?? null);
  return {
    hitter,
    level: level?.name ?? null,
    swings: own.length,
    sessions: dates.length,
    weeks: dates.length === 0 ? 0 : weeksBetween(dates[0]!, dates.at(-1)!),
    left_out: leftOut,
    without_date: ordered.flatMap(({ session, date }) => (date === null ? [session] : [])),
    lines: judged,
    ceiling: {
      ...trendOf(ordered, topMeasure, null, thresholds),
      band: level === null ? null : levelBand(level),
    },
  };
}

const weeksBetween = (from: string, to: string): number =>
  (Date.parse(to) - Date.parse(from)) / (7 * 86_400_000);

const followed = (
  days: readonly SessionSwings<EvenedSwing>[],
  input: Input,
  thresholds: Thresholds,
): TrendLine[] => seasonMeasures.map((measure) => trendOf(days, measure, input, thresholds));

/** One measure's line, not yet held against the others. */
export function trendOf(
  days: readonly SessionSwings<EvenedSwing>[],
  measure: SeasonMeasure,
  input: Input | null,
  thresholds: Thresholds,
): TrendLine {
  const { figures, swing } = sessionFigures(days, measure, thresholds);
  const weeks = figures.at(-1)?.weeks ?? 0;
  const { name, title, unit, better, first } = measure;
  const none: TrendLine = {
    measure: name,
    title,
    unit,
    better,
    input,
    first,
    sessions: figures,
    weeks,
    change: { value: null, low: null, high: null, p: null },
    second: { value: null, low: null, high: null },
    line: [],
    swing_sd: swing?.sd ?? null,
    day_sd: null,
    marked: false,
    stands: false,
    verdict: null,
    reason: null,
  };
  const k = figures.length;
  if (k < fewestSessions)
    return {
      ...none,
      reason: `${k === 0 ? "no session" : k === 1 ? "1 session" : `${k} sessions`} with enough swings: it takes ${fewestSessions}`,
    };
  if (weeks < fewestWeeks)
    return { ...none, reason: `all within ${Math.round(weeks * 7) + 1} days: it takes ${fewestWeeks} weeks` };
  if (swing === null) return { ...none, reason: "the same on every swing" };
  const points = figures.map((f) => ({ x: f.weeks, value: f.value, variance: f.variance }));
  const line = sessionTrend(points)!;
  const pairs = theilSen(
    figures.map((f) => f.weeks),
    figures.map((f) => f.value),
  );
  const over = (slope: number | null): number | null => (slope === null ? null : slope * weeks);
  return {
    ...none,
    change: { value: line.slope * weeks, low: line.low * weeks, high: line.high * weeks, p: line.p },
    second: {
      value: over(pairs?.slope ?? null),
      low: over(pairs?.low ?? null),
      high: over(pairs?.high ?? null),
    },
    line: Array.from({ length: linePoints + 1 }, (_, i) => {
      const at = (i / linePoints) * weeks;
      return { weeks: at, ...line.at(at) };
    }),
    day_sd: Math.sqrt(line.tau2),
    marked: line.p < chanceAllowed,
  };
}

/** The lines with which of them stand. */
function standingOf(lines: readonly TrendLine[]): TrendLine[] {
  const looked = lines.filter((l) => l.change.p !== null);
  const firsts = looked.filter((l) => l.first).length;
  const others = looked.length - firsts;
  const adjusted = holmWeighted(
    looked.map((l) => l.change.p!),
    looked.map((l) => (l.first ? shareOfFirst / firsts : (1 - shareOfFirst) / others)),
  );
  const stands = new Set(looked.filter((_, i) => adjusted[i]! < chanceAllowed));
  return lines.map((line) => {
    if (!stands.has(line)) return line;
    const up = line.change.value! > 0;
    const verdict =
      line.better === null
        ? up
          ? ("higher" as const)
          : ("lower" as const)
        : up === (line.better === "up")
          ? ("improving" as const)
          : ("declining" as const);
    return { ...line, stands: true, verdict };
  });
}

/**
 * The seasons of a group, with which lines stand of all hitters' looked at together: what a sentence about the group may name.
 * @example judgedTogether([]) // []
 */
export function judgedTogether(all: readonly HitterProgress[]): HitterProgress[] {
  const judged = standingOf(
    all.flatMap(({ lines }) => lines.map((line) => ({ ...line, stands: false, verdict: null }))),
  );
  let from = 0;
  return all.map((one) => {
    const lines = judged.slice(from, from + one.lines.length);
    from += one.lines.length;
    return { ...one, lines };
  });
}

/**
 * The lines that stand, the one to be told first: the first measure's before others, then the likeliest.
 * @example standingLines([]) // []
 */
export function standingLines(lines: readonly TrendLine[]): TrendLine[] {
  return lines
    .filter((l) => l.stands)
    .sort((a, b) => Number(b.first) - Number(a.first) || a.change.p! - b.change.p!);
}
