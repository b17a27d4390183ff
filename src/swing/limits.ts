/** Values no field takes: what looks wrong, and what was expected, in one sentence. */
import { convert, dimension, unitNames, type UnitName } from "../units/index.ts";
import type { Field } from "./fields.ts";

/** A unit as limits and sentences show it. */
export function unitLabel(unit: UnitName | undefined): string {
  if (unit === undefined) return "";
  if (unit === "deg") return "°";
  if (unit === "pct") return " %";
  if (unit === "F" || unit === "C") return ` °${unit}`;
  return ` ${unit}`;
}

const minus = (value: number): string => String(value).replace("-", "\u2212");

/** Only of these does one value tell its unit: a pressure in hPa, a temperature in K. Speeds overlap. */
const telling: ReadonlySet<string> = new Set(["pressure", "temperature"]);

/** The unit a value outside a field's limits was likely meant in, or null. */
function likelyUnit({ unit, min = -Infinity, max = Infinity }: Field, value: number): UnitName | null {
  if (unit === undefined || !telling.has(dimension(unit))) return null;
  const fits = (other: UnitName): boolean => {
    if (other === unit || dimension(other) !== dimension(unit)) return false;
    const meant = convert(value, other, unit);
    return meant >= min && meant <= max;
  };
  return unitNames.find(fits) ?? null;
}

/**
 * Why a field can't have a value, going on from its name; null when it can.
 * @example outsideLimits({ name: "p", type: "number", unit: "inHg", min: 16, max: 32, title: "P", description: "" }, 1013) // "is over 32 inHg: 16 to 32 inHg is expected, and this looks like hPa"
 * @example outsideLimits({ name: "p", type: "number", unit: "inHg", min: 16, max: 32, title: "P", description: "" }, 30) // null
 */
export function outsideLimits(field: Field, value: number): string | null {
  const { min = -Infinity, max = Infinity, unit } = field;
  if (Number.isNaN(value)) return "is not a number";
  if (value >= min && value <= max) return null;
  const label = unitLabel(unit);
  const wrong = value < min ? `is under ${minus(min)}${label}` : `is over ${minus(max)}${label}`;
  const meant = likelyUnit(field, value);
  const expected =
    Number.isFinite(min) && Number.isFinite(max)
      ? `: ${minus(min)} to ${minus(max)}${label} is expected`
      : "";
  return `${wrong}${expected}${meant === null ? "" : `, and this looks like${unitLabel(meant)}`}`;
}

/** A value that a field can't have, as one sentence. */
export interface Amiss {
  readonly field: string;
  readonly sentence: string;
}

/**
 * Every value of a row outside its field's limits, a sentence each.
 * @example outsideIn({ humidity_pct: -5 }, [{ name: "humidity_pct", type: "number", unit: "pct", min: 0, max: 100, title: "Humidity", description: "" }])[0].sentence // "Humidity −5 % is under 0 %: 0 to 100 % is expected."
 */
export function outsideIn(row: object, fields: readonly Field[]): Amiss[] {
  const values = row as Readonly<Record<string, unknown>>;
  return fields.flatMap((field) => {
    const value = values[field.name];
    if (field.type !== "number" || typeof value !== "number") return [];
    const reason = outsideLimits(field, value);
    if (reason === null) return [];
    return [
      {
        field: field.name,
        sentence: `${field.title} ${minus(value)}${unitLabel(field.unit)} ${reason}.`,
      },
    ];
  });
}
