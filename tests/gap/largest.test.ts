/** What most is lost by: all that can't be told apart from the largest, and nothing where nothing stands. */
import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { gapAnswer } from "../../src/gap/answer.ts";
import { gap } from "../../src/gap/gap.ts";
import { largestParts } from "../../src/gap/largest.ts";
import { splitExitVelocity, type GapPart, type PartContrast, type PartName } from "../../src/gap/parts.ts";
import type { ReadySwing } from "../../src/gap/rows.ts";
import { ball, demo } from "./support.ts";

const figure = (value: number, half: number) => ({
  value,
  low: value - half,
  high: value + half,
  se: half / 2,
  freedom: 60,
  reason: null,
});
const part = (name: PartName, value: number, half: number): GapPart => ({
  part: name,
  ...figure(value, half),
});
const contrast = (a: PartName, b: PartName, value: number, half: number): PartContrast => ({
  parts: [a, b],
  ...figure(value, half),
});

describe("the largest part", () => {
  it("is named alone only where each other part stands apart from it", () => {
    const parts = [part("place", -1, 0.9), part("bat speed", -4, 1), part("contact", 0, 1)];
    const [lost, ...rest] = largestParts({
      parts,
      contrasts: [
        contrast("place", "bat speed", 3, 1),
        contrast("place", "contact", -1, 2),
        contrast("bat speed", "contact", -4, 1),
      ],
    });
    expect(rest).toEqual([]);
    expect(lost).toMatchObject({ way: "lost", alike: [] });
    expect(lost!.part.part).toBe("bat speed");
  });

  it("brings every part that could be as large, clear or not", () => {
    const parts = [part("place", -1, 3), part("bat speed", -4, 1), part("contact", -3.9, 1)];
    const [lost] = largestParts({
      parts,
      contrasts: [
        contrast("place", "bat speed", 3, 3.2),
        contrast("place", "contact", 2.9, 3.2),
        contrast("bat speed", "contact", -0.1, 1),
      ],
    });
    expect(lost!.alike.map((p) => p.part)).toEqual(["place", "contact"]);
  });

  it("is none where no part stands with all of them looked at, and the pitches' part never is", () => {
    const parts = [
      part("pitch speed", 14, 1),
      part("place", -1, 0.95),
      part("bat speed", 1, 2),
      part("contact", 1, 2),
    ];
    // Alone, place would stand: −1 (−1.95 to −0.05).
    expect(largestParts({ parts, contrasts: [] })).toEqual([]);
    expect(largestParts({ parts: [part("place", -1, 0.95)], contrasts: [] })).toHaveLength(1);
  });

  it("is told of losses and of gains", () => {
    const parts = [part("place", -5, 1), part("contact", 4, 1)];
    const both = largestParts({ parts, contrasts: [contrast("place", "contact", -9, 1)] });
    expect(both.map((b) => [b.way, b.part.part])).toEqual([
      ["lost", "place"],
      ["gained", "contact"],
    ]);
  });
});

it("contrasts are the parts' differences, on the same resamples, for every pair that is told", async () => {
  const { ready } = await demo();
  for (const hitter of ready.hitters) {
    const { parts, contrasts } = gap(ready, hitter, { measures: [] }).exitVelocity;
    const told = parts.filter((p) => p.part !== "pitch speed" && p.value !== null);
    expect(contrasts).toHaveLength((told.length * (told.length - 1)) / 2);
    for (const c of contrasts) {
      const [a, b] = c.parts.map((name) => parts.find((p) => p.part === name)!.value!);
      expect(c.value).toBeCloseTo(a! - b!, 9);
      expect(c.se!).toBeGreaterThan(0);
    }
  }
});

describe("swings of which bat speed and contact lose the same", () => {
  const normal = randomNormal.source(randomLcg(0.5))();
  const sides = (lost: { bat: number; contact: number }) => {
    const side = (input: "tee" | "live"): ReadySwing[] =>
      Array.from({ length: 120 }, (_, i) => {
        const live = input === "live";
        const bat = 68 + 2 * normal() - (live ? lost.bat / 1.2 : 0);
        return ball({
          input,
          // Each session has balls in both cells: a day is not a place.
          session: `${input} ${(i >> 1) % 4}`,
          cell: i % 2 === 0 ? 4 : 1,
          plate_speed_mph: live ? 72 : 0,
          bat_speed_mph: bat,
          exit_velocity_mph: 1.2 * bat + (live ? 0.2 * 72 - lost.contact : 0) + 2 * normal(),
        });
      });
    return { from: side("tee"), to: side("live") };
  };
  const said = (lost: { bat: number; contact: number }): string => {
    const hitter = { exitVelocity: splitExitVelocity(sides(lost), { thresholds: defaultThresholds }) };
    const { gap: g } = hitter.exitVelocity;
    const measure = { ...g, measure: "exit_velocity", title: "Exit velocity, mean", unit: "mph" };
    return gapAnswer(hitter, measure as never, { from: "tee", to: "live" }).join(" ");
  };

  it("have both named", () => {
    const text = said({ bat: 5, contact: 5 });
    expect(text).toMatch(/^beyond the pitches' speed, mean exit velocity is lower by \d+ to \d+ mph live/);
    expect(text).toMatch(/Most is lost by .*; it can't be told apart from /);
    expect(text).toMatch(/bat speed/);
    expect(text).toMatch(/contact, all that is left/);
  });

  it("have one named where it alone loses, and none where nothing is lost", () => {
    expect(said({ bat: 6, contact: 0 })).toMatch(/Most is lost by bat speed: −\d\.\d mph \([^)]*\)\.$/);
    expect(said({ bat: 0, contact: 0 })).toMatch(
      /Beyond the pitches' speed no part stands out beyond chance\.$/,
    );
  });
});
