/**
 * What it adds to the uncertainty of power kept and of the buckets that the ceiling is itself an estimate. In every
 * resample of all the hitter's swings, those of other kinds of work included, the ceiling is worked out anew; how much
 * further the figure then moves than under a fixed ceiling is what its interval is widened by.
 *
 * A row's power kept is its speed over C times the shape, and C is w times the swings' own 95th percentile plus 1 − w
 * times the level's figure. So a resample's ceiling over C would be 1 + w·(p* − p), p and p* the 95th percentiles of power
 * kept of the swings and of the resample, and a swing's power kept is divided by it: nothing but power kept is needed.
 * That moves as far as the swings make it, w²V, V the variance of p; the hitter also differs from the level, and what a
 * figure drawn in so far is uncertain by is wV (Efron & Morris, J. Am. Stat. Assoc. 68, 1973, 117): √w stands for w.
 * The shape's own error is not drawn: it is shared by both sides, and is in the simulation of
 * tests/gap/ceilingAnew.test.ts only with all else.
 */
import { ascending } from "d3-array";
import { leastFor } from "../contact/bucket.ts";
import { flagsOf } from "../contact/flags.ts";
import type { Thresholds } from "../contact/thresholds.ts";
import { group, quantile, quantileOf, quantilesOf, spread } from "../stats/bootstrap.ts";
import { eachResample, type Places } from "../stats/draws.ts";
import { defaultSeed } from "../stats/random.ts";
import { buckets, type Bucket, type EnrichedSwing } from "../swing/fields.ts";
import type { CeilingFigure } from "../views/measures.ts";
import { inPlay } from "../views/swings.ts";

/** What is read of a swing. */
export type CeilingSwing = Pick<
  EnrichedSwing,
  | "bats"
  | "input"
  | "session"
  | "outcome"
  | "exit_velocity_mph"
  | "power_kept"
  | "launch_angle_deg"
  | "bucket"
  | "flags"
>;

/** The swings that a hitter's ceilings were made of. */
export interface CeilingSwings {
  /** All the hitter's, of every kind of work. */
  readonly rows: readonly CeilingSwing[];
  /** Whether a level's figure is in the ceilings. */
  readonly leveled: boolean;
}

/** Both figures of a resample are taken of the same draws, so their ratio needs few. */
const fewerResamples = 250;

/**
 * How many times as far a figure moves when the ceiling is worked out anew in every resample: its standard deviation
 * over the one under a fixed ceiling, 1 or more.
 * @param sides the rows of one side, or of both for the second less the first; among the ceilings' rows
 * @example widening("power_kept", [[]], { rows: [], leveled: false }, {}) // 1
 */
export function widening(
  figure: CeilingFigure,
  sides: readonly (readonly CeilingSwing[])[],
  { rows: all, leveled }: CeilingSwings,
  thresholds: Thresholds,
  times: number = fewerResamples,
): number {
  const [anew, fixed] = underBoth(figure, sides, { rows: all, leveled }, thresholds, times);
  const [a, f] = [anew, fixed].map((drawn) => deviationOf(drawn!));
  return f! > 0 && Number.isFinite(a! / f!) ? Math.max(1, a! / f!) : 1;
}

/**
 * A figure on each of many resamples, with the ceiling worked out anew and with it fixed.
 * @example underBoth("flush", [[]], { rows: [], leveled: false }, {}, 2)[0].length // 0
 */
export function underBoth(
  figure: CeilingFigure,
  sides: readonly (readonly CeilingSwing[])[],
  { rows: all, leveled }: CeilingSwings,
  thresholds: Thresholds,
  times: number,
): [anew: Float64Array, fixed: Float64Array] {
  if (sides.some((rows) => rows.length === 0)) return [new Float64Array(0), new Float64Array(0)];
  const chosen = new Set(sides.flat());
  const rest = inPlay(all).filter((row) => row.power_kept !== null && !chosen.has(row));
  const parts = rest.length === 0 ? sides : [...sides, rest];
  const rows = parts.flat();
  const made = ceilingsIn(rows, leveled, thresholds);
  let laid = 0;
  const samples = parts.map((part) =>
    group(
      part.map(() => laid++),
      part.map((row) => row.session),
    ),
  );
  const rowsOf = samples.map(({ values }) => Int32Array.from(values));
  const read = sides.map((_, s) =>
    figure === "power_kept"
      ? medianIn(rows, rowsOf[s]!, made)
      : bucketShareIn(figure, rows, rowsOf[s]!, made, thresholds),
  );
  const [anew, fixed] = [new Float64Array(times), new Float64Array(times)];
  const ratios = new Float64Array(made.count);
  const ones = new Float64Array(made.count).fill(1);
  const rankAt = rowsOf.map((own) => own.map((row) => made.ranks[row]!));
  const { counts } = made;
  eachResample(samples, defaultSeed, times, (places, bounds, i) => {
    counts.fill(0);
    for (let s = 0; s < rankAt.length; s++) {
      const ranks = rankAt[s]!;
      for (let k = bounds[s]!; k < bounds[s + 1]!; k++) counts[ranks[places[k]!]!]!++;
    }
    made.ratios(ratios);
    for (let s = 0; s < read.length; s++) {
      const sign = read.length === 2 && s === 0 ? -1 : 1;
      read[s]!.draw(places, bounds[s]!, bounds[s + 1]!);
      anew[i]! += sign * read[s]!.under(ratios);
      fixed[i]! += sign * read[s]!.under(ones);
    }
  });
  return [anew, fixed];
}

/** The ceilings that rows are held against, and their resamples. */
interface Made {
  readonly count: number;
  /** Which ceiling a row is held against. */
  readonly of: Int32Array;
  /** A row's place in `counts`; the last one for rows that no ceiling is made of. */
  readonly ranks: Int32Array;
  /** How often each was drawn: each ceiling's rows in order of power kept, one ceiling after the other. */
  readonly counts: Int32Array;
  /** Writes each resampled ceiling over the one there is. */
  ratios(out: Float64Array): void;
}

function ceilingsIn(rows: readonly CeilingSwing[], leveled: boolean, thresholds: Thresholds): Made {
  const names = new Map<string, number>();
  const of = Int32Array.from(rows, ({ bats, input, flags }) => {
    const alone = flagsOf({ flags }).includes("own_ceiling") ? input : "together";
    const name = `${bats ?? "unknown"} ${alone}`;
    if (!names.has(name)) names.set(name, names.size);
    return names.get(name)!;
  });
  const { ceiling_quantile: p, ceiling_prior_swings: prior } = thresholds;
  const ranks = new Int32Array(rows.length).fill(rows.length);
  const counts = new Int32Array(rows.length + 1);
  let start = 0;
  const held = Array.from(names, (_, c) => {
    const own = rows.flatMap((row, i) => (of[i] === c && row.power_kept !== null ? [i] : []));
    own.sort((a, b) => ascending(rows[a]!.power_kept!, rows[b]!.power_kept!));
    own.forEach((i, rank) => (ranks[i] = start + rank));
    const values = Float64Array.from(own, (i) => rows[i]!.power_kept!);
    const ofOwn = counts.subarray(start, start + own.length);
    start += own.length;
    return {
      values,
      weight: leveled ? own.length / (own.length + prior) : 1,
      observed: own.length === 0 ? 0 : quantileOf(values, p),
      ofOwn,
    };
  });
  return {
    count: held.length,
    of,
    ranks,
    counts,
    ratios(out) {
      held.forEach(({ values, weight, observed, ofOwn }, c) => {
        let n = 0;
        for (let k = 0; k < ofOwn.length; k++) n += ofOwn[k]!;
        out[c] = n === 0 ? 1 : 1 + Math.sqrt(weight) * (countedFromTop(values, ofOwn, n, p) - observed);
      });
    },
  };
}

/** A quantile (type 7) of sorted values, n in all, each counted so often: from the top down. */
function countedFromTop(values: Float64Array, counts: Int32Array, n: number, p: number): number {
  const at = p * (n - 1);
  const below = Math.floor(at);
  let high: number | null = null;
  for (let k = values.length - 1, seen = 0; k >= 0; k--) {
    seen += counts[k]!;
    if (high === null && seen > n - 2 - below) high = values[k]!;
    if (seen > n - 1 - below) return values[k]! + (at - below) * (high! - values[k]!);
  }
  return values[0]!;
}

/** A side's figure of the rows drawn. */
interface Read {
  draw(places: Places, from: number, to: number): void;
  /** The figure with each ceiling multiplied by its ratio. */
  under(ratios: Float64Array): number;
}

function medianIn(rows: readonly CeilingSwing[], own: Int32Array, { of }: Made): Read {
  const power = Float64Array.from(own, (i) => rows[i]!.power_kept!);
  const which = Int32Array.from(own, (i) => of[i]!);
  if (which.every((c) => c === which[0])) {
    // One ceiling divides all alike: the median is divided.
    const median = quantile(0.5).of(power);
    let drawn = 0;
    return {
      draw: (places, from, to) => (drawn = median(places, from, to)),
      under: (ratios) => drawn / ratios[which[0]!]!,
    };
  }
  let [chosen, start, end]: [Places, number, number] = [new Int32Array(0), 0, 0];
  return {
    draw: (places, from, to) => ([chosen, start, end] = [places, from, to]),
    under: (ratios) => {
      const values = new Float64Array(end - start);
      for (let k = start; k < end; k++) {
        const place = chosen[k]!;
        values[k - start] = power[place]! / ratios[which[place]!]!;
      }
      return quantilesOf(values, [0.5])[0]!;
    },
  };
}

/** Best first. */
const downward = [...buckets].reverse();

/** A row is in a bucket while its ceiling's ratio is over one figure and not over another. */
function bucketShareIn(
  bucket: Bucket,
  rows: readonly CeilingSwing[],
  own: Int32Array,
  { of }: Made,
  t: Thresholds,
): Read {
  const over = new Float64Array(own.length);
  const upTo = new Float64Array(own.length);
  const which = Int32Array.from(own, (i) => of[i]!);
  own.forEach((row, place) => {
    const { power_kept: power, launch_angle_deg: angle, bucket: given } = rows[row]!;
    if (power === null) {
      // Outside the ceiling's range, whatever the ceiling.
      upTo[place] = given === bucket ? Infinity : 0;
      return;
    }
    let last = 0;
    for (const better of downward) {
      const limit = better === "mishit" ? Infinity : Math.max(last, power / leastFor(better, angle!, t));
      if (better === bucket) [over[place], upTo[place]] = [last, limit];
      last = limit;
    }
  });
  let [chosen, start, end]: [Places, number, number] = [new Int32Array(0), 0, 0];
  return {
    draw: (places, from, to) => ([chosen, start, end] = [places, from, to]),
    under: (ratios) => {
      let count = 0;
      for (let k = start; k < end; k++) {
        const place = chosen[k]!;
        const ratio = ratios[which[place]!]!;
        if (ratio > over[place]! && ratio <= upTo[place]!) count++;
      }
      return count / (end - start);
    },
  };
}

function deviationOf(drawn: Float64Array): number {
  return drawn.length < 2 ? 0 : spread(drawn, drawn.length);
}
