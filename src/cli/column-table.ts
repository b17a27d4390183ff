/** What a table's columns hold, for a terminal of 80 columns. */
import { mostTexts, type ColumnSummary } from "../reading/check.ts";
import { tables } from "../swing/tables.ts";
import { largest } from "../swing/lists.ts";

/** A text folded to the terminal, its further lines set in; as it stands where the output is no terminal. */
export function wrapped(text: string): string {
  if (!process.stdout.isTTY) return text;
  const width = Math.min(process.stdout.columns || 80, 100);
  return text
    .split("\n")
    .map((line) => {
      let out = "";
      let length = 0;
      for (const word of line.split(" ")) {
        if (length > 0 && length + 1 + word.length > width) {
          out += `\n  ${word}`;
          length = 2 + word.length;
        } else {
          out += length > 0 || out !== "" ? ` ${word}` : word;
          length += (length > 0 ? 1 : 0) + word.length;
        }
      }
      return out;
    })
    .join("\n");
}

/** Decimals a column of numbers is shown with: the wider it may range, the fewer. */
function decimalsOf(name: string): number {
  const field = tables.flatMap((t) => t.fields).find((f) => f.name === name);
  const range = (field?.max ?? 1) - (field?.min ?? 0);
  return range > 1000 ? 0 : range <= 20 ? 2 : 1;
}

/** The columns as a plain table, within 80 columns. */
export function columnTable(columns: readonly ColumnSummary[]): string {
  const shown = columns.filter((c) => c.filled > 0);
  const name = largest(
    shown.map((c) => c.field.length),
    6,
  );
  const filled = largest(
    shown.map((c) => String(c.filled).length),
    6,
  );
  const lines = [
    `${"column".padEnd(name)}  ${"filled".padStart(filled)}  ${["min", "median", "max"].map((t) => t.padStart(9)).join(" ")}`,
  ];
  for (const c of shown) {
    const start = `${c.field.padEnd(name)}  ${String(c.filled).padStart(filled)}  `;
    if (c.median !== null)
      lines.push(
        start + [c.min, c.median, c.max].map((v) => v!.toFixed(decimalsOf(c.field)).padStart(9)).join(" "),
      );
    else if (c.words !== null)
      lines.push(start + c.words.map(({ word, count: n }) => `${word} ${n}`).join(", "));
    else if (c.texts !== null)
      lines.push(`${start}${c.texts}${c.texts === mostTexts ? " or more" : ""} different`);
    else lines.push(`${start}${c.first?.slice(0, 16) ?? ""} to ${c.last?.slice(0, 16) ?? ""}`);
  }
  const empty = columns.filter((c) => c.filled === 0).map((c) => c.field);
  const rest = empty.length === 0 ? "" : folded(`Nothing in: ${empty.join(", ")}.`);
  return `${lines.join("\n")}\n${rest}`;
}

function folded(text: string): string {
  const lines: string[] = [""];
  for (const word of text.split(" ")) {
    const line = lines.at(-1)!;
    if (line !== "" && line.length + 1 + word.length > 78) lines.push(`  ${word}`);
    else lines[lines.length - 1] = line === "" ? word : `${line} ${word}`;
  }
  return `${lines.join("\n")}\n`;
}
