/** The invented season: its bytes, and each of its truths found by what is made to find it. */
import { readFileSync } from "node:fs";
import { randomNormal } from "d3";
import { beforeAll, describe, expect, it } from "vitest";
import truths from "../../data/season/truths.json" with { type: "json" };
import { make } from "../../data/season/make.ts";
import { enrich } from "../../src/contact/enrich.ts";
import { openLibrary } from "../../src/library/library.ts";
import { trialSheet } from "../../src/report/trialSheet.ts";
import { drillWork } from "../../src/season/drillWork.ts";
import { progress, standingLines, type SeasonSource } from "../../src/season/progress.ts";
import {
  planTrial,
  roundName,
  roundOf,
  roundsNeeded,
  trialNames,
  trialResult,
} from "../../src/season/trial.ts";
import { sessionShown, withinSession } from "../../src/season/withinSession.ts";
import { randomFrom } from "../../src/stats/random.ts";
import { signFlips } from "../../src/stats/randomization.ts";
import { enrichedOf } from "../../src/swing/unknown.ts";
import type { Target } from "../../src/swing/fields.ts";
import { sessionOn, teeSeason } from "./rows.ts";

let season: SeasonSource & { readonly targets: readonly Target[] };
beforeAll(async () => {
  const library = await openLibrary("data/season");
  season = { ...library, swings: enrich(library) };
}, 60_000);

describe("the season", () => {
  it("is what its generator writes, to the byte", async () => {
    for (const [name, text] of Object.entries(await make()))
      expect(readFileSync(`data/season/${name}`, "utf8") === text, name).toBe(true);
  });

  it("has one who improves by the truth, though the barn gets colder, and none who else changes in speed", () => {
    const speeds = (hitter: string) =>
      standingLines(progress(season, hitter).lines)
        .filter((l) => l.first)
        .map((l) => l.verdict);
    const { improving, flat, tiring, hardOn } = truths;
    expect(new Set(speeds(improving.hitter))).toEqual(new Set(["improving"]));
    const tee = progress(season, improving.hitter).lines.find((l) => l.first && l.input === "tee")!;
    const truth = improving.gain_mph_a_week * 1.2 * tee.weeks;
    expect(tee.change.low!).toBeLessThan(truth);
    expect(tee.change.high!).toBeGreaterThan(truth);
    for (const { hitter } of [flat, tiring, hardOn]) expect(speeds(hitter), hitter).toEqual([]);
  });

  it("has one who loses speed within a session, and no other", () => {
    const falls = truths.hitters.map(({ hitter }) => ({
      hitter,
      lines: withinSession(season, hitter).filter((l) => l.stands && l.by === "swings" && l.value! < 0),
    }));
    expect(falls.filter((f) => f.lines.length > 0).map((f) => f.hitter)).toEqual([truths.tiring.hitter]);
    const line = falls.flatMap((f) => f.lines).find((l) => l.measure === "exit_velocity")!;
    // From nothing before the 25th swing to ten times what each costs after it.
    expect(line.value!).toBeGreaterThan(-12 * truths.tiring.mph_a_swing);
    expect(line.most).toBe(54);
  });

  it("draws the latest session of the work whose line stands, its swings counted from the first, its rests marked", () => {
    const { hitter } = truths.tiring;
    const lines = withinSession(season, hitter);
    const shown = sessionShown(season, hitter, lines)!;
    expect(shown.input).toBe(lines.find((l) => l.stands && l.by === "swings")!.input);
    const own = season.swings.filter((r) => r.hitter === hitter && r.session === shown.session);
    const later = season.swings.filter(
      (r) => r.hitter === hitter && r.input === shown.input && r.time! > own.at(-1)!.time!,
    );
    expect(later).toEqual([]);
    expect(shown.all).toBe(own.filter((r) => r.outcome !== "take").length);
    expect(shown.swings.length).toBe(
      own.filter((r) => r.input === shown.input && r.outcome !== "take").length,
    );
    for (const { after, minutes } of shown.rests) {
      expect(minutes).toBeGreaterThanOrEqual(3);
      expect(after).toBeLessThan(shown.all);
    }
    expect(sessionShown(season, "nobody", withinSession(season, "nobody"))).toBeNull();
  });

  it("has a trial whose difference is the truth's", () => {
    const { trial } = truths;
    expect(trialNames(season.swings)).toEqual([trial.name]);
    const found = trialResult(season, trial.name)!;
    expect(found.arms).toEqual(["long", "short"]);
    expect([found.blocks.length, found.planned, found.ended, found.clear]).toEqual([24, 24, true, true]);
    const truth = 1.2 * (trial.gives_mph.short - trial.gives_mph.long);
    expect(found.difference.low!).toBeLessThan(truth);
    expect(found.difference.high!).toBeGreaterThan(truth);
    expect(trialResult(season, trial.name, "well_hit")!.clear).toBe(false);
  });

  it("shows no drill's work in the one who stays", () => {
    const work = drillWork(season, season.targets, truths.flat.hitter);
    expect(work.length).toBeGreaterThan(0);
    expect(work.map(({ met, live }) => [met.stands, live?.shows ?? false]).flat()).not.toContain(true);
    const contrasts = work.flatMap(({ live }) => (live === null ? [] : [live]));
    expect(contrasts.length).toBeGreaterThan(0);
    for (const { low, high } of contrasts) {
      expect(low!).toBeLessThan(0);
      expect(high!).toBeGreaterThan(0);
    }
    expect(work[0]!.met.sessions.length).toBe(12);
  });
});

describe("a trial", () => {
  it("is drawn in blocks of one of each, by a seed, and refuses what is none", () => {
    const order = planTrial(["a", "b"], 40);
    expect(order).toEqual(planTrial(["a", "b"], 40));
    expect(order).not.toEqual(planTrial(["a", "b"], 40, 5));
    for (let block = 1; block <= 20; block++)
      expect(
        order
          .filter((r) => r.block === block)
          .map((r) => r.arm)
          .sort(),
      ).toEqual(["a", "b"]);
    const firsts = order.filter((r) => r.round % 2 === 1 && r.arm === "a").length;
    expect(firsts).toBeGreaterThan(4);
    expect(firsts).toBeLessThan(16);
    expect(() => planTrial(["a", "b"], 3)).toThrow(RangeError);
    expect(() => planTrial(["a", "a"], 4)).toThrow(RangeError);
    const named = { trial: "x: y", arm: "(b)", round: 3, of: 4 };
    expect(roundOf(roundName(named))).toEqual(named);
    const page = trialSheet({ trial: "<b>", rounds: order, swings: 6, needed: "So many." });
    expect(page).toContain("&lt;b&gt;: a (round");
    expect(page).not.toMatch(/<b>|<script/);
  });

  it("without a difference is clear in at most 5 of 100, and finds what it was planned for in 80", () => {
    const normal = randomNormal.source(randomFrom(9))(0, 1);
    const rounds = roundsNeeded(2, 3, 6)!;
    const found = (change: number, runs: number): number => {
      let count = 0;
      for (let run = 0; run < runs; run++) {
        const differences = Array.from(
          { length: rounds / 2 },
          () => change + 3 * Math.sqrt(2 / 6) * normal(),
        );
        if (signFlips(differences).p < 0.05) count++;
      }
      return count / runs;
    };
    expect(found(0, 600)).toBeLessThan(0.075);
    expect(found(2, 300)).toBeGreaterThan(0.72);
  });

  /** A trial whose arms are the same. */
  const alike = (seed: number, blocks: number, planned: number): SeasonSource => {
    const normal = randomNormal.source(randomFrom(seed))(0, 1);
    const sessions = ["a", "b", "c", "d"].map((s, i) => sessionOn(s, `2025-03-0${i + 1}`));
    const swings = planTrial(["x", "y"], 2 * planned, seed)
      .slice(0, 2 * blocks)
      .flatMap(({ arm, round, block }) => {
        const day = sessions[Math.floor((4 * (block - 1)) / planned)]!.session;
        return Array.from({ length: 5 }, () => {
          const speed = 75 + 3 * normal();
          return enrichedOf({
            hitter: "Ines W.",
            bats: "R",
            input: "tee",
            session: day,
            drill: roundName({ trial: "t", arm, round, of: 2 * planned }),
            outcome: "in_play",
            exit_velocity_mph: speed,
            launch_angle_deg: 12,
            power_kept: speed / 90,
          });
        });
      });
    return { swings, sessions, hitters: [], thresholds: null };
  };

  it("of two ways that are the same is clear in at most 5 of 100, sessions counted", () => {
    let clear = 0;
    for (let seed = 1; seed <= 120; seed++) if (trialResult(alike(seed, 8, 8), "t")!.clear) clear++;
    expect(clear / 120).toBeLessThanOrEqual(0.05);
  });

  it("that is stopped early says so, and is held to more", () => {
    const early = trialResult(alike(3, 4, 8), "t")!;
    expect([early.ended, early.blocks.length, early.planned]).toEqual([false, 4, 8]);
    expect(early.wider).toBeCloseTo(Math.SQRT2, 9);
    // Four blocks can't come to 1 in 1,000, whatever they show.
    expect(early.clear).toBe(false);
  });
});

it("work within a session is unknown with three sessions, and nothing where every swing is alike", () => {
  const three = teeSeason([0, 7, 14], 20, () => 75);
  const source = (made: typeof three): SeasonSource => ({ ...made, hitters: [], thresholds: null });
  expect(withinSession(source(three), "Ines W.")[0]!.reason).toMatch(/^3 sessions with 8 swings .* takes 4$/);
  const same = teeSeason([0, 7, 14, 21], 20, () => 75, { sd: 0 });
  expect(withinSession(source(same), "Ines W.").map((l) => l.reason)).toContain("the same on every swing");
});
