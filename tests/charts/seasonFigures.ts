/** Seasons that the charts are given: invented, written out, computed by nobody here. */
import type { SeasonPanel } from "../../src/charts/seasonTrends.ts";
import type { SessionDrawn, SwingPanel } from "../../src/charts/withinSession.ts";
import type { TrendLine } from "../../src/season/progress.ts";

const day = (week: number): string =>
  new Date(Date.UTC(2025, 2, 3) + week * 7 * 86_400_000).toISOString().slice(0, 10);

function line(
  input: TrendLine["input"],
  values: readonly number[],
  from: number,
  to: number,
  half: number,
  more: Partial<TrendLine> = {},
): TrendLine {
  const weeks = values.length - 1;
  return {
    measure: "better_half_speed",
    title: "Exit velocity, better half",
    unit: "mph",
    better: "up",
    input,
    first: true,
    sessions: values.map((value, i) => ({
      session: `${day(i)} ${input ?? "all"}`,
      date: day(i),
      weeks: i,
      n: 20 + i,
      value,
      low: value - 1.2,
      high: value + 1.2,
      variance: 0.4,
    })),
    weeks,
    change: { value: to - from, low: to - from - half, high: to - from + half, p: 0.01 },
    second: { value: to - from, low: null, high: null },
    line: [0, 0.5, 1].map((at) => ({
      weeks: at * weeks,
      value: from + at * (to - from),
      low: from + at * (to - from) - half / 2,
      high: from + at * (to - from) + half / 2,
    })),
    swing_sd: 4,
    day_sd: 0.8,
    marked: false,
    stands: false,
    verdict: null,
    reason: null,
    ...more,
  };
}

export const panels: readonly SeasonPanel[] = [
  {
    said: "+4.3 mph (2.5 to 6.1) in 6 weeks",
    line: line("tee", [74.1, 75.3, 74.6, 76.8, 76.1, 77.9, 78.4], 74, 78.3, 1.8, {
      marked: true,
      stands: true,
      verdict: "improving",
    }),
  },
  {
    said: "no clear change, +0.4 mph (−2.7 to 3.5)",
    line: line("flip", [72, 70.8, 73.1, 71.2, 72.4], 71.7, 72.1, 3.1),
  },
  {
    said: "2 sessions with enough swings: it takes 4",
    line: {
      ...line("live", [69.3, 71], 0, 0, 0),
      change: { value: null, low: null, high: null, p: null },
      line: [],
      reason: "2 sessions with enough swings: it takes 4",
    },
  },
];

export const ceilingPanel: readonly SeasonPanel[] = [
  {
    said: "no clear change, +4.8 km/h (1.3 to 8.4)",
    line: line(null, [80, 81.2, 80.7, 82.4, 82.9], 80, 83, 2.2, { title: "Ceiling", measure: "ceiling" }),
    band: { low: 65.6, high: 72.4, label: "usual for under 14 (common practice, no source)" },
  },
];

/** A session of 48 swings, the tee's in two rounds with live ones between, falling after the twenty-fifth. */
const numbers = Array.from({ length: 48 }, (_, i) => i + 1).filter((n) => n <= 20 || n > 28);
const wave = (n: number): number => Math.sin(n * n) * 4;

export const swingPanels: readonly SwingPanel[] = [
  {
    name: "Exit velocity",
    unit: "mph",
    said: "−1.2 mph (−1.6 to −0.8), 12 sessions",
    swings: numbers.map((number) => ({ number, value: 78 - 0.15 * Math.max(0, number - 25) + wave(number) })),
    slope: { value: -1.2, low: -1.6, high: -0.8, stands: true },
  },
  {
    name: "Power kept",
    unit: "share",
    said: "−1 point (−3 to 1), not clear",
    swings: numbers.map((number) => ({ number, value: 0.86 - 0.001 * number + wave(number) / 90 })),
    slope: { value: -0.01, low: -0.03, high: 0.01, stands: false },
  },
];

export const swingSession: SessionDrawn = {
  session: "2025-05-20 evening",
  work: "off the tee",
  all: 48,
  rests: [
    { after: 20, minutes: 4.2 },
    { after: 28, minutes: 6 },
  ],
};
