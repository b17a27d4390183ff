/** A page's first screen and what stands around it: heard when it changes, light and dark, on paper, in large letters. */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { openPage, widths } from "./watch.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-first-"));
let browser: Browser;
let served: Served;

beforeAll(async () => {
  cpSync(join(root, "data/demo"), scratch, {
    recursive: true,
    filter: (path) => !/\.(ts|json|md)$/.test(path),
  });
  const blind = Array.from({ length: 12 }, (_, i) => `No Direction,R,tee,${70 + i},${i * 2}`);
  writeFileSync(
    join(scratch, "blind.csv"),
    ["hitter,bats,input,exit_velocity_mph,launch_angle_deg", ...blind].join("\n"),
  );
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: scratch });
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(scratch, { recursive: true, force: true });
});

async function open(page: Page, file: string, hash = ""): Promise<void> {
  await page.goto("about:blank");
  await page.goto(`${served.address}${file}.html${hash}`);
  await page.locator(".first .answer").waitFor({ timeout: 120_000 });
  await page.locator(".first .picture :is(svg, table, .nothing)").first().waitFor({ timeout: 120_000 });
  await page.evaluate(() => document.fonts.ready);
}

describe("the first screen", { timeout: 240_000 }, () => {
  it("is heard when it changes, follows light and dark, and names the hitter on paper", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await open(page, "drill-report");
    const heard = page.locator("#heard[role=status]");
    expect(await heard.textContent()).toBe(await page.locator(".first .answer").textContent());
    await page.getByLabel("Hitter").selectOption("Eve S.");
    await expect.poll(() => heard.textContent(), { timeout: 30_000 }).toMatch(/^Eve S\. /);
    expect(await page.locator("style#printed").textContent()).toMatch(
      /@top-left[^}]*"Eve S\. · Drill report"/,
    );
    const paper = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const light = await paper();
    await page.getByLabel("Light or dark").selectOption("dark");
    expect(await paper()).not.toBe(light);
    expect(page.url()).toContain("light=dark");
    // At letters twice as large every page's name can still be read whole.
    await page.addStyleTag({ content: "html { font-size: 200% !important }" });
    for (const link of await page.locator("header nav a").all()) {
      const box = (await link.boundingBox())!;
      expect(box.x + box.width).toBeLessThanOrEqual(widths.desk);
    }
    expect(errors).toEqual([]);
    await page.close();
  });

  it("says so where no ball has a direction, and draws no empty field", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    await open(page, "spray-chart", "#hitter=No+Direction");
    expect(await page.locator(".picture .nothing").innerText()).toMatch(/No ball's direction was measured/);
    expect(await page.locator("svg.batted-spray-chart").count()).toBe(0);
    expect(errors).toEqual([]);
    await page.close();
  });
});
