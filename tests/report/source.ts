/** A small library's worth of one hitter, for report tests. */
import { enrich } from "../../src/contact/enrich.ts";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import type { ReportSource } from "../../src/report/page.ts";
import { sessionFields, type Session, type Swing } from "../../src/swing/fields.ts";
import { swing, target } from "../views/rows.ts";

const session = (given: Partial<Session> & { session: string }): Session => ({
  ...(Object.fromEntries(sessionFields.map((f) => [f.name, null])) as unknown as Session),
  ...given,
});

/** Tee, flip and live swings of two days, so many of each a day: the second day's tee work is 6 mph faster. */
export function sourceOf(
  hitter: string,
  name: (plain: string) => string = (plain) => plain,
  each = 24,
): ReportSource {
  const days = [
    { session: name("monday"), date: "2024-05-06", faster: 0 },
    { session: name("friday"), date: "2024-05-10", faster: 6 },
  ];
  const swings: Swing[] = days.flatMap(({ session, faster }) =>
    (["tee", "flip", "live"] as const).flatMap((input) =>
      Array.from({ length: each }, (_, i) => {
        const missed = input === "live" && i % 5 === 0;
        return swing({
          swing_id: `${session} ${input} ${i}`,
          session,
          hitter,
          input,
          drill: name(`${input} drill`),
          outcome: missed ? "miss" : "in_play",
          exit_velocity_mph: missed ? null : 72 + (input === "tee" ? faster : 0) + ((i * 7) % 11),
          launch_angle_deg: missed ? null : ((i * 13) % 40) - 8,
          spray_angle_deg: ((i * 17) % 70) - 35,
          contact_side_ft: ((i % 3) - 1) * 0.5,
          contact_height_ft: 1.8 + (i % 4) * 0.4,
          contact_depth_ft: 1 + (i % 5) * 0.4,
          pitch_type: input === "live" ? name(i % 2 ? "fastball" : "curve") : null,
          pitch_speed_mph: input === "live" ? 60 + i : null,
          note: name("a note"),
        });
      }),
    ),
  );
  const sessions = days.map(({ session: id, date }) => session({ session: id, date }));
  return {
    hitter,
    listed: { hitter, bats: "R", level: name("under 16"), height_in: 70 },
    rows: enrich({ swings, sessions, hitters: [] }),
    sessions,
    targets: [target({ drill: name("tee drill"), launch_angle_deg_low: 5, launch_angle_deg_high: 25 })],
    thresholds: defaultThresholds,
    trust: new Map(),
    files: [
      {
        file: name("swings.csv"),
        sha256: "0123456789abcdef".repeat(4),
        rows: swings.length,
        refused: 2,
        untimed: 0,
      },
    ],
  };
}
