/** Between a chart's pixels and the ends of a marked part: what a drag over it means, and where a part stands in it. */
import { convert } from "../../src/units/index.ts";
import { shownNumber, shownUnit, type UnitSystem } from "../../src/units/system.ts";
import type { Ends, MarkedMeasure } from "../../src/views/marked.ts";

/** A chart's own scale, in the reader's units, as Plot hands it out. */
export interface ChartScale {
  readonly range: readonly number[];
  apply(value: number): number;
  invert(px: number): number;
}

type Unit = MarkedMeasure["unit"];

/** So near to the frame's edge a drag means everything beyond it too, px. */
const nearEdge = 2;

/** A value that a reader sees or writes, in the tables' unit. */
export function tableValue(shown: number, unit: Unit, system: UnitSystem): number {
  return Math.round(10 * convert(shown, shownUnit(unit, system), unit)) / 10;
}

/**
 * The ends that a drag from one pixel to another means, to whole units as the reader sees them; open at the frame's edge,
 * where a chart draws what lies beyond.
 */
export function endsBetween(
  from: number,
  to: number,
  scale: ChartScale,
  unit: Unit,
  system: UnitSystem,
): Ends {
  const end = (px: number, edge: number): number | null =>
    Math.abs(px - edge) <= nearEdge ? null : tableValue(Math.round(scale.invert(px)), unit, system);
  const [first, last] = [scale.range[0]!, scale.range.at(-1)!];
  // Up a chart the pixels count down.
  const [lowPx, highPx] = first < last === from < to ? [from, to] : [to, from];
  return { low: end(lowPx, first), high: end(highPx, last) };
}

/** Where ends stand in a chart, px, the lesser first; what lies beyond the frame stands at its edge. */
export function pixelsOf(
  { low, high }: Ends,
  scale: ChartScale,
  unit: Unit,
  system: UnitSystem,
): [number, number] {
  const [first, last] = [scale.range[0]!, scale.range.at(-1)!];
  const [least, most] = [Math.min(first, last), Math.max(first, last)];
  const at = (value: number | null, edge: number): number =>
    value === null ? edge : Math.max(least, Math.min(most, scale.apply(shownNumber(value, unit, system))));
  const [a, b] = [at(low, first), at(high, last)];
  return a < b ? [a, b] : [b, a];
}
