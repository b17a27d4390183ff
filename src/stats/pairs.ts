/** Which of several members clearly differ, all pairs looked at together. */
import { tTail } from "./beta.ts";
import { standing } from "./holm.ts";

/** A member's own figure, with its variance and degrees of freedom; null: a normal's. */
export interface Own {
  readonly value: number;
  readonly variance: number;
  readonly freedom: number | null;
}

/** What came of all pairs. */
export interface ClearPairs {
  /** Pairs that differ by more than chance, all pairs looked at together (Holm), and all pairs. */
  readonly clear: number;
  readonly all: number;
  /** For each member how many stand clearly below it, less how many stand clearly above: all an order may go by. */
  readonly ahead: readonly number[];
}

/**
 * Pairs of members whose own figures differ by more than chance. Degrees of freedom after Welch and Satterthwaite.
 * @example clearPairs([{ value: 0, variance: 1, freedom: null }, { value: 9, variance: 1, freedom: null }]) // { clear: 1, all: 1, ahead: [-1, 1] }
 * @example clearPairs([]) // { clear: 0, all: 0, ahead: [] }
 */
export function clearPairs(own: readonly Own[]): ClearPairs {
  const pairs = own.flatMap((a, i) =>
    own.slice(i + 1).map((b, step) => {
      const variance = a.variance + b.variance;
      const lost = [a, b].reduce((sum, o) => sum + (o.freedom === null ? 0 : o.variance ** 2 / o.freedom), 0);
      const apart = a.value - b.value;
      const p = tTail(apart / Math.sqrt(variance), lost > 0 ? variance ** 2 / lost : null);
      return { i, j: i + 1 + step, apart, p };
    }),
  );
  const clear = standing(pairs.map(({ p }) => p));
  const ahead = own.map(() => 0);
  pairs.forEach(({ i, j, apart }, at) => {
    if (!clear[at]) return;
    ahead[i]! += Math.sign(apart);
    ahead[j]! -= Math.sign(apart);
  });
  return { clear: clear.filter(Boolean).length, all: pairs.length, ahead };
}
