/** Adding a million swings: time and memory, as a ratio to reading them; and the kill test at full length. */
import { spawnSync } from "node:child_process";
import { createWriteStream } from "node:fs";
import { mkdtemp, rm, stat } from "node:fs/promises";
import { once } from "node:events";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readSwings } from "../../src/swing/read.ts";
import { csvHeader, csvRow } from "../../src/swing/write.ts";
import { swingFields } from "../../src/swing/fields.ts";
import { root } from "../house/files.ts";

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

/** Runs a command, and says how long it took and how much memory it had at most. */
function timed(args: readonly string[]): { seconds: number; megabytes: number } {
  const begin = performance.now();
  const code = `process.on("exit",()=>console.error("peak "+process.resourceUsage().maxRSS))`;
  const { stderr, status } = spawnSync(
    process.execPath,
    [
      "--import",
      "tsx",
      "--import",
      `data:text/javascript,${encodeURIComponent(code)}`,
      "src/cli/main.ts",
      ...args,
    ],
    { cwd: root, encoding: "utf8" },
  );
  if (status !== 0) throw new Error(stderr);
  return {
    seconds: (performance.now() - begin) / 1000,
    megabytes: Number(/peak (\d+)/.exec(stderr)![1]) / 1024,
  };
}

export async function benchAdd(): Promise<void> {
  const dir = await mkdtemp(join(tmpdir(), "bench-add-"));
  try {
    const table = [];
    for (const [rows, sessions] of [
      [100_000, 200],
      [1_000_000, 2000],
      [1_000_000, 1],
    ] as const) {
      const csv = join(dir, "swings.csv");
      const library = join(dir, `library-${rows}-${sessions}`);
      await write(csv, rows, sessions);
      const check = timed(["check", csv]);
      const add = timed(["add", csv, "--library", library, "--anyway"]);
      const again = timed(["add", csv, "--library", library, "--anyway"]);
      table.push({
        rows,
        sessions,
        "CSV, MB": Math.round((await stat(csv)).size / 1e6),
        "check, s": Number(check.seconds.toFixed(1)),
        "add, s": Number(add.seconds.toFixed(1)),
        "add ÷ check": Number((add.seconds / check.seconds).toFixed(2)),
        "add, MB": Math.round(add.megabytes),
        "same again, s": Number(again.seconds.toFixed(1)),
        "same again, MB": Math.round(again.megabytes),
      });
      await rm(library, { recursive: true });
    }
    console.log("\nAdding to a library");
    console.table(table);
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}

export function benchKills(): void {
  const { status } = spawnSync(
    "npx",
    ["vitest", "run", "--config", "tests/vitest.config.ts", "tests/swing/killed.test.ts"],
    { cwd: root, stdio: "inherit", env: { ...process.env, KILLS: String(kills) } },
  );
  if (status !== 0) throw new Error(`A library lost something in ${kills} kills.`);
}
