/** A claim that the kit makes, and how often it may be wrong: what is run, counted and asked for. */
import { share, type Share } from "../../src/stats/share.ts";
import type { Days } from "./squad.ts";

/** One setting of a line. */
export interface Setting {
  /** Balls in play a side (of one sitting, where a line says so). */
  readonly swings: number;
  readonly sessions: number;
  readonly days: Days;
}

/** What is asked of a share. */
export type Wanted =
  | { readonly most: number }
  | { readonly low: number; readonly high: number }
  /** Only told, for whoever reads it. */
  | { readonly told: true };

/** An interval's: it is called a 95 % one. */
export const covers: Wanted = { low: 0.92, high: 0.97 };

/** Counts under names. */
export class Tally {
  readonly counts = new Map<string, { count: number; n: number; wanted: Wanted }>();

  /** @param yes whether it happened; null: nothing to count */
  count(name: string, yes: boolean | null, wanted: Wanted): void {
    const found = this.counts.get(name) ?? { count: 0, n: 0, wanted };
    this.counts.set(name, found);
    if (yes === null) return;
    found.n++;
    if (yes) found.count++;
  }

  /** Whether an interval covers the truth; nothing is counted without an interval. */
  holds(name: string, interval: { low: number | null; high: number | null }, truth: number | null): void {
    const { low, high } = interval;
    const none = low === null || high === null || truth === null;
    this.count(name, none ? null : low <= truth && truth <= high, covers);
    this.count(`${name}: no interval given`, none, { told: true });
  }
}

/** One line: run once, it counts. */
export interface Line {
  readonly name: string;
  readonly about: string;
  /** How many runs stand behind a full one. */
  readonly runs: number;
  readonly settings: readonly Setting[];
  readonly run: (setting: Setting, seed: number, tally: Tally) => void;
}

/** One figure found. */
export interface Found extends Setting, Share {
  readonly line: string;
  readonly what: string;
  readonly wanted: Wanted;
  /** "within" what is wanted; "outside", by more than the simulation's own chance; "near", outside by less; "told". */
  readonly verdict: "within" | "near" | "outside" | "told";
}

/** What claims.json holds: each line's figures, one count for each of its settings. */
export interface Claims {
  readonly about: string;
  readonly lines: readonly {
    readonly name: string;
    readonly about: string;
    readonly runs: number;
    /** Swings, sessions, days. */
    readonly settings: readonly (readonly [number, number, Days])[];
    readonly found: readonly {
      readonly what: string;
      readonly wanted: Wanted;
      readonly count: readonly number[];
      readonly n: readonly number[];
    }[];
  }[];
}

/** Where a share stands against what is wanted. */
export function verdictOf(s: Share, wanted: Wanted): Found["verdict"] {
  if ("told" in wanted || s.share === null || s.low === null || s.high === null) return "told";
  const [low, high] = "most" in wanted ? [0, wanted.most] : [wanted.low, wanted.high];
  if (s.share >= low && s.share <= high) return "within";
  return s.high < low || s.low > high ? "outside" : "near";
}

/** Runs one line at one setting. */
export function foundBy(line: Line, setting: Setting, runs: number, firstSeed = 1): Found[] {
  const tally = new Tally();
  for (let r = 0; r < runs; r++) line.run(setting, firstSeed + r, tally);
  return [...tally.counts].flatMap(([what, { count, n, wanted }]) => {
    const s = share(count, n);
    return n === 0
      ? []
      : [{ line: line.name, what, ...setting, ...s, wanted, verdict: verdictOf(s, wanted) }];
  });
}

const allDays: readonly Days[] = ["none", "some", "much"];

/** Every setting: 12, 45 and 60 swings a side, over 2, 3 and 8 sessions, with days alike, some and much apart. */
export const allSettings: readonly Setting[] = [12, 45, 60].flatMap((swings) =>
  [2, 3, 8].flatMap((sessions) => allDays.map((days) => ({ swings, sessions, days }))),
);
