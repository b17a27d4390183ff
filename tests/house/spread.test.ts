/**
 * A list spread into a call's arguments goes through the stack, which ends at some hundred thousand values: a file or a
 * library has no such limit. So a spread is a tuple, whose length its type tells, or a rest parameter, whose caller
 * is held to the same. `src/swing/lists.ts` has what does it without the stack.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { filesUnder, root } from "./files.ts";

interface Spread {
  readonly file: string;
  readonly text: string;
}

/** The spreads in the arguments of calls that nothing in their types bounds. */
function unboundedIn(program: ts.Program, files: readonly string[]): Spread[] {
  const checker = program.getTypeChecker();
  const found: Spread[] = [];
  for (const file of files) {
    const source = program.getSourceFile(file)!;
    const isRest = (of: ts.Expression): boolean => {
      const declared = checker.getSymbolAtLocation(of)?.valueDeclaration;
      return declared !== undefined && ts.isParameter(declared) && declared.dotDotDotToken !== undefined;
    };
    const visit = (node: ts.Node): void => {
      if (ts.isCallExpression(node) || ts.isNewExpression(node)) {
        for (const argument of node.arguments ?? []) {
          if (!ts.isSpreadElement(argument)) continue;
          const { expression } = argument;
          if (checker.isTupleType(checker.getTypeAtLocation(expression)) || isRest(expression)) continue;
          found.push({ file: relative(root, file), text: expression.getText(source).replace(/\s+/g, " ") });
        }
      }
      ts.forEachChild(node, visit);
    };
    visit(source);
  }
  return found;
}

const options: ts.CompilerOptions = {
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  allowImportingTsExtensions: true,
  strict: true,
  noEmit: true,
  skipLibCheck: true,
};

const caught = `
  const one = (list: number[], all: number[]) => list.push(...all);
  const two = (values: readonly number[]) => Math.max(0, ...values.map(Math.abs));
  const three = (codes: Uint16Array) => new Date(...codes);
`;
const letBy = `
  const one = (wind: readonly [number, number]) => Math.hypot(...wind);
  const two = (...items: number[]) => [0].concat(...items);
  const three = (list: number[]) => [0, ...list];
`;

describe("lists in a call's arguments", () => {
  it("are of a length that the code bounds, in every file", { timeout: 120_000 }, () => {
    const files = filesUnder("src", [".ts"]);
    expect(files.length).toBeGreaterThan(100);
    const folder = mkdtempSync(join(tmpdir(), "spread-"));
    const [bad, good] = [join(folder, "bad.ts"), join(folder, "good.ts")];
    writeFileSync(bad, caught);
    writeFileSync(good, letBy);
    try {
      const program = ts.createProgram([...files, bad, good], options);
      expect(unboundedIn(program, files)).toEqual([]);
      expect(unboundedIn(program, [bad]).map((s) => s.text)).toEqual([
        "all",
        "values.map(Math.abs)",
        "codes",
      ]);
      expect(unboundedIn(program, [good])).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
