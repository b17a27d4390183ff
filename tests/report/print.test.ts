/** The demo's reports in a browser: two letter pages on paper, no sideways scrolling on a phone, nothing asked for. */
import { JSDOM } from "jsdom";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { thresholdsFrom } from "../../src/contact/thresholds.ts";
import { fontFaces } from "../../src/report/fonts.ts";
import { reportPage, reportsTogether, type ReportSource } from "../../src/report/page.ts";
import { trustBySession } from "../../src/setup/trust.ts";
import { openLibrary } from "../../src/library/library.ts";
import { launchChromium } from "../browser/chromium.ts";
import { sourceOf } from "./source.ts";

let browser: Browser;
const pages = new Map<string, string>();
/** What the demo's reports are made from. */
const sources = new Map<string, ReportSource>();
const { document } = new JSDOM("").window;
const options = { document, version: "0.0.0", letters: fontFaces() };

beforeAll(async () => {
  const library = await openLibrary("data/demo");
  const rows = enrich(library);
  const trust = trustBySession(rows, library.sessions);
  const thresholds = thresholdsFrom(library.thresholds);
  for (const hitter of new Set(rows.map((r) => r.hitter))) {
    const own = rows.filter((r) => r.hitter === hitter);
    const listed = library.hitters.find((h) => h.hitter === hitter) ?? null;
    const source = { ...library, hitter, listed, rows: own, thresholds, trust };
    sources.set(hitter, source);
    pages.set(hitter, reportPage(source, options));
  }
  const long = "Wolfeschlegelsteinhausenbergerdorff-".repeat(4);
  pages.set(
    "long names",
    reportPage(
      sourceOf(long, (name) => `${name} ${long}`),
      options,
    ),
  );
  pages.set("no swings", reportPage({ ...sourceOf("Robin Test"), rows: [] }, options));
  ({ browser } = await launchChromium());
}, 240_000);
afterAll(() => browser?.close());

/** Chromium writes page objects uncompressed. */
const pagesIn = (pdf: Buffer): number => pdf.toString("latin1").match(/\/Type\s*\/Page(?!s)/g)?.length ?? 0;

describe("every report", () => {
  it("is there to be looked at", () => {
    expect(pages.size).toBeGreaterThanOrEqual(10);
  });

  it(
    "keeps every table inside its card and every badge's words inside its rim, from a phone to a desk",
    { timeout: 240_000 },
    async () => {
      const out: string[] = [];
      let seen = 0;
      for (const width of [390, 820, 1024, 1280]) {
        const page = await browser.newPage({ viewport: { width, height: 900 } });
        for (const [name, text] of pages) {
          await page.setContent(text);
          const found = await page.evaluate(() => {
            const over: string[] = [];
            let checked = 0;
            for (const card of document.querySelectorAll("section, figure, .pairs > div"))
              for (const inner of card.querySelectorAll("table, dl, svg")) {
                checked++;
                const room =
                  card.getBoundingClientRect().right - parseFloat(getComputedStyle(card).paddingRight);
                // What scrolls sideways within its card may be wider.
                if (inner.closest(".scroll") === null && inner.getBoundingClientRect().right > room + 0.5)
                  over.push(`${inner.localName} of ${card.querySelector("h2, h3")?.textContent}`);
              }
            for (const badge of document.querySelectorAll(".badge svg")) {
              checked++;
              const rim = badge.querySelector("rect")!.getBoundingClientRect();
              const words = badge.querySelector("text")!.getBoundingClientRect();
              if (words.right > rim.right - 6)
                over.push(`badge: ${badge.querySelector("text")!.textContent}`);
            }
            return { over, checked };
          });
          seen += found.checked;
          out.push(...found.over.map((what) => `${name} at ${width}: ${what}`));
        }
        await page.close();
      }
      expect(seen).toBeGreaterThan(200);
      expect(out).toEqual([]);
    },
  );

  it.each(["Letter", "A4"])("prints on two pages of %s at most", { timeout: 240_000 }, async (format) => {
    const printed: Record<string, number> = {};
    for (const [name, text] of pages) {
      const page = await browser.newPage();
      await page.setContent(text);
      printed[name] = pagesIn(await page.pdf({ format, printBackground: true }));
      await page.close();
    }
    expect(Object.entries(printed).filter(([, n]) => n < 1 || n > 2)).toEqual([]);
    expect(Object.values(printed)).toContain(2);
  });

  it(
    "prints on one page where a sentence or a page is wanted, all of them at once with each hitter's name on its own",
    { timeout: 240_000 },
    async () => {
      const note = "Ten balls a day from the low tee, hands inside, and stop when your back tires. ".repeat(
        4,
      );
      const mine = { ...options, facility: "Northside Cages", color: "#1f5f8b", note };
      const all = [...sources.values()];
      const page = await browser.newPage();
      for (const size of ["sentence", "page"] as const) {
        await page.setContent(reportsTogether(all.map((source) => [source, { ...mine, size }])));
        expect(await page.locator(".sheet").count()).toBe(all.length);
        // One that ran over would make a page more.
        expect(pagesIn(await page.pdf({ format: "Letter", printBackground: true })), size).toBe(all.length);
      }
      await page.close();
    },
  );

  it(
    "gives a parent a month on one page of either paper, with no other hitter's name in it",
    { timeout: 240_000 },
    async () => {
      const note = "Ten balls a day from the low tee, hands inside, and stop when your back tires.";
      const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
      for (const [hitter, source] of sources) {
        const text = reportPage(source, { ...options, facility: "Northside Cages", note, size: "month" });
        await page.setContent(text);
        expect(await page.evaluate(() => document.documentElement.scrollWidth), hitter).toBe(390);
        for (const format of ["Letter", "A4"])
          expect(pagesIn(await page.pdf({ format, printBackground: true })), `${hitter}, ${format}`).toBe(1);
        const words = await page.evaluate(() => document.body.textContent!);
        expect(words).toContain("not a prediction");
        expect(words).toContain("see a licensed practitioner");
        for (const other of sources.keys()) if (other !== hitter) expect(words).not.toContain(other);
      }
      await page.close();
    },
  );

  it(
    "reads on a phone without scrolling sideways, in letters of 11 px or more",
    { timeout: 240_000 },
    async () => {
      for (const [name, text] of pages) {
        const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
        await page.setContent(text);
        // On the first screen: the sentence, its figures and the top of the picture.
        const fold = await page.evaluate(() => ({
          figures: document.querySelector(".tiles, .answer")!.getBoundingClientRect().bottom,
          picture: document.querySelector(".pic.narrow")!.getBoundingClientRect().top,
        }));
        expect(fold.figures, name).toBeLessThan(844);
        if (name !== "long names") expect(fold.picture, name).toBeLessThan(760);
        const seen = await page.evaluate(() => {
          const small = [...document.querySelectorAll("svg text")].filter(
            (t) =>
              parseFloat(getComputedStyle(t).fontSize) * ((t as SVGTextElement).getScreenCTM()?.a || 1) <
              10.9,
          );
          const wide = document.documentElement.scrollWidth;
          return { wide, small: small.filter((t) => (t as SVGTextElement).getScreenCTM()?.b === 0).length };
        });
        expect({ name, ...seen }).toEqual({ name, wide: 390, small: 0 });
        await page.close();
      }
    },
  );

  it("asks for nothing, and its policy stops what would", { timeout: 60_000 }, async () => {
    const page = await browser.newPage();
    const [text] = [...pages.values()];
    const reached: string[] = [];
    const stopped: (string | undefined)[] = [];
    page.on("requestfinished", (request) => reached.push(request.url()));
    page.on("requestfailed", (request) => stopped.push(request.failure()?.errorText));
    // What a name would do if one could become markup.
    const bad = "<img src='https://example.invalid/x.png'><script>document.title = 'ran'</script></main>";
    await page.setContent(text!.replace("</main>", bad));
    await expect.poll(() => stopped).toEqual(["csp"]);
    expect(reached).toEqual([]);
    expect(await page.title()).toMatch(/^Drill report/);
    await page.setContent(text!);
    expect([...reached, ...stopped]).toEqual(["csp"]);
    await page.close();
  });
});
