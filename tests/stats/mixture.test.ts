import { describe, expect, it } from "vitest";
import { asStudent, mixtureQuantile, sharesOfLogs } from "../../src/stats/mixture.ts";
import { tTail } from "../../src/stats/beta.ts";

const one = (freedom: number | null, variance = 1, mean = 0) => [{ weight: 1, mean, variance, freedom }];

describe("a mixture of one", () => {
  // Any table of Student's t, two-sided 5 % and 0.5 %.
  it.each([
    [1, 12.706, 127.32],
    [3, 3.182, 7.453],
    [10, 2.228, 3.581],
    [30, 2.042, 3.03],
    [null, 1.96, 2.807],
  ])("is Student's t with %s degrees of freedom", (freedom, near, far) => {
    expect(mixtureQuantile(one(freedom), 0.975)).toBeCloseTo(near, 2);
    expect(mixtureQuantile(one(freedom), 0.9975) / far).toBeCloseTo(1, 3);
    expect(mixtureQuantile(one(freedom, 4, 10), 0.025)).toBeCloseTo(10 - 2 * near, 1);
    expect(tTail(near, freedom)).toBeCloseTo(0.05, 3);
  });

  it("is told back as what it is", () => {
    for (const freedom of [1, 2.5, 8, 60]) {
      const told = asStudent(one(freedom, 9));
      expect(told.freedom / freedom).toBeCloseTo(1, 1);
      expect(told.se).toBeCloseTo(3, 1);
    }
    expect(asStudent(one(5, 0)).se).toBe(0);
    expect(mixtureQuantile(one(5, 0, 3), 0.9)).toBe(3);
  });
});

describe("a mixture of several", () => {
  it("has the quantile that its parts' probabilities add up to", () => {
    const parts = [
      { weight: 0.7, mean: 0, variance: 1, freedom: 12 },
      { weight: 0.3, mean: 4, variance: 9, freedom: 3 },
    ];
    const q = mixtureQuantile(parts, 0.9);
    const below = parts.reduce((sum, { weight, mean, variance, freedom }) => {
      const z = (q - mean) / Math.sqrt(variance);
      const tail = tTail(z, freedom) / 2;
      return sum + weight * (z > 0 ? 1 - tail : tail);
    }, 0);
    expect(below).toBeCloseTo(0.9, 4);
  });

  it("is where a part without a spread stands, for all the probability that is there", () => {
    // Half of it at 3, and half of the normal's below: a quarter to three quarters.
    const parts = [...one(null, 0, 3), ...one(null, 1, 3)].map((part) => ({ ...part, weight: 0.5 }));
    for (const p of [0.26, 0.4, 0.6, 0.74]) expect(mixtureQuantile(parts, p)).toBeCloseTo(3, 6);
    // 0.8 is 0.55 over, of 0.5: the normal's 60 %, 0.2533 in any table.
    expect(mixtureQuantile(parts, 0.8)).toBeCloseTo(3.2533, 3);
  });

  it("reaches farther out than a t of its own spread, and is told so by few degrees of freedom", () => {
    const parts = [
      { weight: 0.8, mean: 0, variance: 1, freedom: 40 },
      { weight: 0.2, mean: 0, variance: 25, freedom: 40 },
    ];
    const { se, freedom } = asStudent(parts);
    expect(freedom).toBeLessThan(8);
    expect(tTail(mixtureQuantile(parts, 0.975) / se, freedom)).toBeCloseTo(0.05, 3);
    expect(tTail(mixtureQuantile(parts, 0.9975) / se, freedom)).toBeCloseTo(0.005, 3);
  });

  it("weighs by logarithms that would overflow as numbers", () => {
    expect(sharesOfLogs([-2000, -2000 + Math.log(3)])[1]).toBeCloseTo(0.75, 10);
  });
});
