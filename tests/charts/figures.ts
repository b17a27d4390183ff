/** Figures that the charts are given: invented, written out, computed by nobody here. */
import type { LaneShare } from "../../src/charts/sprayChart.ts";
import type { PitchGroup } from "../../src/charts/pitchOutcomes.ts";
import type { FlownBall } from "../../src/charts/flown.ts";
import { defaultAir } from "../../src/flight/air.ts";
import type { ShareInterval } from "../../src/charts/text.ts";
import type { ZoneMapCell } from "../../src/charts/zoneMap.ts";

const share = (count: number, n: number, low: number, high: number): ShareInterval => ({
  count,
  n,
  share: count / n,
  low,
  high,
});

export const lanes: readonly LaneShare[] = [
  { lane: "left line", ...share(6, 64, 0.044, 0.19) },
  { lane: "left-center", ...share(17, 64, 0.173, 0.385) },
  { lane: "center", ...share(20, 64, 0.212, 0.434) },
  { lane: "right-center", ...share(13, 64, 0.123, 0.317) },
  { lane: "right line", ...share(4, 64, 0.025, 0.15) },
  { lane: "foul", ...share(4, 64, 0.025, 0.15) },
];

const cell = (
  row: 0 | 1 | 2,
  column: 0 | 1 | 2,
  n: number,
  value: number | null,
  low: number | null,
  high: number | null,
): ZoneMapCell => ({ row, column, n, power_kept: { n, value, low, high } });

export const cells: readonly ZoneMapCell[] = [
  cell(0, 0, 6, 0.84, 0.79, 0.89),
  cell(0, 1, 9, 0.9, 0.86, 0.93),
  cell(0, 2, 3, 0.71, null, null),
  cell(1, 0, 11, 0.91, 0.88, 0.94),
  cell(1, 1, 18, 0.95, 0.93, 0.97),
  cell(1, 2, 8, 0.86, 0.8, 0.91),
  cell(2, 0, 0, null, null, null),
  cell(2, 1, 7, 0.82, 0.74, 0.89),
  cell(2, 2, 2, 0.58, null, null),
];

const outcomes = (n: number, take: number, miss: number, foul: number): PitchGroup["outcomes"] => [
  { outcome: "in_play", ...share(n - take - miss - foul, n, 0.2, 0.42) },
  { outcome: "foul", ...share(foul, n, 0.1, 0.27) },
  { outcome: "miss", ...share(miss, n, 0.07, 0.22) },
  { outcome: "take", ...share(take, n, 0.25, 0.46) },
];

export const pitches: readonly PitchGroup[] = [
  {
    pitch_type: "fastball",
    pitches: 74,
    outcomes: outcomes(74, 26, 9, 12),
    misses: share(9, 48, 0.102, 0.319),
    buckets: [
      { bucket: "mishit", ...share(3, 27, 0.039, 0.281) },
      { bucket: "partial", ...share(8, 27, 0.158, 0.485) },
      { bucket: "clean", ...share(9, 27, 0.186, 0.522) },
      { bucket: "flush", ...share(7, 27, 0.132, 0.447) },
    ],
  },
  {
    pitch_type: "slider",
    pitches: 31,
    outcomes: outcomes(31, 11, 8, 5),
    misses: share(8, 20, 0.219, 0.613),
    buckets: [
      { bucket: "mishit", ...share(3, 7, 0.158, 0.75) },
      { bucket: "partial", ...share(2, 7, 0.082, 0.641) },
      { bucket: "clean", ...share(1, 7, 0.026, 0.513) },
      { bucket: "flush", ...share(0, 7, 0, 0.354) },
    ],
  },
  {
    pitch_type: null,
    pitches: 5,
    outcomes: outcomes(4, 1, 1, 2),
    misses: share(1, 3, 0.061, 0.792),
    buckets: [],
  },
];

export const speeds: readonly PitchGroup[] = [
  {
    low_mph: 60,
    high_mph: 70,
    pitches: 22,
    outcomes: outcomes(22, 8, 2, 4),
    misses: share(2, 14, 0.04, 0.399),
  },
  {
    low_mph: 70,
    high_mph: 80,
    pitches: 40,
    outcomes: outcomes(40, 14, 7, 6),
    misses: share(7, 26, 0.137, 0.461),
  },
  {
    low_mph: null,
    high_mph: null,
    pitches: 3,
    outcomes: outcomes(3, 1, 0, 0),
    misses: share(0, 2, 0, 0.658),
  },
];

/** The full field, with figures of its own: the golden copies must not change with the field table. */
export const field = {
  name: "test field",
  title: "Test field",
  basePath_ft: 90,
  pitching_ft: 60.5,
  dirtRadius_ft: 95,
  sources: {},
  fence: [
    { bearing_deg: -45, distance_ft: 320, height_ft: 8 },
    { bearing_deg: -22, distance_ft: 372, height_ft: 8 },
    { bearing_deg: 0, distance_ft: 395, height_ft: 8 },
    { bearing_deg: 22, distance_ft: 372, height_ft: 8 },
    { bearing_deg: 45, distance_ft: 320, height_ft: 8 },
  ],
} as const;

export const spread = {
  launch_angle_deg: { n: 64, value: 14.6, low: 12.5, high: 17.3 },
  spray_angle_deg: { n: 64, value: 23.1, low: 19.8, high: 27.2 },
} as const;

export const middle = {
  launch_angle_deg: { n: 64, value: 12.4, low: 8.8, high: 16 },
  spray_angle_deg: { n: 64, value: -3.1, low: -8.9, high: 2.6 },
} as const;

export const timingLine = {
  slope: { n: 64, value: 30.4, low: 23.7, high: 37.2 },
  through: { depth_ft: 1.6, pull_deg: 3.1 },
} as const;

export const depth = { n: 64, value: 1.6, low: 1.46, high: 1.74 } as const;

export const wellHit = [
  { group: "2026-05-02 · High tee, middle", label: "clean or flush", share: share(19, 30, 0.455, 0.781) },
  { group: "2026-05-09 · Front toss", label: "clean or flush", share: share(8, 14, 0.326, 0.786) },
] as const;

const g = 9.8;
const foulFence = {
  result: "foul",
  bearing: 2.8,
  distance: null,
  fence: null,
  height: null,
  missing: null,
} as const;

/** A parabola in place of a flight: the charts only draw what they are given. */
function parabola(bearing_deg: number, level: number, rise: number): Pick<FlownBall, "path" | "flight"> {
  const [sin, cos] = [Math.sin((bearing_deg * Math.PI) / 180), Math.cos((bearing_deg * Math.PI) / 180)];
  const hang = (rise + Math.sqrt(rise ** 2 + 2 * g * 0.9)) / g;
  const at = (t: number) => ({
    t,
    x: level * t * sin,
    y: level * t * cos,
    z: Math.max(0, 0.9 + rise * t - (g * t * t) / 2),
  });
  const path = [...Array.from({ length: Math.ceil(hang / 0.05) }, (_, i) => at(i * 0.05)), at(hang)];
  return {
    path,
    flight: {
      carry: level * hang,
      hang,
      apex: 0.9 + rise ** 2 / 2 / g,
      bearing: (bearing_deg * Math.PI) / 180,
      descent: Math.atan2(g * hang - rise, level),
      x: path.at(-1)!.x,
      y: path.at(-1)!.y,
    },
  };
}

const flown = (bearing_deg: number, level: number, rise: number, more: Partial<FlownBall>): FlownBall => {
  const { path, flight } = parabola(bearing_deg, level, rise);
  const landing = { x: flight.x, y: flight.y, xx: 18, xy: -4, yy: 30 };
  return {
    path,
    flight,
    range: { low: flight.carry - 7, high: flight.carry + 6, sd: 5.1, method: "quick", landing },
    ellipse: { x: flight.x, y: flight.y, long: 10.1, short: 7.2, toward: -0.3, level: 0.8 },
    fence: null,
    field,
    spinSource: "estimated",
    air: defaultAir,
    assumed: ["spin estimated from the launch", "no wind"],
    ...more,
  };
};

/** Over the fence in a wind; a low ball, all measured; one that comes down behind the plate. */
export const flights: Readonly<Record<"far" | "low" | "behind", FlownBall>> = {
  far: flown(-14, 27, 22, {
    air: { ...defaultAir, wind: [2, 3] },
    fence: {
      result: "over",
      bearing: -0.24,
      distance: 116.1,
      fence: 2.4,
      height: 5.2,
      missing: null,
      chance: 0.71,
      draws: 2000,
    },
  }),
  low: flown(31, 38, 4, {
    spinSource: "rate_and_axis",
    assumed: [],
    fence: {
      result: "short",
      bearing: 0.54,
      distance: 107.6,
      fence: 2.4,
      height: null,
      missing: 68.3,
      chance: 0,
      draws: 0,
    },
  }),
  behind: flown(160, 6, 25, { fence: { ...foulFence, chance: 0, draws: 0 } }),
};
