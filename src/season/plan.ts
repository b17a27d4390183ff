/** The plans of a season: for each kind of work, what it takes to see a change of the measures that are planned for. */
import { byName } from "../swing/byName.ts";
import { progress, type HitterProgress, type SeasonScope, type SeasonSource } from "./progress.ts";
import { swingsNeeded, type Needed } from "./swingsNeeded.ts";

/** Measures that a plan is given for: how hard, and how well. */
const planned: ReadonlySet<string> = new Set(["better_half_speed", "well_hit"]);

/**
 * Seasons of every hitter, so that one's spreads can be pooled with the others'.
 * @example seasons({ swings: [], sessions: [], hitters: [], thresholds: null }) // []
 */
export function seasons(source: SeasonSource, scope: SeasonScope = {}): HitterProgress[] {
  const names = [...new Set(source.swings.map((s) => s.hitter))].sort(byName);
  return names.map((name) => progress(source, name, scope));
}

/**
 * What it takes to see a change in one hitter, for each kind of work that the hitter does.
 * @param one the hitter's season
 * @param all the seasons of the group, the hitter's own among them or not
 * @param change what is to be seen, in the unit of the first measure, whose plans alone are then given
 * @param swings of each session; as many as the hitter's sessions have when not given
 * @example plansFor({ hitter: "A", lines: [] }, []) // []
 */
export function plansFor(
  one: Pick<HitterProgress, "hitter" | "lines">,
  all: readonly Pick<HitterProgress, "hitter" | "lines">[],
  change: number | null = null,
  swings: number | null = null,
): Needed[] {
  const others = all.filter(({ hitter }) => hitter !== one.hitter).flatMap(({ lines }) => lines);
  return one.lines
    .filter((line) => planned.has(line.measure) && (change === null || line.first))
    .flatMap((line) => {
      const group = others.filter((o) => o.measure === line.measure && o.input === line.input);
      return swingsNeeded(line, group, change, swings) ?? [];
    });
}
