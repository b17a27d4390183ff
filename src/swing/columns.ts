/** Rows as columns and back: how a table travels to a page. Pure, for Node and the browser. */
import type { Field } from "./fields.ts";
import { allSteps } from "./lists.ts";

/** A table by columns. A column without a single known value is left out. */
export interface Columns {
  readonly n: number;
  readonly columns: Readonly<Record<string, readonly unknown[]>>;
}

/**
 * Rows as columns of equal length, one for each field.
 * @example toColumns([{ a: 1 }, { a: null }], [{ name: "a" }]) // { n: 2, columns: { a: [1, null] } }
 */
export function toColumns(rows: readonly object[], fields: readonly Pick<Field, "name">[]): Columns {
  const columns: Record<string, unknown[]> = {};
  for (const { name } of fields) {
    let known = false;
    const values = rows.map((row) => {
      const value = (row as Readonly<Record<string, unknown>>)[name] ?? null;
      if (value !== null) known = true;
      return value;
    });
    if (known) columns[name] = values;
  }
  return { n: rows.length, columns };
}

/**
 * Columns as rows with every field; null where there is no column.
 * @throws RangeError when a column's length is not the table's.
 * @example fromColumns({ n: 1, columns: { a: [1] } }, [{ name: "a" }, { name: "b" }]) // [{ a: 1, b: null }]
 */
export function fromColumns(
  table: Columns,
  fields: readonly Pick<Field, "name">[],
): Record<string, unknown>[] {
  return allSteps(fromColumnsSteps(table, fields));
}

/** So many rows are one step. */
const rowsAStep = 500;

/**
 * The same, some rows a step: for a page that has to stay alive meanwhile.
 * @returns what `fromColumns` gives
 * @throws RangeError when a column's length is not the table's.
 */
export function* fromColumnsSteps(
  table: Columns,
  fields: readonly Pick<Field, "name">[],
): Generator<void, Record<string, unknown>[]> {
  const present = fields.map(({ name }) => {
    const values = Object.hasOwn(table.columns, name) ? table.columns[name]! : null;
    if (values !== null && values.length !== table.n) {
      throw new RangeError(`the column ${name} has ${values.length} values, the table ${table.n} rows`);
    }
    return { name, values };
  });
  const blank = Object.fromEntries(fields.map(({ name }) => [name, null]));
  const rows: Record<string, unknown>[] = [];
  for (let i = 0; i < table.n; i++) {
    const row: Record<string, unknown> = { ...blank };
    for (const { name, values } of present) if (values !== null) row[name] = values[i] ?? null;
    rows.push(row);
    if (i % rowsAStep === rowsAStep - 1) yield;
  }
  return rows;
}
