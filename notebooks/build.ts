/** The notebooks as a static site: plain files that any server can serve, below any path, without a network. */
import { fileURLToPath } from "node:url";
import { resolve } from "node:path";
import { build, mergeConfig } from "vite";
import { pages } from "./pages.ts";
import { LibrarySource } from "./plugins/library-file.ts";
import { viteConfig } from "./vite.config.ts";

export interface BuiltFile {
  readonly file: string;
  readonly bytes: number;
}

/**
 * Builds the site for one library into a folder.
 * @returns the files written, by name.
 */
export async function buildNotebooks(options: { library: string; out: string }): Promise<BuiltFile[]> {
  const input = pages.map(({ file }) => fileURLToPath(new URL(file, import.meta.url)));
  const result = await build(
    mergeConfig(viteConfig(new LibrarySource(options.library)), {
      build: { outDir: resolve(options.out), emptyOutDir: false, rolldownOptions: { input } },
    }),
  );
  const outputs = Array.isArray(result) ? result : [result];
  return outputs
    .flatMap((output) => ("output" in output ? output.output : []))
    .map((file) => ({
      file: file.fileName,
      bytes: Buffer.byteLength(file.type === "asset" ? file.source : file.code),
    }))
    .sort((a, b) => (a.file < b.file ? -1 : 1));
}
