/**
 * What a bootstrap draws: places in each sample, resample after resample. They depend on how many values a sample has
 * in which groups, and on the seed, and not on the values: every measure of the same swings is taken on the same
 * resamples. So the draws of the latest shapes are kept, and a second measure only looks its values up.
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

/** The places of many resamples one after the other, and where each sample's part of each resample ends. */
interface Draws {
  readonly places: Uint16Array;
  readonly ends: Int32Array;
}

/** At most so many places are kept, 2 bytes each; a list that alone would take more is drawn and forgotten. */
const mostKept = 2 ** 23;
/** Places from here on don't fit into two bytes. */
const tooFar = 2 ** 16;

/** By shape and seed, the one not used for longest first. */
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
export function eachResample(
  samples: readonly Shape[],
  seed: number,
  times: number,
  use: (places: Places, bounds: Int32Array, i: number) => void,
): void {
  const bounds = new Int32Array(samples.length + 1);
  const size = samples.reduce((sum, sample) => sum + sizeOf(sample), 0);
  if (size >= tooFar || size * times > mostKept) {
    const draw = drawer(seed);
    const places = new Int32Array(roomFor(samples));
    for (let i = 0; i < times; i++) {
      samples.forEach((sample, s) => (bounds[s + 1] = draw(sample, places, bounds[s]!)));
      use(places, bounds, i);
    }
    return;
  }
  const { places, ends } = drawsOf(samples, seed, times);
  for (let i = 0, k = 0; i < times; i++) {
    bounds[0] = bounds[samples.length]!;
    for (let s = 1; s <= samples.length; s++) bounds[s] = ends[k++]!;
    use(places, bounds, i);
  }
}

/** How many values a sample has. */
const sizeOf = ({ starts, groups }: Shape): number => starts[groups]!;

/** How many places one resample may take: each group drawn may be its sample's largest one. */
function roomFor(samples: readonly Shape[]): number {
  return samples.reduce((room, { starts, groups }) => {
    let largest = 0;
    for (let k = 0; k < groups; k++) largest = Math.max(largest, starts[k + 1]! - starts[k]!);
    return room + largest * groups;
  }, 0);
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
  for (let i = 0; i < size; i++) {
    state = nextState(state);
    into[at + i] = start + below(state, size);
  }
  return state;
}

/** A whole number from 0 up to, not including, n, as the generator's state has it. */
const below = (state: number, n: number): number => (((state >>> 0) / 2 ** 32) * n) | 0;

/** The draws of a shape: those kept, else made and kept in the stead of what was not used for longest. */
function drawsOf(samples: readonly Shape[], seed: number, times: number): Draws {
  const name = `${seed} ${times} ${samples.map(({ starts }) => starts.join()).join(" ")}`;
  const known = kept.get(name);
  const draws = known ?? drawAll(samples, seed, times);
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

function drawAll(samples: readonly Shape[], seed: number, times: number): Draws {
  const draw = drawer(seed);
  const room = roomFor(samples);
  const ends = new Int32Array(times * samples.length);
  let places = new Uint16Array(times * samples.reduce((sum, sample) => sum + sizeOf(sample), 0) + room);
  let at = 0;
  for (let i = 0, k = 0; i < times; i++) {
    if (at + room > places.length) {
      // Where groups differ in size so do resamples, and these ran longer than the sample.
      const longer = new Uint16Array(places.length + Math.ceil(places.length / 4) + room);
      longer.set(places);
      places = longer;
    }
    for (let s = 0; s < samples.length; s++) {
      at = draw(samples[s]!, places, at);
      ends[k++] = at;
    }
  }
  return { places, ends };
}
