/** Hitters against pitchers, invented, for the gallery: a hard pair, a plain one, one with too few swings, long names. */
import type { GridPair } from "../../src/charts/pairGrid.ts";

const pair = (
  hitter: string,
  pitcher: string,
  n: number,
  [value, low, high, expected]: readonly [number, number, number, number | null],
  stands: GridPair["stands"] = null,
): GridPair => ({ hitter, pitcher, n, pooled: { value, low, high }, expected, stands });

export const gridPairs: readonly GridPair[] = [
  pair("Ana K.", "Coach Wyn", 60, [0.55, 0.46, 0.64, 0.53]),
  pair("Ana K.", "Jory B.", 130, [0.34, 0.27, 0.42, 0.35]),
  { hitter: "Ana K.", pitcher: "Tamsin O.", n: 11, pooled: null, expected: null, stands: null },
  pair("Bo with a long name", "Coach Wyn", 72, [0.5, 0.41, 0.6, 0.52]),
  pair("Bo with a long name", "Jory B.", 140, [0.33, 0.26, 0.41, 0.33]),
  pair("Bo with a long name", "Tamsin O.", 118, [0.17, 0.11, 0.25, 0.34], "harder"),
  pair("Cyd L.", "Jory B.", 90, [0.41, 0.32, 0.5, null]),
];
