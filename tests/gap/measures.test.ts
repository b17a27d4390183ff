/** Measures of one side and between two, by hand. */
import { describe, expect, it } from "vitest";
import { defaultThresholds as thresholds } from "../../src/contact/thresholds.ts";
import { differenceOf, estimateOf, gapMeasures, measureNamed, sampleOf } from "../../src/gap/measures.ts";
import type { ReadySwing } from "../../src/gap/rows.ts";
import { ball } from "./support.ts";

const of = (name: string, rows: readonly ReadySwing[]) => sampleOf(measureNamed(name), rows, thresholds);
const speeds = (list: readonly (number | null)[], given: Partial<ReadySwing> = {}): ReadySwing[] =>
  list.map((exit_velocity_mph, i) => ball({ exit_velocity_mph, session: `day ${i % 2}`, ...given }));

describe("a measure by its name", () => {
  it("is found, and an unknown one is told with those that there are", () => {
    for (const measure of gapMeasures) expect(measureNamed(measure.name)).toBe(measure);
    expect(() => measureNamed("speed")).toThrow(RangeError);
    expect(() => measureNamed("speed")).toThrow(/no measure named "speed"; they are exit_velocity, /);
  });
});

describe("a sample", () => {
  it("has the known values alone, each with its session and its row", () => {
    const rows = speeds([90, null, 84, Number.NaN, 88]);
    const sample = of("exit_velocity", rows);
    expect(sample.values).toEqual([90, 84, 88]);
    expect(sample.sessions).toEqual(["day 0", "day 0", "day 0"]);
    expect(sample.rows).toEqual([rows[0], rows[2], rows[4]]);
  });

  it("counts misses among swings, and shares among balls in play", () => {
    const rows = [
      ball({ outcome: "miss", exit_velocity_mph: null }),
      ball({ outcome: "take", exit_velocity_mph: null }),
      ball({ outcome: "foul", exit_velocity_mph: null }),
      ball({ outcome: "in_play", exit_velocity_mph: 80, launch_angle_deg: 15 }),
    ];
    // A take is no swing; a foul is one, and no miss.
    expect(of("misses", rows).values).toEqual([1, 0, 0]);
    expect(of("line_drive_window", rows).values).toEqual([1]);
  });
});

describe("an estimate", () => {
  it("is the mean, the standard deviation, a quantile or a share, as the measure says", () => {
    const rows = speeds([80, 82, 84, 86, 88, 90, 92, 94, 96, 98]).map((row, i) => ({
      ...row,
      launch_angle_deg: 2 * i,
      power_kept: 0.8 + i / 100,
      outcome: "in_play" as const,
    }));
    const figure = (name: string) => estimateOf(measureNamed(name), of(name, rows));
    expect(figure("exit_velocity")).toMatchObject({ n: 10, value: 89 });
    // Σ(v − 9)² over 9 is 330/9 for 0, 2, … 18.
    expect(figure("launch_spread").value).toBeCloseTo(Math.sqrt(330 / 9), 9);
    expect(figure("power_kept").value).toBeCloseTo(0.845, 9);
    const share = figure("misses");
    expect([share.n, share.value]).toEqual([10, 0]);
    expect(share.high).toBeGreaterThan(0.2);
  });

  it("says why there is none", () => {
    expect(estimateOf(measureNamed("exit_velocity"), of("exit_velocity", []))).toMatchObject({
      n: 0,
      value: null,
    });
    expect(estimateOf(measureNamed("misses"), of("misses", []))).toMatchObject({
      value: null,
      reason: "no values",
    });
  });
});

describe("a difference", () => {
  const sides = (given: Partial<ReadySwing>) =>
    [0.1, 0].map((less, side) =>
      Array.from({ length: 12 }, (_, i) =>
        ball({
          input: side === 0 ? "tee" : "live",
          session: `${side} ${i % 3}`,
          exit_velocity_mph: 80 + 3 * side + (i % 4),
          power_kept: 0.9 - less + (i % 5) / 100,
          ...(side === 1 ? given : {}),
        }),
      ),
    ) as [ReadySwing[], ReadySwing[]];

  it("is the second side's figure less the first's", () => {
    const [from, to] = sides({});
    const speed = differenceOf(
      measureNamed("exit_velocity"),
      of("exit_velocity", from),
      of("exit_velocity", to),
    );
    expect(speed.value).toBeCloseTo(3, 9);
    expect([speed.from.n, speed.to.n]).toEqual([12, 12]);
    const power = differenceOf(measureNamed("power_kept"), of("power_kept", from), of("power_kept", to));
    expect(power.value).toBeCloseTo(0.1, 9);
  });

  it("of power kept is not told where one side has a ceiling of its own, and everything else is", () => {
    const [from, to] = sides({ flags: "own_ceiling" });
    const power = differenceOf(measureNamed("power_kept"), of("power_kept", from), of("power_kept", to));
    expect(power).toMatchObject({ value: null, low: null, high: null, se: null, freedom: null });
    expect(power.reason).toContain("live");
    const speed = differenceOf(
      measureNamed("exit_velocity"),
      of("exit_velocity", from),
      of("exit_velocity", to),
    );
    expect(speed.value).toBeCloseTo(3, 9);
  });

  it("of power kept is less sure for its ceiling being an estimate, about the same value", () => {
    const [from, to] = sides({});
    const measure = measureNamed("power_kept");
    const [given, counted] = [
      undefined,
      { swings: { rows: [...from, ...to], leveled: false }, thresholds },
    ].map((basis) => differenceOf(measure, of("power_kept", from), of("power_kept", to), basis)) as [
      ReturnType<typeof differenceOf>,
      ReturnType<typeof differenceOf>,
    ];
    expect(counted.value).toBe(given.value);
    const by = counted.se! / given.se!;
    expect(by).toBeGreaterThanOrEqual(1);
    expect(counted.high! - counted.value!).toBeCloseTo(by * (given.high! - given.value!), 9);
    expect(counted.value! - counted.low!).toBeCloseTo(by * (given.value! - given.low!), 9);
  });
});
