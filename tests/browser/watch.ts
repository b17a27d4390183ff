/** A page with everything it did wrong: errors on its console, and requests off this machine. */
import type { Browser, Page, Request } from "playwright-core";

export interface Watched {
  readonly page: Page;
  /** What the console called an error, and what was thrown. */
  readonly errors: string[];
  /** Every address asked for that is not on the server the page came from. */
  readonly away: string[];
}

/** What a page has asked for and not yet got, by the time it asked; and when it last asked or got anything. */
interface Underway {
  readonly open: Map<Request, number>;
  last: number;
}
const underway = new WeakMap<Page, Underway>();

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
  const asked: Underway = { open: new Map(), last: Date.now() };
  underway.set(page, asked);
  const over = (request: Request): boolean => {
    asked.last = Date.now();
    return asked.open.delete(request);
  };
  page.on("requestfinished", over);
  page.on("requestfailed", (request) => {
    if (over(request)) errors.push(`${request.url()} failed`);
  });
  page.on("request", (request) => {
    asked.last = Date.now();
    asked.open.set(request, asked.last);
    const url = new URL(request.url());
    if (url.protocol !== "data:" && url.origin !== new URL(origin).origin) away.push(request.url());
  });
  page.on("websocket", (socket) => {
    if (new URL(socket.url()).host !== new URL(origin).host) away.push(socket.url());
  });
  return { page, errors, away };
}

/**
 * Waits until a page asks for nothing more: what is on its way when a page is left counts as failed. The browser
 * never tells of some requests that they are over (those of a frame that was taken out, of a worker that was ended),
 * so its own word for a quiet network may never come: what is older than the patience is given up on.
 */
export async function settled(page: Page, quiet_ms = 500, patience_ms = 10_000): Promise<void> {
  const asked = underway.get(page)!;
  for (;;) {
    const now = Date.now();
    for (const [request, since] of asked.open) if (now - since > patience_ms) asked.open.delete(request);
    if (asked.open.size === 0 && now - asked.last >= quiet_ms) return;
    await page.waitForTimeout(50);
  }
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
