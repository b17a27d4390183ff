/**
 * The one table of figures that a coach may change: data/thresholds.json, each with its limits, its reason and
 * its source. A library's own thresholds.json overrides them by name.
 */
import table from "../../data/thresholds.json" with { type: "json" };

/** The name of a threshold. */
export type ThresholdName = keyof typeof table;

/** Every threshold's value, in the unit its entry names. */
export type Thresholds = Readonly<Record<ThresholdName, number>>;

/** A threshold as the table has it. */
export interface ThresholdEntry {
  readonly value: number;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly reason: string;
  readonly source: string;
}

/** The table, for those who show it. */
export const thresholdTable: Readonly<Record<ThresholdName, ThresholdEntry>> = table;

const names = Object.keys(table) as ThresholdName[];

/** The values of the table as it comes. */
export const defaultThresholds: Thresholds = Object.fromEntries(
  names.map((name) => [name, table[name].value]),
) as Record<ThresholdName, number>;

/** Pairs that only make sense in this order: the first may not pass the second. */
const ordered: readonly (readonly [ThresholdName, ThresholdName])[] = [
  ["line_drive_from_deg", "fly_from_deg"],
  ["fly_from_deg", "pop_up_from_deg"],
  ["partial_power_kept", "clean_power_kept"],
  ["clean_power_kept", "flush_power_kept"],
  ["clean_from_deg", "flush_from_deg"],
  ["flush_from_deg", "flush_to_deg"],
  ["flush_to_deg", "clean_to_deg"],
  ["zone_bottom_share", "zone_top_share"],
  ["tee_low_ft", "tee_high_ft"],
];

/** Thrown when a thresholds table can't be used; the message is one plain sentence. */
export class BadThresholds extends Error {
  override readonly name = "BadThresholds";
  /** The data is at fault, not the call. */
  readonly fault = "data";
}

/** A number, or an entry copied from the table with its value changed. */
function valueOf(given: unknown): unknown {
  return given !== null && typeof given === "object" && "value" in given ? given.value : given;
}

/**
 * The thresholds with a library's own in place of the table's.
 * @param overrides the parsed thresholds.json: names with a number, or with an entry as the table has them;
 *   null for none
 * @throws BadThresholds on a name that the table hasn't, a value that is no number or outside its limits, or
 *   values that contradict each other
 * @example thresholdsFrom({ bloop_speed_ft_s: 75 }).bloop_speed_ft_s // 75
 * @example thresholdsFrom(null).flush_power_kept // 0.92
 */
export function thresholdsFrom(overrides: unknown): Thresholds {
  if (overrides === null || overrides === undefined) return defaultThresholds;
  if (typeof overrides !== "object" || Array.isArray(overrides)) {
    throw new BadThresholds("The thresholds must be one JSON object of names and numbers.");
  }
  const thresholds: Record<ThresholdName, number> = { ...defaultThresholds };
  for (const [name, given] of Object.entries(overrides)) {
    if (!Object.hasOwn(table, name)) {
      throw new BadThresholds(
        `There is no threshold named ${JSON.stringify(name)}; see data/thresholds.json.`,
      );
    }
    const { min, max, unit } = table[name as ThresholdName];
    const value = valueOf(given);
    if (typeof value !== "number" || !(value >= min && value <= max)) {
      throw new BadThresholds(
        `The threshold ${name} must be a number from ${min} to ${max} (${unit}), not ${JSON.stringify(value)}.`,
      );
    }
    thresholds[name as ThresholdName] = value;
  }
  for (const [low, high] of ordered) {
    if (thresholds[low] > thresholds[high]) {
      throw new BadThresholds(
        `The threshold ${low} (${thresholds[low]}) may not be above ${high} (${thresholds[high]}).`,
      );
    }
  }
  return thresholds;
}
