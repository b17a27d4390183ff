/**
 * A file's bytes as text, in pieces: the encoding is told from the bytes, and what is not text is refused.
 *
 * Only UTF-8 and UTF-16 are recognised. Bytes that are not UTF-8 could be Windows-1252, and are not taken for it:
 * of 25 names with letters beyond ASCII, written in each of thirteen other encodings (GNU iconv) and read as
 * Windows-1252, up to 5 of 15 became another plausible name with nothing to see it by (Jiří, Kovač, Győző in
 * Windows-1250 turn into Jiøí, Kovaè, Gyõzõ), and a hitter under two names is two hitters. The refusal shows how the
 * text would read instead, and a column map names the encoding.
 */
import { quoted, UnusableFile } from "../swing/problems.ts";
import { startSha256 } from "../swing/sha256.ts";

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

/** Bytes as ISO 8859-1 reads them: one character a byte. */
const latin1 = (bytes: Uint8Array): string => Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");

function encodingOf(head: Uint8Array, file: string, wanted: string | undefined): string {
  if (head.length >= 2 && head[0] === 0xff && head[1] === 0xfe) return "utf-16le";
  if (head.length >= 2 && head[0] === 0xfe && head[1] === 0xff) return "utf-16be";
  if (head.length >= 3 && head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) wanted = "utf-8";
  const start = latin1(head.subarray(0, 512));
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
 * The characters of Windows-1252's bytes 0x80 to 0x9f; those it leaves undefined stand as they are. Some versions
 * of Node decode them as ISO 8859-1 would.
 */
const windows1252 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009dž\u0178";

/** Windows-1252 text as it was meant, whichever of the two ways it was decoded; null where a byte has no meaning. */
function asWindows1252(decoded: string): string | null {
  const text = decoded.replace(/[\u0080-\u009f]/g, (c) => windows1252[c.charCodeAt(0) - 0x80]!);
  return /[\u0080-\u009f]/.test(text) ? null : text;
}

/** The place of the first byte that UTF-8 has no use for; the number of bytes when there is none. */
function firstNotUtf8(bytes: Uint8Array): number {
  let at = 0;
  // A piece may begin inside a character.
  while (at < 3 && (bytes[at]! & 0xc0) === 0x80) at++;
  while (at < bytes.length) {
    const lead = bytes[at]!;
    const more =
      lead < 0x80 ? 0 : lead < 0xc2 ? -1 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : lead < 0xf5 ? 3 : -1;
    if (more < 0) return at;
    for (let i = 1; i <= more && at + i < bytes.length; i++) {
      if ((bytes[at + i]! & 0xc0) !== 0x80) return at;
    }
    at += more + 1;
  }
  return bytes.length;
}

function joinedBytes(a: Uint8Array, b: Uint8Array): Uint8Array {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

const lineEnds = (bytes: Uint8Array): number => {
  let [feeds, returns] = [0, 0];
  for (let at = bytes.indexOf(10); at >= 0; at = bytes.indexOf(10, at + 1)) feeds++;
  if (feeds === 0) for (const byte of bytes) if (byte === 13) returns++;
  return Math.max(feeds, returns);
};

/** The cell around a byte, as Windows-1252 would read it, or null when it can't be that. */
function cellAround(bytes: Uint8Array, at: number): string | null {
  const ends = [...'\r\n,;\t|"'].map((c) => c.charCodeAt(0));
  let [from, to] = [at, at + 1];
  while (from > 0 && at - from < 30 && !ends.includes(bytes[from - 1]!)) from--;
  while (to < bytes.length && to - at < 30 && !ends.includes(bytes[to]!)) to++;
  return asWindows1252(latin1(bytes.subarray(from, to)));
}

/** Why a file is no UTF-8 text, where, and what it would be as Windows-1252. */
function notUtf8(piece: Uint8Array, linesBefore: number): string {
  const at = firstNotUtf8(piece);
  const say = "is not UTF-8 text: ";
  if (at >= piece.length) return `${say}save it as CSV (UTF-8), or name its encoding in a column map`;
  const line = `line ${linesBefore + lineEnds(piece.subarray(0, at)) + 1}`;
  const read = cellAround(piece, at);
  if (read === null)
    return `${say}look at ${line}, and save it as CSV (UTF-8), or name its encoding in a column map`;
  return (
    `${say}if ${line} should say ${quoted(read.trim())}, "add" reads it with --encoding windows-1252, ` +
    `or a column map with "encoding": "windows-1252"; if not, save it as CSV (UTF-8)`
  );
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
  const hash = startSha256();
  let bytes = 0;
  let digest: string | null = null;
  async function* pieces(): AsyncGenerator<string> {
    let decoder: TextDecoder | null = null;
    let encoding = "";
    let head: Uint8Array | null = new Uint8Array();
    let lines = 0;
    const refuse = (reason: string): never => {
      throw new UnusableFile(file, reason);
    };
    const decode = (piece: Uint8Array | undefined): string => {
      let text: string;
      try {
        text = piece === undefined ? decoder!.decode() : decoder!.decode(piece, { stream: true });
      } catch {
        if (encoding === "utf-8") return refuse(notUtf8(piece ?? new Uint8Array(), lines));
        return refuse(
          `is not ${encoding.toUpperCase()} text: save it as CSV (UTF-8), or name its encoding in a column map`,
        );
      }
      if (encoding === "windows-1252")
        return (
          asWindows1252(text) ?? refuse("is not WINDOWS-1252 text: it has bytes that stand for nothing there")
        );
      const nul = text.indexOf("\0");
      if (nul >= 0) {
        const before = lines + lineEnds(new TextEncoder().encode(text.slice(0, nul)));
        return refuse(
          `is not text: ${encoding === "utf-8" ? `line ${before + 1}` : "it"} has a NUL character`,
        );
      }
      if (piece !== undefined && encoding === "utf-8") lines += lineEnds(piece);
      return text;
    };
    const start = (): string => {
      const first = head!;
      head = null;
      encoding = encodingOf(first, file, options.encoding);
      decoder = new TextDecoder(encoding, { fatal: true });
      encoding = decoder.encoding;
      return decode(first);
    };
    for await (const piece of source) {
      bytes += piece.length;
      hash.update(piece);
      if (head === null) yield decode(piece);
      else {
        // Small first pieces are put together until there is enough to tell the encoding from.
        head = joinedBytes(head, piece);
        if (head.length >= 4096) yield start();
      }
    }
    if (head !== null) {
      if (head.length === 0) throw new UnusableFile(file, "is empty");
      yield start();
    }
    const rest = decode(undefined);
    if (rest !== "") yield rest;
    digest = hash.hex();
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
