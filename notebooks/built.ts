/**
 * What the pages are built to, without a library: the same whatever library they are for, so it is kept, and built anew
 * only when what it is made of has changed. The package brings it along; a clone keeps it beside its packages.
 */
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import type { build } from "vite";
import { writeTogether } from "../src/library/write.ts";

/** One file that pages are built to. */
export interface BuiltPart {
  readonly file: string;
  readonly content: string | Uint8Array;
}

interface KeptFile {
  readonly file: string;
  readonly text?: string;
  readonly base64?: string;
}

/** As it is kept: what it was made of, the sum of its files, and they themselves, those that are no text in base 64. */
interface Kept {
  readonly key: string;
  readonly sum: string;
  readonly files: readonly KeptFile[];
}

const sumOf = (files: readonly KeptFile[]): string =>
  createHash("sha256").update(JSON.stringify(files)).digest("hex");

const here = fileURLToPath(new URL("..", import.meta.url));

/** In the package. */
const brought = (root: string, name: string): string => join(root, "built", `${name}.json`);
/** In a clone. */
const besidePackages = (root: string, name: string): string =>
  join(root, "node_modules/.vite/built", `${name}.json`);

/**
 * A build that is kept, or is made and kept. One that can't be kept, on a full disk or in a folder that nobody may write
 * to, is only made. `BATTED_BUILT=anew` makes it whatever is kept.
 * @param name what it is kept as
 * @param root the folder of the pages, the code and the tables
 */
export async function keptBuild(
  name: "site" | "page",
  make: () => Promise<readonly BuiltPart[]>,
  root: string = here,
): Promise<readonly BuiltPart[]> {
  if (process.env["BATTED_BUILT"] === "anew") return make();
  const made = await madeOf(root);
  // What is installed beside a clone can change; the package is built with the very versions that it names.
  const installed = await readFile(join(root, "node_modules/.package-lock.json")).catch(() => null);
  const key = installed === null ? made : createHash("sha256").update(made).update(installed).digest("hex");
  const kept = (await read(brought(root, name), made)) ?? (await read(besidePackages(root, name), key));
  if (kept !== null) return kept;
  const parts = await make();
  // Whatever was written to meanwhile, the key is of what stood there before.
  if (installed !== null && (await madeOf(root)) === made)
    await writeKept(besidePackages(root, name), key, parts).catch(() => {});
  return parts;
}

/**
 * Builds what the package brings along.
 * @param parts the parts by the name that they are kept as
 */
export async function bringAlong(
  parts: Readonly<Record<"site" | "page", readonly BuiltPart[]>>,
  root: string = here,
): Promise<void> {
  const key = await madeOf(root);
  for (const [name, files] of Object.entries(parts)) await writeKept(brought(root, name), key, files);
}

/** The files of a build that wasn't written. */
export function partsOf(result: Awaited<ReturnType<typeof build>>): BuiltPart[] {
  return (Array.isArray(result) ? result : [result])
    .flatMap((output) => ("output" in output ? output.output : []))
    .map((file) => ({ file: file.fileName, content: file.type === "asset" ? file.source : file.code }))
    .sort((a, b) => (a.file < b.file ? -1 : 1));
}

/** The sum of everything that pages are made of but packages: pages, code and tables. */
async function madeOf(root: string): Promise<string> {
  const lists = await Promise.all([
    filesIn(root, "notebooks", true),
    filesIn(root, "src", true),
    filesIn(root, "data", false),
  ]);
  const sum = createHash("sha256");
  for (const path of lists.flat()) {
    const text = await readFile(join(root, path));
    sum.update(`${path}\0${text.length}\0`).update(text);
  }
  return sum.digest("hex");
}

async function filesIn(root: string, folder: string, isDeep: boolean): Promise<string[]> {
  const entries = await readdir(join(root, folder), { recursive: isDeep, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile() && (isDeep || entry.name.endsWith(".json")))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
    .sort();
}

async function read(path: string, key: string): Promise<BuiltPart[] | null> {
  if (!existsSync(path)) return null;
  try {
    const kept = JSON.parse(await readFile(path, "utf8")) as Kept;
    if (kept.key !== key || kept.sum !== sumOf(kept.files)) return null;
    return kept.files.map(({ file, text, base64 }) => ({
      file,
      content: text ?? Buffer.from(base64!, "base64"),
    }));
  } catch {
    // Damaged, or none that may be read: it is made anew.
    return null;
  }
}

async function writeKept(path: string, key: string, parts: readonly BuiltPart[]): Promise<void> {
  const files = parts.map(({ file, content }) =>
    typeof content === "string"
      ? { file, text: content }
      : { file, base64: Buffer.from(content).toString("base64") },
  );
  const kept: Kept = { key, sum: sumOf(files), files };
  await writeTogether((put) => put(path, [JSON.stringify(kept)]), dirname(path));
}
