/** The round a hitter is in: the last swings of one hitter at one drill, and how they fared against its target. */
import type { EnrichedSwing, Session, Target } from "../swing/fields.ts";
import { sessionsInOrder } from "./sessions.ts";
import { isWellHit } from "../contact/bucket.ts";
import { inSwingOrder, swungAt } from "./swings.ts";
import { meetsTarget } from "./target.ts";

/** How a swing fared: null where it can't be judged. */
export type Mark = boolean | null;

/** A round, as it stands. */
export interface Round {
  readonly hitter: string;
  readonly drill: string | null;
  /** What a swing is judged by: the drill's target, else clean or flush contact. */
  readonly by: "target" | "contact";
  readonly target: Target | null;
  /** Swings in the order they were hit; takes are none. */
  readonly swings: readonly { readonly row: EnrichedSwing; readonly mark: Mark }[];
  readonly met: number;
  readonly judged: number;
  /** How many of the last ones in a row were met. */
  readonly inARow: number;
  /** The last swing. */
  readonly last: EnrichedSwing;
}

/** The rest between two swings, min; null where a clock is missing or was set back. */
function restBetween(a: EnrichedSwing, b: EnrichedSwing): number | null {
  const minutes = (Date.parse(b.time ?? "") - Date.parse(a.time ?? "")) / 60_000;
  return minutes >= 0 ? minutes : null;
}

/**
 * The last round among the rows: the swings since the hitter, the drill or the kind of work changed, or since a rest.
 * @param rest_min so long a rest between two swings begins another round, min
 * @returns null without a swing
 * @example lastRound([], { sessions: [], targets: [], rest_min: 3 }) // null
 */
export function lastRound(
  rows: readonly EnrichedSwing[],
  {
    sessions,
    targets,
    rest_min,
  }: {
    readonly sessions: readonly Pick<Session, "session" | "date">[];
    readonly targets: readonly Target[];
    readonly rest_min: number;
  },
): Round | null {
  const swung = swungAt(rows);
  const ordered = sessionsInOrder(swung, sessions).at(-1)?.rows ?? inSwingOrder(swung);
  const last = ordered.at(-1);
  if (last === undefined) return null;
  let from = ordered.length - 1;
  while (from > 0) {
    const [before, here] = [ordered[from - 1]!, ordered[from]!];
    const same = before.hitter === last.hitter && before.drill === last.drill && before.input === last.input;
    if (!same || (restBetween(before, here) ?? 0) >= rest_min) break;
    from--;
  }
  const target = targets.find(({ drill }) => drill === last.drill) ?? null;
  const judge = (row: EnrichedSwing): Mark =>
    target !== null ? meetsTarget(row, target) : row.outcome === "in_play" ? isWellHit(row) : false;
  const swings = ordered.slice(from).map((row) => ({ row, mark: judge(row) }));
  const missed = swings.findLastIndex(({ mark }) => mark !== true);
  return {
    hitter: last.hitter,
    drill: last.drill,
    by: target === null ? "contact" : "target",
    target,
    swings,
    met: swings.filter(({ mark }) => mark === true).length,
    judged: swings.filter(({ mark }) => mark !== null).length,
    inARow: swings.length - 1 - missed,
    last,
  };
}
