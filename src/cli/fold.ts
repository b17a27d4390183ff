/** Lines folded to a width, as a terminal shows them. */
import stringWidth from "string-width";

/** Columns stand apart by two blanks or more: such a line is a table's, and stays whole. */
const isTabular = (line: string): boolean => /\S {2,}\S/.test(line);

/**
 * A text whose lines are folded between words, what goes on set in by two. A word that is wider than the width stays
 * whole, and so does a table's line.
 * @param width in columns of a terminal, of which a wide letter takes two
 * @example folded("one two three", 9) // "one two\n  three"
 * @example folded("  Ana  93", 4) // "  Ana  93"
 */
export function folded(text: string, width: number): string {
  return text
    .split("\n")
    .map((line) => (stringWidth(line) <= width || isTabular(line) ? line : foldedLine(line, width)))
    .join("\n");
}

function foldedLine(line: string, width: number): string {
  const indent = /^ */.exec(line)![0];
  const lines: string[] = [];
  let open = indent;
  for (const word of line.slice(indent.length).split(" ")) {
    const started = open.trim() !== "";
    if (started && stringWidth(open) + 1 + stringWidth(word) > width) {
      lines.push(open);
      open = `${indent}  ${word}`;
    } else open += started ? ` ${word}` : word;
  }
  return [...lines, open].join("\n");
}
