/** The code in the pages is code of the house: typed, short, and computing nothing itself. */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { pages } from "../../notebooks/pages.ts";
import { root } from "../house/files.ts";
import { cellsOf, pageText, typeErrors } from "./cells.ts";

const page = (code: string): string =>
  `<!doctype html><notebook><title>x</title><script type="text/x-typescript">${code}</script></notebook>`;

describe("the cells", () => {
  it("are those of every page in the folder", () => {
    const files = readdirSync(join(root, "notebooks")).filter((name) => name.endsWith(".html"));
    expect(files.sort()).toEqual(pages.map(({ file }) => file).sort());
  });

  it.each(pages.map(({ file }) => file))("of %s are typed against src/", (file) => {
    const text = pageText(file);
    expect(cellsOf(text).filter(({ mode }) => mode === "ts").length).toBeGreaterThan(0);
    expect(typeErrors(file, text)).toEqual([]);
  });

  it.each(pages.map(({ file }) => file))("of %s begin with prose and stay short", (file) => {
    const cells = cellsOf(pageText(file));
    expect(cells[0]?.mode).toBe("md");
    for (const { mode, value } of cells) {
      expect(["md", "ts"]).toContain(mode);
      if (mode === "ts") expect(value.split("\n").length).toBeLessThanOrEqual(20);
    }
  });

  it("read what is filtered in a cell after the filter's own, where it is not yet what was chosen", () => {
    let seen = 0;
    for (const { file } of pages) {
      for (const [, code] of pageText(file).matchAll(
        /<script type="text\/x-typescript">([^]*?)<\/script>/g,
      )) {
        if (!code!.includes("= filtering(")) continue;
        seen++;
        expect(code!, file).not.toMatch(/\bfilter\./);
      }
    }
    expect(seen).toBeGreaterThan(5);
  });

  it("are caught when a type is wrong, a value is unknown, or an index may miss", () => {
    expect(typeErrors("a.html", page("const n: number = 'three';"))).toMatchObject([{ cell: 1, line: 1 }]);
    expect(typeErrors("a.html", page("display(nowhere);"))).toHaveLength(1);
    expect(typeErrors("a.html", page("const a = [1];\nconst b: number = a[0];"))).toMatchObject([
      { line: 2 },
    ]);
    expect(typeErrors("a.html", page("display(width + 1);"))).toEqual([]);
  });
});
