/**
 * Intervals that know of sessions. A hitter's days differ, so swings of one day are no independent draws: the
 * bootstrap resamples sessions, then the swings within them. With the two to eight sessions there are, its
 * percentiles alone miss the truth too often when days differ and hold it too often when they don't, so their
 * distance from the figure is scaled to a standard error and a Student's t that fit the number of sessions:
 *
 * - B, between: from leaving out one session at a time (the jackknife; Efron & Tibshirani, 1993, chapter 11).
 * - W, within: what is left of the replicates' variance when the sessions' part, (S − 1)/S of B, is taken off,
 *   put up by n/(n − S) for what resampling within small sessions loses (Davison & Hinkley, 1997, section 3.8).
 *   With fewer than ten swings on a side the sessions are too small to be drawn from: swings are drawn from all of
 *   the side, and W is those replicates' variance.
 * - The variance is the larger of B and W: days can add to the swings' own ups and downs and never take away.
 * - Degrees of freedom after Satterthwaite (Biometrics Bull. 2, 1946, 110), of the sides that vary: S − 1 for B, and
 *   for W n − S, or n − 1 where swings are drawn from all of a side. B counts by as much as it exceeds W, so that
 *   nothing jumps where days barely differ; and in full with two sessions a side, where an excess may be all there
 *   is to see of it.
 *
 * `src/gap/simulate.ts` measures how often such intervals hold the truth.
 */
import { t95 } from "./beta.ts";
import { group, mean, quantilesOf, resamples, spread, type Statistic } from "./bootstrap.ts";
import { eachResample, type Grouped, type Places } from "./draws.ts";
import { z95 } from "./normal.ts";
import { defaultSeed } from "./random.ts";

/** What an interval knows of: sessions and the swings within them, or swings alone. */
export type Resampled = "sessions" | "swings";

/** With fewer swings than this on a side its sessions are of two or three, too small to be drawn from. */
export const fewestToDrawSessions = 10;

/** A standard error and what it rests on. */
export interface Doubt {
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
 * @returns null for a figure that is the same on every resample: nothing tells its doubt
 */
export function intervalsOf(
  samples: readonly Grouped[],
  figures: Figures,
  values: readonly number[],
  spread: readonly number[] | ((figure: number) => readonly number[]),
  seed: number = defaultSeed,
): (Doubt | null)[] {
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
      return scaled(
        value,
        drawn[k]!,
        (variance) => variance * lost,
        () => alone,
      );
    const varying = weights.flatMap((w, s) => (w > 0 ? [s] : []));
    const sum = (of: (side: number) => number): number => varying.reduce((total, s) => total + of(s), 0);
    const betweenFreedom = sum((s) => S[s]! - 1);
    const withinFreedom = Math.max(
      1,
      sum((s) => n[s]! - (small ? 1 : S[s]!)),
    );
    let [between, redrawn] = [0, 0];
    left.forEach((list, s) => {
      const part = (S[s]! - 1) / S[s]!;
      const jack = part * squaresAbout(list.map((out) => out[k]!));
      between += jack;
      redrawn += part * jack;
    });
    let within = 0;
    return scaled(
      value,
      drawn[k]!,
      (variance) => {
        within = small
          ? variance * lost
          : (Math.max(0, variance - redrawn) * sum((s) => n[s]!)) / withinFreedom;
        return Math.max(between, within);
      },
      (variance) => {
        const excess = Math.max(0, between - within);
        const counted = betweenFreedom > 2 || excess === 0 ? excess : between;
        const doubt = (between * counted) / betweenFreedom + (within * within) / withinFreedom;
        return doubt > 0 ? (variance * variance) / doubt : 1;
      },
    );
  });
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
  varianceOf: (drawnVariance: number) => number,
  freedomOf: (variance: number) => number,
): Doubt | null {
  const middle = mean(drawn, drawn.length);
  const drawnVariance = spread(drawn, drawn.length) ** 2;
  // What rounding leaves of a spread that is none.
  if (!(drawnVariance > 1e-20 * Math.max(1e-12, middle * middle))) return null;
  const variance = varianceOf(drawnVariance);
  const freedom = Math.max(1, freedomOf(variance));
  const by = (t95(freedom) * Math.sqrt(variance)) / (z95 * Math.sqrt(drawnVariance));
  const tail = 0.025;
  const [low, high] = quantilesOf(drawn, [tail, 1 - tail]);
  return {
    low: value + by * (low! - middle),
    high: value + by * (high! - middle),
    se: Math.sqrt(variance),
    freedom,
  };
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
