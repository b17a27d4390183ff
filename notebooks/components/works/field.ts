/** The long work of a page of balls on a field. The computing is in src/defence. */
import { onFieldSteps, type Ground, type OnField } from "../../../src/defence/onField.ts";
import { filtered, type SwingFilter } from "../../../src/views/filter.ts";
import { inPlay } from "../../../src/views/swings.ts";
import type { Work } from "../apart.ts";

/** What came of each ball on a field. */
export const flownOn: Work<[SwingFilter, Ground], OnField> = {
  name: "on a field",
  what: "what each ball would have been on this field",
  steps: (library, filter, ground) => onFieldSteps(inPlay(filtered(library, filter)), ground),
};
