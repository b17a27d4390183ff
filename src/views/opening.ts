/** The figures that a report's first screen shows: the target, and how the work there is most of was hit. */
import { largest } from "../swing/lists.ts";
import { meanEstimate, type SwingsEstimate } from "../stats/estimate.ts";
import type { Share } from "../stats/share.ts";
import { inputs, type EnrichedSwing, type Input } from "../swing/fields.ts";
import { inPlay, ofInput, sessionsOf, swungAt, wellHitShare } from "./swings.ts";
import { metTogether, type TargetResult } from "./target.ts";

/** What stands on the first screen of a report. */
export interface ReportOpening {
  /** All targets together, and the drills that they are of. */
  readonly met: Share & { readonly drills: readonly string[] };
  /** The kind of work that the figures are about: live from some balls on, else what there is most of; null without one. */
  readonly input: Input | null;
  /** Clean or flush, of that kind's balls with a bucket. */
  readonly well: Share;
  /** The same of every kind's balls. */
  readonly allWell: Share;
  /** Exit velocity of that kind's balls. */
  readonly speed: SwingsEstimate;
  /** Swings of every kind, and the balls in play among them. */
  readonly all: { readonly swings: number; readonly balls: number };
}

/** From so many live balls on, live is what a report is about. */
const fewestLive = 10;

function mainInput(balls: readonly EnrichedSwing[]): Input | null {
  if (ofInput(balls, "live").length >= fewestLive) return "live";
  const counts = inputs.map((input) => ofInput(balls, input).length);
  const most = largest(counts);
  return most === 0 ? null : inputs[counts.indexOf(most)]!;
}

/**
 * The figures of a report's first screen.
 * @param rows one hitter's swings, in the scope of the report
 * @param targets the results of the drills among them
 * @example reportOpening([], []).input // null
 */
export function reportOpening(
  rows: readonly EnrichedSwing[],
  targets: readonly TargetResult[],
): ReportOpening {
  const judged = targets.filter(({ n }) => n > 0);
  const balls = inPlay(rows);
  const input = mainInput(balls);
  const own = input === null ? [] : ofInput(balls, input);
  return {
    met: { ...metTogether(judged), drills: judged.map(({ drill }) => drill) },
    input,
    well: wellHitShare(own),
    allWell: wellHitShare(balls),
    speed: meanEstimate(
      own.map((row) => row.exit_velocity_mph),
      sessionsOf(own),
    ),
    all: { swings: swungAt(rows).length, balls: balls.length },
  };
}
