/**
 * `npm run sheet`: every chart, the report and every page in every state, to look over: out/sheet/index.html, and a
 * picture of each part beside it. `-- --pages STATE` draws the pages of a state alone (`demo`, `no rows`, `one row` …).
 * Nothing is judged here: it is for the eye.
 */
import { mkdir, writeFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import { JSDOM } from "jsdom";
import { contactMap } from "../../src/charts/contactMap.ts";
import { bucketStrip } from "../../src/charts/bucketStrip.ts";
import { sprayChart } from "../../src/charts/sprayChart.ts";
import { colourNames, colourValue, themeCss } from "../../src/charts/theme.ts";
import { fieldFor } from "../../src/field/fields.ts";
import { fontFaces } from "../../src/report/fonts.ts";
import { reportPage } from "../../src/report/page.ts";
import { launchChromium } from "../browser/chromium.ts";
import { field, lanes } from "../charts/figures.ts";
import { surface, swings } from "../charts/fixture.ts";
import { emptyGallery, gallery } from "../charts/gallery.ts";
import { sourceOf } from "../report/source.ts";
import { drawPages } from "./pages.ts";

const folder = "out/sheet";
const { document } = new JSDOM("").window;
const long = "Wolfeschlegelsteinhausenbergerdorff-".repeat(3);

/** The charts of swings with so many rows, and without what may be missing. */
const many = Array.from({ length: 5000 }, (_, i) => ({
  ...swings[i % swings.length]!,
  exit_velocity_mph: 60 + ((i * 7919) % 4000) / 100,
  launch_angle_deg: -20 + ((i * 104_729) % 6000) / 100,
  carry_ft: 40 + ((i * 7907) % 32_000) / 100,
  bearing_deg: -44 + ((i * 6841) % 8800) / 100,
}));
const states = {
  "one row": swings.slice(0, 1),
  "12 rows": swings.slice(0, 12),
  "5 000 rows": many,
  "no spray": swings.map((row) => ({ ...row, bearing_deg: null, spray_angle_deg: null })),
  "no bucket": swings.map((row) => ({ ...row, bucket: null, power_kept: null })),
} as const;
const fields = {
  "full field": field,
  "small field": fieldFor("46/60"),
  softball: fieldFor("softball 43/60"),
} as const;

interface Part {
  readonly name: string;
  readonly pieces: readonly string[];
}

const chartParts = (width: number): Part[] => [
  {
    name: `every chart, ${width} px`,
    pieces: Object.values({ ...gallery, ...(width < 400 ? emptyGallery : {}) }).map(
      (draw) => draw(width, document).outerHTML,
    ),
  },
];
const stateParts: Part[] = Object.entries(states).map(([name, rows]) => ({
  name,
  pieces: [
    contactMap(rows, { document, width: 350, surface }),
    sprayChart(rows, { document, width: 350, field, lanes: name === "no spray" ? [] : lanes }),
    bucketStrip(rows, { document, width: 350, subtitle: long }),
  ].map((svg) => svg.outerHTML),
}));
const fieldPart: Part = {
  name: "fields, in feet and metres",
  pieces: Object.values(fields).flatMap((one) =>
    (["us", "metric"] as const).map(
      (units) => sprayChart(swings, { document, width: 350, field: one, lanes, units }).outerHTML,
    ),
  ),
};
const mainCharts = ["contact-map-odd", "spray-chart", "bucket-strip", "zone-map", "timing"].map(
  (name) => gallery[name]!(350, document).outerHTML,
);

/** What a part is seen through. Sight without one kind of cone: the matrices of tests/charts/theme.test.ts. */
const sights: Readonly<Record<string, string>> = {
  grey: "0.2126 0.7152 0.0722 0 0 0.2126 0.7152 0.0722 0 0 0.2126 0.7152 0.0722 0 0",
  protanopia:
    "0.152286 1.052583 -0.204868 0 0 0.114503 0.786281 0.099216 0 0 -0.003882 -0.048116 1.051998 0 0",
  deuteranopia:
    "0.367322 0.860646 -0.227968 0 0 0.280085 0.672501 0.047413 0 0 -0.01182 0.04294 0.968881 0 0",
  tritanopia: "1.255528 -0.076749 -0.178779 0 0 -0.078411 0.930809 0.147602 0 0 0.004733 0.691367 0.3039 0 0",
};

const section = (name: string, body: string, style = "", kind = ""): string =>
  `<section class="${kind}" id="${name.replaceAll(/[^a-z0-9]+/gi, "-")}"><h2>${name}</h2><div style="${style}">${body}</div></section>`;
const flow = ({ name, pieces }: Part, kind = ""): string => section(name, pieces.join("\n"), "", kind);

function chartsPage(): string {
  const dark = colourNames.map((name) => `--${name}: ${colourValue(name, "dark")}`).join("; ");
  const filters = Object.entries(sights)
    .map(([name, values]) => `<filter id="${name}"><feColorMatrix values="${values} 0 0 0 1 0"/></filter>`)
    .join("");
  return `<!doctype html><html lang="en" data-theme="light"><meta charset="utf-8"><title>Every chart in every state</title>
<style>${fontFaces()}${themeCss()}
body { background: var(--paper); color: var(--ink); font: 14px var(--sans); font-variant-numeric: tabular-nums; margin: 20px; width: 1600px; }
section { background: var(--paper); color: var(--ink); padding: 8px; } section.dark { ${dark}; }
section > div { display: flex; flex-wrap: wrap; gap: 24px; align-items: flex-start; } h2 { font: 500 22px var(--serif); }
.big { font-size: 200%; }</style>
<svg width="0" height="0" style="position:absolute">${filters}</svg>
${chartParts(350)
  .map((part) => flow(part))
  .join("")}${chartParts(350)
    .map((part) => flow({ ...part, name: `${part.name}, dark` }, "dark"))
    .join("")}
${chartParts(720)
  .map((part) => flow(part))
  .join("")}
${[...stateParts, fieldPart].map((part) => flow(part)).join("")}
${Object.keys(sights)
  .map((sight) => section(`seen with ${sight}`, mainCharts.join(""), `filter: url(#${sight})`))
  .join("")}
${Object.keys(sights)
  .map((sight) => section(`seen with ${sight}, dark`, mainCharts.join(""), `filter: url(#${sight})`, "dark"))
  .join("")}
</html>`;
}

/** The report of an invented hitter, in the states that a report may be in. */
function reports(): Record<string, string> {
  const source = sourceOf("Robin Test");
  const options = { document, version: "0.0.0", letters: fontFaces() };
  const without = (...names: (keyof (typeof source.rows)[number])[]) => ({
    ...source,
    rows: source.rows.map((row) => ({ ...row, ...Object.fromEntries(names.map((name) => [name, null])) })),
  });
  return {
    whole: reportPage(source, options),
    "no-rows": reportPage({ ...source, rows: [] }, options),
    "one-row": reportPage({ ...source, rows: source.rows.slice(0, 1) }, options),
    "twelve-rows": reportPage({ ...source, rows: source.rows.slice(0, 12) }, options),
    "tee-alone": reportPage({ ...source, rows: source.rows.filter((row) => row.input === "tee") }, options),
    "no-spray": reportPage(without("bearing_deg", "lane", "side", "spray_angle_deg"), options),
    "no-place": reportPage(without("contact_side_ft", "contact_height_ft", "contact_depth_ft"), options),
    metric: reportPage(source, { ...options, system: "metric" }),
    "longest-names": reportPage(
      sourceOf(long, (name) => `${name} ${long}`),
      options,
    ),
  };
}

const { values } = parseArgs({ options: { pages: { type: "string", multiple: true } } });
await mkdir(folder, { recursive: true });
const { browser } = await launchChromium();
if (values.pages !== undefined) {
  await drawPages(browser, folder, values.pages);
  await browser.close();
  process.exit(0);
}

await writeFile(`${folder}/charts.html`, chartsPage());
const pages = reports();
for (const [name, text] of Object.entries(pages)) await writeFile(`${folder}/report-${name}.html`, text);
const widths = [390, 768, 1280, 1600];
await writeFile(
  `${folder}/index.html`,
  `<!doctype html><meta charset="utf-8"><title>Contact sheet</title><p><a href="charts.html">Charts</a></p>${Object.keys(
    pages,
  )
    .map(
      (name) =>
        `<h2>${name}</h2>${widths.map((width) => `<iframe src="report-${name}.html" width="${width}" height="900"></iframe>`).join(" ")}`,
    )
    .join("")}`,
);
const page = await browser.newPage({ viewport: { width: 1640, height: 1000 } });
// A picture takes as long as it takes: nothing is judged here.
page.setDefaultTimeout(0);
await page.goto(new URL(`../../${folder}/charts.html`, import.meta.url).href);
for (const part of await page.locator("section").all())
  await part.screenshot({ path: `${folder}/charts-${await part.getAttribute("id")}.png` });
for (const name of Object.keys(pages)) {
  await page.goto(new URL(`../../${folder}/report-${name}.html`, import.meta.url).href);
  for (const width of widths)
    for (const colorScheme of ["light", "dark"] as const) {
      if (colorScheme === "dark" && width !== 390 && width !== 1280) continue;
      await page.setViewportSize({ width, height: width < 500 ? 844 : 800 });
      await page.emulateMedia({ media: "screen", colorScheme });
      const path = `${folder}/report-${name}-${width}-${colorScheme}.png`;
      await page.screenshot({ path, fullPage: name === "whole" });
    }
  await page.addStyleTag({ content: "html { font-size: 200%; }" });
  await page.setViewportSize({ width: 390, height: 844 });
  await page.screenshot({ path: `${folder}/report-${name}-390-text-200.png` });
  await page.reload();
  await page.emulateMedia({ media: "print" });
  for (const format of ["Letter", "A4"])
    await page.pdf({ path: `${folder}/report-${name}-${format}.pdf`, format });
}
await drawPages(browser, folder);
await browser.close();
console.log(`${folder}/index.html, and a picture of each part beside it`);
