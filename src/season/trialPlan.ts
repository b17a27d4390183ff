/**
 * The plan of a fair trial as a link keeps it: whose it is, of which two ways, in how many rounds and by which coins, so that
 * the same link gives the same order; and, of the swings that are there, which of its rounds are done.
 */
import { defaultSeed } from "../stats/random.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import type { HitterProgress } from "./progress.ts";
import { pooledSpreads } from "./swingsNeeded.ts";
import { mostRounds, planTrial, roundName, roundOf, type TrialRound } from "./trial.ts";

/** A trial as it is meant. */
export interface FairTrial {
  readonly trial: string;
  readonly arms: readonly [string, string];
  /** Each goes through all of the rounds, in an order of their own. */
  readonly hitters: readonly string[];
  /** Rounds of both ways together, of each hitter; null until they are fixed. */
  readonly rounds: number | null;
  /** Swings of a round. */
  readonly swings: number;
  /** The difference of exit velocity that is to be seen. */
  readonly change_mph: number;
  readonly seed: number;
}

/** What a round and a trial may be, as a coach can run them. Common practice, no source. */
const trialLimits = { swings: [2, 60], change_mph: [0.1, 30], hitters: 30 } as const;

/** What stands there until a coach says otherwise. */
export const usualTrial = { swings: 6, change_mph: 2 } as const;

/** The names that a plan's parts have in an address. */
export const trialKeys = {
  trial: "trial",
  first: "trial-way-1",
  second: "trial-way-2",
  hitters: "trial-hitters",
  rounds: "trial-rounds",
  swings: "trial-swings",
  change_mph: "trial-change",
  seed: "trial-seed",
} as const;

/** Between two hitters' names in an address: no name holds it. */
const between = "\n";

/** Several hitters as one text of an address. */
export const hittersText = (names: readonly string[]): string => names.join(between);

/**
 * The plan that an address holds; what it leaves out is as usual, and a number that is none is NaN.
 * @example trialIn(new URLSearchParams("trial=Two+bats&trial-way-1=wood&trial-way-2=metal")).arms // ["wood", "metal"]
 * @example trialIn(new URLSearchParams("")).rounds // null
 */
export function trialIn(address: Pick<URLSearchParams, "get">): FairTrial {
  const text = (key: keyof typeof trialKeys): string => (address.get(trialKeys[key]) ?? "").trim();
  const number = (key: keyof typeof trialKeys, otherwise: number): number =>
    text(key) === "" ? otherwise : Number(text(key));
  return {
    trial: text("trial"),
    arms: [text("first"), text("second")],
    hitters: [
      ...new Set(
        text("hitters")
          .split(between)
          .filter((name) => name !== ""),
      ),
    ],
    rounds: text("rounds") === "" ? null : Number(text("rounds")),
    swings: number("swings", usualTrial.swings),
    change_mph: number("change_mph", usualTrial.change_mph),
    seed: number("seed", defaultSeed),
  };
}

/** What keeps a plan from being a trial. */
export type TrialTrouble =
  | "no name"
  | "two ways"
  | "unreadable"
  | "no hitter"
  | "many hitters"
  | "swings"
  | "change"
  | "rounds"
  | "seed";

/**
 * Why a plan is none yet; null for one that can be run. Rounds that aren't fixed are no trouble.
 * @example trialTrouble({ trial: "Bats", arms: ["a", "a"], hitters: ["A"], rounds: null, swings: 6, change_mph: 2, seed: 1 }) // "two ways"
 * @example trialTrouble({ trial: "Bats", arms: ["a", "b: c"], hitters: ["A"], rounds: 4, swings: 6, change_mph: 2, seed: 1 }) // "unreadable"
 */
export function trialTrouble(plan: FairTrial): TrialTrouble | null {
  const { trial, arms, hitters, rounds, swings, change_mph, seed } = plan;
  const within = (value: number, [low, high]: readonly [number, number]): boolean =>
    value >= low && value <= high;
  if (trial === "") return "no name";
  if (arms.includes("") || arms[0] === arms[1]) return "two ways";
  if (!arms.every((arm) => isReadable(trial, arm))) return "unreadable";
  if (hitters.length === 0) return "no hitter";
  if (hitters.length > trialLimits.hitters) return "many hitters";
  if (!Number.isInteger(swings) || !within(swings, trialLimits.swings)) return "swings";
  if (!within(change_mph, trialLimits.change_mph)) return "change";
  if (rounds !== null && (!Number.isInteger(rounds) || rounds % 2 !== 0 || !within(rounds, [2, mostRounds])))
    return "rounds";
  if (!Number.isSafeInteger(seed) || seed < 0) return "seed";
  return null;
}

/**
 * Whether a drill's name with these two in it gives them back: a way whose own name has a colon does not.
 * @example isReadable("Two bats", "wood") // true
 */
export function isReadable(trial: string, arm: string): boolean {
  const told = roundOf(roundName({ trial, arm, round: 1, of: 2 }));
  return told?.trial === trial && told.arm === arm;
}

/**
 * Rounds of each hitter, where it takes so many of all of them together: whole blocks.
 * @example roundsEach(26, 3) // 10
 */
export const roundsEach = (needed: number, hitters: number): number =>
  2 * Math.ceil(needed / 2 / Math.max(1, hitters));

/** A round of a hitter, with the name that its swings are written down under. */
export interface NamedTrialRound extends TrialRound {
  readonly drill: string;
}

/**
 * Each hitter's order, one coin after the other for all of them, so that no two orders hang together.
 * @throws RangeError for a plan without rounds, or that `trialTrouble` has something against
 * @example trialOrders({ trial: "Bats", arms: ["a", "b"], hitters: ["A", "B"], rounds: 4, swings: 6, change_mph: 2, seed: 1 }).map((o) => o.rounds.length) // [4, 4]
 */
export function trialOrders(
  plan: FairTrial,
): { readonly hitter: string; readonly rounds: readonly NamedTrialRound[] }[] {
  const { trial, arms, hitters, rounds, seed } = plan;
  const trouble = rounds === null ? "rounds" : trialTrouble(plan);
  if (rounds === null || trouble !== null) throw new RangeError(`no trial: ${trouble}`);
  const all = planTrial(arms, rounds * hitters.length, seed);
  return hitters.map((hitter, h) => ({
    hitter,
    rounds: all.slice(h * rounds, (h + 1) * rounds).map(({ arm }, i): NamedTrialRound => {
      const round = i + 1;
      return {
        round,
        block: Math.ceil(round / 2),
        arm,
        drill: roundName({ trial, arm, round, of: rounds }),
      };
    }),
  }));
}

/** How far a round is: `short` has fewer swings than planned though a later one was begun. */
export type RoundState = "open" | "begun" | "short" | "done";

/** A round with the swings that are there. */
export interface RoundDone extends NamedTrialRound {
  readonly n: number;
  readonly state: RoundState;
  /** Sessions that its swings are of: a round in two of them counts in no block. */
  readonly sessions: number;
}

/** A hitter's way through a trial. */
export interface TrialWay {
  readonly hitter: string;
  readonly rounds: readonly RoundDone[];
  readonly done: number;
  /** The round to be hit now: the first that is open or begun; null at the end. */
  readonly next: RoundDone | null;
}

/**
 * Each hitter's rounds with what the swings say of them.
 * @param swings of the whole library
 * @throws what `trialOrders` throws
 * @example trialWays([], { trial: "Bats", arms: ["a", "b"], hitters: ["A"], rounds: 4, swings: 6, change_mph: 2, seed: 1 })[0].next.round // 1
 */
export function trialWays(swings: readonly EnrichedSwing[], plan: FairTrial): TrialWay[] {
  return trialOrders(plan).map(({ hitter, rounds }): TrialWay => {
    // A ball that was tapped in without speed or angle was swung at all the same.
    const own = swings.filter((row) => row.hitter === hitter && row.outcome !== "take");
    const byDrill = new Map<string, EnrichedSwing[]>();
    for (const row of own) {
      if (row.drill === null) continue;
      const list = byDrill.get(row.drill) ?? [];
      list.push(row);
      byDrill.set(row.drill, list);
    }
    const last = rounds.findLastIndex(({ drill }) => byDrill.has(drill));
    const all = rounds.map((round, i): RoundDone => {
      const rows = byDrill.get(round.drill) ?? [];
      const n = rows.length;
      const state =
        n === 0 ? "open" : n >= plan.swings ? "done" : i < last ? ("short" as const) : ("begun" as const);
      return { ...round, n, state, sessions: new Set(rows.map(({ session }) => session)).size };
    });
    return {
      hitter,
      rounds: all,
      done: all.filter(({ state }) => state === "done" || state === "short").length,
      next: all.find(({ state }) => state === "open" || state === "begun") ?? null,
    };
  });
}

/**
 * How much one swing off the tee differs within a session, of a trial's hitters: their own, pooled with the group's where they
 * are few; of the whole group where none is named.
 * @param group the seasons of the library's hitters
 * @returns null where nobody has tee work
 * @example trialSpread([], ["A"]) // null
 */
export function trialSpread(
  group: readonly Pick<HitterProgress, "hitter" | "lines">[],
  hitters: readonly string[],
): number | null {
  const lines = group.flatMap(({ hitter, lines }) =>
    lines.filter((l) => l.first && l.input === "tee").map((line) => ({ hitter, line })),
  );
  const spreads = (hitters.length === 0 ? [null] : hitters).flatMap((name) => {
    const own = lines.find(({ hitter }) => hitter === name)?.line ?? null;
    const others = lines.filter(({ hitter }) => hitter !== name).map(({ line }) => line);
    return pooledSpreads(own, others)?.swing_sd ?? [];
  });
  return spreads.length === 0
    ? null
    : Math.sqrt(spreads.reduce((sum, sd) => sum + sd * sd, 0) / spreads.length);
}
