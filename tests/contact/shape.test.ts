/** The shape of the ceiling: held against a collision worked out in three dimensions, and against other edges. */
import { quantile, randomNormal } from "d3";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { collide } from "../../data/demo/bat-and-ball.ts";
import { enricher } from "../../src/contact/enrich.ts";
import { derivedAt, derivedShape, pooledShape, shapeAt, type ShapeSample } from "../../src/contact/shape.ts";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { departureOf } from "../../src/field/vector.ts";
import { randomFrom } from "../../src/stats/random.ts";
import { openLibrary } from "../../src/library/library.ts";
import { deg, mph } from "../../src/units/index.ts";

const { collision_q: q, ceiling_below_deg: below, ceiling_above_deg: above } = defaultThresholds;

describe("the derived shape", () => {
  it("is 1 at its best, 2° under the bat's path, and falls off on both sides", () => {
    expect(derivedAt(-2, q)).toBeCloseTo(1, 12);
    for (let off = 0; off < 30; off++) {
      expect(derivedAt(-3 - off, q)).toBeLessThan(derivedAt(-2 - off, q));
      expect(derivedAt(-1 + off, q)).toBeLessThan(derivedAt(-2 + off, q));
    }
  });

  it("is the cosine where the ball keeps nothing of its way across, and the bat gives nothing", () => {
    // Grip takes 2/7 of pitch and bat together: at a pitch of 0.4 of the bat it takes just what the ball brings.
    for (const off of [-30, -10, 5, 20, 35]) {
      const cos = Math.cos((off + 2) * deg);
      expect(derivedAt(off, q, 0.4)).toBeCloseTo(((0.08 + 1.2) * cos - 0.08) / 1.2, 9);
    }
  });

  it.each([0, 0.4, 1])(
    "is what a bat level with the ground gives a ball coming at %s of its speed",
    (ratio) => {
      const bat = 70 * mph;
      const leave = (offset: number) => {
        const { velocity } = collide({
          batSpeed: bat,
          attackAngle: 0,
          face: 0,
          path: 0,
          barrelDrop: 0,
          offset,
          alongBarrel: 0,
          ballVelocity: [0, -ratio * bat, 0],
          ballSpin: [0, 0, 0],
        });
        return departureOf(velocity);
      };
      const own = (speed: number) => speed - q * ratio * bat;
      const best = own(leave(0).speed);
      for (const offset of [-0.03, -0.015, 0.005, 0.02, 0.03]) {
        const { speed, launchAngle_deg } = leave(offset);
        expect(derivedAt(launchAngle_deg - 2, q, ratio)).toBeCloseTo(own(speed) / best, 6);
      }
    },
  );

  it("ends with the ceiling's range", () => {
    expect(shapeAt(derivedShape, -below, defaultThresholds)).not.toBeNull();
    expect(shapeAt(derivedShape, above, defaultThresholds)).not.toBeNull();
    expect(shapeAt(derivedShape, -below - 0.01, defaultThresholds)).toBeNull();
    expect(shapeAt(derivedShape, above + 0.01, defaultThresholds)).toBeNull();
    expect(shapeAt(derivedShape, NaN, defaultThresholds)).toBeNull();
  });
});

/** Hitters whose upper edge has a shape of its own: skewed below it, mishits further off the best angle. */
function squad(edge: (off: number) => number, hitters: number, balls: number, seed: number): ShapeSample[] {
  const uniform = randomFrom(seed);
  const normal = randomNormal.source(uniform)();
  return Array.from({ length: hitters }, () => {
    const top = 80 + 8 * normal();
    const offs_deg = Array.from({ length: balls }, () => 4 + 14 * normal());
    const speeds = offs_deg.map((off) => {
      const lost = uniform() < 0.7 ? 0.05 : 0.05 + 0.004 * Math.abs(off);
      return top * (edge(off) + 0.02 * normal() + lost * Math.log(1 - uniform()));
    });
    return { speeds, offs_deg };
  });
}

/** Of the balls in each 10° of the range, the share above the hitter's own 95th percentile of speed ÷ shape. */
function aboveByBand(samples: readonly ShapeSample[]): { share: number; n: number }[] {
  const shape = pooledShape(samples, defaultThresholds);
  const bands = Array.from({ length: Math.ceil((below + above) / 10) }, () => ({ over: 0, n: 0 }));
  for (const { speeds, offs_deg } of samples) {
    const balls = offs_deg.flatMap((off, i) => {
      const share = shapeAt(shape, off, defaultThresholds);
      return share === null ? [] : [{ off, u: speeds[i]! / share }];
    });
    const top = quantile(balls, 0.95, ({ u }) => u)!;
    for (const { off, u } of balls) {
      const band = bands[Math.min(bands.length - 1, Math.floor((off + below) / 10))]!;
      band.n++;
      if (u > top) band.over++;
    }
  }
  return bands.map(({ over, n }) => ({ share: over / n, n }));
}

describe("the shape a library's balls show", () => {
  it.each([
    ["flat", () => 1],
    ["a cosine", (off: number) => Math.cos(off * deg)],
    ["steep above, shallow below", (off: number) => 1 - (off > 0 ? 0.008 : 0.001) * Math.abs(off)],
    ["highest at 12° more", (off: number) => Math.cos((off - 12) * deg)],
  ])("puts 5 ± 2 in 100 above the ceiling in every band, whatever the edge: %s", (_, edge) => {
    for (const { share, n } of aboveByBand(squad(edge, 12, 1500, 3))) {
      // Two standard errors of a count are the sample's, not the shape's.
      const chance = 2 * Math.sqrt((0.05 * 0.95) / n);
      expect(Math.abs(share - 0.05), `${share} of ${n}`).toBeLessThan(0.02 + chance);
    }
  });

  it("stays the derived one without balls, and near it with few", () => {
    expect(pooledShape([], defaultThresholds)).toEqual(derivedShape);
    // Nineteen balls have no top end of their own.
    expect(
      pooledShape(
        squad(() => 1, 3, 19, 1),
        defaultThresholds,
      ),
    ).toEqual(derivedShape);
    const few = pooledShape(
      squad(() => 1, 1, 40, 1),
      defaultThresholds,
    );
    for (const off of [-10, 0, 10])
      expect(shapeAt(few, off, defaultThresholds)! / derivedAt(off, q)).toBeCloseTo(1, 1);
  });

  it("is as high as the derived one on the whole, so that a level's figure means the same", () => {
    const samples = squad(() => 1, 8, 500, 2);
    const { corrections, n } = pooledShape(samples, defaultThresholds);
    const mean = corrections.reduce((sum, v, k) => sum + v * n[k]!, 0) / n.reduce((a, b) => a + b, 0);
    expect(Math.abs(mean)).toBeLessThan(0.01);
  });
});

it("puts 5 ± 2 in 100 above the ceiling in every band of the demo", async () => {
  const library = await openLibrary(fileURLToPath(new URL("../../data/demo", import.meta.url)));
  const { ceilings, enrich } = enricher(library);
  const listed = new Map(library.hitters.map((h) => [h.hitter, h.bats]));
  const bands = Array.from({ length: Math.ceil((below + above) / 10) }, () => ({ over: 0, n: 0 }));
  for (const swing of library.swings) {
    const row = enrich(swing);
    if (row.power_kept === null) continue;
    const side = row.bats ?? (listed.get(row.hitter) as "L" | "R");
    const { angle_deg } = ceilings.byHitter.get(row.hitter)![side]!.together;
    const band = bands[Math.min(6, Math.floor((row.launch_angle_deg! - angle_deg + below) / 10))]!;
    band.n++;
    if (row.power_kept > 1) band.over++;
  }
  for (const { over, n } of bands) {
    expect(n).toBeGreaterThan(20);
    const chance = 2 * Math.sqrt((0.05 * 0.95) / n);
    expect(Math.abs(over / n - 0.05), `${over} of ${n}`).toBeLessThan(n > 200 ? 0.02 : 0.02 + chance);
  }
});
