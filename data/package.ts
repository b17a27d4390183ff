/**
 * Builds the package's code into `dist/`, as it stands in the project: compiled JavaScript with its types, the pages,
 * and the tables that they read. `npm pack` runs it.
 *
 * The compiler turns `./a.ts` into `./a.js` where a module imports it. Here the same is done to what the compiler
 * leaves as it is: types, the cells of pages, and the address of a worker's file. A worker's `.mjs` only lets a thread
 * read TypeScript, and has no part in it.
 */
import { readFileSync } from "node:fs";
import { readdir, rm } from "node:fs/promises";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import ts from "typescript";
import { writeTogether } from "../src/library/write.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
const out = join(root, "dist");

/** Every file of a folder, as paths from the root. */
async function filesIn(folder: string): Promise<string[]> {
  const entries = await readdir(join(root, folder), { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
    .sort();
}

/** Imports and workers' addresses that name a source, with what it is compiled to. */
function withCompiled(code: string): string {
  return code
    .replace(/(\b(?:from|import)\s*\(?\s*)(["'])(\.{1,2}\/[^"'\n]+)\.ts\2/g, "$1$2$3.js$2")
    .replace(
      /(\bnew URL\(\s*)(["'])(\.{1,2}\/[^"'\n]+)\.(?:ts|mjs)\2(,\s*import\.meta\.url)/g,
      "$1$2$3.js$2$4",
    );
}

/** The compiler leaves out of a module's types what says that an import is JSON, and then refuses them. */
function withAttributes(types: string): string {
  return types.replace(/^(import \w+ from "[^"]+\.json");/gm, '$1 with { type: "json" };');
}

/** What each of the sources is compiled to, by its path. */
function compiled(sources: readonly string[]): Map<string, string> {
  const { config } = ts.readConfigFile(join(root, "tsconfig.json"), (path) => readFileSync(path, "utf8"));
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);
  const program = ts.createProgram(
    sources.map((path) => join(root, path)),
    {
      ...options,
      noEmit: false,
      // The types are checked by `npm test`; here they are only written.
      noCheck: true,
      declaration: true,
      rewriteRelativeImportExtensions: true,
      rootDir: root,
      outDir: out,
    },
  );
  const files = new Map<string, string>();
  const { diagnostics } = program.emit(undefined, (path, text) =>
    files.set(path, withCompiled(path.endsWith(".d.ts") ? withAttributes(text) : text)),
  );
  const wrong = [...ts.getPreEmitDiagnostics(program), ...diagnostics];
  if (wrong.length > 0) {
    const host = {
      getCanonicalFileName: (f: string) => f,
      getCurrentDirectory: () => root,
      getNewLine: () => "\n",
    };
    throw new Error(ts.formatDiagnostics(wrong, host));
  }
  return files;
}

const [src, notebooks, tables] = await Promise.all(["src", "notebooks", "data/maps"].map(filesIn));
const files = compiled([...src!, ...notebooks!].filter((path) => path.endsWith(".ts")));
const pages = notebooks!.filter((path) => /\.(html|css)$/.test(path));
// A cell reads a table as a module does.
const read = pages.flatMap((path) =>
  [...readFileSync(join(root, path), "utf8").matchAll(/from "\.\.\/(data\/[^"]+\.json)"/g)].map((m) => m[1]!),
);
for (const path of [...pages, ...read, ...tables!, "data/datapackage.json"]) {
  const text = readFileSync(join(root, path), "utf8");
  files.set(join(out, path), path.endsWith(".html") ? withCompiled(text) : text);
}
await rm(out, { recursive: true, force: true });
await writeTogether(async (put) => {
  for (const [path, text] of files) await put(path, [text]);
}, out);

// What pages are built to comes along, so that nobody has to build them to write a site or a page to send.
const of = (path: string): string => pathToFileURL(join(out, path)).href;
const [{ bringAlong }, { site }, { shellParts }] = (await Promise.all([
  import(of("notebooks/built.js")),
  import(of("notebooks/build.js")),
  import(of("notebooks/onePage.js")),
])) as [
  typeof import("../notebooks/built.ts"),
  typeof import("../notebooks/build.ts"),
  typeof import("../notebooks/onePage.ts"),
];
await bringAlong({ site: await site(), page: await shellParts() });
