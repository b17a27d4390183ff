import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { TrialPlan } from "../../src/cli/trial.ts";
import { run } from "./run.ts";

const dir = mkdtempSync(join(tmpdir(), "batted-trial-"));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

describe("batted trial", { timeout: 60_000 }, () => {
  it("draws an order, says how many rounds it takes, and prints it", async () => {
    const call = ["trial", "--name", "Tee heights", "--arm", "high", "--arm", "low", "--change", "3"];
    const { out, status } = await run(...call, "--json");
    expect(status).toBe(0);
    const { rounds, needed } = JSON.parse(out) as TrialPlan;
    expect(rounds.length).toBe(needed);
    expect(rounds[0]!.drill).toBe(`Tee heights: ${rounds[0]!.arm} (round 1 of ${needed})`);
    const file = join(dir, "order.html");
    expect((await run(...call, "--rounds", "8", "-o", file)).out).toContain(file);
    expect(readFileSync(file, "utf8").match(/\(round \d of 8\)/g)).toHaveLength(8);
  });

  it("tells what the season's came to, and refuses what is no trial", async () => {
    expect((await run("trial", "--library", "data/season")).out).toMatch(
      /^Two bats: exit velocity of the better half is lower with “short” than with “long”/,
    );
    expect((await run("trial")).out).toMatch(/No swing here is of a trial/);
    expect((await run("trial", "--name", "x", "--arm", "a")).status).toBe(2);
    expect((await run("trial", "--arm", "a", "--arm", "b")).err).toMatch(/needs a name/);
    expect((await run("trial", "--name", "x", "--arm", "a", "--arm", "b", "--rounds", "3")).status).toBe(2);
  });
});
