/** What a chart of swings owes its reader: who is missing from it, and who is not drawn as measured. */
import { isDoubtful } from "../contact/flags.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import type { Cloud } from "./swings.ts";
import { count } from "./text.ts";

/**
 * The swings left out, flagged or beyond the frame: for the foot, and in short for the text alternative.
 * @param drawn the swings drawn
 * @param all how many there were
 * @param missing what the ones left out lack: "both angles"
 * @param swings the drawn ones' marks
 * @example accountOf([], 2, "both angles", { marks: [], beyond: 0, notes: [] }).notes // ["2 swings without both angles not drawn."]
 */
export function accountOf(
  drawn: readonly Pick<EnrichedSwing, "flags">[],
  all: number,
  missing: string,
  swings: Cloud,
): { notes: string[]; sentences: string[] } {
  const left = all - drawn.length;
  const flagged = drawn.filter(isDoubtful).length;
  return {
    notes: [...(left ? [`${count(left, "swing")} without ${missing} not drawn.`] : []), ...swings.notes],
    sentences: [
      flagged ? `${flagged} flagged.` : "",
      left ? `${left} without ${missing} left out.` : "",
      swings.beyond ? `${swings.beyond} beyond the frame, drawn at its edge.` : "",
    ].filter(Boolean),
  };
}
