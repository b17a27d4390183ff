/** Adding a million swings: time and memory, as a ratio to reading them; and the kill test at full length. */
import { spawnSync } from "node:child_process";
import { createWriteStream } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { once } from "node:events";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readSwings } from "../../src/library/files.ts";
import { csvHeader, csvRow } from "../../src/library/write.ts";
import { swingFields } from "../../src/swing/fields.ts";
import { root } from "../house/files.ts";
import { batted, type Run } from "./child.ts";
import type { Row } from "./row.ts";

const kills = 200;

async function write(path: string, rows: number, sessions: number): Promise<void> {
  const demo = (await readSwings(join(root, "data/demo/swings.csv"))).rows;
  const stream = createWriteStream(path);
  stream.write(csvHeader(swingFields));
  let text = "";
  for (let i = 0; i < rows; i++) {
    const row = {
      ...demo[i % demo.length]!,
      swing_id: `s${i}`,
      session: `session ${Math.floor((i * sessions) / rows)}`,
    };
    text += csvRow(row, swingFields);
    if (text.length > 1 << 20) {
      if (!stream.write(text)) await once(stream, "drain");
      text = "";
    }
  }
  stream.end(text);
  await once(stream, "finish");
}

export async function benchAdd(): Promise<Row[]> {
  const dir = await mkdtemp(join(tmpdir(), "bench-add-"));
  try {
    const table: Row[] = [];
    for (const [rows, sessions] of [
      [100_000, 200],
      [1_000_000, 2000],
      [1_000_000, 1],
    ] as const) {
      const csv = join(dir, "swings.csv");
      const library = join(dir, `library-${rows}-${sessions}`);
      await write(csv, rows, sessions);
      const check = await batted("check", csv);
      const add = await batted("add", csv, "--library", library, "--anyway");
      const again = await batted("add", csv, "--library", library, "--anyway");
      const said = ({ seconds, peak }: Run): string =>
        `${seconds.toFixed(1)} s, ${(peak / 1e9).toFixed(2)} GB`;
      table.push({
        what: `add ${rows.toLocaleString("en-US")} swings of ${sessions} ${sessions === 1 ? "session" : "sessions"}`,
        wanted: "",
        measured: `${said(add)}, ${(add.seconds / check.seconds).toFixed(1)} × check; the same again ${said(again)}`,
        reached: null,
      });
      await rm(library, { recursive: true });
    }
    return table;
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}

export function benchKills(): Row[] {
  const { status } = spawnSync(
    "npx",
    ["vitest", "run", "--config", "tests/vitest.config.ts", "tests/library/killed.test.ts"],
    { cwd: root, stdio: ["ignore", "ignore", "inherit"], env: { ...process.env, KILLS: String(kills) } },
  );
  return [
    {
      what: `a library whose add is killed ${kills} times`,
      wanted: "loses nothing",
      measured: status === 0 ? "nothing lost" : "lost something, or the test failed",
      reached: status === 0,
    },
  ];
}
