/** The air behind the carries of a report, in words. */
import { airFor, type Air } from "../flight/air.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { fahrenheitFromKelvin, mph } from "../units/index.ts";
import { phraseIn, type UnitSystem } from "../units/system.ts";
import { rangeWords, valueWords } from "../views/words.ts";
import { largest, smallest } from "../swing/lists.ts";

const span = (values: readonly number[]): [number, number] => [smallest(values), largest(values)];

/**
 * Density, temperature, pressure and wind over the sessions of the swings, and what of it was assumed.
 * @param rows the report's swings
 * @example airWords([], [], "us") // "no swings, no air"
 */
export function airWords(
  rows: readonly Pick<EnrichedSwing, "session">[],
  sessions: readonly Session[],
  system: UnitSystem,
): string {
  const named = [...new Set(rows.map((r) => r.session))];
  if (named.length === 0) return "no swings, no air";
  const airs = named.map((name) => airFor(sessions.find((s) => s.session === name) ?? null));
  const given = airs.filter((a) => a.source === "session");
  const [thin, thick] = span(airs.map((a) => a.density));
  const density = `${thin.toFixed(3)}${thick - thin < 0.0005 ? "" : ` to ${thick.toFixed(3)}`} kg/m³`;
  const temperatures = rangeOf(airs, (a) => fahrenheitFromKelvin(a.temperature_K), "F", system);
  const wind = largest(airs.map((a) => Math.hypot(...a.wind)));
  const windWords = wind === 0 ? "no wind" : `wind up to ${valueWords(wind / mph, "mph", system)}`;
  const without = airs.length - given.length;
  const from =
    without === 0
      ? ""
      : ` ${without === airs.length ? (without === 1 ? "The session gave" : "The sessions gave") : `${without} of ${airs.length} sessions gave`} none: the default air, an assumption.`;
  const assumed = [...new Set(given.flatMap((a) => a.assumed))];
  const assumedWords =
    assumed.length === 0
      ? ""
      : ` Assumed where a session was silent: ${phraseIn(assumed.join("; "), system)}.`;
  return `${density}, ${temperatures}, ${windWords}.${from}${assumedWords}`;
}

function rangeOf(airs: readonly Air[], value: (air: Air) => number, unit: "F", system: UnitSystem): string {
  const [low, high] = span(airs.map(value));
  return high - low < 0.5 ? valueWords(low, unit, system) : rangeWords(low, high, unit, system);
}
