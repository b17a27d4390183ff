/**
 * A robust two-way fit: what belongs to a stratum (a hitter at one kind of work) and what to a session, told
 * apart by weighted least squares, a hitter's odd day drawn in by Huber's weights.
 *
 * Model, in one unit: mean of stratum k in session s = stratum k + session s + day of that hitter + noise. Weights
 * follow from the noise and from the spread of the days, which all hitters share. P. J. Huber, Robust Statistics,
 * 1981, for the weights; the errors are the larger of the model's and the sandwich's (White, Econometrica 48, 1980).
 */
import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { median } from "d3-array";
import { t95 } from "../stats/beta.ts";
import { z95 } from "../stats/normal.ts";

/** One row that counts. */
export interface Observation {
  readonly value: number;
  /** What its value is compared within: hitter, side, input and drill. */
  readonly stratum: string;
  readonly hitter: string;
  readonly session: string;
}

/** A session's effect against the middle of the sessions it can be compared with. */
export interface SessionEffect {
  readonly session: string;
  readonly value: number;
  readonly error: number;
  readonly n: number;
  readonly hitters: number;
  /** Sessions it can be compared with, itself counted. */
  readonly compared: number;
}

/** One hitter in one session, against what the stratum and the session lead to expect. */
export interface HitterDay {
  readonly session: string;
  readonly hitter: string;
  readonly value: number;
  /** Its standard error, the spread of days in it. */
  readonly error: number;
  readonly n: number;
}

/** What was fitted. */
export interface TwoWay {
  readonly sessions: readonly SessionEffect[];
  readonly days: readonly HitterDay[];
  /** Spread of the days, in the values' unit. */
  readonly daySpread: number;
}

/** Huber's corner, in standard errors: 95 % efficient where nothing is odd. */
const corner = 1.345;
/** Makes a median absolute deviation a standard deviation on a bell curve. */
const toSigma = 1.4826;
/** Rounds of weighing anew, at most, and by what share of the days' spread an effect may still move at the end. */
const rounds = 30;
const settled = 1e-3;

interface CellMean {
  readonly stratum: number;
  readonly cluster: number;
  readonly session: number;
  readonly n: number;
  mean: number;
  variance: number;
}

const weight = (z: number): number => (Math.abs(z) <= corner ? 1 : corner / Math.abs(z));

/** Huber's location about a given spread. */
function middleOf(values: readonly number[], sigma: number): number {
  let at = median(values)!;
  if (sigma === 0) return at;
  for (let i = 0; i < 8; i++) {
    let [sum, total] = [0, 0];
    for (const value of values) {
      const w = weight((value - at) / sigma);
      sum += w * value;
      total += w;
    }
    at = sum / total;
  }
  return at;
}

/** Numbers for names, in the order of first sight. */
class Names {
  readonly list: string[] = [];
  private readonly at = new Map<string, number>();

  number(name: string): number {
    const known = this.at.get(name);
    if (known !== undefined) return known;
    this.at.set(name, this.list.length);
    return this.list.push(name) - 1;
  }
}

/** Which part of a net of strata and sessions each session hangs in: sessions of one part can be compared. */
function partsOf(cells: readonly CellMean[], sessions: number): Int32Array {
  const parent = Int32Array.from({ length: sessions }, (_, i) => i);
  const root = (i: number): number => {
    while (parent[i] !== i) i = parent[i] = parent[parent[i]!]!;
    return i;
  };
  const first = new Map<number, number>();
  for (const { stratum, session } of cells) {
    const other = first.get(stratum);
    if (other === undefined) first.set(stratum, session);
    else parent[root(session)] = root(other);
  }
  return parent.map((_, i) => root(i));
}

/** How many members each part has. */
function sizesOf(part: Int32Array): ReadonlyMap<number, number> {
  const sizes = new Map<number, number>();
  for (const p of part) sizes.set(p, (sizes.get(p) ?? 0) + 1);
  return sizes;
}

/**
 * Session effects by a robust two-way fit.
 * @param leastDaySpread the spread of a hitter's days is never taken to be less than this, in the values' unit: a
 *   small library knows too little of it
 * @returns sessions in the order of first sight; those that share no stratum with any other have `compared` 1
 */
export function twoWay(observations: readonly Observation[], leastDaySpread: number): TwoWay {
  if (observations.length === 0) return { sessions: [], days: [], daySpread: leastDaySpread };
  const [strata, sessions, clusters] = [new Names(), new Names(), new Names()];
  const rows = new Map<number, { cell: CellMean; values: number[] }>();
  const clusterOf: { session: number; hitter: string }[] = [];
  for (const { value, stratum, hitter, session } of observations) {
    const s = sessions.number(session);
    const c = clusters.number(`${hitter}\u0000${session}`);
    clusterOf[c] ??= { session: s, hitter };
    const k = strata.number(stratum);
    const key = k * 0x100000 + s;
    let row = rows.get(key);
    if (row === undefined) {
      const cell = { stratum: k, session: s, cluster: c, n: 0, mean: 0, variance: 0 };
      rows.set(key, (row = { cell, values: [] }));
    }
    row.values.push(value);
  }
  const sigmas = sigmasOf([...rows.values()], strata.list.length);
  const cells = [...rows.values()].map(({ cell, values }): CellMean => {
    const sigma = sigmas[cell.stratum]!;
    const n = values.length;
    return { ...cell, n, mean: middleOf(values, sigma), variance: Math.max(sigma, 1e-9) ** 2 / n };
  });
  const part = partsOf(cells, sessions.list.length);
  const hitters = new Set(clusterOf.map((c) => c.hitter)).size;
  const fit = fitted(
    cells,
    part,
    sessions.list.length,
    strata.list.length,
    clusterOf.length,
    hitters,
    leastDaySpread,
  );
  const inSession = new Float64Array(sessions.list.length);
  const inCluster = new Float64Array(clusterOf.length);
  for (const { session, cluster, n } of cells) {
    inSession[session]! += n;
    inCluster[cluster]! += n;
  }
  const hittersIn = new Int32Array(sessions.list.length);
  for (const { session } of clusterOf) hittersIn[session]!++;
  const sizes = sizesOf(part);
  return {
    daySpread: fit.daySpread,
    sessions: sessions.list.map((session, s) => ({
      session,
      value: fit.effects[s]!,
      error: fit.errors[s]!,
      n: inSession[s]!,
      hitters: hittersIn[s]!,
      compared: sizes.get(part[s]!)!,
    })),
    days: clusterOf.map(({ session, hitter }, c) => ({
      session: sessions.list[session]!,
      hitter,
      value: fit.residuals[c]!,
      error: Math.sqrt(fit.daySpread ** 2 + fit.noise[c]!),
      n: inCluster[c]!,
    })),
  };
}

/** Spread from swing to swing in each stratum, robustly: about the middle of its own cells. */
function sigmasOf(rows: readonly { cell: CellMean; values: readonly number[] }[], strata: number): number[] {
  const off: number[][] = Array.from({ length: strata }, () => []);
  const free = new Float64Array(strata);
  for (const { cell, values } of rows) {
    const middle = median(values)!;
    free[cell.stratum]! += values.length - 1;
    for (const value of values) off[cell.stratum]!.push(Math.abs(value - middle));
  }
  const own = off.map((list, k) =>
    // About a middle of its own, each cell hides one swing's worth of spread.
    free[k]! >= 4 ? toSigma * median(list)! * Math.sqrt(list.length / free[k]!) : NaN,
  );
  const usual = median(own.filter((s) => Number.isFinite(s) && s > 0)) ?? 0;
  return own.map((s) => (Number.isFinite(s) && s > 0 ? s : usual));
}

interface Fit {
  readonly effects: Float64Array;
  readonly errors: Float64Array;
  /** Of each cluster: what is left, and the variance that swings alone give it. */
  readonly residuals: Float64Array;
  readonly noise: Float64Array;
  readonly daySpread: number;
}

function fitted(
  cells: readonly CellMean[],
  part: Int32Array,
  sessions: number,
  strata: number,
  clusters: number,
  hitters: number,
  leastDaySpread: number,
): Fit {
  const noise = new Float64Array(clusters);
  for (const { cluster, variance } of cells) noise[cluster]! += 1 / variance;
  for (let c = 0; c < clusters; c++) noise[c] = 1 / noise[c]!;

  let effects = startOf(cells, sessions, strata);
  let residuals = new Float64Array(clusters);
  let daySpread = leastDaySpread;
  let weights: readonly number[] = [];
  const drawn = new Float64Array(clusters).fill(1);
  const free = Math.max(1, clusters - sessions - hitters + new Set(part).size);
  for (let round = 0; round < rounds; round++) {
    weights = cells.map(
      ({ cluster, variance }) =>
        (drawn[cluster]! / (daySpread ** 2 + noise[cluster]!)) * (noise[cluster]! / variance),
    );
    const middles = stratumMiddles(cells, weights, effects, strata);
    residuals = clusterResiduals(cells, noise, effects, middles, clusters);
    daySpread = Math.max(leastDaySpread, spreadOfDays(residuals, noise, free));
    for (let c = 0; c < clusters; c++)
      drawn[c] = weight(residuals[c]! / Math.sqrt(daySpread ** 2 + noise[c]!));
    const before = effects;
    effects = solved(cells, weights, effects, part, strata);
    const moved = effects.reduce((most, value, s) => Math.max(most, Math.abs(value - before[s]!)), 0);
    if (moved < settled * daySpread) break;
  }
  const variances = variancesOf(cells, weights, part, sessions, strata);
  const sandwich = new Float64Array(sessions);
  const total = new Float64Array(sessions);
  const count = new Float64Array(sessions);
  const where = new Int32Array(clusters);
  for (const { cluster, session } of cells) where[cluster] = session;
  for (let c = 0; c < clusters; c++) {
    const w = drawn[c]! / (daySpread ** 2 + noise[c]!);
    sandwich[where[c]!]! += (w * residuals[c]!) ** 2;
    total[where[c]!]! += w;
    count[where[c]!]!++;
  }
  const errors = Float64Array.from({ length: sessions }, (_, s) => {
    const n = count[s]!;
    const seen = n > 1 ? (Math.sqrt(sandwich[s]!) / total[s]!) * Math.sqrt(n / (n - 1)) : 0;
    // Wider where few days tell of their spread, as Student's is.
    return (t95(free) / z95) * Math.max(Math.sqrt(Math.max(0, variances[s]!)), seen);
  });
  return { effects: centred(effects, errors, part), errors, residuals, noise, daySpread };
}

/** A first guess that one odd hitter can't move: medians of strata and of sessions by turns (Tukey's polish). */
function startOf(cells: readonly CellMean[], sessions: number, strata: number): Float64Array {
  const effects = new Float64Array(sessions);
  const middles = new Float64Array(strata);
  for (let turn = 0; turn < 6; turn++) {
    const byStratum: number[][] = Array.from({ length: strata }, () => []);
    for (const c of cells) byStratum[c.stratum]!.push(c.mean - effects[c.session]!);
    byStratum.forEach((list, k) => (middles[k] = median(list) ?? 0));
    const bySession: number[][] = Array.from({ length: sessions }, () => []);
    for (const c of cells) bySession[c.session]!.push(c.mean - middles[c.stratum]!);
    bySession.forEach((list, s) => (effects[s] = median(list) ?? 0));
  }
  return effects;
}

function stratumMiddles(
  cells: readonly CellMean[],
  weights: readonly number[],
  effects: Float64Array,
  strata: number,
): Float64Array {
  const [sum, total] = [new Float64Array(strata), new Float64Array(strata)];
  cells.forEach(({ stratum, session, mean }, i) => {
    sum[stratum]! += weights[i]! * (mean - effects[session]!);
    total[stratum]! += weights[i]!;
  });
  return sum.map((value, k) => (total[k]! > 0 ? value / total[k]! : 0));
}

function clusterResiduals(
  cells: readonly CellMean[],
  noise: Float64Array,
  effects: Float64Array,
  middles: Float64Array,
  clusters: number,
): Float64Array<ArrayBuffer> {
  const residuals = new Float64Array(clusters);
  for (const { cluster, stratum, session, mean, variance } of cells)
    residuals[cluster]! += (noise[cluster]! / variance) * (mean - middles[stratum]! - effects[session]!);
  return residuals;
}

/** Spread of the days beyond what the swings in them explain, robustly; `free` residuals are independent. */
function spreadOfDays(residuals: Float64Array, noise: Float64Array, free: number): number {
  const seen = (toSigma * (median(residuals, Math.abs) ?? 0)) ** 2;
  return Math.sqrt(Math.max(0, (seen * residuals.length) / free - (median(noise) ?? 0)));
}

/**
 * Least squares by conjugate gradients (Hestenes & Stiefel, J. Res. Nat. Bur. Stand. 49, 1952, 409) with the strata
 * eliminated: a turn costs as much as there are cells. Each part's effects add up to nothing.
 * @param start where the search begins
 */
function solved(
  cells: readonly CellMean[],
  weights: readonly number[],
  start: Float64Array,
  part: Int32Array,
  strata: number,
): Float64Array {
  const sessions = start.length;
  const [inSession, inStratum] = [new Float64Array(sessions), new Float64Array(strata)];
  cells.forEach(({ session, stratum }, i) => {
    inSession[session]! += weights[i]!;
    inStratum[stratum]! += weights[i]!;
  });
  /** Sums by session of values less their stratum's mean, all weighted. */
  const sums = (values: Float64Array): Float64Array => {
    const [means, out] = [new Float64Array(strata), new Float64Array(sessions)];
    cells.forEach(({ stratum }, i) => (means[stratum]! += (weights[i]! * values[i]!) / inStratum[stratum]!));
    cells.forEach(
      ({ stratum, session }, i) => (out[session]! += weights[i]! * (values[i]! - means[stratum]!)),
    );
    return out;
  };
  const spread = (ofSessions: Float64Array): Float64Array =>
    Float64Array.from(cells, ({ session }) => ofSessions[session]!);
  const lighter = (r: Float64Array): Float64Array => r.map((value, s) => value / inSession[s]!);

  const effects = start.slice();
  const left = sums(Float64Array.from(cells, ({ mean, session }) => mean - effects[session]!));
  let drawn = lighter(left);
  let size = dot(left, drawn);
  const along = drawn.slice();
  // As small as rounding leaves it.
  const least = 1e-30 * cells.reduce((sum, { mean }, i) => sum + weights[i]! * mean * mean, 0);
  for (let turn = 0; turn < 2 * sessions + 20 && size > least; turn++) {
    const pushed = sums(spread(along));
    const step = size / dot(along, pushed);
    if (!Number.isFinite(step)) break;
    for (let s = 0; s < sessions; s++) {
      effects[s]! += step * along[s]!;
      left[s]! -= step * pushed[s]!;
    }
    drawn = lighter(left);
    const before = size;
    size = dot(left, drawn);
    for (let s = 0; s < sessions; s++) along[s] = drawn[s]! + (size / before) * along[s]!;
  }
  return summingToNothing(effects, part);
}

const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, value, i) => sum + value * b[i]!, 0);

/** Values less the mean of their part. */
function summingToNothing(values: Float64Array, part: Int32Array): Float64Array {
  const sums = new Float64Array(part.length);
  values.forEach((value, s) => (sums[part[s]!]! += value));
  const sizes = sizesOf(part);
  return values.map((value, s) => value - sums[part[s]!]! / sizes.get(part[s]!)!);
}

/**
 * Variances of the sessions' effects by the model: the diagonal of the covariance alone. The more numerous of sessions
 * and strata are eliminated, each by its own cells, so that the matrix has as many rows as the fewer of the two.
 */
function variancesOf(
  cells: readonly CellMean[],
  weights: readonly number[],
  sessionPart: Int32Array,
  sessions: number,
  strata: number,
): Float64Array {
  const overStrata = strata < sessions;
  const kept = cells.map((c) => (overStrata ? c.stratum : c.session));
  const gone = cells.map((c) => (overStrata ? c.session : c.stratum));
  const count = overStrata ? strata : sessions;
  const total = new Float64Array(overStrata ? sessions : strata);
  const inGone: number[][] = Array.from(total, () => []);
  const part = new Int32Array(count);
  gone.forEach((g, i) => {
    inGone[g]!.push(i);
    total[g]! += weights[i]!;
    part[kept[i]!] = sessionPart[cells[i]!.session]!;
  });
  const normal = Matrix.zeros(count, count);
  const put = (k: number, l: number, by: number): void => void normal.set(k, l, normal.get(k, l) + by);
  for (const [g, list] of inGone.entries())
    for (const i of list) {
      put(kept[i]!, kept[i]!, weights[i]!);
      for (const j of list) put(kept[i]!, kept[j]!, (-weights[i]! * weights[j]!) / total[g]!);
    }
  // A part's level is free: ones in its block pin its sum to nothing, and put 1/n² into its inverse.
  for (let k = 0; k < count; k++) for (let l = 0; l < count; l++) if (part[k] === part[l]) put(k, l, 1);
  const columns = inverseColumns(new CholeskyDecomposition(normal).lowerTriangularMatrix);
  if (!overStrata) {
    const sizes = sizesOf(part);
    return Float64Array.from(columns, (column, k) => dot(column, column) - 1 / sizes.get(part[k]!)! ** 2);
  }
  // With D the sessions' total weights, W their weights by stratum and G the strata's covariance, the sessions' is
  // C = 1/D + W'GW/D². Pinned to a sum of nothing, c(s, s) becomes c(s, s) − 2·mean of c(s, ·) + mean of c(·, ·).
  const own = inGone.map((list, s) => {
    const sum = new Float64Array(count);
    for (const i of list) {
      const share = weights[i]! / total[s]!;
      columns[kept[i]!]!.forEach((value, m) => (sum[m]! += share * value));
    }
    return sum;
  });
  const all = new Map<number, Float64Array>();
  own.forEach((sum, s) => {
    const before = all.get(sessionPart[s]!);
    if (before === undefined) all.set(sessionPart[s]!, sum.slice());
    else sum.forEach((value, m) => (before[m]! += value));
  });
  const rows = Float64Array.from(own, (sum, s) => 1 / total[s]! + dot(sum, all.get(sessionPart[s]!)!));
  const sizes = sizesOf(sessionPart);
  const ofAll = new Float64Array(sessions);
  rows.forEach((row, s) => (ofAll[sessionPart[s]!]! += row));
  return rows.map((row, s) => {
    const n = sizes.get(sessionPart[s]!)!;
    return 1 / total[s]! + dot(own[s]!, own[s]!) - (2 * row) / n + ofAll[sessionPart[s]!]! / n ** 2;
  });
}

/** The columns of a lower triangular matrix's inverse. */
function inverseColumns(lower: Matrix): Float64Array[] {
  const rows = lower.to2DArray().map((row) => Float64Array.from(row));
  return rows.map((_, k) => {
    const column = new Float64Array(rows.length);
    column[k] = 1 / rows[k]![k]!;
    for (let m = k + 1; m < rows.length; m++) {
      const row = rows[m]!;
      let sum = 0;
      for (let l = k; l < m; l++) sum -= row[l]! * column[l]!;
      column[m] = sum / row[m]!;
    }
    return column;
  });
}

/** Effects against the weighted median of their part: most sessions are taken to be sound. */
function centred(effects: Float64Array, errors: Float64Array, part: Int32Array): Float64Array {
  const middle = new Map<number, number>();
  const members = new Map<number, number[]>();
  part.forEach((p, s) => {
    const own = members.get(p);
    if (own === undefined) members.set(p, [s]);
    else own.push(s);
  });
  for (const [p, own] of members) {
    own.sort((a, b) => effects[a]! - effects[b]!);
    const weights = own.map((s) => 1 / Math.max(errors[s]!, 1e-9) ** 2);
    const half = weights.reduce((a, b) => a + b, 0) / 2;
    let below = 0;
    let at = 0;
    // Where as much lies below as above, to rounding, the middle is between the two.
    const even = 1e-9 * half;
    while (at < own.length - 1 && below + weights[at]! < half - even) below += weights[at++]!;
    const between = own.length === 2 || (at < own.length - 1 && below + weights[at]! <= half + even);
    const next = own.length === 2 ? 1 - at : at + 1;
    middle.set(p, between ? (effects[own[at]!]! + effects[own[next]!]!) / 2 : effects[own[at]!]!);
  }
  return effects.map((value, s) => value - middle.get(part[s]!)!);
}
