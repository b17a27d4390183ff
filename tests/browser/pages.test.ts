/**
 * The pages in a browser, served live and built: one browser, one server and one build for all of them. The
 * library is a copy of the demo's, so that a test may change it.
 */
import { appendFileSync, cpSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { request } from "node:http";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { JSDOM } from "jsdom";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks, type BuiltFile } from "../../notebooks/build.ts";
import { pageLibrary, type LibraryFile, type PageLibrary } from "../../notebooks/components/library.ts";
import { every, pick, stripGroup } from "../../notebooks/components/pick.ts";
import { fieldUnder, sideOf, surfaceUnder, zoneFor } from "../../notebooks/components/ground.ts";
import { pages } from "../../notebooks/pages.ts";
import { fromDisk } from "../../notebooks/plugins/from-disk.ts";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { bucketStrip } from "../../src/charts/bucketStrip.ts";
import { contactMap } from "../../src/charts/contactMap.ts";
import { sprayChart } from "../../src/charts/sprayChart.ts";
import { zoneMap } from "../../src/charts/zoneMap.ts";
import { cautions } from "../../src/views/cautions.ts";
import { laneShares } from "../../src/views/lanes.ts";
import { inPlay } from "../../src/views/swings.ts";
import { zoneCells } from "../../src/views/zone.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { serveStatic, type StaticServer } from "./static.ts";
import { drawing } from "./svg.ts";
import { shown } from "./shown.ts";
import { drawn, openPage, widths, type Watched, settled } from "./watch.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const scratch = mkdtempSync(join(tmpdir(), "batted-pages-"));
const libraryDir = join(scratch, "library");
const siteDir = join(scratch, "site");
/** The least a swing needs. */
const head = "hitter,input,exit_velocity_mph,launch_angle_deg";
let browser: Browser;
let served: Served;
let built: StaticServer;
let files: readonly BuiltFile[];

beforeAll(async () => {
  cpSync(join(root, "data/demo"), libraryDir, {
    recursive: true,
    filter: (path) => !/\.(ts|json)$/.test(path),
  });
  appendFileSync(join(libraryDir, "newcomer.csv"), `${head}\nZoe Q.,tee,80,12\n`);
  ({ browser } = await launchChromium());
  ({ files } = await buildNotebooks({ library: libraryDir, out: siteDir }));
  [served, built] = await Promise.all([
    serveNotebooks({ library: libraryDir }),
    serveStatic(siteDir, "/club/pages/"),
  ]);
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await Promise.all([served?.close(), built?.close()]);
  rmSync(scratch, { recursive: true, force: true });
});

/** What axe calls serious or worse on a page. */
async function seriousIn(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const violations = await page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(): Promise<{ violations: Violation[] }> } };
    interface Violation {
      readonly id: string;
      readonly impact: string;
      readonly nodes: readonly { html: string }[];
    }
    return (await axe.run()).violations;
  });
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`);
}

/** Dates that a page breaks over two lines, with what is folded away unfolded. */
function brokenDates(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    for (const details of document.querySelectorAll("main details")) details.setAttribute("open", "");
    const found: string[] = [];
    const texts = document.createTreeWalker(document.querySelector("main")!, NodeFilter.SHOW_TEXT);
    for (let node = texts.nextNode() as Text | null; node !== null; node = texts.nextNode() as Text | null)
      for (const date of node.data.matchAll(/\d{4}-\d\d-\d\d/g)) {
        const range = document.createRange();
        range.setStart(node, date.index);
        range.setEnd(node, date.index + date[0].length);
        const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top)));
        if (lines.size > 1) found.push(node.data);
      }
    return found;
  });
}

/** The drill report's charts as Node draws them, for all of a hitter's work. */
function drillReportCharts(library: PageLibrary, hitter: string, widthsOf: readonly number[]): string[] {
  const rows = pick(library, { hitter });
  const balls = inPlay(rows);
  const { document } = new JSDOM().window;
  const at = (i: number) => ({ document, width: widthsOf[i] });
  const cells = zoneCells(rows, zoneFor(library, hitter));
  return [
    sprayChart(balls, { field: fieldUnder(library, balls), lanes: laneShares(balls), tip: true, ...at(0) }),
    contactMap(balls, { surface: surfaceUnder(library, balls), target: null, tip: true, ...at(1) }),
    zoneMap(cells, { bats: sideOf(balls), ...at(2) }),
    bucketStrip(rows, { groupName: stripGroup(every), most: 120, ...at(3) }),
  ].map((svg) => svg.outerHTML);
}

/** Opens one page of the live server, its charts drawn. */
async function openServed(file: string, hash = "", width: number = widths.desk): Promise<Watched> {
  const watched = await openPage(browser, served.address, width);
  await watched.page.goto(`${served.address}${file}${hash}`);
  await drawn(watched.page, shown[file]!.charts);
  return watched;
}

/** The status and text that a request gets which no browser would send. */
function ask(path: string, headers: Record<string, string> = {}): Promise<{ status: number; text: string }> {
  const { hostname, port } = new URL(served.address);
  return new Promise((done, fail) => {
    request({ hostname, port, path, headers }, (response) => {
      let text = "";
      response.setEncoding("utf8").on("data", (piece: string) => (text += piece));
      response.on("end", () => done({ status: response.statusCode ?? 0, text }));
    })
      .on("error", fail)
      .end();
  });
}

describe.each(["served", "built"] as const)("a page as it is %s", (how) => {
  it.each(pages.map(({ file }) => file))(
    "%s is whole, loads nothing else, and can be read by all",
    async (file) => {
      const { address } = how === "served" ? served : built;
      const { page, errors, away } = await openPage(browser, address, widths.phone);
      await page.goto(address + file);
      await drawn(page, shown[file]!.charts);
      await page.waitForFunction(() => document.querySelector(".first, .bring, .cage") !== null);
      const seen = page.locator("main svg[role=img]:not(.sessions svg)");
      // Where rows can be written, a target's window is drawn: two pads to draw it on.
      const pads = how === "served" && file === "bring-a-file.html" ? 2 : 0;
      await expect.poll(() => seen.count(), { timeout: 40_000 }).toBe(shown[file]!.charts + pads);
      expect(await page.locator("main h1").count()).toBe(1);
      expect(await page.locator("footer").innerText()).toBe(cautions.join(" "));
      expect(await page.locator("header [aria-current=page]").count()).toBe(1);
      const sideways = (): Promise<number> => page.evaluate(() => document.documentElement.scrollWidth);
      expect(await sideways()).toBeLessThanOrEqual(widths.phone);
      expect(await seriousIn(page)).toEqual([]);
      expect(await brokenDates(page)).toEqual([]);
      await page.setViewportSize({ width: widths.desk, height: 900 });
      expect(await sideways()).toBeLessThanOrEqual(widths.desk);
      expect(await brokenDates(page)).toEqual([]);
      expect(errors).toEqual([]);
      expect(away).toEqual([]);
      await page.close();
    },
    // Looking through a page of six thousand elements takes its while.
    90_000,
  );
});

describe("the built site", () => {
  it(
    "opened as a file says in a sentence what to do, and so it does without scripts; from a server it says neither",
    { timeout: 90_000 },
    async () => {
      const { page } = await openPage(browser, "file://", widths.phone);
      for (const { file } of pages) {
        await page.goto(pathToFileURL(join(siteDir, file)).href);
        expect(await page.locator("#from-disk").innerText()).toBe(fromDisk.file);
        expect(await page.locator("#from-disk").isVisible()).toBe(true);
        expect(await page.locator("#opening").count()).toBe(0);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
          widths.phone,
        );
      }
      await page.close();
      const scriptless = await browser.newContext({ javaScriptEnabled: false });
      const bare = await scriptless.newPage();
      await bare.goto(`${built.address}spray-chart.html`);
      expect(await bare.locator("noscript").first().innerText()).toBe(fromDisk.scriptless);
      expect(await bare.locator("#from-disk").isVisible()).toBe(false);
      expect(await bare.locator("#opening").isVisible()).toBe(false);
      await scriptless.close();
      const served = await openPage(browser, built.address, widths.phone);
      await served.page.goto(`${built.address}spray-chart.html`);
      await drawn(served.page, 2);
      expect(await served.page.locator("#from-disk").isVisible()).toBe(false);
      await served.page.close();
    },
  );

  it("says that the library is being opened, until it is there", async () => {
    const { page } = await openPage(browser, built.address, widths.phone);
    let arrives = (): void => {};
    const held = new Promise<void>((done) => (arrives = done));
    await page.route("**/library.json", async (route) => {
      await held;
      await route.continue();
    });
    await page.goto(`${built.address}spray-chart.html`);
    await page.locator("#opening").waitFor({ state: "visible" });
    expect(await page.locator("#opening").innerText()).toBe("Opening the library…");
    arrives();
    await drawn(page, 2);
    expect(await page.locator("#opening").count()).toBe(0);
    await page.close();
  });

  it("names no other machine", () => {
    const allowed = new Set([
      // Names of XML's vocabularies, which nobody loads.
      "http://www.w3.org/2000/svg",
      "http://www.w3.org/2000/xmlns/",
      "http://www.w3.org/1999/xlink",
      "http://www.w3.org/1999/xhtml",
      "http://www.w3.org/1998/Math/MathML",
      "http://www.w3.org/XML/1998/namespace",
      // Inside the Markdown library: how it completes a link that a writer typed, and a word in a warning.
      "http://",
      "http://${e.url}",
      "https://github.com/valeriangalliat/markdown-it-anchor#permalinks",
    ]);
    const names = readdirSync(siteDir, { recursive: true, encoding: "utf8" }).filter((n) => /\.\w+$/.test(n));
    expect(names.sort()).toEqual(files.map(({ file }) => file).sort());
    for (const { file } of pages) expect(names).toContain(file);
    for (const name of names) {
      const text = readFileSync(join(siteDir, name), "utf8");
      expect(text, name).not.toMatch(/jsdelivr|unpkg|esm\.sh|cdnjs|fonts\.g|observablehq\.com/);
      const addresses = text.match(/https?:\/\/[^\s"'`)\\]*/g) ?? [];
      expect(
        addresses.filter((address) => !allowed.has(address)),
        name,
      ).toEqual([]);
    }
  });

  it("holds its library, and asks for everything by a path of its own", () => {
    const library = pageLibrary(
      JSON.parse(readFileSync(join(siteDir, "library.json"), "utf8")) as LibraryFile,
    );
    expect(library.swings.length).toBeGreaterThan(1000);
    expect(library.trouble).toBeNull();
    for (const { file } of pages) {
      const text = readFileSync(join(siteDir, file), "utf8");
      expect(text).not.toMatch(/(?:src|href)="\//);
      expect(text).toContain("Content-Security-Policy");
    }
    expect(JSON.stringify(library)).not.toContain(scratch);
  });
});

describe("the live server", () => {
  it("answers this machine's names only", async () => {
    const { host } = new URL(served.address);
    expect((await ask("/index.html", { host })).status).toBe(200);
    for (const foreign of ["pages.example", "192.168.7.9:5180", "127.0.0.1.pages.example", "[::1]:5180"]) {
      for (const path of ["/index.html", "/library.json", "/@vite/client"]) {
        expect((await ask(path, { host: foreign })).status, `${foreign}${path}`).toBe(403);
      }
    }
  });

  it("gives nothing from outside the notebooks' own folders", async () => {
    const { text: own } = await ask("/index.html");
    expect(own).toContain("library");
    const paths = [
      "/../package.json",
      "/..%2fpackage.json",
      "/%2e%2e/package.json",
      "/..%5cpackage.json",
      `/@fs${root}package.json`,
      `/@fs${root}package.json?raw`,
      `/@fs${root}notebooks/../package.json?raw`,
      `/@fs${root}src/%2e%2e/package.json?import&raw`,
      `/@fs${libraryDir}/swings.csv?raw`,
      "/@fs/etc/passwd",
      "/@fs/etc/passwd?raw",
    ];
    for (const path of paths) {
      const { text } = await ask(path);
      expect(text, path).not.toMatch(/batted-ball-notebooks"|root:x:|swing_id,/);
    }
  });

  it("tells every page to load nothing from another machine", async () => {
    const { page, errors } = await openServed("index.html");
    const outcome = await page.evaluate(() =>
      fetch("http://127.0.0.1:9/").then(
        () => "loaded",
        () => "kept out",
      ),
    );
    expect(outcome).toBe("kept out");
    expect(errors.some((text) => text.includes("Content Security Policy"))).toBe(true);
    await page.close();
  });

  it("takes the next free port, unless one is asked for", async () => {
    const port = Number(new URL(served.address).port);
    const second = await serveNotebooks({ library: libraryDir });
    // Other servers of this machine come and go meanwhile: the next free one may lie below.
    expect(Number(new URL(second.address).port)).not.toBe(port);
    await second.close();
    await expect(serveNotebooks({ library: libraryDir, port })).rejects.toThrow(`port ${port}`);
  });

  it("says in one sentence that a library is missing", async () => {
    await expect(serveNotebooks({ library: join(scratch, "nowhere") })).rejects.toThrow("does not exist");
  });
});

describe("a page", () => {
  const scenario = "#hitter=Cal+R.&session=&drill=";

  it("draws what Node draws from the same rows", async () => {
    const { page } = await openServed("drill-report.html", scenario);
    const seen = await page.locator("main .chart svg[role=img]").evaluateAll((all) =>
      all.map((svg) => {
        // What a part is marked with lies over the chart, and is none of it.
        const chart = svg.cloneNode(true) as Element;
        chart.querySelector(".brush-layer")?.remove();
        return chart.outerHTML;
      }),
    );
    await page.close();
    const library = pageLibrary(JSON.parse((await ask("/library.json")).text) as LibraryFile);
    const made = drillReportCharts(
      library,
      "Cal R.",
      seen.map((text) => Number(drawing(text).attributes["width"])),
    );
    expect(seen).toHaveLength(made.length);
    seen.forEach((text, i) => expect(drawing(text)).toEqual(drawing(made[i]!)));
  });

  it("draws anew when a choice changes, and keeps the choice in its address", async () => {
    const { page, errors } = await openServed("drill-report.html");
    // Advice never stands without the cautions.
    expect(await page.locator("body > footer").innerText()).toContain(cautions.join(" "));
    const title = page.locator("main .chart svg[role=img]").first();
    const before = await title.evaluate((svg) => svg.outerHTML);
    await page.getByLabel("Hitter").selectOption("Eve S.");
    await page.waitForFunction((was) => {
      const svg = document.querySelector("main .chart svg[role=img]");
      return svg !== null && svg.outerHTML !== was;
    }, before);
    await drawn(page, 4);
    expect(decodeURIComponent(new URL(page.url()).hash)).toContain("hitter=Eve+S.");
    const chosen = await title.evaluate((svg) => svg.outerHTML);
    // Whoever is given the address sees the same.
    await page.reload();
    await drawn(page, 4);
    expect(await title.evaluate((svg) => svg.outerHTML)).toBe(chosen);
    // And the other pages are about the same hitter.
    await page.getByRole("link", { name: "Spray chart" }).click();
    await drawn(page, shown["spray-chart.html"]!.charts);
    expect(await page.getByLabel("Hitter").inputValue()).toBe("Eve S.");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("prints every chart of a changed choice, those too that were never in sight", async () => {
    const { page, errors } = await openServed("tee-vs-live.html", "", widths.phone);
    const charted = (): Promise<{ drawn: number; all: number }> =>
      page.evaluate(() => ({
        drawn: document.querySelectorAll("main figure.chart svg[role=img]").length,
        all: document.querySelectorAll("main figure.chart").length,
      }));
    const { all } = await charted();
    await page.getByRole("combobox", { name: "Hitter" }).selectOption("Eve S.");
    await expect
      .poll(charted, { timeout: 10_000 })
      .toEqual({ drawn: expect.toSatisfy((n: number) => n < all) as number, all });
    await page.pdf();
    expect(await charted()).toEqual({ drawn: all, all });
    expect(errors).toEqual([]);
    await page.close();
  });

  it.each(["drill-report.html", "spray-chart.html"])(
    "%s is read in metres and km/h when asked",
    async (file) => {
      const { page, errors } = await openServed(file, scenario);
      const said = (): Promise<string> =>
        page.evaluate(() =>
          [...document.querySelectorAll("main .observablehq--cell, main svg text")]
            .map((element) => element.textContent)
            .join(" "),
        );
      expect(await said()).toMatch(/\d (mph|ft)\b/);
      await page.getByLabel("Units").selectOption("metric");
      await drawn(page, shown[file]!.charts, /\d m\b/);
      await expect.poll(said).not.toMatch(/\d (mph|ft)\b|°F/);
      expect(await said()).toMatch(/\d m\b/);
      expect(new URL(page.url()).hash).toContain("units=metric");
      // The choice is in the address, and nothing is left behind.
      expect(
        await page.evaluate(() => localStorage.length + sessionStorage.length + document.cookie.length),
      ).toBe(0);
      expect(errors).toEqual([]);
      await page.close();
    },
  );

  it("tells live work's contact by pitch type, with n and intervals", async () => {
    const { page } = await openServed("drill-report.html", scenario);
    const rows = await page
      .locator(".live-groups table")
      .first()
      .locator("tr")
      .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent!)));
    await page.close();
    expect(rows[0]).toEqual([
      "Pitch type",
      "Pitches",
      "Missed, of swings",
      "Exit velocity",
      "mishit",
      "partial",
      "clean",
      "flush",
    ]);
    expect(rows.length).toBeGreaterThan(3);
    for (const cells of rows.slice(1)) {
      const parts = cells
        .slice(4)
        .map((cell) => /^(\d+) of (\d+) \(\d+\sto\s\d+%\)$/.exec(cell)!.slice(1).map(Number));
      expect(parts.reduce((sum, [count]) => sum + count!, 0)).toBe(parts[0]![1]);
    }
  });

  it("has plain words where a choice has no swings", async () => {
    const { page, errors } = await openPage(browser, served.address, widths.phone);
    const words = async (address: string): Promise<string> => {
      // Leaving while modules still come would look like requests that failed.
      await page.goto(`${served.address}${address}`);
      await settled(page);
      await page.locator(".nothing").first().waitFor();
      return page.locator("main").innerText();
    };
    expect(await words("spray-chart.html#hitter=Zoe+Q.&input=live")).toContain("No ball in play here yet");
    expect(await words("tee-vs-live.html#hitter=Zoe+Q.")).toContain("Zoe Q. has no live swings");
    const report = await words("drill-report.html#hitter=Zoe+Q.&session=nowhere&drill=nothing");
    expect(report).toContain("No drill with a target");
    expect(report).toContain("no earlier session");
    expect(await page.locator(".observablehq--error").count()).toBe(0);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("tries a ball: words, pictures and tables follow what is typed, and bad values are told", async () => {
    const { page, errors } = await openServed("carry-lab.html", "", widths.phone);
    const headline = page.locator(".told .headline");
    const carry = async (): Promise<number> => Number(/About (\d+) ft/.exec(await headline.innerText())![1]);
    const changed = async (was: string): Promise<void> => {
      await page.waitForFunction((w) => {
        const text = document.querySelector(".told, .trouble")?.textContent;
        return text != null && text !== w;
      }, was);
    };
    const type = async (label: string, value: string): Promise<void> => {
      const was = (await page.locator(".told, .trouble").first().textContent())!;
      await page.getByLabel(label, { exact: true }).fill(value);
      await changed(was);
    };
    const before = await carry();
    expect(await page.locator(".told").innerText()).toMatch(/Over the fence\?.*would clear it/);
    await page.getByText("Spin, ball, field, air and wind").click();
    await type("Altitude, ft", "5280");
    expect((await carry()) - before).toBeGreaterThan(20);
    await type("Exit velocity, mph", "90");
    expect(await carry()).toBeLessThan(before);
    expect(decodeURIComponent(new URL(page.url()).hash)).toContain("altitude_ft=5280");
    // The four sources of a spin, each with its spread.
    for (const [kind, spread] of [
      ["rate", "±100 rpm, and ±500 rpm across"],
      ["axis", "±100 rpm and ±5°"],
      ["parts", "each ±100 rpm"],
      ["none", "each ±500 rpm"],
    ] as const) {
      const was = (await page.locator(".told").textContent())!;
      await page.getByLabel("What was measured").selectOption(kind);
      await changed(was);
      expect(await page.locator(".told").innerText()).toContain(spread);
    }
    expect(await page.locator(".carry-changes table tbody tr").count()).toBe(10);
    expect(await page.locator(".carry-changes").innerText()).toContain("Adair");
    const rows = page.locator(".what-if table tbody tr");
    expect(await rows.count()).toBeGreaterThanOrEqual(10);
    const one = await rows.first().innerText();
    await page.getByLabel("Whose swings").selectOption("Eve S.");
    await page.waitForFunction(
      (was) => document.querySelector<HTMLElement>(".what-if tbody tr")?.innerText !== was,
      one,
    );
    expect(await page.locator(".what-if").innerText()).toMatch(/\d+ balls, the same launches each time/);
    await type("Pressure, inHg", "1013");
    expect(await page.locator(".trouble").innerText()).toBe(
      "Pressure 1013 inHg is over 32 inHg: 16 to 32 inHg is expected, and this looks like hPa.",
    );
    // No picture of another ball stays under the sentence.
    await page.waitForFunction(() => document.querySelector("main .chart svg[role=img]") === null);
    expect(await page.locator(".carry-changes table, .what-if table").count()).toBe(0);
    await type("Pressure, inHg", "");
    await drawn(page, 2);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("takes and tells a ball in metric units, and keeps it in the table's", async () => {
    const { page, errors } = await openServed(
      "carry-lab.html",
      "#units=metric&exit_velocity_mph=95",
      widths.phone,
    );
    const headline = page.locator(".told .headline");
    const carry = async (): Promise<number> => Number(/About (\d+) m\./.exec(await headline.innerText())![1]);
    const type = async (label: string, value: string): Promise<void> => {
      const was = (await page.locator(".told, .trouble").textContent())!;
      await page.getByLabel(label, { exact: true }).fill(value);
      await page.waitForFunction(
        (w) => ![w, undefined].includes(document.querySelector(".told, .trouble")?.textContent as string),
        was,
      );
    };
    const kept = (name: string): number =>
      Number(new URLSearchParams(new URL(page.url()).hash.slice(1)).get(name));
    expect(await page.getByLabel("Exit velocity, km/h", { exact: true }).inputValue()).toBe("152.9");
    const before = await carry();
    await page.getByText("Spin, ball, field, air and wind").click();
    await type("Temperature, °C", "35");
    expect(await carry()).toBeGreaterThan(before);
    // 35 °C is 95 °F; what was not typed anew is not rounded.
    expect([kept("temperature_f"), kept("exit_velocity_mph")]).toEqual([95, 95]);
    await type("Exit velocity, km/h", "160.9344");
    expect(kept("exit_velocity_mph")).toBe(100);
    await type("Pressure, hPa", "30");
    expect(await page.locator(".trouble").innerText()).toContain("542 to 1,084 hPa is expected");
    await type("Pressure, hPa", "1013,25");
    await drawn(page, 2);
    expect(kept("pressure_inhg")).toBeCloseTo(29.9213, 3);
    const said = await page.evaluate(() =>
      [".told", ".what-if", ".spreads", ".chart"]
        .flatMap((at) => [...document.querySelectorAll(`main ${at}`)])
        .map((element) => element.textContent)
        .join(" "),
    );
    expect(said).not.toMatch(/\d (mph|ft|inHg)\b|°F/);
    // Read in feet again, it is the same ball.
    await page.getByLabel("Units").selectOption("us");
    await page.getByLabel("Exit velocity, mph", { exact: true }).waitFor();
    expect(await page.getByLabel("Exit velocity, mph", { exact: true }).inputValue()).toBe("100");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("is worked with a thumb", async () => {
    const { page } = await openServed("spray-chart.html", "", widths.phone);
    for (const target of await page
      .locator("#choices select:visible, #settings select:visible, .chips label")
      .all()) {
      expect((await target.boundingBox())!.height).toBeGreaterThanOrEqual(44);
    }
    const before = await page
      .locator("main .chart svg[role=img]")
      .first()
      .evaluate((svg) => svg.outerHTML);
    await page.getByLabel("Tee", { exact: true }).check();
    await page.waitForFunction(
      (was) => document.querySelector("main .chart svg[role=img]")?.outerHTML !== was,
      before,
    );
    expect(new URL(page.url()).hash).toContain("input=tee");
    await page.close();
  });

  it("stands side by side at a desk and one below the other on a phone", async () => {
    const { page } = await openServed("drill-report.html");
    const places = async () =>
      Promise.all(
        (await page.locator(".panels figure.chart").all()).map(
          async (figure) => (await figure.boundingBox())!,
        ),
      );
    const [first, second] = await places();
    expect(first!.y).toBe(second!.y);
    await page.setViewportSize({ width: widths.phone, height: 900 });
    await page.waitForFunction(() => document.querySelector("figure.chart svg")!.clientWidth < 390);
    const stacked = await places();
    expect(new Set(stacked.map(({ x }) => x)).size).toBe(1);
    await page.close();
  });

  it.each(["bring-a-file.html", "progress.html"])(
    "lays %s out as the built site does",
    async (file) => {
      const opened = async (address: string): Promise<Page> => {
        const { page } = await openPage(browser, address, widths.desk);
        await page.goto(`${address}${file}`);
        return page;
      };
      const [live, site] = [await opened(served.address), await opened(built.address)];
      /** Where the sections stand, and what is beside each; null until all of it is there. */
      const places = (page: Page): Promise<readonly (readonly number[])[] | null> =>
        page.evaluate(() => {
          const beside = [...document.querySelectorAll("main > .heading + :not(.heading)")];
          const isThere = beside.length > 1 && beside.every((part) => part.clientHeight > 0);
          if (!isThere) return null;
          return [...document.querySelectorAll("main > .heading, main > .heading + *")].map((part) => {
            const { x, width } = part.getBoundingClientRect();
            return [Math.round(x), Math.round(width)];
          });
        });
      await expect.poll(() => places(live), { timeout: 50_000 }).not.toBeNull();
      // Charts and tables come one by one, and some take the whole width: both pages end alike.
      const isAlike = async (): Promise<boolean> => {
        const [here, there] = [await places(site), await places(live)];
        return here !== null && JSON.stringify(here) === JSON.stringify(there);
      };
      await expect.poll(isAlike, { timeout: 50_000 }).toBe(true);
      expect((await places(live))!.length).toBeGreaterThan(4);
      await Promise.all([live.close(), site.close()]);
    },
    120_000,
  );

  it("shows a change in the library by itself", async () => {
    const { page } = await openServed("index.html");
    const swings = page.locator(".figures dd b").first();
    const before = Number((await swings.innerText()).replace(",", ""));
    appendFileSync(
      join(libraryDir, "later.csv"),
      "hitter,input,exit_velocity_mph,launch_angle_deg\nIda Z.,tee,80,12\n",
    );
    await page.waitForFunction(
      (n) => document.querySelector(".figures dd b")?.textContent?.replace(",", "") === String(n + 1),
      before,
    );
    rmSync(join(libraryDir, "later.csv"));
    await page.waitForFunction(
      (n) => document.querySelector(".figures dd b")?.textContent?.replace(",", "") === String(n),
      before,
    );
    await page.close();
  });
});
