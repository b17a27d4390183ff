/** Lines with what they come to in words, as a picture of a season shows them. */
import type { UnitSystem } from "../units/system.ts";
import { panelSaid } from "../views/sentences/progress.ts";
import type { HitterProgress, TrendLine } from "./progress.ts";

/** A line and its words; with what is usual, as a band. */
export interface SaidLine {
  readonly line: TrendLine;
  readonly said: string;
  readonly band: { readonly low: number; readonly high: number; readonly label: string } | null;
}

/**
 * The first measure of each kind of work that has a dated session.
 * @example firstPanels({ lines: [] }, "us") // []
 */
export const firstPanels = ({ lines }: Pick<HitterProgress, "lines">, system: UnitSystem): SaidLine[] =>
  lines
    .filter((line) => line.first && line.sessions.length > 0)
    .map((line) => ({ line, said: panelSaid(line, system), band: null }));

/** The ceiling beside what is usual for the level; none without a session. */
export function ceilingPanels(
  { ceiling, level }: Pick<HitterProgress, "ceiling" | "level">,
  system: UnitSystem,
): SaidLine[] {
  const { band } = ceiling;
  if (ceiling.sessions.length === 0) return [];
  const label = `usual for ${level ?? ""} (common practice, no source)`;
  // It is one line, and looked at among no others.
  const said = panelSaid({ ...ceiling, stands: ceiling.marked }, system);
  return [{ line: ceiling, said, band: band === null ? null : { ...band, label } }];
}
