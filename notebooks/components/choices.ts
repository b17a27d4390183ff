/** The choices that several pages offer beside the filter, each the same on all of them. */
import type { UnitSystem } from "../../src/units/system.ts";
import { choose, type ChoiceElement } from "./choice.ts";

/** As the reports' `--units` has them. */
const unitWords: Readonly<Record<UnitSystem, string>> = { us: "mph, ft", metric: "km/h, m" };

/** What the page is read in: kept in its address as every choice is, and nowhere else. */
export const chooseUnits = (): ChoiceElement & { readonly value: UnitSystem } =>
  choose({
    key: "units",
    label: "Units",
    options: Object.entries(unitWords).map(([value, text]) => ({ value, text })),
  }) as ChoiceElement & { readonly value: UnitSystem };
