/** The invented season: twelve weeks of autumn work at the demo's barn, with truths to find. */
import { roundName, planTrial } from "../../src/season/trial.ts";
import {
  barn,
  drills as demoDrills,
  pitchers,
  trackerStands,
  usual,
  type Drill,
  type HitterModel,
  type Pitcher,
  type Round,
  type SessionPlan,
} from "../demo/scenario.ts";

const swing = {
  ...usual,
  height_in: 68,
  level: "high school",
  attackAngle_deg: 8,
  offset_in: 0.2,
  offsetSpread_in: { tee: 0.65, flip: 0.75, live: 1.15 },
  barrelSpread_in: 1.8,
  timingSpread_ms: 10,
  late_ms: 0,
  depth_ft: 1.8,
  pull_deg: 8,
} as const;

/** What was put in; `truths.json` says it. */
export const truth = {
  improving: { hitter: "Ivo S.", gain_mph_a_week: 0.4 },
  flat: { hitter: "Lena F." },
  tiring: { hitter: "Max W.", after: 25, mph_a_swing: 0.12 },
  hardOn: { hitter: "Noa B.", pitcher: "Tamsin O.", times: 3 },
  trial: {
    hitter: "Rui C.",
    name: "Two bats",
    arms: ["long", "short"],
    gives_mph: { short: 0, long: 2 },
    rounds: 48,
    swings: 6,
  },
} as const;

export const hitters: readonly HitterModel[] = [
  {
    ...swing,
    hitter: truth.improving.hitter,
    bats: "R",
    level: "under 16",
    height_in: 65,
    batSpeed_mph: 59,
    gain_mph_a_week: truth.improving.gain_mph_a_week,
  },
  { ...swing, hitter: truth.flat.hitter, bats: "L", batSpeed_mph: 64 },
  {
    ...swing,
    hitter: truth.tiring.hitter,
    bats: "R",
    batSpeed_mph: 66,
    tiring: { after: truth.tiring.after, mph_a_swing: truth.tiring.mph_a_swing },
  },
  { ...swing, hitter: truth.hardOn.hitter, bats: "R", batSpeed_mph: 65 },
  { ...swing, hitter: truth.trial.hitter, bats: "R", batSpeed_mph: 63 },
];

/** The trial's rounds in their order. */
const rounds = planTrial(truth.trial.arms, truth.trial.rounds).map(({ arm, round }) => ({
  arm: arm as "long" | "short",
  drill: roundName({ trial: truth.trial.name, arm, round, of: truth.trial.rounds }),
}));

const middle = demoDrills.find((d) => d.drill === "Tee, middle")!;

export const drills: readonly Drill[] = [
  ...demoDrills,
  ...rounds.map(({ arm, drill }) => ({ ...middle, drill, gives_mph: truth.trial.gives_mph[arm] })),
];

/** One of the two pitchers is hard on one hitter. */
const left: Pitcher = {
  ...pitchers.left,
  name: truth.hardOn.pitcher,
  hardOn: { hitter: truth.hardOn.hitter, times: truth.hardOn.times },
};

const weeks = 12;
const firstMonday = Date.UTC(2025, 8, 1);
const dateOf = (week: number, weekday: number): string =>
  new Date(firstMonday + (week * 7 + weekday) * 86_400_000).toISOString().slice(0, 10);

/** Weeks in which the trial is run, six rounds a time. */
const trialFrom = 2;
const trialRounds = 6;

function teeRounds(hitter: string, week: number): Round[] {
  const tee = (swings: number): Round[] => [
    { drill: "Tee, middle", swings: Math.round(swings * 0.6) },
    { drill: "Tee, around the zone", swings: swings - Math.round(swings * 0.6) },
  ];
  if (hitter === truth.trial.hitter)
    return week < trialFrom
      ? []
      : rounds
          .slice((week - trialFrom) * trialRounds, (week - trialFrom + 1) * trialRounds)
          .map(({ drill }) => ({ drill, swings: truth.trial.swings }));
  return hitter === truth.tiring.hitter ? tee(55) : tee(25);
}

function plan(name: string, week: number, weekday: number, more: Partial<SessionPlan>): SessionPlan {
  const date = dateOf(week, weekday);
  const live = name === "live";
  const stand = live ? trackerStands.behind : trackerStands.before;
  return {
    log: {
      session: `${date} ${name}`,
      date,
      place: barn,
      indoor: true,
      // Autumn: it gets colder, and a carry shorter, from week to week.
      temperature_f: 74 - 2 * week,
      pressure_inhg: null,
      altitude_ft: 840,
      humidity_pct: null,
      wind_mph: null,
      wind_toward_deg: null,
      field: "60/90",
      ball: "baseball",
      tracker_distance_ft: stand.distance_ft,
      tracker_offset_in: stand.offset_in,
      tracker_yaw_deg: 0,
      tracker_tilt_deg: 0,
      tracker_roll_deg: 0,
      calibrated_at: `${date}T17:00:00`,
      turned_back_yaw_deg: null,
      turned_back_tilt_deg: null,
      turned_back_roll_deg: null,
      turned_back_why: null,
      pitch_speed_at: live ? "plate" : null,
    },
    start: "17:30",
    hitters: [],
    rounds: () => [],
    pitchers: [],
    spin: "none",
    sensor: false,
    stand,
    turned_deg: 0,
    tilted_deg: 0,
    ids: true,
    sides: true,
    outcomes: true,
    week,
    ...more,
  };
}

/** Pitches that a hitter sees of each pitcher in an evening. */
const atBatPitches = 30;

const names = hitters.map((h) => h.hitter);
const regulars = names.filter((name) => name !== truth.trial.hitter);

/** Every session, in order of time: a tee evening and a live one each week. */
export const sessionPlans: readonly SessionPlan[] = Array.from({ length: weeks }, (_, week) => [
  plan("tee", week, 1, {
    hitters: names.filter((name) => teeRounds(name, week).length > 0),
    rounds: (hitter) => teeRounds(hitter, week),
  }),
  plan("live", week, 4, {
    hitters: regulars,
    // The two take turns at going first, so that nobody meets one of them tired.
    rounds: () => [
      { drill: "Coach rounds", swings: 8 },
      { drill: "At-bats", swings: atBatPitches, pitcher: week % 2 === 0 ? 1 : 2 },
      { drill: "At-bats", swings: atBatPitches, pitcher: week % 2 === 0 ? 2 : 1 },
    ],
    pitchers: [pitchers.coach, pitchers.right, left],
  }),
]).flat();
