/** A part of a chart is marked, by mouse, keyboard and finger, and the page shows the swings in it alone. */
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { openPage, widths } from "./watch.ts";

let browser: Browser;
let served: Served;

beforeAll(async () => {
  [{ browser }, served] = await Promise.all([
    launchChromium(),
    serveNotebooks({ library: join(root, "data/demo") }),
  ]);
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const layer = (chart: string): string => `main svg.${chart} .brush-layer`;

/** The middle part of a chart's frame, brought into the window: from its upper left to its lower right, px of the window. */
async function middle(page: Page, chart: string): Promise<{ from: [number, number]; to: [number, number] }> {
  await page.locator(layer(chart)).waitFor({ state: "attached", timeout: 60_000 });
  return page.evaluate((chart) => {
    const svg = document.querySelector(`main svg.${chart}`)!;
    svg.scrollIntoView({ block: "center", behavior: "instant" });
    const { left, top, width, height } = svg.querySelector(".brush-layer .overlay")!.getBoundingClientRect();
    return {
      from: [left + 0.25 * width, top + 0.2 * height],
      to: [left + 0.6 * width, top + 0.6 * height],
    };
  }, chart);
}

async function drag(page: Page, chart: string): Promise<void> {
  const { from, to } = await middle(page, chart);
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, { steps: 3 });
  await page.mouse.move(...to, { steps: 3 });
  await page.mouse.up();
}

/** Balls whose marks stand within the marked part, by where they are drawn. */
const drawnInside = (page: Page, chart: string): Promise<number> =>
  page.evaluate((chart) => {
    const svg = document.querySelector(`main svg.${chart}`)!;
    const part = svg.querySelector(".brush-layer .selection")!.getBoundingClientRect();
    return [...svg.querySelectorAll("[aria-description=swings] > *")].filter((mark) => {
      const { left, top, width, height } = mark.getBoundingClientRect();
      const [x, y] = [left + width / 2, top + height / 2];
      return x >= part.left && x <= part.right && y >= part.top && y <= part.bottom;
    }).length;
  }, chart);

const words = (page: Page): Promise<string> =>
  page.locator(".marking p").first().innerText({ timeout: 30_000 });

/** How many of how many swings a page says are marked. */
async function counts(page: Page): Promise<[number, number]> {
  const [, n, of] = /^(\d+) of (\d+) swings: those in the marked part/.exec(await words(page)) ?? [];
  return [Number(n), Number(of)];
}

describe("a marked part", { timeout: 240_000 }, () => {
  it("of the field narrows the page, is kept in the address, and is cleared by Escape and by a button", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await page.goto(`${served.address}spray-chart.html#hitter=Ada+K.`);
    const chart = "batted-spray-chart";
    await page.locator(layer(chart)).waitFor({ state: "attached", timeout: 60_000 });
    const whole = await page.locator(".first .answer").innerText();
    await drag(page, chart);
    await expect.poll(() => page.url()).toContain("marked=field_");
    await expect.poll(() => counts(page).then(([n]) => n), { timeout: 30_000 }).toBeGreaterThan(20);
    const [n, of] = await counts(page);
    expect(of).toBeGreaterThan(n);
    // Whole feet are rounder than pixels: a ball on the very edge may fall to either side.
    expect(Math.abs((await drawnInside(page, chart)) - n)).toBeLessThanOrEqual(2);
    // The rest of them stays in sight, paler.
    expect(await page.locator(`main svg.${chart} .unmarked`).count()).toBeGreaterThan(20);
    expect(await page.locator(".first .answer").innerText()).not.toBe(whole);
    expect(await page.locator(".first .rests").innerText()).toContain(`${n} swings in`);
    expect(await page.locator(".first .say").innerText()).toContain("Told of the swings in the marked part");
    // Sent on, the address shows the same.
    const said = await words(page);
    await page.reload();
    await expect.poll(() => words(page), { timeout: 60_000 }).toBe(said);
    await page.locator(`main svg.${chart} .selection:not([style*="display: none"])`).waitFor();
    await page.keyboard.press("Escape");
    await expect.poll(() => page.locator(".first .answer").innerText(), { timeout: 30_000 }).toBe(whole);
    expect(page.url()).not.toContain("marked=field");
    await drag(page, chart);
    await page.getByRole("button", { name: "Clear the mark" }).click({ timeout: 30_000 });
    await expect.poll(() => page.locator(".first .answer").innerText(), { timeout: 30_000 }).toBe(whole);
    // A click is for a ball's card, and marks nothing.
    const { from } = await middle(page, chart);
    await page.mouse.click(...from);
    expect(page.url()).not.toContain("marked=field");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("of the contact map is written by the keyboard, and the page's other charts and sentence follow", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await page.goto(`${served.address}drill-report.html#hitter=Ada+K.&session=`);
    const points = page.locator("main svg.batted-spray-chart [aria-description=swings] > *");
    await expect.poll(() => points.count(), { timeout: 60_000 }).toBeGreaterThan(200);
    const all = await points.count();
    await middle(page, "batted-contact-map");
    const place = page.locator("figure.chart:has(svg.batted-contact-map)");
    await place.getByRole("button", { name: "Mark a part" }).focus();
    await page.keyboard.press("Enter");
    const from = place.getByLabel("Exit velocity, mph, from");
    const to = place.getByLabel("Exit velocity, mph, to");
    await from.fill("65");
    await page.keyboard.press("Enter");
    await expect.poll(() => points.count(), { timeout: 30_000 }).toBeLessThan(all);
    expect(page.url()).toContain("marked=contact_65.._..");
    // The page was made anew, and whoever writes is where they were.
    await expect.poll(() => from.evaluate((entry) => entry === document.activeElement)).toBe(true);
    await page.keyboard.press("Tab");
    await page.keyboard.type("70");
    await page.keyboard.press("ArrowUp");
    await expect.poll(() => page.url()).toContain("marked=contact_65..71_..");
    await expect.poll(() => to.inputValue()).toBe("71");
    const told = page.locator(".first .marking-told");
    await expect.poll(() => told.innerText(), { timeout: 30_000 }).toMatch(/exit velocity 65 to 71 mph/);
    const n = Number(/^\d+/.exec(await told.innerText())![0]);
    // Not every ball has a landing point; none that isn't marked is drawn.
    await expect.poll(() => points.count(), { timeout: 30_000 }).toBeLessThanOrEqual(n);
    expect(await points.count()).toBeGreaterThan(n / 2);
    // Chosen by its results, a part says nothing of a change or a weakness.
    expect(await page.locator(".first .next").count()).toBe(0);
    await to.fill("50");
    await page.keyboard.press("Enter");
    await expect.poll(() => place.getByRole("alert").innerText()).toBe("Of two ends the lower comes first.");
    expect(page.url()).toContain("marked=contact_65..71_..");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("is drawn by a finger once that is asked for; before, a finger scrolls the page", async () => {
    const page = await browser.newPage({
      viewport: { width: widths.phone, height: 844 },
      hasTouch: true,
      isMobile: true,
      reducedMotion: "reduce",
    });
    // What an address can't mean is told, and leaves nothing out.
    await page.goto(`${served.address}spray-chart.html#hitter=Ada+K.&marked=contact_9..1_..`);
    const asked = page.locator("#asked p");
    await asked.waitFor({ timeout: 60_000 });
    expect(await asked.innerText()).toMatch(
      /^The address asks for marked=contact_9\.\.1_\.\., but of a part’s ends the lower comes first.*all are shown\.$/,
    );
    const chart = "batted-spray-chart";
    const touched = await page.context().newCDPSession(page);
    const swipe = async (): Promise<number> => {
      const { from, to } = await middle(page, chart);
      const before = await page.evaluate(() => scrollY);
      const point = ([x, y]: [number, number]) => [{ x, y }];
      const steps = [0, 0.25, 0.5, 0.75, 1].map((part): [number, number] => [
        to[0] + (from[0] - to[0]) * part,
        to[1] + (from[1] - to[1]) * part,
      ]);
      await touched.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: point(steps[0]!) });
      for (const step of steps.slice(1))
        await touched.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: point(step) });
      await touched.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
      return before;
    };
    const before = await swipe();
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(before);
    expect(page.url()).not.toContain("marked=field");
    await page.getByRole("button", { name: "Mark a part" }).click();
    await swipe();
    await expect.poll(() => page.url()).toContain("marked=field_");
    await expect.poll(() => counts(page).then(([n]) => n), { timeout: 30_000 }).toBeGreaterThan(0);
    // Nothing is wider than the phone.
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(widths.phone);
    await page.close();
  });
});
