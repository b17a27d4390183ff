/** Drill reports and a short command, from the start of the process. */
import { mkdtemp, rm } from "node:fs/promises";
import { readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { bestOf, said, type Run } from "./child.ts";
import type { Row } from "./row.ts";

export async function benchReport(): Promise<Row[]> {
  const hitters = readFileSync(new URL("../../data/demo/hitters.csv", import.meta.url), "utf8")
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(",")[0]!);
  const dir = await mkdtemp(join(tmpdir(), "bench-report-"));
  const best = (...args: readonly string[]): Promise<Run> => bestOf(3, "cpuSeconds", ...args);
  try {
    const one = await best("report", "-o", dir, "--hitter", hitters[0]!);
    const all = await best("report", "-o", dir);
    const short = await best("carry", "--exit-velocity", "100", "--launch-angle", "28");
    return [
      { what: "a drill report", wanted: "≤ 1.3 CPU s", measured: said(one), reached: one.cpuSeconds <= 1.3 },
      {
        what: "a short command: carry",
        wanted: "≤ 120 ms CPU",
        measured: said(short),
        reached: short.cpuSeconds <= 0.12,
      },
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
