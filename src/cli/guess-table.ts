/** A guessed column map as a table for people: each column, what it becomes, and its first values before and after. */
import { Refusal } from "../reading/cells.ts";
import type { Guess } from "../reading/guess.ts";
import { isPrivate, layoutOf } from "../reading/layout.ts";
import { printable } from "../swing/problems.ts";
import type { Sample } from "../reading/read.ts";
import { tables } from "../swing/tables.ts";
import { tableText } from "./table.ts";

const shownValues = 3;
const widest = 26;

const cut = (text: string): string => {
  const plain = printable(text);
  return plain.length > widest ? `${plain.slice(0, widest - 1)}…` : plain;
};

/** The first known values of each column under a map, before and after. */
function values(sample: Sample, guess: Guess): Map<string, { before: string; after: string }> {
  const table = tables.find((t) => t.name === "swings")!;
  const records = sample.rows.map((cells, i) => ({ row: i + 2, cells, fault: null }));
  const layout = layoutOf("sample", sample.header, records, sample.delimiter, table, guess.map, {
    // A table is shown of what there is, however much is missing.
    filled: table.fields.map((field) => field.name),
  });
  const reads = new Map(layout.columns.flatMap((column) => column.at.map((at) => [at, column] as const)));
  return new Map(
    sample.header.map((heading, at) => {
      const column = reads.get(at);
      const rows = sample.rows.filter((row) => (row[at] ?? "").trim() !== "").slice(0, shownValues);
      const before = rows.map((row) => row[at]!.trim());
      const after =
        column === undefined
          ? []
          : rows.map((row) => {
              const cell = column.at.map((i) => (row[i] ?? "").trim()).join(" ");
              const value = column.read(cell.trim());
              if (value instanceof Refusal) return "refused";
              return typeof value === "number"
                ? String(Number(value.toPrecision(4)))
                : String(value ?? "unknown");
            });
      return [heading, { before: cut(before.join(", ")), after: cut(after.join(", ")) }];
    }),
  );
}

/**
 * The guess as lines of text.
 * @returns a table with a line for each column of the sheet
 */
export function guessTable(sample: Sample, guess: Guess): string {
  const shown = values(sample, guess);
  const rows = guess.columns.map(({ heading, field, unit, reason, isTaken }) => {
    const { before, after } = shown.get(heading) ?? { before: "", after: "" };
    const name = cut(heading) || "(no heading)";
    if (field !== null && isTaken) return [name, field, unit ?? "", before, after];
    const why = field === null ? reason : `left out until it is sure to be ${field}`;
    return [name, "-", before === "" || isPrivate(heading) ? why : `${why}: ${before}`];
  });
  return tableText(rows, { head: ["heading", "becomes", "in", "first values", "become"] });
}
