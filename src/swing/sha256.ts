/**
 * SHA-256, the same in Node and in a browser. Browsers give theirs only as a promise, and a row's name is wanted at
 * once; Node's own is several times quicker than one in JavaScript, so it is asked for where there is one.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

/** What has been hashed so far. */
export interface Sha256 {
  update(bytes: string | Uint8Array): void;
  /** The sum in hex; nothing more can be added afterwards. */
  hex(): string;
}

/** The part of Node that is used; no import names it, so that a browser has nothing to miss. */
type Crypto = Pick<typeof import("node:crypto"), "createHash" | "hash">;
const inNode = (globalThis as { process?: { getBuiltinModule?: (name: string) => unknown } }).process;
const native = (inNode?.getBuiltinModule?.("node:crypto") ?? null) as Crypto | null;

const bytesOf = (data: string | Uint8Array): Uint8Array =>
  typeof data === "string" ? utf8ToBytes(data) : data;

/** A sum in pure JavaScript: what a browser uses. */
export function portableSha256(): Sha256 {
  const hash = sha256.create();
  return { update: (bytes) => void hash.update(bytesOf(bytes)), hex: () => bytesToHex(hash.digest()) };
}

/** A sum of bytes that come in pieces. */
export function startSha256(): Sha256 {
  if (native === null) return portableSha256();
  const hash = native.createHash("sha256");
  return { update: (bytes) => void hash.update(bytes), hex: () => hash.digest("hex") };
}

/**
 * SHA-256 of bytes, or of a text's UTF-8, in hex.
 * @example sha256Of("abc").slice(0, 8) // "ba7816bf"
 */
export function sha256Of(data: string | Uint8Array): string {
  return native === null ? bytesToHex(sha256(bytesOf(data))) : native.hash("sha256", data, "hex");
}
