/** Whether some values lie lower or higher than the others of their stratum, by ranks alone. */

/** Values of one stratum, and which of them are asked about. */
export interface Stratum {
  readonly values: readonly number[];
  readonly asked: readonly boolean[];
}

/**
 * Wilcoxon's rank sum within strata, as a standard normal deviate: negative where the values asked about lie lower than
 * the others of their stratum. What strata differ by plays no part, and neither does the shape of the values; ties have
 * their mean rank and the variance that goes with it. Of one stratum it is Wilcoxon's own, without a correction for
 * continuity.
 * Source: van Elteren, Bull. Int. Stat. Inst. 37, 1960, 351; ties: Lehmann, Nonparametrics, 1975, section 3.3.
 * @returns null where no stratum has values on both sides that differ
 * @example rankDeviate([{ values: [1, 2, 3], asked: [true, false, false] }]) // -1.2247
 * @example rankDeviate([{ values: [1, 1], asked: [true, false] }]) // null
 */
export function rankDeviate(strata: readonly Stratum[]): number | null {
  let [excess, variance] = [0, 0];
  for (const { values, asked } of strata) {
    const size = values.length;
    const here = asked.filter(Boolean).length;
    if (here === 0 || here === size) continue;
    const ranks = meanRanks(values);
    const middle = (size + 1) / 2;
    let [sum, squares] = [0, 0];
    ranks.forEach((rank, i) => {
      if (asked[i]) sum += rank - middle;
      squares += (rank - middle) ** 2;
    });
    const weight = 1 / (size + 1);
    excess += weight * sum;
    variance += (weight * weight * here * (size - here) * squares) / (size * (size - 1));
  }
  return variance > 0 ? excess / Math.sqrt(variance) : null;
}

/** Ranks from 1; ties share theirs. */
function meanRanks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const ranks = Array<number>(values.length).fill(0);
  for (let from = 0; from < order.length;) {
    let to = from + 1;
    while (to < order.length && values[order[to]!] === values[order[from]!]) to++;
    for (let i = from; i < to; i++) ranks[order[i]!] = (from + 1 + to) / 2;
    from = to;
  }
  return ranks;
}
