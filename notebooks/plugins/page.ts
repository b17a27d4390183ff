/** What every page gets around its notebook: the links to the others, the theme, and marks on its cells. */
import { basename } from "node:path";
import type { Plugin } from "vite";
import { cautions } from "../../src/views/cautions.ts";
import { themeCss } from "../../src/charts/theme.ts";
import { pages } from "../pages.ts";

/** The template with the navigation, the page it is for marked, the theme in its head, and the cautions at the foot. */
export function filled(template: string, context: { filename: string }): string {
  const current = basename(context.filename);
  const links = pages.map(
    ({ file, name }) => `<a href="./${file}"${file === current ? ` aria-current="page"` : ""}>${name}</a>`,
  );
  return template
    .replace("</head>", () => `<style>${themeCss()}</style></head>`)
    .replace(`<nav aria-label="Pages"></nav>`, `<nav aria-label="Pages">${links.join("\n")}</nav>`)
    .replace(/<footer>\s*<p><\/p>/, () => `<footer><p>${cautions.join(" ")}</p>`);
}

/** A cell of prose by what it begins with: the page's question, or the name of a section. The style sheet places them. */
const begins = /(<div id="cell-\d+" class="observablehq observablehq--cell)("><div>\s*<h([12])\b)/g;

/**
 * Marks cells of prose for the style sheet, and lets the keyboard reach the code beside a cell: it scrolls sideways where
 * the page is narrow.
 */
export function markedCells(): Plugin {
  return {
    name: "batted:marked-cells",
    transformIndexHtml: {
      order: "post",
      handler: (html) =>
        html
          .replace(
            begins,
            (_, open: string, rest: string, level: string) =>
              `${open} ${level === "1" ? "question" : "heading"}${rest}`,
          )
          .replaceAll("<pre data-language=", `<pre tabindex="0" data-language=`),
    },
  };
}
