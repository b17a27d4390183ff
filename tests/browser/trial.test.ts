/** A fair trial without a terminal: planned on a page, tapped through in the cage round by round, and told at its end. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../notebooks/build.ts";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { launchChromium } from "./chromium.ts";
import { serveStatic, type StaticServer } from "./static.ts";
import { openPage, widths } from "./watch.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-trial-"));
const [dir, site] = [join(scratch, "library"), join(scratch, "site")];
let browser: Browser;
let served: Served;
let built: StaticServer;

/** Two evenings off the tee, 20 balls each, whose speeds differ by a few mph from ball to ball. */
function evenings(): string {
  const rows = Array.from({ length: 40 }, (_, i) => {
    const speed = 74 + 6 * Math.sin(i * 12.9898);
    return `${i < 20 ? "a" : "b"},Robin Test,R,tee,low,${speed.toFixed(1)},${8 + (i % 9)},${((i * 7) % 31) - 15},2025-04-0${i < 20 ? 1 : 8}T17:${String(i).padStart(2, "0")}:00`;
  });
  return [
    "session,hitter,bats,input,drill,exit_velocity_mph,launch_angle_deg,spray_angle_deg,time",
    ...rows,
  ].join("\n");
}

beforeAll(async () => {
  mkdirSync(dir);
  writeFileSync(join(dir, "swings.csv"), `${evenings()}\n`);
  writeFileSync(join(dir, "sessions.csv"), "session,date\na,2025-04-01\nb,2025-04-08\n");
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: dir });
  await buildNotebooks({ library: dir, out: site });
  built = await serveStatic(site, "/club/");
}, 180_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
  await built?.close();
  rmSync(scratch, { recursive: true, force: true });
});

const patience = { timeout: 60_000 };

/** The drills of the order, as they stand on the page. */
const orderOn = async (page: Page): Promise<string[]> => {
  await page.locator(".trial-blocks").first().waitFor(patience);
  return page.locator(".trial-blocks ul a").allTextContents();
};

const text = (page: Page, of: string) => (): Promise<string | null> => page.locator(of).textContent(patience);

/** Keeps so many balls of the round that the cage shows, and waits until the page counts them. */
async function hit(page: Page, speeds: readonly number[]): Promise<void> {
  const form = page.locator("form.tap-in");
  for (const [i, speed] of speeds.entries()) {
    await form.getByLabel("Speed, mph", { exact: true }).fill(String(speed), patience);
    await form.getByLabel("Angle, °", { exact: true }).fill(String(10 + (speed % 7)), patience);
    await page.keyboard.press("Enter");
    await expect
      .poll(text(page, ".cage-trial"), patience)
      .toContain(`: ${i + 1} of ${speeds.length} swings kept.`);
  }
}

describe("a fair trial", { timeout: 180_000 }, () => {
  it.each(["served", "built"] as const)(
    "is planned, tapped through and told on a page that is %s, the built one stopped half-way",
    async (how) => {
      const { address } = how === "served" ? served : built;
      const { page, errors, away } = await openPage(browser, address, widths.phone);
      await page.goto(`${address}progress.html#hitter=Robin+Test`);
      const plan = page.locator(".trial-form");
      await plan.getByLabel("The trial’s name").fill("Two bats", patience);
      await plan.getByLabel("One way").fill("wood", patience);
      await plan.getByLabel("The other way").fill("wood", patience);
      const main = text(page, "main");
      await expect.poll(main, patience).toContain("Name two ways that differ");
      await plan.getByLabel("The other way").fill("metal", patience);
      // Said beforehand; a coarser question takes fewer rounds.
      await expect
        .poll(main, patience)
        .toMatch(/To see a difference of 2\.0 mph with 80% chance: \d+ rounds of 6 swings/);
      await plan.getByLabel("Difference to be seen, mph").fill("8", patience);
      await plan.getByLabel("Swings a round").fill("2", patience);
      await expect
        .poll(main, patience)
        .toMatch(/To see a difference of 8\.0 mph with 80% chance: \d+ rounds of 2 swings/);
      await page.getByRole("button", { name: /^Draw the order of \d+ rounds$/ }).click(patience);
      await page.locator(".trial-blocks").first().waitFor(patience);
      const needed = Number(/chance: (\d+) rounds/.exec((await main())!)![1]);
      expect(await orderOn(page)).toHaveLength(needed);
      await plan.getByLabel("Rounds of each hitter").fill("4", patience);
      await expect.poll(() => page.locator(".trial-blocks ul a").count(), patience).toBe(4);
      const order = await orderOn(page);
      expect([...order].sort()).toEqual([
        expect.stringMatching(/^Two bats: metal \(round \d of 4\)$/),
        expect.stringMatching(/^Two bats: metal \(round \d of 4\)$/),
        expect.stringMatching(/^Two bats: wood \(round \d of 4\)$/),
        expect.stringMatching(/^Two bats: wood \(round \d of 4\)$/),
      ]);
      // Another order is another link, and a link keeps its own.
      await page.getByRole("button", { name: "Draw another order" }).click(patience);
      await expect.poll(() => new URL(page.url()).hash, patience).not.toContain("trial-seed=20&");
      const link = page.url().replace(/trial-seed=\d+/, "trial-seed=20");
      await page.goto("about:blank");
      await page.goto(link);
      expect(await orderOn(page)).toEqual(order);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(widths.phone);

      // Round by round in the cage, each by one tap from the one before.
      await page.getByRole("link", { name: /^Next: round 1, / }).click(patience);
      await expect.poll(text(page, ".cage-trial"), patience).toContain("Round 1 of 4");
      await page.getByLabel("Tap in balls").check(patience);
      await hit(page, [80, 82]);
      await page.getByRole("link", { name: /^Next: round 2, / }).click(patience);
      await expect
        .poll(text(page, ".cage-trial"), patience)
        .toMatch(/^Round 2 of 4, \w+: 0 of 2 swings kept/);
      await hit(page, [70, 71]);
      // On the way: which are done, which is next, and what an end here would cost.
      await page.getByRole("link", { name: "The order" }).click(patience);
      await expect.poll(text(page, ".trial"), patience).toContain("1 of 2 blocks are done. Stopped here");
      expect(await page.locator(".trial-way h3").textContent()).toBe("Robin Test 2 of 4 rounds done");
      expect(await page.locator(".first").textContent()).not.toContain("round 2 of 4");
      if (how === "built") {
        expect([errors, away]).toEqual([[], []]);
        await page.close();
        return;
      }
      await page.getByRole("link", { name: /^Next: round 3, / }).click(patience);
      await expect.poll(text(page, ".cage-trial"), patience).toMatch(/^Round 3 of 4, \w+: 0 of 2/);
      await hit(page, [81, 80]);
      await page.getByRole("link", { name: /^Next: round 4, / }).click(patience);
      await expect.poll(text(page, ".cage-trial"), patience).toMatch(/^Round 4 of 4, \w+: 0 of 2/);
      await hit(page, [72, 70]);
      await page.getByRole("link", { name: "The order" }).click(patience);
      await expect.poll(text(page, ".trial-way h3"), patience).toBe("Robin Test 4 of 4 rounds done");
      expect(await page.getByRole("link", { name: /^Next: round/ }).count()).toBe(0);
      expect(await page.locator(".trial").textContent()).toMatch(
        /Two bats: no clear difference between “metal” and “wood”, .* mph.*; 2 blocks in 1 session, p .* by the coins/,
      );
      expect(await page.locator(".trial").textContent()).not.toContain("Stopped here");
      expect([errors, away]).toEqual([[], []]);
      await page.close();
    },
  );
});
