/** Held against the examples of FIPS 180-4's annex (NIST, "SHA-256 test vectors": one block, two blocks). */
import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { portableSha256, sha256Of, startSha256 } from "../../src/swing/sha256.ts";

const published: readonly (readonly [string, string])[] = [
  ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
  [
    "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  ],
];

describe("sha256", () => {
  it.each(published)("of %s is as published, in Node's and in the portable one", (text, sum) => {
    expect(sha256Of(text)).toBe(sum);
    for (const start of [startSha256, portableSha256]) {
      const hash = start();
      hash.update(text.slice(0, 2));
      hash.update(new TextEncoder().encode(text.slice(2)));
      expect(hash.hex()).toBe(sum);
    }
  });

  it("is the same in both ways on letters beyond ASCII and on a large piece", () => {
    const piece = `Kovač Győző ${"ß".repeat(100_000)}`;
    const portable = portableSha256();
    portable.update(piece);
    expect(portable.hex()).toBe(sha256Of(piece));
    expect(sha256Of(piece)).toBe(createHash("sha256").update(piece).digest("hex"));
  });
});
