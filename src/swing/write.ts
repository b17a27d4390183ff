/** Writing CSV files (RFC 4180, UTF-8): whole or not at all. */
import { once } from "node:events";
import { createWriteStream } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { csvHeader, csvRow } from "./csv.ts";
import type { Field } from "./fields.ts";

export { csvAsItStood, csvCell, csvHeader, csvRow, csvText } from "./csv.ts";

type Named = Pick<Field, "name">;

/**
 * Writes a file from pieces of text. The file appears under its name only when it is whole: until then it has
 * another name beside it, and an error leaves what was there before.
 */
export async function writeWhole(
  path: string,
  pieces: AsyncIterable<string> | Iterable<string>,
): Promise<void> {
  const temporary = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
  const stream = createWriteStream(temporary, { flags: "w" });
  try {
    await once(stream, "open");
    const failed = once(stream, "error").then(([error]) => Promise.reject(error as Error));
    failed.catch(() => {});
    for await (const piece of pieces) {
      if (!stream.write(piece)) await Promise.race([once(stream, "drain"), failed]);
    }
    stream.end();
    await Promise.race([once(stream, "finish"), failed]);
    await rename(temporary, path);
  } catch (error) {
    stream.destroy();
    await rm(temporary, { force: true });
    throw error;
  }
}

/**
 * Writes rows as a CSV file, whole or not at all.
 * @returns how many rows were written
 */
export async function writeTable(
  path: string,
  rows: AsyncIterable<object> | Iterable<object>,
  fields: readonly Named[],
): Promise<number> {
  let count = 0;
  async function* pieces(): AsyncGenerator<string> {
    let text = csvHeader(fields);
    for await (const row of rows) {
      text += csvRow(row, fields);
      count++;
      if (text.length > 1 << 18) {
        yield text;
        text = "";
      }
    }
    yield text;
  }
  await writeWhole(path, pieces());
  return count;
}
