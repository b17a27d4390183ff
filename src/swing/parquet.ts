/** A session's swings as a Parquet file, and back. */
import {
  asyncBufferFromFile,
  parquetMetadataAsync,
  parquetRead,
  type AsyncBuffer,
  type FileMetaData,
} from "hyparquet";
import { ByteWriter, ParquetWriter, type BasicType } from "hyparquet-writer";
import { writeSynced } from "./disk.ts";
import { swingFields, type Field, type Swing } from "./fields.ts";
import { UnusableFile } from "./problems.ts";

/** Where a swing came from: the file it was read from, by the beginning of its SHA-256, and the row there. */
export interface Origin {
  source: string | null;
  source_row: number | null;
}

/** A swing as a library keeps it. */
export type StoredSwing = Swing & Origin;

const originFields = [
  {
    name: "source",
    type: "string",
    title: "Source",
    description: "Beginning of the SHA-256 of the file the row was read from.",
  },
  { name: "source_row", type: "number", title: "Row", description: "Its row in that file." },
] as const satisfies readonly Field[];

/** The columns of a session's file. */
export const storedFields: readonly Field[] = [...swingFields, ...originFields];

/** Rows in a row group: what is held in memory at once. */
const groupRows = 100_000;

const typeOf = (field: Field): BasicType => (field.type === "number" ? "DOUBLE" : "STRING");

const schema = [
  { name: "root", num_children: storedFields.length },
  ...storedFields.map((field) =>
    field.type === "number"
      ? { name: field.name, type: "DOUBLE" as const, repetition_type: "OPTIONAL" as const }
      : {
          name: field.name,
          type: "BYTE_ARRAY" as const,
          converted_type: "UTF8" as const,
          logical_type: { type: "STRING" as const },
          repetition_type: "OPTIONAL" as const,
        },
  ),
];

/**
 * Writes swings to a Parquet file, row group by row group, and pushes it to the disk.
 * @returns the SHA-256 of the file, in hex
 */
export function writeSwings(path: string, rows: Iterable<StoredSwing>): Promise<string> {
  return writeSynced(path, parquetPieces(rows));
}

function* parquetPieces(rows: Iterable<StoredSwing>): Generator<Uint8Array> {
  const buffer = new ByteWriter();
  const writer = new ParquetWriter({ writer: buffer, schema, createdBy: "batted-ball-notebooks" });
  let columns: unknown[][] = storedFields.map(() => []);
  let count = 0;
  const encode = (): void => {
    const columnData = storedFields.map((field, i) => ({
      name: field.name,
      data: columns[i]!,
      type: typeOf(field),
      nullable: true,
    }));
    // Into memory, and so at once.
    void writer.write({ columnData, rowGroupSize: groupRows });
    columns = storedFields.map(() => []);
  };
  /** What has been encoded since the last piece. The writer goes on counting from where it was. */
  const taken = (): Uint8Array => {
    const piece = buffer.getBytes().slice();
    buffer.index = 0;
    return piece;
  };
  for (const row of rows) {
    const values = row as unknown as Readonly<Record<string, unknown>>;
    for (let i = 0; i < storedFields.length; i++) columns[i]!.push(values[storedFields[i]!.name] ?? null);
    if (++count % groupRows > 0) continue;
    encode();
    yield taken();
  }
  if (columns[0]!.length > 0) encode();
  void writer.finish();
  yield taken();
}

/** Why a value can't stand in a field; null when it can. */
function misfit(value: unknown, field: Field): string | null {
  if (field.type === "number") {
    if (typeof value !== "number" || !Number.isFinite(value)) return "is not a number";
    if (value < (field.min ?? -Infinity)) return `is under ${field.min}`;
    if (value > (field.max ?? Infinity)) return `is over ${field.max}`;
    return null;
  }
  if (typeof value !== "string") return "is not text";
  return field.words === undefined || field.words.includes(value)
    ? null
    : `is not one of ${field.words.join(", ")}`;
}

/**
 * Reads a session's file, row group by row group. Columns that are not a swing's are left alone, and one that is
 * absent is unknown, so that a file another program wrote, or an older one, is read too.
 * @param wanted the columns wanted; all of a swing's by default
 * @returns groups of rows, each to be gone through once
 * @throws UnusableFile when it is no Parquet file, or a value in it is none a swing can have
 */
export async function* readSwingGroups(
  path: string,
  name = path,
  wanted: readonly Field[] = storedFields,
): AsyncGenerator<Iterable<StoredSwing>> {
  let file: AsyncBuffer;
  try {
    file = await asyncBufferFromFile(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT")
      throw new UnusableFile(name, "does not exist", "call");
    throw error;
  }
  const damaged = (error: unknown): UnusableFile =>
    new UnusableFile(
      name,
      `is not a whole Parquet file (${(error as Error).message.replace(/[.\s]+$/, "")})`,
    );
  const metadata = await parquetMetadataAsync(file).catch((error: unknown) => {
    throw damaged(error);
  });
  const there = new Set(metadata.schema.slice(1).map((element) => element.name));
  const fields = wanted.filter((field) => there.has(field.name));
  const blank = Object.fromEntries(wanted.map((field) => [field.name, null]));
  const columns = fields.map((field) => field.name);
  const total = Number(metadata.num_rows);
  for (let rowStart = 0; rowStart < total; rowStart += groupRows) {
    const rowEnd = Math.min(total, rowStart + groupRows);
    const values = await readColumns({ file, metadata, columns, rowStart, rowEnd }).catch(
      (error: unknown) => {
        throw damaged(error);
      },
    );
    yield rowsOf(name, rowStart, rowEnd - rowStart, fields, values, blank);
  }
}

/** Some rows of some columns, column by column: rows of a whole group at once would fill the memory. */
async function readColumns(what: {
  readonly file: AsyncBuffer;
  readonly metadata: FileMetaData;
  readonly columns: string[];
  readonly rowStart: number;
  readonly rowEnd: number;
}): Promise<ReadonlyMap<string, readonly unknown[]>> {
  const { rowStart, rowEnd } = what;
  const found = new Map(what.columns.map((name) => [name, new Array<unknown>(rowEnd - rowStart)]));
  await parquetRead({
    ...what,
    onChunk: ({ columnName, columnData, rowStart: first }) => {
      const values = found.get(columnName)!;
      const from = Math.max(0, rowStart - first);
      const to = Math.min(columnData.length, rowEnd - first);
      for (let i = from; i < to; i++) values[first + i - rowStart] = columnData[i];
    },
  });
  return found;
}

/** Rows from columns, one by one. */
function* rowsOf(
  name: string,
  first: number,
  count: number,
  fields: readonly Field[],
  columns: ReadonlyMap<string, readonly unknown[]>,
  blank: object,
): Generator<StoredSwing> {
  const filled = fields.map((field) => [field, columns.get(field.name)!] as const);
  for (let i = 0; i < count; i++) {
    const row: Record<string, unknown> = { ...blank };
    for (const [field, values] of filled) {
      let value = values[i];
      if (value === null || value === undefined) continue;
      if (typeof value === "bigint") value = Number(value);
      const reason = misfit(value, field);
      if (reason !== null)
        throw new UnusableFile(name, `has a ${field.name} that ${reason}, in its row ${first + i + 1}`);
      row[field.name] = value;
    }
    yield row as unknown as StoredSwing;
  }
}
