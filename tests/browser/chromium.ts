/**
 * One headless Chromium for the browser tests: the machine's own, else the one an npm package carries.
 * `BATTED_CHROMIUM=bundled` asks for the second even where the first is there; a path asks for that file.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { chromium, type Browser } from "playwright-core";
import { root } from "../house/files.ts";

const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const elsewhere = [
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

/**
 * What a whole browser does beside the page, and a headless one has no use for. Its address line alone, itself a page or three,
 * takes 3 s of a processor for each window. The last word on features holds, so what the driver wants off stands here as well.
 */
const needless = [
  "WebUIOmniboxPopup",
  "WebUIOmniboxAimPopup",
  "WebUIOmniboxFullPopup",
  "AimEnabled",
  "HttpsUpgrades",
  "LensOverlay",
  "MediaRouter",
  "NetworkTimeServiceQuerying",
  "OptimizationHints",
  "PaintHolding",
  "PreconnectToSearch",
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
  `--disable-features=${needless.join(",")}`,
];

/** The machine's own Chromium, or null. */
export function installedChromium(): string | null {
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  const paths = [...folders.flatMap((folder) => names.map((name) => join(folder, name))), ...elsewhere];
  return paths.find((path) => existsSync(path)) ?? null;
}

/**
 * The folder of the npm package's Chromium and of the system libraries and fonts that a bare Linux lacks; unpacked
 * there when it isn't yet. The package itself writes to one fixed path in place, so two processes at once, or one
 * killed halfway, leave a file that can't be started. Here it unpacks into a folder of its own, which gets its name
 * when it is whole: whoever finds that name finds everything.
 */
export function unpackBundled(within: string = tmpdir()): string {
  const wanted = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
    devDependencies: Record<string, string>;
  };
  const folder = join(within, `batted-chromium-${wanted.devDependencies["@sparticuz/chromium"]}`);
  if (existsSync(folder)) return folder;
  const unpacking = mkdtempSync(`${folder}-`);
  // A child, since the package reads both of these from the environment, the second as it is imported.
  execFileSync(
    process.execPath,
    [
      "--input-type=module",
      "-e",
      'const { default: bundled } = await import("@sparticuz/chromium"); await bundled.executablePath();',
    ],
    {
      cwd: root,
      env: { ...process.env, TMPDIR: unpacking, AWS_EXECUTION_ENV: "AWS_Lambda_nodejs20.x" },
    },
  );
  const fonts = join(unpacking, "fonts", "fonts.conf");
  writeFileSync(fonts, readFileSync(fonts, "utf8").replaceAll("/tmp/", `${folder}/`));
  try {
    renameSync(unpacking, folder);
  } catch (error) {
    rmSync(unpacking, { recursive: true, force: true });
    // Another process was first: its folder is as whole as ours.
    if (!existsSync(folder)) throw error;
  }
  return folder;
}

/** Which browser the tests start: a path, or null for the npm package's. */
export function wishedChromium(): string | null {
  const wish = process.env["BATTED_CHROMIUM"] ?? "";
  return wish === "bundled" ? null : wish !== "" ? wish : installedChromium();
}

/** Starts the browser; `which` tells which one it is. */
export async function launchChromium(): Promise<{ browser: Browser; which: "machine" | "bundled" }> {
  const own = wishedChromium();
  if (own !== null)
    return { browser: await chromium.launch({ executablePath: own, args: quiet }), which: "machine" };
  const folder = unpackBundled();
  const libraries = [join(folder, "al2023", "lib"), process.env["LD_LIBRARY_PATH"] ?? ""];
  const browser = await chromium.launch({
    executablePath: join(folder, "chromium"),
    args: quiet,
    env: {
      ...process.env,
      HOME: process.env["HOME"] ?? folder,
      FONTCONFIG_PATH: join(folder, "fonts"),
      LD_LIBRARY_PATH: libraries.filter((path) => path !== "").join(delimiter),
    },
  });
  return { browser, which: "bundled" };
}
