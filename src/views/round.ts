/** The round a hitter is in: the last swings of one hitter at one drill, and how they fared against its target. */
import type { EnrichedSwing, Session, Target } from "../swing/fields.ts";
import { sessionsInOrder } from "./sessions.ts";
import { isWellHit } from "../contact/bucket.ts";
import { inSwingOrder } from "./swings.ts";
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
 * Which of the rows that have just come were hit after their tracker's clock was set back: they are said to be of long before
 * the last ball that stood there. Many rows at once are a file that was brought, and no balls.
 * @param last the last ball before they came
 * @param rest_min rows that stand out of order by less are only late, min
 * @returns their ids
 */
export function hitAfterSetBack(
  last: Pick<EnrichedSwing, "session" | "time">,
  fresh: readonly Pick<EnrichedSwing, "swing_id" | "session" | "time">[],
  rest_min: number,
): string[] {
  if (fresh.length > ballsAtOnce) return [];
  const before = (row: Pick<EnrichedSwing, "session" | "time">): boolean =>
    row.session === last.session &&
    (Date.parse(last.time ?? "") - Date.parse(row.time ?? "")) / 60_000 > rest_min;
  return fresh.flatMap((row) => (row.swing_id !== null && before(row) ? [row.swing_id] : []));
}

/** So many rows may come at once and be balls that were just hit. */
const ballsAtOnce = 3;

/**
 * The last round among the rows: the swings since the hitter, the drill or the kind of work changed, or since a rest. A ball
 * that the tracker couldn't read counts as one that can't be judged.
 * @param rest_min so long a rest between two swings begins another round, min
 * @param after ids of rows that come after all others, whatever their clock says
 * @returns null without a swing
 * @example lastRound([], { sessions: [], targets: [], rest_min: 3 }) // null
 */
export function lastRound(
  rows: readonly EnrichedSwing[],
  {
    sessions,
    targets,
    rest_min,
    after = new Set(),
  }: {
    readonly sessions: readonly Pick<Session, "session" | "date">[];
    readonly targets: readonly Target[];
    readonly rest_min: number;
    readonly after?: ReadonlySet<string>;
  },
): Round | null {
  const swung = rows.filter(({ outcome }) => outcome !== "take");
  const byClock = sessionsInOrder(swung, sessions).at(-1)?.rows ?? inSwingOrder(swung);
  const isAfter = ({ swing_id }: EnrichedSwing): boolean => swing_id !== null && after.has(swing_id);
  const ordered =
    after.size === 0 ? byClock : [...byClock.filter((row) => !isAfter(row)), ...byClock.filter(isAfter)];
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
    row.outcome === null
      ? null
      : target !== null
        ? meetsTarget(row, target)
        : row.outcome === "in_play"
          ? isWellHit(row)
          : false;
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
