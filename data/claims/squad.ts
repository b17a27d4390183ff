/**
 * Hitters whose truth is known, made up otherwise than those of src/gap/simulate.ts: nothing in the kit was tuned to
 * them. Exit velocities lean (a soft upper edge, a tail of mishits), launch angles have heavy tails, a day moves and
 * widens them, sessions are of unequal size. Live is the same swing and the pitch's part on top, unless a hitter is
 * given something to lose. Every figure is invented.
 */
import { randomGamma, randomNormal } from "d3";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { randomFrom } from "../../src/stats/random.ts";
import type { Hitter, Input, Session, Swing } from "../../src/swing/fields.ts";
import { swingOf } from "../../src/swing/unknown.ts";

/** How much a hitter's days differ: standard deviation of a day's mean, and of the log of its spread. */
export const dayKinds = {
  none: { speed_mph: 0, angle_deg: 0, spread: 0 },
  some: { speed_mph: 1.5, angle_deg: 1.5, spread: 0.1 },
  much: { speed_mph: 3, angle_deg: 3.5, spread: 0.2 },
} as const;
export type Days = keyof typeof dayKinds;

/** What a hitter is. */
export interface Trait {
  readonly name: string;
  readonly bats: "L" | "R";
  readonly level: string | null;
  readonly height_in: number;
  /** Exit velocity of a perfect swing of one's own at the best angle, mph. */
  readonly top_mph: number;
  readonly best_deg: number;
  /** How wide the edge falls off, against the usual. */
  readonly reach: number;
  /** Share of the swings that meet the ball solidly; what they lose of the top, and a mishit loses on the mean. */
  readonly solid: number;
  readonly give: number;
  readonly loss_mph: number;
  readonly launch_deg: number;
  readonly launchScale_deg: number;
  readonly pull_deg: number;
  readonly pullScale_deg: number;
  readonly missed: Readonly<Record<Input, number>>;
  /** What each cell of the zone costs, mph, row by row from the bottom. */
  readonly places_mph: readonly number[];
  /** What live costs beyond the pitch: by the bat, and by contact, mph of exit velocity. */
  readonly live: { readonly bat_mph: number; readonly contact_mph: number };
}

/** What may be asked of a squad. */
export interface Made {
  readonly hitters?: number;
  /** All hitters the same. */
  readonly alike?: boolean;
  /** Whether the levels' figures fit the hitters, are unknown, or lie 10 mph off. */
  readonly levels?: "right" | "none" | "off";
  /** Mean and spread between hitters of what live costs beyond the pitch, mph. */
  readonly liveCost?: { readonly bat: number; readonly contact: number; readonly between: number };
  /** Most that a cell of the zone costs, mph; 0: place costs nothing. */
  readonly place_mph?: number;
  /** Whether bat speeds were measured. */
  readonly bats?: boolean;
}

/** The upper edge by degrees off the best angle: the share of the top that is left. From memory of what is usual; invented between. */
const edge = [
  [-90, 0.45],
  [-60, 0.7],
  [-45, 0.82],
  [-30, 0.91],
  [-20, 0.955],
  [-10, 0.985],
  [0, 1],
  [10, 0.995],
  [20, 0.97],
  [30, 0.93],
  [40, 0.87],
  [50, 0.79],
  [65, 0.62],
  [90, 0.35],
] as const;

function edgeAt(off_deg: number): number {
  const at = Math.max(-90, Math.min(90, off_deg));
  const i = Math.max(
    1,
    edge.findIndex(([x]) => x >= at),
  );
  const [[x0, y0], [x1, y1]] = [edge[i - 1]!, edge[i]!];
  return y0 + ((at - x0) / (x1 - x0)) * (y1 - y0);
}

/** Levels of grown and nearly grown hitters, with the exit velocity that the level table has for them. */
const levels = [
  ["under 16", 87],
  ["high school", 94],
  ["college", 103],
] as const;

const { collision_q: q } = defaultThresholds;

/** One sitting of one hitter. */
export interface Sitting {
  readonly session: string;
  readonly input: Input;
  readonly balls: number;
}

/** The draws of one run, from one seed. */
export class Luck {
  readonly uniform: () => number;
  readonly normal: () => number;
  readonly gamma: (shape: number) => number;

  constructor(seed: number) {
    this.uniform = randomFrom(seed);
    this.normal = randomNormal.source(this.uniform)();
    const source = randomGamma.source(this.uniform);
    const kept = new Map<number, () => number>();
    this.gamma = (shape) => {
      let draw = kept.get(shape);
      if (draw === undefined) kept.set(shape, (draw = source(shape)));
      return draw();
    };
  }

  /** Student's t with 4 degrees of freedom, which has tails that a bell has not. */
  heavy(): number {
    return this.normal() / Math.sqrt(this.gamma(2) / 2);
  }

  /** Parts of a whole, none of them even: at least 1 each. */
  uneven(whole: number, parts: number): number[] {
    const weights = Array.from({ length: parts }, () => 0.3 + 1.7 * this.uniform());
    const sum = weights.reduce((a, b) => a + b, 0);
    const sizes = weights.map((w) => Math.max(1, Math.round((w / sum) * whole)));
    for (let left = whole - sizes.reduce((a, b) => a + b, 0); left !== 0; left -= Math.sign(left)) {
      const at = left > 0 ? sizes.indexOf(Math.min(...sizes)) : sizes.indexOf(Math.max(...sizes));
      sizes[at] = Math.max(1, sizes[at]! + Math.sign(left));
      if (left < 0 && Math.max(...sizes) === 1) break;
    }
    return sizes;
  }

  trait(name: string, made: Made): Trait {
    const { levels: known = "right", liveCost = { bat: 0, contact: 0, between: 0 }, place_mph = 0 } = made;
    const [level, levelTop] = levels[Math.floor(this.uniform() * levels.length)]!;
    const off = known === "off" ? (this.uniform() < 0.5 ? -10 : 10) : 0;
    return {
      name,
      bats: this.uniform() < 0.3 ? "L" : "R",
      level: known === "none" ? null : level,
      height_in: 70,
      top_mph: levelTop + off + 2.5 * this.normal(),
      best_deg: 9 + 3 * this.normal(),
      reach: 0.85 + 0.35 * this.uniform(),
      solid: 0.62 + 0.25 * this.uniform(),
      give: 0.018 + 0.012 * this.uniform(),
      loss_mph: 10 + 8 * this.uniform(),
      launch_deg: 11 + 4 * this.normal(),
      launchScale_deg: 9 + 5 * this.uniform(),
      pull_deg: 6 + 8 * this.normal(),
      pullScale_deg: 13 + 6 * this.uniform(),
      missed: { tee: 0.02, flip: 0.05, live: 0.1 + 0.15 * this.uniform() },
      places_mph: Array.from({ length: 9 }, () => place_mph * this.uniform()),
      live: {
        bat_mph: liveCost.bat,
        contact_mph: liveCost.contact + liveCost.between * this.normal(),
      },
    };
  }
}

/** Where a cell's middle lies for a hitter of 70 in: feet from the plate's middle, and of height. */
const cellPlace = (cell: number): { side: number; height: number } => ({
  side: ((cell % 3) - 1) * 0.472,
  height: 1.575 + 0.515 * (Math.floor(cell / 3) + 0.5),
});

/** A squad, and what it hits. */
export interface Squad {
  readonly traits: readonly Trait[];
  readonly hitters: readonly Hitter[];
  readonly luck: Luck;
  readonly made: Made;
}

/** A squad from a seed. */
export function squadOf(seed: number, made: Made = {}): Squad {
  const luck = new Luck(seed);
  const one = luck.trait("Hitter 1", made);
  const traits = Array.from({ length: made.hitters ?? 1 }, (_, i) => {
    const name = `Hitter ${i + 1}`;
    if (i === 0) return one;
    return made.alike === true ? { ...one, name } : luck.trait(name, made);
  });
  const hitters = traits.map(({ name, bats, level, height_in }) => ({
    hitter: name,
    bats,
    level,
    height_in,
  }));
  return { traits, hitters, luck, made };
}

/** What a day brings a hitter. */
export interface Day {
  readonly speed: number;
  readonly launch: number;
  readonly spray: number;
  readonly spread: number;
  /** Mean speed of the pitches at the plate, mph. */
  readonly pitch: number;
}

/** A day. */
export function dayOf(luck: Luck, days: Days): Day {
  const kind = dayKinds[days];
  return {
    speed: kind.speed_mph * luck.normal(),
    launch: kind.angle_deg * luck.normal(),
    spray: kind.angle_deg * luck.normal(),
    spread: Math.exp(kind.spread * luck.normal()),
    pitch: 74 + 3 * luck.normal(),
  };
}

/** One sitting of one hitter. */
export function sittingOf(
  { luck, made }: Pick<Squad, "luck" | "made">,
  trait: Trait,
  { session, input, balls }: Sitting,
  day: Day,
): Swing[] {
  const swings: Swing[] = [];
  const row = (given: Partial<Swing>): void => {
    swings.push(swingOf({ hitter: trait.name, bats: trait.bats, input, session, drill: input, ...given }));
  };
  for (let met = 0; met < balls;) {
    const cell = Math.floor(9 * luck.uniform());
    const pitch =
      input === "tee" ? null : input === "flip" ? 18 + luck.normal() : day.pitch + 4 * luck.normal();
    const at = cellPlace(cell);
    const place = {
      // Within the cell, so that its name is its own.
      contact_side_ft: (trait.bats === "R" ? 1 : -1) * (at.side + 0.4 * (luck.uniform() - 0.5)),
      contact_height_ft: at.height + 0.4 * (luck.uniform() - 0.5),
      contact_depth_ft: 1.6 + 0.3 * luck.normal(),
    };
    if (luck.uniform() < trait.missed[input]) {
      row({ outcome: "miss", pitch_speed_mph: pitch });
      continue;
    }
    met++;
    const solid = luck.uniform() < trait.solid;
    const launch =
      trait.launch_deg + day.launch + day.spread * trait.launchScale_deg * (solid ? 1 : 1.7) * luck.heavy();
    const angle = Math.max(-85, Math.min(85, launch));
    const spray =
      (trait.bats === "R" ? -1 : 1) *
      (trait.pull_deg + day.spray + day.spread * trait.pullScale_deg * luck.heavy());
    // A day that scatters more does so about the same mean.
    const usual = solid ? 2 * trait.give * trait.top_mph : trait.loss_mph;
    const given = usual * (1 + day.spread * (solid ? luck.gamma(2) / 2 - 1 : luck.gamma(1) - 1));
    const live = input === "live" ? trait.live : { bat_mph: 0, contact_mph: 0 };
    const own =
      trait.top_mph * edgeAt((angle - trait.best_deg) / trait.reach) -
      given +
      day.speed -
      trait.places_mph[cell]! -
      live.bat_mph -
      live.contact_mph +
      luck.normal();
    row({
      outcome: "in_play",
      exit_velocity_mph: Math.max(8, Math.min(128, own + q * (pitch ?? 0))),
      launch_angle_deg: angle,
      spray_angle_deg: Math.max(-88, Math.min(88, spray)),
      pitch_speed_mph: pitch,
      ...place,
      ...(made.bats === true
        ? {
            bat_speed_mph:
              (trait.top_mph + day.speed - trait.places_mph[cell]! - live.bat_mph) / (1 + q) +
              1.5 * luck.normal(),
          }
        : {}),
    });
  }
  return swings;
}

/** One kind of work over some sessions, of unequal sizes unless sizes are given. */
export function workOf(
  squad: Squad,
  trait: Trait,
  input: Input,
  sizes: readonly number[],
  days: Days,
): Swing[] {
  return sizes.flatMap((balls, s) =>
    sittingOf(squad, trait, { session: sessionName(s), input, balls }, dayOf(squad.luck, days)),
  );
}

/** The name of a session by its number from 0. */
export const sessionName = (s: number): string => `Day ${s + 1}`;

/** The sessions table, a week apart. */
export function sessionsTable(count: number): Session[] {
  return Array.from(
    { length: count },
    (_, s) =>
      ({
        session: sessionName(s),
        date: new Date(Date.UTC(2025, 0, 6 + 7 * s)).toISOString().slice(0, 10),
        pitch_speed_at: "plate",
      }) as Session,
  );
}
