/**
 * A table of figures with an uncertainty each, rows by columns, and what of it is more than a row and a column: the
 * pairs. Figures of a row and of a column are added, nothing else; a pair is held against what all others make one expect.
 */
import { CholeskyDecomposition, Matrix } from "ml-matrix";
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

/** Which part of the table each row and column hang together in: two parts without a figure in common can't be compared. */
function partsOf(places: readonly Place[]): (key: string) => string {
  const parent = new Map<string, string>();
  const root = (key: string): string => {
    const up = parent.get(key) ?? key;
    return up === key ? key : root(up);
  };
  for (const { row, column } of places) parent.set(root(`r${row}`), root(`c${column}`));
  return root;
}

/** The design of the sum: a coefficient a row, and a column's less that of its part's first column. */
function designOf(places: readonly Place[]): (place: Place) => number[] {
  const rows = [...new Set(places.map(({ row }) => row))];
  const root = partsOf(places);
  const firsts = new Set<string>();
  const columns = [...new Set(places.map(({ column }) => column))].filter((column) => {
    const part = root(`c${column}`);
    if (firsts.has(part)) return true;
    firsts.add(part);
    return false;
  });
  return ({ row, column }) => [
    ...rows.map((one) => Number(one === row)),
    ...columns.map((one) => Number(one === column)),
  ];
}

interface Solved {
  readonly design: readonly (readonly number[])[];
  readonly weights: readonly number[];
  /** The coefficients' covariance. */
  readonly covariance: readonly (readonly number[])[];
  readonly logDeterminant: number;
}

/** Weighted least squares. */
function solved(design: readonly (readonly number[])[], weights: readonly number[]): Solved {
  const size = design[0]!.length;
  const normal = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  design.forEach((line, i) => {
    // A line has two ones at most, so most of the products are of noughts.
    const ones = line.flatMap((v, k) => (v === 0 ? [] : [k]));
    for (const k of ones) for (const l of ones) normal[k]![l]! += weights[i]!;
  });
  const cholesky = new CholeskyDecomposition(new Matrix(normal));
  const factor = cholesky.lowerTriangularMatrix;
  return {
    design,
    weights,
    covariance: cholesky.solve(Matrix.eye(size)).to2DArray(),
    logDeterminant: -2 * factor.diagonal().reduce((sum, v) => sum + Math.log(v), 0),
  };
}

const dot = (a: readonly number[], b: readonly number[]): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) if (b[i] !== 0) sum += a[i]! * b[i]!;
  return sum;
};

/** How much each value counts in the fit at a place, in the order of the weights; and the fit's variance there. */
function leverageAt({ design, weights, covariance }: Solved, at: readonly number[]) {
  const way = covariance.map((line) => dot(line, at));
  return { counts: design.map((line, i) => weights[i]! * dot(way, line)), variance: dot(way, at) };
}

/**
 * The additive fit of a table by weighted least squares: what a row and a column come to together, figure by figure.
 * @param weights of each figure, more than 0
 * @example additiveFit([{ row: "a", column: "x" }, { row: "a", column: "y" }])([1, 3], [1, 1]).fitted // [1, 3]
 */
export function additiveFit(places: readonly Place[]): Fitting {
  const lineOf = designOf(places);
  const design = places.map(lineOf);
  return (effects, weights) => {
    const fit = solved(design, weights);
    const at = design.map((line) => leverageAt(fit, line));
    return {
      fitted: at.map(({ counts }) => dot(counts, effects)),
      variances: at.map(({ variance }) => variance),
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
  return figures.map((figure) => {
    const others = figures.filter((other) => other !== figure && !apartFrom.has(other));
    const root = partsOf(others);
    const [row, column] = [root(`r${figure.row}`), root(`c${figure.column}`)];
    const isKnown =
      others.some((other) => other.row === figure.row) &&
      others.some((other) => other.column === figure.column);
    if (row !== column || !isKnown) return null;
    const lineOf = designOf(others);
    const design = others.map(lineOf);
    const tau2 = spreadOf(others, design);
    const fit = solved(
      design,
      others.map(({ variance }) => 1 / (variance + tau2)),
    );
    const { counts, variance } = leverageAt(fit, lineOf(figure));
    const expected = dot(
      counts,
      others.map(({ value }) => value),
    );
    const all = figure.variance + variance;
    const known = [figure, ...others].map((one, i) => ({
      freedom: one.freedom,
      part: one.variance * (i === 0 ? 1 : counts[i - 1]! ** 2),
    }));
    const lost = known.reduce((sum, k) => sum + (k.freedom === null ? 0 : k.part ** 2 / k.freedom), 0);
    const freedom = lost > 0 ? all ** 2 / lost : null;
    const se = Math.sqrt(all);
    const apart = figure.value - expected;
    return { expected, apart, se, freedom, p: tTail(apart / se, freedom) };
  });
}

/** The variance of true figures about the sums of their rows and columns, by moments; 0 where it can't be told. */
function spreadOf(figures: readonly TableFigure[], design: readonly (readonly number[])[]): number {
  const weights = figures.map(({ variance }) => 1 / variance);
  const fit = solved(design, weights);
  const left = figures.length - design[0]!.length;
  if (left < 1) return 0;
  let [q, taken] = [0, 0];
  figures.forEach(({ value }, i) => {
    const { counts } = leverageAt(fit, design[i]!);
    const residual =
      value -
      dot(
        counts,
        figures.map((f) => f.value),
      );
    q += weights[i]! * residual ** 2;
    taken += weights[i]! * counts[i]!;
  });
  const c = weights.reduce((a, b) => a + b, 0) - taken;
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
