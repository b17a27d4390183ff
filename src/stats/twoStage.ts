/**
 * Intervals that know of sessions. A hitter's days differ, so swings of one day are no independent draws. With the two
 * to eight sessions there are, a bootstrap of sessions alone misses the truth too often when days differ and holds it
 * too often when they don't. So it gives the shape of an interval, and its width comes from what the sessions show:
 *
 * - each session's own figure, from leaving out one session at a time (the jackknife; Efron & Tibshirani, 1993,
 *   chapter 11);
 * - the swings' own variance: what is left of the replicates' when the sessions' part, (S − 1)/S of the jackknife's, is
 *   taken off, put up by n/(n − S) for what resampling within small sessions loses (Davison & Hinkley, 1997, section
 *   3.8). With fewer than ten swings on a side the sessions are too small to be drawn from: swings are drawn from all
 *   of the side, and it is those replicates' variance;
 * - from the two, what is known of how much days differ (`days.ts`), its uncertainty averaged over.
 *
 * Where a side has one session, swings alone are drawn, with Welch and Satterthwaite's degrees of freedom.
 * `src/gap/simulate.ts` measures how often such intervals cover the truth.
 */
import { t95 } from "./beta.ts";
import { group, mean, quantilesOf, resamples, spread, type Statistic } from "./bootstrap.ts";
import { studentOf } from "./days.ts";
import { eachResample, type Grouped, type Places } from "./draws.ts";
import { z95 } from "./normal.ts";
import { defaultSeed } from "./random.ts";

/** What an interval knows of: sessions and the swings within them, or swings alone. */
export type Resampled = "sessions" | "swings";

/** With fewer swings than this on a side its sessions are of two or three, too small to be drawn from. */
const fewestToDrawSessions = 10;

/** An interval, and the standard error and degrees of freedom behind it. */
export interface Uncertainty {
  readonly low: number;
  readonly high: number;
  readonly se: number;
  /** Degrees of freedom. */
  readonly freedom: number;
}

/** Figures of values picked by their places: side s is what stands at places[bounds[s]] to places[bounds[s + 1]]. */
export type PickedFigures = (places: Places, bounds: Int32Array, out: Float64Array) => void;

/** Figures of one resample of one side or two: reads each side's first values and writes into `out`. */
export interface Figures {
  (sides: readonly Float64Array[], n: readonly number[], out: Float64Array): void;
  /** The same of values picked from the samples, made ready once for many resamples; for speed alone. */
  readonly of?: (samples: readonly Float64Array[]) => PickedFigures;
}

/**
 * Whether an interval can know of sessions: at least two on each side.
 * @param sides each side's sessions
 * @example resampledOf([{ groups: 2 }, { groups: 1 }]) // "swings"
 */
export function resampledOf(sides: readonly Pick<Grouped, "groups">[]): Resampled {
  return sides.every(({ groups }) => groups > 1) ? "sessions" : "swings";
}

/**
 * Several figures at once, on each of many resamples of one side or two.
 * @param samples each side's values, grouped by session; values may be row numbers that `figures` looks up
 * @param outputs how many figures there are
 * @returns figure by figure, its replicates in the order drawn
 * @example drawAnew([{ values: Float64Array.of(3, 3), starts: Int32Array.of(0, 2), groups: 1 }], (s, n, out) => (out[0] = s[0][0]), 1, 1, 2)[0] // Float64Array.of(3, 3)
 */
export function drawAnew(
  samples: readonly Grouped[],
  figures: Figures,
  outputs: number,
  seed: number = defaultSeed,
  times: number = resamples,
): Float64Array[] {
  const values = samples.map((sample) => sample.values);
  const pick = figures.of?.(values) ?? lookedUp(figures, values);
  const out = new Float64Array(outputs);
  const drawn = Array.from({ length: outputs }, () => new Float64Array(times));
  eachResample(samples, seed, times, (places, bounds, i) => {
    pick(places, bounds, out);
    for (let k = 0; k < outputs; k++) drawn[k]![i] = out[k]!;
  });
  return drawn;
}

/** Figures that want the values themselves: each resample's are looked up for them. */
function lookedUp(figures: Figures, samples: readonly Float64Array[]): PickedFigures {
  const rooms = samples.map((values) => values.slice());
  const n = samples.map(() => 0);
  return (places, bounds, out) => {
    samples.forEach((values, s) => {
      const from = bounds[s]!;
      const size = (n[s] = bounds[s + 1]! - from);
      if (rooms[s]!.length < size) rooms[s] = new Float64Array(2 * size);
      const room = rooms[s]!;
      for (let i = 0; i < size; i++) room[i] = values[places[from + i]!]!;
    });
    figures(rooms, n, out);
  };
}

/**
 * Several figures with their intervals.
 * @param values the figures of the samples as they are
 * @param spread how a figure's variance is shared by the sides: each side's variance of what is averaged, over
 *   its n; of all figures alike, or figure by figure. It sets the degrees of freedom
 * @returns null for a figure that is the same on every resample: nothing tells its uncertainty
 */
export function intervalsOf(
  samples: readonly Grouped[],
  figures: Figures,
  values: readonly number[],
  spread: readonly number[] | ((figure: number) => readonly number[]),
  seed: number = defaultSeed,
): (Uncertainty | null)[] {
  const bySession = resampledOf(samples) === "sessions";
  const small = samples.some((s) => s.values.length < fewestToDrawSessions);
  const drawn = drawAnew(
    bySession && !small ? samples : samples.map(({ values: v }) => group([...v])),
    figures,
    values.length,
    seed,
  );
  const n = samples.map((s) => s.values.length);
  const S = samples.map((s) => s.groups);
  const left = bySession ? samples.map((_, s) => leaveOneOut(samples, s, figures, values.length)) : [];
  return values.map((value, k) => {
    const weights = sharesOf(typeof spread === "function" ? spread(k) : spread);
    // Welch's degrees of freedom; and the variance a resample of n loses by dividing by n.
    const alone = 1 / weights.reduce((sum, w, s) => sum + (w * w) / Math.max(1, n[s]! - 1), 0);
    const lost = weights.reduce((sum, w, s) => sum + (w * n[s]!) / Math.max(1, n[s]! - 1), 0);
    if (!bySession)
      return scaled(value, drawn[k]!, (variance) => Math.sqrt(variance * lost), Math.max(1, alone));
    const varying = weights.flatMap((w, s) => (w > 0 ? [s] : []));
    const sum = (of: (side: number) => number): number => varying.reduce((total, s) => total + of(s), 0);
    const freedomOf = (s: number): number => Math.max(1, n[s]! - (small ? 1 : S[s]!));
    const redrawn = left.reduce((total, list, s) => {
      const part = (S[s]! - 1) / S[s]!;
      return total + part * part * squaresAbout(list.map((out) => out[k]!));
    }, 0);
    return shaped(value, drawn[k]!, (variance) => {
      const within = small
        ? variance * lost
        : (Math.max(leastWithin * variance, variance - redrawn) * sum((s) => n[s]!)) / sum(freedomOf);
      return studentOf(
        varying.map((s) => {
          const sizes = sizesOf(samples[s]!);
          const apart = left[s]!.map((out, j) => (value - out[k]!) * (n[s]! / sizes[j]! - 1));
          return { sizes, apart, within: within * weights[s]!, freedom: freedomOf(s) };
        }),
      );
    });
  });
}

/** The swings' own share of the replicates' variance is never taken to be less: the difference of two may come out 0. */
const leastWithin = 0.02;

/** The replicates' percentiles about their middle, put to the half-width of a standard error and its t. */
function shaped(
  value: number,
  drawn: Float64Array,
  known: (drawnVariance: number) => { se: number; freedom: number },
): Uncertainty | null {
  const variance = varianceOf(drawn);
  if (variance === null) return null;
  const { se, freedom } = known(variance);
  const half = t95(freedom) * se;
  const middle = mean(drawn, drawn.length);
  const [low, high] = quantilesOf(drawn, [0.025, 0.975]) as [number, number];
  const by = high > low ? (2 * half) / (high - low) : 0;
  return {
    low: by > 0 ? value + by * (low - middle) : value - half,
    high: by > 0 ? value + by * (high - middle) : value + half,
    se,
    freedom,
  };
}

/** The variance of replicates; null where they are all one, but for what rounding leaves. */
function varianceOf(drawn: Float64Array): number | null {
  const middle = mean(drawn, drawn.length);
  const variance = spread(drawn, drawn.length) ** 2;
  return variance > 1e-20 * Math.max(1e-12, middle * middle) ? variance : null;
}

const sizesOf = ({ starts, groups }: Pick<Grouped, "starts" | "groups">): number[] =>
  Array.from({ length: groups }, (_, j) => starts[j + 1]! - starts[j]!);

/**
 * Means, where many are asked for at once: what their sessions show is exact, and nothing needs to be drawn.
 * @param samples one side, or two for the difference of their means
 * @returns null where nothing varies
 * @example meansUncertainty([{ values: Float64Array.of(1, 1), starts: Int32Array.of(0, 1, 2), groups: 2 }]) // null
 */
export function meansUncertainty(samples: readonly Grouped[]): { se: number; freedom: number } | null {
  const sides = samples.flatMap((sample) => {
    const { values, starts, groups } = sample;
    const n = values.length;
    const all = mean(values, n);
    const sizes = sizesOf(sample);
    const apart = sizes.map((size, j) => mean(values.subarray(starts[j]!, starts[j]! + size), size) - all);
    const total = values.reduce((sum, v) => sum + (v - all) ** 2, 0);
    if (total === 0) return [];
    const between = sizes.reduce((sum, size, j) => sum + size * apart[j]! ** 2, 0);
    // Sessions of one or two swings say little of how swings of one session differ.
    const small = n < fewestToDrawSessions || n < 2 * groups;
    const freedom = n - (small ? 1 : groups);
    const within = small ? total : Math.max(leastWithin * total, total - between);
    return [{ sizes, apart, within: within / freedom / n, freedom }];
  });
  return sides.length === 0 ? null : studentOf(sides);
}

/** Shares of a whole; even ones of nothing. */
function sharesOf(parts: readonly number[]): number[] {
  const total = parts.reduce((a, b) => a + b, 0);
  return parts.map((v) => (total > 0 ? v / total : 1 / parts.length));
}

/** The replicates' percentiles about their middle, scaled to a standard error and its t, about the figure. */
function scaled(
  value: number,
  drawn: Float64Array,
  seOf: (drawnVariance: number) => number,
  freedom: number,
): Uncertainty | null {
  const drawnVariance = varianceOf(drawn);
  if (drawnVariance === null) return null;
  const middle = mean(drawn, drawn.length);
  const se = seOf(drawnVariance);
  const by = (t95(freedom) * se) / (z95 * Math.sqrt(drawnVariance));
  const [low, high] = quantilesOf(drawn, [0.025, 0.975]) as [number, number];
  return { low: value + by * (low - middle), high: value + by * (high - middle), se, freedom };
}

/** The figures with each session of one side left out in turn. */
function leaveOneOut(
  samples: readonly Grouped[],
  side: number,
  figures: Figures,
  outputs: number,
): Float64Array[] {
  const sample = samples[side]!;
  return Array.from({ length: sample.groups }, (_, k) => {
    const [start, end] = [sample.starts[k]!, sample.starts[k + 1]!];
    // Figures may reorder what they are given.
    const rooms = samples.map(({ values }) => values.slice());
    const kept = new Float64Array(sample.values.length - (end - start));
    kept.set(sample.values.subarray(0, start));
    kept.set(sample.values.subarray(end), start);
    rooms[side] = kept;
    const out = new Float64Array(outputs);
    figures(
      rooms,
      rooms.map((r) => r.length),
      out,
    );
    return out;
  });
}

function squaresAbout(values: readonly number[]): number {
  const middle = values.reduce((a, b) => a + b, 0) / values.length;
  return values.reduce((sum, v) => sum + (v - middle) ** 2, 0);
}

/**
 * One figure of each side as `Figures`: the first side's value, or the second's less the first's.
 * @example figureOf((v) => v[0]).length // 3
 */
export function figureOf(statistic: Statistic): Figures {
  const plain = (sides: readonly Float64Array[], n: readonly number[], out: Float64Array): void => {
    const first = statistic(sides[0]!, n[0]!);
    out[0] = sides.length === 1 ? first : statistic(sides[1]!, n[1]!) - first;
  };
  return Object.assign(plain, {
    of: (samples: readonly Float64Array[]): PickedFigures => {
      const [before, after] = samples.map((values) => statistic.of(values));
      return (places, bounds, out) => {
        const first = before!(places, bounds[0]!, bounds[1]!);
        out[0] = after === undefined ? first : after(places, bounds[1]!, bounds[2]!) - first;
      };
    },
  });
}
