import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { derSimonianLaird, pooled, shrinkageFactor } from "../../src/stats/randomEffects.ts";

const normal = randomNormal.source(randomLcg(0.8))(0, 1);

describe("pooling", () => {
  const effects = [-10, -6, -5, 2];
  const variances = [9, 1, 0.25, 16];

  it("moves an uncertain figure more than a sure one, and none past the mean", () => {
    const { members, mean } = pooled(effects, variances)!;
    members.forEach((d, i) => {
      expect(Math.min(effects[i]!, mean.value)).toBeLessThanOrEqual(d.value + 0.3);
      expect(Math.max(effects[i]!, mean.value)).toBeGreaterThanOrEqual(d.value - 0.3);
      expect(d.se).toBeLessThan(Math.sqrt(variances[i]!) + mean.se);
      expect(d.low).toBeLessThan(d.value);
      expect(d.value).toBeLessThan(d.high);
    });
    expect(members[2]!.own).toBeGreaterThan(members[1]!.own);
    expect(members[1]!.own).toBeGreaterThan(members[0]!.own);
    expect(members[0]!.own).toBeGreaterThan(members[3]!.own);
  });

  it("keeps some of a member's own figure however alike they look: that they differ can't be ruled out", () => {
    const { members, tau } = pooled([1, 1.1, 0.9], [4, 4, 4])!;
    expect(derSimonianLaird([1, 1.1, 0.9], [4, 4, 4])!.tau2).toBe(0);
    for (const d of members) {
      expect(d.value).toBeCloseTo(1, 1);
      expect(d.own).toBeGreaterThan(0.1);
      // τ taken as 0 would leave the mean's own ± 1.96 · 2/√3 = 2.26.
      expect(d.high - d.value).toBeGreaterThan(2.6);
    }
    expect(tau.low).toBeLessThan(0.3);
    expect(tau.high).toBeGreaterThan(2);
  });

  it("leaves figures alone that differ by far more than they are uncertain by", () => {
    const { members } = pooled([0, 50, 100, 150], [1, 1, 1, 1])!;
    members.forEach((d, i) => {
      expect(d.value).toBeCloseTo(50 * i, 0);
      expect(d.high - d.value).toBeCloseTo(1.96, 1);
      expect(d.own).toBeGreaterThan(0.99);
    });
  });

  it("holds each member's true figure 92 to 97 times in 100, and the group's, with eight members", () => {
    for (const tau of [0, 1, 3]) {
      let [held, n, mean] = [0, 0, 0];
      const groups = 100;
      for (let g = 0; g < groups; g++) {
        const truths = Array.from({ length: 8 }, () => -3 + tau * normal());
        const errors = truths.map((_, i) => 0.8 + 0.25 * i);
        const found = pooled(
          truths.map((t, i) => t + errors[i]! * normal()),
          errors.map((e) => e * e),
        )!;
        found.members.forEach(({ low, high }, i) => {
          n++;
          if (low <= truths[i]! && truths[i]! <= high) held++;
        });
        if (found.mean.low <= -3 && -3 <= found.mean.high) mean++;
      }
      expect(held / n, `τ ${tau}`).toBeGreaterThan(0.92);
      // Nobody who differs: that can't be known from eight, and is not taken for granted.
      if (tau === 3) expect(held / n, `τ ${tau}`).toBeLessThan(0.975);
      expect(mean / groups, `τ ${tau}`).toBeGreaterThan(0.88);
    }
  });
});

it("says what can't be: one member, no variance, lists that differ, too few to pool", () => {
  expect(derSimonianLaird([1], [1])).toBeNull();
  expect(pooled([1], [1])).toBeNull();
  expect(() => pooled([1, 2], [1, 0])).toThrow(/above 0/);
  expect(() => derSimonianLaird([1, 2], [1, 0])).toThrow(/above 0/);
  expect(() => derSimonianLaird([1, 2], [1])).toThrow(/2 figures and 1/);
  expect(() => shrinkageFactor([1, 2, 3], 1)).toThrow(/too few/);
  expect(shrinkageFactor([1, 1, 1, 1], 1)).toBe(0);
});
