/**
 * The library's Parquet files against readers that share nothing with the writer: DuckDB, which knows Parquet and
 * the naming of partitions by its own code. Both are open standards: Apache Parquet format 2, and Hive's
 * `name=value` folders.
 */
import { mkdir, readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { desc, from, op } from "arquero";
import { describe, expect, it } from "vitest";
import { readSwings } from "../../src/library/files.ts";
import { addFile } from "../../src/library/add.ts";
import { openLibrary } from "../../src/library/library.ts";
import { partitionName } from "../../src/swing/partition.ts";
import { root } from "../house/files.ts";
import { inFolder } from "../reading/support.ts";

async function query(sql: string): Promise<Record<string, unknown>[]> {
  const instance = await DuckDBInstance.create(":memory:");
  const connection = await instance.connect();
  try {
    const reader = await connection.runAndReadAll(sql);
    return reader.getRowObjectsJson() as Record<string, unknown>[];
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

const files = (dir: string): string => `'${dir}/swings/*/swings.parquet'`;
/** A session named like a date stays a name. */
const partitioned = "hive_partitioning = true, hive_types_autocast = false";

describe("a library read by DuckDB", () => {
  it("gives in one query over all sessions what Arquero gives from the same folder", async () => {
    await inFolder({}, async (dir) => {
      await addFile(dir, join(root, "data/demo/swings.csv"));
      const found = await query(`
        SELECT session, input, count(*)::INTEGER AS n, avg(exit_velocity_mph) AS mean, max(launch_angle_deg) AS most,
               count(spin_rpm)::INTEGER AS spins, min(time) AS first
        FROM read_parquet(${files(dir)}, ${partitioned})
        GROUP BY session, input ORDER BY n DESC, session, input`);
      const { swings } = await openLibrary(dir);
      const own = from(swings)
        .groupby("session", "input")
        .rollup({
          n: op.count(),
          mean: op.mean("exit_velocity_mph"),
          most: op.max("launch_angle_deg"),
          spins: op.valid("spin_rpm"),
          first: op.min("time"),
        })
        .orderby(desc("n"), "session", "input")
        .objects() as Record<string, unknown>[];
      expect(found.length).toBeGreaterThan(20);
      expect(found.map(({ mean: _, ...rest }) => rest)).toEqual(own.map(({ mean: _, ...rest }) => rest));
      found.forEach((row, i) => expect(row["mean"]).toBeCloseTo(own[i]!["mean"] as number, 9));
    });
  });

  it("is the CSV it came from, cell by cell", async () => {
    await inFolder({}, async (dir) => {
      const csv = join(root, "data/demo/swings.csv");
      await addFile(dir, csv);
      const rows = await query(`SELECT * FROM read_parquet(${files(dir)}, ${partitioned})`);
      const byId = new Map(rows.map((row) => [row["swing_id"], row]));
      const reading = await readSwings(csv);
      expect(reading.rows.length).toBeGreaterThan(3000);
      expect(byId.size).toBe(reading.rows.length);
      for (const row of reading.rows) expect(byId.get(row.swing_id)).toMatchObject(row);
    });
  });

  it("has each session's name, from the folder alone, whatever is in it", async () => {
    const names = [
      "May 5",
      "may 5",
      "a/b\\c",
      "..",
      "x.",
      "CON",
      "100 % = ½; “ok”?",
      "日本 tee",
      "2026-05-05",
      "É é",
      "Übung, Woche 38 (Halle 2) – Owen's & Ana's",
      "Cage week 38",
      "CAGE week 38",
      "a=b&c",
      "🥎",
    ];
    await inFolder({}, async (dir) => {
      const rows = names.map((name) => `"${name}",Ana,tee,80,10`);
      await mkdir(dir, { recursive: true });
      await writeFile(
        join(dir, "..", "names.csv"),
        `session,hitter,input,exit_velocity_mph,launch_angle_deg\n${rows.join("\n")}\n,Ana,tee,81,10\n`,
      );
      await addFile(dir, join(dir, "..", "names.csv"));
      const found = await query(`
        SELECT hive.session AS folder, plain.session AS inside
        FROM read_parquet(${files(dir)}, ${partitioned}) AS hive
        JOIN read_parquet(${files(dir)}, hive_partitioning = false) AS plain USING (swing_id)`);
      const pairs = found.map(({ folder, inside }) => [folder, inside]);
      for (const name of names) expect(pairs).toContainEqual([name, name]);
      // A session without a name lies under Hive's word for no value, which DuckDB reads as such.
      expect(pairs).toContainEqual([null, null]);
      const folders = (await readdir(join(dir, "swings"))).filter((name) => name.startsWith("session="));
      // One more for the swings without a session.
      expect(new Set(folders.map((name) => name.toLowerCase())).size).toBe(names.length + 1);
      expect(folders).toContain("session=Cage week 38");
    });
  });
});

describe("a library that DuckDB wrote", () => {
  it("is opened, the session taken from the folder, and an unknown column left alone", async () => {
    await inFolder({}, async (dir) => {
      const folder = join(dir, "swings", partitionName("May 5"));
      await mkdir(folder, { recursive: true });
      await query(`
        COPY (SELECT 'Ana' AS hitter, 'tee' AS input, 'in_play' AS outcome,
                     80::FLOAT AS exit_velocity_mph, 10::BIGINT AS launch_angle_deg, 'x' AS of_theirs)
        TO '${folder}/swings.parquet' (FORMAT parquet, COMPRESSION snappy)`);
      const { swings, problems } = await openLibrary(dir);
      expect(problems).toEqual([]);
      expect(swings).toMatchObject([
        { session: "May 5", hitter: "Ana", exit_velocity_mph: 80, launch_angle_deg: 10, spin_rpm: null },
      ]);
    });
  });
});
