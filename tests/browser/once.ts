/**
 * What is made once before the first worker starts, so that no two make it at once, one over the other: the npm
 * package's Chromium is unpacked if the browser tests are to use it, and the pages' libraries are made ready.
 */
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { root } from "../house/files.ts";
import { unpackBundled, wishedChromium } from "./chromium.ts";

/** The server writes this last. */
const ready = join(root, "node_modules/.vite/notebooks/deps/_metadata.json");

async function readyLibraries(): Promise<void> {
  if (existsSync(ready)) return;
  const library = mkdtempSync(join(tmpdir(), "batted-ready-"));
  const args = ["--import", "tsx", "src/cli/main.ts", "notebooks", "--library", library];
  const program = spawn(process.execPath, args, { cwd: root, stdio: ["ignore", "ignore", "inherit"] });
  const ended = new Promise<void>((done) => program.once("exit", () => done()));
  const wait = (async () => {
    for (let i = 0; i < 600 && !existsSync(ready); i++) await new Promise((done) => setTimeout(done, 100));
  })();
  // Where it can't be made ready, each server does it, and each test says what it misses.
  await Promise.race([wait, ended]);
  program.kill("SIGTERM");
  await ended;
  rmSync(library, { recursive: true });
}

export async function setup(): Promise<void> {
  if (wishedChromium() === null) unpackBundled();
  await readyLibraries();
}
