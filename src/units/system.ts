/** The units a reader sees: those of the trade at home, or metric ones. The tables stay as they are. */
import { convert, type UnitName } from "./index.ts";

/** US: mph, ft, °F, inHg. Metric: km/h, m, °C, hPa. A choice of display alone. */
export const unitSystems = ["us", "metric"] as const;
export type UnitSystem = (typeof unitSystems)[number];

const metric: Partial<Record<UnitName, UnitName>> = {
  mph: "km/h",
  ft: "m",
  in: "cm",
  F: "C",
  inHg: "hPa",
};
const signs: Partial<Record<UnitName, string>> = { deg: "°", pct: "%", F: "°F", C: "°C" };

/** The unit a reader sees for one of the tables' units. */
export function shownUnit(unit: UnitName, system: UnitSystem): UnitName {
  return system === "metric" ? (metric[unit] ?? unit) : unit;
}

/**
 * How a unit is written after a number.
 * @example unitSign("deg") // "°"
 */
export function unitSign(unit: UnitName): string {
  if (unit === "share") return "%";
  return signs[unit] ?? unit;
}

/**
 * A value as the reader sees it, as a number. A share becomes percent.
 * @example shownNumber(100, "mph", "metric") // 160.93
 * @example shownNumber(0.25, "share", "us") // 25
 */
export function shownNumber(value: number, unit: UnitName, system: UnitSystem): number {
  if (unit === "share") return value * 100;
  return convert(value, unit, shownUnit(unit, system));
}

/**
 * A unit as it stands behind a number: parted by a space where it is a word.
 * @example signAfter("mph", "metric") // " km/h"
 */
export function signAfter(unit: UnitName, system: UnitSystem): string {
  const sign = unitSign(shownUnit(unit, system));
  return sign === "°" || sign === "%" ? sign : ` ${sign}`;
}

/**
 * A step from one value to another in the reader's unit, as a number: what a degree or a mile an hour more comes to.
 * @example shownStep(9, "F", "metric") // 5
 */
export function shownStep(step: number, unit: UnitName, system: UnitSystem): number {
  return shownNumber(step, unit, system) - shownNumber(0, unit, system);
}

/** The units that the kit's own sentences are written in, after a number or a range of two. */
const phraseUnits = { ft: "ft", mph: "mph", "°F": "F", inHg: "inHg" } as const satisfies Record<
  string,
  UnitName
>;
const phraseFigures = /(−?[\d.,]*\d)(?: to (−?[\d.,]*\d))? (ft|mph|°F|inHg)(?![\w/])/g;

/**
 * A sentence of the kit's own with its figures in the reader's units: what was assumed of the air, why a value can't
 * be. Not for texts from elsewhere: a name may hold a number too.
 * @example phraseIn("70 °F", "metric") // "21 °C"
 * @example phraseIn("met 3 ft above the plate", "metric") // "met 0.9 m above the plate"
 * @example phraseIn("16 to 32 inHg is expected", "metric") // "542 to 1,084 hPa is expected"
 * @example phraseIn("70 °F", "us") // "70 °F"
 */
export function phraseIn(text: string, system: UnitSystem): string {
  if (system === "us") return text;
  return text.replace(
    phraseFigures,
    (_, low: string, high: string | undefined, sign: keyof typeof phraseUnits) => {
      const unit = phraseUnits[sign];
      const shown = [low, high].flatMap((figure) => {
        if (figure === undefined) return [];
        const value = shownNumber(Number(figure.replaceAll(",", "").replace("−", "-")), unit, system);
        // A thousand metres are whole ones; a ball is met at a tenth of one.
        const digits = unit === "ft" && Math.abs(value) < 10 ? 1 : 0;
        return [value.toLocaleString("en", { maximumFractionDigits: digits }).replace("-", "−")];
      });
      return shown.join(" to ") + signAfter(unit, system);
    },
  );
}
