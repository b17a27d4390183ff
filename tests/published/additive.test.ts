/** A row's and a column's sum, and what a figure is beyond it, against a textbook's two-way table. */
import { Matrix, pseudoInverse } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { additiveFit, outOfTable, pooledTable, type TableFigure } from "../../src/stats/additive.ts";
import { pooledToward } from "../../src/stats/randomEffects.ts";
import { fQuantile } from "../../src/stats/beta.ts";
import { randomFrom } from "../../src/stats/random.ts";

/**
 * Life of a battery in hours, by plate material and temperature, four of each: Montgomery, Design and Analysis of
 * Experiments, table 5.4; the sums of squares are those of its table 5.5.
 */
const hours: Readonly<Record<string, Readonly<Record<string, readonly number[]>>>> = {
  "1": { "15": [130, 155, 74, 180], "70": [34, 40, 80, 75], "125": [20, 70, 82, 58] },
  "2": { "15": [150, 188, 159, 126], "70": [136, 122, 106, 115], "125": [25, 70, 58, 45] },
  "3": { "15": [138, 110, 168, 160], "70": [174, 120, 150, 139], "125": [96, 104, 82, 60] },
};
const printed = {
  interaction: 9613.78,
  error: 18230.75,
  freedom: 27,
  interactionFreedom: 4,
  f: 3.56,
} as const;

const cells = Object.entries(hours).flatMap(([row, line]) =>
  Object.entries(line).map(([column, lives]) => {
    const value = lives.reduce((a, b) => a + b, 0) / lives.length;
    return { row, column, value, squares: lives.reduce((sum, v) => sum + (v - value) ** 2, 0) };
  }),
);
const perLife = printed.error / printed.freedom;
const figures: TableFigure[] = cells.map(({ row, column, value }) => ({
  row,
  column,
  value,
  variance: perLife / 4,
  freedom: printed.freedom,
}));

describe("the battery's two-way table", () => {
  it("leaves the textbook's interaction beyond rows and columns, and its error within the cells", () => {
    expect(cells.reduce((sum, { squares }) => sum + squares, 0)).toBeCloseTo(printed.error, 1);
    const { fitted } = additiveFit(figures)(
      cells.map(({ value }) => value),
      cells.map(() => 4),
    );
    const left = cells.reduce((sum, { value }, i) => sum + 4 * (value - fitted[i]!) ** 2, 0);
    expect(left).toBeCloseTo(printed.interaction, 1);
    expect(left / printed.interactionFreedom / perLife).toBeCloseTo(printed.f, 2);
    expect(printed.f).toBeGreaterThan(fQuantile(0.95, printed.interactionFreedom, printed.freedom));
  });

  it("has each figure as far from the others' sum as its residual, over what the cell leaves free", () => {
    // A balanced table of 3 × 3 leaves 4 of its 9 figures free: a figure left out lies 9/4 of its residual away.
    const { fitted } = additiveFit(figures)(
      cells.map(({ value }) => value),
      cells.map(() => 1),
    );
    const same = figures.map((f) => ({ ...f, variance: 1e9, freedom: null }));
    outOfTable(same).forEach((out, i) => {
      expect(out!.apart).toBeCloseTo((9 / 4) * (cells[i]!.value - fitted[i]!), 6);
      expect(out!.se).toBeCloseTo(Math.sqrt(1e9 * (9 / 4)), 3);
    });
  });

  it("pools each figure toward its sum, between the two", () => {
    const { fitted } = additiveFit(figures)(
      cells.map(({ value }) => value),
      cells.map(() => 1),
    );
    pooledTable(figures)!.members.forEach(({ value }, i) => {
      const [low, high] = [cells[i]!.value, fitted[i]!].sort((a, b) => a - b);
      expect(value).toBeGreaterThan(low! - 1e-9);
      expect(value).toBeLessThan(high! + 1e-9);
    });
  });
});

it("pooling toward a fit is pooling toward the mean where the fit is one row", () => {
  // The eight schools (eight-schools.test.ts has the source): its first mean is 11.4.
  const effects = [28, 8, -3, 7, -1, 1, 18, 12];
  const variances = [15, 10, 16, 11, 9, 11, 10, 18].map((e) => e * e);
  const oneRow: Parameters<typeof pooledToward>[2] = (y, w) => {
    const weight = w.reduce((a, b) => a + b, 0);
    const mean = y.reduce((sum, v, i) => sum + v * w[i]!, 0) / weight;
    return {
      fitted: y.map(() => mean),
      variances: y.map(() => 1 / weight),
      logDeterminant: -Math.log(weight),
    };
  };
  expect(pooledToward(effects, variances, oneRow).members[0]!.value).toBeCloseTo(11.4, 0);
});

it("figures without others in their row or column are not expected to be anything", () => {
  const alone: TableFigure[] = [
    { row: "a", column: "x", value: 1, variance: 1, freedom: null },
    { row: "b", column: "y", value: 2, variance: 1, freedom: null },
  ];
  expect(outOfTable(alone)).toEqual([null, null]);
  expect(pooledTable(alone)!.members.map(({ value }) => value)).toEqual(
    [1, 2].map((v) => expect.closeTo(v, 9)),
  );
});

/**
 * Weighted least squares in the textbook's way, by ml-matrix: a dummy for every row and every column, one too many in each part,
 * and the pseudo-inverse of the normal matrix (Searle, Linear Models, 1971, chapter 5).
 */
function byPseudoInverse(figures: readonly TableFigure[], weights: readonly number[]) {
  const rows = [...new Set(figures.map(({ row }) => row))];
  const columns = [...new Set(figures.map(({ column }) => column))];
  const line = (f: Pick<TableFigure, "row" | "column">): number[] => [
    ...rows.map((name) => Number(name === f.row)),
    ...columns.map((name) => Number(name === f.column)),
  ];
  const x = new Matrix(figures.map(line));
  const xw = x.transpose().mul(Matrix.ones(x.columns, 1).mmul(Matrix.rowVector([...weights])));
  const inverse = pseudoInverse(xw.mmul(x));
  return {
    at(f: Pick<TableFigure, "row" | "column">) {
      const l = Matrix.rowVector(line(f));
      const way = l.mmul(inverse);
      const counts = way.mmul(xw).to1DArray();
      return {
        expected: counts.reduce((sum, c, i) => sum + c * figures[i]!.value, 0),
        variance: way.mmul(l.transpose()).get(0, 0),
        counts,
      };
    },
    /** Coefficients that the figures tell apart. */
    rank: Math.round(inverse.mmul(xw.mmul(x)).trace()),
  };
}

describe("a table with holes, of two parts that have no figure in common", () => {
  const random = randomFrom(4);
  const holed: TableFigure[] = ["a", "b", "c", "d", "e", "f", "g"].flatMap((row, r) =>
    ["v", "w", "x", "y", "z"].flatMap((column, c) => {
      const isThere = r < 5 ? c < 3 && (r + 2 * c) % 4 !== 0 : c > 2;
      const figure = { row, column, value: 4 * random() + r - c, variance: 0.05 + random(), freedom: null };
      return isThere ? [figure] : [];
    }),
  );

  it("is fitted as by a full design", () => {
    const weights = holed.map(({ variance }) => 1 / variance);
    const full = byPseudoInverse(holed, weights);
    const { fitted, variances } = additiveFit(holed)(
      holed.map(({ value }) => value),
      weights,
    );
    expect(holed.length).toBeGreaterThan(full.rank);
    holed.forEach((figure, i) => {
      const at = full.at(figure);
      expect(fitted[i]).toBeCloseTo(at.expected, 9);
      expect(variances[i]).toBeCloseTo(at.variance, 9);
    });
  });

  it("holds each figure against what a full design without it expects, or against nothing", () => {
    const found = outOfTable(holed);
    expect(found.filter((one) => one !== null).length).toBeGreaterThan(5);
    expect(found.filter((one) => one === null).length).toBeGreaterThan(0);
    holed.forEach((figure, i) => {
      const others = holed.filter((other) => other !== figure);
      const plain = others.map(({ variance }) => 1 / variance);
      const fixed = byPseudoInverse(others, plain);
      // A place that the others tell nothing of makes one more coefficient of the same figures.
      const isTold = byPseudoInverse([...others, figure], [...plain, 1]).rank === fixed.rank;
      expect(found[i] !== null).toBe(isTold);
      if (!isTold) return;
      // DerSimonian and Laird's moments, for a regression: Raudenbush, in The Handbook of Research Synthesis, 2009, chapter 16.
      let [q, c] = [0, 0];
      others.forEach((other, k) => {
        const { expected, counts } = fixed.at(other);
        q += plain[k]! * (other.value - expected) ** 2;
        c += plain[k]! * (1 - counts[k]!);
      });
      const tau2 = Math.max(0, (q - (others.length - fixed.rank)) / c);
      const { expected, variance } = byPseudoInverse(
        others,
        others.map((other) => 1 / (other.variance + tau2)),
      ).at(figure);
      expect(found[i]!.expected).toBeCloseTo(expected, 9);
      expect(found[i]!.se).toBeCloseTo(Math.sqrt(figure.variance + variance), 9);
    });
  });
});
