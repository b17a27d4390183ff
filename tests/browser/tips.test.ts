/** What a chart says of a ball that is pointed at stands inside the chart: every ball of a page, on a phone and a desk. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { drawn, openPage, widths } from "./watch.ts";

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

/** How many balls of a chart were pointed at, and what of their tips stood outside it. */
interface Pointed {
  readonly balls: number;
  readonly told: number;
  readonly outside: readonly string[];
}

describe("a ball's tip", { timeout: 120_000 }, () => {
  it.each([
    ["spray-chart.html", "batted-spray-chart", widths.phone],
    ["drill-report.html", "batted-contact-map", widths.phone],
    ["drill-report.html", "batted-spray-chart", widths.desk],
  ])("on %s, %s, is inside the chart at %i px", async (file, chart, width) => {
    const { page, errors } = await openPage(browser, served.address, width);
    await page.goto(served.address + file);
    await drawn(page, 2);
    const pointed = await page.evaluate(async (chart): Promise<Pointed> => {
      const svg = document.querySelector(`main svg.${chart}`)!;
      svg.scrollIntoView({ behavior: "instant" });
      const turn = (): Promise<void> => new Promise((done) => setTimeout(done, 0));
      const outside: string[] = [];
      let told = 0;
      const balls = [...svg.querySelectorAll("[aria-description=swings] > *")];
      for (const ball of balls) {
        const { left, top, width, height } = ball.getBoundingClientRect();
        const at = { clientX: left + width / 2, clientY: top + height / 2 };
        svg.dispatchEvent(
          new PointerEvent("pointermove", { ...at, pointerType: "mouse", bubbles: true, composed: true }),
        );
        await turn();
        await turn();
        const tip = svg.querySelector("[aria-label=tip] > g");
        if (tip === null) continue;
        told++;
        const frame = svg.getBoundingClientRect();
        const box = tip.querySelector("path")!.getBoundingClientRect();
        const words = tip.querySelector("text")!.getBoundingClientRect();
        for (const { left, right, top, bottom } of [box, words])
          if (
            left < frame.left - 0.5 ||
            right > frame.right + 0.5 ||
            top < frame.top - 0.5 ||
            bottom > frame.bottom + 0.5
          )
            outside.push(tip.textContent!);
      }
      return { balls: balls.length, told, outside };
    }, chart);
    expect(pointed.balls).toBeGreaterThan(10);
    expect(pointed.told).toBe(pointed.balls);
    expect(pointed.outside).toEqual([]);
    expect(errors).toEqual([]);
    await page.close();
  });
});

describe("a ball's card", { timeout: 120_000 }, () => {
  it("opens by a tap, fits the phone, rings the ball in every chart, and goes on by the keyboard", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    await page.goto(`${served.address}drill-report.html#hitter=Cal+R.`);
    await drawn(page, 3);
    const spot = await page.evaluate(() => {
      const svg = document.querySelector("main svg.batted-spray-chart")!;
      svg.scrollIntoView({ behavior: "instant" });
      const mark = svg.querySelector("[aria-description=swings] > *")!.getBoundingClientRect();
      return { x: mark.left + mark.width / 2, y: mark.top + mark.height / 2 };
    });
    await page.mouse.click(spot.x, spot.y);
    const card = page.locator(".ball-card");
    await card.waitFor();
    const box = (await card.boundingBox())!;
    expect([box.x, box.x + box.width, box.y + box.height]).toEqual([0, widths.phone, 900]);
    expect(box.y).toBeGreaterThan(100);
    const text = await card.innerText();
    for (const word of ["When", "Drill", "Off the bat", "Angle", "Direction", "Carry", "Contact"])
      expect(text).toContain(word);
    expect(text).toMatch(/eight of ten such balls \d+ to \d+/);
    expect(await card.locator("svg").count()).toBe(1);
    // Where it came down, and how hard and how steep it was hit.
    expect(await page.locator("main svg.batted-spray-chart .picked").count()).toBe(1);
    await expect.poll(() => page.locator("main .picked").count()).toBeGreaterThan(1);
    // The ball is in sight above its card.
    const ring = (await page.locator("main svg.batted-spray-chart .picked").boundingBox())!;
    expect(ring.y + ring.height).toBeLessThan(box.y);
    await page.keyboard.press("Escape");
    expect([await card.count(), await page.locator(".picked").count()]).toEqual([0, 0]);
    const one = page.getByRole("button", { name: "Ball by ball" }).first();
    await one.focus();
    await page.keyboard.press("Enter");
    await card.waitFor();
    const last = await card.innerText();
    await card.getByRole("button", { name: "Ball before" }).focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => card.innerText()).not.toBe(last);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Ball before");
    await page.keyboard.press("Escape");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Ball by ball");
    expect(errors).toEqual([]);
    await page.close();
  });
});

describe("a chart on a page", { timeout: 120_000 }, () => {
  it("is saved as SVG and PNG by the buttons under it, with the page's letters, and without what stands open", async () => {
    const { page, errors, away } = await openPage(browser, served.address, widths.desk);
    await page.goto(`${served.address}spray-chart.html#hitter=Cal+R.`);
    await drawn(page, 2);
    // Every chart of the page has them.
    expect(await page.locator("main figure.chart .savers").count()).toBe(
      await page.locator("main figure.chart").count(),
    );
    const figure = page.locator("main figure.chart").first();
    const save = async (as: string): Promise<{ name: string; bytes: Buffer }> => {
      const button = figure.getByRole("button", { name: as, exact: true });
      await button.focus();
      const [saved] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
      return { name: saved.suggestedFilename(), bytes: readFileSync(await saved.path()) };
    };
    const svg = await save("SVG");
    expect(svg.name).toBe("cal-r-spray-chart-spray-chart.svg");
    expect(svg.bytes.toString()).toMatch(/^<svg[^>]* xmlns="http:/);
    expect(svg.bytes.toString()).not.toMatch(/var\(|class="picked"|aria-label="tip"/);
    const png = await save("PNG");
    expect(png.name).toBe("cal-r-spray-chart-spray-chart.png");
    const { width } = (await figure.locator("svg").boundingBox())!;
    expect(png.bytes.readUInt32BE(16)).toBe(Math.ceil(width * 3));
    expect([errors, away]).toEqual([[], []]);
    await page.close();
  });
});
