/**
 * A table of figures with an uncertainty each, rows by columns, and what of it is more than a row and a column: the
 * pairs. Figures of a row and of a column are added, nothing else; a pair is held against what all others make one expect.
 */
import { tTail } from "./beta.ts";
import { pooledToward, type Fitting, type PooledToward } from "./randomEffects.ts";

/** One figure of the table. */
export interface TableFigure {
  readonly row: string;
  readonly column: string;
  readonly value: number;
  /** Its variance, more than 0, and the degrees of freedom that is known with; null: a normal's. */
  readonly variance: number;
  readonly freedom: number | null;
}

/** A figure against what its row's and its column's other figures make one expect. */
export interface OutOfTable {
  readonly expected: number;
  /** The figure less that, and its standard error. */
  readonly apart: number;
  readonly se: number;
  /** Null: a normal's. */
  readonly freedom: number | null;
  /** Two-sided. */
  readonly p: number;
}

type Place = Pick<TableFigure, "row" | "column">;

/** Rows and columns by number, in the order of first sight. */
interface Numbered {
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly rowCount: number;
  readonly columnCount: number;
}

function numbered(places: readonly Place[]): Numbered {
  const rows = new Map<string, number>();
  const columns = new Map<string, number>();
  const numberOf = (name: string, known: Map<string, number>): number => {
    const number = known.get(name) ?? known.size;
    known.set(name, number);
    return number;
  };
  const rowOf = Int32Array.from(places, ({ row }) => numberOf(row, rows));
  const columnOf = Int32Array.from(places, ({ column }) => numberOf(column, columns));
  return { rows: rowOf, columns: columnOf, rowCount: rows.size, columnCount: columns.size };
}

/**
 * The design of the sum: a coefficient a row, and a column's less that of its part's first column, which has none and
 * stands at `size`. A line of it has two ones at most: these are where, and nothing is done to its noughts.
 */
interface Design {
  /** Of each figure that is fitted, in their order. */
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  /** Rows come first among the coefficients. */
  readonly rowCount: number;
  readonly size: number;
  /** The coefficients of a row and a column of the table; null where the figures don't tell of both together. */
  readonly at: (row: number, column: number) => readonly [row: number, column: number] | null;
}

/** Which part of the table each row and column hang together in: two parts without a figure in common can't be compared. */
function partsOf({ rows, columns, rowCount, columnCount }: Numbered, members: Int32Array) {
  const parent = Int32Array.from({ length: rowCount + columnCount }, (_, key) => key);
  const root = (key: number): number => {
    let top = key;
    while (parent[top] !== top) top = parent[top] = parent[parent[top]!]!;
    return top;
  };
  for (const i of members) parent[root(rows[i]!)] = root(rowCount + columns[i]!);
  return { ofRow: root, ofColumn: (column: number): number => root(rowCount + column) };
}

/** The design of some of a table's figures. */
function designOf(table: Numbered, members: Int32Array): Design {
  const { ofRow, ofColumn } = partsOf(table, members);
  const unseen = -1;
  const rowAt = new Int32Array(table.rowCount).fill(unseen);
  let rowCount = 0;
  for (const i of members) if (rowAt[table.rows[i]!] === unseen) rowAt[table.rows[i]!] = rowCount++;
  const columnAt = new Int32Array(table.columnCount).fill(unseen);
  const begun = new Set<number>();
  const firsts: number[] = [];
  let size = rowCount;
  for (const i of members) {
    const column = table.columns[i]!;
    if (columnAt[column] !== unseen) continue;
    const part = ofColumn(column);
    columnAt[column] = begun.has(part) ? size++ : 0;
    if (!begun.has(part)) firsts.push(column);
    begun.add(part);
  }
  for (const column of firsts) columnAt[column] = size;
  return {
    rows: members.map((i) => rowAt[table.rows[i]!]!),
    columns: members.map((i) => columnAt[table.columns[i]!]!),
    rowCount,
    size,
    at: (row, column) =>
      rowAt[row] === unseen || columnAt[column] === unseen || ofRow(row) !== ofColumn(column)
        ? null
        : [rowAt[row]!, columnAt[column]!],
  };
}

interface Solved {
  /** A column of the coefficients' covariance, with a nought for the column that has no coefficient. */
  readonly covariance: (coefficient: number) => Float64Array;
  readonly logDeterminant: number;
}

/**
 * Weighted least squares by Cholesky's factor of the normal matrix. Its rows' part is diagonal, as no figure is of two rows,
 * and only what isn't nought is worked out: a table is solved anew for each of its figures and many weights, and a library's
 * for a full matrix takes twenty times as long.
 */
function solved({ rows, columns, rowCount, size }: Design, weights: Float64Array): Solved {
  const diagonal = new Float64Array(size);
  // The columns' lines, first of the normal matrix, then of the factor.
  const lines = Array.from({ length: size - rowCount }, () => new Float64Array(size));
  for (let i = 0; i < rows.length; i++) {
    const [row, column, weight] = [rows[i]!, columns[i]!, weights[i]!];
    diagonal[row]! += weight;
    if (column === size) continue;
    diagonal[column]! += weight;
    lines[column - rowCount]![row]! += weight;
  }
  const rooted = (coefficient: number, value: number): void => {
    if (!(value > 0)) throw new Error("the table’s figures can’t be added up: weights too far apart");
    diagonal[coefficient] = Math.sqrt(value);
  };
  for (let k = 0; k < rowCount; k++) rooted(k, diagonal[k]!);
  lines.forEach((line, c) => {
    let squares = 0;
    for (let k = 0; k < rowCount + c; k++) {
      let sum = 0;
      if (k >= rowCount) {
        const other = lines[k - rowCount]!;
        for (let i = 0; i < k; i++) sum += other[i]! * line[i]!;
      }
      const part = (line[k]! - sum) / diagonal[k]!;
      line[k] = part;
      squares += part * part;
    }
    rooted(rowCount + c, diagonal[rowCount + c]! - squares);
  });
  return {
    covariance: (j) => {
      const x = new Float64Array(size + 1);
      x[j] = 1;
      if (j < rowCount) x[j]! /= diagonal[j]!;
      for (let k = Math.max(j, rowCount); k < size; k++) {
        const line = lines[k - rowCount]!;
        let left = x[k]!;
        if (j < rowCount) left -= x[j]! * line[j]!;
        for (let i = rowCount; i < k; i++) left -= x[i]! * line[i]!;
        x[k] = left / diagonal[k]!;
      }
      for (let k = size - 1; k >= rowCount; k--) {
        let left = x[k]!;
        for (let i = k + 1; i < size; i++) left -= x[i]! * lines[i - rowCount]![k]!;
        x[k] = left / diagonal[k]!;
      }
      for (let i = rowCount; i < size; i++) {
        const [line, by] = [lines[i - rowCount]!, x[i]!];
        for (let k = 0; k < rowCount; k++) x[k]! -= by * line[k]!;
      }
      for (let k = 0; k < rowCount; k++) x[k]! /= diagonal[k]!;
      return x;
    },
    logDeterminant: -2 * diagonal.reduce((sum, v) => sum + Math.log(v), 0),
  };
}

/** So many numbers, each by its place; a typed array's own `from` goes through an iterator, several times as slow. */
function numbers(n: number, of: (place: number) => number): Float64Array {
  const list = new Float64Array(n);
  for (let i = 0; i < n; i++) list[i] = of(i);
  return list;
}

/** How much each value counts in the fit at a place, in the order of the weights; and the fit's variance there. */
function leverageAt(
  { rows, columns, size }: Design,
  { covariance }: Solved,
  weights: Float64Array,
  [row, column]: readonly [number, number],
) {
  const way = covariance(row);
  if (column < size) covariance(column).forEach((v, k) => (way[k]! += v));
  return {
    counts: numbers(rows.length, (i) => weights[i]! * (way[rows[i]!]! + way[columns[i]!]!)),
    variance: way[row]! + way[column]!,
  };
}

/** The fit at each figure: its value, how much the figure itself counts in it, and its variance. */
function fitOf(design: Design, fit: Solved, weights: Float64Array, values: Float64Array) {
  const { rows, columns, size } = design;
  const n = rows.length;
  const covariance = Array.from({ length: size }, (_, j) => fit.covariance(j));
  // Of the column that has no coefficient.
  covariance.push(new Float64Array(size + 1));
  const fitted = new Float64Array(n);
  const own = new Float64Array(n);
  const variances = new Float64Array(n);
  const ways = Array.from({ length: together }, () => new Float64Array(size + 1));
  for (let from = 0; from < n; from += together) {
    const end = Math.min(n, from + together);
    for (let i = from; i < end; i++) {
      const way = ways[i - from]!;
      const [ofRow, ofColumn] = [covariance[rows[i]!]!, covariance[columns[i]!]!];
      for (let k = 0; k <= size; k++) way[k] = ofRow[k]! + ofColumn[k]!;
      variances[i] = way[rows[i]!]! + way[columns[i]!]!;
      own[i] = weights[i]! * variances[i]!;
    }
    fitted.set(fittedAt(design, ways, weights, values).subarray(0, end - from), from);
  }
  return { fitted, own, variances };
}

/** So many figures' fits are summed side by side: one alone waits for itself at every value. */
const together = 4;

/** What values come to at four figures, by how the fit of each goes with the coefficients. */
function fittedAt(
  { rows, columns }: Design,
  ways: readonly Float64Array[],
  weights: Float64Array,
  values: Float64Array,
): Float64Array {
  const [first, second, third, fourth] = ways as [Float64Array, Float64Array, Float64Array, Float64Array];
  let [a, b, c, d] = [0, 0, 0, 0];
  for (let j = 0; j < rows.length; j++) {
    const row = rows[j]!;
    const column = columns[j]!;
    const weight = weights[j]!;
    const value = values[j]!;
    a += weight * (first[row]! + first[column]!) * value;
    b += weight * (second[row]! + second[column]!) * value;
    c += weight * (third[row]! + third[column]!) * value;
    d += weight * (fourth[row]! + fourth[column]!) * value;
  }
  return Float64Array.of(a, b, c, d);
}

/**
 * The additive fit of a table by weighted least squares: what a row and a column come to together, figure by figure.
 * @param weights of each figure, more than 0
 * @example additiveFit([{ row: "a", column: "x" }, { row: "a", column: "y" }])([1, 3], [1, 1]).fitted // [1, 3]
 */
export function additiveFit(places: readonly Place[]): Fitting {
  const design = designOf(
    numbered(places),
    Int32Array.from(places, (_, i) => i),
  );
  return (effects, weights) => {
    const by = Float64Array.from(weights);
    const fit = solved(design, by);
    const { fitted, variances } = fitOf(design, fit, by, Float64Array.from(effects));
    return {
      fitted: Array.from(fitted),
      variances: Array.from(variances),
      logDeterminant: fit.logDeterminant,
    };
  };
}

/**
 * How far each figure lies from what the others make one expect of its row and its column, by an additive fit without
 * it. How much the other figures truly differ from such sums is counted (the moments of DerSimonian & Laird), and degrees of
 * freedom are Welch's and Satterthwaite's.
 * Source: Scheffé, The Analysis of Variance, 1959, section 4.3 (two-way layouts of unequal numbers); the deleted residual,
 * Cook & Weisberg, Residuals and Influence in Regression, 1982, section 2.2.
 * @param apartFrom figures that no other is to be expected from, as they are known to be out of the table's way
 * @returns in the order given; null where nothing else tells of its row or of its column
 * @example outOfTable([]) // []
 */
export function outOfTable(
  figures: readonly TableFigure[],
  apartFrom: ReadonlySet<TableFigure> = new Set(),
): (OutOfTable | null)[] {
  return figures.map(eachOutOfTable(figures, apartFrom));
}

/**
 * The same for one figure at a time: a large table takes long.
 * @returns of a figure and its place among the figures
 * @example eachOutOfTable([], new Set()).length // 2
 */
export function eachOutOfTable(
  figures: readonly TableFigure[],
  apartFrom: ReadonlySet<TableFigure>,
): (figure: TableFigure, place: number) => OutOfTable | null {
  const table = numbered(figures);
  const kept = Int32Array.from(figures.keys()).filter((i) => !apartFrom.has(figures[i]!));
  const values = numbers(figures.length, (i) => figures[i]!.value);
  const variances = numbers(figures.length, (i) => figures[i]!.variance);
  return (figure, place) => {
    const members = kept.filter((i) => i !== place);
    const n = members.length;
    const design = designOf(table, members);
    const at = design.at(table.rows[place]!, table.columns[place]!);
    if (at === null) return null;
    const others = {
      values: numbers(n, (i) => values[members[i]!]!),
      variances: numbers(n, (i) => variances[members[i]!]!),
    };
    const tau2 = spreadOf(others, design);
    const weights = numbers(n, (i) => 1 / (others.variances[i]! + tau2));
    const { counts, variance } = leverageAt(design, solved(design, weights), weights, at);
    const lostBy = (freedom: number | null, part: number): number =>
      freedom === null ? 0 : part ** 2 / freedom;
    let expected = 0;
    let lost = lostBy(figure.freedom, figure.variance);
    for (let i = 0; i < n; i++) {
      expected += counts[i]! * others.values[i]!;
      lost += lostBy(figures[members[i]!]!.freedom, others.variances[i]! * counts[i]! ** 2);
    }
    const all = figure.variance + variance;
    const freedom = lost > 0 ? all ** 2 / lost : null;
    const se = Math.sqrt(all);
    const apart = figure.value - expected;
    return { expected, apart, se, freedom, p: tTail(apart / se, freedom) };
  };
}

/** The variance of true figures about the sums of their rows and columns, by moments; 0 where it can't be told. */
function spreadOf(
  { values, variances }: { readonly values: Float64Array; readonly variances: Float64Array },
  design: Design,
): number {
  const n = values.length;
  const left = n - design.size;
  if (left < 1) return 0;
  const weights = numbers(n, (i) => 1 / variances[i]!);
  const { fitted, own } = fitOf(design, solved(design, weights), weights, values);
  let [q, taken, weight] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const residual = values[i]! - fitted[i]!;
    q += weights[i]! * residual ** 2;
    taken += weights[i]! * own[i]!;
    weight += weights[i]!;
  }
  const c = weight - taken;
  return c > 0 ? Math.max(0, (q - left) / c) : 0;
}

/**
 * The figures of a table, each pooled toward the sum of its row and its column: the fewer its swings, the nearer to it.
 * @returns null for fewer than two figures
 * @throws RangeError when a variance is not above 0
 * @example pooledTable([]) // null
 */
export function pooledTable(figures: readonly Omit<TableFigure, "freedom">[]): PooledToward | null {
  if (figures.length < 2) return null;
  return pooledToward(
    figures.map(({ value }) => value),
    figures.map(({ variance }) => variance),
    additiveFit(figures),
  );
}
