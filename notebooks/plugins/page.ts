/** What every page gets around its notebook: the links to the others, and code that the keyboard reaches. */
import { basename } from "node:path";
import type { Plugin } from "vite";
import { cautions } from "../../src/views/cautions.ts";
import { pages } from "../pages.ts";

/** The template with the navigation, the page it is for marked, and the cautions at the foot. */
export function filled(template: string, context: { filename: string }): string {
  const current = basename(context.filename);
  const links = pages.map(
    ({ file, name }) => `<a href="./${file}"${file === current ? ` aria-current="page"` : ""}>${name}</a>`,
  );
  return template
    .replace(`<nav aria-label="Pages"></nav>`, `<nav aria-label="Pages">${links.join("\n")}</nav>`)
    .replace(/<footer>\s*<p><\/p>/, () => `<footer><p>${cautions.join(" ")}</p>`);
}

/** Lets the keyboard reach the code beside a cell: it scrolls sideways where the page is narrow. */
export function reachableCode(): Plugin {
  return {
    name: "batted:reachable-code",
    transformIndexHtml: {
      order: "post",
      handler: (html) => html.replaceAll("<pre data-language=", `<pre tabindex="0" data-language=`),
    },
  };
}
