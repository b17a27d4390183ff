import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { Budget } from "../../src/setup/budget.ts";
import type { TapedStand } from "../../src/setup/measured.ts";
import { run } from "./run.ts";

const dir = mkdtempSync(join(tmpdir(), "batted-setup-"));
afterAll(() => rmSync(dir, { recursive: true, force: true }));
const budgetOf = async (...args: string[]): Promise<Budget & { taped: TapedStand | null }> => {
  const { status, out, err } = await run("setup", ...args, "--json");
  expect([status, err]).toEqual([0, ""]);
  return JSON.parse(out) as Budget & { taped: TapedStand | null };
};

describe("batted setup", () => {
  it("of a placement in order says fine, and nothing to move", async () => {
    const { status, out } = await run("setup", "--distance", "21.6");
    expect(status).toBe(0);
    expect(out).toMatch(/^Fine: no number is off/m);
    expect(out).toMatch(/^Launch angle +0\.0° +fine/m);
    expect(out).not.toMatch(/Move it|Turn it|Raise|Lower/);
    expect(out).toMatch(/Bats down and nobody between bat and net/);
  });

  it("shows the reader's units", async () => {
    const call = ["setup", "--distance", "18.4", "--told", "19", "--offset", "10", "--yaw", "-2"];
    const { status, out } = await run(...call, "--units", "metric");
    expect(status).toBe(0);
    expect(out).toMatch(/^Placement: 5\.61 m in front of/m);
    expect(out).toMatch(/^Exit velocity +[+−]\d+\.\d km\/h/m);
    expect(out).toMatch(/^Contact point +\d+\.\d cm/m);
    expect(out).toMatch(/\(\d+ km\/h, \d+°, \d+ m\): carry reads [+−]\d+ m\./);
    expect(out).not.toMatch(/\d (mph|ft|in)\b/);
    expect((await run(...call)).out).toMatch(/^Placement: 18\.4 ft in front of/m);
    expect((await run("setup", "--distance", "18", "--units", "furlongs")).status).toBe(2);
  });

  it("says of a carry that is right that it is, and not that it reads 0 ft", async () => {
    const { out } = await run("setup", "--distance", "21.6");
    expect(out).not.toMatch(/reads 0/);
    expect(out.match(/carry reads right to half a foot\./g)).toHaveLength(3);
  });

  it("says measure by measure what is off, and what to move by how much", async () => {
    const { out } = await run("setup", "--distance", "18.4", "--yaw", "3", "--tilt", "-1");
    expect(out).toMatch(/^Spray angle +\+3\.\d° +redo it/m);
    expect(out).toMatch(/^Launch angle +−1\.0° +tighten it/m);
    expect(out).toMatch(
      /^Turn \+3\.0°, redo it: Turn it by 3\.0°: a sight through it to the rubber has to come 2 ft 2 in farther/m,
    );
    expect(out).toMatch(/^Tilt −1\.0°, tighten it: Lower its end toward the pitcher/m);
    expect(out.match(/carry reads/g)).toHaveLength(3);
  });

  it("takes what people measure: tapes, a level's rise, the far sight", async () => {
    const taped = await budgetOf(
      "--tape-first",
      "77.9",
      "--tape-third",
      "78.2",
      "--tilt-rise",
      "0.25",
      "--far-sight",
      "10",
    );
    expect(taped.placement.offset_in).toBeGreaterThan(1);
    expect(taped.placement.distance_ft).toBeCloseTo(18.4, 0);
    expect(taped.taped!.offsetDoubt_in).toBeGreaterThan(0.1);
    expect(taped.placement.tilt_deg).toBeCloseTo(1.193, 3);
    expect(taped.placement.yaw_deg).toBeLessThan(-0.5);
    expect(
      (await budgetOf("--distance", "-13.7", "--roll-rise", "1", "--level-length", "24")).placement.roll_deg,
    ).toBeCloseTo(2.386, 3);
  });

  it("knows the two kinds of tracker, and what it was told", async () => {
    const ev = (b: Budget): number => b.measures.find((m) => m.measure === "exit_velocity_mph")!.value;
    expect(ev(await budgetOf("--distance", "19.6", "--told", "18.6"))).toBeLessThan(-4);
    expect(ev(await budgetOf("--distance", "19.6", "--told", "18.6", "--direct"))).toBeCloseTo(0, 9);
    expect(ev(await budgetOf("--distance", "19.6"))).toBeCloseTo(0, 9);
    expect((await budgetOf("--distance", "-13.7", "--offset", "31")).verdict).toBe("redo it");
    expect((await budgetOf("--distance", "-13.7", "--offset", "31", "--told-offset", "31")).verdict).toBe(
      "fine",
    );
  });

  it("asks where the tracker stands, or takes it from a session of a library", async () => {
    const none = await run("setup", "--yaw", "1");
    expect([none.status, none.out]).toEqual([2, ""]);
    expect(none.err).toMatch(
      /^Where does the tracker stand\? .*--distance .*--library and its --session\.?\n$/,
    );
    const of = async (...args: string[]) => run("setup", "--library", "data/demo", ...args);
    const latest = await of();
    expect(latest.status).toBe(0);
    expect(latest.out).toMatch(/what sessions\.csv says of "2025-04-12 live"/);
    expect(latest.out).toMatch(/^Placement: 13\.7 ft behind the plate's point, 2 ft 7 in off the line/);
    expect((await of("--session", "2025-03-04 tee")).out).toMatch(
      /^Placement: 19\.3 ft in front of the plate's point, 7\.1 in off the line toward third/,
    );
    expect((await of("--session", "2025-03-04 tee", "--yaw", "3")).out).toMatch(/^Turn \+3\.0°, redo it/m);
    const wrong = await of("--session", "2025-03-04 tea");
    expect([wrong.status, wrong.out]).toEqual([2, ""]);
    expect(wrong.err).toMatch(/no session named .*nearest .*2025-03-04 tee/);
    expect((await run("setup", "--session", "x")).err).toMatch(/--session needs --library/);
  });

  it("asks about metres typed as feet and about 40°, and still answers", async () => {
    const { status, out } = await run("setup", "--distance", "5.2", "--tilt", "40");
    expect(status).toBe(0);
    expect(out).toMatch(/Was it measured in metres\? 5\.2 m would be 17\.1 ft/);
    expect(out).toMatch(/A tilt of 40° is not how a tracker is left standing/);
    expect(out).toMatch(/^Launch angle +\+40\.0° +redo it/m);
  });

  it("refuses what can't be, in one sentence", async () => {
    for (const [args, words] of [
      [["--tilt", "95"], /outside -45 to 45/],
      [["--distance", "two"], /needs a number/],
      [["--tape-first", "20"], /go together/],
      [["--tape-first", "20", "--tape-third", "20"], /meet nowhere/],
      [["--tape-first", "78", "--tape-third", "78", "--distance", "18"], /leave out/],
      [["--yaw", "1", "--far-sight", "3"], /say the same/],
      [["--checklist"], /needs --output/],
      [["-o", "x.html"], /goes with --checklist/],
    ] as const) {
      const { status, out, err } = await run("setup", ...args);
      expect(status, args.join(" ")).toBe(2);
      expect(out).toBe("");
      expect(err.trim().split("\n")).toHaveLength(1);
      expect(err).toMatch(words);
    }
  });

  it("writes the checklist as one page that asks for nothing", async () => {
    const file = join(dir, "checklist.html");
    expect((await run("setup", "--checklist", "-o", file)).status).toBe(0);
    const page = readFileSync(file, "utf8");
    expect(page.match(/<li class="step">/g)).toHaveLength(5);
    expect(page).toContain("<h1>Five looks before the first swing</h1>");
    expect(page).toContain("How close is close enough depends on where the tracker stands");
    const placed = join(dir, "placed.html");
    expect((await run("setup", "--checklist", "-o", placed, "--distance", "-13.7")).status).toBe(0);
    expect(readFileSync(placed, "utf8")).toMatch(/13\.7 ft behind the plate&#39;s point[^]*, to \d+\.\d in/);
    for (const caution of [
      /cables/,
      /battery/,
      /between bat and net/,
      /helmets on/i,
      /Stop on pain/,
      /facility's rules/,
    ])
      expect(page.replaceAll("&#39;", "'")).toMatch(caution);
    expect(page).not.toMatch(/https?:|<script|src=/);
    expect(page).not.toMatch(/NaN|undefined|Infinity/);
  });
});
