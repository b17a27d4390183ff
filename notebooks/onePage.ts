/**
 * A page to send: one HTML file with everything in it, the code, the styles, the letters and the rows of those it is
 * for, and nobody else's. It opens from a disk, a mail or a phone, without a network.
 */
import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { keptBuild, partsOf, type BuiltPart } from "./built.ts";
import { libraryWithin, unpack, type LibraryFile } from "./components/library.ts";
import { pageShared } from "./plugins/guard.ts";
import { libraryFile, type Part } from "./plugins/library-file.ts";
import { enrich } from "../src/contact/enrich.ts";
import type { Library } from "../src/library/library.ts";
import { fileNames } from "../src/library/fileName.ts";
import { once } from "../src/swing/once.ts";
import { escapeHtml } from "../src/swing/words.ts";

/** The page that is sent: the player's. */
const page = "spray-chart.html";

/** A script in a page ends where the first of these stands, whatever is around it. */
const scriptSafe = (code: string): string =>
  code.replace(/<\/(script)/gi, "<\\/$1").replaceAll("<!--", "<\\!--");

/** The place in the page where its library goes. */
const place = `<script type="application/json" id="${libraryWithin}"></script>`;

/** The page without a library, as the one file that it is built to. */
export const shellParts = (): Promise<readonly BuiltPart[]> =>
  keptBuild("page", async () => [{ file: page, content: await shellAnew() }]);

/** Its text, looked up once in a process. */
const shell = once(async (): Promise<string> => {
  const [built] = await shellParts();
  return Buffer.from(built!.content).toString("utf8");
});

async function shellAnew(): Promise<string> {
  const [{ build, mergeConfig }, { onePageConfig }] = await Promise.all([
    import("vite"),
    import("./vite.config.ts"),
  ]);
  const input = fileURLToPath(new URL(page, import.meta.url));
  const outputs = partsOf(
    await build(mergeConfig(onePageConfig(), { build: { write: false, rolldownOptions: { input } } })),
  );
  const textOf = (end: string): string[] =>
    outputs
      .filter(({ file }) => file.endsWith(end))
      .map(({ content }) => Buffer.from(content).toString("utf8"));
  const [html, ...others] = textOf(".html");
  const [code, ...more] = textOf(".js");
  if (html === undefined || code === undefined || others.length + more.length > 0)
    throw new Error("the page to send came out in more parts than one");
  const script = scriptSafe(code);
  const hash = `'sha256-${createHash("sha256").update(script).digest("base64")}'`;
  const policy = [
    ...pageShared(hash).filter((rule) => !rule.startsWith("font-src") && !rule.startsWith("img-src")),
    "font-src data:",
    "img-src data:",
  ].join("; ");
  const head =
    `<meta http-equiv="Content-Security-Policy" content="${escapeHtml(policy)}">` +
    textOf(".css")
      .map((css) => `<style>${css.replace(/<\/(style)/gi, "<\\/$1")}</style>`)
      .join("");
  return html
    .replace(/<script\b[^>]*\bsrc=[^>]*><\/script>/g, "")
    .replace(/<link\b[^>]*\brel="(?:stylesheet|modulepreload|preload)"[^>]*>/g, "")
    .replace(/<head>/, () => `<head>${head}`)
    .replace(/<\/body>/, () => `${place}<script type="module">${script}</script></body>`);
}

/** A page to send, and whose it is. */
export interface SentPage {
  /** A file name that is safe everywhere. */
  readonly file: string;
  readonly hitter: string;
  readonly swings: number;
  readonly html: string;
}

/**
 * A page to send for each hitter, one after the other.
 * @param hitters names of the library
 * @param part the span, and whether the hitter has initials, too
 */
export async function* pagesToSend(
  library: Library,
  hitters: readonly string[],
  part: Omit<Part, "hitters">,
): AsyncGenerator<SentPage> {
  const all = [...new Set(library.swings.map(({ hitter }) => hitter))];
  const rows = enrich(library);
  for (const hitter of hitters) {
    const file = libraryFile(library, { ...part, hitters: new Set([hitter]) }, [], rows);
    // Their name in the page: itself, or initials that no other hitter of the library shares.
    const title = (unpack(file.swings.columns["hitter"]!)[0] as string | undefined) ?? "";
    const shown = part.initials === true ? fileNames([title], "swings") : fileNames(all, "swings");
    const name = shown[part.initials === true ? 0 : all.indexOf(hitter)]!;
    yield { file: name, hitter: title, swings: file.swings.n, html: await pageToSend(file, title) };
  }
}

/**
 * The page for one library file.
 * @param file a library with the rows that the page is for, and no others
 * @param title such as a hitter's name: the tab and the printed page show it
 */
async function pageToSend(file: LibraryFile, title: string): Promise<string> {
  const html = await shell();
  // No letter of the rows can end the script they stand in.
  const json = JSON.stringify(file).replace(
    /[<\u2028\u2029]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
  return html
    .replace(place, () => place.replace("></", () => `>${json}</`))
    .replace(/<title>([^<]*)<\/title>/, (_, name: string) => `<title>${escapeHtml(title)}: ${name}</title>`);
}
