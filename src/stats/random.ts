/** Seeded randomness. */
import { randomLcg } from "d3-random";

/** The seed in use when none is given. */
export const defaultSeed = 20;

/**
 * Uniform numbers from 0 to 1, the same for the same seed. d3's generator starts alike from neighbouring
 * seeds, so the seed is spread over its 32 bits first.
 * @param seed a whole number
 * @example randomFrom(1)() === randomFrom(1)() // true
 */
export function randomFrom(seed: number): () => number {
  return randomLcg(firstState(seed) >>> 0);
}

/**
 * Where the generator of `randomFrom` starts, and its step from state to state, written out for loops that draw
 * millions: a call costs more than the number. The number is state ÷ 2³², the state read without a sign.
 * @example (nextState(firstState(7)) >>> 0) / 2 ** 32 === randomFrom(7)() // true
 */
export const firstState = (seed: number): number => Math.imul(seed, 0x9e3779b1);

/**
 * The step of the linear congruential generator.
 * @example nextState(0) // 1013904223
 */
export const nextState = (state: number): number => (Math.imul(state, 0x19660d) + 0x3c6ef35f) | 0;
