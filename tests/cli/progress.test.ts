import { describe, expect, it } from "vitest";
import type { ProgressReport } from "../../src/cli/progress.ts";
import { run } from "./run.ts";

describe("batted progress", { timeout: 60_000 }, () => {
  it("answers first, tells every line, and what it takes to see more", async () => {
    const { status, out } = await run("progress", "--hitter", "Ada K.");
    expect(status).toBe(0);
    expect(out).toMatch(/^Ada K\. hits harder off the tee: up \d\.\d mph in 5 weeks\.\n/);
    expect(out).toMatch(
      /To see a change of 2\.0 mph off the tee, with 80% chance: \d sessions? of \d+ swings/,
    );
    expect(out).toMatch(/\d of \d+ lines stands? out with all of them looked at together/);
  });

  it("is the same as JSON, of every hitter, and by a plan of one's own", async () => {
    const { out } = await run("progress", "--json", "--change", "1", "--swings", "40");
    const { hitters } = JSON.parse(out) as ProgressReport;
    expect(hitters.length).toBe(8);
    expect(hitters.flatMap((h) => h.plans).length).toBeGreaterThan(15);
    for (const { change, swings } of hitters.flatMap((h) => h.plans))
      expect([change, swings]).toEqual([1, 40]);
  });

  it("is too early in a week, and refuses a change of nothing", async () => {
    const { out } = await run("progress", "--hitter", "Ada K.", "--until", "2025-03-08");
    expect(out).toMatch(/^It is too early to see a change for Ada K\./);
    expect((await run("progress", "--change", "0")).err).toMatch(/--change takes a number above 0, not "0"/);
    expect((await run("progress", "--swings", "1.5")).status).toBe(2);
  });
});
