/** A page's cells as one TypeScript module, so that the compiler reads them against src/ as it reads any file. */
import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { deserialize, type Cell } from "@observablehq/notebook-kit";
import { JSDOM } from "jsdom";
import ts from "typescript";
import { root } from "../house/files.ts";

const { DOMParser } = new JSDOM().window;

/** The cells of a page of the notebooks, by its text. */
export function cellsOf(html: string): Cell[] {
  return deserialize(html, { parser: new DOMParser() }).cells;
}

export function pageText(file: string): string {
  return readFileSync(join(root, "notebooks", file), "utf8");
}

/** What the runtime gives every cell, with its types. */
const given = `
import type * as PlotTypes from "@observablehq/plot";
import type * as D3Types from "d3";
import type * as ArqueroTypes from "arquero";
import type * as HtlTypes from "htl";
declare const Plot: typeof PlotTypes;
declare const d3: typeof D3Types;
declare const aq: typeof ArqueroTypes;
declare const htl: typeof HtlTypes;
declare const html: typeof HtlTypes.html;
declare const svg: typeof HtlTypes.svg;
declare const Inputs: { table(rows: Iterable<object>, options?: object): HTMLElement };
declare const width: number;
declare function display<T>(value: T): T;
declare function view<T>(element: Node & { readonly value: T }): T;
`;

/** One error of a page's cells: the cell's number, its line there, and what the compiler says. */
export interface CellError {
  readonly cell: number;
  readonly line: number;
  readonly text: string;
}

const { config } = ts.readConfigFile(join(root, "tsconfig.json"), ts.sys.readFile) as { config: object };
// A cell's value may be for the reader alone.
const options: ts.CompilerOptions = {
  ...ts.parseJsonConfigFileContent(config, ts.sys, root).options,
  noUnusedLocals: false,
};
/** The sources that every page is read against, parsed once. */
const parsed = new Map<string, ts.SourceFile | undefined>();
let before: ts.Program | undefined;

/** Type-checks the cells of a page. Markdown and HTML cells are checked for the values they name. */
export function typeErrors(file: string, html: string): CellError[] {
  const starts: { cell: number; line: number }[] = [];
  let text = given;
  for (const cell of cellsOf(html)) {
    starts.push({ cell: cell.id, line: text.split("\n").length });
    if (cell.mode === "ts" || cell.mode === "js") text += `${cell.value}\n;\n`;
    else text += `void String.raw\`${cell.value.replaceAll("`", "\\`")}\`;\n`;
  }
  text += "export {};\n";

  const path = join(root, "notebooks", `${basename(file, ".html")}.cells.ts`);
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists, readFile } = host;
  host.fileExists = (name) => name === path || fileExists.call(host, name);
  host.readFile = (name) => (name === path ? text : readFile.call(host, name));
  host.getSourceFile = (name, ...rest) => {
    if (name === path) return ts.createSourceFile(name, text, ts.ScriptTarget.Latest);
    if (!parsed.has(name)) parsed.set(name, getSourceFile.call(host, name, ...rest));
    return parsed.get(name);
  };
  const program = ts.createProgram([path], options, host, before);
  before = program;
  const source = program.getSourceFile(path);
  return [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)].map((d) => {
    const line = source?.getLineAndCharacterOfPosition(d.start ?? 0).line ?? 0;
    const at = starts.findLast((start) => start.line <= line + 1) ?? { cell: 0, line: 1 };
    return {
      cell: at.cell,
      line: line + 2 - at.line,
      text: ts.flattenDiagnosticMessageText(d.messageText, " "),
    };
  });
}
