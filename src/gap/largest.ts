/** Which part of a gap most is lost by, or gained: never one alone where another could be as large. */
import { noClearChange } from "../stats/difference.ts";
import { pOf, standing } from "../stats/holm.ts";
import type { GapPart, SplitGap } from "./parts.ts";

/** The largest part one way, and those that can't be told apart from it. */
export interface LargestPart {
  readonly way: "lost" | "gained";
  readonly part: GapPart;
  readonly alike: readonly GapPart[];
}

type Parted = Pick<SplitGap, "parts" | "contrasts">;

/**
 * The parts that may be named: those beyond the pitch's speed that have an interval.
 * @example tellable({ parts: [] }) // []
 */
export const tellable = ({ parts }: Pick<SplitGap, "parts">): GapPart[] =>
  parts.filter((p) => p.part !== "pitch speed" && p.low !== null && p.high !== null);

/**
 * What most is lost by and what most is gained by, beyond the pitch's speed: the largest of the parts that stand after
 * Holm over all of them, with every part whose distance from it does not stand after Holm over all pairs. The distance
 * is taken on the same resamples: parts of one gap hang together.
 * @param stands which of `tellable`'s stand, where they were picked from more than these
 * @returns losses first; none where no part stands
 * @example largestParts({ parts: [], contrasts: [] }) // []
 */
export function largestParts(
  { parts, contrasts }: Parted,
  stands: readonly boolean[] = standing(tellable({ parts }).map(pOf)),
): LargestPart[] {
  const told = tellable({ parts });
  const apart = standing(contrasts.map(pOf));
  const toldApart = (a: GapPart, b: GapPart): boolean =>
    contrasts.some((c, i) => apart[i] && c.parts.includes(a.part) && c.parts.includes(b.part));
  return (["lost", "gained"] as const).flatMap((way) => {
    const size = (p: GapPart): number => (way === "lost" ? -p.value! : p.value!);
    const [part] = told
      .filter((p, i) => stands[i] && !noClearChange(p) && size(p) > 0)
      .sort((a, b) => size(b) - size(a));
    if (part === undefined) return [];
    return [{ way, part, alike: told.filter((p) => p !== part && !toldApart(p, part)) }];
  });
}
