/** The notebooks as a static site: plain files that any server can serve, below any path, without a network. */
import { readdir, rm } from "node:fs/promises";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { keptBuild, partsOf, type BuiltPart } from "./built.ts";
import { pages } from "./pages.ts";
import { LibrarySource, type Part } from "./plugins/library-file.ts";
import { isBeside, writeTogether } from "../src/library/write.ts";

/** One file of the site: its path in it, and its size. */
export interface BuiltFile {
  readonly file: string;
  readonly bytes: number;
}

/** A site, built. */
export interface BuiltSite {
  /** By name. */
  readonly files: readonly BuiltFile[];
  /** What of the library could not be read, a sentence each: the pages say so, too. */
  readonly unread: readonly string[];
}

/**
 * Builds the site for one library into a folder: a new or empty one, or that of an earlier build.
 * @returns the files written, and what the site is without
 * @throws what openLibrary throws, and an error with the fault `call` when the folder holds something else
 */
export async function buildNotebooks(options: {
  library: string;
  out: string;
  /** Which rows the site holds: all unless told otherwise. */
  part?: Part;
}): Promise<BuiltSite> {
  const outDir = resolve(options.out);
  await refuseForeign(outDir);
  const source = new LibrarySource(options.library, options.part);
  const text = await source.text();
  const files: BuiltPart[] = [...(await site()), { file: mark, content: text }];
  // The library's file tells by what hand the folder is, however far a build comes; pages appear after what they are made of.
  const turn = ({ file }: { file: string }): number => (file === mark ? 0 : file.endsWith(".html") ? 2 : 1);
  await writeTogether(async (put) => {
    for (const { file, content } of files.sort((a, b) => turn(a) - turn(b) || (a.file < b.file ? -1 : 1)))
      await put(join(outDir, file), [content]);
  }, outDir);
  await clearEarlier(outDir, new Set(files.map(({ file }) => file)));
  return {
    files: files
      .map(({ file, content }) => ({ file, bytes: Buffer.byteLength(content) }))
      .sort((a, b) => (a.file < b.file ? -1 : 1)),
    unread: await source.unread(),
  };
}

/** The site without its library's file. */
export async function site(): Promise<readonly BuiltPart[]> {
  return keptBuild("site", async () => {
    const [{ build, mergeConfig }, { viteConfig }] = await Promise.all([
      import("vite"),
      import("./vite.config.ts"),
    ]);
    const input = pages.map(({ file }) => fileURLToPath(new URL(file, import.meta.url)));
    const result = await build(
      mergeConfig(viteConfig(null), { build: { write: false, rolldownOptions: { input } } }),
    );
    return partsOf(result);
  });
}

/** The file that a site begins with, and the folder of its modules. */
const mark = "library.json";
const modules = "assets";

/**
 * Makes sure that a site may be written into a folder: a new or empty one, or that of an earlier build, whole or killed.
 * @throws an error with the fault `call` when it holds something else
 */
export async function refuseForeign(outDir: string): Promise<void> {
  const names = (await namesIn(outDir)).filter((name) => !isBeside(name));
  const own = new Set([mark, modules, ...pages.map(({ file }) => file)]);
  if (names.includes(mark) && (names.includes("index.html") || names.every((name) => own.has(name)))) return;
  // Killed before anything was in its place, a build leaves the folder for its modules, and nothing whole in it.
  const others = names.filter((name) => name !== modules);
  const begun = names.length === others.length ? [] : await namesIn(join(outDir, modules));
  if (others.length === 0 && begun.every(isBeside)) return;
  const message = `${outDir} holds something other than an earlier build: choose a new folder.`;
  throw Object.assign(new Error(message), { fault: "call" });
}

/** Removes an earlier build's modules, whose names change from build to build, and touches nothing else. */
async function clearEarlier(outDir: string, files: ReadonlySet<string>): Promise<void> {
  for (const name of await namesIn(join(outDir, modules)))
    if (!files.has(`${modules}/${name}`))
      await rm(join(outDir, modules, name), { force: true, recursive: true });
}

async function namesIn(dir: string): Promise<string[]> {
  return readdir(dir).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return [] as string[];
    throw error;
  });
}
