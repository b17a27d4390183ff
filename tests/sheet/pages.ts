/** Every page in every state: its first screen, and all of a state's pages as one picture to look over. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { csvFormat, csvParse } from "d3";
import type { Browser, Page } from "playwright-core";
import { buildNotebooks } from "../../notebooks/build.ts";
import { pages } from "../../notebooks/pages.ts";
import { shown } from "../browser/shown.ts";
import { serveStatic } from "../browser/static.ts";

type Row = Readonly<Record<string, string>>;
const demo = (table: string) => csvParse(readFileSync(`data/demo/${table}.csv`, "utf8"));
const swings: readonly Row[] = demo("swings");
const emptied = (row: Row, ...names: string[]): Row => ({
  ...row,
  ...Object.fromEntries(names.map((name) => [name, ""])),
});
const longest = "Wolfeschlegelsteinhausenbergerdorff-".repeat(3);

/** How the reader looks at a page. */
interface Look {
  readonly width: number;
  readonly dark?: boolean;
  /** Letters so many percent of their size. */
  readonly letters?: number;
}
const phone: Look = { width: 390 };
const desk: Look = { width: 1280 };

/** What is other than in the demo, and how it is looked at. */
interface State {
  readonly swings?: readonly Row[];
  readonly sessions?: readonly Row[];
  readonly hitters?: readonly Row[];
  readonly address?: string;
  readonly looks?: readonly Look[];
}
const named = (row: Row): Row => ({ ...row, hitter: `${row.hitter} ${longest}` });
const states: Readonly<Record<string, State>> = {
  demo: {
    looks: [
      phone,
      { ...phone, dark: true },
      { ...phone, letters: 200 },
      { width: 768 },
      desk,
      { ...desk, dark: true },
      { width: 1600 },
    ],
  },
  "no rows": { swings: [] },
  "one row": { swings: swings.slice(0, 1) },
  "12 rows": { swings: swings.slice(0, 12) },
  "no spray, no spin": {
    swings: swings.map((row) =>
      emptied(row, "spray_angle_deg", "backspin_rpm", "sidespin_rpm", "spin_rpm", "spin_axis_deg"),
    ),
  },
  "left-handed, small field, softball, metric": {
    swings: swings.map((row) => ({ ...row, bats: "L" })),
    hitters: demo("hitters").map((row) => ({ ...row, bats: "L" })),
    sessions: demo("sessions").map((row) => ({ ...row, field: "softball 43/60", ball: "softball" })),
    address: "#units=metric",
  },
  "longest names": { swings: swings.map(named), hitters: demo("hitters").map(named) },
};

async function shot(page: Page, address: string, look: Look, file: string): Promise<Buffer> {
  await page.setViewportSize({ width: look.width, height: look.width < 500 ? 844 : 800 });
  await page.emulateMedia({ colorScheme: look.dark === true ? "dark" : "light", reducedMotion: "reduce" });
  await page.goto("about:blank");
  await page.goto(address);
  if (look.letters !== undefined)
    await page.addStyleTag({ content: `html { font-size: ${look.letters}%; }` });
  const { sentence, picture } = shown[file]!;
  // A page without rows has no such thing: what it shows then is what is to be seen.
  const there = (selector: string): Promise<unknown> =>
    page
      .locator(selector)
      .first()
      .waitFor({ timeout: 15_000 })
      .catch(() => null);
  await there(`${sentence}, .nothing`);
  if (picture !== null) await there(`${picture}, .nothing`);
  await page.waitForTimeout(500);
  return page.screenshot();
}

/**
 * Takes a picture of every page's first screen in every state.
 * @param folder where the pictures go: one a state and look, all pages on it
 * @param only the states to draw, all when empty
 */
export async function drawPages(
  browser: Browser,
  folder: string,
  only: readonly string[] = [],
): Promise<void> {
  mkdirSync(folder, { recursive: true });
  for (const [name, state] of Object.entries(states)) {
    if (only.length > 0 && !only.includes(name)) continue;
    const scratch = mkdtempSync(join(tmpdir(), "batted-sheet-"));
    const library = join(scratch, "library");
    mkdirSync(library);
    for (const table of ["swings", "sessions", "hitters", "targets"] as const) {
      const rows = (table === "targets" ? undefined : state[table]) ?? demo(table);
      writeFileSync(join(library, `${table}.csv`), csvFormat(rows as Row[], demo(table).columns));
    }
    await buildNotebooks({ library, out: join(scratch, "site") });
    const site = await serveStatic(join(scratch, "site"), "/");
    for (const look of state.looks ?? [phone, desk]) {
      const page = await browser.newPage();
      const pictures: string[] = [];
      for (const { file } of pages) {
        const picture = await shot(page, `${site.address}${file}${state.address ?? ""}`, look, file);
        pictures.push(`<img src="data:image/png;base64,${picture.toString("base64")}">`);
      }
      const across = look.width < 500 ? 7 : 3;
      await page.emulateMedia({ colorScheme: "light" });
      await page.setViewportSize({ width: 1800, height: 900 });
      await page.setContent(
        `<body style="margin:0;background:#888;display:grid;grid-template-columns:repeat(${across},1fr);gap:8px"><style>img{width:100%}</style>${pictures.join("")}`,
      );
      const how = [
        look.width,
        look.dark === true ? "dark" : "light",
        look.letters && `${look.letters}-percent`,
      ];
      const path = `${name.replaceAll(/[^a-z0-9]+/g, "-")}-${how.filter(Boolean).join("-")}.png`;
      await page.screenshot({ path: join(folder, `pages-${path}`), fullPage: true });
      await page.close();
    }
    await site.close();
    rmSync(scratch, { recursive: true, force: true });
  }
}
