/** A library's rows as they travel to a thread beside the page: by columns, in blocks of memory that change hands at once. */
import { fromColumns } from "../../src/swing/columns.ts";
import { computedFields, swingFields, type EnrichedSwing } from "../../src/swing/fields.ts";
import { knowFields } from "../../src/swing/ownFields.ts";
import type { PageLibrary } from "./library.ts";

const fields = [...swingFields, ...computedFields];

/** One column: numbers, NaN where there is none; words, by which of them stands where; or, where it is neither, as it is. */
export type SentColumn =
  | { readonly numbers: Float64Array }
  | { readonly words: readonly string[]; readonly at: Int32Array }
  | { readonly values: readonly unknown[] };

/** A library that travels. */
export interface SentLibrary {
  readonly beside: Omit<PageLibrary, "swings">;
  readonly n: number;
  readonly columns: Readonly<Record<string, SentColumn>>;
}

/** Makes a library ready to travel, a column a step. */
export function* sending(library: PageLibrary): Generator<void, SentLibrary> {
  const { swings, ...beside } = library;
  const columns: Record<string, SentColumn> = {};
  for (const { name } of fields) {
    const column = columnOf(swings, name);
    if (column !== null) columns[name] = column;
    yield;
  }
  return { beside, n: swings.length, columns };
}

/** Null where no row knows it. */
function columnOf(rows: readonly EnrichedSwing[], name: keyof EnrichedSwing): SentColumn | null {
  const first = rows.find((row) => row[name] !== null)?.[name];
  if (first === undefined) return null;
  const n = rows.length;
  if (typeof first === "number") {
    const numbers = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const value = rows[i]![name];
      if (value !== null && typeof value !== "number") return { values: rows.map((row) => row[name]) };
      numbers[i] = value ?? NaN;
    }
    return { numbers };
  }
  const places = new Map<string, number>();
  const at = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    const value = rows[i]![name];
    if (value === null) {
      at[i] = -1;
      continue;
    }
    if (typeof value !== "string") return { values: rows.map((row) => row[name]) };
    let place = places.get(value);
    if (place === undefined) places.set(value, (place = places.size));
    at[i] = place;
  }
  return { words: [...places.keys()], at };
}

/** The library again, on the other side. */
export function received({ beside, n, columns }: SentLibrary): PageLibrary {
  knowFields(beside.fields);
  const values = Object.fromEntries(
    Object.entries(columns).map(([name, column]) => [name, valuesOf(column)]),
  );
  return { ...beside, swings: fromColumns({ n, columns: values }, fields) as EnrichedSwing[] };
}

function valuesOf(column: SentColumn): readonly unknown[] {
  if ("values" in column) return column.values;
  if ("numbers" in column) return Array.from(column.numbers, (value) => (Number.isNaN(value) ? null : value));
  return Array.from(column.at, (place) => column.words[place] ?? null);
}
