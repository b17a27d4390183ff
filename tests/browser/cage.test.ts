/** In the cage: the last ball and its round, everything in one window, and every new ball at once. */
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { launchChromium } from "./chromium.ts";
import { openPage } from "./watch.ts";

const dir = mkdtempSync(join(tmpdir(), "batted-cage-"));
const file = join(dir, "swings.csv");
const row = (minute: number, speed: number, launch: number, more = ""): string =>
  `a,Robin Test,R,tee,low,${speed},${launch},${more === "" ? "5" : more},2025-04-01T17:${String(minute).padStart(2, "0")}:00\n`;
let browser: Browser;
let served: Served;

beforeAll(async () => {
  writeFileSync(
    file,
    `session,hitter,bats,input,drill,exit_velocity_mph,launch_angle_deg,spray_angle_deg,time\n${row(1, 80, 12)}${row(2, 81, 40)}${row(3, 82, 14)}`,
  );
  writeFileSync(join(dir, "targets.csv"), "drill,launch_angle_deg_low,launch_angle_deg_high\nlow,5,20\n");
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: dir });
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(dir, { recursive: true, force: true });
});

const speedIs = (page: Page, speed: string): Promise<unknown> =>
  page.waitForFunction((s) => document.querySelector(".cage-figure b")?.textContent === s, speed, {
    timeout: 20_000,
  });

describe("in the cage", { timeout: 120_000 }, () => {
  it.each([
    [1280, 800],
    [1024, 768],
    [390, 844],
  ])("everything stands in a window of %i by %i px", async (width, height) => {
    const { page, errors, away } = await openPage(browser, served.address, width);
    await page.setViewportSize({ width, height });
    await page.goto(`${served.address}in-the-cage.html`);
    await page.waitForSelector(".cage-picture svg");
    const ends = await page.evaluate(() =>
      [".cage-words", ".cage-picture svg"].map((of) => document.querySelector(of)!.getBoundingClientRect()),
    );
    for (const { bottom, right } of ends) {
      expect(bottom).toBeLessThanOrEqual(height);
      expect(right).toBeLessThanOrEqual(width);
    }
    // Read from five metres: as large as the window lets it be.
    const size = await page.$eval(".cage-figure b", (b) => parseFloat(getComputedStyle(b).fontSize));
    expect(size).toBeGreaterThan(width < 600 ? 64 : 140);
    expect(await page.locator("footer").innerText()).toContain("medical advice");
    expect([errors, away]).toEqual([[], []]);
    await page.close();
  });

  it("shows a new ball where it is, waits for the rest of a half-written one, and reads aloud when asked", async () => {
    const { page, errors } = await openPage(browser, served.address, 1280);
    await page.addInitScript(() => {
      const said: string[] = [];
      Object.assign(window, { said });
      Object.defineProperty(window, "speechSynthesis", {
        value: { cancel: () => {}, speak: (u: SpeechSynthesisUtterance) => said.push(u.text) },
      });
    });
    const said = (): Promise<string[]> => page.evaluate(() => (window as unknown as { said: string[] }).said);
    await page.goto(`${served.address}in-the-cage.html`);
    await speedIs(page, "82");
    expect(await page.locator(".cage-tally").innerText()).toBe("2 of 3 in the window");
    await page.evaluate(() => Object.assign(window, { old: true }));
    appendFileSync(file, row(4, 91.6, 18.2));
    await speedIs(page, "92");
    expect(await page.locator(".cage-tally").innerText()).toBe("3 of 4 in the window, 2 in a row");
    expect(await page.locator(".marks li").evaluateAll((all) => all.map((li) => li.className))).toEqual([
      "met",
      "not",
      "met",
      "met last",
    ]);
    expect(await said()).toEqual([]);
    await page.getByLabel("Read aloud").check();
    expect(await said()).toEqual([]);
    const whole = row(5, 70, -2);
    appendFileSync(file, whole.slice(0, 30));
    await page.waitForTimeout(700);
    expect(await page.locator(".cage-figure b").innerText()).toBe("92");
    expect(await page.locator("main").innerText()).not.toContain("refused");
    appendFileSync(file, whole.slice(30));
    await speedIs(page, "70");
    expect(await said()).toEqual([expect.stringMatching(/^seventy, minus two degrees, ground ball$/)]);
    expect(await page.evaluate(() => (window as { old?: boolean }).old)).toBe(true);
    expect(errors).toEqual([]);
    await page.close();
  });
});
