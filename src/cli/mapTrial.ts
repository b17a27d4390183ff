/** What a guessed column map makes of a file, before anyone agrees to it. */
import type { ColumnMap } from "../reading/maps.ts";
import { counted } from "../swing/words.ts";

/** How a file's first rows fare under a map. */
export interface Trial {
  readonly read: number;
  readonly refused: number;
  /** What most of the refused are refused for. */
  readonly most: string | null;
}

/** So many rows tell whether a map fits. */
const tried = 10_000;

/** Reads a file's first rows under a map, and takes nothing. */
export async function trialOf(
  file: string,
  map: ColumnMap,
  fill: Readonly<Record<string, string>> = {},
): Promise<Trial> {
  const { scanFile } = await import("../library/files.ts");
  const { problemReason } = await import("../swing/problems.ts");
  const reasons = new Map<string, number>();
  let [read, refused] = [0, 0];
  for await (const batch of scanFile("swings", file, { map, fill })) {
    read += batch.rows.length + batch.copies.length + batch.refused.length;
    refused += batch.refused.length;
    for (const { problems } of batch.refused) {
      const { field, reason } = problems[0]!;
      // Whatever stood in the cell: rows are counted by what is wrong with them.
      const what = problemReason({ ...problems[0]!, field, value: null, reason });
      reasons.set(what, (reasons.get(what) ?? 0) + 1);
    }
    if (read >= tried) break;
  }
  const most = [...reasons].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
  return { read, refused, most };
}

/**
 * How many rows a guess has refused, as a sentence; nothing where it has none.
 * @example trialWords({ read: 200, refused: 200, most: "input is not one of tee, flip, live." }) // "So read, 200 of 200 rows are refused, most of them as input is not one of tee, flip, live."
 */
export function trialWords({ read, refused, most }: Trial): string {
  if (refused === 0) return "";
  const rows =
    refused === 1
      ? `1 of ${counted(read, "row")} is refused`
      : `${refused} of ${counted(read, "row")} are refused`;
  return `So read, ${rows}${most === null ? "." : `, ${refused === 1 ? "" : "most of them "}as ${most}`}`;
}
