/** A slope over a length, for the length that the reader thinks in. */
import type { Estimate } from "../stats/estimate.ts";
import { ft } from "../units/index.ts";
import type { UnitSystem } from "../units/system.ts";

/** The length a slope is told for, in words and as a figure. */
export const oneLength: Readonly<Record<UnitSystem, { readonly word: string; readonly figure: string }>> = {
  us: { word: "foot", figure: "1 ft" },
  metric: { word: "metre", figure: "1 m" },
};

/**
 * What comes with each foot, as what comes with each of the reader's lengths. Its own unit stays.
 * @example perLength({ n: 9, value: 3.048, low: null, high: null, reason: null }, "metric").value // 10
 */
export function perLength(slope: Estimate, system: UnitSystem): Estimate {
  if (system === "us") return slope;
  const times = (v: number | null): number | null => (v === null ? null : v / ft);
  return { ...slope, value: times(slope.value), low: times(slope.low), high: times(slope.high) };
}
