/** Swings from CSV to CSV, with ranges: how time and memory grow. */
import { mkdtemp, rm } from "node:fs/promises";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { batted, type Run } from "./child.ts";
import type { Row } from "./row.ts";
import { writeSwings } from "./swings.ts";

const counts = [10_000, 100_000, 1_000_000] as const;

export async function benchEnrich(): Promise<Row[]> {
  const dir = await mkdtemp(join(tmpdir(), "bench-enrich-"));
  try {
    const runs: Run[] = [];
    for (const count of counts) {
      const file = join(dir, "swings.csv");
      await writeSwings(file, count);
      runs.push(await batted("enrich", file, "-o", join(dir, "out.csv")));
    }
    const [, middle, most] = runs as [Run, Run, Run];
    const growth = most.cpuSeconds / middle.cpuSeconds;
    const GB = most.peak / 1e9;
    return [
      ...runs.map(({ seconds, cpuSeconds, peak }, i): Row => ({
        what: `enrich ${counts[i]!.toLocaleString("en-US")} swings, CSV to CSV`,
        wanted: i === 2 ? "≤ 25 CPU s and 700 MB" : "",
        measured:
          `${seconds.toFixed(1)} s (${cpuSeconds.toFixed(1)} s of ${availableParallelism()} cores), ` +
          `${(peak / 1e9).toFixed(2)} GB, ${Math.round(counts[i]! / seconds)} swings/s`,
        reached: i === 2 ? cpuSeconds <= 25 && GB <= 0.7 : null,
      })),
      {
        what: "enrich, 100,000 to 1,000,000 swings",
        wanted: "≤ 11 × the cost",
        measured: `${growth.toFixed(1)} ×`,
        reached: growth <= 11,
      },
    ];
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}
