/** The links between the pages, put into the template of each. */
import { basename } from "node:path";
import { pages } from "../pages.ts";

/** The template with the navigation filled in, the page it is for marked. */
export function withNavigation(template: string, context: { filename: string }): string {
  const current = basename(context.filename);
  const links = pages.map(
    ({ file, name }) => `<a href="./${file}"${file === current ? ` aria-current="page"` : ""}>${name}</a>`,
  );
  return template.replace(
    `<nav aria-label="Pages"></nav>`,
    `<nav aria-label="Pages">${links.join("\n")}</nav>`,
  );
}
