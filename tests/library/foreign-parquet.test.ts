/** A session's Parquet file that another program wrote: it has what the program had, and is held to the rows' rules. */
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { parquetWriteFile } from "hyparquet-writer";
import { describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { openLibrary } from "../../src/library/library.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { inPlay } from "../../src/views/swings.ts";
import { run } from "../cli/run.ts";
import { inFolder } from "../reading/support.ts";

const n = 20;
const text = (name: string, of: (i: number) => string) => ({
  name,
  data: Array.from({ length: n }, (_, i) => of(i)),
  type: "STRING" as const,
});
const numbers = (name: string, of: (i: number) => number | null) => ({
  name,
  data: Array.from({ length: n }, (_, i) => of(i)),
  type: "DOUBLE" as const,
  nullable: true,
});

/** A library with one session that has no column of outcomes. */
async function withSession(
  angle: (i: number) => number | null,
  work: (dir: string) => Promise<void>,
): Promise<void> {
  await inFolder({}, async (dir) => {
    const folder = join(dir, "swings", "session=may");
    await mkdir(folder, { recursive: true });
    await parquetWriteFile({
      filename: join(folder, "swings.parquet"),
      columnData: [
        text("hitter", () => "Ana"),
        text("input", () => "tee"),
        text("bats", () => "R"),
        numbers("exit_velocity_mph", (i) => 70 + i / 2),
        numbers("launch_angle_deg", angle),
        numbers("spray_angle_deg", (i) => i - 10),
      ],
    });
    await work(dir);
  });
}

describe("a Parquet file without outcomes", () => {
  it("has its balls in play, as a CSV would", async () => {
    await withSession(
      (i) => i,
      async (dir) => {
        const library = await openLibrary(dir);
        expect(library.problems).toEqual([]);
        const rows = enrich(library);
        expect(inPlay(rows)).toHaveLength(n);
        expect(rows.every((row) => row.carry_ft !== null && row.bucket !== null)).toBe(true);
      },
    );
  });

  it("has rows refused that lack what a ball in play needs, and the others stay", async () => {
    await withSession(
      (i) => (i === 4 ? null : i),
      async (dir) => {
        const library = await openLibrary(dir);
        expect(inPlay(library.swings as Parameters<typeof inPlay>[0])).toHaveLength(n - 1);
        expect(library.files).toMatchObject([{ rows: n - 1, refused: 1 }]);
        expect(library.problems.map(problemSentence)).toEqual([
          "swings/session=may/swings.parquet, row 5: launch_angle_deg is missing, and a ball in play needs it.",
        ]);
      },
    );
  });

  it("takes the same swings again from a CSV as those that it has", async () => {
    await withSession(
      (i) => i,
      async (dir) => {
        const head = "hitter,session,input,bats,outcome,exit_velocity_mph,launch_angle_deg,spray_angle_deg\n";
        const { writeFile, rm } = await import("node:fs/promises");
        const rows = Array.from(
          { length: n },
          (_, i) => `Ana,may,tee,R,in_play,${70 + i / 2},${i},${i - 10}\n`,
        );
        const path = join(dir, "..", `${Math.random()}.csv`);
        await writeFile(path, head + rows.join(""));
        const { status, out } = await run("add", path, "--library", dir);
        await rm(path);
        expect(status).toBe(0);
        expect(out).toContain(`${n} rows, 0 new, ${n} there already`);
      },
    );
  });
});
