import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Pool, threadsFor } from "../../src/cli/enrich-pool.ts";
import { swingFields, type Swing } from "../../src/swing/fields.ts";
import { PackedRows, type Block } from "../../src/library/packed-rows.ts";
import { writeWhole } from "../../src/library/write.ts";
import { run } from "./run.ts";

let dir = "";
beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), "enrich-pool-"));
});
afterAll(() => rmSync(dir, { recursive: true }));

/** More rows than a block holds, with texts that a careless copy would spoil. */
function swingsFile(rows: number): string {
  const lines = [
    "swing_id,session,hitter,bats,input,outcome,exit_velocity_mph,launch_angle_deg,spray_angle_deg,note",
  ];
  for (let i = 0; i < rows; i++) {
    const note = ["", "plain", '"a, comma"', '"line\nend"', "é✓", "=1+1"][i % 6]!;
    lines.push(
      `w${i},s${i % 3},Hitter ${i % 5},${"LR"[i % 2]},${["tee", "flip", "live"][i % 3]},` +
        `${i % 11 === 0 ? "miss,,," : `,${40 + (i % 700) / 10},${-30 + (i % 97)},${-60 + (i % 121)}`},${note}`,
    );
  }
  lines.push("x,s1,Hitter 1,R,tee,,880,1,1,refused");
  const file = join(dir, `${rows}.csv`);
  writeFileSync(file, lines.join("\n"));
  return file;
}

function blocks(count: number): Block[] {
  const rows = new PackedRows<Swing>(swingFields);
  for (let i = 0; i < 4096 * count; i++) rows.push({ hitter: "A", input: "tee" } as Swing);
  return [...rows.drain()].map((block, i) => (block.numbers.fill(i), block));
}

/** A worker that does as the text says once a block has come. */
function worker(name: string, body: string): URL {
  const file = join(dir, `${name}.mjs`);
  writeFileSync(file, `import { parentPort } from "node:worker_threads";\n${body}\n`);
  return pathToFileURL(file);
}

async function written(pool: Pool, count: number): Promise<string> {
  const path = join(dir, "pool.csv");
  async function* pieces(): AsyncGenerator<string> {
    for await (const { text } of pool.texts(blocks(count))) yield text;
  }
  try {
    await writeWhole(path, pieces());
  } finally {
    await pool.close();
  }
  const text = readFileSync(path, "utf8");
  rmSync(path);
  return text;
}

describe("several threads", () => {
  it("write the bytes and say the words of one", async () => {
    const file = swingsFile(5000);
    const call = async (threads: number) => {
      const out = join(dir, `out-${threads}.csv`);
      const { status, out: said } = await run("enrich", file, "-o", out, "--json", "--threads", `${threads}`);
      const { output, refused_file, seconds, ...summary } = JSON.parse(said) as Record<string, unknown>;
      expect([output, refused_file, typeof seconds]).toEqual([
        out,
        out.replace(".csv", ".refused.csv"),
        "number",
      ]);
      const bytes = readFileSync(out);
      const sha256 = createHash("sha256").update(bytes).digest("hex");
      return {
        status,
        summary,
        size: bytes.length,
        sha256,
        refused: readFileSync(refused_file as string, "utf8"),
      };
    };
    const one = await call(1);
    expect(one.summary["swings"]).toBe(5000);
    expect(one.size).toBeGreaterThan(500_000);
    for (const threads of [2, 3]) expect(await call(threads)).toEqual(one);
  });

  it("keep the blocks' order when the later ones are done first", async () => {
    const file = worker(
      "late",
      `parentPort.on("message", ({ numbers }) => {
  if (numbers[0] === 0) for (const end = Date.now() + 100; Date.now() < end; );
  parentPort.postMessage({ text: String(numbers[0]), counts: {} });
});`,
    );
    expect(await written(new Pool(2, file), 9)).toBe("012345678");
  });

  it.each([
    ["throws", `parentPort.on("message", () => { throw new Error("out of luck"); });`, /out of luck/],
    ["ends", `parentPort.on("message", () => process.exit(3));`, /ended with 3/],
    ["never starts", `import "./not-there.mjs";`, /not-there/],
  ])("end with a sentence and no file when one %s", async (name, body, reason) => {
    const failed = written(new Pool(2, worker(name.replace(" ", "-"), body)), 8);
    await expect(failed).rejects.toThrow(reason);
    await expect(failed).rejects.toThrow(/the swings are not written; --threads 1 goes without/);
    await expect(failed).rejects.toMatchObject({ name: "Fault", status: 1 });
    expect(readdirSync(dir).filter((f) => f.includes("pool.csv"))).toEqual([]);
  });

  it("refuse a number of threads that is none", async () => {
    for (const threads of ["0", "1.5", "two", "65"]) {
      const { status, err } = await run("enrich", "x.csv", "-o", join(dir, "x.csv"), "--threads", threads);
      expect([status, err]).toEqual([2, `--threads takes a whole number from 1 to 64, not "${threads}".\n`]);
    }
  });

  it("are for large files alone", () => {
    expect(threadsFor(100_000)).toBe(1);
    expect(threadsFor(1e9)).toBeGreaterThanOrEqual(1);
  });
});
