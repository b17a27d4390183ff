/** A reader's own cell on a page, served as any other: the analyst's verbs work in it. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createServer, type Plugin, type ViteDevServer } from "vite";
import { builtPolicy, servedPolicy } from "../../notebooks/plugins/guard.ts";
import { absentCellSentence } from "../../notebooks/plugins/absent-cells.ts";
import { LibrarySource } from "../../notebooks/plugins/library-file.ts";
import { viteConfig } from "../../notebooks/vite.config.ts";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { openPage, widths } from "./watch.ts";

/** What a reader writes below a page: each hitter's swings, how many were hit hard, and the level beside them. */
const cell = `
  <script type="text/x-typescript">
    const swings = aq.from([
      {hitter: "Ada K.", speed: 61}, {hitter: "Ada K.", speed: 71}, {hitter: "Ben T.", speed: 50}, {hitter: "Gil P.", speed: 20}
    ]);
    const levels = aq.from([{hitter: "Ada K.", level: "under 14"}, {hitter: "Ben T.", level: "under 12"}]);
    const told = swings
      .filter((d) => d.speed > 30)
      .derive({hard: (d) => d.speed >= 60})
      .groupby("hitter")
      .rollup({n: (d) => aq.op.count(), hard: (d) => aq.op.sum(d.hard)})
      .join(levels, "hitter")
      .orderby("hitter");
    const said = document.createElement("p");
    said.id = "own-cell";
    said.textContent = JSON.stringify(told.objects());
    display(said);
  </script>
  <script type="application/sql" id="900" database="var:swings">
    SELECT hitter FROM swings
  </script>
  <script type="text/x-python" id="901">
    print("a program on this machine")
  </script>
`;

/** Adds the cell to the Start page before it is read as a notebook. */
const withCell: Plugin = {
  name: "own-cell",
  transformIndexHtml: {
    order: "pre",
    handler: (html) => html.replace("</notebook>", `${cell}</notebook>`),
  },
};

const scratch = mkdtempSync(join(tmpdir(), "batted-own-cell-"));
let browser: Browser;
let server: ViteDevServer;
let address: string;

beforeAll(async () => {
  ({ browser } = await launchChromium());
  const config = viteConfig(new LibrarySource(join(root, "data/demo")));
  server = await createServer({
    ...config,
    plugins: [withCell, ...config.plugins!],
    // Of other plugins the server makes other libraries, and those of the tests beside this one are in use.
    cacheDir: mkdtempSync(join(scratch, "vite-")),
  });
  await server.listen();
  address = server.resolvedUrls!.local[0]!;
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await server?.close();
  rmSync(scratch, { recursive: true, force: true });
});

describe("a reader's own cell", () => {
  // The server's first page makes its libraries ready, and may load itself anew on the way.
  it("groups, filters, derives and joins", { timeout: 120_000 }, async () => {
    const { page, errors } = await openPage(browser, address, widths.desk);
    await page.goto(`${address}index.html`);
    const said = page.locator("#own-cell, .observablehq--error").first();
    await said.waitFor({ timeout: 30_000 });
    expect(JSON.parse((await said.textContent())!)).toEqual([
      { hitter: "Ada K.", n: 2, hard: 2, level: "under 14" },
      { hitter: "Ben T.", n: 1, hard: 0, level: "under 12" },
    ]);
    expect(errors).toEqual([]);
    await page.close();
  });

  // Nothing is started for such a cell, whatever the machine has.
  it("in SQL or Python is told that there is none, in a sentence", { timeout: 120_000 }, async () => {
    const { page, errors } = await openPage(browser, address, widths.desk);
    await page.goto(`${address}index.html`);
    for (const language of ["SQL", "Python"])
      await page.getByText(absentCellSentence(language)).waitFor({ timeout: 30_000 });
    expect(await page.locator("main").innerText()).not.toContain("a program on this machine");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("may do the same on a built page, and nothing else came in with it", () => {
    for (const policy of [builtPolicy, servedPolicy("127.0.0.1:1")]) {
      expect(policy).toMatch(/script-src 'self' 'unsafe-eval'(;| 'sha256-)/);
      expect(policy).not.toMatch(/script-src [^;]*unsafe-inline/);
    }
  });
});
