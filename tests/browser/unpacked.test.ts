/** The npm package's Chromium where several processes ask for it at once: each gets one that is whole. */
import { execFile } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, expect, it } from "vitest";
import { root } from "../house/files.ts";

const within = mkdtempSync(join(tmpdir(), "batted-unpacked-"));
afterAll(() => rmSync(within, { recursive: true, force: true }));

/** What a process of its own is told, and how large the browser is at that moment. */
async function asked(): Promise<{ folder: string; bytes: number }> {
  const script = `
    const { statSync } = await import("node:fs");
    const { unpackBundled } = await import("./tests/browser/chromium.ts");
    const folder = unpackBundled(${JSON.stringify(within)});
    console.log(JSON.stringify({ folder, bytes: statSync(folder + "/chromium").size }));`;
  const { stdout } = await promisify(execFile)(
    process.execPath,
    ["--import", "tsx", "--input-type=module", "-e", script],
    { cwd: root },
  );
  return JSON.parse(stdout) as { folder: string; bytes: number };
}

it("unpacks a browser that is whole for each of two that ask at once, and leaves one folder", async () => {
  const found = await Promise.all([asked(), asked()]);
  const [first, second] = found;
  expect(second).toEqual(first);
  const whole = statSync(join(first!.folder, "chromium"));
  // The packed file alone is 60 MB.
  expect(whole.size).toBeGreaterThan(1e8);
  expect(first!.bytes).toBe(whole.size);
  expect(whole.mode & 0o100).toBe(0o100);
  for (const part of ["al2023/lib", "fonts/fonts.conf", "libGLESv2.so"])
    expect(statSync(join(first!.folder, part)).size, part).toBeGreaterThan(0);
  expect(readdirSync(within)).toHaveLength(1);
}, 120_000);
