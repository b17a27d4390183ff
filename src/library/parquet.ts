/** A session's swings as a Parquet file, and back. */
import { ByteWriter, ParquetWriter, type BasicType } from "hyparquet-writer";
import { decodeGroups, groupRows, type Group } from "./decode.ts";
import { writeSynced } from "./disk.ts";
import { swingFields, type Field, type Swing } from "../swing/fields.ts";
import { UnusableFile } from "../swing/problems.ts";

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

/** A session's file, read. */
export interface StoredBytes {
  readonly bytes: Uint8Array;
  /** Whether a sum that was stored with it says that these are the bytes that were written. */
  readonly vouched: boolean;
}

/**
 * Reads a session's file, row group by row group. Columns that are not a swing's are left alone, and one that is
 * absent is unknown, so that a file another program wrote, or an older one, is read too.
 * @param wanted the columns wanted; all of a swing's by default
 * @returns groups of rows, each to be gone through once
 * @throws UnusableFile when it is no Parquet file, or a value in it is none a swing can have
 */
export async function* readSwingGroups(
  { bytes, vouched }: StoredBytes,
  name: string,
  wanted: readonly Field[] = storedFields,
): AsyncGenerator<Iterable<StoredSwing>> {
  const blank = Object.fromEntries(wanted.map((field) => [field.name, null]));
  const names = wanted.map((field) => field.name);
  const groups = vouched ? decodeGroups(bytes, names) : apart(bytes, names);
  for (;;) {
    const step = await groups.next().catch((error: unknown) => {
      const reason = (error as Error).message.replace(/[.\s]+$/, "");
      throw new UnusableFile(name, `is not a whole Parquet file (${reason})`);
    });
    if (step.done === true) return;
    yield rowsOf(name, step.value, wanted, blank);
  }
}

/** Bytes that may be anything. */
async function* apart(bytes: Uint8Array, names: readonly string[]): AsyncGenerator<Group> {
  const { decodeApart } = await import("./decode-apart.ts");
  yield* await decodeApart(bytes, names);
}

/** Rows from columns, one by one. */
function* rowsOf(
  name: string,
  group: Group,
  wanted: readonly Field[],
  blank: object,
): Generator<StoredSwing> {
  const filled = wanted.flatMap((field) => {
    const values = group.columns.get(field.name);
    return values === undefined ? [] : [[field, values] as const];
  });
  for (let i = 0; i < group.count; i++) {
    const row: Record<string, unknown> = { ...blank };
    for (const [field, values] of filled) {
      let value = values[i];
      if (value === null || value === undefined) continue;
      if (typeof value === "bigint") value = Number(value);
      const reason = misfit(value, field);
      if (reason !== null)
        throw new UnusableFile(name, `has a ${field.name} that ${reason}, in its row ${group.first + i + 1}`);
      row[field.name] = value;
    }
    yield row as unknown as StoredSwing;
  }
}
