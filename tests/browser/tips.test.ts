/** What a chart says of a ball that is pointed at stands inside the chart: every ball of a page, on a phone and a desk. */
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
}, 60_000);

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
