/** A page's first screen and what stands around it: heard when it changes, light and dark, on paper, in large letters. */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { pages } from "../../notebooks/pages.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { shown } from "./shown.ts";
import { openPage, settled, widths } from "./watch.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-first-"));
let browser: Browser;
let served: Served;

beforeAll(async () => {
  cpSync(join(root, "data/demo"), scratch, {
    recursive: true,
    filter: (path) => !/\.(ts|json|md)$/.test(path),
  });
  const blind = Array.from({ length: 12 }, (_, i) => `No Direction,R,tee,${70 + i},${i * 2}`);
  writeFileSync(
    join(scratch, "blind.csv"),
    ["hitter,bats,input,exit_velocity_mph,launch_angle_deg", ...blind].join("\n"),
  );
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: scratch });
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(scratch, { recursive: true, force: true });
});

async function open(page: Page, file: string, hash = ""): Promise<void> {
  await page.goto("about:blank");
  await page.goto(`${served.address}${file}.html${hash}`);
  await page.locator(".first .answer").waitFor({ timeout: 120_000 });
  await page.locator(".first .picture :is(svg, table, .nothing)").first().waitFor({ timeout: 120_000 });
  await page.evaluate(() => document.fonts.ready);
}

/** From where to where a part reaches down a page that is not scrolled, px; of a chart, without the words about it. */
const reach = (page: Page, selector: string): Promise<{ top: number; bottom: number } | null> =>
  page.evaluate((selector) => {
    const part = document.querySelector(selector);
    if (part === null || getComputedStyle(part).visibility === "hidden") return null;
    const words = /^(?:words|key|tip)$/;
    const parts =
      part.localName === "svg"
        ? [...part.querySelectorAll(":scope > g")].filter(
            (g) => !words.test(g.getAttribute("aria-label") ?? "") && !g.matches(".brush-layer"),
          )
        : [part];
    const boxes = parts.map((one) => one.getBoundingClientRect()).filter(({ height }) => height > 0);
    if (boxes.length === 0) return null;
    return {
      top: scrollY + part.getBoundingClientRect().top,
      bottom: scrollY + Math.max(...boxes.map((box) => box.bottom)),
    };
  }, selector);

/** Sheets of a printed page: Chromium writes page objects uncompressed. */
const sheetsIn = (pdf: Buffer): number => pdf.toString("latin1").match(/\/Type\s*\/Page(?!s)/g)?.length ?? 0;

describe("the first screen", { timeout: 240_000 }, () => {
  it("is heard when it changes, follows light and dark, and names the hitter on paper", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await open(page, "drill-report");
    const heard = page.locator("#heard[role=status]");
    expect(await heard.textContent()).toBe(await page.locator(".first .answer").textContent());
    await page.getByLabel("Hitter").selectOption("Eve S.");
    await expect.poll(() => heard.textContent(), { timeout: 30_000 }).toMatch(/^Eve S\. /);
    expect(await page.locator("style#printed").textContent()).toMatch(
      /@top-left[^}]*"Eve S\. · Drill report"/,
    );
    const paper = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const light = await paper();
    await page.getByLabel("Light or dark").selectOption("dark");
    expect(await paper()).not.toBe(light);
    expect(page.url()).toContain("light=dark");
    // At letters twice as large every page's name can still be read whole.
    await page.addStyleTag({ content: "html { font-size: 200% !important }" });
    for (const link of await page.locator("header nav a").all()) {
      const box = (await link.boundingBox())!;
      expect(box.x + box.width).toBeLessThanOrEqual(widths.desk);
    }
    expect(errors).toEqual([]);
    await page.close();
  });

  it.each(pages.map(({ file }) => file))("of %s holds its sentence, figures and picture", async (file) => {
    const { sentence, figures, picture } = shown[file]!;
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await page.goto(served.address + file);
    const parts = [sentence, figures, picture].filter((part) => part !== null);
    const found = async (): Promise<Record<string, { top: number; bottom: number } | null>> =>
      Object.fromEntries(
        await Promise.all(parts.map(async (part) => [part, await reach(page, part)] as const)),
      );
    for (const [width, height] of [
      [widths.desk, 800],
      [widths.phone, 844],
    ] as const) {
      await page.setViewportSize({ width, height });
      // On a phone the picture only has to begin.
      await expect
        .poll(
          async () =>
            Object.entries(await found()).map(([part, at]) => {
              if (at === null) return `${part} is not there`;
              const end = part === picture && width === widths.phone ? at.top + 60 : at.bottom;
              return at.top < 0 || end > height ? `${part} ends at ${Math.round(end)} of ${height}` : "in";
            }),
          { timeout: 60_000 },
        )
        .toEqual(parts.map(() => "in"));
    }
    expect(errors).toEqual([]);
    await page.close();
  });

  it("says so where no ball has a direction, and draws no empty field", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    await open(page, "spray-chart", "#hitter=No+Direction");
    expect(await page.locator(".picture .nothing").innerText()).toMatch(/No ball's direction was measured/);
    expect(await page.locator("svg.batted-spray-chart").count()).toBe(0);
    expect(errors).toEqual([]);
    await page.close();
  });
});

it(
  "opens live rounds at a pitcher whom the hitter met, and says the cautions once",
  { timeout: 120_000 },
  async () => {
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await open(page, "live-rounds", "#hitter=Ada+K.");
    const pitcher = page.locator("#choices [data-key=pitcher] select");
    const sheet = (): Promise<string | null> =>
      page.locator("[data-sheet=pitcher] table").first().textContent({ timeout: 60_000 });
    await expect.poll(sheet, { timeout: 60_000 }).toContain("Ada K.");
    const first = await pitcher.inputValue();
    // Another hitter met others; one that was chosen stays, and a link is what it says.
    await page.locator("#choices [data-key=hitter] select").selectOption("Cal R.");
    await expect.poll(sheet, { timeout: 60_000 }).toContain("Cal R.");
    expect(await pitcher.inputValue()).not.toBe(first);
    await pitcher.selectOption(first);
    await expect.poll(sheet, { timeout: 60_000 }).toContain("Ada K.");
    expect(new URL(page.url()).hash).toContain("hitter=Cal+R.");
    const told = async (): Promise<number> =>
      (await page.locator("body").innerText()).split("nothing here is medical advice").length - 1;
    expect(await told()).toBe(1);
    // Leaving while modules still come would look like requests that failed.
    await settled(page);
    await open(page, "group");
    await page.locator(".stations").waitFor({ timeout: 60_000 });
    expect(await told()).toBe(1);
    // On a sheet that is printed by itself, the page's foot is left out and the sheet has them.
    await page.evaluate(() => (window.print = () => undefined));
    await page.getByRole("button", { name: "Print the stations" }).click();
    await page.emulateMedia({ media: "print" });
    expect(await told()).toBe(1);
    expect(errors).toEqual([]);
    await page.close();
  },
);

it.each([
  // The answer is whole once it says how many lines were looked at; the pitcher's sheet, once its second part is there.
  [
    "group",
    "Print the group’s sheet",
    () => /looked at/.test(document.querySelector(".needs-list")!.innerHTML),
  ],
  [
    "live-rounds",
    "Print the pitcher’s sheet",
    () => document.querySelectorAll("[data-sheet=pitcher]").length === 2,
  ],
] as const)(
  "%s: a sheet can be printed once there is something to print, and says so until then",
  { timeout: 120_000 },
  async (file, name, isWhole) => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    // What a reader sees of the button, frame by frame.
    await page.addInitScript(`(() => {
      const isWhole = ${String(isWhole)};
      const seen = (window.seen = { waited: [], early: 0 });
      const look = () => {
        for (const button of document.querySelectorAll(".print-alone button")) {
          if (button.textContent !== ${JSON.stringify(name)}) continue;
          if (button.disabled) seen.waited.push(button.parentElement.innerText);
          else if (!isWhole()) seen.early++;
        }
        requestAnimationFrame(look);
      };
      look();
    })()`);
    await open(page, file);
    const button = page.getByRole("button", { name });
    await expect.poll(() => button.isEnabled(), { timeout: 60_000 }).toBe(true);
    expect(await page.locator(".print-alone", { has: button }).innerText()).toBe(name);
    const seen = await page.evaluate(() => (window as unknown as { seen: Seen }).seen);
    interface Seen {
      readonly waited: readonly string[];
      readonly early: number;
    }
    expect(seen.early).toBe(0);
    expect(seen.waited.length).toBeGreaterThan(0);
    for (const text of seen.waited) expect(text).toMatch(/is being worked out: then it can be printed\./);
    await settled(page);
    expect(errors).toEqual([]);
    await page.close();
  },
);

describe("the group's sheet", { timeout: 240_000 }, () => {
  // After the others: a library has more hitters from here on than a first screen holds.
  beforeAll(() => {
    // A group of thirty in a week of its own, most of them with something clear to work on: one drill met, the other never.
    const group = Array.from({ length: 30 }, (_, h) =>
      Array.from({ length: 48 }, (_, i) => {
        const met = i % 2 === 0 || h % 5 === 0;
        const drill = i % 2 === 0 ? "Tee, middle" : "Tee, inside out front";
        const time = `2025-01-${14 + (i % 3)}T17:${10 + i}:00`;
        const way = [68 + ((h * 7 + i * 5) % 17), met ? 12 + (i % 9) : 45, (i * 7) % 15, 1.7, met ? 2.4 : 1];
        return `${time.slice(0, 10)} group,${time},Player Number ${10 + h},R,tee,"${drill}",${way.join(",")}`;
      }),
    ).flat();
    const groupHead =
      "session,time,hitter,bats,input,drill,exit_velocity_mph,launch_angle_deg,spray_angle_deg,contact_height_ft,contact_depth_ft";
    writeFileSync(join(scratch, "thirty.csv"), [groupHead, ...group].join("\n"));
  });

  it.each(["A4", "Letter"])(
    "prints a group of thirty on one sheet of %s, every name whole",
    async (format) => {
      const { page, errors } = await openPage(browser, served.address, widths.desk);
      await open(page, "group", "#dates=2025-01-13/2025-01-19");
      await expect
        .poll(() => page.locator(".needs-list").innerText(), { timeout: 60_000 })
        .toMatch(/looked at/);
      expect(await page.locator(".needs li").count()).toBeGreaterThan(10);
      const panels = page.locator(".batted-group-panels text");
      const names = (await panels.allTextContents()).filter((text) => /^Player Number \d\d$/.test(text));
      expect(new Set(names).size).toBe(30);
      await page.evaluate(() => (window.print = () => undefined));
      await page.getByRole("button", { name: "Print the group’s sheet" }).click();
      expect(sheetsIn(await page.pdf({ format }))).toBe(1);
      expect(errors).toEqual([]);
      await page.close();
    },
  );
});
