/** What every page that is handed out begins and ends with. */
import { html, Markup } from "./html.ts";

/** A whole document around a body: no script may run and nothing may be fetched, whatever the body holds. */
export function documentOf(title: string, sheet: string, body: Markup): string {
  const head = html`<meta charset="utf-8" />
    <meta
      http-equiv="Content-Security-Policy"
      content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:"
    />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <meta name="referrer" content="no-referrer" />
    <title>${title}</title>
    <style>
      ${new Markup(sheet)}
    </style>`;
  return `<!doctype html>\n<html lang="en">\n<head>${head.text}</head>\n<body>${body.text}</body>\n</html>\n`;
}
