/** Charts as PNG, drawn by the same code on every machine, with the theme's own letters. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { initWasm, Resvg } from "@resvg/resvg-wasm";

/** The theme's letters as files with one weight each: the renderer knows no variable ones. */
const faces = [
  "@fontsource/newsreader/files/newsreader-latin-500-normal.woff2",
  "@fontsource/newsreader/files/newsreader-latin-ext-500-normal.woff2",
  "@fontsource/public-sans/files/public-sans-latin-400-normal.woff2",
  "@fontsource/public-sans/files/public-sans-latin-ext-400-normal.woff2",
  "@fontsource/public-sans/files/public-sans-latin-700-normal.woff2",
  "@fontsource/public-sans/files/public-sans-latin-ext-700-normal.woff2",
];

/** What the files themselves call their families, which is not what the packages call them. */
const [sans, serif] = ["Public Sans Thin", "Newsreader 16pt 16pt"];

let ready: Promise<Uint8Array[]> | null = null;

async function prepare(): Promise<Uint8Array[]> {
  const { resolve } = createRequire(import.meta.url);
  await initWasm(readFileSync(resolve("@resvg/resvg-wasm/index_bg.wasm")));
  return faces.map((face) => readFileSync(resolve(face)));
}

/**
 * A chart that stands alone as PNG.
 * @param svg as `standAlone` gives it
 * @param zoom px of the picture to a px of the drawing
 */
export async function pngOf(svg: string, zoom = 2): Promise<Uint8Array> {
  const fontBuffers = await (ready ??= prepare());
  const named = svg.replaceAll("Public Sans Variable", sans).replaceAll("Newsreader,", `'${serif}',`);
  const drawing = new Resvg(named, {
    fitTo: { mode: "zoom", value: zoom },
    font: {
      fontBuffers,
      defaultFontFamily: sans,
      sansSerifFamily: sans,
      serifFamily: serif,
    },
  });
  try {
    const image = drawing.render();
    try {
      return image.asPng();
    } finally {
      image.free();
    }
  } finally {
    drawing.free();
  }
}
