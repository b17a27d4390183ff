/** The charts in a real browser: the same drawing as in Node, and words that can be read. */
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { build, type Rolldown } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchChromium } from "../browser/chromium.ts";
import { emptyGallery, gallery } from "./gallery.ts";
import { newDocument } from "./node.ts";

const everything = { ...gallery, ...emptyGallery };
const names = Object.keys(everything);

async function bundle(): Promise<string> {
  const result = (await build({
    configFile: false,
    logLevel: "silent",
    build: {
      write: false,
      minify: false,
      lib: {
        entry: fileURLToPath(new URL("gallery.ts", import.meta.url)),
        formats: ["iife"],
        name: "charts",
        fileName: "charts",
      },
    },
  })) as Rolldown.RolldownOutput[];
  return result[0]!.output[0].code;
}

interface Words {
  readonly text: string;
  readonly size: number;
  readonly box: { x: number; y: number; width: number; height: number };
}

/** Every text of a drawing with its letter size and its box, px. */
function wordsOn(page: Page, name: string, width: number): Promise<Words[]> {
  return page.evaluate(
    ({ name, width }) => {
      const { gallery, emptyGallery } = (globalThis as unknown as { charts: typeof import("./gallery.ts") })
        .charts;
      const svg = { ...gallery, ...emptyGallery }[name]!(width, document);
      document.body.replaceChildren(svg);
      const paper = svg.getBoundingClientRect();
      return [...svg.querySelectorAll("text")]
        .filter((t) => t.textContent?.trim())
        .map((t) => {
          const { x, y, width, height } = t.getBoundingClientRect();
          return {
            text: t.textContent ?? "",
            size: Number.parseFloat(getComputedStyle(t).fontSize),
            box: { x: x - paper.x, y: y - paper.y, width, height },
          };
        });
    },
    { name, width },
  );
}

describe("charts in a browser", () => {
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    const [code, launched] = await Promise.all([bundle(), launchChromium()]);
    browser = launched.browser;
    page = await browser.newPage({ viewport: { width: 800, height: 900 } });
    await page.setContent("<!doctype html><meta charset=utf-8><body style='margin:0'></body>");
    await page.addScriptTag({ content: code });
  }, 120_000);

  afterAll(() => browser?.close());

  it("are drawn as in Node, to the letter", async () => {
    const there = await page.evaluate((names) => {
      const { gallery, emptyGallery } = (globalThis as unknown as { charts: typeof import("./gallery.ts") })
        .charts;
      const all = { ...gallery, ...emptyGallery };
      return names.map((name) => all[name]!(350, document).outerHTML);
    }, names);
    const document = newDocument();
    names.forEach((name, i) => {
      const here = everything[name]!(350, document).outerHTML;
      const at = [...here].findIndex((letter, k) => letter !== there[i]![k]);
      const around = (text: string): string => text.slice(Math.max(0, at - 60), at + 60);
      expect(at < 0 ? "the same" : around(there[i]!), name).toBe(at < 0 ? "the same" : around(here));
      expect(there[i]!.length).toBe(here.length);
    });
  });

  it.each(names)("%s: words are 11 px and more, on the paper, and not on each other", async (name) => {
    for (const width of [350, 720]) {
      const words = await wordsOn(page, name, width);
      // An empty one has a title and says why.
      expect(words.length).toBeGreaterThan(name.endsWith("-empty") ? 1 : 2);
      for (const { text, size, box } of words) {
        expect(size, text).toBeGreaterThanOrEqual(11);
        expect(box.x, text).toBeGreaterThan(-1);
        expect(box.x + box.width, `${text} at ${width}`).toBeLessThan(width + 1);
      }
      for (const [i, a] of words.entries())
        for (const b of words.slice(i + 1)) {
          const across = Math.min(a.box.x + a.box.width, b.box.x + b.box.width) - Math.max(a.box.x, b.box.x);
          const down = Math.min(a.box.y + a.box.height, b.box.y + b.box.height) - Math.max(a.box.y, b.box.y);
          // Boxes hold room above and below the letters: only more than that is one word on another.
          const common = Math.max(0, across) * Math.max(0, down - 4);
          const least = Math.min(a.box.width * a.box.height, b.box.width * b.box.height);
          expect(common / least, `“${a.text}” on “${b.text}” at ${width}`).toBeLessThan(0.15);
        }
    }
  });

  it("shows a swing's numbers when pointed at", async () => {
    await page.evaluate(() => {
      const { gallery } = (globalThis as unknown as { charts: typeof import("./gallery.ts") }).charts;
      document.body.replaceChildren(gallery["spray-chart-tip"]!(350, document));
    });
    const mark = page.locator("[aria-description=swings] > *").first();
    const box = (await mark.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await expect.poll(() => page.locator("[aria-label=tip]").textContent()).toMatch(/mph, launch .*carry/);
  });
});
