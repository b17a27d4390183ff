/** What must be known of swings before their figures are read: pitch speeds that are missing, both sides of the plate. */
import { flagsOf, type Flag } from "../contact/flags.ts";
import type { EnrichedSwing, Input } from "../swing/fields.ts";
import { bothSidesSentence, noPitchSpeedSentence, ownCeilingSentence } from "./sentences/gap.ts";
import { inPlay, ofInput } from "./swings.ts";

/**
 * One sentence each, none where there is nothing to know.
 * @param rows one hitter's swings
 * @param kinds the kinds of work that are told of
 * @example provisos([], ["tee", "live"]) // []
 */
export function provisos(
  rows: readonly Pick<EnrichedSwing, "input" | "bats" | "outcome" | "exit_velocity_mph" | "flags">[],
  kinds: readonly Input[],
): string[] {
  const works = kinds.map((input) => ({ input, balls: inPlay(ofInput(rows, input)) }));
  const said = works.flatMap(({ input, balls }) => {
    const flagged = (flag: Flag): number => balls.filter((row) => flagsOf(row).includes(flag)).length;
    const without = flagged("no_pitch_speed");
    return [
      ...(without > 0 ? [noPitchSpeedSentence(input, without, balls.length)] : []),
      ...(flagged("own_ceiling") > 0 ? [ownCeilingSentence(input)] : []),
    ];
  });
  const sides = bothSidesSentence(
    works.map(({ input, balls }) => ({
      input,
      left: balls.filter((row) => row.bats === "L").length,
      right: balls.filter((row) => row.bats === "R").length,
    })),
  );
  return sides === null ? said : [...said, sides];
}
