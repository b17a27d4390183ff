/** How the pages are served and built: the same plugins for both. */
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { observable } from "@observablehq/notebook-kit/vite";
import type { InlineConfig, PluginOption } from "vite";
import { bring, type Bringing } from "./plugins/bring.ts";
import { withoutAbsentCells } from "./plugins/absent-cells.ts";
import { guard } from "./plugins/guard.ts";
import { imported } from "./plugins/imported.ts";
import { sayFromDisk } from "./plugins/from-disk.ts";
import { installed, placeOf } from "./plugins/installed.ts";
import { leftOut } from "./plugins/left-out.ts";
import { library } from "./plugins/library.ts";
import { filled, markedCells } from "./plugins/page.ts";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const kit = dirname(fileURLToPath(import.meta.resolve("@observablehq/notebook-kit")));

const notebook = (template: typeof filled): PluginOption =>
  observable({
    template: here("page/template.html"),
    transformTemplate: template,
    transformNotebook: withoutAbsentCells,
  }) as PluginOption;

const shared = {
  configFile: false,
  root: here("."),
  base: "./",
  appType: "mpa",
  publicDir: false,
  cacheDir: here("../node_modules/.vite/notebooks"),
  logLevel: "warn",
  clearScreen: false,
  resolve: {
    alias: [
      { find: /^npm:(.*)$/, replacement: "$1" },
      { find: /^observable:(.*)$/, replacement: `${kit}/$1` },
    ],
  },
  optimizeDeps: {
    noDiscovery: true,
    include: [
      "@observablehq/inputs",
      "@observablehq/plot",
      "@observablehq/notebook-kit > @observablehq/inspector",
      "@observablehq/notebook-kit > @observablehq/runtime",
      "@observablehq/notebook-kit > @sindresorhus/slugify",
      "@observablehq/notebook-kit > markdown-it",
      "@observablehq/notebook-kit > markdown-it-anchor",
      "arquero",
      "d3",
      "d3-array",
      "d3-random",
      "htl",
      "ml-matrix",
      "simple-statistics",
    ],
  },
  server: {
    host: "127.0.0.1",
    cors: false,
    fs: {
      strict: true,
      // An installed kit has its packages beside it.
      allow: [
        ...["notebooks", "src", "data", "node_modules"].map((f) => here(`../${f}`)),
        dirname(placeOf("vite")!),
      ],
      // Swings reach a page as library.json alone, and never a whole file of a library.
      deny: [".*", "**/.git/**", "*.{csv,parquet,crt,pem,key}"],
    },
  },
  worker: { format: "es" },
  build: {
    target: "es2022",
    // The first that know every selector of the pages: for older ones they would be rewritten, and weigh otherwise.
    cssTarget: ["chrome111", "edge111", "firefox121", "safari16.4"],
    modulePreload: { polyfill: false },
    rolldownOptions: { checks: { bundlerTimings: false } },
  },
} satisfies InlineConfig;

/**
 * The configuration for one library's pages.
 * @param source the library that is served; null for pages that are built
 * @param bringing where a page may write; absent, nowhere
 */
export function viteConfig(
  source: Parameters<typeof library>[0],
  bringing: Bringing = { dir: null },
): InlineConfig {
  const bringer = bring(bringing);
  return {
    ...shared,
    plugins: [
      guard(bringer.takesWrites),
      installed(),
      notebook(filled),
      markedCells(),
      library(source),
      bringer.plugin,
      sayFromDisk(),
      imported(),
    ],
  };
}

/** The configuration for pages whose library stands in themselves. */
export function onePageConfig(): InlineConfig {
  return {
    ...shared,
    plugins: [
      installed(),
      leftOut(),
      // A page on its own leads to no other.
      notebook((template, context) =>
        filled(template.replace(/<nav aria-label="Pages"><\/nav>/, ""), context),
      ),
      markedCells(),
    ],
    build: {
      ...shared.build,
      cssCodeSplit: false,
      // Letters stand in the page as well.
      assetsInlineLimit: Number.MAX_SAFE_INTEGER,
      rolldownOptions: { ...shared.build.rolldownOptions, output: { codeSplitting: false } },
    },
  };
}
