/** A page with everything it did wrong: errors on its console, and requests off this machine. */
import type { Browser, Page } from "playwright-core";

export interface Watched {
  readonly page: Page;
  /** What the console called an error, and what was thrown. */
  readonly errors: string[];
  /** Every address asked for that is not on the server the page came from. */
  readonly away: string[];
}

/** Phone and desk: the widths every page is read at. */
export const widths = { phone: 390, desk: 1280 } as const;

/**
 * A new page on a fine screen, where Plot draws as it does in Node: on a coarse one it moves lines by half a
 * pixel, so that they stay sharp. Motion is reduced: a page that is still gliding to its place gives other figures
 * at every look, and a browser that draws slowly glides for long.
 */
export async function openPage(browser: Browser, origin: string, width: number): Promise<Watched> {
  const page = await browser.newPage({
    viewport: { width, height: 900 },
    deviceScaleFactor: 2,
    reducedMotion: "reduce",
  });
  const errors: string[] = [];
  const away: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("requestfailed", (request) => errors.push(`${request.url()} failed`));
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (url.protocol !== "data:" && url.origin !== new URL(origin).origin) away.push(request.url());
  });
  page.on("websocket", (socket) => {
    if (new URL(socket.url()).host !== new URL(origin).host) away.push(socket.url());
  });
  return { page, errors, away };
}

/**
 * Waits until so many of the page's charts are drawn, as a reader who goes through the page sees them: one far out of
 * sight is drawn when it comes near. A session's badge is none.
 * @param words what the page is to say then
 */
export async function drawn(page: Page, charts: number, words = /(?:)/): Promise<void> {
  await page.waitForFunction(
    ({ charts, words }) => {
      document.querySelector("main figure.chart:not(:has(svg))")?.scrollIntoView();
      return (
        document.querySelectorAll("main svg[role=img]:not(.sessions svg)").length >= charts &&
        words.test(document.querySelector("main")!.textContent!) &&
        !document.querySelector(".observablehq--error")
      );
    },
    { charts, words },
    { timeout: 40_000 },
  );
  await page.evaluate(() => scrollTo(0, 0));
}
