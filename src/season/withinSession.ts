/**
 * Within a session: how exit velocity and power kept go with how many swings came before, and with the rest before each.
 * Slopes are taken within one drill of one session, so that neither a good day nor an easier drill passes for fatigue, and
 * put together over the sessions. What a drop comes from is not in the numbers.
 */
import { withoutDoubtful } from "../contact/flags.ts";
import { thresholdsFrom } from "../contact/thresholds.ts";
import { standing } from "../stats/holm.ts";
import { t95, tTail } from "../stats/beta.ts";
import { derSimonianLaird } from "../stats/randomEffects.ts";
import { fewestDays } from "../stats/dayChange.ts";
import { inputs, type Input } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import { rowsInScope } from "../views/filter.ts";
import { rowsInSpan, sessionsInOrder } from "../views/sessions.ts";
import { swungAt } from "../views/swings.ts";
import { evened, type EvenedSwing } from "./evened.ts";
import type { SeasonScope, SeasonSource } from "./progress.ts";

/** What is followed within a session. */
export type WithinMeasure = "exit_velocity" | "power_kept";

/** One line. */
export interface WithinLine {
  readonly input: Input;
  readonly measure: WithinMeasure;
  readonly unit: UnitName;
  /** Along what: ten swings more, or twice the rest. */
  readonly by: "swings" | "rest";
  readonly sessions: number;
  readonly n: number;
  /** Most swings before one of these. */
  readonly most: number;
  /** Change for each ten swings more, or each doubling of the rest, with its 95 % interval. */
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly p: number | null;
  /** Whether it stands with all of the hitter's lines within sessions looked at together. */
  readonly stands: boolean;
  readonly reason: string | null;
}

/** Swings that one slope stands for. */
export const perSwings = 10;

/** Rests that are pauses, not rest between swings, s; and two rows within a moment, which are no rest. */
const rests_s = { least: 2, most: 600 } as const;

/** Swings of one drill in one session that a slope takes. */
const fewestForSlope = 8;

interface Placed {
  readonly row: EvenedSwing;
  /** Swings before it in the session, takes left out. */
  readonly before: number;
  /** s since the swing before, pauses too; NaN when unknown. */
  readonly gap: number;
  /** s since the swing before; null when unknown or a pause. */
  readonly rest: number | null;
}

/** A hitter's swings of a scope, each with how many came before it in its session, of whichever work. */
function placedOf(source: SeasonSource, hitter: string, scope: SeasonScope): Placed[] {
  const thresholds = thresholdsFrom(source.thresholds);
  const { kept } = withoutDoubtful(source.swings.filter((s) => s.hitter === hitter));
  const own = rowsInSpan(evened(kept, source.sessions, thresholds), source.sessions, scope);
  const placed = sessionsInOrder(own, source.sessions).flatMap(({ rows }) => placedIn(swungAt(rows)));
  const chosen = new Set(
    rowsInScope(
      placed.map(({ row }) => row),
      source,
      scope,
    ),
  );
  return placed.filter(({ row }) => chosen.has(row));
}

/**
 * One hitter's lines within sessions: exit velocity of the own swing and power kept, off the tee, off flips and live.
 * @param source the whole library, enriched
 * @example withinSession({ swings: [], sessions: [], hitters: [], thresholds: null }, "A") // []
 */
export function withinSession(source: SeasonSource, hitter: string, scope: SeasonScope = {}): WithinLine[] {
  const wanted = placedOf(source, hitter, scope);
  const lines = inputs.flatMap((input) => {
    const some = wanted.filter(({ row }) => row.input === input);
    if (some.length === 0) return [];
    return (["exit_velocity", "power_kept"] as const).flatMap((measure) =>
      (["swings", "rest"] as const).map((by) => lineOf(some, input, measure, by)),
    );
  });
  const looked = lines.filter((l) => l.p !== null);
  const stands = standing(looked.map((l) => l.p!));
  const those = new Set(looked.filter((_, i) => stands[i]));
  return lines.map((line) => ({ ...line, stands: those.has(line) }));
}

/** One session as it is drawn, of the work that its hitter's lines say most of. */
export interface SessionShown {
  readonly session: string;
  readonly input: Input;
  /** Swings of the session, those of other work too. */
  readonly all: number;
  /** The swings of that work by their number in the session, from 1 on; null where a value is unknown. */
  readonly swings: readonly ({ readonly number: number } & Readonly<Record<WithinMeasure, number | null>>)[];
  /** Rests that begin another round, min, and the number of the swing before each. */
  readonly rests: readonly { readonly after: number; readonly minutes: number }[];
}

/**
 * The session to draw beside a hitter's lines: the latest with enough swings of the work whose line stands, else of the work
 * with most swings.
 * @param lines from `withinSession`
 * @returns null without such a session
 * @example sessionShown({ swings: [], sessions: [], hitters: [], thresholds: null }, "A", []) // null
 */
export function sessionShown(
  source: SeasonSource,
  hitter: string,
  lines: readonly WithinLine[],
  scope: SeasonScope = {},
): SessionShown | null {
  const bySwings = lines.filter(({ by }) => by === "swings");
  const [first] = [...bySwings].sort((a, b) => Number(b.stands) - Number(a.stands) || b.n - a.n);
  if (first === undefined) return null;
  const { input } = first;
  const placed = placedOf(source, hitter, scope);
  const known = placed.filter(
    ({ row }) => row.input === input && row.session !== null && valueOf(row, "exit_velocity") !== null,
  );
  const counts = new Map<string, number>();
  for (const { row } of known) counts.set(row.session!, (counts.get(row.session!) ?? 0) + 1);
  const session = [...counts].findLast(([, n]) => n >= fewestForSlope)?.[0];
  if (session === undefined) return null;
  const own = placed.filter(({ row }) => row.session === session);
  const { round_rest_min } = thresholdsFrom(source.thresholds);
  return {
    session,
    input,
    all: own.reduce((most, { before }) => Math.max(most, before + 1), 0),
    swings: own.flatMap(({ row, before }) =>
      row.input !== input
        ? []
        : [
            {
              number: before + 1,
              exit_velocity: valueOf(row, "exit_velocity"),
              power_kept: valueOf(row, "power_kept"),
            },
          ],
    ),
    rests: own.flatMap(({ before, gap }) =>
      gap >= 60 * round_rest_min ? [{ after: before, minutes: gap / 60 }] : [],
    ),
  };
}

function placedIn(rows: readonly EvenedSwing[]): Placed[] {
  return rows.map((row, before) => {
    const last = rows[before - 1];
    const gap =
      last === undefined || last.time === null || row.time === null
        ? NaN
        : (Date.parse(row.time) - Date.parse(last.time)) / 1000;
    return { row, before, gap, rest: gap >= rests_s.least && gap <= rests_s.most ? gap : null };
  });
}

const valueOf = (row: EvenedSwing, measure: WithinMeasure): number | null =>
  measure === "power_kept" ? row.power_kept : row.outcome === "in_play" ? row.exit_velocity_mph : null;

function lineOf(
  placed: readonly Placed[],
  input: Input,
  measure: WithinMeasure,
  by: "swings" | "rest",
): WithinLine {
  const groups = new Map<string, { session: string; x: number[]; y: number[] }>();
  let most = 0;
  for (const { row, before, rest } of placed) {
    const y = valueOf(row, measure);
    const x = by === "swings" ? before / perSwings : rest === null ? null : Math.log2(rest);
    if (y === null || x === null || row.session === null) continue;
    most = Math.max(most, before);
    const key = `${row.session}\n${row.drill ?? ""}`;
    const group = groups.get(key) ?? { session: row.session, x: [], y: [] };
    group.x.push(x);
    group.y.push(y);
    groups.set(key, group);
  }
  const slopes = [...groups.values()].flatMap((g) => {
    const n = g.x.length;
    if (n < fewestForSlope) return [];
    const [mx, my] = [g.x, g.y].map((v) => v.reduce((a, b) => a + b, 0) / n) as [number, number];
    const across = g.x.reduce((sum, x) => sum + (x - mx) ** 2, 0);
    if (!(across > 1e-9)) return [];
    const slope = g.x.reduce((sum, x, i) => sum + (x - mx) * (g.y[i]! - my), 0) / across;
    const left = g.x.reduce((sum, x, i) => sum + (g.y[i]! - my - slope * (x - mx)) ** 2, 0);
    return [{ session: g.session, n, slope, across, left }];
  });
  const sessions = new Set(slopes.map((s) => s.session)).size;
  const n = slopes.reduce((sum, s) => sum + s.n, 0);
  const head = {
    input,
    measure,
    unit: measure === "power_kept" ? "share" : "mph",
    by,
    sessions,
    n,
    most,
  } as const;
  const none = { ...head, value: null, low: null, high: null, p: null, stands: false };
  if (sessions <= fewestDays)
    return {
      ...none,
      reason: `${sessions === 1 ? "1 session" : `${sessions} sessions`} with ${fewestForSlope} swings of one drill: it takes ${fewestDays + 1}`,
    };
  // One swing's variance about its line, over all of them: single ones of eight swings are too unsure of their own.
  const variance = slopes.reduce((sum, s) => sum + s.left, 0) / slopes.reduce((sum, s) => sum + s.n - 2, 0);
  if (!(variance > 0)) return { ...none, reason: "the same on every swing" };
  const perSession = [...new Set(slopes.map((s) => s.session))].map((session) => {
    const own = slopes.filter((s) => s.session === session);
    const across = own.reduce((sum, s) => sum + s.across, 0);
    return {
      slope: own.reduce((sum, s) => sum + s.across * s.slope, 0) / across,
      variance: variance / across,
    };
  });
  const { mean, tau2 } = derSimonianLaird(
    perSession.map((s) => s.slope),
    perSession.map((s) => s.variance),
  )!;
  // Hartung and Knapp's error: from how far the sessions' slopes lie about their mean.
  const weights = perSession.map((s) => 1 / (s.variance + tau2));
  const total = weights.reduce((a, b) => a + b, 0);
  const freedom = perSession.length - 1;
  const se = Math.sqrt(
    perSession.reduce((sum, s, i) => sum + weights[i]! * (s.slope - mean) ** 2, 0) / (freedom * total),
  );
  const half = t95(freedom) * se;
  return {
    ...head,
    value: mean,
    low: mean - half,
    high: mean + half,
    p: tTail(mean / se, freedom),
    stands: false,
    reason: null,
  };
}
