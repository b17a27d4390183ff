/** What the spins behind some carries rest on, in words. */
import { spinSourceOf, spinSources } from "../flight/spin.ts";
import { spinSpreads } from "../flight/spreads.ts";
import type { EnrichedSwing } from "../swing/fields.ts";

/** The columns that tell the source of a spin. */
export type SpinBasis = Pick<EnrichedSwing, "spin_source" | "backspin_rpm" | "sidespin_rpm">;

/**
 * Each source of the spins with its spread and the number of balls; "" when there is none.
 * @example spinBasis([{ spin_source: "estimated", backspin_rpm: null, sidespin_rpm: null }]) // "estimated from the launch (each ±500 rpm) for all 1"
 */
export function spinBasis(rows: readonly SpinBasis[]): string {
  const sources = rows.map(spinSourceOf).filter((source) => source !== null);
  const n = sources.length.toLocaleString("en");
  return spinSources
    .flatMap((source) => {
      const k = sources.filter((s) => s === source).length;
      if (k === 0) return [];
      const { words, spread } = spinSpreads[source];
      return [
        `${words} (${spread}) for ${k === sources.length ? "all" : `${k.toLocaleString("en")} of`} ${n}`,
      ];
    })
    .join("; ");
}
