/** Which kinds of work a page compares. */
import type { Input } from "../../src/swing/fields.ts";
import type { SwingScope } from "../../src/views/filter.ts";
import type { Option } from "./choice.ts";

/** Two kinds of work, and what narrows them. */
export interface Scope extends SwingScope {
  readonly from: Input;
  readonly to: Input;
}

/** The pairs of kinds of work, first the one that is measured against. */
export const pairs = [
  ["tee", "live", "Tee to live"],
  ["tee", "flip", "Tee to flip"],
  ["flip", "live", "Flip to live"],
] as const;

/** The pairs, to choose from. */
export const pairOptions: readonly Option[] = pairs.map(([from, to, text]) => ({
  value: `${from}-${to}`,
  text,
}));

/** The two ends of a pair. */
export function pairOf(value: string): { from: Input; to: Input } {
  const [from, to] = pairs.find(([a, b]) => `${a}-${b}` === value) ?? pairs[0];
  return { from, to };
}
