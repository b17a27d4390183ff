/** A drill's window in words. */
import { swingFields, type Field, type TargetMeasure } from "../swing/fields.ts";
import type { UnitSystem } from "../units/system.ts";
import { rangeWords, valueWords } from "./words.ts";

/** One measure of a window; an end that is null is open. */
export interface WindowEnds {
  readonly measure: TargetMeasure;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * One measure of a drill's window.
 * @example windowWords({ measure: "launch_angle_deg", low: 5, high: 25 }, "us") // "launch angle 5 to 25°"
 * @example windowWords({ measure: "exit_velocity_mph", low: 55, high: null }, "us") // "exit velocity from 55 mph"
 */
export function windowWords({ measure, low, high }: WindowEnds, system: UnitSystem): string {
  const { title, unit } = (swingFields as readonly Field[]).find((f) => f.name === measure)!;
  const name = title.toLowerCase();
  const digits = unit === "ft" ? 1 : 0;
  if (low !== null && high !== null) return `${name} ${rangeWords(low, high, unit!, system, digits)}`;
  if (low !== null) return `${name} from ${valueWords(low, unit!, system, digits)}`;
  return `${name} up to ${valueWords(high, unit!, system, digits)}`;
}
