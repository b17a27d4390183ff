/** What only a process of its own shows: the bin, a reader that hangs up, and memory that stays steady. */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { spawn } from "node:child_process";
import { open } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { scanText } from "../../src/reading/read.ts";
import { textFrom } from "../../src/reading/text.ts";
import { inFolder } from "../reading/support.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const head = "hitter,input,exit_velocity_mph,launch_angle_deg";

interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the program from another folder, so that no path is taken from where it stands. */
function start(args: readonly string[], options: { bin?: boolean; hangUp?: boolean } = {}): Promise<Ended> {
  const command =
    options.bin === true ? [`${root}src/cli/batted.mjs`] : ["--import", "tsx", `${root}src/cli/main.ts`];
  const child = spawn(process.execPath, [...command, ...args], { cwd: options.bin === true ? "/" : root });
  let out = "";
  let err = "";
  child.stdout.on("data", (piece: Buffer) => {
    out += piece.toString();
    if (options.hangUp === true) child.stdout.destroy();
  });
  child.stderr.on("data", (piece: Buffer) => (err += piece.toString()));
  return new Promise((resolve) => child.on("close", (status) => resolve({ status, out, err })));
}

describe("the process", () => {
  it("as the package's bin, from any folder, judges a file", async () => {
    await inFolder({ "a.csv": `${head}\nAna,tee,80,10\n,tee,80,10\n` }, async (dir) => {
      const { status, out, err } = await start(["check", `${dir}/a.csv`], { bin: true });
      expect([status, err]).toEqual([1, ""]);
      expect(out).toContain("2 rows, 1 taken, 1 refused.");
    });
  });

  it("ends with 2 and a sentence on stderr for a wrong call", async () => {
    const { status, out, err } = await start(["check", "/no/such.csv"]);
    expect([status, out, err]).toEqual([2, "", "/no/such.csv does not exist.\n"]);
  });

  it("is quiet when its reader hangs up", async () => {
    await inFolder({ "a.csv": `${head}\n${"Ana,tee,x,10\n".repeat(60_000)}` }, async (dir) => {
      const { out, err } = await start(["check", `${dir}/a.csv`], { hangUp: true });
      expect(out).toContain("Refused:");
      expect(err).toBe("");
    });
  });
});

describe("a file of 200 MB", () => {
  it("that is no table is refused at its beginning", async () => {
    await inFolder({}, async (dir) => {
      const file = await open(`${dir}/junk.csv`, "w");
      const piece = Buffer.from("neither,heading,nor,row\n".repeat(43_691));
      for (let written = 0; written < 200e6; written += piece.length) await file.write(piece);
      await file.close();
      const { status, err } = await start(["check", `${dir}/junk.csv`]);
      expect(status).toBe(1);
      expect(err).toMatch(/has no heading for the columns/);
    });
  });

  it("that is no table is read no further than that", async () => {
    let bytes = 0;
    function* pieces(): Generator<Buffer> {
      const piece = Buffer.from("neither,heading,nor,row\n".repeat(43_691));
      for (; bytes < 200e6; bytes += piece.length) yield piece;
    }
    const reading = async (): Promise<number> => {
      let rows = 0;
      for await (const batch of scanText("swings", textFrom("a.csv", pieces()))) rows += batch.rows.length;
      return rows;
    };
    await expect(reading()).rejects.toThrow(/has no heading for the columns/);
    expect(bytes).toBeLessThan(10e6);
  });

  it("is read in steady memory", async () => {
    const note = "n".repeat(20_000);
    const rows = 10_000;
    let bytes = 0;
    function* pieces(): Generator<Buffer> {
      yield Buffer.from(`${head},note\n`);
      for (let i = 0; i < rows; i += 50) {
        const lines = Array.from({ length: 50 }, (_, k) => `Ana,tee,80,10,${note}${i + k}\n`);
        const piece = Buffer.from(lines.join(""));
        bytes += piece.length;
        yield piece;
      }
    }
    // What is held after a collection: when one comes by itself is each version's own affair.
    setFlagsFromString("--expose-gc");
    const collect = runInNewContext("gc") as () => void;
    const held = (): number => {
      collect();
      const { heapUsed, external } = process.memoryUsage();
      return heapUsed + external;
    };
    const before = held();
    let most = 0;
    let read = 0;
    let batches = 0;
    for await (const batch of scanText("swings", textFrom("a.csv", pieces()))) {
      read += batch.rows.length;
      if (++batches % 10 === 0) most = Math.max(most, held() - before);
    }
    expect(read).toBe(rows);
    expect(bytes).toBeGreaterThan(200e6);
    expect(batches).toBeGreaterThan(50);
    expect(most).toBeLessThan(50e6);
  });
});
