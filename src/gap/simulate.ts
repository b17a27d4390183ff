/**
 * How often the intervals cover the truth: teams of hitters whose gaps are known are made up, seeded, and compared
 * as a library's swings would be. Nothing here is data.
 */
import { randomGamma, randomNormal } from "d3-random";
import { defaultThresholds } from "../contact/thresholds.ts";
import { mixOf } from "../stats/split.ts";
import { randomFrom } from "../stats/random.ts";
import { share, type Share } from "../stats/share.ts";
import type { Input } from "../swing/fields.ts";
import { splitExitVelocity, type ExitVelocitySplit, type Figure } from "./parts.ts";
import type { ReadySwing, Sides } from "./rows.ts";

/** One setting of the simulation. */
export interface Setting {
  /** Balls in play a side. */
  readonly swings: number;
  /** Sessions a side. */
  readonly sessions: number;
  /** How much a hitter's days differ: standard deviation of a day's mean exit velocity, mph. */
  readonly day_sd_mph: number;
}

/** The figures whose intervals are judged. */
export const judged = ["gap", "pitch speed", "place", "bat speed", "contact", "beyond pitch"] as const;
export type Judged = (typeof judged)[number];

/** How often the intervals of one setting held the truth. */
export interface Coverage extends Setting {
  /** Hitters simulated. */
  readonly hitters: number;
  readonly held: Readonly<Record<Judged, Share>>;
  /** Mean width of the interval of the gap, mph; null when none was given. */
  readonly width_mph: number | null;
  /**
   * With one session a side the truth above is the gap of those two days. This is how often the interval held the
   * hitter's own gap, days aside; null with several sessions.
   */
  readonly heldAcrossDays: Share | null;
}

/** Hitters of a team. Invented, like every figure below. */
const teamSize = 8;

/** What a team is made of. */
export interface Team {
  /** In words, for a table. */
  readonly name: string;
  /** Bat speed: mean, between hitters, between swings, mph. */
  readonly bat: { readonly mean: number; readonly between: number; readonly within: number };
  /** Largest share of the bat speed that a cell costs a hitter. */
  readonly cellLoss: number;
  /** The cells of the zone that balls are met in. */
  readonly cells: readonly number[];
  /** Whether live pitches come to the same places as the tee is put to. */
  readonly samePlaces: boolean;
  /** Balls' worth of the hitter's own places behind a day's: the fewer, the more days differ; null: all days alike. */
  readonly placesOfDay: number | null;
  /** Balls not met squarely: their share on each side, and the exit velocity they lose (half of a bell), mph. */
  readonly mishit: { readonly tee: number; readonly live: number; readonly loss: number };
  /** What even square balls vary by, mph. */
  readonly square: number;
  /** Pitch speed at the plate: between pitches, and between days (the pitchers), mph. */
  readonly pitch: { readonly mean: number; readonly within: number; readonly days: number };
  /** Live effort: change of bat speed, between hitters, mph. */
  readonly effort: { readonly mean: number; readonly between: number };
}

/** The team of the settings that are published. */
export const team: Team = {
  name: "as in the table above",
  bat: { mean: 68, between: 6, within: 2.5 },
  cellLoss: 0.12,
  cells: [0, 1, 2, 3, 4, 5, 6, 7, 8],
  samePlaces: false,
  placesOfDay: null,
  mishit: { tee: 0.15, live: 0.35, loss: 14 },
  square: 3,
  pitch: { mean: 72, within: 5, days: 0 },
  effort: { mean: 1, between: 1.5 },
};

/** Teams that are not like it, so that no interval is right for one invention alone. */
export const otherTeams: readonly Team[] = [
  { ...team, name: "place costs much", cellLoss: 0.3 },
  { ...team, name: "three cells only, place costs much", cellLoss: 0.3, cells: [2, 4, 6] },
  {
    ...team,
    name: "each day other places and another pitcher",
    placesOfDay: 9,
    pitch: { ...team.pitch, days: 3 },
  },
  { ...team, name: "place costs nothing", cellLoss: 0 },
  { ...team, name: "tee and live in the same places", samePlaces: true },
];

type Side = "tee" | "live";

/** A hitter as made up: what each cell does, and how often it comes. */
interface Hitter {
  readonly bat: Record<Side, number>;
  readonly loss: readonly number[];
  readonly shares: Record<Side, readonly number[]>;
  readonly mishit: Record<Side, number>;
}

const { collision_q: q } = defaultThresholds;

/** Expected exit velocity of a cell. */
function meanIn(made: Team, hitter: Hitter, side: Side, cell: number): number {
  const pitch = side === "live" ? q * made.pitch.mean : 0;
  // Half a bell's mean is √(2/π) of its spread.
  const lost = hitter.mishit[side] * made.mishit.loss * Math.sqrt(2 / Math.PI);
  return pitch + (1 + q) * hitter.bat[side] * (1 - hitter.loss[cell]!) - lost;
}

/** Everything that chance decides about a team, from one seed. */
class Chance {
  readonly made: Team;
  readonly uniform: () => number;
  readonly normal: () => number;

  constructor(made: Team, seed: number) {
    this.made = made;
    this.uniform = randomFrom(seed);
    this.normal = randomNormal.source(this.uniform)();
  }

  cell(shares: readonly number[]): number {
    let left = this.uniform();
    for (let c = 0; c < 9; c++) if ((left -= shares[c]!) < 0) return c;
    return this.made.cells.at(-1)!;
  }

  hitter(): Hitter {
    const { bat, effort, cellLoss, cells, samePlaces, mishit } = this.made;
    const weights = (): number[] =>
      inAll(cells.map(() => 0.15 - Math.log(1 - this.uniform()))).reduce(
        (shares, w, i) => shares.with(cells[i]!, w),
        Array<number>(9).fill(0),
      );
    const tee = bat.mean + bat.between * this.normal();
    const ofTee = {
      bat: { tee, live: tee + effort.mean + effort.between * this.normal() },
      loss: Array.from({ length: 9 }, () => cellLoss * this.uniform()),
    };
    const places = weights();
    return {
      ...ofTee,
      shares: { tee: places, live: samePlaces ? places : weights() },
      mishit: {
        tee: mishit.tee * (0.5 + this.uniform()),
        live: mishit.live * (0.5 + this.uniform()),
      },
    };
  }

  /** A day's places: the hitter's own, or drawn about them (Dirichlet). */
  placesOf(own: readonly number[]): readonly number[] {
    const { placesOfDay } = this.made;
    if (placesOfDay === null) return own;
    const gamma = randomGamma.source(this.uniform);
    return inAll(own.map((share) => (share > 0 ? gamma(share * placesOfDay)() : 0)));
  }

  rows(hitter: Hitter, side: Side, setting: Setting): { rows: ReadySwing[]; days: number } {
    const { swings, sessions, day_sd_mph } = setting;
    const { bat: bats, pitch: pitches, mishit, square } = this.made;
    const rows: ReadySwing[] = [];
    let shifted = 0;
    for (let s = 0; s < sessions; s++) {
      const size = Math.floor((swings + s) / sessions);
      const day = day_sd_mph * this.normal();
      const places = this.placesOf(hitter.shares[side]);
      const thrown = pitches.mean + (pitches.days > 0 ? pitches.days * this.normal() : 0);
      shifted += size * day;
      for (let i = 0; i < size; i++) {
        const cell = this.cell(places);
        const bat = hitter.bat[side] * (1 - hitter.loss[cell]!) + bats.within * this.normal() + day / (1 + q);
        const pitch = side === "live" ? thrown + pitches.within * this.normal() : 0;
        const lost = this.uniform() < hitter.mishit[side] ? mishit.loss * Math.abs(this.normal()) : 0;
        const speed = q * pitch + (1 + q) * bat + square * this.normal() - lost;
        rows.push(ball(side, `${side} ${s}`, cell, speed, pitch, bat));
      }
    }
    return { rows, days: shifted / swings };
  }
}

/** Weights as shares of their sum. */
function inAll(weights: readonly number[]): number[] {
  const sum = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / sum);
}

/** The fields that the split reads. */
function ball(
  input: Input,
  session: string,
  cell: number,
  speed: number,
  pitch: number,
  bat: number,
): ReadySwing {
  return {
    input,
    session,
    cell,
    outcome: "in_play",
    exit_velocity_mph: speed,
    plate_speed_mph: pitch,
    bat_speed_mph: bat,
  } as ReadySwing;
}

/** The true figures of a hitter, place and what follows from it over the groups of cells that were compared. */
function truthOf(made: Team, hitter: Hitter, split: ExitVelocitySplit): Record<Judged, number> {
  const evIn = (side: Side) => (cell: number) => meanIn(made, hitter, side, cell);
  const meanOf = (side: Side): number =>
    hitter.shares[side].reduce((sum, p, c) => sum + p * evIn(side)(c), 0);
  const gap = meanOf("live") - meanOf("tee");
  const pitch = q * made.pitch.mean;
  const groups = split.cells.map((g) => g.cells);
  const of = (side: Side, value: (cell: number) => number): number[] =>
    groups.map((cells) => cells.reduce((sum, c) => sum + hitter.shares[side][c]! * value(c), 0));
  const one = (): number => 1;
  const place = mixOf(of("tee", one), of("tee", evIn("tee")), of("live", one), of("live", evIn("live")));
  const batIn = (side: Side) => (c: number) => hitter.bat[side] * (1 - hitter.loss[c]!);
  const [teeShare, liveShare] = [of("tee", one), of("live", one)];
  const [teeBat, liveBat] = [of("tee", batIn("tee")), of("live", batIn("live"))];
  const placed = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
  let [change, weight] = [0, 0];
  groups.forEach((_, g) => {
    const w = teeShare[g]! / placed(teeShare) + liveShare[g]! / placed(liveShare);
    change += w * (liveBat[g]! / liveShare[g]! - teeBat[g]! / teeShare[g]!);
    weight += w;
  });
  const told = (name: string): boolean => split.parts.some((p) => p.part === name && p.value !== null);
  const bat = ((1 + q) * change) / weight;
  const left = gap - pitch - (told("place") ? place : 0) - (told("bat speed") ? bat : 0);
  return {
    gap,
    "pitch speed": pitch,
    place,
    "bat speed": bat,
    contact: left,
    "beyond pitch": gap - pitch,
  };
}

/**
 * How often the 95 % intervals of the exit-velocity split cover the truth, over teams of eight hitters.
 * @param teams how many teams
 * @param made what they are made of
 * @example coverage({ swings: 15, sessions: 1, day_sd_mph: 0 }, 1).hitters // 8
 */
export function coverage(setting: Setting, teams: number, seed = 1, made: Team = team): Coverage {
  const chance = new Chance(made, seed);
  const counts = Object.fromEntries(judged.map((name) => [name, { count: 0, n: 0 }])) as Record<
    Judged,
    { count: number; n: number }
  >;
  const across = { count: 0, n: 0 };
  let [width, widths] = [0, 0];
  for (let h = 0; h < teams * teamSize; h++) {
    const hitter = chance.hitter();
    const [tee, live] = [chance.rows(hitter, "tee", setting), chance.rows(hitter, "live", setting)];
    const sides: Sides = { from: tee.rows, to: live.rows };
    const split = splitExitVelocity(sides, { thresholds: defaultThresholds });
    const truth = truthOf(made, hitter, split);
    // One session's interval is about that day: its day is part of the truth.
    const days = setting.sessions === 1 ? live.days - tee.days : 0;
    const figures: Record<Judged, { figure: Figure; truth: number }> = {
      gap: { figure: split.gap, truth: truth.gap + days },
      "pitch speed": { figure: split.parts[0]!, truth: truth["pitch speed"] },
      place: { figure: split.parts[1]!, truth: truth.place },
      // A day's shift is in the bat.
      "bat speed": { figure: split.parts[2]!, truth: truth["bat speed"] + days },
      contact: { figure: split.parts[3]!, truth: truth.contact },
      "beyond pitch": { figure: split.beyondPitch, truth: truth["beyond pitch"] + days },
    };
    for (const name of judged) {
      const { figure, truth: value } = figures[name];
      if (figure.low === null || figure.high === null) continue;
      counts[name].n++;
      if (figure.low <= value && value <= figure.high) counts[name].count++;
    }
    if (split.gap.low === null || split.gap.high === null) continue;
    width += split.gap.high - split.gap.low;
    widths++;
    across.n++;
    if (split.gap.low <= truth.gap && truth.gap <= split.gap.high) across.count++;
  }
  const held = Object.fromEntries(
    judged.map((name) => [name, share(counts[name].count, counts[name].n)]),
  ) as Record<Judged, Share>;
  return {
    ...setting,
    hitters: teams * teamSize,
    held,
    width_mph: widths === 0 ? null : width / widths,
    heldAcrossDays: setting.sessions === 1 ? share(across.count, across.n) : null,
  };
}

/**
 * What two runs of one setting found, taken together.
 * @example pooled(coverage({ swings: 5, sessions: 1, day_sd_mph: 0 }, 1), coverage({ swings: 5, sessions: 1, day_sd_mph: 0 }, 1, 2)).hitters // 16
 */
export function pooled(a: Coverage, b: Coverage): Coverage {
  const both = (x: Share, y: Share): Share => share(x.count + y.count, x.n + y.n);
  const held = Object.fromEntries(judged.map((name) => [name, both(a.held[name], b.held[name])])) as Record<
    Judged,
    Share
  >;
  const widths = [a, b].flatMap(({ width_mph, held: { gap } }) =>
    width_mph === null ? [] : [{ width_mph, n: gap.n }],
  );
  const across = a.heldAcrossDays === null || b.heldAcrossDays === null;
  return {
    ...a,
    hitters: a.hitters + b.hitters,
    held,
    width_mph:
      widths.length === 0 ? null : widths.reduce((sum, w) => sum + w.width_mph * w.n, 0) / held.gap.n,
    heldAcrossDays: across ? null : both(a.heldAcrossDays!, b.heldAcrossDays!),
  };
}

/** The settings that are published: 5, 15 and 30 swings a side, one and several sessions, days alike and not. */
export const settings: readonly Setting[] = [5, 15, 30].flatMap((swings) =>
  [1, 2, 3, 5].flatMap((sessions) => [0, 1.5, 3].map((day_sd_mph) => ({ swings, sessions, day_sd_mph }))),
);

/**
 * The settings that another team is published at: 15 and 30 swings a side, one session and several. Where days
 * differ in more than the shift that the truth takes in, one session tells of that day alone.
 * @example otherSettings(team).length // 4
 */
export function otherSettings({ placesOfDay }: Team): Setting[] {
  return [15, 30].flatMap((swings) =>
    (placesOfDay === null ? [1, 3] : [3, 5]).map((sessions) => ({ swings, sessions, day_sd_mph: 1.5 })),
  );
}
