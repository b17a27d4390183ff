/** One line of the bench's table. */
export interface Row {
  readonly what: string;
  /** The figure wanted, in words; empty for a line that only says something. */
  readonly wanted: string;
  readonly measured: string;
  /** Whether it is reached; null where no figure is wanted. */
  readonly reached: boolean | null;
}

/** The rows as a table of plain text. */
export function table(rows: readonly Row[]): string {
  const said = rows.map(({ what, wanted, measured, reached }) => [
    what,
    wanted,
    measured,
    reached === null ? "" : reached ? "reached" : "NOT REACHED",
  ]);
  const lines = [["what", "wanted", "measured", ""], ...said];
  const wide = [0, 1, 2].map((k) => Math.max(...lines.map((line) => line[k]!.length)));
  return lines
    .map((line) =>
      line
        .map((cell, k) => cell.padEnd(wide[k] ?? 0))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}
