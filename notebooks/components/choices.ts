/** The choices that several pages offer, each the same on all of them. */
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

/** Whether the flagged among the rows are left out of every figure. */
export const tickFlagged = (rows: Rows): ChoiceElement => tick({ key: "flagged", label: flaggedLabel(rows) });

/** As the reports' `--units` has them. */
const unitWords: Readonly<Record<UnitSystem, string>> = { us: "mph, feet", metric: "km/h, metres" };

/** What the page is read in: kept in its address as every choice is, and nowhere else. */
export const chooseUnits = (): ChoiceElement & { readonly value: UnitSystem } =>
  choose({
    key: "units",
    label: "Units",
    options: Object.entries(unitWords).map(([value, text]) => ({ value, text })),
  }) as ChoiceElement & { readonly value: UnitSystem };
