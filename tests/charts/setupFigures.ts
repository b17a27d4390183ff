/** Setups and shifts for the golden copies. */
import type { ShiftRow } from "../../src/charts/driftShifts.ts";
import type { Placement, Stand } from "../../src/field/tracker.ts";
import { errorBudget, type Budget } from "../../src/setup/budget.ts";

const placements = {
  straight: { distance_ft: 21.6, offset_in: -4.6, yaw_deg: 0, tilt_deg: 0, roll_deg: 0 },
  off: { distance_ft: 22.4, offset_in: 0.4, yaw_deg: 2.2, tilt_deg: 1.6, roll_deg: -2 },
  far: { distance_ft: 6.4, offset_in: -30, yaw_deg: -38, tilt_deg: 40, roll_deg: 20 },
  behind: { distance_ft: -14.3, offset_in: 34, yaw_deg: -1.4, tilt_deg: 1.1, roll_deg: 1 },
  beside: { distance_ft: 2.1, offset_in: -152, yaw_deg: 2.5, tilt_deg: -1.2, roll_deg: 1.5 },
} as const satisfies Record<string, Placement>;

/** Where each was told that it stands. */
const told: Readonly<Record<keyof typeof placements, Stand>> = {
  straight: { distance_ft: 21.6, offset_in: -4.6 },
  off: { distance_ft: 21.6, offset_in: -4.6 },
  far: { distance_ft: 21.6, offset_in: 0 },
  behind: { distance_ft: -13.7, offset_in: 31.4 },
  beside: { distance_ft: 2.6, offset_in: -148 },
};

/** The budget of one of the placements. */
export const placement = (name: keyof typeof placements): Budget =>
  errorBudget(placements[name], { believed: told[name] });

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
