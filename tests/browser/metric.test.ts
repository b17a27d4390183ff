/** A reader who chose km/h and metres meets no mile an hour and no foot in a figure. */
import { join } from "node:path";
import type { Browser } from "playwright-core";
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

describe("in metric units", { timeout: 120_000 }, () => {
  it.each([
    ["tee-vs-live.html", "", 14, /\d(\.\d)? km\/h/],
    ["setup-check.html", "&distance=-13.7&offset=34&toldOffset=31.4&yaw=-1.4", 4, /\d\.\d cm/],
  ])("%s writes every figure in them", async (file, more, charts, metric) => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    await page.goto(`${served.address}${file}#units=metric${more}`);
    // Every chart is drawn, as a reader who goes through the page sees them.
    await expect
      .poll(
        () =>
          page.evaluate(() => {
            document.querySelector("main figure.chart:not(:has(svg))")?.scrollIntoView();
            return document.querySelectorAll("main svg[role=img]:not(.sessions svg)").length;
          }),
        { timeout: 90_000 },
      )
      .toBeGreaterThanOrEqual(charts);
    const figures = await page.evaluate(() => {
      for (const details of document.querySelectorAll("details")) details.open = true;
      // Not the prose, nor the code beside it, nor the table of limits, whose units stand in a column of their own.
      return [
        ...document.querySelectorAll(
          "main .first, main .headline, main .facts, main .told, main .checklist li, main table, main svg[role=img], main .setup-form",
        ),
      ]
        .filter((element) => element.closest(".tolerances") === null)
        .map((element) => element.textContent!);
    });
    expect(figures.length).toBeGreaterThan(10);
    expect(figures.join("\n")).toMatch(metric);
    expect(figures.flatMap((text) => text.match(/.{0,40}\d ?(mph|ft|in)\b(?! a row).{0,20}/g) ?? [])).toEqual(
      [],
    );
    expect(errors).toEqual([]);
    await page.close();
  });
});
