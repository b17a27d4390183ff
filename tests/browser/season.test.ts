/** The pages of a season in a browser, on the invented one: the answer first, and another hitter's when chosen. */
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { openPage, widths } from "./watch.ts";

let browser: Browser;
let served: Served;

beforeAll(async () => {
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: join(root, "data/season") });
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

it(
  "says who improves, who stays, who fades within a session, and what the trial came to",
  { timeout: 240_000 },
  async () => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    const answer = page.locator(".first .answer");
    const text = (): Promise<string | null> => answer.textContent({ timeout: 120_000 });
    await page.goto("about:blank");
    await page.goto(`${served.address}progress.html#hitter=Ivo+S.`);
    await expect
      .poll(text, { timeout: 120_000 })
      .toMatch(/^Ivo S\. hits harder off the tee: up \d\.\d mph in 11 weeks\.$/);
    // Beside the answer: a second opinion, and what else stands.
    const first = await page.locator(".first").innerText();
    expect(first).toMatch(/The median of the slopes between any two sessions says the same: \+\d\.\d mph/);
    expect(first).toMatch(/better half, live: .* better\./);
    await page.locator("svg.batted-season-trends").first().waitFor({ timeout: 120_000 });
    await page.locator("#choices [data-key=hitter] select").selectOption("Lena F.");
    await expect.poll(text, { timeout: 120_000 }).toBe("No clear change for Lena F. in 11 weeks.");
    await page.locator("#choices [data-key=hitter] select").selectOption("Max W.");
    const main = (): Promise<string | null> => page.locator("main").textContent();
    await expect
      .poll(main, { timeout: 120_000 })
      .toMatch(/exit velocity falls within a session.*Nothing here is a diagnosis/s);
    await page.goto("about:blank");
    await page.goto(`${served.address}season.html#hitter=Rui+C.`);
    await expect
      .poll(text, { timeout: 120_000 })
      .toMatch(/^Of 5 hitters 1 clearly changed: Ivo S\. hits harder off the tee, up/);
    await expect.poll(main, { timeout: 120_000 }).toMatch(/is lower with “short” than with “long”/);
    // Nothing is wider than the phone.
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(widths.phone);
    expect(errors).toEqual([]);
    await page.close();
  },
);

it("says which pitcher is hard on whom, and shows both their sides", { timeout: 240_000 }, async () => {
  const { page, errors } = await openPage(browser, served.address, widths.phone);
  const text = (of: string) => (): Promise<string | null> =>
    page.locator(of).textContent({ timeout: 120_000 });
  await page.goto("about:blank");
  await page.goto(`${served.address}live-rounds.html`);
  await expect
    .poll(text(".first .answer"), { timeout: 120_000 })
    .toMatch(/^Noa B\. has it harder against Tamsin O\.: clean or flush on \d+% of swings, where \d+% would/);
  const sides = text("main");
  await expect.poll(sides, { timeout: 120_000 }).toContain("Noa B. against each pitcher");
  await expect.poll(sides, { timeout: 120_000 }).toContain("Each hitter against Tamsin O.");
  await page.locator("#choices [data-key=pitcher] select").selectOption("Sandro V.");
  await expect.poll(sides, { timeout: 120_000 }).toContain("Each hitter against Sandro V.");
  // Two weeks are too few sessions for any pair, and the page says so.
  await page.goto("about:blank");
  await page.goto(`${served.address}live-rounds.html#dates=2025-09-01/2025-09-14`);
  await expect
    .poll(text(".first"), { timeout: 120_000 })
    .toContain("Too few swings to say who is hard on whom.");
  expect(await text(".first")()).toContain("Only from 2025-09-01 to 2025-09-14.");
  expect(errors).toEqual([]);
  await page.close();
});
