/**
 * How many more swings it takes to tell a change: from how much a hitter's swings and days differ, pooled with the group's
 * where they are few.
 */
import { powerOfT } from "../stats/power.ts";
import type { Input } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import type { TrendLine } from "./progress.ts";

/** How much single swings and days differ: standard deviations in the measure's unit. */
export interface Spreads {
  readonly swing_sd: number;
  readonly day_sd: number;
}

/** The chance that a change of the size asked about is told, where there is one. */
export const wantedPower = 0.8;

/** Swings and days that the group's spreads weigh as against a hitter's own. A judgement. */
const groupWeighs = { swings: 30, days: 6 } as const;

/** More sessions than this a side nobody plans. */
const mostSessions = 60;

/**
 * A hitter's spreads, pooled with the group's: variances weighted by what they are known from.
 * @param own the hitter's line of the measure and kind of work, null without one
 * @param group the other hitters' lines of the same
 * @returns null where nobody has a usable line
 * @example pooledSpreads(null, []) // null
 */
export function pooledSpreads(own: TrendLine | null, group: readonly TrendLine[]): Spreads | null {
  const swings = (line: TrendLine): number => line.sessions.reduce((sum, s) => sum + s.n - 1, 0);
  const days = (line: TrendLine): number => Math.max(0, line.sessions.length - 2);
  const pooled = (
    of: (line: TrendLine) => number | null,
    freedom: (line: TrendLine) => number,
    weight: number,
  ): number | null => {
    const mean = (lines: readonly TrendLine[], most: number): { sum: number; n: number } => {
      const known = lines.filter((l) => of(l) !== null && freedom(l) > 0);
      const n = known.reduce((total, l) => total + freedom(l), 0);
      if (n === 0) return { sum: 0, n: 0 };
      const variance = known.reduce((total, l) => total + freedom(l) * of(l)! ** 2, 0) / n;
      const counted = Math.min(n, most);
      return { sum: counted * variance, n: counted };
    };
    const a = mean(own === null ? [] : [own], Infinity);
    const b = mean(group, weight);
    return a.n + b.n === 0 ? null : Math.sqrt((a.sum + b.sum) / (a.n + b.n));
  };
  const swing_sd = pooled((l) => l.swing_sd, swings, groupWeighs.swings);
  const day_sd = pooled((l) => l.day_sd, days, groupWeighs.days);
  return swing_sd === null ? null : { swing_sd, day_sd: day_sd ?? 0 };
}

/**
 * The chance that two spells of so many sessions are told apart at 95 %, where they differ by so much: Student's t of the
 * sessions' means.
 * @param change in the spreads' unit
 * @param sides sessions of each side, and swings of each session
 * @example powerOf({ swing_sd: 5, day_sd: 1 }, 0, [{ sessions: 8, swings: 25 }, { sessions: 8, swings: 25 }]) // 0.05
 */
export function powerOf(
  { swing_sd, day_sd }: Spreads,
  change: number,
  sides: readonly { readonly sessions: number; readonly swings: number }[],
): number {
  const freedom = sides.reduce((sum, side) => sum + side.sessions, 0) - 2;
  if (freedom < 1) return 0;
  const variance = sides.reduce(
    (sum, { sessions, swings }) => sum + (day_sd ** 2 + swing_sd ** 2 / swings) / sessions,
    0,
  );
  return powerOfT(Math.abs(change) / Math.sqrt(variance), freedom);
}

/** What it takes. */
export interface Needed {
  readonly input: Input | null;
  readonly measure: string;
  readonly title: string;
  readonly unit: UnitName;
  /** The change that is to be seen, in the measure's unit. */
  readonly change: number;
  /** Swings of each session. */
  readonly swings: number;
  readonly spreads: Spreads;
  /** Sessions before and after, where both are still to be done; null: not even with the most that is asked. */
  readonly eachSide: number | null;
  /** Sessions that are there, and more that it takes after them; null: however many more, they don't suffice. */
  readonly there: number;
  readonly more: number | null;
}

/** Sizes of change that are worth asking about, by the measure's unit. A judgement. */
const worthSeeing: Readonly<Partial<Record<UnitName, number>>> = {
  mph: 2,
  deg: 4,
  share: 0.15,
  ft: 15,
};

/**
 * How many sessions it takes to see a change, both sides still to be done, and after those that are there.
 * @param line the hitter's line, for its sessions
 * @param change in the measure's unit; what is worth seeing when not given
 * @param swings of each session; as many as the hitter's sessions have when not given
 * @returns null where no size of change is asked about, or spreads are unknown
 */
export function swingsNeeded(
  line: TrendLine,
  group: readonly TrendLine[],
  change: number | null = null,
  swings: number | null = null,
): Needed | null {
  const asked = change ?? worthSeeing[line.unit];
  const spreads = pooledSpreads(line, group);
  if (asked === undefined || spreads === null) return null;
  const there = line.sessions.length;
  const all = line.sessions.reduce((sum, s) => sum + s.n, 0);
  const n = swings ?? Math.max(5, Math.round(all / Math.max(1, there)));
  const enough = (sides: readonly { sessions: number; swings: number }[]): boolean =>
    powerOf(spreads, asked, sides) >= wantedPower;
  const fewest = (test: (sessions: number) => boolean): number | null => {
    for (let m = 1; m <= mostSessions; m++) if (test(m)) return m;
    return null;
  };
  return {
    input: line.input,
    measure: line.measure,
    title: line.title,
    unit: line.unit,
    change: asked,
    swings: n,
    spreads,
    eachSide: fewest(
      (m) =>
        m > 1 &&
        enough([
          { sessions: m, swings: n },
          { sessions: m, swings: n },
        ]),
    ),
    there,
    more:
      there === 0
        ? null
        : fewest((m) =>
            enough([
              { sessions: there, swings: all / there },
              { sessions: m, swings: n },
            ]),
          ),
  };
}
