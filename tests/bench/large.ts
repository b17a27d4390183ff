/** Commands over a large library, from the start of the process. */
import { mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { batted, bestOf, said, type Run } from "./child.ts";
import type { Row } from "./row.ts";
import { writeSwings } from "./swings.ts";

const swings = 50_000;
const turns = 3;

export async function benchLarge(): Promise<Row[]> {
  const dir = await mkdtemp(join(tmpdir(), "bench-large-"));
  const best = (times: number, ...args: readonly string[]): Promise<Run> => bestOf(times, "seconds", ...args);
  const row = (what: string, limit: number | null, run: Run): Row => ({
    what: `${what}, ${swings.toLocaleString("en-US")} swings`,
    wanted: limit === null ? "" : `under ${limit} s`,
    measured: said(run),
    reached: limit === null ? null : run.seconds < limit,
  });
  try {
    const library = join(dir, "library");
    await mkdir(library);
    const file = join(library, "swings.csv");
    await writeSwings(file, swings);
    const build = ["build", "--library", library, "-o", join(dir, "site")] as const;
    const gap = await best(turns, "gap", file);
    process.env["BATTED_BUILT"] = "anew";
    const anew = await best(1, ...build);
    delete process.env["BATTED_BUILT"];
    await batted(...build);
    return [
      row("gap for all hitters", 5, gap),
      row("build", 10, await best(turns, ...build)),
      row("build after the pages themselves have changed", null, anew),
    ];
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}
