/** Seasons for tests: a hitter's dated sessions of tee work, invented. */
import { randomNormal } from "d3";
import { randomFrom } from "../../src/stats/random.ts";
import type { EnrichedSwing, Session } from "../../src/swing/fields.ts";
import { enrichedOf } from "../../src/swing/unknown.ts";

export const sessionOn = (session: string, date: string | null, more: Partial<Session> = {}): Session =>
  ({ session, date, pitch_speed_at: "plate", ...more }) as Session;

/** A day so many days after the season's first. */
export const dayOf = (days: number): string =>
  new Date(Date.UTC(2025, 2, 3) + days * 86_400_000).toISOString().slice(0, 10);

/** A season of tee work: on each of the days so many balls, their speed by the day. */
export function teeSeason(
  days: readonly number[],
  balls: number,
  speed: (day: number) => number,
  { seed = 3, sd = 3, hitter = "Ines W." }: { seed?: number; sd?: number; hitter?: string } = {},
): { swings: EnrichedSwing[]; sessions: Session[] } {
  const normal = randomNormal.source(randomFrom(seed))(0, 1);
  const sessions = days.map((day, i) => sessionOn(`${dayOf(day)} ${i}`, dayOf(day)));
  const swings = sessions.flatMap(({ session }, i) =>
    Array.from({ length: balls }, (_, b) =>
      enrichedOf({
        hitter,
        bats: "R",
        input: "tee",
        session,
        time: `${dayOf(days[i]!)}T10:${String(b % 60).padStart(2, "0")}:00`,
        outcome: "in_play",
        exit_velocity_mph: speed(days[i]!) + sd * normal(),
        launch_angle_deg: 12 + 6 * normal(),
        spray_angle_deg: 0,
        power_kept: null,
        carry_ft: 200,
        bucket: normal() > 0 ? "clean" : "partial",
      }),
    ).map((row) => ({ ...row, power_kept: row.exit_velocity_mph! / 90 })),
  );
  return { swings, sessions };
}
