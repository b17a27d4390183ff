/** Setups and shifts for the golden copies. */
import type { ShiftRow } from "../../src/charts/driftShifts.ts";
import { errorBudget, type Budget } from "../../src/setup/budget.ts";

const placements = {
  straight: { distance_ft: 17, offset_in: 0, yaw_deg: 0, tilt_deg: 0, roll_deg: 0 },
  off: { distance_ft: 17.8, offset_in: 5, yaw_deg: 2.2, tilt_deg: 1.6, roll_deg: -2 },
  far: { distance_ft: 5.2, offset_in: -30, yaw_deg: -38, tilt_deg: 40, roll_deg: 20 },
} as const;

/** The budget of one of the placements. */
export const placement = (name: keyof typeof placements): Budget => errorBudget(placements[name]);

const shift = (value: number, half = 0.7) => ({
  n: 120,
  value,
  low: value - half,
  high: value + half,
  reason: null,
});

export const shifts: readonly ShiftRow[] = [
  {
    session: "2026-05-02 tee",
    date: "2026-05-02",
    yaw_deg: shift(0.1),
    tilt_deg: shift(-0.2),
    verdict: "sound",
    swings: 120,
    hitters: [],
  },
  {
    session: "2026-05-09 tee",
    date: "2026-05-09",
    yaw_deg: shift(2.9),
    tilt_deg: shift(0.1),
    verdict: "hold back",
    swings: 120,
    hitters: [],
  },
  {
    session: "2026-05-16 tee and flip with a long name",
    date: "2026-05-16",
    yaw_deg: shift(-0.3, 0.9),
    tilt_deg: shift(1.5),
    verdict: "look again",
    swings: 120,
    hitters: [],
  },
  {
    session: "2026-05-23 one hitter",
    date: "2026-05-23",
    yaw_deg: { n: 20, value: null, low: null, high: null, reason: "one hitter" },
    tilt_deg: { n: 20, value: null, low: null, high: null, reason: "one hitter" },
    verdict: null,
    swings: 20,
    hitters: [],
  },
];
