/** The few sentences a coach reads first, made of computed facts alone. */
import { meanEstimate } from "../stats/estimate.ts";
import { inputs, type EnrichedSwing } from "../swing/fields.ts";
import type { UnitSystem } from "../units/system.ts";
import type { SessionChange } from "./change.ts";
import { provisos } from "./provisos.ts";
import { fewDaysSentence } from "./sentences/days.ts";
import {
  changeSentence,
  nextSentence,
  speedSentence,
  targetSentence,
  wellHitSentence,
} from "./sentences/report.ts";
import { inPlay, ofInput, sessionsOf, swungAt, wellHitShare } from "./swings.ts";
import type { TargetResult } from "./target.ts";
import { fewestForAWord, weakness } from "./weakness.ts";
import type { ZoneOptions } from "./zone.ts";

/** What the headline is made of. */
export interface HeadlineParts {
  readonly targets?: readonly TargetResult[];
  readonly changes?: readonly SessionChange[];
  readonly zone?: ZoneOptions;
  readonly system?: UnitSystem;
}

/** Facts, those that speak well of the hitter first, and what they say to work on next. */
export interface Headline {
  readonly facts: readonly string[];
  readonly next: string;
}

interface Fact {
  readonly text: string | null;
  /** 2 good and clear, 1 a plain figure, 0 bad and clear, −1 too few to say. */
  readonly rank: number;
}

const mostFacts = 6;

/**
 * The headline of one hitter's swings: at most six facts, each with its count and its uncertainty, and after them what
 * must be known of them: days, sides of the plate and pitch speeds that are missing.
 * @param rows one hitter's swings, in the scope of the report
 * @example headline([]).next // "There are no swings to say anything about."
 */
export function headline(rows: readonly EnrichedSwing[], parts: HeadlineParts = {}): Headline {
  const { targets = [], changes = [], zone = {}, system = "us" } = parts;
  const facts: Fact[] = [
    ...inputs.map((input) => {
      const s = wellHitShare(inPlay(ofInput(rows, input)));
      return { text: wellHitSentence(input, s), rank: rankOf(s) };
    }),
    ...inputs.map((input) => {
      const balls = inPlay(ofInput(rows, input));
      const e = meanEstimate(
        balls.map((r) => r.exit_velocity_mph),
        sessionsOf(balls),
      );
      return { text: speedSentence(input, e, system), rank: e.low === null ? -1 : 1 };
    }),
    ...targets.map((t) => ({ text: targetSentence(t), rank: rankOf(t) })),
    ...changes.flatMap((table) =>
      table.changes.map((c) => {
        const way = (c.difference.value ?? 0) > 0 ? "up" : "down";
        const rank = c.better === null ? 1 : c.better === way ? 2 : 0;
        return { text: changeSentence(c, table, system), rank };
      }),
    ),
  ];
  const few = fewDaysSentence(
    inputs.map((input) => ({ input, sessions: new Set(sessionsOf(inPlay(ofInput(rows, input)))).size })),
  );
  return {
    facts: [
      ...facts
        .filter((f): f is Fact & { text: string } => f.text !== null)
        .sort((a, b) => b.rank - a.rank)
        .slice(0, mostFacts)
        .map((f) => f.text),
      ...(few === null ? [] : [few]),
      ...provisos(rows, inputs),
    ],
    next: nextSentence(swungAt(rows).length, weakness(rows, targets, zone), targets),
  };
}

/** A share clearly more than half is good news, one clearly less is bad. */
function rankOf({ n, low, high }: Pick<TargetResult, "n" | "low" | "high">): number {
  if (low === null || high === null) return -1;
  return low > 0.5 ? 2 : high < 0.5 ? 0 : n < fewestForAWord ? -1 : 1;
}
