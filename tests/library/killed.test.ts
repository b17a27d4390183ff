/**
 * The process that adds is killed at random moments, again and again: the library opens each time, every swing that
 * was reported is there, and a file is there whole or not at all. KILLS says how often.
 */
import { spawn } from "node:child_process";
import { mkdir, readdir } from "node:fs/promises";
import { join } from "node:path";
import { randomLcg } from "d3";
import { expect, it } from "vitest";
import { openLibrary } from "../../src/library/library.ts";
import { root } from "../house/files.ts";
import { inFolder } from "../reading/support.ts";

const kills = Number(process.env["KILLS"] ?? 40);

/**
 * Adds from the k-th file on until it is killed, some moments after the first report.
 * @returns the last file begun and the last reported, and the ms that the first one took, null when it was not added
 */
function addUntilKilled(
  dir: string,
  sheets: string,
  from: number,
  moments: number,
): Promise<{ begun: number; added: number; took: number | null }> {
  const child = spawn(
    process.execPath,
    ["--import", "tsx", join(root, "tests/library/adder.ts"), dir, sheets, String(from)],
    { cwd: root, stdio: ["ignore", "pipe", "inherit"] },
  );
  let out = "";
  let timer: NodeJS.Timeout | null = null;
  let began: number | null = null;
  let took: number | null = null;
  child.stdout.on("data", (piece: Buffer) => {
    out += piece.toString();
    began ??= performance.now();
    if (took === null && out.includes("added")) took = performance.now() - began;
    // Starting takes longest: the moments count from the first file on.
    timer ??= setTimeout(() => child.kill("SIGKILL"), moments);
  });
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (status, signal) => {
      if (signal !== "SIGKILL") reject(new Error(`ended by itself: ${status}`));
      const last = (word: string): number =>
        Math.max(
          from - 1,
          ...[...out.matchAll(new RegExp(`${word} (\\d+)\n`, "g"))].map((m) => Number(m[1])),
        );
      resolve({ begun: last("begin"), added: last("added"), took });
    });
  });
}

it(
  `a library whose writer is killed ${kills} times loses nothing that was reported`,
  { timeout: kills * 10_000 },
  async () => {
    await inFolder({}, async (folder) => {
      const dir = join(folder, "library");
      const sheets = join(folder, "sheets");
      await mkdir(sheets);
      const random = randomLcg(0.4);
      let [next, reported, most] = [0, -1, -1];
      // Moments enough for some files, however slow or busy the machine.
      let span = 400;
      let amid = 0;
      let locked = 0;
      for (let kill = 0; kill < kills; kill++) {
        const { begun, added, took } = await addUntilKilled(dir, sheets, next, span * random());
        if (took !== null) span = Math.max(400, 6 * took);
        if ((await readdir(join(dir, "swings")).catch((): string[] => [])).includes(".lock")) locked++;
        const library = await openLibrary(dir).catch((error: unknown) => {
          // Killed before the folder was there.
          if (added >= 0 || kill > 0) throw error;
          return null;
        });
        if (library === null) continue;
        expect(library.problems.filter((p) => p.kind === "refused")).toEqual([]);
        const speeds = new Map(library.swings.map((s) => [s.swing_id, s.exit_velocity_mph]));
        expect(speeds.size).toBe(library.swings.length);
        // The file that was being added when the kill came is whole or absent.
        const whole = speeds.size / 9;
        expect(Number.isInteger(whole)).toBe(true);
        reported = Math.max(reported, added);
        most = Math.max(most, begun);
        expect(whole).toBeGreaterThanOrEqual(reported + 1);
        expect(whole).toBeLessThanOrEqual(most + 1);
        if (begun > added) amid++;
        for (let n = 0; n < whole * 9; n++) {
          const corrected = n % 9 === 0 && n / 9 < whole - 1;
          expect(speeds.get(`swing-${n}`), `swing-${n} after kill ${kill}`).toBe(corrected ? 70 : 60);
        }
        const waiting = library.problems.filter((p) => /waits? beside/.test(p.reason));
        if (whole > 0) expect(waiting.map((p) => p.reason.split(" ")[0])).toEqual([String(whole)]);
        // The killed one's file is added anew, so that both of its ends are tried.
        next = Math.max(0, reported);
      }
      expect(next).toBeGreaterThan(kills / 4);
      // The kills came while files were being added, and left locks behind that the next one took over.
      expect(amid).toBeGreaterThan(kills / 3);
      expect(locked).toBeGreaterThan(kills / 3);
    });
  },
);
