/** Seeded randomness. */
import { randomLcg } from "d3";

/** The seed in use when none is given. */
export const defaultSeed = 20;

/**
 * Uniform numbers from 0 to 1, the same for the same seed. d3's generator starts alike from neighbouring
 * seeds, so the seed is spread over its 32 bits first.
 * @param seed a whole number
 * @example randomFrom(1)() === randomFrom(1)() // true
 */
export function randomFrom(seed: number): () => number {
  return randomLcg(Math.imul(seed, 0x9e3779b1) >>> 0);
}
