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
  ["reading"],
  ["library"],
  ["flight", "field"],
  ["contact"],
  ["stats", "views"],
  ["gap", "setup", "defence"],
  ["season"],
  ["charts"],
  ["report"],
  ["notebooks"],
  ["cli"],
  // What the package gives under its own name.
  ["index.ts"],
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

/** Rooms that a browser can load: nothing of Node's. */
const browserSafe = [
  "units",
  "swing",
  "reading",
  "flight",
  "field",
  "contact",
  "stats",
  "views",
  "gap",
  "setup",
  "season",
  "charts",
];
/** Rooms that compute know rows, and nothing of where the rows came from. */
const readers = new Set(["reading", "library", "report", "notebooks", "cli", "index.ts"]);

/** The circles among imports: each a list of files of which every one leads to the next. */
function circlesIn(all: readonly Arrow[]): string[][] {
  const next = new Map<string, string[]>();
  for (const { from, to } of all) next.set(from, [...(next.get(from) ?? []), to]);
  const done = new Set<string>();
  const found: string[][] = [];
  const visit = (file: string, path: readonly string[]): void => {
    const at = path.indexOf(file);
    if (at >= 0) return void found.push([...path.slice(at), file]);
    if (done.has(file)) return;
    for (const other of next.get(file) ?? []) visit(other, [...path, file]);
    done.add(file);
  };
  for (const file of next.keys()) visit(file, []);
  return found;
}

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

  it("never make a circle, inside a room or across", () => {
    const circle = [
      { from: "src/gap/a.ts", to: "src/gap/b.ts" },
      { from: "src/gap/b.ts", to: "src/gap/a.ts" },
    ];
    expect(circlesIn(circle)).toEqual([["src/gap/a.ts", "src/gap/b.ts", "src/gap/a.ts"]]);
    expect(circlesIn(arrows)).toEqual([]);
  });

  it("lead to reading and library only from rooms that take data in or hand it out", () => {
    const reads = arrows.filter(
      ({ from, to }) => /^src\/(reading|library)\//.test(to) && !readers.has(folderOf(from)),
    );
    expect(reads).toEqual([]);
  });

  it("leave the rooms that a browser loads without anything of Node's", () => {
    const sources = browserSafe.flatMap((room) => filesUnder(`src/${room}`, [".ts"]));
    expect(sources.length).toBeGreaterThan(100);
    const found = sources.filter((file) => {
      const text = readFileSync(file, "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
      return /from "node:|import\("node:|\bBuffer\b|\b__dirname\b/.test(
        text.replaceAll('import("node:crypto")', ""),
      );
    });
    expect(found.map((file) => relative(root, file))).toEqual([]);
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
      const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
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
