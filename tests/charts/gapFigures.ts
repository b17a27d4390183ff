/** Figures of gaps that the charts are given: invented, written out, computed by nobody here. */
import type { GroupLine, GroupPanel } from "../../src/charts/groupPanels.ts";
import type { CaterpillarRow } from "../../src/charts/caterpillar.ts";
import type { ReliabilityRow } from "../../src/charts/reliability.ts";
import type { WaterfallRows } from "../../src/charts/waterfall.ts";

const figure = (value: number, low: number, high: number) => ({ value, low, high, reason: null });
const untoldFigure = (reason: string) => ({ value: null, low: null, high: null, reason });

export const parts: WaterfallRows = {
  from: { name: "Tee", n: 108, mean: 83.7 },
  to: { name: "Live", n: 129, mean: 88.3 },
  parts: [
    { part: "pitch speed", ...figure(12.3, 12, 12.6) },
    { part: "place", ...figure(-7, -8.8, -5.3) },
    { part: "bat speed", ...figure(-1.4, -3.1, 0.3) },
    { part: "contact", ...figure(0.7, -1.1, 2.6) },
  ],
  gap: figure(4.6, 2.4, 6.8),
};

/** Neither place nor bat speed is known, and there are too few for an interval. */
export const untold: WaterfallRows = {
  from: { name: "Tee", n: 4, mean: 70.2 },
  to: { name: "Flip", n: 3, mean: 66.9 },
  parts: [
    { part: "pitch speed", ...figure(7.1, 6.9, 7.2) },
    { part: "place", ...untoldFigure("no contact point on either side") },
    { part: "bat speed", ...untoldFigure("no bat speed was measured") },
    { part: "contact", value: -10.4, low: null, high: null, reason: "too few for an interval" },
  ],
  gap: { value: -3.3, low: null, high: null, reason: "too few for an interval" },
};

export const angle: WaterfallRows = {
  from: { name: "Tee", n: 60, mean: 12.9 },
  to: { name: "Live", n: 44, mean: 8.4 },
  parts: [
    { part: "place", ...figure(-1.6, -3.7, 0.8) },
    { part: "rest", ...figure(-2.9, -5.9, 0) },
  ],
  gap: figure(-4.5, -7.4, -1.9),
};

const hitter = (
  name: string,
  n: readonly [number, number],
  raw: readonly [number, number, number] | string,
  pooled: readonly [number, number, number] | null,
  warning: string | null = null,
): CaterpillarRow => ({
  hitter: name,
  n: { from: n[0], to: n[1] },
  raw: typeof raw === "string" ? untoldFigure(raw) : figure(...raw),
  pooled: pooled === null ? null : { value: pooled[0], low: pooled[1], high: pooled[2] },
  warning,
});

export const group = { mean: -5.6, low: -6.9, high: -4.3 } as const;

export const hitters: readonly CaterpillarRow[] = [
  hitter("Hitter A", [140, 96], [-3.5, -5.3, -1.7], [-4.4, -6, -2.8]),
  hitter("Hitter B", [120, 70], [-4.2, -6.3, -2], [-4.8, -6.5, -3.2]),
  hitter(
    "Hitter C",
    [12, 9],
    [-9.9, -17.2, -2.6],
    [-5.8, -7.9, -3.7],
    "too few swings to rank: 12 and 9, where 15 on each side are wanted",
  ),
  hitter(
    "Hitter with a long name",
    [31, 40],
    [-6.5, -10.1, -2.9],
    [-6, -8, -4],
    "more the group's figure than the hitter's own",
  ),
  hitter("Hitter E", [108, 126], [-7.7, -9.8, -5.5], [-6.8, -8.5, -5.1]),
  hitter(
    "Hitter F",
    [20, 0],
    "too few to compare: 20 and 0 balls in play",
    null,
    "no interval, so no place in the order",
  ),
];

/** One hitter with a figure and no interval: there is no group. */
export const alone: readonly CaterpillarRow[] = [
  {
    hitter: "Hitter A",
    n: { from: 6, to: 3 },
    raw: { value: -0.07, low: null, high: null, reason: "too few for an interval" },
    pooled: null,
    warning: "no interval, so no place in the order",
  },
];

const at = [1, 2, 3, 5, 7, 10, 15, 20, 30, 40, 50, 75, 100, 150, 200, 300];
// Spearman and Brown's formula, so that the drawings are of a likely shape.
const curve = (one: number, low: number, high: number): ReliabilityRow["curve"] => {
  const rise = (r: number, n: number): number => (n * r) / (1 + (n - 1) * r);
  return at.map((swings) => ({
    swings,
    reliability: rise(one, swings),
    low: rise(low, swings),
    high: rise(high, swings),
  }));
};

export const settlings: readonly ReliabilityRow[] = [
  {
    title: "Exit velocity, mean",
    hitters: 8,
    swings: 640,
    needed: { value: 12, low: 5, high: 40 },
    halves: { needed: 15 },
    curve: curve(0.17, 0.055, 0.34),
    words: "Exit velocity stabilizes after about 12 swings (5 to 40).",
  },
  {
    title: "Spread of launch angle",
    hitters: 8,
    swings: 640,
    needed: { value: 107, low: 21, high: null },
    halves: { needed: 80 },
    curve: curve(0.0214, 0.002, 0.1),
    words:
      "Spread of launch angle stabilizes after about 107 swings (at least 21; how many at most can't be told).",
  },
  {
    title: "Power kept, median",
    hitters: 8,
    swings: 640,
    needed: { value: 755, low: 69, high: null },
    halves: { needed: null },
    curve: curve(0.0031, 0, 0.033),
    words: "Power kept stabilizes after about 755 swings (at least 69; how many at most can't be told).",
  },
  {
    title: "Misses of swings",
    hitters: 8,
    swings: 640,
    needed: { value: null, low: 93, high: null },
    halves: { needed: null },
    curve: [],
    words:
      "Misses of swings: these hitters differ too little beside their own swings to say when it stabilizes.",
  },
];

export const groupLines: readonly GroupLine[] = [
  { hitter: "Hitter A", did: "55 swings" },
  { hitter: "Hitter B with a long name", did: "1 swing" },
  { hitter: "Hitter C", did: "0 swings" },
];

const nobody = { count: "none", own: null, shown: null };

export const groupPanels: readonly GroupPanel[] = [
  {
    title: "Target met",
    unit: "share",
    cells: [
      { count: "14 of 31", own: 0.45, shown: { value: 0.5, low: 0.25, high: 0.75 } },
      { count: "1 of 1", own: 1, shown: { value: 0.55, low: 0.2, high: 0.9 } },
      nobody,
    ],
    mean: { value: 0.52, low: 0.3, high: 0.7 },
  },
  {
    title: "Live less tee",
    unit: "mph",
    cells: [
      { count: "64 and 82", own: -7.8, shown: { value: -6.4, low: -9.7, high: -3.8 } },
      nobody,
      { count: "3 and 2", own: 1.2, shown: null },
    ],
    mean: null,
  },
];

/** One of each, and one past the fence. */
export const chances = [
  { carry_ft: 412, bearing_deg: -12, over: 0.93, caught: 0.05, fielded: 0, down: 0.02 },
  { carry_ft: 231, bearing_deg: 18, over: 0, caught: 0.12, fielded: 0, down: 0.88 },
  { carry_ft: 305, bearing_deg: 2, over: 0, caught: 0.97, fielded: 0, down: 0.03 },
  { carry_ft: 22, bearing_deg: -31, over: 0, caught: 0, fielded: 0.7, down: 0.3 },
  { carry_ft: 160, bearing_deg: 40, over: 0, caught: 0.5, fielded: 0.05, down: 0.45 },
];
