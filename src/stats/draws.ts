/**
 * What a bootstrap or a split into halves draws: places in each sample, draw after draw. They depend on how many values
 * a sample has in which groups, and on the seed, and not on the values: every measure of the same swings is taken on
 * the same draws. So the latest draws are kept, and a second measure only looks its values up.
 */
import { firstState, nextState } from "./random.ts";

/** Values laid out group by group: group k is values[starts[k]] to values[starts[k + 1]], the end left out. */
export interface Grouped {
  readonly values: Float64Array;
  readonly starts: Int32Array;
  readonly groups: number;
}

/** What the draws depend on. */
export type Shape = Pick<Grouped, "starts" | "groups">;

/** Places in a sample's values. */
export type Places = Uint16Array | Int32Array;

/** What is drawn again and again: parts (samples, members) of places, one draw of all of them after the other. */
interface Series {
  /** Tells it from every other. */
  readonly name: string;
  readonly parts: number;
  /** How many places a draw takes as a rule, and at most. */
  readonly size: number;
  readonly room: number;
  /** Begins anew: what it gives draws one part into `into` from `at` on, part after part, and returns where it ends. */
  readonly start: () => (part: number, into: Places, at: number) => number;
}

/** The places of many draws one after the other, and where each part of each draw ends. */
interface Draws {
  readonly places: Uint16Array;
  readonly ends: Int32Array;
}

type Use = (places: Places, bounds: Int32Array, i: number) => void;

/** At most so many places are kept, 2 bytes each; a list that alone would take more is drawn and forgotten. */
const mostKept = 2 ** 23;
/** Places from here on don't fit into two bytes. */
const tooFar = 2 ** 16;

/** By name, the one not used for longest first. */
const kept = new Map<string, Draws>();
let keptPlaces = 0;

/**
 * Each of many resamples of one sample or several: groups drawn with replacement, then each drawn group's values with
 * replacement. One group alone is the ordinary bootstrap.
 * @param seed the same seed gives the same resamples
 * @param use sample s of resample i is what stands at places[bounds[s]] up to, not including, places[bounds[s + 1]];
 *   it must change neither, and keep neither
 * @example eachResample([{ starts: Int32Array.of(0, 2), groups: 1 }], 1, 3, () => 0) // undefined
 */
export function eachResample(samples: readonly Shape[], seed: number, times: number, use: Use): void {
  const series: Series = {
    name: `resamples ${seed} ${times} ${samples.map(({ starts }) => starts.join()).join(" ")}`,
    parts: samples.length,
    size: samples.reduce((sum, { starts, groups }) => sum + starts[groups]!, 0),
    room: samples.reduce((sum, sample) => sum + roomFor(sample), 0),
    start: () => {
      const draw = drawer(seed);
      return (s, into, at) => draw(samples[s]!, into, at);
    },
  };
  each(series, times, use);
}

/**
 * Each of many ways to deal members' values into two halves at random; the last of an odd number is left out.
 * @param sizes how many values each member has
 * @param use member m's halves are what stands at places[bounds[m]] to places[bounds[m + 1]], one after the other
 * @example eachHalving([4], 1, 3, () => 0) // undefined
 */
export function eachHalving(sizes: readonly number[], seed: number, times: number, use: Use): void {
  const size = sizes.reduce((sum, n) => sum + n, 0);
  const start = () => {
    const orders = sizes.map((n) => Int32Array.from({ length: n }, (_, i) => i));
    let state = firstState(seed);
    return (m: number, into: Places, at: number): number => {
      const order = orders[m]!;
      const used = 2 * Math.floor(order.length / 2);
      state = shuffle(order, used, state);
      into.set(order.subarray(0, used), at);
      return at + used;
    };
  };
  each(
    { name: `halves ${seed} ${times} ${sizes.join()}`, parts: sizes.length, size, room: size, start },
    times,
    use,
  );
}

function each(series: Series, times: number, use: Use): void {
  const { parts, size, room } = series;
  const bounds = new Int32Array(parts + 1);
  if (size >= tooFar || size * times > mostKept) {
    const draw = series.start();
    const places = new Int32Array(room);
    for (let i = 0; i < times; i++) {
      for (let s = 0; s < parts; s++) bounds[s + 1] = draw(s, places, bounds[s]!);
      use(places, bounds, i);
    }
    return;
  }
  const { places, ends } = drawsOf(series, times);
  for (let i = 0, k = 0; i < times; i++) {
    bounds[0] = bounds[parts]!;
    for (let s = 1; s <= parts; s++) bounds[s] = ends[k++]!;
    use(places, bounds, i);
  }
}

/** How many places one resample may take: each group drawn may be the largest one. */
function roomFor({ starts, groups }: Shape): number {
  let largest = 0;
  for (let k = 0; k < groups; k++) largest = Math.max(largest, starts[k + 1]! - starts[k]!);
  return largest * groups;
}

/** Draws one resample's places after another, each from `at` on, and returns where it ends. */
function drawer(seed: number): (shape: Shape, into: Places, at: number) => number {
  let state = firstState(seed);
  return ({ starts, groups }, into, at) => {
    for (let k = 0; k < groups; k++) {
      let drawn = 0;
      if (groups > 1) {
        state = nextState(state);
        drawn = below(state, groups);
      }
      const start = starts[drawn]!;
      const size = starts[drawn + 1]! - start;
      state = fill(into, at, start, size, state);
      at += size;
    }
    return at;
  };
}

/** Draws places in one group, and returns the generator's state: a loop of its own runs twice as fast. */
function fill(into: Places, at: number, start: number, size: number, state: number): number {
  const step = stepOf(size);
  const end = at + size;
  for (let i = at; i < end; i++) {
    state = nextState(state);
    into[i] = start + (((state >>> 0) * step) | 0);
  }
  return state;
}

/** Fisher and Yates' shuffle of the first `used`, likewise. */
function shuffle(order: Int32Array, used: number, state: number): number {
  const n = order.length;
  for (let i = 0; i < used; i++) {
    state = nextState(state);
    const j = i + below(state, n - i);
    const moved = order[i]!;
    order[i] = order[j]!;
    order[j] = moved;
  }
  return state;
}

/** A whole number from 0 up to, not including, n, as the generator's state has it. */
const below = (state: number, n: number): number => ((state >>> 0) * stepOf(n)) | 0;

/** How far a state apart lies of n numbers: exact, and taken out of a loop half of what a draw costs. */
const stepOf = (n: number): number => n / 2 ** 32;

/** A series' draws: those kept, else made and kept in the stead of what was not used for longest. */
function drawsOf(series: Series, times: number): Draws {
  const { name } = series;
  const known = kept.get(name);
  const draws = known ?? drawAll(series, times);
  if (known === undefined) keptPlaces += draws.places.length;
  kept.delete(name);
  kept.set(name, draws);
  for (const [oldest, { places }] of kept) {
    if (keptPlaces <= mostKept || oldest === name) break;
    kept.delete(oldest);
    keptPlaces -= places.length;
  }
  return draws;
}

function drawAll({ parts, size, room, start }: Series, times: number): Draws {
  const draw = start();
  const ends = new Int32Array(times * parts);
  let places = new Uint16Array(times * size + room);
  let at = 0;
  for (let i = 0, k = 0; i < times; i++) {
    if (at + room > places.length) {
      // Where groups differ in size so do resamples, and these ran longer than the sample.
      const longer = new Uint16Array(places.length + Math.ceil(places.length / 4) + room);
      longer.set(places);
      places = longer;
    }
    for (let s = 0; s < parts; s++) {
      at = draw(s, places, at);
      ends[k++] = at;
    }
  }
  return { places, ends };
}
