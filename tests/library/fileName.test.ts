import fc from "fast-check";
import { expect, it } from "vitest";
import { fileNames } from "../../src/library/fileName.ts";
import { escapeHtml } from "../../src/swing/words.ts";

it("gives names that can neither escape, hide, nor be a device", () => {
  const names = [
    "../../x",
    "=1+1",
    "<img onerror>",
    "CON",
    ".hidden",
    "a/b\\c:d",
    "nul.txt",
    "\u202eabc",
    "Zoë Ñ.",
  ];
  expect(fileNames(names, "report")).toEqual([
    "report-x.html",
    "report-1-1.html",
    "report-img-onerror.html",
    "report-con.html",
    "report-hidden.html",
    "report-a-b-c-d.html",
    "report-nul-txt.html",
    "report-abc.html",
    "report-zoë-ñ.html",
  ]);
});

it("never gives two hitters one file, whatever the system confuses", () => {
  const files = fileNames(
    ["Ada K.", "ada k", "ADA-K", "Zoe\u0308", "Zo\u00eb", "***", "...", "Weiß", "Weiss", "李"],
    "report",
  );
  const seen = files.map((f) => f.normalize("NFKD").toUpperCase());
  expect(new Set(seen).size).toBe(files.length);
  expect(files.at(-1)).toBe("report-李.html");
  expect(files[5]).toMatch(/^report-[0-9a-f]{8}\.html$/);
});

it("holds for any names", () => {
  fc.assert(
    fc.property(fc.uniqueArray(fc.string({ unit: "binary", maxLength: 80 }), { maxLength: 12 }), (names) => {
      const files = fileNames(names, "report");
      expect(new Set(files.map((f) => f.normalize("NFKD").toLowerCase())).size).toBe(names.length);
      for (const file of files) {
        expect(file).toMatch(/^report-[\p{L}\p{N}\p{M}-]+\.html$/u);
        expect(Buffer.byteLength(file)).toBeLessThan(255);
      }
    }),
    { numRuns: 40 },
  );
});

it("escapes what HTML reads as more than text", () => {
  expect(escapeHtml(`<a href="x">&'`)).toBe("&lt;a href=&quot;x&quot;&gt;&amp;&#39;");
  expect(escapeHtml("a\u0000b\ud800c\td\ne")).toBe("a\ufffdb\ufffdc\td\ne");
});
