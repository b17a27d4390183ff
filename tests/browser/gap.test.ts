/** The tee-versus-live page: quick to answer, whole where there is little to say, its tables to be taken away. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../notebooks/build.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { serveStatic, type StaticServer } from "./static.ts";
import { openPage, widths } from "./watch.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-gap-"));
const head =
  "session,hitter,bats,input,outcome,exit_velocity_mph,launch_angle_deg,spray_angle_deg,pitch_speed_mph,contact_side_ft,contact_depth_ft,contact_height_ft";

/** Hitters of whom little can be said, each for a reason of its own. */
function poorLibrary(): string {
  const lines = [head];
  const put = (
    hitter: string,
    input: string,
    n: number,
    more: Partial<Record<"session" | "speed" | "ev", (i: number) => string>>,
  ) => {
    for (let i = 0; i < n; i++) {
      const ev = more.ev?.(i) ?? String(70 + ((i * 37) % 23));
      const speed = more.speed?.(i) ?? (input === "live" ? String(68 + (i % 9)) : "");
      const session = more.session?.(i) ?? `${input}-${i % 3}`;
      const place = [((i % 3) - 1) * 0.5, 1 + (i % 4) * 0.3, 1.8 + (i % 3) * 0.6].map((v) => v.toFixed(2));
      lines.push(
        [
          session,
          hitter,
          "R",
          input,
          "in_play",
          ev,
          (i * 7) % 40,
          ((i * 11) % 60) - 30,
          speed,
          ...place,
        ].join(","),
      );
    }
  };
  const one = { session: () => "one-day" };
  const equal = { ev: () => "80" };
  put("One each", "tee", 1, {});
  put("One each", "live", 1, {});
  put("One day", "tee", 30, one);
  put("One day", "live", 20, one);
  put("=1+1", "tee", 25, {});
  put("Equal", "tee", 20, equal);
  put("Equal", "live", 20, { ...equal, speed: () => "75" });
  put("Half", "tee", 40, {});
  put("Half", "live", 40, { speed: (i) => (i % 2 ? "74" : "") });
  return `${lines.join("\n")}\n`;
}

let browser: Browser;
let poor: StaticServer;
let demo: StaticServer;

beforeAll(async () => {
  writeFileSync(join(scratch, "swings.csv"), poorLibrary());
  ({ browser } = await launchChromium());
  const site = async (library: string, name: string): Promise<StaticServer> => {
    await buildNotebooks({ library, out: join(scratch, name) });
    return serveStatic(join(scratch, name), "/");
  };
  poor = await site(scratch, "poor");
  demo = await site(join(root, "data/demo"), "demo");
}, 90_000);

afterAll(async () => {
  await browser?.close();
  await Promise.all([poor?.close(), demo?.close()]);
  rmSync(scratch, { recursive: true, force: true });
});

/** Everything a reader sees but the code. */
const words = (page: Page): Promise<string> =>
  page.evaluate(() =>
    [...document.querySelectorAll("main .observablehq--cell, main svg desc")]
      .map((e) => e.textContent)
      .join("\n"),
  );

describe("where little can be said", () => {
  it.each([
    ["One each", "too few to compare: 1 and 1"],
    ["One day", "One session on a side"],
    ["=1+1", "=1+1 has no live swings in this scope."],
    ["Equal", "80.0 mph"],
    ["Half", "Pitch speed is known for 20 of 40 live balls"],
    ["", "hitters"],
  ])("%s: a sentence, and no figure that is none", async (hitter, said) => {
    const { page, errors } = await openPage(browser, poor.address, widths.phone);
    for (const pair of ["tee-live", "flip-live"]) {
      const hash = new URLSearchParams({ hitter, pair });
      await page.goto("about:blank");
      await page.goto(`${poor.address}tee-vs-live.html#${hash}`, { waitUntil: "networkidle" });
      await page.locator(".answered").waitFor();
      await page.getByRole("button", { name: /: interval-coverage$/ }).waitFor();
      const seen = await words(page);
      if (pair === "tee-live") expect(seen).toContain(said);
      expect(seen).not.toMatch(/NaN|undefined|Infinity|\bnull\b/);
      expect(await page.locator(".observablehq--error").allInnerTexts()).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
        widths.phone,
      );
    }
    expect(errors).toEqual([]);
    await page.close();
  });

  it("gives a table as CSV, a name that a spreadsheet would compute guarded", async () => {
    const { page } = await openPage(browser, poor.address, widths.desk);
    const hash = new URLSearchParams({ hitter: "=1+1", pair: "tee-live" });
    await page.goto(`${poor.address}tee-vs-live.html#${hash}`, { waitUntil: "networkidle" });
    const button = page.getByRole("button", { name: /measures-/ });
    const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
    expect(download.suggestedFilename()).toBe("measures-1-1-tee-live.csv");
    const [first, ...rows] = readFileSync(await download.path(), "utf8")
      .trimEnd()
      .split("\r\n");
    expect(first).toMatch(/^hitter,measure,unit,from,to,gap,gap_low,gap_high,/);
    expect(rows.length).toBeGreaterThan(15);
    for (const row of rows) expect(row).toMatch(/^'=1\+1,/);
    await page.close();
  });
});

describe("a changed input on the demo", () => {
  /** Chooses, and measures until the answer stands and until nothing changes any more, ms. */
  const chosen = (page: Page, label: string, value: string): Promise<{ answer: number; all: number }> =>
    page.evaluate(
      async ([label, value]) => {
        const select = [...document.querySelectorAll("label.choice")]
          .find((choice) => choice.querySelector("span")?.textContent === label)!
          .querySelector("select")!;
        const headline = () => document.querySelector(".answered .headline")?.textContent;
        const before = headline();
        let [answer, all] = [0, 0];
        const start = performance.now();
        const observer = new MutationObserver(() => {
          all = performance.now() - start;
          if (answer === 0 && headline() !== before && headline() !== undefined) answer = all;
        });
        observer.observe(document.querySelector("main")!, { childList: true, subtree: true });
        select.value = value!;
        select.dispatchEvent(new Event("input", { bubbles: true }));
        let seen = -1;
        while (all !== seen || answer === 0) {
          seen = all;
          await new Promise((done) => setTimeout(done, 500));
        }
        observer.disconnect();
        return { answer, all };
      },
      [label, value] as const,
    );
  const middle = (times: number[]): number => times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!;

  // A machine that does other work meanwhile may be slow once; what is asked is that it can be quick.
  it(
    "is answered within 200 ms: at its head the first time, in whole once it was computed",
    { retry: 3, timeout: 60_000 },
    async () => {
      const { page, errors } = await openPage(browser, demo.address, widths.desk);
      await page.goto(`${demo.address}tee-vs-live.html`, { waitUntil: "networkidle" });
      await page.locator(".answered").waitFor();
      const hitters = ["Ben T.", "Cal R.", "Dov M.", "Eve S.", "Finn L."];
      const [first, again]: { answer: number; all: number }[][] = [[], []];
      for (const hitter of hitters) first!.push(await chosen(page, "Hitter", hitter));
      for (const hitter of hitters) again!.push(await chosen(page, "Hitter", hitter));
      // Where more programs want to run than there are cores, each gets its share of them.
      const most = 200 * Math.max(1, loadavg()[0]! / availableParallelism());
      expect(middle(first!.map((t) => t.answer))).toBeLessThan(most);
      expect(middle(again!.map((t) => t.all))).toBeLessThan(most);
      expect(errors).toEqual([]);
      await page.close();
    },
  );
});
