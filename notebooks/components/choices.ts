/** The choices that several pages offer, each the same on all of them. */
import { isDoubtful } from "../../src/contact/flags.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { chips, choose, tick, type ChoiceElement } from "./choice.ts";
import type { PageLibrary } from "./library.ts";
import { drillOptions, hitterOptions, inputOptions, sessionOptions } from "./pick.ts";
import { flaggedLabel } from "./trusted.ts";

type Rows = readonly EnrichedSwing[];

/** Whose swings. */
export const chooseHitter = (library: PageLibrary): ChoiceElement =>
  choose({ key: "hitter", label: "Hitter", options: hitterOptions(library) });

/** Which of a hitter's sessions, or all. */
export const chooseSession = (library: PageLibrary, hitter: string): ChoiceElement =>
  choose({ key: "session", label: "Session", options: sessionOptions(library, hitter) });

/** Which drill among the rows, or all. */
export const chooseDrill = (rows: Rows): ChoiceElement =>
  choose({ key: "drill", label: "Drill", options: drillOptions(rows) });

/** How the ball came. */
export const chooseInput = (): ChoiceElement =>
  chips({ key: "input", label: "How the ball came", options: inputOptions() });

/** Whether the flagged among the rows are left out of every figure: asked where there are any. */
export function tickFlagged(rows: Rows): ChoiceElement {
  const element = tick({ key: "flagged", label: flaggedLabel(rows) });
  element.hidden = element.value === "no" && !rows.some(isDoubtful);
  return element;
}

/** As the reports' `--units` has them. */
const unitWords: Readonly<Record<UnitSystem, string>> = { us: "mph, ft", metric: "km/h, m" };

/** What the page is read in: kept in its address as every choice is, and nowhere else. */
export const chooseUnits = (): ChoiceElement & { readonly value: UnitSystem } =>
  choose({
    key: "units",
    label: "Units",
    options: Object.entries(unitWords).map(([value, text]) => ({ value, text })),
  }) as ChoiceElement & { readonly value: UnitSystem };
