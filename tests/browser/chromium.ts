/**
 * One headless Chromium for the browser tests: the machine's own, else the one an npm package carries.
 * `BATTED_CHROMIUM=bundled` asks for the second even where the first is there; a path asks for that file.
 */
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { chromium, type Browser } from "playwright-core";

const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const elsewhere = [
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

/** Nothing in the browser may reach for the network by itself, and a container has no sandbox to offer. */
const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-default-apps",
  "--disable-sync",
  "--no-first-run",
  "--disable-dev-shm-usage",
];

/** The machine's own Chromium, or null. */
export function installedChromium(): string | null {
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  const paths = [...folders.flatMap((folder) => names.map((name) => join(folder, name))), ...elsewhere];
  return paths.find((path) => existsSync(path)) ?? null;
}

/** The Chromium of the npm package, unpacked with the system libraries that a bare Linux lacks. */
async function bundledChromium(): Promise<string> {
  // The package decides when it is imported, and by this variable alone, whether to unpack the libraries.
  if (process.platform === "linux") process.env["AWS_EXECUTION_ENV"] ??= "AWS_Lambda_nodejs20.x";
  const { default: bundled } = await import("@sparticuz/chromium");
  return bundled.executablePath();
}

/** Starts the browser; `which` tells which one it is. */
export async function launchChromium(): Promise<{ browser: Browser; which: "machine" | "bundled" }> {
  const wish = process.env["BATTED_CHROMIUM"] ?? "";
  const own = wish === "bundled" ? null : wish !== "" ? wish : installedChromium();
  const browser = await chromium.launch({ executablePath: own ?? (await bundledChromium()), args: quiet });
  return { browser, which: own === null ? "bundled" : "machine" };
}
