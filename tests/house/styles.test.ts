/** The pages' style sheets, and what they cost while a page changes. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { root } from "./files.ts";

const sheets = ["page.css", "cage.css"].map((name) => ({
  name,
  text: readFileSync(join(root, "notebooks/page", name), "utf8").replace(/\/\*[\s\S]*?\*\//g, ""),
}));

/** Selectors of a sheet, one each. */
const selectorsIn = (text: string): string[] =>
  [...text.matchAll(/([^{}@;]+)\{/g)].flatMap(([, list]) =>
    list!.split(/,(?![^(]*\))/).map((one) => one.trim()),
  );

describe("the pages' style sheets", () => {
  it("have selectors", () => {
    for (const { text } of sheets) expect(selectorsIn(text).length).toBeGreaterThan(30);
  });

  // A browser that finds such a selector styles the whole page anew with each element that is added to it.
  it("don't ask what stands anywhere in a page in order to style another part of it", () => {
    const asked = sheets.flatMap(({ name, text }) =>
      selectorsIn(text).flatMap((one) =>
        /^(html|body|main)\S*:has\(.*\)\S* /.test(one) ? [`${name}: ${one}`] : [],
      ),
    );
    expect(asked).toEqual([]);
  });
});
