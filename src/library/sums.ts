/**
 * The sums of what a library stores: in each of its folders a file `SHA256SUMS`, as `sha256sum -c` reads it, with a last
 * line that says how many lines there are and their own sum, so that none is lost or changed without a trace.
 */
import { sha256Of } from "../swing/sha256.ts";
import { counted } from "../swing/words.ts";

export const sumsFile = "SHA256SUMS";

/** The sums of a folder's files, by name, in hex. */
export type Sums = ReadonlyMap<string, string>;

/**
 * A file of sums.
 * @example sumsText(new Map()).slice(0, 9) // "# 0 files"
 */
export function sumsText(sums: Sums): string {
  const lines = [...sums]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, sum]) => `${sum}  ${name}\n`)
    .join("");
  return `${lines}# ${counted(sums.size, "file")}, ${sha256Of(lines)}\n`;
}

/**
 * The sums that a file of sums holds; null when it is damaged.
 * @example readSums(sumsText(new Map([["a.csv", "0".repeat(64)]])))?.size // 1
 */
export function readSums(text: string): Sums | null {
  const end = text.lastIndexOf("# ");
  const sums = new Map<string, string>();
  for (const line of text.slice(0, Math.max(0, end)).split("\n").slice(0, -1)) {
    const found = /^([0-9a-f]{64}) {2}(.+)$/.exec(line);
    if (found === null) return null;
    sums.set(found[2]!, found[1]!);
  }
  return sumsText(sums) === text ? sums : null;
}
