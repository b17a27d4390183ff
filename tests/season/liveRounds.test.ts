/** Hitters against pitchers: the invented season's hard pitcher found, and nothing named where there is no pair. */
import { beforeAll, describe, expect, it } from "vitest";
import truths from "../../data/season/truths.json" with { type: "json" };
import { hitters, drills, sessionPlans } from "../../data/season/scenario.ts";
import { swingsOf } from "../../data/demo/swings.ts";
import { enrich } from "../../src/contact/enrich.ts";
import { openLibrary } from "../../src/library/library.ts";
import { liveRounds, pairMeasures, type LiveRounds } from "../../src/season/liveRounds.ts";
import { bandOf } from "../../src/views/live.ts";
import { share } from "../../src/stats/share.ts";
import { pairSeason, type PairSeason } from "./pairRows.ts";

const named = ({ pairs }: LiveRounds) =>
  pairs.flatMap(({ hitter, pitcher, figures }) =>
    figures.flatMap(({ stands, measure }) =>
      stands === null ? [] : [{ hitter, pitcher, stands, measure: measure.name }],
    ),
  );

describe("the season's live rounds", () => {
  let rounds: LiveRounds;
  beforeAll(async () => {
    const library = await openLibrary("data/season");
    rounds = liveRounds({ ...library, swings: enrich(library) });
  }, 60_000);
  const { hitter, pitcher, times } = truths.hardOn;

  it("name the pitcher who is hard on one hitter, and nobody else", () => {
    const found = named(rounds);
    expect(found.map((f) => f.measure)).toContain("well_hit");
    expect(found.every((f) => f.hitter === hitter && f.pitcher === pitcher && f.stands === "harder")).toBe(
      true,
    );
    expect(rounds.pairs).toHaveLength(12);
    expect(rounds.looked).toBe(48);
  });

  it("find it at the size that was put in", () => {
    // Many evenings of the same generator, with the pitcher as put in and as fooling this hitter no more than others.
    const missShare = (how: number): number => {
      const count = { swings: 0, misses: 0 };
      const model = hitters.find((h) => h.hitter === hitter)!;
      for (const plan of sessionPlans.filter(({ pitchers }) => pitchers.length > 0))
        for (const swing of swingsOf(
          {
            ...plan,
            hitters: [hitter],
            rounds: () => [{ drill: "At-bats", swings: 600, pitcher: 2 }],
            pitchers: plan.pitchers.map((p) =>
              p.hardOn === undefined ? p : { ...p, hardOn: { ...p.hardOn, times: how } },
            ),
          },
          { hitters: [model], drills },
        )) {
          if (swing.outcome === "take") continue;
          count.swings++;
          if (swing.outcome === "miss") count.misses++;
        }
      return count.misses / count.swings;
    };
    const { own, expected } = rounds.pairs
      .find((p) => p.hitter === hitter && p.pitcher === pitcher)!
      .figures.find(({ measure }) => measure.name === "misses")!;
    const [hard, plain] = [missShare(times), missShare(1)];
    expect(hard).toBeGreaterThan(1.5 * plain);
    expect(own!.low).toBeLessThan(hard);
    expect(own!.high).toBeGreaterThan(hard);
    expect(Math.abs(expected! - plain)).toBeLessThan(0.08);
  });

  it("count every swing once, in one of three ways", () => {
    for (const pair of rounds.pairs) {
      expect(pair.in_play + pair.fouls + pair.misses).toBe(pair.swings);
      expect(pair.swings).toBeLessThanOrEqual(pair.pitches);
      for (const { own, pooled } of pair.figures) {
        expect(own!.low).toBeLessThan(own!.value);
        expect(pooled!.low).toBeLessThan(pooled!.high);
      }
    }
  });
});

/** A few seasons are cheap; `LIVE_ROUNDS_RUNS=400` runs more, and prints what DEVELOPERS.md tells. */
const few = 25;
const runs = Number(process.env["LIVE_ROUNDS_RUNS"] ?? few);
const plans: readonly (PairSeason & { readonly what: string })[] = [
  { what: "alike days", hitters: 4, pitchers: 3, evenings: 8, pitches: 12, days: 0 },
  { what: "days that differ", hitters: 5, pitchers: 3, evenings: 6, pitches: 16, days: 0.5 },
  { what: "many hitters", hitters: 10, pitchers: 4, evenings: 5, pitches: 10, days: 0.3 },
];

describe("live rounds without a pair", { timeout: 120_000 + 3000 * runs }, () => {
  it.each(runs > few ? plans : plans.slice(0, 2))(
    "name one in at most 5 of 100 seasons: $what",
    ({ what, ...plan }) => {
      let wrong = 0;
      for (let seed = 1; seed <= runs; seed++)
        if (named(liveRounds(pairSeason(seed, plan))).length > 0) wrong++;
      if (runs > few) console.log(what, wrong, "of", runs, share(wrong, runs));
      // As few seasons as these may name one in two more than 5 of 100 by luck.
      expect(wrong / runs).toBeLessThanOrEqual(0.05 + 1.7 * Math.sqrt(0.0475 / runs));
    },
  );

  it("find a hard one, of the size of two in three good swings lost, in most", () => {
    let [found, others] = [0, 0];
    const seasons = runs > few ? runs : 10;
    for (let seed = 1; seed <= seasons; seed++) {
      const told = named(liveRounds(pairSeason(seed, { ...plans[0]!, pitches: 30, hard: 2 })));
      const isIt = (f: (typeof told)[number]): boolean =>
        f.hitter === "Hitter 0" && f.pitcher === "Pitcher 0" && f.stands === "harder";
      if (told.some(isIt)) found++;
      if (told.some((f) => !isIt(f))) others++;
    }
    expect(found).toBeGreaterThanOrEqual(0.8 * seasons);
    expect(others).toBeLessThanOrEqual(0.15 * seasons);
  });
});

describe("live rounds of little", () => {
  const plan = { ...plans[0]!, days: 0 };

  it("say nothing of a pair with fewer swings than the table of thresholds asks for", () => {
    const source = pairSeason(3, plan);
    const most = Math.max(...liveRounds(source).pairs.map((p) => p.swings));
    const raised = liveRounds({ ...source, thresholds: { pair_swings: most + 1 } });
    expect(raised.pairs.every((p) => !p.enough && p.figures.every((f) => f.own === null && f.n > 0))).toBe(
      true,
    );
    expect(raised.looked).toBe(0);
  });

  it("leave out whom nobody wrote down, and say how many", () => {
    const source = pairSeason(3, plan);
    const without = source.swings.map((s, i) => (i % 4 === 0 ? { ...s, pitcher: null } : s));
    const { without_pitcher, pairs } = liveRounds({ ...source, swings: without });
    expect(without_pitcher).toBe(Math.ceil(source.swings.length / 4));
    expect(pairs.reduce((sum, p) => sum + p.pitches, 0)).toBe(source.swings.length - without_pitcher);
  });

  it("expect nothing where a hitter met one pitcher alone, and one hitter has no pairs to compare", () => {
    const source = pairSeason(3, { ...plan, hitters: 1, pitches: 30 });
    expect(liveRounds(source).looked).toBe(0);
    const one = source.swings.filter((s) => s.pitcher === "Pitcher 1");
    expect(liveRounds({ ...source, swings: one }).pairs[0]!.figures.every((f) => f.expected === null)).toBe(
      true,
    );
  });

  it("ask the same of every measure, and have the bands of the live view", () => {
    expect(pairMeasures.filter((m) => m.first)).toHaveLength(1);
    expect(bandOf(65)).toBe(60);
  });
});
