/** Each one-line `@example expression // result` in src/ is run, and gives what it says. */
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { filesUnder, root } from "./files.ts";

const files = filesUnder("src", [".ts"]).filter((file) => !file.includes("/src/cli/"));

interface Example {
  expression: string;
  result: string;
}

function examplesIn(text: string): Example[] {
  return [...text.matchAll(/@example (.+?) \/\/ (.+?)(?:\s*\*\/)?$/gm)].map((m) => ({
    expression: m[1]!.trim(),
    result: m[2]!.trim(),
  }));
}

/** A number is held to the digits the example shows; everything else exactly. */
function holds(actual: unknown, expected: unknown, shown: string): void {
  if (typeof expected === "number" && Number.isFinite(expected)) {
    const decimals = /\.(\d+)/.exec(shown)?.[1]?.length ?? 0;
    expect(typeof actual).toBe("number");
    expect(Math.abs((actual as number) - expected), `${String(actual)} is not ${shown}`).toBeLessThanOrEqual(
      0.5000001 * 10 ** -decimals,
    );
  } else if (expected !== null && typeof expected === "object" && !Array.isArray(expected)) {
    for (const [key, value] of Object.entries(expected)) {
      const digits = new RegExp(`${key}"?:\\s*(-?[\\d.]+)`).exec(shown)?.[1] ?? String(value);
      holds((actual as Record<string, unknown>)[key], value, digits);
    }
  } else if (Array.isArray(expected) && expected.every((v) => typeof v === "number")) {
    const digits = shown.match(/-?[\d.]+/g) ?? [];
    expect(actual).toHaveLength(expected.length);
    expected.forEach((value, i) => holds((actual as unknown[])[i], value, digits[i] ?? String(value)));
  } else expect(actual).toEqual(expected);
}

const evaluate = (expression: string, names: Record<string, unknown>): unknown =>
  new Function(...Object.keys(names), `"use strict"; return (${expression});`)(...Object.values(names));

describe("examples in doc comments", () => {
  let run = 0;
  for (const file of files) {
    const examples = examplesIn(readFileSync(file, "utf8"));
    if (examples.length === 0) continue;
    it(relative(root, file), async () => {
      const module = (await import(file)) as Record<string, unknown>;
      for (const { expression, result } of examples) {
        holds(evaluate(expression, module), evaluate(result, module), result);
        run++;
      }
    });
  }

  it("are many, and a wrong one is caught", () => {
    expect(run).toBeGreaterThanOrEqual(20);
    expect(() => holds(1.26, 1.2, "1.2")).toThrow();
    expect(() => holds({ a: 2.1 }, { a: 2 }, "{ a: 2.0 }")).toThrow();
    holds(1.24, 1.2, "1.2");
  });
});

describe("public functions", () => {
  it("each carry a doc comment", () => {
    const bare = files.flatMap((file) => {
      const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
      return source.statements
        .filter((s): s is ts.FunctionDeclaration => ts.isFunctionDeclaration(s))
        .filter((s) => s.modifiers?.some((m) => m.kind === ts.SyntaxKind.ExportKeyword))
        .filter((s) => ts.getJSDocCommentsAndTags(s).length === 0)
        .map((s) => `${relative(root, file)}: ${s.name?.text ?? "default"}`);
    });
    expect(bare).toEqual([]);
  });
});
