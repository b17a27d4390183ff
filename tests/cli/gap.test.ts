import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { GapReport } from "../../src/cli/gapReport.ts";
import { badNumbers } from "../gap/support.ts";
import { run } from "./run.ts";
import { fileURLToPath } from "node:url";

let dir: string;
beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), "gap-"));
});
afterAll(() => rm(dir, { recursive: true }));

const demo = ["--library", fileURLToPath(new URL("../../data/demo", import.meta.url))];

describe("batted gap", () => {
  it("gives a script every figure", async () => {
    const { status, out, err } = await run("gap", ...demo, "--hitter", "cal r", "--json");
    expect(status).toBe(0);
    expect(err).toBe("8 rows were refused and are in no figure; “check” names them.\n");
    const report = JSON.parse(out) as GapReport;
    expect(report.hitters.map((h) => h.hitter)).toEqual(["Cal R."]);
    const { parts, gap } = report.hitters[0]!.exitVelocity;
    expect(parts.map((p) => p.part)).toEqual(["pitch speed", "place", "bat speed", "contact"]);
    expect(parts.reduce((sum, p) => sum + (p.value ?? 0), 0)).toBe(gap.value);
    expect(report.table.some((r) => r.input === "flip" && r.measure === "carry" && r.value !== null)).toBe(
      true,
    );
    expect(report.hitters[0]!.timing.map((t) => t.input)).toEqual(["live"]);
    expect(badNumbers(report)).toEqual([]);
  });

  it("tells what lies across hitters where all are asked for, and works out one hitter's rows alone for one", async () => {
    const all = JSON.parse((await run("gap", ...demo, "--json")).out) as GapReport;
    expect(all.across[0]!.hitters).toHaveLength(8);
    expect(all.stabilizing.length).toBeGreaterThan(30);
    expect(badNumbers(all)).toEqual([]);
    const one = JSON.parse((await run("gap", ...demo, "--hitter", "cal r", "--json")).out) as GapReport;
    expect([one.across, one.stabilizing]).toEqual([[], []]);
    // Whoever else is in the library, and is left out of the work, the hitter's own figures are the same.
    expect(one.hitters).toEqual(all.hitters.filter((h) => h.hitter === "Cal R."));
    expect(one.table).toEqual(all.table.filter((r) => r.hitter === "Cal R."));
  });

  it("tells people of all hitters in a line each, with its counts, and says how to see the rest", async () => {
    const { status, out } = await run("gap", ...demo);
    expect(status).toBe(0);
    const lines = out.trimEnd().split("\n");
    expect(lines.length).toBeLessThan(24);
    for (const name of ["Ada K.", "Ben T.", "Cal R.", "Dov M.", "Eve S.", "Finn L.", "Gil P.", "Hugo N."]) {
      const own = lines.filter((line) => line.trimStart().startsWith(name));
      expect(own, name).toHaveLength(1);
      expect(own[0]).toMatch(/n \d+ and \d+ .*mph|no gap/);
    }
    expect(out).toContain("--full prints every measure");
    expect(out).not.toMatch(/NaN|undefined|null/);
  });

  it("tells people the parts, rounded so that they add up", async () => {
    const { status, out } = await run("gap", ...demo, "--hitter", "Finn L.", "--measure", "exit_velocity");
    expect(status).toBe(0);
    const number = (text: string) => Number(text.replace("−", "-").replace("+", ""));
    const part = (name: string) => number(new RegExp(`    ${name} +([+−][\\d.]+)`).exec(out)![1]!);
    const total = number(/in all ([+−][\d.]+)/.exec(out)![1]!);
    const sum = ["pitch speed", "place", "bat speed", "contact"].reduce((s, name) => s + part(name), 0);
    expect(sum).toBeCloseTo(total, 9);
    expect(out).toMatch(/higher by \d+ to \d+ mph/);
    expect(out).toMatch(/ms late on average/);
    expect(out).not.toMatch(/NaN|undefined|null/);
  });

  it("puts no sign before a zero, and never mixes points with percent", async () => {
    const { out } = await run("gap", ...demo, "--full");
    expect(out).not.toMatch(/[+−]0(\.0)?(?![\d.])/);
    // A share's change is in points, with its interval.
    expect(out).toMatch(/ [+−]\d+ points \(−?\d+ to −?\d+\)/);
    for (const line of out.split("\n").filter((l) => / points/.test(l)))
      expect(line.replace(/^.*? → \d+%/, ""), line).not.toMatch(/%/);
    expect(out).not.toMatch(/\([^)]* to [^)]*%\)/);
  });

  it("narrows to a drill, a span and another pair", async () => {
    const { out } = await run(
      "gap",
      ...demo,
      "--hitter",
      "Ada K.",
      "--from",
      "flip",
      "--since",
      "2025-03-20",
      "--until",
      "2025-03-31",
      "--json",
    );
    const report = JSON.parse(out) as GapReport;
    const all = JSON.parse(
      (await run("gap", ...demo, "--hitter", "Ada K.", "--from", "flip", "--json")).out,
    ) as GapReport;
    expect(report.from).toBe("flip");
    expect(report.hitters[0]!.swings.from).toBeGreaterThan(0);
    expect(report.hitters[0]!.swings.from).toBeLessThan(all.hitters[0]!.swings.from);
  });

  it("says plainly what a wrong call is", async () => {
    const sentence = async (...args: string[]) => {
      const { status, err, out } = await run("gap", ...demo, ...args);
      expect(out).toBe("");
      return `${status} ${err.trim().split("\n").at(-1)}`;
    };
    expect(await sentence("--hitter", "Cal Q.")).toBe(
      '2 There is no hitter named "Cal Q." in the library; the nearest is "Cal R.".',
    );
    expect(await sentence("--from", "live")).toBe(
      "2 A gap lies between two kinds of work: --from and --to are both live.",
    );
    expect(await sentence("--since", "2025-02-30")).toBe(
      '2 --since takes a day like 2025-03-03, not "2025-02-30".',
    );
    expect(await sentence("--since", "2025-04-01", "--until", "2025-03-01")).toBe(
      "2 --since 2025-04-01 lies after --until 2025-03-01.",
    );
    expect(await sentence("--measure", "carri")).toMatch(
      /^2 There is no measure named "carri" in the library; the nearest is "carry"/,
    );
    expect(await sentence("--sessions", "x.csv")).toBe(
      "2 --sessions goes with CSV files; a library has its own sessions.",
    );
  });

  it("reads CSV files, with what is missing said and no NaN", async () => {
    const file = join(dir, "swings.csv");
    const rows = ["hitter,bats,input,exit_velocity_mph,launch_angle_deg,pitch_speed_mph"];
    for (let i = 0; i < 12; i++) rows.push(`Sam,R,tee,${80 + i},12,`);
    rows.push("Sam,R,live,88,10,75", "Sam,R,live,fast,10,75");
    await writeFile(file, rows.join("\n"));
    const { status, out, err } = await run("gap", file);
    expect(status).toBe(1);
    expect(err).toMatch(/swings\.csv.*row 15.*exit_velocity_mph/);
    expect(out).toMatch(/too few for an interval: 12 and 1/);
    expect(out).not.toMatch(/NaN|undefined|null/);
    const { out: json } = await run("gap", file, "--json");
    expect(badNumbers(JSON.parse(json))).toEqual([]);
  });

  it("no live rows: a sentence, and the tee work still counted", async () => {
    const file = join(dir, "tee.csv");
    const rows = [75, 77, 79, 81, 83, 85].map((speed) => `Sam,R,tee,${speed},12`);
    await writeFile(file, ["hitter,bats,input,exit_velocity_mph,launch_angle_deg", ...rows].join("\n"));
    const { status, out } = await run("gap", file);
    expect(status).toBe(0);
    expect(out).toMatch(/Sam has no live swings in this scope\./);
    expect(out).not.toMatch(/NaN|undefined|null/);
    const report = JSON.parse((await run("gap", file, "--json")).out) as GapReport;
    expect(report.table.find((r) => r.measure === "exit_velocity")).toMatchObject({ n: 6, value: 80 });
  });
});
