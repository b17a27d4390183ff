/**
 * Whether a drill's work shows: its target met more often from session to session, and live balls in the cells of the zone
 * that it works on hit harder the more of its work is done, by more than in the other cells: a hitter who gets stronger hits
 * harder everywhere, and no drill shows by that. Both stand only together with all of a hitter's drills.
 */
import { withoutDoubtful } from "../contact/flags.ts";
import { thresholdsFrom } from "../contact/thresholds.ts";
import { cellOf } from "../field/zone.ts";
import { standing } from "../stats/holm.ts";
import { sessionTrend } from "../stats/sessionTrend.ts";
import type { Target } from "../swing/fields.ts";
import { rowsInScope } from "../views/filter.ts";
import { sessionsInOrder, type SessionSwings } from "../views/sessions.ts";
import { largest, smallest } from "../swing/lists.ts";
import { inPlay } from "../views/swings.ts";
import { meetsTarget } from "../views/target.ts";
import { evened, withLikeAngle, type EvenedSwing } from "./evened.ts";
import { upperHalf, type SeasonMeasure } from "./measures.ts";
import { fewestSessions, trendOf, type SeasonScope, type SeasonSource, type TrendLine } from "./progress.ts";

/** A drill over the sessions. */
export interface DrillWork {
  readonly drill: string;
  /** Share of its swings that met the target, session by session. */
  readonly met: TrendLine;
  /** Live balls in the cells where the drill's balls were met, against those elsewhere; null where no contact point is known. */
  readonly live: LiveContrast | null;
  /** Cells of the zone that the drill works on, 3·row + column. */
  readonly cells: readonly number[];
}

/**
 * A difference of differences: how far live balls in the drill's cells gain on those in the other cells, from the live session
 * that has the least of the drill's swings before it to the one that has the most.
 */
export interface LiveContrast {
  /** mph of the exit velocity's better half, with its 95 % interval, sessions counted; null where there is none. */
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly p: number | null;
  /** Shares of the drill's swings that were hit before the first and the last of those sessions. */
  readonly work: readonly [number, number] | null;
  /** Sessions and balls with enough of both kinds of cells, before and after half of the drill's swings. */
  readonly before: LiveSide;
  readonly after: LiveSide;
  /** Whether it stands with all of the hitter's drills looked at together, as a gain: only then the work is said to show. */
  readonly shows: boolean;
  /** Why there is no difference to give. */
  readonly reason: string | null;
}

/** Live sessions on one side of the half of a drill's work. */
export interface LiveSide {
  readonly sessions: number;
  readonly n: number;
}

/** Sessions that each side takes: one alone can't be told from its day. */
const fewestOfSide = 2;

/** Balls that a session takes in the drill's cells, and elsewhere: what single ones differ by is known from all. A judgement. */
const fewestOfKind = 2;

/** A cell belongs to a drill where at least this share of its balls were met there. A judgement. */
const shareOfCell = 0.1;

/**
 * Each drill with a target that the hitter swung at.
 * @param source the whole library, enriched
 * @example drillWork({ swings: [], sessions: [], hitters: [], thresholds: null }, [], "A") // []
 */
export function drillWork(
  source: SeasonSource,
  targets: readonly Target[],
  hitter: string,
  scope: SeasonScope = {},
): DrillWork[] {
  const thresholds = thresholdsFrom(source.thresholds);
  const { kept } = withoutDoubtful(source.swings.filter((s) => s.hitter === hitter));
  const own = rowsInScope(evened(kept, source.sessions, thresholds), source, scope);
  // A target is of what was hit, the pitch's part in it.
  const plain = rowsInScope(kept.map(withLikeAngle), source, scope);
  const height = source.hitters.find((h) => h.hitter === hitter)?.height_in ?? null;
  const cell = (row: EvenedSwing): number | null => {
    const at = cellOf(row, height, thresholds);
    return at === null ? null : at.row * 3 + at.column;
  };
  const work = targets.flatMap((target): DrillWork[] => {
    const rows = plain.filter((r) => r.drill === target.drill);
    if (target.drill === null || rows.length === 0) return [];
    const input = rows[0]!.input;
    const met: SeasonMeasure = {
      name: "target_met",
      title: `Target met, ${target.drill}`,
      unit: "share",
      better: "up",
      kind: "share",
      first: false,
      values: (some) =>
        some.flatMap((row) => {
          const hit = meetsTarget(row, target);
          return hit === null ? [] : [Number(hit)];
        }),
    };
    const places = rows.flatMap((r) => cell(r) ?? []);
    const cells = [...new Set(places)]
      .filter((c) => places.filter((p) => p === c).length >= shareOfCell * places.length)
      .sort((a, b) => a - b);
    const done = workBefore(sessionsInOrder(rows, source.sessions));
    const live = inPlay(own).filter(
      (r) => r.input === "live" && cell(r) !== null && r.like_angle_mph !== null,
    );
    return [
      {
        drill: target.drill,
        met: trendOf(sessionsInOrder(rows, source.sessions), met, input, thresholds),
        live:
          input === "live" || cells.length === 0
            ? null
            : contrastOf(sessionsInOrder(live, source.sessions), (r) => cells.includes(cell(r)!), done),
        cells,
      },
    ];
  });
  const looked = work.flatMap(({ met, live }) => [met.change.p, live?.p ?? null]);
  const stands = standing(looked.filter((p) => p !== null));
  // A line's place among those that have a p-value.
  const at = (i: number): boolean =>
    looked[i] !== null && stands[looked.slice(0, i).filter((p) => p !== null).length]!;
  return work.map(({ met, live, ...one }, i): DrillWork => ({
    ...one,
    met: at(2 * i)
      ? { ...met, stands: true, verdict: met.change.value! > 0 ? "improving" : "declining" }
      : met,
    live: live === null ? null : { ...live, shows: at(2 * i + 1) && live.value! > 0 },
  }));
}

/** The share of some swings that was hit before a day: an evening's live balls don't count that evening's work. */
function workBefore(days: readonly SessionSwings<EvenedSwing>[]): (day: string) => number {
  const dated = days.flatMap(({ date, rows }) => (date === null ? [] : [{ date, n: rows.length }]));
  const all = dated.reduce((sum, { n }) => sum + n, 0);
  return (day) => (all === 0 ? 0 : dated.reduce((sum, { date, n }) => sum + (date < day ? n : 0), 0) / all);
}

/**
 * Each session's figure here less elsewhere, along how much of the work was done before it: what differs from day to day is in both of a
 * session's figures and drops out. The better half is that of all balls here, or elsewhere, before or after the half, so that few balls a session do,
 * and what raises all balls alike raises all figures alike. A random-effects regression, so that its
 * interval comes from how far sessions lie apart.
 */
function contrastOf(
  days: readonly SessionSwings<EvenedSwing>[],
  isHere: (row: EvenedSwing) => boolean,
  done: (day: string) => number,
): LiveContrast {
  const dated = days.flatMap(({ date, rows }) => (date === null ? [] : [{ date, rows }]));
  const sideOf = (date: string): 0 | 1 => (done(date) > 0.5 ? 1 : 0);
  const kinds = [true, false].map((here) => {
    const values = dated.map(({ rows }) =>
      rows.filter((r) => isHere(r) === here).map((r) => r.like_angle_mph!),
    );
    const scored = values.map((): number[] => []);
    for (const side of [0, 1]) {
      const some = values.flatMap((own, i) => (sideOf(dated[i]!.date) === side ? [{ i, own }] : []));
      const upper = upperHalf(some.flatMap(({ own }) => own));
      let from = 0;
      for (const { i, own } of some) scored[i] = upper.slice(from, (from += own.length));
    }
    const figures = scored.map((some) => {
      const mean = some.reduce((a, b) => a + b, 0) / some.length;
      return { n: some.length, mean, squares: some.reduce((sum, v) => sum + (v - mean) ** 2, 0) };
    });
    // One swing's variance within a session, over all of them: single ones of a few balls are too unsure of their own.
    const used = figures.filter(({ n }) => n >= fewestOfKind);
    const freedom = used.reduce((sum, { n }) => sum + n - 1, 0);
    return { figures, variance: used.reduce((sum, { squares }) => sum + squares, 0) / freedom };
  });
  const [here, elsewhere] = kinds as [(typeof kinds)[0], (typeof kinds)[0]];
  const points = dated.flatMap(({ date }, i) => {
    const [a, b] = [here.figures[i]!, elsewhere.figures[i]!];
    if (a.n < fewestOfKind || b.n < fewestOfKind) return [];
    const variance = here.variance / a.n + elsewhere.variance / b.n;
    return [{ x: done(date), side: sideOf(date), value: a.mean - b.mean, variance, n: a.n + b.n }];
  });
  const side = (of: number): LiveSide => {
    const own = points.filter((point) => point.side === of);
    return { sessions: own.length, n: own.reduce((sum, { n }) => sum + n, 0) };
  };
  const [before, after] = [side(0), side(1)];
  const none: LiveContrast = {
    value: null,
    low: null,
    high: null,
    p: null,
    work: null,
    before,
    after,
    shows: false,
    reason: null,
  };
  if (before.sessions < fewestOfSide || after.sessions < fewestOfSide || points.length < fewestSessions)
    return {
      ...none,
      reason: `${before.sessions} and ${after.sessions} live sessions with enough balls in its cells and elsewhere, before and after half of its swings: it takes ${fewestOfSide} and ${fewestSessions - fewestOfSide}`,
    };
  if (points.some(({ variance }) => !(variance > 0))) return { ...none, reason: "the same on every swing" };
  const [least, most] = [smallest(points.map(({ x }) => x)), largest(points.map(({ x }) => x))];
  const { slope, low, high, p } = sessionTrend(points)!;
  const over = (v: number): number => v * (most - least);
  return { ...none, value: over(slope), low: over(low), high: over(high), p, work: [least, most] };
}
