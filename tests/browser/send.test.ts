/** A page to send: one file that opens from a disk without a network, with one hitter's rows and nobody else's name. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { run } from "../cli/run.ts";
import { launchChromium } from "./chromium.ts";

const scratch = mkdtempSync(join(tmpdir(), "send-"));
const library = join(scratch, "library");
const out = join(scratch, "out");
/** As hostile as a name can be: it ends a script, opens another, and is no number. */
const hostile = `</script><script>window.ran=1</script><img src=x onerror="window.ran=1">`;
const others = ["Wilma Other", "Pit Cher", "Marked Name"];

/** A limit of mail programs that is easily kept. */
const mostBytes = 1_500_000;

let browser: Browser;

beforeAll(async () => {
  const head =
    "session,hitter,bats,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg,pitcher,drill,note,time\n";
  const quoted = `"${hostile.replaceAll('"', '""')}"`;
  const rows = Array.from({ length: 30 }, (_, i) => {
    const [name, ev] = [i % 3 === 0 ? quoted : i % 3 === 1 ? "Wilma Other" : "Marked Name", 70 + (i % 11)];
    const day = i < 15 ? "2025-03-01" : "2025-04-01";
    return `${day} wilma other,${name},R,live,${ev},${(i * 7) % 30},${((i * 13) % 60) - 30},Pit Cher,Wilma Other's round,with marked name,${day}T10:00:${String(i).padStart(2, "0")}`;
  });
  const { mkdirSync } = await import("node:fs");
  mkdirSync(library);
  writeFileSync(join(library, "swings.csv"), `${head}${rows.join("\n")}\n`);
  writeFileSync(
    join(library, "hitters.csv"),
    `hitter,bats,level\n${quoted},R,under 14\nWilma Other,L,adult\n`,
  );
  ({ browser } = await launchChromium());
}, 120_000);

afterAll(async () => {
  await browser?.close();
  rmSync(scratch, { recursive: true, force: true });
});

/** Opens a file with the network off; what went wrong, and what was asked for. */
async function opened(file: string, use: (page: Page) => Promise<void>): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, offline: true });
  const page = await context.newPage();
  const [wrong, asked]: [string[], string[]] = [[], []];
  page.on("pageerror", (error) => wrong.push(error.message));
  page.on("console", (message) => message.type() === "error" && wrong.push(message.text()));
  page.on("request", (request) => asked.push(request.url().split(":")[0]!));
  await page.goto(pathToFileURL(file).href);
  await page.waitForSelector("figure svg circle, figure svg path", { state: "attached" });
  await use(page);
  expect(wrong).toEqual([]);
  expect(new Set(asked.filter((scheme) => scheme !== "data" && scheme !== "blob"))).toEqual(
    new Set(["file"]),
  );
  await context.close();
}

describe("a page to send", () => {
  it("holds one hitter's rows, opens from a disk, runs nothing of a name, and is small enough to mail", async () => {
    const {
      status,
      out: told,
      err,
    } = await run("build", "--library", library, "--hitter", hostile, "-o", out, "--json");
    expect(err).toBe("");
    expect(status).toBe(0);
    const { files } = JSON.parse(told) as { files: { file: string; swings: number; bytes: number }[] };
    expect(files).toHaveLength(1);
    expect(files[0]!.swings).toBe(10);
    expect(readdirSync(out)).toEqual([files[0]!.file]);
    const path = join(out, files[0]!.file);
    const text = readFileSync(path, "utf8");
    expect(Buffer.byteLength(text)).toBe(files[0]!.bytes);
    expect(files[0]!.bytes).toBeLessThan(mostBytes);
    for (const name of others) expect(text.toLowerCase()).not.toContain(name.toLowerCase());
    expect(text).not.toContain(hostile);
    await opened(path, async (page) => {
      expect(await page.evaluate(() => (window as { ran?: number }).ran)).toBeUndefined();
      expect(await page.locator("body").innerText()).toContain("window.ran=1");
      expect(await page.locator("nav a").count()).toBe(0);
      expect(await page.locator("main").innerText()).not.toContain("no tables");
      expect(await page.locator("a[download]").count()).toBe(0);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    });
  }, 120_000);

  it("holds a span of days, and initials where they are asked for", async () => {
    const call = ["build", "--library", library, "--hitter", "wilma other", "-o", join(out, "i")];
    const { status, out: told } = await run(...call, "--initials", "--since", "2025-03-15", "--json");
    expect(status).toBe(0);
    const { files } = JSON.parse(told) as { files: { file: string; hitter: string; swings: number }[] };
    expect(files).toMatchObject([{ hitter: "W. O.", swings: 5, file: "swings-w-o.html" }]);
    const text = readFileSync(join(out, "i", files[0]!.file), "utf8");
    for (const name of others) expect(text.toLowerCase()).not.toContain(name.toLowerCase());
    expect(text).not.toContain("2025-03-01");
    await opened(join(out, "i", files[0]!.file), async (page) => {
      expect(await page.title()).toContain("W. O.");
    });
  }, 120_000);

  it("says who isn't there, and takes no file's name for a folder", async () => {
    const nobody = await run("build", "--library", library, "--hitter", "Wilma Othar", "-o", out);
    expect([nobody.status, nobody.err]).toEqual([2, expect.stringContaining('"Wilma Other"')]);
    const file = await run(
      "build",
      "--library",
      library,
      "--hitter",
      "Wilma Other",
      "-o",
      join(out, "a.html"),
    );
    expect([file.status, file.err]).toEqual([2, expect.stringContaining("go into a folder")]);
  }, 120_000);

  it("is given by the live server, to its own pages alone", async () => {
    const served: Served = await serveNotebooks({ library });
    try {
      const ask = (hitter: string, headers: Record<string, string> = {}): Promise<Response> =>
        fetch(`${served.address}send?${new URLSearchParams({ hitter }).toString()}`, { headers });
      const given = await ask(hostile);
      expect(given.headers.get("content-disposition")).toMatch(/^attachment; filename="swings\.html"/);
      const text = await given.text();
      for (const name of others) expect(text.toLowerCase()).not.toContain(name.toLowerCase());
      expect((await ask("nobody")).status).toBe(404);
      expect(
        (await ask(hostile, { "sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors" })).status,
      ).toBe(403);
      expect((await fetch(`${served.address}send`)).status).toBe(404);
    } finally {
      await served.close();
    }
  }, 120_000);
});
