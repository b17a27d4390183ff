/** A seeded choice of a room's functions to be mutated: all of them would take a day. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { randomLcg, shuffler } from "d3";
import ts from "typescript";

/** The lines of one statement at a module's top level. */
export interface Stretch {
  readonly file: string;
  readonly first: number;
  readonly last: number;
}

/** What of a module can be mutated: functions, classes and constants that are computed; no types, no imports. */
export function stretchesOf(file: string, text: string): Stretch[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const line = (at: number): number => source.getLineAndCharacterOfPosition(at).line + 1;
  return source.statements
    .filter((s) => ts.isFunctionDeclaration(s) || ts.isClassDeclaration(s) || ts.isVariableStatement(s))
    .map((s) => ({ file, first: line(s.getStart(source)), last: line(s.end) }));
}

/**
 * Functions of a room, drawn without replacement until they have so many lines.
 * @param leaveOut files that are not ours to judge: tables, and what is written by a program
 */
export function sampleOf(
  room: string,
  lines: number,
  seed: number,
  leaveOut: readonly string[] = [],
): Stretch[] {
  const files = readdirSync(room).filter((name) => name.endsWith(".ts") && !leaveOut.includes(name));
  const all = files.sort().flatMap((name) => {
    const file = join(room, name);
    return stretchesOf(file, readFileSync(file, "utf8"));
  });
  const taken: Stretch[] = [];
  let so = 0;
  for (const stretch of shuffler(randomLcg(seed))(all)) {
    if (so >= lines) break;
    taken.push(stretch);
    so += stretch.last - stretch.first + 1;
  }
  return taken;
}
