/** A command of the kit in a process of its own, with the time and memory it took. */
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { join } from "node:path";

const root = fileURLToPath(new URL("../..", import.meta.url));

export interface Run {
  /** From the start of the process to its end, s. */
  readonly seconds: number;
  /** Of all its threads, s. */
  readonly cpuSeconds: number;
  /** The most memory it held at once, bytes. */
  readonly peak: number;
}

/** A run in the words of the table. */
export const said = ({ seconds, cpuSeconds }: Run): string =>
  `${seconds.toFixed(2)} s (${cpuSeconds.toFixed(2)} s of processor)`;

/** The best of so many runs, by what counts. */
export async function bestOf(
  turns: number,
  by: "seconds" | "cpuSeconds",
  ...args: readonly string[]
): Promise<Run> {
  const runs: Run[] = [];
  for (let i = 0; i < turns; i++) runs.push(await batted(...args));
  return runs.reduce((a, b) => (b[by] < a[by] ? b : a));
}

/** Told by the process itself as it ends: no other tool has to be on the machine. */
const witness = `data:text/javascript,import { writeSync } from "node:fs";
process.on("exit", () => writeSync(3, JSON.stringify(process.resourceUsage())));`;

/**
 * Runs `batted` with these words.
 * @throws Error with what it wrote to stderr, when it ends with anything but 0
 */
export async function batted(...args: readonly string[]): Promise<Run> {
  const started = performance.now();
  const child = spawn(process.execPath, ["--import", witness, join(root, "src/cli/batted.mjs"), ...args], {
    cwd: root,
    stdio: ["ignore", "ignore", "pipe", "pipe"],
  });
  let complaint = "";
  let usage = "";
  child.stderr!.on("data", (piece: Buffer) => (complaint += piece.toString()));
  child.stdio[3]!.on("data", (piece: Buffer) => (usage += piece.toString()));
  const status = await new Promise<number | null>((done, fail) => child.on("error", fail).on("close", done));
  const seconds = (performance.now() - started) / 1000;
  if (status !== 0) throw new Error(`batted ${args.join(" ")} ended with ${status}: ${complaint}`);
  const { userCPUTime, systemCPUTime, maxRSS } = JSON.parse(usage) as NodeJS.ResourceUsage;
  return { seconds, cpuSeconds: (userCPUTime + systemCPUTime) / 1e6, peak: maxRSS * 1024 };
}
