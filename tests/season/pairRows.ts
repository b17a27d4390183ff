/** Seasons of live rounds for tests: hitters who differ, pitchers who differ, days that differ, and pairs that don't. */
import { randomNormal } from "d3";
import { randomFrom } from "../../src/stats/random.ts";
import type { SeasonSource } from "../../src/season/progress.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { enrichedOf } from "../../src/swing/unknown.ts";
import { dayOf, sessionOn } from "./rows.ts";

/** How a season is drawn. */
export interface PairSeason {
  readonly hitters: number;
  readonly pitchers: number;
  /** Evenings, and the most pitches of a pitcher to a hitter in one of them: some have half, some none. */
  readonly evenings: number;
  readonly pitches: number;
  /** Standard deviation of a hitter's and of a pitcher's day, on the log odds of a good swing. */
  readonly days: number;
  /** What the first pitcher takes from the first hitter's log odds. */
  readonly hard?: number;
}

/** A season with the seed's hitters, pitchers and days. */
export function pairSeason(seed: number, plan: PairSeason): SeasonSource {
  const uniform = randomFrom(seed);
  const normal = randomNormal.source(uniform)(0, 1);
  const odds = (v: number): boolean => uniform() < 1 / (1 + Math.exp(-v));
  const many = (n: number, sd: number): number[] => Array.from({ length: n }, () => sd * normal());
  const skill = many(plan.hitters, 0.4);
  const craft = many(plan.pitchers, 0.5);
  const sessions = Array.from({ length: plan.evenings }, (_, e) => sessionOn(`Evening ${e}`, dayOf(7 * e)));
  const swings = sessions.flatMap(({ session }): EnrichedSwing[] => {
    const form = many(plan.hitters, plan.days);
    const arm = many(plan.pitchers, plan.days);
    return skill.flatMap((own, h) =>
      craft.flatMap((taken, p) => {
        const hard = h === 0 && p === 0 ? (plan.hard ?? 0) : 0;
        const good = own - taken + form[h]! + arm[p]! - hard;
        const share = uniform();
        const n = share < 0.2 ? 0 : share < 0.5 ? Math.round(plan.pitches / 2) : plan.pitches;
        return Array.from({ length: n }, () => {
          const missed = odds(-1.6 - good);
          const fouled = !missed && odds(-1);
          const kept = 0.85 + 0.03 * good + 0.1 * normal();
          const met = !missed && !fouled;
          return enrichedOf({
            hitter: `Hitter ${h}`,
            pitcher: `Pitcher ${p}`,
            bats: "R",
            input: "live",
            session,
            outcome: missed ? "miss" : fouled ? "foul" : "in_play",
            pitch_speed_mph: 65,
            ...(met
              ? {
                  exit_velocity_mph: 13 + kept * (68 + 4 * own),
                  launch_angle_deg: 12,
                  power_kept: kept,
                  bucket: kept > 0.85 ? ("clean" as const) : ("partial" as const),
                }
              : {}),
          });
        });
      }),
    );
  });
  return { swings, sessions, hitters: [], thresholds: null };
}
