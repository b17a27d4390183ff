/** What the reading tests share: text and bytes as a file's pieces, and a folder that goes away again. */
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Table } from "../../src/swing/tables.ts";
import { collect, scanText, type Reading, type ReadOptions, type Rows } from "../../src/reading/read.ts";
import { textFrom } from "../../src/reading/text.ts";

/** Reads a table from text or bytes, in pieces of the size given. */
export function readFrom<N extends Table["name"]>(
  name: N,
  content: string | Uint8Array,
  options: ReadOptions & { pieceSize?: number } = {},
): Promise<Reading<Rows[N]>> {
  const bytes = typeof content === "string" ? Buffer.from(content) : content;
  const size = options.pieceSize ?? (bytes.length || 1);
  const pieces: Uint8Array[] = [];
  for (let at = 0; at < bytes.length; at += size) pieces.push(bytes.subarray(at, at + size));
  const encoding = options.map?.encoding;
  return collect(
    scanText(name, textFrom("a.csv", pieces, encoding === undefined ? {} : { encoding }), options),
  );
}

export const swingsFrom = (
  content: string | Uint8Array,
  options: ReadOptions & { pieceSize?: number } = {},
): Promise<Reading<Rows["swings"]>> => readFrom("swings", content, options);

/** Runs with a folder holding the files given, and takes it away. */
export async function inFolder<T>(
  files: Readonly<Record<string, string | Uint8Array>>,
  work: (dir: string) => Promise<T>,
): Promise<T> {
  const dir = await mkdtemp(join(tmpdir(), "swings-"));
  try {
    for (const [name, content] of Object.entries(files)) {
      await mkdir(dirname(join(dir, name)), { recursive: true });
      await writeFile(join(dir, name), content);
    }
    return await work(dir);
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
}
