/**
 * A fair trial of two ways (two drills, two tee heights, two bats): rounds in blocks of one of each, a coin for which comes
 * first, and at the end the difference of each block. Whatever else changes over a season changes for both rounds of a block.
 */
import type { Thresholds } from "../contact/thresholds.ts";
import { withoutDoubtful } from "../contact/flags.ts";
import { thresholdsFrom } from "../contact/thresholds.ts";
import { meanEstimate } from "../stats/estimate.ts";
import { chanceAllowed } from "../stats/holm.ts";
import { powerOfT } from "../stats/power.ts";
import { defaultSeed, randomFrom } from "../stats/random.ts";
import { signFlips } from "../stats/randomization.ts";
import { median } from "d3-array";
import { byName } from "../swing/byName.ts";
import { largest } from "../swing/lists.ts";
import { inPlay } from "../views/swings.ts";
import { evened, type EvenedSwing } from "./evened.ts";
import type { SeasonSource } from "./progress.ts";
import { wantedPower } from "./swingsNeeded.ts";

/** One round of a trial. */
export interface TrialRound {
  readonly round: number;
  readonly block: number;
  readonly arm: string;
}

/**
 * The order of a trial's rounds: blocks of one round of each arm, which comes first by a seeded coin.
 * @param arms the two ways
 * @param rounds an even number: of both arms together
 * @throws RangeError for other numbers, or two arms of one name
 * @example planTrial(["wood", "metal"], 4).map((r) => r.block) // [1, 1, 2, 2]
 */
export function planTrial(
  arms: readonly [string, string],
  rounds: number,
  seed: number = defaultSeed,
): TrialRound[] {
  if (!Number.isInteger(rounds) || rounds < 2 || rounds % 2 !== 0)
    throw new RangeError(`a trial has an even number of rounds from 2 on, not ${rounds}`);
  if (arms[0] === arms[1]) throw new RangeError(`the two ways have one name: ${arms[0]}`);
  const uniform = randomFrom(seed);
  return Array.from({ length: rounds / 2 }, (_, b) => {
    const order = uniform() < 0.5 ? arms : [arms[1], arms[0]];
    return order.map((arm, i): TrialRound => ({ round: 2 * b + i + 1, block: b + 1, arm: arm! }));
  }).flat();
}

/** A round as it stands in a drill's name. */
export interface NamedRound {
  readonly trial: string;
  readonly arm: string;
  readonly round: number;
  /** Rounds that were planned. */
  readonly of: number;
}

/**
 * The drill that a round's swings are written down under: it keeps the arm, the round and the plan with each swing.
 * @example roundName({ trial: "Two bats", arm: "wood", round: 3, of: 24 }) // "Two bats: wood (round 3 of 24)"
 */
export const roundName = ({ trial, arm, round, of }: NamedRound): string =>
  `${trial}: ${arm} (round ${round} of ${of})`;

/**
 * The round that a drill's name tells; null for any other drill.
 * @example roundOf("Two bats: wood (round 3 of 24)").arm // "wood"
 * @example roundOf("Tee, middle") // null
 */
export function roundOf(drill: string | null): NamedRound | null {
  const found = /^(.+): (.+) \(round (\d+) of (\d+)\)$/.exec(drill ?? "");
  if (found === null) return null;
  const [, trial, arm, round, of] = found;
  return { trial: trial!, arm: arm!, round: Number(round), of: Number(of) };
}

/** Longer trials nobody runs. */
export const mostRounds = 400;

/**
 * Rounds of both arms together that a trial takes: blocks whose differences find a change four times in five.
 * @param swing_sd how much one swing differs within a round, in the unit of the change
 * @param swings of a round
 * @returns null for more than `mostRounds`
 * @example roundsNeeded(2, 4, 6) // 26
 */
export function roundsNeeded(change: number, swing_sd: number, swings: number): number | null {
  const error = swing_sd * Math.sqrt(2 / swings);
  for (let blocks = 3; 2 * blocks <= mostRounds; blocks++)
    if (powerOfT((Math.abs(change) / error) * Math.sqrt(blocks), blocks - 1) >= wantedPower)
      return 2 * blocks;
  return null;
}

/** What is compared: how hard the better half was hit, mph, or the share hit clean or flush. */
export type TrialMeasure = "better_half_speed" | "well_hit";

/** One block. */
export interface TrialBlock {
  readonly hitter: string;
  readonly session: string | null;
  readonly block: number;
  /** Second arm less first. */
  readonly difference: number;
}

/** What a trial came to. */
export interface TrialResult {
  readonly trial: string;
  /** The arms by name: the difference is the second less the first. */
  readonly arms: readonly [string, string];
  readonly measure: TrialMeasure;
  readonly swings: number;
  readonly hitters: number;
  readonly sessions: number;
  readonly blocks: readonly TrialBlock[];
  /** Blocks planned, of all hitters; rounds without a partner, or of several orders, count in none. */
  readonly planned: number;
  readonly unpaired: number;
  readonly difference: {
    readonly value: number | null;
    readonly low: number | null;
    readonly high: number | null;
  };
  /** Of the randomization test. */
  readonly p: number;
  readonly exact: boolean;
  /** Whether it ended as planned; before, only what the plan's own look allows is called clear. */
  readonly ended: boolean;
  readonly clear: boolean;
  /** How much wider its interval is than the plan's would be; 1 at the end. */
  readonly wider: number;
}

/**
 * Before its end a trial is looked at as often as anybody likes: a difference is then called clear only at one in a thousand,
 * so that the end keeps its one in twenty.
 * Source: Haybittle, Br. J. Radiol. 44, 1971, 793; Peto et al., Br. J. Cancer 34, 1976, 585.
 */
const earlyChance = 0.001;

/**
 * The trials among the swings, by name.
 * @example trialNames([{ drill: "Two bats: wood (round 1 of 4)" }, { drill: null }]) // ["Two bats"]
 */
export const trialNames = (rows: readonly { readonly drill: string | null }[]): string[] => [
  ...new Set(rows.flatMap(({ drill }) => roundOf(drill)?.trial ?? [])),
];

/**
 * What a trial shows: each block's difference, their mean with an interval that counts sessions, and the randomization
 * test of the coins. It is clear where both say so.
 * @param source the whole library, enriched
 * @param plannedBlocks of all hitters, where the plan is at hand: one who hasn't begun yet is in no swing
 * @returns null without a trial of that name, or with other than two arms
 * @example trialResult({ swings: [], sessions: [], hitters: [], thresholds: null }, "x") // null
 */
export function trialResult(
  source: SeasonSource,
  trial: string,
  measure: TrialMeasure = "better_half_speed",
  plannedBlocks = 0,
): TrialResult | null {
  const thresholds = thresholdsFrom(source.thresholds);
  const names = [
    ...new Set(source.swings.filter((s) => roundOf(s.drill)?.trial === trial).map((s) => s.hitter)),
  ];
  const rounds = names.flatMap((hitter) => roundsOf(source, hitter, trial, measure, thresholds));
  const arms = [...new Set(rounds.map((r) => r.arm))].sort(byName);
  if (arms.length !== 2) return null;
  const blocks: TrialBlock[] = [];
  let unpaired = 0;
  for (const hitter of names) {
    const own = rounds.filter((r) => r.hitter === hitter);
    for (const block of [...new Set(own.map((r) => r.block))].sort((a, b) => a - b)) {
      const [first, second] = arms.map((arm) => own.filter((r) => r.block === block && r.arm === arm));
      if (first!.length !== 1 || second!.length !== 1) {
        unpaired += first!.length + second!.length;
        continue;
      }
      const difference = second![0]!.value - first![0]!.value;
      blocks.push({ hitter, session: second![0]!.session, block, difference });
    }
  }
  const told = names.reduce(
    (sum, hitter) => sum + largest(rounds.filter((r) => r.hitter === hitter).map((r) => r.of)) / 2,
    0,
  );
  const planned = Math.max(plannedBlocks, told);
  const { value, low, high } = meanEstimate(
    blocks.map((b) => b.difference),
    blocks.map((b) => b.session),
  );
  const { p, exact } = signFlips(blocks.map((b) => b.difference));
  const ended = blocks.length + unpaired / 2 >= planned;
  const away = low !== null && high !== null && (low > 0 || high < 0);
  return {
    trial,
    arms: [arms[0]!, arms[1]!],
    measure,
    swings: rounds.reduce((sum, r) => sum + r.n, 0),
    hitters: names.length,
    sessions: new Set(blocks.map((b) => b.session)).size,
    blocks,
    planned,
    unpaired,
    difference: { value, low, high },
    p,
    exact,
    ended,
    clear: away && p < (ended ? chanceAllowed : earlyChance),
    wider: blocks.length === 0 ? Infinity : Math.sqrt(Math.max(1, planned / blocks.length)),
  };
}

interface Round {
  readonly hitter: string;
  readonly session: string | null;
  readonly arm: string;
  readonly block: number;
  readonly of: number;
  readonly n: number;
  readonly value: number;
}

/** A hitter's rounds with their figures, the arms alike in how they are made. */
function roundsOf(
  source: SeasonSource,
  hitter: string,
  trial: string,
  measure: TrialMeasure,
  thresholds: Thresholds,
): Round[] {
  const all = withoutDoubtful(source.swings.filter((s) => s.hitter === hitter)).kept;
  const own = inPlay(evened(all, source.sessions, thresholds)).flatMap((row) => {
    const named = roundOf(row.drill);
    const value = valueOf(row, measure);
    return named === null || named.trial !== trial || value === null ? [] : [{ row, named, value }];
  });
  // One middle for both arms: with no difference between them the arms' rounds are alike in all.
  const middle = median(own, (o) => o.value) ?? 0;
  const scored = (v: number): number =>
    measure === "better_half_speed" ? middle + 2 * Math.max(0, v - middle) : v;
  const byRound = new Map<string, typeof own>();
  for (const one of own) {
    const key = `${one.row.session} ${one.named.arm} ${one.named.round}`;
    byRound.set(key, [...(byRound.get(key) ?? []), one]);
  }
  return [...byRound.values()].map((list): Round => {
    const { row, named } = list[0]!;
    return {
      hitter,
      session: row.session,
      arm: named.arm,
      block: Math.ceil(named.round / 2),
      of: named.of,
      n: list.length,
      value: list.reduce((sum, o) => sum + scored(o.value), 0) / list.length,
    };
  });
}

function valueOf(row: EvenedSwing, measure: TrialMeasure): number | null {
  if (measure === "better_half_speed") return row.like_angle_mph;
  return row.bucket === null ? null : Number(row.bucket === "clean" || row.bucket === "flush");
}
