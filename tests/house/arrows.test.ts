/** Imports run downward only: a folder may use those before it in the order, and none after. */
import { readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { filesUnder, root } from "./files.ts";

/** Lowest first. Folders on one line know nothing of each other, but for the pairs in `beside`. */
const order = [
  ["units"],
  ["swing"],
  ["flight", "field"],
  ["contact"],
  ["stats", "views"],
  ["gap", "setup"],
  ["charts"],
  ["report", "notebooks"],
  ["cli"],
];
/** views put an interval on what they count, so they may use stats; stats know no view. */
const beside = new Set(["views>stats"]);

const rank = (folder: string): number => order.findIndex((row) => row.includes(folder));

function folderOf(path: string): string {
  const [top, second] = path.split("/");
  return top === "src" ? (second ?? "") : (top ?? "");
}

interface Arrow {
  from: string;
  to: string;
}

/** Every import of one file that stays inside the project, as paths from the root. */
function arrowsOf(path: string, text: string): Arrow[] {
  const cells = path.endsWith(".html")
    ? [...text.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g)].map((m) => m[1] ?? "").join("\n")
    : text;
  return ts
    .preProcessFile(cells, true, true)
    .importedFiles.map((f) => f.fileName)
    .filter((name) => name.startsWith("."))
    .map((name) => ({ from: path, to: join(dirname(path), name) }));
}

function against(arrows: readonly Arrow[]): string[] {
  return arrows
    .filter(({ from, to }) => {
      const [a, b] = [folderOf(from), folderOf(to)];
      if (a === b || b === "data") return false;
      if (rank(b) < 0) return true;
      return !(rank(b) < rank(a) || beside.has(`${a}>${b}`));
    })
    .map(({ from, to }) => `${from} must not import ${to}`);
}

const files = [...filesUnder("src", [".ts", ".mjs"]), ...filesUnder("notebooks", [".ts", ".html"])];
const arrows = files.flatMap((file) => arrowsOf(relative(root, file), readFileSync(file, "utf8")));

describe("arrows", () => {
  it("run downward in every file", () => {
    expect(arrows.length).toBeGreaterThan(50);
    expect(against(arrows)).toEqual([]);
  });

  it("are caught when they run upward, sideways or out of the house", () => {
    const cell = `<script type="module">import {x} from "../src/cli/main.ts";</script>`;
    expect(against(arrowsOf("src/flight/a.ts", `import { b } from "../contact/b.ts";`))).toHaveLength(1);
    expect(against(arrowsOf("src/flight/a.ts", `import type { b } from "../field/b.ts";`))).toHaveLength(1);
    expect(against(arrowsOf("src/stats/a.ts", `export * from "../views/b.ts";`))).toHaveLength(1);
    expect(against(arrowsOf("src/units/a.ts", `const b = await import("../swing/b.ts");`))).toHaveLength(1);
    expect(against(arrowsOf("src/gap/a.ts", `import "../../tests/b.ts";`))).toHaveLength(1);
    expect(against(arrowsOf("notebooks/a.html", cell))).toHaveLength(1);
    expect(against(arrowsOf("src/views/a.ts", `import { b } from "../stats/b.ts";`))).toEqual([]);
  });

  it("leave flight without any reading of files", () => {
    const read = arrows.filter(
      ({ from, to }) =>
        from.startsWith("src/flight/") && to.startsWith("src/swing/") && !to.endsWith("fields.ts"),
    );
    expect(read).toEqual([]);
  });

  it("bring no statistics into charts but as types", () => {
    const values = filesUnder("src/charts", [".ts"]).flatMap((file) => {
      const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest);
      return source.statements.filter(
        (s): s is ts.ImportDeclaration =>
          ts.isImportDeclaration(s) &&
          /\/(stats|gap|views)\//.test((s.moduleSpecifier as ts.StringLiteral).text) &&
          !s.importClause?.isTypeOnly,
      );
    });
    expect(values.map((s) => s.getText())).toEqual([]);
  });
});
