import { describe, expect, it } from "vitest";
import { derSimonianLaird, drawIn, shrinkageFactor } from "../../src/stats/randomEffects.ts";

describe("drawing in", () => {
  const effects = [-10, -6, -5, 2];
  const variances = [9, 1, 0.25, 16];
  const fit = derSimonianLaird(effects, variances)!;

  it("moves a doubtful figure more than a sure one, and none past the mean", () => {
    const drawn = drawIn(effects, variances, fit);
    drawn.forEach((d, i) => {
      expect(Math.min(effects[i]!, fit.mean)).toBeLessThanOrEqual(d.value);
      expect(Math.max(effects[i]!, fit.mean)).toBeGreaterThanOrEqual(d.value);
      expect(d.se).toBeLessThan(Math.sqrt(variances[i]!) + fit.se);
    });
    expect(drawn[2]!.own).toBeGreaterThan(drawn[1]!.own);
    expect(drawn[1]!.own).toBeGreaterThan(drawn[3]!.own);
  });

  it("to the mean itself when the figures differ no more than their doubts", () => {
    const alike = derSimonianLaird([1, 1.1, 0.9], [4, 4, 4])!;
    expect(alike.tau2).toBe(0);
    for (const d of drawIn([1, 1.1, 0.9], [4, 4, 4], alike)) expect(d.value).toBeCloseTo(1, 12);
  });

  it("gives fewer degrees of freedom a wider interval", () => {
    const [few] = drawIn([3], [1], fit, [3]);
    const [many] = drawIn([3], [1], fit, [null]);
    expect(few!.high - few!.low).toBeGreaterThan(1.5 * (many!.high - many!.low));
  });
});

it("says what can't be: one member, no variance, lists that differ, too few to draw in", () => {
  expect(derSimonianLaird([1], [1])).toBeNull();
  expect(() => derSimonianLaird([1, 2], [1, 0])).toThrow(/above 0/);
  expect(() => derSimonianLaird([1, 2], [1])).toThrow(/2 figures and 1/);
  expect(() => shrinkageFactor([1, 2, 3], 1)).toThrow(/too few/);
  expect(shrinkageFactor([1, 1, 1, 1], 1)).toBe(0);
});
