/** Windows-1252 against the Unicode Consortium's mapping table. */
import { expect, it } from "vitest";
import { textFrom } from "../../src/reading/text.ts";

/**
 * Bytes 0x80 to 0x9f, null where undefined: MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT, unicode.org; the code
 * points as CPython's codec cp1252, made from that table, gives them.
 */
const cp1252: readonly (number | null)[] = [
  0x20ac,
  null,
  0x201a,
  0x0192,
  0x201e,
  0x2026,
  0x2020,
  0x2021,
  0x02c6,
  0x2030,
  0x0160,
  0x2039,
  0x0152,
  null,
  0x017d,
  null,
  null,
  0x2018,
  0x2019,
  0x201c,
  0x201d,
  0x2022,
  0x2013,
  0x2014,
  0x02dc,
  0x2122,
  0x0161,
  0x203a,
  0x0153,
  null,
  0x017e,
  0x0178,
];

async function decoded(byte: number): Promise<string> {
  let text = "";
  const source = textFrom("a.csv", [Buffer.from([0x78, byte])], { encoding: "windows-1252" });
  for await (const piece of source.pieces) text += piece;
  return text;
}

it("every byte of Windows-1252 is the character of the table, and the undefined ones are refused", async () => {
  for (let byte = 0x20; byte < 0x100; byte++) {
    const point = byte >= 0x80 && byte < 0xa0 ? cp1252[byte - 0x80]! : byte;
    if (point === null) await expect(decoded(byte)).rejects.toThrow("WINDOWS-1252");
    else expect(await decoded(byte)).toBe(`x${String.fromCodePoint(point)}`);
  }
});
