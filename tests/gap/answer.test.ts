/** The answer in sentences: which come, in which order, with which figures. */
import { describe, expect, it } from "vitest";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { gapAnswer } from "../../src/gap/answer.ts";
import { gap, measureGap } from "../../src/gap/gap.ts";
import { measureNamed } from "../../src/gap/measures.ts";
import { splitExitVelocity } from "../../src/gap/parts.ts";
import type { ReadySwing } from "../../src/gap/rows.ts";
import { beyondPitchSentence, gapSentence } from "../../src/views/sentences/gap.ts";
import { signedWords, valueWords } from "../../src/views/words.ts";
import { ball, demo } from "./support.ts";

const works = { from: "tee", to: "live" } as const;

describe("a gap's answer", () => {
  it("leads with what is beyond the pitches, then what they give and the gap in all, then the parts", async () => {
    const { ready } = await demo();
    for (const hitter of ready.hitters) {
      const one = gap(ready, hitter);
      const { beyondPitch, parts, predicted } = one.exitVelocity;
      if (beyondPitch.value === null) continue;
      const speed = one.measures.find(({ measure }) => measure === "exit_velocity")!;
      const [first, second, ...rest] = gapAnswer(one, speed, works);
      expect(first).toBe(beyondPitchSentence(beyondPitch, works));
      const pitch = parts.find(({ part }) => part === "pitch speed")!.value!;
      expect(second).toContain(
        `by itself gives ${signedWords(pitch, "mph", "us")}: the swings as off the tee would come to ${valueWords(predicted.value!, "mph", "us", 1)}.`,
      );
      expect(second).toContain(`In all, the difference is ${signedWords(speed.value!, "mph", "us")}`);
      expect(rest).toHaveLength(1);
      expect(rest[0]).toMatch(/^(?:Beyond the pitches' speed no part|Most is (?:lost|gained) by)/);
      // Any other measure is one sentence.
      const angle = one.measures.find(({ measure }) => measure === "launch_angle")!;
      expect(gapAnswer(one, angle, works)).toEqual([gapSentence(angle, works)]);
    }
  });

  it("is the gap itself where no pitch speed is known, and nothing is said of what pitches give", () => {
    const side = (input: "tee" | "live", speed: number): ReadySwing[] =>
      Array.from({ length: 30 }, (_, i) => ball({ input, exit_velocity_mph: speed + (i % 7), cell: i % 2 }));
    const sides = { from: side("tee", 80), to: side("live", 84) };
    const ready = { thresholds: defaultThresholds };
    const speed = measureGap(measureNamed("exit_velocity"), sides, ready);
    const answer = gapAnswer({ exitVelocity: splitExitVelocity(sides, ready) }, speed, works);
    expect(answer[0]).toBe(gapSentence(speed, works));
    expect(answer).toHaveLength(2);
    expect(answer[1]).toMatch(
      /^Most is gained by contact \(with the pitches' speed and bat speed, which can't be told\): \+4\.0 mph/,
    );
  });
});
