/** The invented scenario: who hits, when and where, what they work on, and how each of them swings. */
import type { Stand } from "../../src/field/tracker.ts";
import type { Hitter, Input, Session, Target } from "../../src/swing/fields.ts";

export const barn = "Quillmoor Barn";
const practiceField = "Quillmoor practice field";

/**
 * Where the two trackers stand. Off the tee and on flips one looks back from in front, behind its own screen; where a
 * pitcher throws, the other looks over the catcher's shoulder, off the line.
 */
export const trackerStands = {
  before: { distance_ft: 19.3, offset_in: -7.1 },
  behind: { distance_ft: -13.7, offset_in: 31.4 },
} as const satisfies Record<string, Stand>;

/** How a hitter swings. Sides are as the hitter sees them: away from the body is positive, pull is negative. */
export interface HitterModel extends Hitter {
  readonly hitter: string;
  /** Bat speed where the ball is met, mph, in the first week. */
  readonly batSpeed_mph: number;
  readonly gain_mph_a_week: number;
  readonly attackAngle_deg: number;
  /** Spread of the ball's offset from the bat's axis, in, by input; and its mean (above the axis lifts). */
  readonly offsetSpread_in: Readonly<Record<Input, number>>;
  readonly offset_in: number;
  /** Spread along the barrel, in. */
  readonly barrelSpread_in: number;
  /** Timing against a pitch, ms: its spread, and late as a habit. */
  readonly timingSpread_ms: number;
  readonly late_ms: number;
  /** Where a ball over the middle is met, ft forward of the plate's rear point, and how far it is then pulled. */
  readonly depth_ft: number;
  readonly pull_deg: number;
  /** Share of the bat speed lost on a ball outside, and on a low one. */
  readonly lostOutside: number;
  readonly lostLow: number;
  /** Share of the bat speed that live work adds. */
  readonly liveEffort: number;
  /** Where pitchers go: away and up from the zone's middle, ft, and how widely. */
  readonly pitchedAt: {
    readonly away: number;
    readonly up: number;
    readonly spread: number;
    /** Share of pitches that go anywhere, like those to others. */
    readonly elsewhere: number;
  };
  /** Share of pitches in the zone swung at. */
  readonly swingsAt: number;
  /** How often, against others, a pitch fools the hitter. */
  readonly foolable: number;
  /** Whether the hitter's bat carries the speed sensor where the session has one. */
  readonly sensor: boolean;
  /** Bat speed lost with each swing of a session after so many, mph; none when left out. */
  readonly tiring?: { readonly after: number; readonly mph_a_swing: number };
}

/** Where pitches go in general. */
export const anywhere = { away: 0.12, up: -0.12, spread: 0.62 } as const;

export const usual = {
  gain_mph_a_week: 0,
  lostOutside: 0.02,
  lostLow: 0.015,
  liveEffort: 0.015,
  pitchedAt: { ...anywhere, elsewhere: 0 },
  swingsAt: 0.8,
  foolable: 1,
  sensor: true,
} as const;

export const hitterModels: readonly HitterModel[] = [
  {
    ...usual,
    hitter: "Ben T.",
    bats: "R",
    level: "under 12",
    height_in: 57,
    batSpeed_mph: 48,
    attackAngle_deg: 8,
    offset_in: 0.28,
    offsetSpread_in: { tee: 0.8, flip: 0.88, live: 1.3 },
    barrelSpread_in: 2.2,
    timingSpread_ms: 12.5,
    late_ms: 2,
    depth_ft: 1.7,
    pull_deg: 10,
  },
  {
    ...usual,
    hitter: "Gil P.",
    bats: "L",
    level: "under 12",
    height_in: 60,
    batSpeed_mph: 49,
    attackAngle_deg: 6,
    offset_in: 0.2,
    offsetSpread_in: { tee: 0.72, flip: 0.8, live: 1.25 },
    barrelSpread_in: 2,
    timingSpread_ms: 11.5,
    late_ms: 0,
    depth_ft: 1.8,
    pull_deg: 11,
  },
  {
    ...usual,
    hitter: "Ada K.",
    bats: "R",
    level: "under 14",
    height_in: 64,
    batSpeed_mph: 55,
    gain_mph_a_week: 0.9,
    attackAngle_deg: 10,
    offset_in: 0.28,
    offsetSpread_in: { tee: 0.65, flip: 0.7, live: 1.15 },
    barrelSpread_in: 1.8,
    timingSpread_ms: 10.5,
    late_ms: 0,
    depth_ft: 1.9,
    pull_deg: 11,
  },
  {
    ...usual,
    hitter: "Cal R.",
    bats: "R",
    level: "college",
    height_in: 74,
    batSpeed_mph: 75.5,
    attackAngle_deg: 11,
    offset_in: 0.23,
    offsetSpread_in: { tee: 0.48, flip: 0.52, live: 0.62 },
    barrelSpread_in: 0.9,
    timingSpread_ms: 4.8,
    late_ms: 0,
    depth_ft: 2,
    pull_deg: 11,
    lostOutside: 0.12,
    lostLow: 0.09,
    liveEffort: 0.035,
    pitchedAt: { away: 0.5, up: -0.5, spread: 0.36, elsewhere: 0.3 },
    swingsAt: 0.9,
    foolable: 0.4,
    sensor: false,
  },
  {
    ...usual,
    hitter: "Finn L.",
    bats: "L",
    level: "high school",
    height_in: 71,
    batSpeed_mph: 69.5,
    attackAngle_deg: 10,
    offset_in: 0.23,
    offsetSpread_in: { tee: 0.55, flip: 0.6, live: 0.78 },
    barrelSpread_in: 1.1,
    timingSpread_ms: 18,
    late_ms: 3,
    depth_ft: 1.9,
    pull_deg: 11,
    lostOutside: 0,
    lostLow: 0,
    pitchedAt: { away: 0.02, up: -0.02, spread: 0.5, elsewhere: 0 },
    swingsAt: 0.9,
  },
  {
    ...usual,
    hitter: "Dov M.",
    bats: "S",
    level: "college",
    height_in: 70,
    batSpeed_mph: 74,
    attackAngle_deg: 12,
    offset_in: 0.33,
    offsetSpread_in: { tee: 0.58, flip: 0.64, live: 1.1 },
    barrelSpread_in: 1.6,
    timingSpread_ms: 9,
    late_ms: 0,
    depth_ft: 2.1,
    pull_deg: 14,
  },
  {
    ...usual,
    hitter: "Eve S.",
    bats: "L",
    level: "high school",
    height_in: 67,
    batSpeed_mph: 64,
    attackAngle_deg: 7,
    offset_in: 0.2,
    offsetSpread_in: { tee: 0.58, flip: 0.64, live: 1.05 },
    barrelSpread_in: 1.5,
    timingSpread_ms: 9,
    late_ms: 1,
    depth_ft: 1.7,
    pull_deg: 7,
  },
  {
    ...usual,
    hitter: "Hugo N.",
    bats: "R",
    level: "adult",
    height_in: 72,
    batSpeed_mph: 66,
    attackAngle_deg: 12,
    offset_in: 0.48,
    offsetSpread_in: { tee: 0.7, flip: 0.76, live: 1.25 },
    barrelSpread_in: 1.9,
    timingSpread_ms: 11,
    late_ms: 2,
    depth_ft: 2,
    pull_deg: 12,
  },
];

/** A hitter whose height nobody wrote down. */
export const unmeasured: readonly string[] = ["Hugo N."];

/** Where a drill puts the ball, in thirds of the zone from its middle: −1 inside or low, 1 outside or high. */
export interface Place {
  readonly away: number;
  readonly up: number;
}

export interface Drill {
  readonly drill: string;
  readonly input: Input;
  /** Where the ball is put, in turn; for live work the pitcher decides. */
  readonly places: readonly Place[];
  /** Further out in front than the place asks for, ft. */
  readonly forward_ft: number;
  /** How much harder than usual the timing is. */
  readonly timing: number;
  /** Bat speed that the way of doing it gives, mph; none when left out. */
  readonly gives_mph?: number;
}

const middle: Place = { away: 0, up: 0 };
const nine: readonly Place[] = [-1, 0, 1].flatMap((up) => [-1, 0, 1].map((away) => ({ away, up })));

export const drills: readonly Drill[] = [
  { drill: "Tee, middle", input: "tee", places: [middle], forward_ft: 0, timing: 1 },
  {
    drill: "Tee, inside out front",
    input: "tee",
    places: [
      { away: -1, up: 0 },
      { away: -1, up: 1 },
    ],
    forward_ft: 0.15,
    timing: 1,
  },
  {
    drill: "Tee, low and away",
    input: "tee",
    places: [
      { away: 1, up: -1 },
      { away: 1, up: 0 },
      { away: 1, up: -1 },
      { away: 0, up: -1 },
    ],
    forward_ft: -0.1,
    timing: 1,
  },
  { drill: "Tee, around the zone", input: "tee", places: nine, forward_ft: 0, timing: 1 },
  { drill: "Flip, through the middle", input: "flip", places: [middle], forward_ft: 0, timing: 1 },
  { drill: "Flip, two speeds", input: "flip", places: [middle], forward_ft: 0, timing: 1.8 },
  { drill: "Coach rounds", input: "live", places: [], forward_ft: 0, timing: 1 },
  { drill: "At-bats", input: "live", places: [], forward_ft: 0, timing: 1 },
];

const open: Omit<Target, "drill"> = {
  exit_velocity_mph_low: null,
  exit_velocity_mph_high: null,
  launch_angle_deg_low: null,
  launch_angle_deg_high: null,
  spray_angle_deg_low: null,
  spray_angle_deg_high: null,
  contact_side_ft_low: null,
  contact_side_ft_high: null,
  contact_depth_ft_low: null,
  contact_depth_ft_high: null,
  contact_height_ft_low: null,
  contact_height_ft_high: null,
};

export const targets: readonly Target[] = [
  {
    ...open,
    drill: "Tee, middle",
    launch_angle_deg_low: 5,
    launch_angle_deg_high: 25,
    spray_angle_deg_low: -20,
    spray_angle_deg_high: 20,
  },
  {
    ...open,
    drill: "Tee, inside out front",
    launch_angle_deg_low: 8,
    launch_angle_deg_high: 28,
    contact_depth_ft_low: 2,
    contact_depth_ft_high: 3,
  },
  {
    ...open,
    drill: "Tee, low and away",
    launch_angle_deg_low: 0,
    launch_angle_deg_high: 20,
    contact_depth_ft_low: 1,
    contact_depth_ft_high: 2,
  },
  {
    ...open,
    drill: "Flip, through the middle",
    launch_angle_deg_low: 5,
    launch_angle_deg_high: 25,
    spray_angle_deg_low: -18,
    spray_angle_deg_high: 18,
  },
  {
    ...open,
    drill: "Coach rounds",
    exit_velocity_mph_low: 55,
    launch_angle_deg_low: 8,
    launch_angle_deg_high: 30,
    spray_angle_deg_low: -45,
    spray_angle_deg_high: 45,
  },
];

/** A pitch a pitcher throws: how often, how fast at the plate, and how hard it is to meet. */
export interface PitchModel {
  readonly type: string;
  readonly weight: number;
  readonly speed_mph: number;
  readonly spread_mph: number;
  readonly backspin_rpm: number;
  readonly descent_deg: number;
  /** Probability that the hitter is fooled, then far off in place and time. */
  readonly fooled: number;
  /** How much earlier than on a fastball the swing comes, ms, and how far over the ball it passes, in. */
  readonly early_ms: number;
  readonly over_in: number;
  /** Where it is thrown against the usual place, ft. */
  readonly up_ft: number;
}

const coachBall: PitchModel = {
  type: "fastball",
  weight: 1,
  speed_mph: 48,
  spread_mph: 1.8,
  backspin_rpm: 1000,
  descent_deg: 9,
  fooled: 0.08,
  early_ms: 0,
  over_in: 0,
  up_ft: 0.05,
};

export interface Pitcher {
  readonly name: string;
  /** Whom this pitcher fools so many times as often as others. */
  readonly hardOn?: { readonly hitter: string; readonly times: number };
  readonly coach: boolean;
  readonly pitches: readonly PitchModel[];
}

const fastball = { backspin_rpm: 1900, fooled: 0.25, early_ms: 0, over_in: 0, up_ft: 0.1 } as const;
const changeup = { backspin_rpm: 1300, fooled: 0.4, early_ms: 5, over_in: 0.12, up_ft: -0.25 } as const;

export const pitchers = {
  coachYouth: { name: "Coach Wyn", coach: true, pitches: [{ ...coachBall, speed_mph: 38 }] },
  youth: {
    name: "Jory B.",
    coach: false,
    pitches: [
      { ...fastball, type: "fastball", weight: 0.8, speed_mph: 47, spread_mph: 1.6, descent_deg: 8 },
      { ...changeup, type: "changeup", weight: 0.2, speed_mph: 39, spread_mph: 1.6, descent_deg: 11 },
    ],
  },
  coach: { name: "Coach Pell", coach: true, pitches: [coachBall] },
  right: {
    name: "Sandro V.",
    coach: false,
    pitches: [
      { ...fastball, type: "fastball", weight: 0.58, speed_mph: 73, spread_mph: 1.5, descent_deg: 6 },
      { ...changeup, type: "changeup", weight: 0.2, speed_mph: 64, spread_mph: 1.5, descent_deg: 8.5 },
      {
        type: "curveball",
        weight: 0.22,
        speed_mph: 60,
        spread_mph: 1.5,
        backspin_rpm: -1900,
        descent_deg: 11,
        fooled: 0.58,
        early_ms: 5,
        over_in: 0.22,
        up_ft: -0.35,
      },
    ],
  },
  left: {
    name: "Tamsin O.",
    coach: false,
    pitches: [
      { ...fastball, type: "fastball", weight: 0.6, speed_mph: 70, spread_mph: 1.4, descent_deg: 6.5 },
      { ...changeup, type: "changeup", weight: 0.18, speed_mph: 60, spread_mph: 1.4, descent_deg: 9 },
      {
        type: "slider",
        weight: 0.22,
        speed_mph: 64,
        spread_mph: 1.4,
        backspin_rpm: -400,
        descent_deg: 8.5,
        fooled: 0.58,
        early_ms: 3,
        over_in: 0.16,
        up_ft: -0.25,
      },
    ],
  },
} as const satisfies Record<string, Pitcher>;

/** What a session's tracker gives of the spin. */
export type SpinKind = "components" | "axis" | "rate" | "none";

/** One hitter's part of a session: so many swings of a drill. */
export interface Round {
  readonly drill: string;
  readonly swings: number;
  /** Who throws, by the place in the session's list; the drill's usual one when not given. */
  readonly pitcher?: number;
}

/** A session, with what its log doesn't say. */
export interface SessionPlan {
  readonly log: Session;
  readonly start: string;
  readonly hitters: readonly string[];
  readonly rounds: (hitter: string) => readonly Round[];
  readonly pitchers: readonly Pitcher[];
  readonly spin: SpinKind;
  /** Whether bats carry a speed sensor. */
  readonly sensor: boolean;
  /** Where the tracker stood, as it was told. */
  readonly stand: Stand;
  /** How it really was turned against what the log says, ° (see truths.json). */
  readonly turned_deg: number;
  readonly tilted_deg: number;
  /** Whether the export gives each row an id, and the batter's side. */
  readonly ids: boolean;
  readonly sides: boolean;
  /** Whether the export names the outcome of a ball in play. */
  readonly outcomes: boolean;
  readonly week: number;
}

const youth = ["Ben T.", "Gil P.", "Ada K."];
const older = ["Cal R.", "Finn L.", "Dov M.", "Eve S.", "Hugo N."];
/** Those whose gap the demo is built around come to everything and take more swings live. */
const regulars = new Set(["Cal R.", "Finn L."]);

const firstMonday = Date.UTC(2025, 2, 3);
const dateOf = (week: number, weekday: number): string =>
  new Date(firstMonday + (week * 7 + weekday) * 86_400_000).toISOString().slice(0, 10);

interface Sitting {
  readonly name: string;
  readonly week: number;
  readonly weekday: number;
  readonly start: string;
  readonly hitters: readonly string[];
  readonly rounds: SessionPlan["rounds"];
  readonly pitchers?: readonly Pitcher[];
  readonly field: string | null;
  readonly spin: SpinKind;
  readonly sensor: boolean;
  readonly turned_deg?: number;
  readonly tilted_deg?: number;
  readonly ids?: boolean;
  readonly sides?: boolean;
  readonly outcomes?: boolean;
  readonly log?: Partial<Session>;
}

function plan(sitting: Sitting): SessionPlan {
  const date = dateOf(sitting.week, sitting.weekday);
  const live = sitting.pitchers !== undefined;
  const stand = live ? trackerStands.behind : trackerStands.before;
  return {
    log: {
      session: `${date} ${sitting.name}`,
      date,
      place: barn,
      indoor: true,
      temperature_f: 58 + 2 * sitting.week,
      pressure_inhg: null,
      altitude_ft: 840,
      humidity_pct: null,
      wind_mph: null,
      wind_toward_deg: null,
      field: sitting.field,
      ball: "baseball",
      tracker_distance_ft: stand.distance_ft,
      tracker_offset_in: stand.offset_in,
      tracker_yaw_deg: 0,
      tracker_tilt_deg: 0,
      tracker_roll_deg: 0,
      calibrated_at: `${date}T${sitting.start.slice(0, 2)}:00:00`,
      turned_back_yaw_deg: null,
      turned_back_tilt_deg: null,
      turned_back_roll_deg: null,
      turned_back_why: null,
      pitch_speed_at: live ? "plate" : null,
      ...sitting.log,
    },
    start: sitting.start,
    hitters: sitting.hitters,
    rounds: sitting.rounds,
    pitchers: sitting.pitchers ?? [],
    spin: sitting.spin,
    sensor: sitting.sensor,
    stand,
    turned_deg: sitting.turned_deg ?? 0,
    tilted_deg: sitting.tilted_deg ?? 0,
    ids: sitting.ids ?? true,
    sides: sitting.sides ?? true,
    outcomes: sitting.outcomes ?? true,
    week: sitting.week,
  };
}

const work =
  (tee: number, flip: number): SessionPlan["rounds"] =>
  () => [
    { drill: "Tee, middle", swings: Math.round(tee * 0.35) },
    { drill: "Tee, inside out front", swings: Math.round(tee * 0.2) },
    { drill: "Tee, low and away", swings: Math.round(tee * 0.2) },
    { drill: "Tee, around the zone", swings: tee - Math.round(tee * 0.35) - 2 * Math.round(tee * 0.2) },
    { drill: "Flip, through the middle", swings: Math.ceil(flip * 0.6) },
    { drill: "Flip, two speeds", swings: flip - Math.ceil(flip * 0.6) },
  ];

const against =
  (coach: number, pitched: number, regular: number): SessionPlan["rounds"] =>
  (hitter) => [
    { drill: "Coach rounds", swings: coach },
    { drill: "At-bats", swings: regulars.has(hitter) ? regular : pitched },
  ];

/** A practice field's air and wind, on the days that somebody wrote them down. */
const outdoors: readonly Partial<Session>[] = [
  {
    place: practiceField,
    indoor: false,
    temperature_f: 61,
    pressure_inhg: 29.12,
    humidity_pct: 48,
    wind_mph: 7,
    wind_toward_deg: 20,
  },
  {
    place: practiceField,
    indoor: false,
    temperature_f: 67,
    pressure_inhg: null,
    humidity_pct: 41,
    wind_mph: null,
    wind_toward_deg: null,
  },
  {
    place: practiceField,
    indoor: false,
    temperature_f: 72,
    pressure_inhg: 28.95,
    humidity_pct: 55,
    wind_mph: 11,
    wind_toward_deg: -150,
    calibrated_at: null,
  },
];

const spins: readonly SpinKind[] = ["components", "rate", "none", "components", "axis", "none"];
const at = <T>(list: readonly T[], i: number): T => list[i % list.length]!;

/** Every session, in order of time. */
export const sessionPlans: readonly SessionPlan[] = [0, 1, 2, 3, 4, 5].flatMap((week) => {
  const resting = at(["Eve S.", "Hugo N.", "Dov M."], week);
  const turned = week === 3;
  const week6 = week === 5;
  const sittings: Sitting[] = [
    {
      name: "youth tee",
      week,
      weekday: 0,
      start: "17:30",
      hitters: youth,
      rounds: work(20, 12),
      field: "50/70",
      spin: at(spins, week),
      sensor: week % 2 === 0,
      ids: week !== 1,
      sides: week !== 1,
      outcomes: week > 2,
    },
    {
      name: turned ? "open tee" : "tee",
      week,
      weekday: 1,
      start: "19:00",
      hitters: turned
        ? ["Ada K.", "Finn L.", "Dov M.", "Eve S.", "Hugo N."]
        : older.filter((h) => h !== resting),
      rounds: turned ? work(36, 14) : work(22, 12),
      field: turned ? null : "60/90",
      spin: at(spins, week + 1),
      sensor: week !== 2,
      turned_deg: turned ? 3 : 0,
      outcomes: week % 2 === 0,
      log:
        week === 2
          ? { temperature_f: null, altitude_ft: null }
          : week === 4
            ? { tracker_roll_deg: null }
            : {},
    },
    {
      name: "youth live",
      week,
      weekday: 3,
      start: "17:30",
      hitters: youth,
      rounds: against(10, 13, 13),
      pitchers: [pitchers.coachYouth, pitchers.youth],
      field: "50/70",
      spin: at(spins, week + 2),
      sensor: week % 2 === 0,
      log: week === 4 ? outdoors[1]! : {},
    },
    {
      name: "live",
      week,
      weekday: 5,
      start: "10:00",
      hitters: week % 2 === 0 ? older : older.filter((h) => h !== resting),
      rounds: against(10, 18, 28),
      pitchers: [pitchers.coach, week % 2 === 0 ? pitchers.right : pitchers.left],
      field: "60/90",
      spin: at(spins, week + 3),
      sensor: week !== 4,
      log: {
        ...(week === 2 ? outdoors[0]! : week6 ? outdoors[2]! : {}),
        ...(week === 1 || week === 4 ? { pitch_speed_at: "release" as const } : {}),
      },
    },
  ];
  if (week === 4) {
    sittings.push({
      name: "clinic",
      week,
      weekday: 5,
      start: "15:00",
      hitters: [...youth, "Finn L.", "Dov M.", "Eve S.", "Hugo N."],
      rounds: work(32, 12),
      field: null,
      spin: "components",
      sensor: false,
      tilted_deg: 1.5,
    });
  }
  return sittings.map(plan);
});
