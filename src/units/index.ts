/**
 * Conversions between the units people type and the SI values the code computes in.
 *
 * A factor named after a unit is that unit in SI: `90 * mph` is 40.2336 m/s and `122 / ft` is 400.26 ft.
 * Sources: the factors are exact by the international yard and pound agreement (1959), but for the
 * conventional inch of mercury (at 0 °C), which is NIST SP 811's 3386.389 Pa.
 */

/** m/s in one mile an hour. */
export const mph = 0.44704;
/** m/s in one kilometre an hour. */
export const kmh = 1 / 3.6;
/** m in one foot. */
export const ft = 0.3048;
/** m in one inch. */
export const inch = 0.0254;
/** kg in one avoirdupois ounce. */
export const oz = 0.028349523125;
/** Pa in one inch of mercury. */
export const inHg = 3386.389;
/** Pa in one hectopascal. */
export const hPa = 100;
/** rad in one degree. */
export const deg = Math.PI / 180;
/** rad/s in one revolution a minute. */
export const rpm = (2 * Math.PI) / 60;

/** K from °F. */
export function kelvinFromFahrenheit(f: number): number {
  return ((f - 32) * 5) / 9 + 273.15;
}

/** °F from K. */
export function fahrenheitFromKelvin(k: number): number {
  return ((k - 273.15) * 9) / 5 + 32;
}

interface Unit {
  readonly dimension: "speed" | "length" | "angle" | "turning" | "pressure" | "temperature" | "share";
  /** SI value = value × factor + offset. */
  readonly factor: number;
  readonly offset?: number;
}

const table = {
  mph: { dimension: "speed", factor: mph },
  "km/h": { dimension: "speed", factor: kmh },
  "m/s": { dimension: "speed", factor: 1 },
  "ft/s": { dimension: "speed", factor: ft },
  ft: { dimension: "length", factor: ft },
  in: { dimension: "length", factor: inch },
  cm: { dimension: "length", factor: 0.01 },
  m: { dimension: "length", factor: 1 },
  deg: { dimension: "angle", factor: deg },
  rad: { dimension: "angle", factor: 1 },
  rpm: { dimension: "turning", factor: rpm },
  "rad/s": { dimension: "turning", factor: 1 },
  inHg: { dimension: "pressure", factor: inHg },
  hPa: { dimension: "pressure", factor: hPa },
  Pa: { dimension: "pressure", factor: 1 },
  F: { dimension: "temperature", factor: 5 / 9, offset: 273.15 - (32 * 5) / 9 },
  C: { dimension: "temperature", factor: 1, offset: 273.15 },
  K: { dimension: "temperature", factor: 1 },
  pct: { dimension: "share", factor: 0.01 },
  share: { dimension: "share", factor: 1 },
} as const satisfies Record<string, Unit>;

/** A unit's name as column maps and field definitions write it. */
export type UnitName = keyof typeof table;

/** Every unit's name. */
export const unitNames = Object.keys(table) as readonly UnitName[];

/** Whether a text names a unit this module converts. */
export function isUnitName(text: string): text is UnitName {
  return Object.hasOwn(table, text);
}

/** The dimension of a unit: only units of one dimension convert into each other. */
export function dimension(unit: UnitName): Unit["dimension"] {
  return table[unit].dimension;
}

/**
 * A value in one unit, in another of the same dimension.
 * @throws RangeError when the two units measure different things.
 * @example convert(100, "km/h", "mph") // 62.137119
 */
export function convert(value: number, from: UnitName, to: UnitName): number {
  const a: Unit = table[from];
  const b: Unit = table[to];
  if (a.dimension !== b.dimension) throw new RangeError(`${from} can't be converted to ${to}`);
  if (from === to) return value;
  return (value * a.factor + (a.offset ?? 0) - (b.offset ?? 0)) / b.factor;
}
