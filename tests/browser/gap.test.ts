/** The tee-versus-live page: quick to answer, whole where there is little to say, its tables to be taken away. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../notebooks/build.ts";
import { root } from "../house/files.ts";
import { chosen, middle, nothingAhead, othersOf, stands } from "./changed.ts";
import { launchChromium } from "./chromium.ts";
import { serveStatic, type StaticServer } from "./static.ts";
import { openPage, widths, settled } from "./watch.ts";

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
      await page.goto(`${poor.address}tee-vs-live.html#${hash}`);
      await settled(page);
      await page.locator(".first").waitFor();
      await page.getByRole("button", { name: /: interval-coverage$/ }).waitFor();
      const seen = await words(page);
      if (pair === "tee-live") expect(seen).toContain(said);
      expect(seen).not.toMatch(/NaN|undefined|Infinity|\bnull\b|HTML\w*Element/);
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
    await page.goto(`${poor.address}tee-vs-live.html#${hash}`);
    await settled(page);
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
  /**
   * The figure is 200 ms for the whole page, and `npm run bench` holds it to that. A calibration loop takes the machine
   * it was measured on 20 ms; what shares a machine slows both down, and the page, which draws beside it computes, more:
   * twice as many loops are allowed here.
   */
  const loops = (2 * 200) / 20;

  // A machine that does other work meanwhile may be slow once; what is asked is that it can be quick.
  it(
    "is answered at once, the whole page, though nothing of it was computed before",
    { retry: 3, timeout: 90_000 },
    async () => {
      const { page, errors } = await openPage(browser, demo.address, widths.desk);
      await nothingAhead(page);
      const ratios: number[] = [];
      for (const [label, most] of [
        ["Hitter", 5],
        ["Compare", 2],
        ["Measure", 4],
        ["Drill", 3],
      ] as const) {
        await page.goto("about:blank");
        await page.goto(`${demo.address}tee-vs-live.html`);
        const others = await othersOf(page, label);
        await stands(page);
        for (const value of others.slice(0, most)) {
          const { whole, loop } = await chosen(page, label, value);
          ratios.push(whole / loop);
        }
      }
      expect(ratios.length).toBe(14);
      expect(middle(ratios)).toBeLessThan(loops);
      expect(errors).toEqual([]);
      await page.close();
    },
  );
});

describe("leaving out flagged swings", () => {
  it("is offered with their number, obeyed by every output, and said", { timeout: 120_000 }, async () => {
    const { page, errors } = await openPage(browser, demo.address, widths.phone);
    await page.goto(`${demo.address}tee-vs-live.html#${new URLSearchParams({ hitter: "" })}`);
    await settled(page);
    await stands(page);
    await page.getByRole("button", { name: "More choices" }).click();
    const box = page.getByRole("checkbox", { name: /Leave out flagged swings \(\d+\)/ });
    const label = await page.locator("label.tick").innerText();
    const all = Number(/\((\d+)\)/.exec(label)![1]);
    expect(all).toBeGreaterThan(0);
    const before = await words(page);
    await box.check();
    await stands(page);
    const after = await words(page);
    expect(before).not.toContain("left out of");
    expect(after).toContain(`${all} flagged swings are left out of every figure here.`);
    expect(after).toContain(`${all} flagged swings are left out of this list of all hitters.`);
    expect(after).toContain(`${all} flagged swings are left out of these figures of all hitters.`);
    expect(await page.evaluate(() => location.hash)).toContain("flagged=yes");
    expect(errors).toEqual([]);
    await page.close();
  });
});
