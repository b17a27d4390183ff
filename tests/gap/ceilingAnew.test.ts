/** The ceiling worked out anew in every resample: against plain code, and against made-up hitters whose gap is known. */
import { quantile, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { bucketOf } from "../../src/contact/bucket.ts";
import { enrich } from "../../src/contact/enrich.ts";
import { derivedAt } from "../../src/contact/shape.ts";
import { defaultThresholds as thresholds } from "../../src/contact/thresholds.ts";
import { underBoth, widening, type CeilingSwing } from "../../src/gap/ceilingAnew.ts";
import { gap, measureGap, measureTable } from "../../src/gap/gap.ts";
import { measureNamed } from "../../src/gap/measures.ts";
import { makeReady, sidesOf } from "../../src/gap/rows.ts";
import { group } from "../../src/stats/bootstrap.ts";
import { eachResample } from "../../src/stats/draws.ts";
import { defaultSeed, randomFrom } from "../../src/stats/random.ts";
import { noPitchSpeedSentence, ownCeilingSentence } from "../../src/views/sentences/gap.ts";
import type { Hitter, Input, Swing } from "../../src/swing/fields.ts";
import { swingOf } from "../../src/swing/unknown.ts";

const { collision_q: q, ceiling_quantile: p, ceiling_prior_swings: prior } = thresholds;

/** Rows with a power kept, of one day or several. */
function rowsOf(input: Input, n: number, seed: number, days = 3, bats: "L" | "R" = "R"): CeilingSwing[] {
  const uniform = randomFrom(seed);
  return Array.from({ length: n }, (_, i) => {
    const angle = 60 * uniform() - 25;
    const power = angle > -20 ? 1.02 + 0.1 * Math.log(1 - uniform()) : null;
    return {
      bats,
      input,
      session: `${input} ${i % days}`,
      outcome: "in_play" as const,
      exit_velocity_mph: 80,
      power_kept: power,
      launch_angle_deg: angle,
      bucket: power === null ? ("mishit" as const) : bucketOf(power, angle),
      flags: null,
    };
  });
}

describe("figures under a ceiling worked out anew", () => {
  const tee = [...rowsOf("tee", 40, 1), ...rowsOf("tee", 20, 2, 3, "L")];
  const live = [...rowsOf("live", 30, 3), ...rowsOf("live", 15, 4, 3, "L")];
  const flip = rowsOf("flip", 25, 5);
  const all = [...tee, ...live, ...flip];

  it.each(["power_kept", "flush", "clean", "partial", "mishit"] as const)(
    "are what plain code gives on the same draws: %s",
    (figure) => {
      const known = figure === "power_kept" ? (r: CeilingSwing) => r.power_kept !== null : () => true;
      const sides = [tee.filter(known), live.filter(known)];
      const [anew, fixed] = underBoth(figure, sides, { rows: all, leveled: true }, thresholds, 20);
      const parts = [...sides, all.filter((r) => r.power_kept !== null && !sides.flat().includes(r))];
      const samples = parts.map((rows) =>
        group(
          rows.map((_, i) => i),
          rows.map((r) => r.session),
        ),
      );
      const top = (rows: readonly CeilingSwing[], bats: string): number =>
        quantile(
          rows.filter((r) => r.bats === bats && r.power_kept !== null),
          p,
          (r) => r.power_kept,
        )!;
      eachResample(samples, defaultSeed, 20, (places, bounds, i) => {
        const drawn = parts.map((rows, s) =>
          Array.from(places.slice(bounds[s], bounds[s + 1]), (place) => rows[samples[s]!.values[place]!]!),
        );
        const ratio = (bats: string): number => {
          const n = all.filter((r) => r.bats === bats && r.power_kept !== null).length;
          return 1 + Math.sqrt(n / (n + prior)) * (top(drawn.flat(), bats) - top(parts.flat(), bats));
        };
        const ratios: Record<string, number> = { L: ratio("L"), R: ratio("R") };
        const of = (rows: readonly CeilingSwing[], by: Record<string, number>): number =>
          figure === "power_kept"
            ? quantile(rows, 0.5, (r) => r.power_kept! / by[r.bats!]!)!
            : rows.filter((r) =>
                r.power_kept === null
                  ? figure === "mishit"
                  : bucketOf(r.power_kept / by[r.bats!]!, r.launch_angle_deg!) === figure,
              ).length / rows.length;
        expect(anew[i]).toBeCloseTo(of(drawn[1]!, ratios) - of(drawn[0]!, ratios), 9);
        const ones = { L: 1, R: 1 };
        expect(fixed[i]).toBeCloseTo(of(drawn[1]!, ones) - of(drawn[0]!, ones), 9);
      });
    },
  );

  it("move further where a figure hangs on the ceiling, and never less far", () => {
    const swings = { rows: all, leveled: false };
    // All about the limit: whether they are flush hangs on the ceiling, which others make.
    const near = Array.from({ length: 20 }, (_, i) => ({
      ...tee[0]!,
      launch_angle_deg: 10,
      power_kept: 0.91 + i / 1000,
    }));
    expect(
      widening("flush", [near], { rows: [...all, ...near], leveled: false }, thresholds),
    ).toBeGreaterThan(1.1);
    for (const side of [tee, live])
      expect(widening("flush", [side], swings, thresholds)).toBeGreaterThanOrEqual(1);
    // Nothing to draw: nothing is added.
    expect(widening("flush", [[]], { rows: [], leveled: false }, thresholds)).toBe(1);
    const one = tee.slice(0, 1);
    expect(widening("flush", [one], { rows: one, leveled: false }, thresholds)).toBe(1);
  });
});

/** A hitter's own speeds: skewed below an upper edge of the derived shape; a day moves them all. */
function work(
  input: Input,
  hitter: string,
  n: number,
  days: number,
  loss: number,
  uniform: () => number,
  top: number,
): Swing[] {
  const normal = randomNormal.source(uniform)();
  return Array.from({ length: days }, (_, day) => {
    const shift = 0.008 * normal();
    return Array.from({ length: Math.round(n / days) }, () => {
      const off = -2 + 11 * normal();
      const edge = derivedAt(Math.max(-60, Math.min(60, off)), q);
      const own = top * edge * (1 + shift + 0.02 * normal() + (0.05 + loss) * Math.log(1 - uniform()));
      const pitch = input === "tee" ? null : 70 + 4 * normal();
      return swingOf({
        swing_id: null,
        hitter,
        bats: "R",
        input,
        session: `${input} ${day}`,
        outcome: "in_play",
        exit_velocity_mph: own + q * (pitch ?? 0),
        launch_angle_deg: off + 10,
        pitch_speed_mph: pitch,
      });
    });
  }).flat();
}

/** Libraries of eight hitters; a bigger run with SIMULATED_LIBRARIES. */
const libraries = Number(process.env.SIMULATED_LIBRARIES ?? 8);

/** The gaps of made-up hitters, live losing so much more than the tee. */
function simulated(more: number, n: number, days: number) {
  const uniform = randomFrom(11 + n);
  const normal = randomNormal.source(uniform)();
  return Array.from({ length: libraries }, () => {
    const names = Array.from({ length: 8 }, (_, i) => `Hitter ${i + 1}`);
    const swings = names.flatMap((name) => {
      const top = 80 + 6 * normal();
      return [
        work("tee", name, n, days, 0, uniform, top),
        work("live", name, n, days, more, uniform, top),
      ].flat();
    });
    const hitters: Hitter[] = [];
    const source = { swings: swings as readonly Swing[], sessions: [], hitters, thresholds: null };
    const ready = makeReady({ ...source, swings: enrich(source) });
    return names.map((name) => ({ ready, name, sides: sidesOf(ready, name, {}) }));
  }).flat();
}

/** So many of n are no more than chance leaves of a share. */
const atMost = (share: number, n: number): number => n * share + 2 * Math.sqrt(n * share * (1 - share));

describe("hitters made up, so that the gap is known", { timeout: 240_000 }, () => {
  it.each([
    [24, 2],
    [45, 3],
  ])(
    "the same swings off the tee and live are told apart in no more than 6 in 100: %i a side, %i days",
    (n, days) => {
      const made = simulated(0, n, days);
      for (const name of ["power_kept", "share_flush", "share_clean", "share_mishit"]) {
        const clear = made.filter(({ ready, sides }) => {
          const { low, high } = measureGap(measureNamed(name), sides, ready);
          return low !== null && high !== null && (low > 0 || high < 0);
        });
        expect(clear.length, name).toBeLessThanOrEqual(atMost(0.06, made.length));
      }
    },
  );

  it("intervals of a gap that there is, and of one side, hold it in 92 in 100 and more", () => {
    const made = simulated(0.06, 45, 3);
    // What they stand for, from as many swings as make chance small: the ceiling is the 95th percentile of both.
    const uniform = randomFrom(5);
    const normal = randomNormal.source(uniform)();
    const many = [0, 0.06].map((more) =>
      Array.from(
        { length: 100_000 },
        () => 1 + 0.008 * normal() + 0.02 * normal() + (0.05 + more) * Math.log(1 - uniform()),
      ),
    );
    const ceiling = quantile(many.flat(), p)!;
    const [tee, live] = many.map((u) => quantile(u, 0.5)! / ceiling);
    const held = { gap: 0, tee: 0 };
    for (const { ready, name, sides } of made) {
      const gap = measureGap(measureNamed("power_kept"), sides, ready);
      if (gap.low! <= live! - tee! && live! - tee! <= gap.high!) held.gap++;
      const [one] = measureTable(ready, name, { measures: ["power_kept"] });
      if (one!.low! <= tee! && tee! <= one!.high!) held.tee++;
    }
    for (const [what, count] of Object.entries(held))
      expect(made.length - count, what).toBeLessThanOrEqual(atMost(0.08, made.length));
  });
});

describe("pitch speeds that are unknown", () => {
  const madeReady = (pitched: (i: number) => number | null) => {
    const swings = [
      ...Array.from({ length: 30 }, (_, i) => ball("tee", 80 - (i % 10), null)),
      ...Array.from({ length: 30 }, (_, i) => ball("live", 92 - (i % 10), pitched(i))),
    ];
    const source = { swings: swings as readonly Swing[], sessions: [], hitters: [], thresholds: null };
    return makeReady({ ...source, swings: enrich(source) });
  };
  const of = (pitched: (i: number) => number | null) => {
    const ready = madeReady(pitched);
    return measureGap(measureNamed("power_kept"), sidesOf(ready, "Hitter 1", {}), ready);
  };
  const notes = (pitched: (i: number) => number | null) =>
    gap(madeReady(pitched), "Hitter 1", { measures: [] }).notes;
  const ball = (input: Input, ev: number, pitch: number | null) =>
    swingOf({
      hitter: "Hitter 1",
      input,
      session: `${input} day`,
      outcome: "in_play",
      exit_velocity_mph: ev,
      launch_angle_deg: 8,
      pitch_speed_mph: pitch,
    });

  it("for all of a kind of work: not compared, and why", () => {
    expect(of(() => null)).toMatchObject({
      value: null,
      low: null,
      words: "not comparable: without pitch speeds live has a ceiling of its own",
    });
  });

  it("for half of the balls: the rest are compared", () => {
    expect(of((i) => (i % 2 === 0 ? 60 : null))).toMatchObject({ to: { n: 15 } });
    expect(notes((i) => (i % 2 === 0 ? 60 : null))).toContain(noPitchSpeedSentence("live", 15, 30));
    expect(notes(() => null)).toContain(ownCeilingSentence("live"));
    expect(notes(() => 60).filter((note) => /pitch speed/.test(note))).toEqual([]);
    expect(of(() => 60).value).toBeCloseTo(0, 6);
  });
});
