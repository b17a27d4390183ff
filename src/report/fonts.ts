/** The letters that a report carries in itself: the theme's two, Latin alone, as the packages ship them. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

/** Each with its family as the theme names it, the weights in the file, and the file in its package. */
const faces = [
  ["Newsreader", "500", "@fontsource/newsreader/files/newsreader-latin-500-normal.woff2"],
  [
    "Public Sans Variable",
    "100 900",
    "@fontsource-variable/public-sans/files/public-sans-latin-wght-normal.woff2",
  ],
] as const;

let made: string | null = null;

/** The faces as a style sheet, about 70 kB; letters beyond Latin come from the reader's machine. */
export function fontFaces(): string {
  const { resolve } = createRequire(import.meta.url);
  made ??= faces
    .map(([family, weight, file]) => {
      const data = readFileSync(resolve(file)).toString("base64");
      return `@font-face { font-family: "${family}"; font-weight: ${weight}; font-display: swap; src: url(data:font/woff2;base64,${data}) format("woff2"); }`;
    })
    .join("\n");
  return made;
}
