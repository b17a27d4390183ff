/** Speed of the gap's bootstrap, against the plain way of writing it in the same run. */
import { group, randomLcg, randomNormal, randomUniform } from "d3";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { underBoth } from "../../src/gap/ceilingAnew.ts";
import { splitExitVelocity } from "../../src/gap/parts.ts";
import type { ReadySwing } from "../../src/gap/rows.ts";
import { resamples } from "../../src/stats/bootstrap.ts";
import { meanDifference } from "../../src/stats/difference.ts";
import type { Row } from "./row.ts";

/** Milliseconds of one core's time, the best of turns after a warm-up. */
function milliseconds(turn: () => void): number {
  let best = Infinity;
  turn();
  for (let i = 0; i < 8; i++) {
    const before = process.cpuUsage();
    turn();
    const { user, system } = process.cpuUsage(before);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

export function benchGap(): Row[] {
  const normal = randomNormal.source(randomLcg(0.2))(85, 8);
  const uniform = randomUniform.source(randomLcg(0.3))(0, 1);
  const side = (input: "tee" | "live"): ReadySwing[] =>
    Array.from(
      { length: 500 },
      (_, i) =>
        ({
          input,
          outcome: "in_play",
          session: `day ${i % 4}`,
          cell: i % 9,
          exit_velocity_mph: normal(),
          plate_speed_mph: input === "tee" ? 0 : 75,
          bat_speed_mph: 70,
        }) as ReadySwing,
    );
  const [from, to] = [side("tee"), side("live")];
  const sample = (rows: readonly ReadySwing[]) => ({
    values: rows.map((r) => r.exit_velocity_mph),
    sessions: rows.map((r) => r.session),
  });
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  const plain = (rows: readonly ReadySwing[]): number => {
    const lists = [...group(rows, (r) => r.session).values()];
    const drawn = lists.map(() => lists[Math.floor(uniform() * lists.length)]!);
    return mean(
      drawn.flatMap((list) => list.map(() => list[Math.floor(uniform() * list.length)]!.exit_velocity_mph!)),
    );
  };
  const one = milliseconds(() => {
    const { low, high } = meanDifference(sample(from), sample(to));
    if (!(low! < high!)) throw new Error("the bootstrap gives no interval");
  });
  const all = milliseconds(() => void splitExitVelocity({ from, to }, { thresholds: defaultThresholds }));
  const ceiling = milliseconds(() => {
    const balls = (rows: readonly ReadySwing[]) =>
      rows.map((row) => ({
        ...row,
        power_kept: row.exit_velocity_mph! / 100,
        launch_angle_deg: 10,
        flags: null,
      }));
    const sides = [balls(from), balls(to)];
    underBoth("flush", sides, { rows: sides.flat(), leveled: true }, defaultThresholds, resamples);
  });
  const naive = milliseconds(() => {
    for (let i = 0; i < resamples; i++) plain(to) - plain(from);
  });
  const row = (what: string, ms: number): Row => ({
    what: `bootstrap of ${what}, ${resamples} × (500 + 500) swings`,
    wanted: "under 100 ms for 2000",
    measured: `${ms.toFixed(0)} ms`,
    reached: resamples >= 2000 && ms < 100,
  });
  return [
    row("a gap", one),
    row("a gap and all its parts", all),
    row("a share of a bucket, the ceiling worked out anew", ceiling),
    {
      what: "the same gap by plain arrays",
      wanted: "",
      measured: `${(naive / one).toFixed(0)} ×`,
      reached: null,
    },
  ];
}
