/** The answer to "what does the other kind of work cost, and why" in sentences: the same on a page and in a command. */
import {
  beyondPitchSentence,
  gapSentence,
  inAllSentence,
  partSentence,
  type Works,
} from "../views/sentences/gap.ts";
import type { UnitSystem } from "../units/system.ts";
import type { HitterGap, MeasureGap } from "./gap.ts";
import { largestParts } from "./largest.ts";

/**
 * One measure's answer, its headline first. Exit velocity leads with what is beyond the pitches' part, for that is the
 * hitter's, and goes on with what the pitches give, the gap in all and the parts that stand out.
 * @param hitter the parts of the hitter's gap
 * @param gap the measure asked for
 * @returns one sentence or more
 */
export function gapAnswer(
  { exitVelocity }: Pick<HitterGap, "exitVelocity">,
  gap: MeasureGap,
  works: Works,
  system: UnitSystem = "us",
): string[] {
  if (gap.measure !== "exit_velocity") return [gapSentence(gap, works, system)];
  const { beyondPitch, predicted, parts } = exitVelocity;
  const pitch = parts.find((p) => p.part === "pitch speed") ?? { value: null };
  return [
    beyondPitchSentence(beyondPitch, works, system) ?? gapSentence(gap, works, system),
    inAllSentence({ pitch, predicted, gap }, works, system),
    partSentence(largestParts(exitVelocity), parts, system),
  ].filter((text) => text !== null);
}
