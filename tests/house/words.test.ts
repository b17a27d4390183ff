/**
 * What is shown speaks the field's and statistics' standard English: words that were retired don't come back, on any page,
 * in any report, command or page of documentation.
 */
import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { filesUnder, root } from "./files.ts";

/** A retired word, and the standard one in its place. */
const retired: readonly (readonly [RegExp, string])[] = [
  [/\bturned back\b/i, "corrected"],
  [/\bplaces? of contact\b|\bcontact places?\b/i, "contact point"],
  [/\b(holds?|held|holding) the truth\b/i, "covers the truth"],
  [/\bdrawn (in )?toward\b/i, "pooled"],
  [/\bdrawn anew\b/i, "resampled"],
  [/\bmend(s|ed|ing)?\b/i, "corrected"],
  [/\bsettle[sd]?\b|\bsettling\b/i, "stabilizes"],
  [/\btake[sn]? (it|them|swings|rows|files?) into\b/i, "added to"],
  [/(?<!\bin |class="|\.)\bdoubts?\b/i, "uncertainty"],
  [/\bother than nothing\b/i, "a difference from 0"],
  [/\bthe blueprint\b/i, "the design"],
];

const found = (text: string): string[] =>
  retired.flatMap(([word, instead]) => {
    const hit = word.exec(text);
    return hit === null ? [] : [`“${hit[0]}” for “${instead}”: ${text.slice(0, 100)}`];
  });

/** The texts of a program: its string literals of more than one word. Names and comments are not shown. */
function textsOf(file: string): string[] {
  const texts: string[] = [];
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest);
  const walk = (node: ts.Node): void => {
    if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) texts.push(node.text);
    else if (ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node)) texts.push(node.text);
    ts.forEachChild(node, walk);
  };
  walk(source);
  return texts.filter((text) => /\S\s+\S/.test(text));
}

/** The prose of a page of documentation, or of a notebook: code apart. */
function proseOf(file: string): string[] {
  const text = readFileSync(file, "utf8");
  if (file.endsWith(".md")) return text.replace(/```[\s\S]*?```|`[^`\n]*`/g, "").split(/\n{2,}/);
  return [...text.matchAll(/<script[^>]*type="text\/(?:markdown|html)"[^>]*>([\s\S]*?)<\/script>/g)].flatMap(
    ([, prose]) => prose!.split(/\n{2,}/),
  );
}

describe("retired words", () => {
  it("would be found", () => {
    expect(found("Readings are turned back by 3°, and the doubt is drawn anew.")).toHaveLength(3);
    expect(found("2 readings are in doubt.")).toEqual([]);
  });

  it("are in no text of the program", () => {
    const files = ["src", "notebooks"].flatMap((folder) => filesUnder(folder, [".ts"]));
    const texts = files.map((file) => ({ file: relative(root, file), texts: textsOf(file) }));
    expect(texts.reduce((sum, t) => sum + t.texts.length, 0)).toBeGreaterThan(1000);
    expect(texts.flatMap((t) => t.texts.flatMap(found).map((hit) => `${t.file}: ${hit}`))).toEqual([]);
  });

  it("are on no page", () => {
    const files = [
      ...filesUnder("notebooks", [".html"]),
      ...["README.md", "DEVELOPERS.md"].map((name) => join(root, name)),
    ];
    const prose = files.map((file) => ({ file: relative(root, file), prose: proseOf(file) }));
    for (const { file, prose: blocks } of prose)
      if (!file.includes("template")) expect(blocks.length, file).toBeGreaterThan(0);
    expect(prose.flatMap((p) => p.prose.flatMap(found).map((hit) => `${p.file}: ${hit}`))).toEqual([]);
  });
});
