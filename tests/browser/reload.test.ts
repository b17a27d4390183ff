/** A page whose own file or module changes loads itself anew: tried in a copy, for no other test's pages may. */
import { spawn, type ChildProcess } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, utimesSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, it } from "vitest";
import { root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { openPage, widths } from "./watch.ts";

const copy = mkdtempSync(join(tmpdir(), "batted-copy-"));
let browser: Browser;
let program: ChildProcess;
let address: string;

beforeAll(async () => {
  ({ browser } = await launchChromium());
  for (const part of ["notebooks", "src", "data", "package.json", "tsconfig.json"])
    cpSync(join(root, part), join(copy, part), { recursive: true });
  // The packages are those of the project (its letters, outside the copy, aren't served); what the server makes of
  // them is the copy's own.
  mkdirSync(join(copy, "node_modules"));
  for (const name of readdirSync(join(root, "node_modules")))
    if (name !== ".vite") symlinkSync(join(root, "node_modules", name), join(copy, "node_modules", name));
  const args = ["--import", "tsx", "src/cli/main.ts", "notebooks", "--library", "data/demo"];
  program = spawn(process.execPath, args, { cwd: copy, stdio: ["ignore", "pipe", "inherit"] });
  const line = await new Promise<string>((done) =>
    program.stdout!.once("data", (told: Buffer) => done(String(told))),
  );
  address = /http:\/\/127\.0\.0\.1:\d+\//.exec(line)![0];
}, 180_000);

afterAll(async () => {
  await browser?.close();
  if (program !== undefined) {
    const ended = new Promise((done) => program.once("exit", done));
    program.kill("SIGTERM");
    await ended;
  }
  rmSync(copy, { recursive: true, force: true });
});

it.each(["notebooks/index.html", "src/swing/columns.ts"])(
  "a page is loaded anew when %s changes",
  { timeout: 120_000 },
  async (path) => {
    const { page } = await openPage(browser, address, widths.desk);
    await page.goto(`${address}index.html`);
    await page.locator(".figures dd b").first().waitFor({ timeout: 90_000 });
    await page.evaluate(() => ((window as { old?: boolean }).old = true));
    utimesSync(join(copy, path), new Date(), new Date());
    await page.waitForFunction(() => (window as { old?: boolean }).old === undefined);
    await page.locator(".figures dd b").first().waitFor({ timeout: 90_000 });
    await page.close();
  },
);
