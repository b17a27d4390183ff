/** What is said of a chart's marked part: how many swings it holds, from where to where it reaches. */
import { counted } from "../../swing/words.ts";
import { unitSign, shownUnit, type UnitSystem } from "../../units/system.ts";
import { markedCharts, type Ends, type Marked, type MarkedChart } from "../marked.ts";
import { rangeWords, valueWords } from "../words.ts";

/** A chart's measures, as the entries of their ends are named. */
const names: Readonly<Record<MarkedChart, Readonly<Record<"x" | "y", string>>>> = {
  field: { x: "Left of center (−) or right", y: "Out from the plate" },
  contact: { x: "Exit velocity", y: "Launch angle" },
};

/**
 * A measure of a chart with its unit.
 * @example measureName("contact", "x", "metric") // "Exit velocity, km/h"
 */
export const measureName = (chart: MarkedChart, way: "x" | "y", system: UnitSystem): string =>
  `${names[chart][way]}, ${unitSign(shownUnit(markedCharts[chart][way].unit, system))}`;

/** Values from a low to a high; null where both ends are open. */
function endsWords({ low, high }: Ends, unit: "mph" | "deg" | "ft", system: UnitSystem): string | null {
  if (low !== null && high !== null) return rangeWords(low, high, unit, system);
  if (low !== null) return `from ${valueWords(low, unit, system)}`;
  return high === null ? null : `up to ${valueWords(high, unit, system)}`;
}

/** A place across the field. */
const acrossWords = (value: number, system: UnitSystem): string =>
  value === 0
    ? "center"
    : `${valueWords(Math.abs(value), "ft", system)} ${value < 0 ? "left" : "right"} of center`;

function sideWords({ low, high }: Ends, system: UnitSystem): string | null {
  if (low === null && high === null) return null;
  return `from ${low === null ? "the left edge" : acrossWords(low, system)} to ${high === null ? "the right edge" : acrossWords(high, system)}`;
}

/**
 * From where to where a marked part reaches.
 * @example partWords({ chart: "contact", x: { low: 80, high: 95 }, y: { low: 10, high: null } }, "us") // "exit velocity 80 to 95 mph, launch angle from 10°"
 * @example partWords({ chart: "field", x: { low: -40, high: 60 }, y: { low: 200, high: 350 } }, "us") // "200 to 350 ft out, from 40 ft left of center to 60 ft right of center"
 */
export function partWords({ chart, x, y }: Marked, system: UnitSystem): string {
  const [across, up] =
    chart === "field"
      ? [sideWords(x, system), endsWords(y, "ft", system)]
      : [endsWords(x, "mph", system), endsWords(y, "deg", system)];
  const parts =
    chart === "field"
      ? [up === null ? null : `${up} out`, across]
      : [across === null ? null : `exit velocity ${across}`, up === null ? null : `launch angle ${up}`];
  return parts.filter((part) => part !== null).join(", ");
}

/**
 * How many swings are in a marked part, of how many.
 * @example markedSentence({ chart: "contact", x: { low: 80, high: 95 }, y: { low: null, high: null } }, 32, 140, "us") // "32 of 140 swings: those in the marked part, exit velocity 80 to 95 mph."
 * @example markedSentence({ chart: "contact", x: { low: 130, high: null }, y: { low: null, high: null } }, 0, 1, "us") // "None of 1 swing is in the marked part, exit velocity from 130 mph."
 */
export function markedSentence(marked: Marked, n: number, of: number, system: UnitSystem): string {
  const part = partWords(marked, system);
  const where = `the marked part${part === "" ? "" : `, ${part}`}.`;
  return n === 0
    ? `None of ${counted(of, "swing")} is in ${where}`
    : `${n} of ${counted(of, "swing")}: ${n === 1 ? "the one" : "those"} in ${where}`;
}

/** Under an answer that is told of a marked part. */
export const ofMarked = "Told of the swings in the marked part alone.";

/** What is told of all swings alone: a part that was picked by its results says nothing of a weakness or a change. */
export const toldOfAll =
  "What to work on next, and what has changed, are told of all swings alone: a part picked by its results can’t say them.";
