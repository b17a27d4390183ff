/** From a strange sheet to rows in a library, by keyboard and by mouse, on a page that is served and on one that is built. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../notebooks/build.ts";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { openLibrary } from "../../src/library/library.ts";
import { run } from "../cli/run.ts";
import { launchChromium } from "./chromium.ts";
import { serveStatic, type StaticServer } from "./static.ts";
import { openPage, settled, widths } from "./watch.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const scratch = mkdtempSync(join(tmpdir(), "batted-bringing-"));
const dir = join(scratch, "library");
const site = join(scratch, "site");
let browser: Browser;
let served: Served;
let built: StaticServer;

/** Two hundred rows of eight hitters as a strange tracker writes them: two of them can't be read, two names are slips. */
function sheet(): string {
  const names = [
    "Owen Blake",
    "Lena Koch",
    "Ravi Nair",
    "Tomas Ortiz",
    "Mia Lund",
    "Kenji Ito",
    "Zoe Park",
    "Sam Abara",
  ];
  const lines = Array.from({ length: 200 }, (_, i) => {
    const name = i === 40 ? "owen blake" : i === 41 ? "Lena Kock" : names[i % 8]!;
    const speed = i === 77 ? "fast" : i === 120 ? "412,0" : `${122 + ((i * 7) % 24)},${i % 10}`;
    const side = i % 4 === 1 ? "LHH" : "RHH";
    const pulled = side === "LHH" ? 12 : -12;
    const mode = ["TeeBall", "FrontToss", "BP"][Math.floor(i / 8) % 3]!;
    return [
      name,
      side,
      speed,
      `${((i * 11) % 45) - 8},5`,
      `${pulled + ((i * 13) % 50) - 25},0`,
      mode,
      `Z${i % 9}`,
    ].join(";");
  });
  return ["Batter;Bats;EV (km/h);LA;Dir;Mode;Zone", ...lines].join("\r\n");
}

const file = (
  name: string,
  content: string | Buffer,
): { name: string; mimeType: string; buffer: Buffer } => ({
  name,
  mimeType: "text/csv",
  buffer: Buffer.from(content as string),
});

beforeAll(async () => {
  mkdirSync(dir);
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: dir });
  await buildNotebooks({ library: dir, out: site });
  built = await serveStatic(site, "/club/");
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
  await built?.close();
  rmSync(scratch, { recursive: true, force: true });
});

/** Waits for the newest card's answer; one that doesn't come is told with what stands there instead. */
async function said(page: Page, what: RegExp): Promise<void> {
  const answer = page.locator(".brought").first();
  await expect.poll(() => answer.innerText(), { timeout: 120_000 }).toMatch(what);
}

async function seriousIn(page: Page): Promise<string[]> {
  // The page's policy keeps scripts of others out; the browser's own may run.
  return page.evaluate(
    `${axe}; axe.run(document, { resultTypes: ["violations"] }).then((r) => r.violations.map((v) => v.id + " " + v.nodes[0].html))`,
  );
}

/** Brings the sheet, and answers what is asked of its words. */
async function bringSheet(page: Page): Promise<void> {
  await page.setInputFiles(".drop input", file("Cage week 38.csv", sheet()));
  await said(page, /rows can be taken/);
  const asked = page.getByRole("button", { name: /^a flip or a toss/ });
  if ((await asked.count()) > 0) await asked.first().click();
  await said(page, /(?:^|\n)198 rows can be taken, 2 are refused/);
}

/** Presses Tab until an element of that name has the keyboard. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press("Tab");
    const at = await page.evaluate(() => {
      const element = document.activeElement as HTMLElement;
      return element.getAttribute("aria-label") ?? element.textContent ?? "";
    });
    if (name.test(at)) return;
  }
  throw new Error(`no Tab leads to ${name}`);
}

describe("a strange sheet", { timeout: 180_000 }, () => {
  it("goes from the file to the library by keyboard alone; axe finds nothing on the way", async () => {
    const { page, errors, away } = await openPage(browser, served.address, widths.phone);
    await page.addInitScript(() => {
      // A printer's window would wait for somebody.
      window.print = () =>
        void (top as unknown as { printed: string[] }).printed.push(document.documentElement.outerHTML);
    });
    await page.goto(`${served.address}bring-a-file.html`);
    await page.locator(".needed").first().waitFor();
    await bringSheet(page);
    expect(await page.locator(".columns").first().innerText()).toMatch(/EV \(km\/h\)/);
    expect(await page.locator("text=Left out: Zone").count()).toBe(1);
    expect(await seriousIn(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(widths.phone);
    await page.locator(".drop input").focus();
    for (const name of [/^One: Owen Blake$/, /^One: Lena Koch$/]) {
      await tabTo(page, name);
      await page.keyboard.press("Enter");
      await said(page, /can be taken/);
    }
    // A row is put right where it stands.
    const row = page
      .locator(".cause", { hasText: "“fast”" })
      .or(page.locator(".cause", { hasText: '"fast"' }));
    await row.locator("summary").focus();
    await page.keyboard.press("Enter");
    await row.locator("label.wrong input").focus();
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("131,4");
    await page.keyboard.press("Enter");
    await said(page, /(?:^|\n)199 rows can be taken, 1 is refused/);
    await page.locator(".drop input").focus();
    await tabTo(page, /^Add 199 rows to the library$/);
    await page.keyboard.press("Enter");
    await said(page, /(?:^|\n)Added: 200 rows, 199 new, 1 refused/);
    expect(await seriousIn(page)).toEqual([]);
    const { swings } = await openLibrary(dir);
    expect(swings).toHaveLength(199);
    expect([...new Set(swings.map(({ hitter }) => hitter))].sort()).toHaveLength(8);
    expect(swings.filter(({ input }) => input === "tee").length).toBeGreaterThan(60);
    // 131.4 km/h, by the mile of 1.609344 km.
    expect(swings.some((s) => Math.abs(s.exit_velocity_mph! - 131.4 / 1.609344) < 1e-9)).toBe(true);
    // Its reports: seen, all printed at once, and saved as the command writes them.
    const print = page.getByRole("button", { name: "Print 8 reports" });
    await print.waitFor();
    await page.locator(".doing .quiet, iframe.sheet").first().waitFor();
    expect(await seriousIn(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(widths.phone);
    expect(await page.frameLocator("iframe.sheet").locator("h1").innerText()).toMatch(/^Drill report: /);
    await page.evaluate(() => ((globalThis as { printed?: string[] }).printed = []));
    await tabTo(page, /^Print 8 reports$/);
    await page.keyboard.press("Enter");
    await page.getByText("8 reports went to the printer").waitFor();
    const printed = await page.evaluate(() => (globalThis as { printed?: string[] }).printed!);
    expect(printed).toHaveLength(1);
    const named = [...printed[0]!.matchAll(/<h1>Drill report: <bdi>(.*?)<\/bdi>/g)].map(([, name]) => name);
    expect(named.sort()).toEqual([...new Set(swings.map(({ hitter }) => hitter))].sort());
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save 8 reports" }).click(),
    ]);
    const saved = unzipSync(readFileSync(await download.path()));
    const out = join(scratch, "reports");
    const made = await run(
      "report",
      "--library",
      dir,
      "--session",
      "Cage week 38",
      "--size",
      "page",
      "-o",
      out,
    );
    expect(made).toMatchObject({ status: 0 });
    const files = readdirSync(out).sort();
    expect(Object.keys(saved).sort()).toEqual(files);
    expect(files).toHaveLength(9);
    for (const file of files)
      expect(strFromU8(saved[file]!) === readFileSync(join(out, file), "utf8"), file).toBe(true);
    // The same file again: what its headings mean is known, and nothing is there twice.
    await page.setInputFiles(".drop input", file("Cage week 38.csv", sheet()));
    await page.getByText("Read it as the last file with these headings").waitFor();
    await said(page, /(?:^|\n)198 rows can be taken/);
    await page.getByRole("button", { name: /^Add 198 rows/ }).click();
    await said(page, /(?:^|\n)Added: 200 rows, 0 new, 198 there already, 2 refused/);
    expect((await openLibrary(dir)).swings).toHaveLength(199);
    expect(errors).toEqual([]);
    expect(away).toEqual([]);
    await page.close();
  });

  it("leads to a target that is drawn over the balls, and to a field of the facility's own", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await page.goto(`${served.address}bring-a-file.html`);
    const targets = page.locator(".needed details", { hasText: "Targets" });
    await targets.locator("summary").click();
    await targets.getByLabel("Another drill").fill("Line drives");
    await targets.getByRole("button", { name: "Set its target" }).click();
    const pad = targets.locator("svg.pad").first();
    const value = (name: string): Promise<string> =>
      targets.locator(`[data-key="target ${name}"]`).inputValue();
    const draw = async (): Promise<number[]> => {
      await pad.scrollIntoViewIfNeeded();
      const { x, y, width, height } = (await pad.boundingBox())!;
      await page.mouse.move(x + width * 0.5, y + height * 0.3);
      await page.mouse.down();
      await page.mouse.move(x + width * 0.6, y + height * 0.4);
      await page.mouse.move(x + width * 0.8, y + height * 0.6);
      await page.mouse.up();
      const ends = [
        "exit_velocity_mph_low",
        "exit_velocity_mph_high",
        "launch_angle_deg_low",
        "launch_angle_deg_high",
      ];
      return (await Promise.all(ends.map(value))).map(Number);
    };
    // What stands above may still come in and move the drawing away under the pointer: then it is drawn again.
    let [slow, fast, down, up] = [0, 0, 0, 0];
    await expect
      .poll(
        async () => {
          [slow, fast, down, up] = (await draw()) as [number, number, number, number];
          return Math.min(fast - slow, up - down);
        },
        { timeout: 60_000, interval: 500 },
      )
      .toBeGreaterThan(15);
    expect(slow).toBeGreaterThan(50);
    // What is said is what the swings say.
    const { swings } = await openLibrary(dir);
    const last = swings.slice(-100);
    const met = last.filter(
      ({ exit_velocity_mph: v, launch_angle_deg: a }) => v! >= slow && v! <= fast && a! >= down && a! <= up,
    );
    await targets
      .getByText(`${met.length} of the last 100 swings of all drills would have met it.`)
      .waitFor();
    // The numbers are what a keyboard uses, and move the drawing.
    await targets.locator('[data-key="target exit_velocity_mph_low"]').fill("200");
    await targets.getByText("One of the numbers").waitFor();
    await targets.locator('[data-key="target exit_velocity_mph_low"]').fill(String(slow));
    await targets.getByRole("button", { name: "Save this target" }).click();
    await targets.getByText("Saved: Line drives.").waitFor();
    const saved = (await openLibrary(dir)).targets.find(({ drill }) => drill === "Line drives");
    expect(saved).toMatchObject({ exit_velocity_mph_low: slow, launch_angle_deg_high: up });
    const fields = page.locator(".needed details", { hasText: "Fields of your own" });
    await fields.locator("summary").click();
    await fields.getByLabel("Another field").fill("Back Lot");
    // A name that is half typed outlasts a swing that arrives meanwhile.
    const told = page.locator(".needed details", { hasText: "Hitters" }).locator("summary");
    const before = await told.innerText();
    const later = join(dir, "later.csv");
    writeFileSync(later, "hitter,input,exit_velocity_mph,launch_angle_deg\nTes Wren,tee,80,12\n");
    await expect.poll(() => told.innerText(), { timeout: 60_000 }).not.toBe(before);
    rmSync(later);
    await expect.poll(() => told.innerText(), { timeout: 60_000 }).toBe(before);
    await fields.getByRole("button", { name: "Measure it" }).click();
    const feet = { base_path_ft: 60, pitching_ft: 46, dirt_radius_ft: 50, left_ft: 180, left_center_ft: 200 };
    const more = { center_ft: 220, right_center_ft: 200, right_ft: 175, fence_ft: 6 };
    for (const [name, number] of Object.entries({ ...feet, ...more }))
      await fields.locator(`[data-key="field ${name}"]`).fill(String(number));
    await fields.getByRole("button", { name: "Save this field" }).click();
    await fields.getByText("Saved: Back Lot.").waitFor();
    expect((await openLibrary(dir)).fields).toEqual([{ field: "Back Lot", ...feet, ...more }]);
    // A session can be told to have been played there.
    const sessions = page.locator(".needed details", { hasText: "Sessions" });
    await sessions.locator("summary").click();
    const list = sessions.locator('select[data-key="session field"]');
    await expect.poll(() => list.locator("option").allTextContents()).toContain("Back Lot");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("that is none is told in one sentence, and the page goes on", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.desk);
    await page.goto(`${served.address}bring-a-file.html`);
    await page.locator(".needed").first().waitFor();
    const utf16 = Buffer.concat([
      Buffer.from([0xff, 0xfe]),
      Buffer.from("hitter,input,exit_velocity_mph,launch_angle_deg\nAna,tee,80,10\n", "utf16le"),
    ]);
    const tries: [string, string | Buffer, RegExp][] = [
      ["empty.csv", "", /\nempty\.csv is empty\./],
      ["sheet.csv", Buffer.from([0x50, 0x4b, 3, 4, 0, 0]), /is a spreadsheet or a zip archive/],
      ["page.csv", "<!doctype html><script>document.title='ran'</script>", /is a web page or XML/],
      ["line.csv", "x".repeat(10_000_000), /a line so long/],
      ["squad.csv", "hitter,bats,level\nAna,L,under 14\n", /is a table of hitters, not of swings/],
      ["wide.csv", `${"a,".repeat(20_000)}\n1\n`, /no table is so wide/],
      [
        "old.csv",
        Buffer.from("hitter,input,exit_velocity_mph,launch_angle_deg\nJos\xe9,tee,80,10\n", "latin1"),
        /written in an older way/,
      ],
    ];
    for (const [name, content, why] of tries) {
      await page.setInputFiles(".drop input", file(name, content));
      const card = page.locator(".brought").first();
      await expect.poll(() => card.innerText(), { timeout: 120_000 }).toMatch(why);
      const trouble = card.locator(".trouble");
      expect((await trouble.first().textContent())!.split(/[.?]\s/).length).toBe(
        1 + Number(name === "old.csv"),
      );
    }
    await page.getByRole("button", { name: "Yes, read it so" }).click();
    await said(page, /(?:^|\n)1 row can be taken/);
    await page.setInputFiles(".drop input", file("u.csv", utf16));
    await said(page, /(?:^|\n)1 row can be taken/);
    const odd =
      "hitter,input,exit_velocity_mph,launch_angle_deg,__proto__,constructor\n=1+1,tee,80,10,x,y\n<img src=x onerror=document.title='ran'>,tee,80,10,x,y\n";
    await page.setInputFiles(".drop input", file("<b>.csv", odd));
    await said(page, /(?:^|\n)2 rows can be taken/);
    expect(await page.title()).not.toBe("ran");
    expect(await page.locator(".brought img").count()).toBe(0);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("of whose adding the page never heard is told of as soon as it can be: whole, or not at all", async () => {
    const { page } = await openPage(browser, served.address, widths.desk);
    const bring = async (name: string, speed: number): Promise<void> => {
      await page.goto(`${served.address}bring-a-file.html`);
      await page.locator(".needed").first().waitFor();
      const rows = `hitter,input,exit_velocity_mph,launch_angle_deg\nUma Sol,tee,${speed},10\nUma Sol,tee,${speed},11\n`;
      await page.setInputFiles(".drop input", file(name, rows));
      await page.getByRole("button", { name: /^Add 2 rows/ }).click();
      await said(page, /does not answer\. Start it again, and load this page anew/);
    };
    const told = async (what: string): Promise<void> => {
      await page.getByText(what).waitFor();
      // Told once.
      await page.reload();
      await page.locator(".needed").first().waitFor();
      expect(await page.getByText(what).count()).toBe(0);
    };
    await page.route("**/bring/add", (route) => route.abort());
    await bring("lost.csv", 80);
    await page.reload();
    await told("Nothing of lost.csv, whose answer never came, was added: bring it again.");
    await page.unroute("**/bring/add");
    await page.addInitScript(() => {
      const real = window.fetch;
      window.fetch = async (...call) => {
        const answer = await real(...call);
        if (String(call[0]).endsWith("bring/add")) throw new TypeError("gone");
        return answer;
      };
    });
    // The server tells of the rows that came to the library, and with that it is there again.
    await bring("unheard.csv", 81);
    await told("unheard.csv, whose answer never came, was added whole: 2 rows, 2 new.");
    // A page that hears of nothing any more is told at the next visit.
    await page.routeWebSocket(/./, () => {});
    await bring("deaf.csv", 82);
    await page.reload();
    await told("deaf.csv, whose answer never came, was added whole: 2 rows, 2 new.");
    expect((await openLibrary(dir)).swings.filter(({ hitter }) => hitter === "Uma Sol")).toHaveLength(4);
    await page.close();
  });

  it("stays in the browser where no program serves the page: there on the next visit, saved whole, wiped", async () => {
    const { page, errors, away } = await openPage(browser, built.address, widths.desk);
    await page.goto(`${built.address}bring-a-file.html`);
    await page.locator(".own p").first().waitFor();
    await bringSheet(page);
    for (const name of ["One: Owen Blake", "One: Lena Koch"]) {
      await page.getByRole("button", { name, exact: true }).click();
      await said(page, /can be taken/);
    }
    await page.getByRole("button", { name: /^Add 198 rows to this browser/ }).click();
    await said(page, /(?:^|\n)Added: 200 rows, 198 new, 2 refused/);
    await settled(page);
    await page.reload();
    await page.getByText("Kept here: 198 swings from 1 file").waitFor();
    // A ball tapped in on another page of the site is kept beside them, and is there at the next visit.
    await settled(page);
    await page.goto(`${built.address}in-the-cage.html#hitter=Zoe+Park`);
    await page.locator(".cage-figure b").waitFor();
    await page.getByLabel("Tap in balls").check();
    await page.getByLabel("Speed, mph", { exact: true }).fill("77.5");
    await page.getByLabel("Angle, °", { exact: true }).fill("12");
    await page.keyboard.press("Enter");
    const lastBall = (): Promise<string> => page.locator(".cage-figure b").first().innerText();
    await expect.poll(lastBall, { timeout: 60_000 }).toBe("78");
    await settled(page);
    await page.reload();
    await expect.poll(lastBall, { timeout: 60_000 }).toBe("78");
    await settled(page);
    await page.goto(`${built.address}bring-a-file.html`);
    await page.getByText("Kept here: 199 swings from 1 file").waitFor();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save everything" }).click(),
    ]);
    const zip = unzipSync(readFileSync(await download.path()));
    expect(Object.keys(zip).sort()).toEqual([
      "brought/Cage week 38.csv",
      "maps/map-1.json",
      "names.csv",
      "swings.csv",
    ]);
    expect(strFromU8(zip["brought/Cage week 38.csv"]!)).toBe(sheet());
    expect(strFromU8(zip["swings.csv"]!).trim().split("\r\n")).toHaveLength(200);
    // Reports saved here are those that the command writes of what was taken out.
    const own = join(scratch, "taken out");
    for (const [path, content] of Object.entries(zip)) {
      mkdirSync(dirname(join(own, path)), { recursive: true });
      writeFileSync(join(own, path), content);
    }
    await page.locator('select[data-key="report session"]').selectOption("Cage week 38");
    const [reports] = await Promise.all([
      page.waitForEvent("download", { timeout: 120_000 }),
      page.getByRole("button", { name: /^Save \d reports$/ }).click(),
    ]);
    const here = unzipSync(readFileSync(await reports.path()));
    const out = join(scratch, "of what was taken out");
    expect(
      await run("report", "--library", own, "--session", "Cage week 38", "--size", "page", "-o", out),
    ).toMatchObject({ status: 0 });
    const files = readdirSync(out).sort();
    expect(Object.keys(here).sort()).toEqual(files);
    expect(files).toHaveLength(9);
    // The folder holds what was taken; only this browser knows of the two rows that were refused, and says so.
    const refused = /\n +2 rows were refused and count nowhere here: check names them\./g;
    for (const file of files) {
      const text = strFromU8(here[file]!);
      expect(text.match(refused)?.length ?? 0, file).toBe(file === "index.html" ? 0 : 1);
      expect(text.replace(refused, "\n      ") === readFileSync(join(out, file), "utf8"), file).toBe(true);
    }
    await settled(page);
    await page.goto(`${built.address}spray-chart.html#hitter=Zoe+Park`);
    await page.locator("main svg[role=img]").first().waitFor();
    expect(await page.locator("#choices").innerText()).toContain("Zoe Park");
    await settled(page);
    await page.goto(`${built.address}bring-a-file.html`);
    await page.getByRole("button", { name: "Wipe this browser" }).click();
    await page.getByRole("button", { name: /^Yes, wipe 199 swings/ }).click();
    await page.getByText("Wiped:").waitFor();
    await settled(page);
    await page.reload();
    await page.locator(".own p").first().waitFor();
    expect(await page.getByText("Kept here").count()).toBe(0);
    expect(errors).toEqual([]);
    expect(away).toEqual([]);
    await page.close();
  });
});
