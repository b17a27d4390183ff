/** The one table of what is tolerable in a setup: data/setup-tolerances.json, each with its limits and its reason. */
import table from "../../data/setup-tolerances.json" with { type: "json" };
import type { ThresholdEntry } from "../contact/thresholds.ts";

/** The name of a tolerance. */
export type ToleranceName = keyof typeof table;

/** Every tolerance's value, in the unit its entry names. */
export type Tolerances = Readonly<Record<ToleranceName, number>>;

/** The table, for those who show it. */
export const toleranceTable: Readonly<Record<ToleranceName, ThresholdEntry>> = table;

/** The values of the table as it comes. */
export const tolerances: Tolerances = Object.fromEntries(
  Object.entries(table).map(([name, { value }]) => [name, value]),
) as Record<ToleranceName, number>;
