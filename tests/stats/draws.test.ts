/** Draws kept and looked up, against drawing the plain way; and the figures of drawn places against those of values. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  group,
  mean,
  quantile,
  quantileOf,
  quantilesOf,
  replicates,
  spread,
  type Grouped,
} from "../../src/stats/bootstrap.ts";
import { eachHalving, eachResample } from "../../src/stats/draws.ts";
import { randomFrom } from "../../src/stats/random.ts";

/** Two-stage draws as one would write them down first. */
function plainly(samples: readonly Grouped[], seed: number, times: number): number[][][] {
  const random = randomFrom(seed);
  const pick = (n: number): number => Math.floor(random() * n);
  return Array.from({ length: times }, () =>
    samples.map(({ starts, groups }) =>
      Array.from({ length: groups }, () => {
        const k = groups === 1 ? 0 : pick(groups);
        const size = starts[k + 1]! - starts[k]!;
        return Array.from({ length: size }, () => starts[k]! + pick(size));
      }).flat(),
    ),
  );
}

function drawn(samples: readonly Grouped[], seed: number, times: number): number[][][] {
  const all: number[][][] = [];
  eachResample(samples, seed, times, (places, bounds) => {
    all.push(samples.map((_, s) => [...places.subarray(bounds[s]!, bounds[s + 1]!)]));
  });
  return all;
}

const inSessions = (sizes: readonly number[]): Grouped =>
  group(
    sizes.flatMap((n, k) => Array.from({ length: n }, (_, i) => 100 * k + i)),
    sizes.flatMap((n, k) => Array.from({ length: n }, () => `day ${k}`)),
  );

describe("draws", () => {
  it("are those of the plain way, the first time and when they were kept", () => {
    const sizes = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(fc.array(sizes, { minLength: 1, maxLength: 2 }), fc.nat(99), (sides, seed) => {
        const samples = sides.map(inSessions);
        const wanted = plainly(samples, seed, 7);
        expect(drawn(samples, seed, 7)).toEqual(wanted);
        expect(drawn(samples, seed, 7)).toEqual(wanted);
      }),
    );
  });

  it("are the same where there are too many to keep", () => {
    const many = [inSessions([40_000, 30_000])];
    expect(drawn(many, 5, 2)).toEqual(plainly(many, 5, 2));
  });

  it("stay right when more shapes are asked for than are kept", () => {
    const sums = (n: number): number[] => [
      ...replicates(inSessions([n, n]), mean, 1, 1000),
      ...replicates(inSessions([n]), spread, 1, 1000),
    ];
    const wanted = sums(1500);
    for (let n = 1600; n < 1605; n++) sums(n);
    expect(sums(1500)).toEqual(wanted);
  });
});

describe("halvings", () => {
  it("are those of a shuffle written down first, kept or not", () => {
    const plain = (sizes: readonly number[], seed: number, times: number): number[][][] => {
      const random = randomFrom(seed);
      const orders = sizes.map((n) => Array.from({ length: n }, (_, i) => i));
      return Array.from({ length: times }, () =>
        orders.map((order) => {
          const used = order.length - (order.length % 2);
          for (let i = 0; i < used; i++) {
            const j = i + Math.floor(random() * (order.length - i));
            [order[i], order[j]] = [order[j]!, order[i]!];
          }
          return order.slice(0, used);
        }),
      );
    };
    for (const sizes of [[4, 7, 12], [66_000]]) {
      for (let turn = 0; turn < 2; turn++) {
        const all: number[][][] = [];
        eachHalving(sizes, 3, 5, (places, bounds) => {
          all.push(sizes.map((_, m) => [...places.subarray(bounds[m]!, bounds[m + 1]!)]));
        });
        expect(all).toEqual(plain(sizes, 3, 5));
      }
    }
  });
});

describe("a figure of drawn places", () => {
  const some = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 2, maxLength: 40 });

  it.each([
    ["mean", mean],
    ["spread", spread],
    ["median", quantile(0.5)],
    ["top end", quantile(0.95)],
    ["least", quantile(0)],
    ["most", quantile(1)],
  ])("%s: is that of the values at those places", (_, statistic) => {
    fc.assert(
      fc.property(some, fc.nat(99), (values, seed) => {
        const sample = group(values.map((v) => v / 7));
        const wanted = drawn([sample], seed, 20).map(([places]) =>
          statistic(
            Float64Array.from(places!, (at) => sample.values[at]!),
            values.length,
          ),
        );
        // Values of up to 9/7: what differs is the order they are added up in.
        replicates(sample, statistic, seed, 20).forEach((v, i) => expect(v).toBeCloseTo(wanted[i]!, 12));
      }),
    );
  });
});

describe("quantiles of values in any order", () => {
  it("are those of the sorted values", () => {
    const value = fc.oneof(
      fc.double({ min: -100, max: 100, noNaN: true }),
      fc.constantFrom(0, 1, 1, 5e-324, 1e300),
    );
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 200 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 3 }),
        (values, ps) => {
          // Zeros have a sign that no interval shows.
          const list = Float64Array.from(values, (v) => v + 0);
          const sorted = list.slice().sort();
          expect(quantilesOf(list, ps)).toEqual(ps.map((p) => quantileOf(sorted, p)));
        },
      ),
    );
  });
});
