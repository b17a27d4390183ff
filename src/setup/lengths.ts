/** Lengths, slopes and places of a setup in a reader's words: the same in the command, on the page and on paper. */
import type { Stand } from "../field/tracker.ts";
import { deg } from "../units/index.ts";
import { shownNumber, signAfter, type UnitSystem } from "../units/system.ts";

/**
 * A short length, given in inches: from 2 ft on in feet and inches, from 1 m on in metres.
 * @example lengthWords(8.81) // "8.8 in"
 * @example lengthWords(26.2) // "2 ft 2 in"
 * @example lengthWords(8.81, "metric") // "22.4 cm"
 * @example lengthWords(50, "metric") // "1.27 m"
 */
export function lengthWords(length_in: number, units: UnitSystem = "us", digits = 1): string {
  const shown = shownNumber(length_in, "in", units);
  if (units === "metric")
    return shown < 100 ? `${shown.toFixed(digits)} cm` : `${(shown / 100).toFixed(2)} m`;
  if (shown < 24) return `${shown.toFixed(digits)} in`;
  const whole = Math.round(shown);
  return `${Math.floor(whole / 12)} ft${whole % 12 === 0 ? "" : ` ${whole % 12} in`}`;
}

/**
 * A length of the field, given in feet.
 * @example farWords(21.62) // "21.6 ft"
 * @example farWords(21.62, "metric") // "6.59 m"
 */
export function farWords(length_ft: number, units: UnitSystem = "us"): string {
  return shownNumber(length_ft, "ft", units).toFixed(units === "us" ? 1 : 2) + signAfter("ft", units);
}

/**
 * How much an angle rises over what a level is long.
 * @example slopeWords(1) // "0.21 in in a foot"
 * @example slopeWords(1, "metric") // "1.7 cm in a metre"
 */
export function slopeWords(angle_deg: number, units: UnitSystem = "us"): string {
  const slope = Math.tan(Math.min(Math.abs(angle_deg), 80) * deg);
  return units === "us"
    ? `${(slope * 12).toFixed(2)} in in a foot`
    : `${(slope * 100).toFixed(1)} cm in a metre`;
}

/**
 * Where a tracker stands, seen from the plate's rear point.
 * @example placeWords({ distance_ft: -13.7, offset_in: 31 }) // "13.7 ft behind the plate's point, 2 ft 7 in off the line toward first base's side"
 * @example placeWords({ distance_ft: 21.6, offset_in: 0 }, "metric") // "6.58 m in front of the plate's point, on the line to the rubber"
 */
export function placeWords({ distance_ft, offset_in }: Stand, units: UnitSystem = "us"): string {
  const far = Math.abs(distance_ft);
  const along =
    far < 0.05
      ? "level with the plate's point"
      : `${farWords(far, units)} ${distance_ft > 0 ? "in front of" : "behind"} the plate's point`;
  const aside =
    Math.abs(offset_in) < 0.05
      ? "on the line to the rubber"
      : `${lengthWords(Math.abs(offset_in), units)} off the line toward ${sideOf(offset_in)} base's side`;
  return `${along}, ${aside}`;
}

/**
 * Whose side of the line a place is on.
 * @example sideOf(-3) // "third"
 */
export const sideOf = (offset: number): "first" | "third" => (offset < 0 ? "third" : "first");
