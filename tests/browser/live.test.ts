/** A library that grows while its pages are read, and a server that ends and comes back. */
import { appendFileSync, cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { drawn, openPage, widths } from "./watch.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-live-"));
const libraryDir = join(scratch, "library");
const later = join(libraryDir, "later.csv");
let browser: Browser;
let served: Served;

beforeAll(async () => {
  cpSync(join(root, "data/demo"), libraryDir, {
    recursive: true,
    filter: (path) => !/\.(ts|json|md)$/.test(path),
  });
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: libraryDir });
}, 120_000);

afterEach(() => rmSync(later, { force: true }));

afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(scratch, { recursive: true, force: true });
});

/** Marks the page, so that a reload shows. */
const mark = (page: Page): Promise<void> =>
  page.evaluate(() => void ((window as { old?: boolean }).old = true));
const isSame = (page: Page): Promise<boolean> =>
  page.evaluate(() => (window as { old?: boolean }).old === true);

/** So many more balls than before stand in the words under the chart's title. */
async function ballsOn(page: Page): Promise<number> {
  const words = await page.locator("main svg.batted-spray-chart").first().textContent();
  return Number(/(\d+) landing points/.exec(words!)![1]);
}

describe("a library that grows", { timeout: 120_000 }, () => {
  it("brings its new rows to an open page, which stays where it is and keeps what was chosen", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    await page.goto(`${served.address}spray-chart.html#hitter=Cal+R.`);
    await drawn(page, 1);
    const before = await ballsOn(page);
    await mark(page);
    // What stands below the first chart comes a moment later.
    await page.waitForFunction(() => document.documentElement.scrollHeight > innerHeight + 700);
    await page.evaluate(() => scrollTo({ top: 700, behavior: "instant" }));
    const top = await page.evaluate(() => scrollY);
    expect(top).toBeGreaterThan(600);
    appendFileSync(
      later,
      "hitter,bats,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg\nCal R.,R,tee,88,18,3\nCal R.,R,tee,91,21,-7\n",
    );
    await page.waitForFunction(
      (n) =>
        new RegExp(`${n} landing points`).test(
          document.querySelector("main svg.batted-spray-chart")?.textContent ?? "",
        ),
      before + 2,
      { timeout: 20_000 },
    );
    await page.waitForTimeout(1500);
    expect(await isSame(page)).toBe(true);
    expect(await page.evaluate(() => scrollY)).toBe(top);
    expect(new URL(page.url()).hash).toContain("hitter=Cal");
    // The reader may move on: nothing holds the page any longer.
    await page.mouse.wheel(0, -300);
    await page.waitForFunction((top) => scrollY < top, top);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("does so on every page, and none is loaded anew", async () => {
    for (const file of [
      "index.html",
      "drill-report.html",
      "tee-vs-live.html",
      "carry-lab.html",
      "setup-check.html",
    ]) {
      const { page, errors } = await openPage(browser, served.address, widths.phone);
      await page.goto(served.address + file);
      await page.locator(".first").first().waitFor({ timeout: 30_000 });
      await mark(page);
      const asked: string[] = [];
      page.on("response", (response) => asked.push(new URL(response.url()).pathname));
      appendFileSync(later, "hitter,bats,input,exit_velocity_mph,launch_angle_deg\nCal R.,R,tee,88,18\n");
      await expect.poll(() => asked.includes("/library.json"), { timeout: 20_000 }).toBe(true);
      await page.waitForTimeout(500);
      expect(await isSame(page), file).toBe(true);
      expect(asked.filter((path) => path.endsWith(".html"))).toEqual([]);
      expect(await page.locator(".observablehq--error").count()).toBe(0);
      expect(errors).toEqual([]);
      rmSync(later);
      await page.close();
    }
  });
});

describe("a server that ends", { timeout: 120_000 }, () => {
  it("is missed in a sentence, and the page goes on when it is back", async () => {
    const own = await serveNotebooks({ library: libraryDir });
    const { page } = await openPage(browser, own.address, widths.phone);
    await page.goto(`${own.address}spray-chart.html#hitter=Cal+R.`);
    await drawn(page, 1);
    const before = await ballsOn(page);
    expect(await page.locator(".gone").count()).toBe(0);
    await page.evaluate(() => scrollTo({ top: 500, behavior: "instant" }));
    await own.close();
    const gone = page.locator(".gone");
    await gone.waitFor({ timeout: 20_000 });
    expect(await gone.innerText()).toMatch(/ended: what stands here is as of \d.*Start it again/);
    const box = (await gone.boundingBox())!;
    expect([box.x, box.x + box.width, box.y + box.height]).toEqual([0, widths.phone, 900]);
    appendFileSync(
      later,
      "hitter,bats,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg\nCal R.,R,tee,88,18,3\n",
    );
    const again = await serveNotebooks({ library: libraryDir, port: Number(new URL(own.address).port) });
    await gone.waitFor({ state: "detached", timeout: 30_000 });
    await page.waitForFunction(
      (n) =>
        new RegExp(`${n} landing points`).test(
          document.querySelector("main svg.batted-spray-chart")?.textContent ?? "",
        ),
      before + 1,
      { timeout: 30_000 },
    );
    await expect.poll(() => page.evaluate(() => scrollY), { timeout: 10_000 }).toBe(500);
    await page.close();
    await again.close();
  });
});
