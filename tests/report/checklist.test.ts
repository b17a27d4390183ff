/** The checklist in a browser: one printed page, and readable on a phone. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checklistPage } from "../../src/report/checklist.ts";
import { launchChromium } from "../browser/chromium.ts";

let browser: Browser;
beforeAll(async () => {
  ({ browser } = await launchChromium());
}, 60_000);
afterAll(() => browser?.close());

describe("the checklist", () => {
  it("prints on one page, letter and A4", async () => {
    const page = await browser.newPage();
    await page.setContent(checklistPage({ distance_ft: -13.7, offset_in: 31.4 }));
    for (const format of ["Letter", "A4"]) {
      const pdf = (await page.pdf({ format, preferCSSPageSize: false })).toString("latin1");
      expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g), format).toHaveLength(1);
    }
    // The count above sees a second page where there is one.
    await page.evaluate(() =>
      document.body.insertAdjacentHTML("beforeend", "<p style='break-before: page'>more</p>"),
    );
    expect(
      (await page.pdf({ format: "Letter" })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g),
    ).toHaveLength(2);
    await page.close();
  });

  it("fits a phone", async () => {
    const page = await browser.newPage({ viewport: { width: 390, height: 800 } });
    await page.setContent(checklistPage(null));
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    await page.close();
  });
});
