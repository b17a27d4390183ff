/** The columns of a Parquet file, row group by row group. */
import { parquetMetadataAsync, parquetRead, type AsyncBuffer } from "hyparquet";
import { counted } from "../swing/words.ts";

/** Rows in a row group: what is held in memory at once. */
export const groupRows = 100_000;

/** Some rows of a file, column by column. */
export interface Group {
  /** Which row of the file is the first. */
  readonly first: number;
  readonly count: number;
  readonly columns: ReadonlyMap<string, readonly unknown[]>;
}

/**
 * Decodes some of a file's columns; those that it doesn't have are left out.
 * @throws whatever the decoder does on bytes that are no whole Parquet file; damage may also keep it busy for ever
 */
export async function* decodeGroups(bytes: Uint8Array, wanted: readonly string[]): AsyncGenerator<Group> {
  const slice = (from: number, to = bytes.length): ArrayBuffer =>
    new Uint8Array(bytes.subarray(from, to)).buffer;
  const file: AsyncBuffer = { byteLength: bytes.length, slice };
  const metadata = await parquetMetadataAsync(file);
  const there = new Set(metadata.schema.slice(1).map((element) => element.name));
  const columns = wanted.filter((name) => there.has(name));
  const total = Number(metadata.num_rows);
  const grouped = metadata.row_groups.reduce((sum, group) => sum + Number(group.num_rows), 0);
  if (!Number.isSafeInteger(total) || total < 0 || total !== grouped)
    throw new Error(`it says that it has ${counted(total, "row")}, and has ${grouped}`);
  for (let first = 0; first < total; first += groupRows) {
    const end = Math.min(total, first + groupRows);
    const count = end - first;
    // Rows of a whole group at once would fill the memory.
    const found = new Map(columns.map((name) => [name, new Array<unknown>(count)]));
    const filled = new Map(columns.map((name) => [name, 0]));
    await parquetRead({
      file,
      metadata,
      columns,
      rowStart: first,
      rowEnd: end,
      onChunk: ({ columnName, columnData, rowStart }) => {
        const values = found.get(columnName)!;
        const from = Math.max(0, first - rowStart);
        const to = Math.min(columnData.length, end - rowStart);
        for (let i = from; i < to; i++) values[rowStart + i - first] = columnData[i];
        filled.set(columnName, filled.get(columnName)! + Math.max(0, to - from));
      },
    });
    for (const [name, n] of filled)
      if (n < count) throw new Error(`its column ${name} ends in row ${first + n}`);
    yield { first, count, columns: found };
  }
}
