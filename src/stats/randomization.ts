/** A randomization test: what the coin that gave each round its arm would have done, had the arms been alike. */
import { defaultSeed, randomFrom } from "./random.ts";

/** Up to so many pairs every outcome of the coins is gone through; with more, so many are drawn. */
const mostExact = 16;
const drawn = 20_000;

/** A randomization test's result. */
export interface Randomization {
  /** Pairs that it goes over. */
  readonly n: number;
  /** Share of the coins' outcomes whose total is at least as far from 0; two-sided. */
  readonly p: number;
  /** Whether every outcome was gone through. */
  readonly exact: boolean;
}

/**
 * The randomization test of pairs: within each pair a coin said which came first, so that with no difference each pair's
 * sign could as well be the other one. With more than sixteen pairs outcomes are drawn (seeded), the actual one among them.
 * Source: Fisher, The Design of Experiments, 1935, section 21.
 * @param differences second less first, one a pair
 * @example signFlips([1, 2, 3]) // { n: 3, p: 0.25, exact: true }
 * @example signFlips([]) // { n: 0, p: 1, exact: true }
 */
export function signFlips(differences: readonly number[], seed: number = defaultSeed): Randomization {
  const n = differences.length;
  const total = Math.abs(differences.reduce((sum, d) => sum + d, 0));
  // As far, but for what adding in another order leaves behind the last digit.
  const far = total - 1e-9 * differences.reduce((sum, d) => sum + Math.abs(d), 0);
  if (n === 0) return { n, p: 1, exact: true };
  if (n <= mostExact) {
    let count = 0;
    for (let signs = 0; signs < 2 ** n; signs++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += signs & (1 << i) ? differences[i]! : -differences[i]!;
      if (Math.abs(sum) >= far) count++;
    }
    return { n, p: count / 2 ** n, exact: true };
  }
  const uniform = randomFrom(seed);
  let count = 1;
  for (let draw = 0; draw < drawn; draw++) {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += uniform() < 0.5 ? differences[i]! : -differences[i]!;
    if (Math.abs(sum) >= far) count++;
  }
  return { n, p: count / (drawn + 1), exact: false };
}
