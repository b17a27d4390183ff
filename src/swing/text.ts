/** A file's bytes as text, in pieces: the encoding is told from the bytes, and what is not text is refused. */
import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { UnusableFile } from "./problems.ts";

const pieceSize = 1 << 20;

/** Text in pieces, with what is known of the bytes once they have been read. */
export interface TextSource {
  readonly file: string;
  readonly pieces: AsyncIterable<string>;
  /** Bytes in all, when known beforehand. */
  readonly size: number | null;
  /** Bytes read so far. */
  bytes(): number;
  /** SHA-256 of all bytes, in hex, after the last piece. */
  sha256(): string;
}

const signatures: readonly (readonly [RegExp, string])[] = [
  [/^PK\x03\x04/, "is a spreadsheet or a zip archive, not a CSV: save it as CSV (UTF-8) first"],
  [/^\xd0\xcf\x11\xe0/, "is a spreadsheet in an old format, not a CSV: save it as CSV (UTF-8) first"],
  [/^%PDF/, "is a PDF, not a CSV"],
  [/^\x1f\x8b/, "is compressed: unpack it first"],
  [/^(\xef\xbb\xbf)?\s*<(!doctype|!--|\?xml|html|head|body|table)/i, "is a web page or XML, not a CSV"],
  [/^(\xef\xbb\xbf)?\s*[[{]\s*["{[]/, "is JSON, not a CSV"],
];

function encodingOf(head: Buffer, file: string, wanted: string | undefined): string {
  if (head.length >= 2 && head[0] === 0xff && head[1] === 0xfe) return "utf-16le";
  if (head.length >= 2 && head[0] === 0xfe && head[1] === 0xff) return "utf-16be";
  const start = head.subarray(0, 512).toString("latin1");
  for (const [pattern, reason] of signatures) if (pattern.test(start)) throw new UnusableFile(file, reason);
  const sample = head.subarray(0, 4096);
  let zeros = 0;
  for (const byte of sample) if (byte === 0) zeros++;
  if (zeros > sample.length / 4 && zeros < sample.length * 0.6) {
    throw new UnusableFile(file, "looks like UTF-16 text without its mark: save it as CSV (UTF-8) first");
  }
  if (zeros > 0) throw new UnusableFile(file, "is not text");
  return wanted ?? "utf-8";
}

/**
 * Text from bytes that come in pieces. UTF-8 with or without its mark, and UTF-16 with its mark, are read;
 * another encoding has to be named.
 * @throws UnusableFile when the bytes are not text.
 */
export function textFrom(
  file: string,
  source: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  options: { encoding?: string; size?: number } = {},
): TextSource {
  const hash = createHash("sha256");
  let bytes = 0;
  let digest: string | null = null;
  async function* pieces(): AsyncGenerator<string> {
    let decoder: TextDecoder | null = null;
    let encoding = "";
    let head: Buffer | null = Buffer.alloc(0);
    const decode = (piece: Uint8Array | undefined): string => {
      try {
        return piece === undefined ? decoder!.decode() : decoder!.decode(piece, { stream: true });
      } catch {
        throw new UnusableFile(
          file,
          `is not ${encoding.toUpperCase()} text: save it as CSV (UTF-8), or name its encoding in a column map`,
        );
      }
    };
    const start = (): string => {
      const first = head!;
      head = null;
      encoding = encodingOf(first, file, options.encoding);
      decoder = new TextDecoder(encoding, { fatal: true });
      return decode(first);
    };
    for await (const piece of source) {
      bytes += piece.length;
      hash.update(piece);
      if (head === null) yield decode(piece);
      else {
        // Small first pieces are put together until there is enough to tell the encoding from.
        head = Buffer.concat([head, piece]);
        if (head.length >= 4096) yield start();
      }
    }
    if (head !== null) {
      if (head.length === 0) throw new UnusableFile(file, "is empty");
      yield start();
    }
    const rest = decode(undefined);
    if (rest !== "") yield rest;
    digest = hash.digest("hex");
  }
  return {
    file,
    pieces: pieces(),
    size: options.size ?? null,
    bytes: () => bytes,
    sha256: () => {
      if (digest === null) throw new Error(`${file} has not been read to its end`);
      return digest;
    },
  };
}

/**
 * A file's text in pieces.
 * @throws UnusableFile when there is no such file, it is a folder, may not be read, or is not text.
 */
export async function openText(path: string, encoding?: string): Promise<TextSource> {
  const info = await stat(path).catch((error: NodeJS.ErrnoException) => {
    const reason = error.code === "EACCES" ? "may not be read" : "does not exist";
    throw new UnusableFile(path, reason, "call");
  });
  if (info.isDirectory()) throw new UnusableFile(path, "is a folder, not a file", "call");
  return textFrom(path, bytesOf(path), {
    ...(encoding === undefined ? {} : { encoding }),
    ...(info.isFile() ? { size: info.size } : {}),
  });
}

async function* bytesOf(path: string): AsyncGenerator<Uint8Array> {
  try {
    for await (const piece of createReadStream(path, { highWaterMark: pieceSize })) yield piece as Buffer;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "EACCES" || code === "EPERM") throw new UnusableFile(path, "may not be read", "call");
    throw error;
  }
}
