/** The letters that a report carries in itself: the theme's two, Latin alone, as the packages ship them. */

/** Each with its family as the theme names it, the weights in the file, and the file in its package. */
const faces = {
  "@fontsource/newsreader/files/newsreader-latin-500-normal.woff2": ["Newsreader", "500"],
  "@fontsource-variable/public-sans/files/public-sans-latin-wght-normal.woff2": [
    "Public Sans Variable",
    "100 900",
  ],
} as const;

/** A file of letters, by its package. */
export type FaceFile = keyof typeof faces;
const faceFiles = Object.keys(faces) as FaceFile[];

/**
 * The faces as a style sheet, about 70 kB; letters beyond Latin come from the reader's machine.
 * @param base64Of a file's bytes
 * @example faceRules(() => "AAAA").match(/@font-face/g).length // 2
 */
export const faceRules = (base64Of: (file: FaceFile) => string): string =>
  faceFiles
    .map((file) => {
      const [family, weight] = faces[file];
      return `@font-face { font-family: "${family}"; font-weight: ${weight}; font-display: swap; src: url(data:font/woff2;base64,${base64Of(file)}) format("woff2"); }`;
    })
    .join("\n");
