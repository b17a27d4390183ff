import { describe, expect, it } from "vitest";
import type { CarryAnswer } from "../../src/cli/carry.ts";
import { kmh, mph, type UnitName } from "../../src/units/index.ts";
import { gapWords } from "../../src/views/sentences/gap.ts";
import { run } from "./run.ts";

const hit = ["--exit-velocity", "100", "--launch-angle", "28", "--spray-angle", "5"];
const calls: readonly [readonly string[]][] = [
  [["gap"]],
  [["gap", "--hitter", "Ada K."]],
  [["gap", "--full"]],
  [["progress", "--hitter", "Ada K."]],
  [["trial", "--library", "data/season"]],
  [["trial", "--name", "Tee heights", "--arm", "high", "--arm", "low"]],
  [["drift"]],
  [["carry", ...hit, "--wind", "10", "--wind-toward", "0"]],
];

describe("--units metric", { timeout: 120_000 }, () => {
  it.each(calls)("leaves no figure of %j in other units", async (call) => {
    const [us, metric] = [await run(...call), await run(...call, "--units", "metric")];
    expect(metric.status).toBe(us.status);
    expect(us.out).toMatch(/\bmph\b/);
    expect(us.out).not.toMatch(/km\/h/);
    expect(metric.out).toMatch(/km\/h/);
    expect(metric.out).not.toMatch(/\b(mph|ft)\b/);
    expect(metric.out.split("\n").length).toBe(us.out.split("\n").length);
  });

  it("gives a part of a gap in kilometers an hour: 1 mph is 1.609344 (NIST SP 811)", async () => {
    expect(mph / kmh).toBeCloseTo(1.609344, 9);
    const call = ["gap", "--hitter", "Ada K."];
    const json = JSON.parse((await run(...call, "--json")).out) as {
      hitters: { exitVelocity: { parts: { part: string; value: number }[] } }[];
    };
    const place = json.hitters[0]!.exitVelocity.parts.find(({ part }) => part === "place")!.value;
    const { out } = await run(...call, "--units", "metric");
    const printed = /place\s+([−+]\d+\.\d)/.exec(out)![1]!.replace("−", "-");
    // Parts are rounded so that they add up: by a tenth at most.
    expect(Math.abs(Number(printed) - place * 1.609344)).toBeLessThan(0.1);
    expect(Math.abs(Number(printed) - place)).toBeGreaterThan(0.2);
  });
});

describe("--json with --units metric", { timeout: 120_000 }, () => {
  interface Measure {
    readonly unit: UnitName;
    readonly value: number | null;
    readonly low: number | null;
    readonly high: number | null;
    readonly reason: string | null;
    readonly words: string;
  }
  const measures = async (...more: string[]): Promise<readonly Measure[]> => {
    const { out } = await run("gap", "--hitter", "Ada K.", "--json", ...more);
    return (JSON.parse(out) as { hitters: { measures: Measure[] }[] }).hitters[0]!.measures;
  };

  it("says a gap in the words of the page, and leaves each number in the unit beside it", async () => {
    const [us, metric] = [await measures(), await measures("--units", "metric")];
    const numbers = (all: readonly Measure[]) => all.map(({ words: _, ...rest }) => rest);
    expect(numbers(metric)).toEqual(numbers(us));
    for (const one of us) expect(one.words).toBe(gapWords(one, one.unit, "us"));
    for (const one of metric) expect(one.words).toBe(gapWords(one, one.unit, "metric"));
    expect(us.some(({ words }) => / mph$/.test(words))).toBe(true);
    expect(metric.some(({ words }) => / km\/h$/.test(words))).toBe(true);
  });

  it("says what was assumed of a ball so, and gives the same flight", async () => {
    const call = ["carry", ...hit, "--json"];
    const us = JSON.parse((await run(...call)).out) as CarryAnswer;
    const metric = JSON.parse((await run(...call, "--units", "metric")).out) as CarryAnswer;
    expect({ ...metric, assumed: [] }).toEqual({ ...us, assumed: [] });
    expect(us.assumed).toContain("70 °F");
    expect(metric.assumed).toContain("21 °C");
    expect(metric.assumed.join()).not.toMatch(/\d (ft|mph|°F)/);
  });
});

describe("what is asked of a trial's swings", { timeout: 120_000 }, () => {
  const season = ["trial", "--library", "data/season"];
  const blocks = (text: string): number =>
    text.split("\n").filter((line) => /^ {2}block \d/.test(line)).length;

  it("days leave the blocks of these days, and a plan that hasn't come to its end", async () => {
    const [all, first] = [await run(...season), await run(...season, "--until", "2025-09-30")];
    expect(blocks(all.out)).toBe(24);
    expect(blocks(first.out)).toBe(9);
    expect(first.out).toMatch(/9 of 24 blocks are done/);
    const none = await run(...season, "--until", "2020-01-01");
    expect(none.status).toBe(2);
    expect(none.err).toMatch(/has no swings/);
  });

  it("a hitter leaves this hitter's trials, and a name that isn't there is told", async () => {
    const { trials } = JSON.parse((await run(...season, "--json")).out) as {
      trials: { blocks: { hitter: string }[] }[];
    };
    const whose = trials[0]!.blocks[0]!.hitter;
    expect((await run(...season, "--hitter", whose)).out).toBe((await run(...season)).out);
    expect((await run(...season, "--hitter", "Ivo S.")).out).toMatch(/No swing here is of a trial/);
    const wrong = await run(...season, "--hitter", "Nobody");
    expect(wrong.status).toBe(2);
    expect(wrong.err).toMatch(/no hitter named "Nobody"/);
  });
});
