/** Drill reports, from the start of the process. */
import { mkdtemp, rm } from "node:fs/promises";
import { readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { batted, type Run } from "./child.ts";
import type { Row } from "./row.ts";

export async function benchReport(): Promise<Row[]> {
  const hitters = readFileSync(new URL("../../data/demo/hitters.csv", import.meta.url), "utf8")
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(",")[0]!);
  const dir = await mkdtemp(join(tmpdir(), "bench-report-"));
  const best = async (...args: readonly string[]): Promise<Run> => {
    const runs: Run[] = [];
    for (let i = 0; i < 3; i++) runs.push(await batted("report", "-o", dir, ...args));
    return runs.reduce((a, b) => (b.seconds < a.seconds ? b : a));
  };
  try {
    const one = await best("--hitter", hitters[0]!);
    const all = await best();
    const said = ({ seconds, cpuSeconds }: Run): string =>
      `${seconds.toFixed(2)} s (${cpuSeconds.toFixed(2)} s of processor)`;
    return [
      { what: "a drill report", wanted: "under 2 s", measured: said(one), reached: one.seconds < 2 },
      {
        what: `all ${hitters.length} drill reports of the demo`,
        wanted: "under 5 s",
        measured: said(all),
        reached: all.seconds < 5,
      },
    ];
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}
