/** A drill's target: how often it was met. */
import { shareOf, type Share } from "../stats/share.ts";
import { targetMeasures, type EnrichedSwing, type Target, type TargetMeasure } from "../swing/fields.ts";
import { inSwingOrder, sessionsOf, swungAt } from "./swings.ts";

/** One measure of the window, and on which side of it balls in play fell. */
export interface WindowResult {
  readonly measure: TargetMeasure;
  /** In the measure's unit; null: open. */
  readonly low: number | null;
  readonly high: number | null;
  readonly below: number;
  readonly within: number;
  readonly above: number;
}

/** What came of a drill's swings. */
export interface TargetResult extends Share {
  readonly drill: string;
  /** Swings that can be judged; the same as n. The count of the share is those that met the target. */
  readonly attempts: number;
  /** Swings that lack a measure the window needs: in no figure here. */
  readonly unjudged: number;
  /** Most targets met in a row, in swing order, within one session. */
  readonly longest_run: number;
  readonly window: readonly WindowResult[];
  /** Targets met and swings judged, session by session: what an interval that counts sessions is made of. */
  readonly sessions: readonly {
    readonly session: string | null;
    readonly count: number;
    readonly n: number;
  }[];
}

/** Null: can't be judged. Only a ball in play can meet a target; a miss or a foul is an attempt that did not. */
export type Verdict = boolean | null;

/**
 * Whether a swing meets a target. The window's ends belong to it.
 * @returns null when the swing lacks a measure the window needs, for a take, and when the window is empty
 * @example meetsTarget({ outcome: "miss" }, { drill: "d", exit_velocity_mph_low: 70 }) // false
 */
export function meetsTarget(row: Pick<EnrichedSwing, "outcome" | TargetMeasure>, target: Target): Verdict {
  if (row.outcome === null || row.outcome === "take") return null;
  const window = windowOf(target);
  if (window.length === 0) return null;
  if (row.outcome !== "in_play") return false;
  const verdicts = window.map(({ measure, low, high }) => {
    const side = sideOfWindow(row[measure], low, high);
    return side === null ? null : side === "within";
  });
  if (verdicts.includes(false)) return false;
  return verdicts.includes(null) ? null : true;
}

/**
 * How often a drill's target was met, with its interval and the longest run.
 * @param rows one hitter's swings; those of other drills are left out
 * @example targetResult([], { drill: "line drives" }).share // null
 */
export function targetResult(rows: readonly EnrichedSwing[], target: Target): TargetResult {
  const swings = swungAt(rows.filter((r) => r.drill === target.drill));
  const verdicts = swings.map((r) => meetsTarget(r, target));
  const met = shareOf(verdicts, sessionsOf(swings));
  const days = [...new Set(swings.map((r) => r.session))].map((session) => {
    const own = verdicts.filter((v, i) => v !== null && swings[i]!.session === session);
    return { session, count: own.filter(Boolean).length, n: own.length };
  });
  const balls = swings.filter((r) => r.outcome === "in_play");
  return {
    drill: target.drill,
    ...met,
    attempts: met.n,
    unjudged: verdicts.length - met.n,
    longest_run: longestRun(swings, target),
    sessions: days.filter(({ n }) => n > 0),
    window: windowOf(target).map(({ measure, low, high }) => {
      const fell = balls.map((r) => sideOfWindow(r[measure], low, high));
      const count = (side: string): number => fell.filter((f) => f === side).length;
      return { measure, low, high, below: count("below"), within: count("within"), above: count("above") };
    }),
  };
}

/**
 * All drills' targets together: how many of the swings that can be judged met theirs, each session's counted as one day.
 * @example metTogether([]).share // null
 */
export function metTogether(results: readonly Pick<TargetResult, "sessions">[]): Share {
  const swings = results.flatMap(({ sessions }) =>
    sessions.flatMap(({ session, count, n }) =>
      Array.from({ length: n }, (_, i) => ({ session, met: i < count })),
    ),
  );
  return shareOf(
    swings.map(({ met }) => met),
    sessionsOf(swings),
  );
}

/**
 * The measures of a target's window that have an end.
 * @example windowOf({ drill: "d", launch_angle_deg_low: 5 })[0].low // 5
 */
export function windowOf(
  target: Target,
): { measure: TargetMeasure; low: number | null; high: number | null }[] {
  return targetMeasures
    .map((measure) => ({
      measure,
      low: target[`${measure}_low`] ?? null,
      high: target[`${measure}_high`] ?? null,
    }))
    .filter(({ low, high }) => low !== null || high !== null);
}

function sideOfWindow(
  value: number | null,
  low: number | null,
  high: number | null,
): "below" | "within" | "above" | null {
  if (value === null) return null;
  if (low !== null && value < low) return "below";
  return high !== null && value > high ? "above" : "within";
}

/** A swing that can't be judged ends a run: it may have missed the target. */
function longestRun(swings: readonly EnrichedSwing[], target: Target): number {
  let longest = 0;
  for (const session of new Set(swings.map((r) => r.session))) {
    let run = 0;
    for (const row of inSwingOrder(swings.filter((r) => r.session === session))) {
      run = meetsTarget(row, target) === true ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
  }
  return longest;
}
