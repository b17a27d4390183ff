/** What a season shows: the demo's improving hitter and no other, by the hitter's own doing alone, and nothing too early. */
import { beforeAll, describe, expect, it } from "vitest";
import kept from "../../data/progress-simulation.json" with { type: "json" };
import truths from "../../data/demo/truths.json" with { type: "json" };
import { simulateSeasons, season, simulationTable, type Found } from "../../data/progress-simulation.ts";
import { readFileSync } from "node:fs";
import { enrich } from "../../src/contact/enrich.ts";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { openLibrary } from "../../src/library/library.ts";
import { evened } from "../../src/season/evened.ts";
import { progress, standingLines, type SeasonSource } from "../../src/season/progress.ts";
import { seasons } from "../../src/season/plan.ts";
import { enrichedOf } from "../../src/swing/unknown.ts";
import { dayOf, sessionOn, teeSeason } from "./rows.ts";

const eight = [0, 3, 7, 10, 14, 17, 21, 24, 28, 31, 35, 38];
const source = (made: Pick<SeasonSource, "swings" | "sessions">): SeasonSource => ({
  ...made,
  hitters: [{ hitter: "Ines W.", bats: "R", level: "under 16", height_in: 66 }],
  thresholds: null,
});

describe("the demo", () => {
  let demo: SeasonSource;
  beforeAll(async () => {
    const library = await openLibrary("data/demo");
    demo = { ...library, swings: enrich(library) };
  });

  it("has one hitter who improves, by about the truth, and no other who changes", () => {
    const told = seasons(demo).map(({ hitter, lines }) => ({
      hitter,
      verdicts: [...new Set(standingLines(lines).map((l) => l.verdict))],
    }));
    expect(told.length).toBe(8);
    expect(told.filter((t) => t.verdicts.length > 0)).toEqual([
      { hitter: truths.improving.hitter, verdicts: ["improving"] },
    ]);
    const tee = progress(demo, truths.improving.hitter).lines.find((l) => l.first && l.input === "tee")!;
    // (1 + q) of what the bat gains.
    const truth = truths.improving.gain_mph_a_week * 1.2 * tee.weeks;
    expect(tee.change.low!).toBeLessThan(truth);
    expect(tee.change.high!).toBeGreaterThan(truth);
    expect(tee.second.low!).toBeGreaterThan(0);
  });
});

describe("swings evened out", () => {
  const live = (pitch: number) =>
    enrichedOf({
      hitter: "Ines W.",
      bats: "R",
      input: "live",
      session: "a",
      outcome: "in_play",
      exit_velocity_mph: 74 + 0.2 * pitch,
      launch_angle_deg: 20,
      spray_angle_deg: 0,
      pitch_speed_mph: pitch,
      power_kept: 0.9,
      carry_ft: 250,
    });

  it("are the same against faster pitching, on a warmer day, and unknown where the pitch is", () => {
    const cold = sessionOn("a", "2025-03-03", { temperature_f: 40 });
    const hot = sessionOn("a", "2025-03-03", { temperature_f: 100 });
    const [slow] = evened([live(50)], [cold], defaultThresholds);
    const [fast] = evened([live(85)], [hot], defaultThresholds);
    expect(slow!.exit_velocity_mph).toBeCloseTo(74, 9);
    expect(fast!.exit_velocity_mph).toBeCloseTo(74, 9);
    expect(fast!.carry_ft).toBeCloseTo(slow!.carry_ft!, 9);
    const [unknown] = evened([{ ...live(50), pitch_speed_mph: null }], [cold], defaultThresholds);
    expect([unknown!.exit_velocity_mph, unknown!.carry_ft, unknown!.like_angle_mph]).toEqual([
      null,
      null,
      null,
    ]);
  });
});

describe("a season", () => {
  it("finds a gain, and a decline, and calls neither what stays", () => {
    const verdictOf = (slope: number) =>
      standingLines(progress(source(teeSeason(eight, 25, (d) => 75 + slope * d)), "Ines W.").lines)[0]
        ?.verdict;
    expect(verdictOf(0.1)).toBe("improving");
    expect(verdictOf(-0.1)).toBe("declining");
    expect(verdictOf(0)).toBeUndefined();
  });

  it("says nothing with three sessions, within a week, or without dates, and why", () => {
    const rising = (days: readonly number[]) => teeSeason(days, 25, (d) => 70 + 2 * d);
    const reasonOf = (made: ReturnType<typeof rising>): string | null =>
      progress(source(made), "Ines W.").lines.find((l) => l.first)!.reason;
    expect(reasonOf(rising([0, 7, 14]))).toBe("3 sessions with enough swings: it takes 4");
    expect(reasonOf(rising([0, 1, 2, 3, 4, 5, 6]))).toBe("all within 7 days: it takes 2 weeks");
    const dateless = rising([0, 7, 14, 21]);
    const found = progress(
      source({
        swings: dateless.swings.map((s) => ({ ...s, time: null })),
        sessions: dateless.sessions.map((s, i) => (i === 3 ? { ...s, date: null } : s)),
      }),
      "Ines W.",
    );
    expect(found.without_date).toEqual([`${dayOf(21)} 3`]);
    expect(found.lines.find((l) => l.first)!.sessions.length).toBe(3);
    expect(progress(source({ swings: [], sessions: [] }), "Ines W.").lines).toEqual([]);
  });

  it("takes two sessions on one day as two, and days within the span alone", () => {
    const made = teeSeason([0, 0, 7, 7, 14, 21], 25, () => 75);
    const first = progress(source(made), "Ines W.").lines.find((l) => l.first)!;
    expect(first.sessions.map((s) => s.weeks)).toEqual([0, 0, 1, 1, 2, 3]);
    const short = progress(source(made), "Ines W.", { since: dayOf(5), until: dayOf(15) });
    expect(short.lines.find((l) => l.first)!.sessions.length).toBe(3);
  });
});

describe("simulated seasons", () => {
  const found = kept.found as readonly Found[];

  it("call fewer than 5 in 100 flat hitters improving, and find 3 mph in over 80", () => {
    expect(kept.season).toEqual({ ...season });
    const flat = found.filter((f) => f.gain_mph === 0);
    expect(flat.length).toBe(3);
    for (const { improving, declining, seasons: n, days } of flat) {
      expect(improving / n, days).toBeLessThan(0.05);
      expect(declining / n, days).toBeLessThan(0.05);
    }
    const gained = found.find((f) => f.gain_mph === 3 && f.days === "0.5 mph")!;
    expect(gained.speed / gained.seasons).toBeGreaterThan(0.8);
    for (const { held, seasons: n, days } of found) expect(held / n, days).toBeGreaterThan(0.9);
  });

  it("are what the simulation gives, and what DEVELOPERS.md shows", () => {
    const two = simulateSeasons("1 mph", 3, 2);
    expect(two).toEqual(simulateSeasons("1 mph", 3, 2));
    expect(two.seasons).toBe(2);
    const cells = (text: string): string => text.replace(/[ -]+/g, " ");
    expect(cells(readFileSync("DEVELOPERS.md", "utf8"))).toContain(cells(simulationTable(found)));
  });
});
