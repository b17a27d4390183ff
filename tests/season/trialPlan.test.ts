/** The plan of a fair trial as a link keeps it, and how far the swings say it is. */
import { describe, expect, it } from "vitest";
import { progress } from "../../src/season/progress.ts";
import { planTrial, roundsNeeded, trialResult } from "../../src/season/trial.ts";
import {
  hittersText,
  roundsEach,
  trialIn,
  trialKeys,
  trialOrders,
  trialSpread,
  trialTrouble,
  trialWays,
  type FairTrial,
} from "../../src/season/trialPlan.ts";
import { defaultSeed } from "../../src/stats/random.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { enrichedOf } from "../../src/swing/unknown.ts";
import { teeSeason } from "./rows.ts";

const plan: FairTrial = {
  trial: "Two bats: spring",
  arms: ["wood", "metal (31 in)"],
  hitters: ["Ada K.", "Max W."],
  rounds: 8,
  swings: 3,
  change_mph: 1.5,
  seed: 7,
};

const addressOf = (of: FairTrial): URLSearchParams =>
  new URLSearchParams({
    [trialKeys.trial]: of.trial,
    [trialKeys.first]: of.arms[0],
    [trialKeys.second]: of.arms[1],
    [trialKeys.hitters]: hittersText(of.hitters),
    [trialKeys.rounds]: String(of.rounds ?? ""),
    [trialKeys.swings]: String(of.swings),
    [trialKeys.change_mph]: String(of.change_mph),
    [trialKeys.seed]: String(of.seed),
  });

describe("a trial's link", () => {
  it("is the plan, and the same link the same order", () => {
    const read = trialIn(new URLSearchParams(addressOf(plan).toString()));
    expect(read).toEqual(plan);
    expect(trialOrders(read)).toEqual(trialOrders(plan));
    expect(trialOrders({ ...plan, seed: 8 })).not.toEqual(trialOrders(plan));
  });

  it("without a seed is the command's order, of the first hitter", () => {
    const [first] = trialOrders({ ...plan, seed: defaultSeed, hitters: ["Ada K."] });
    expect(first!.rounds.map(({ round, block, arm }) => ({ round, block, arm }))).toEqual(
      planTrial(plan.arms, 8),
    );
  });

  it("gives each hitter coins of their own, one of each way a block, and a name that tells the round", () => {
    const orders = trialOrders({ ...plan, rounds: 40 });
    const [a, b] = orders.map(({ rounds }) => rounds.map(({ arm }) => arm));
    expect(a).not.toEqual(b);
    for (const { rounds } of orders)
      for (let block = 1; block <= 20; block++)
        expect(new Set(rounds.filter((r) => r.block === block).map((r) => r.arm))).toEqual(
          new Set(plan.arms),
        );
    expect(orders[1]!.rounds[0]!.drill).toMatch(
      /^Two bats: spring: (wood|metal \(31 in\)) \(round 1 of 40\)$/,
    );
  });

  it.each([
    [{ trial: "" }, "no name"],
    [{ arms: ["wood", "wood"] }, "two ways"],
    [{ arms: ["wood", ""] }, "two ways"],
    [{ arms: ["wood", "bat: metal"] }, "unreadable"],
    [{ hitters: [] }, "no hitter"],
    [{ hitters: Array.from({ length: 31 }, (_, i) => `H ${i}`) }, "many hitters"],
    [{ swings: 1 }, "swings"],
    [{ swings: NaN }, "swings"],
    [{ change_mph: NaN }, "change"],
    [{ change_mph: 0 }, "change"],
    [{ rounds: 7 }, "rounds"],
    [{ rounds: 1e9 }, "rounds"],
    [{ rounds: NaN }, "rounds"],
    [{ seed: -1 }, "seed"],
    [{ seed: 0.5 }, "seed"],
    [{ rounds: null }, null],
    [{}, null],
  ] as const)("with %o has the trouble “%s”", (part, trouble) => {
    const of = { ...plan, ...part } as FairTrial;
    expect(trialTrouble(of)).toBe(trouble);
    if (trouble !== null || of.rounds === null) expect(() => trialOrders(of)).toThrow(RangeError);
  });
});

describe("how far a trial is", () => {
  const ada = trialOrders(plan)[0]!.rounds;
  const hit = (round: number, n: number, session = "a", more: Partial<EnrichedSwing> = {}) =>
    Array.from({ length: n }, () =>
      enrichedOf({
        hitter: "Ada K.",
        bats: "R",
        input: "tee",
        session,
        drill: ada[round - 1]!.drill,
        outcome: "in_play",
        exit_velocity_mph: 75,
        launch_angle_deg: 12,
        power_kept: 0.8,
        ...more,
      }),
    );

  it("is told from the swings: done, short, begun, open, and which is next", () => {
    const swings = [
      ...hit(1, 3),
      ...hit(2, 2),
      ...hit(3, 2),
      ...hit(3, 5, "a", { outcome: "take" }),
      ...hit(3, 1, "a", { drill: null }),
    ];
    const [way, other] = trialWays(swings, plan);
    expect(way!.rounds.map(({ state }) => state)).toEqual([
      "done",
      "short",
      "begun",
      ...Array<string>(5).fill("open"),
    ]);
    expect([way!.done, way!.next!.round]).toEqual([2, 3]);
    expect([other!.done, other!.next!.round]).toEqual([0, 1]);
    // A ball that was tapped in without a speed was swung at as well; another's balls are not this hitter's.
    const more = [...swings, ...hit(3, 1, "a", { outcome: null }), ...hit(4, 3, "a", { hitter: "Noa B." })];
    expect(trialWays(more, plan)[0]!.next!.round).toBe(4);
    // A round that was left out is next, though a later one was begun; at the end none is.
    expect(trialWays([...hit(1, 3), ...hit(4, 3)], plan)[0]!.next!.round).toBe(2);
    const all = ada.flatMap(({ round }) => hit(round, 3));
    expect(trialWays(all, plan)[0]!.next).toBeNull();
  });

  it("knows a round that was hit in two sessions", () => {
    const [way] = trialWays([...hit(1, 3), ...hit(2, 2), ...hit(2, 1, "b")], plan);
    expect(way!.rounds.slice(0, 2).map(({ sessions }) => sessions)).toEqual([1, 2]);
  });

  it("counts the hitters who haven't begun: the trial has not ended", () => {
    const swings = ada.flatMap(({ round }) => hit(round, 3));
    const source = { swings, sessions: [], hitters: [], thresholds: null };
    expect(trialResult(source, plan.trial)!.ended).toBe(true);
    const both = trialResult(source, plan.trial, "better_half_speed", 8)!;
    expect([both.ended, both.blocks.length, both.planned]).toEqual([false, 4, 8]);
  });
});

describe("beforehand", () => {
  it("a trial takes as many rounds as its hitters' own spreads ask for", () => {
    const seasonOf = (hitter: string, sd: number) => {
      const made = teeSeason([0, 7, 14, 21, 28, 35], 40, () => 75, { sd });
      const swings = made.swings.map((row) => ({ ...row, hitter }));
      return progress({ ...made, swings, hitters: [], thresholds: null }, hitter);
    };
    const group = [seasonOf("steady", 2), seasonOf("wild", 6)];
    const [steady, wild] = [trialSpread(group, ["steady"])!, trialSpread(group, ["wild"])!];
    expect(steady).toBeLessThan(wild);
    const both = trialSpread(group, ["steady", "wild"])!;
    expect(both).toBeCloseTo(Math.sqrt((steady ** 2 + wild ** 2) / 2), 9);
    expect(roundsNeeded(2, steady, 6)!).toBeLessThan(roundsNeeded(2, wild, 6)!);
    expect(trialSpread(group, ["new"])).toBeGreaterThan(steady);
    expect(trialSpread([], ["new"])).toBeNull();
    // Whole blocks, and together never fewer than it takes.
    for (const needed of [6, 26, 100])
      for (const hitters of [1, 2, 3, 7]) {
        const each = roundsEach(needed, hitters);
        expect(each % 2).toBe(0);
        expect(each * hitters).toBeGreaterThanOrEqual(needed);
        expect((each - 2) * hitters).toBeLessThan(needed);
      }
  });
});
