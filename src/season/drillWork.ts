/**
 * Whether a drill's work shows: its target met more often from session to session, and live balls in the cells of the zone
 * that it works on hit harder. Both are lines over sessions, and stand only together with all of a hitter's drills.
 */
import { withoutDoubtful } from "../contact/flags.ts";
import { thresholdsFrom } from "../contact/thresholds.ts";
import { cellOf } from "../field/zone.ts";
import { standing } from "../stats/holm.ts";
import type { Target } from "../swing/fields.ts";
import { rowsInScope } from "../views/filter.ts";
import { sessionsInOrder } from "../views/sessions.ts";
import { meetsTarget } from "../views/target.ts";
import { evened, type EvenedSwing } from "./evened.ts";
import { seasonMeasures, type SeasonMeasure } from "./measures.ts";
import { trendOf, type SeasonScope, type SeasonSource, type TrendLine } from "./progress.ts";

/** A drill over the sessions. */
export interface DrillWork {
  readonly drill: string;
  /** Share of its swings that met the target, session by session. */
  readonly met: TrendLine;
  /** Live balls in the cells where the drill's balls were met; null where no contact point is known. */
  readonly live: TrendLine | null;
  /** Cells of the zone that the drill works on, 3·row + column. */
  readonly cells: readonly number[];
}

/** A cell belongs to a drill where at least this share of its balls were met there. A judgement. */
const shareOfCell = 0.1;

/**
 * Each drill with a target that the hitter swung at.
 * @param source the whole library, enriched
 * @example drillWork({ swings: [], sessions: [], hitters: [], thresholds: null }, [], "A") // []
 */
export function drillWork(
  source: SeasonSource,
  targets: readonly Target[],
  hitter: string,
  scope: SeasonScope = {},
): DrillWork[] {
  const thresholds = thresholdsFrom(source.thresholds);
  const { kept } = withoutDoubtful(source.swings.filter((s) => s.hitter === hitter));
  const own = rowsInScope(evened(kept, source.sessions, thresholds), source, scope);
  // A target is of what was hit, the pitch's part in it.
  const plain = rowsInScope(
    kept.map((row): EvenedSwing => ({ ...row, like_angle_mph: null })),
    source,
    scope,
  );
  const height = source.hitters.find((h) => h.hitter === hitter)?.height_in ?? null;
  const cell = (row: EvenedSwing): number | null => {
    const at = cellOf(row, height, thresholds);
    return at === null ? null : at.row * 3 + at.column;
  };
  const speed = seasonMeasures.find((m) => m.first)!;
  const work = targets.flatMap((target): DrillWork[] => {
    const rows = plain.filter((r) => r.drill === target.drill);
    if (target.drill === null || rows.length === 0) return [];
    const input = rows[0]!.input;
    const met: SeasonMeasure = {
      name: "target_met",
      title: `Target met, ${target.drill}`,
      unit: "share",
      better: "up",
      kind: "share",
      first: false,
      values: (some) =>
        some.flatMap((row) => {
          const hit = meetsTarget(row, target);
          return hit === null ? [] : [Number(hit)];
        }),
    };
    const places = rows.flatMap((r) => cell(r) ?? []);
    const cells = [...new Set(places)]
      .filter((c) => places.filter((p) => p === c).length >= shareOfCell * places.length)
      .sort((a, b) => a - b);
    const live = own.filter((r) => r.input === "live" && cells.includes(cell(r) ?? -1));
    return [
      {
        drill: target.drill,
        met: trendOf(sessionsInOrder(rows, source.sessions), met, input, thresholds),
        live:
          input === "live" || cells.length === 0
            ? null
            : trendOf(
                sessionsInOrder(live, source.sessions),
                {
                  ...speed,
                  first: false,
                  title: `Exit velocity, better half, live where “${target.drill}” works`,
                },
                "live",
                thresholds,
              ),
        cells,
      },
    ];
  });
  const looked = work
    .flatMap(({ met, live }) => [met, ...(live === null ? [] : [live])])
    .filter((l) => l.change.p !== null);
  const stands = standing(looked.map((l) => l.change.p!));
  const judged = (line: TrendLine): TrendLine => {
    const at = looked.indexOf(line);
    if (at < 0 || !stands[at]) return line;
    return { ...line, stands: true, verdict: line.change.value! > 0 ? "improving" : "declining" };
  };
  return work.map((one) => ({
    ...one,
    met: judged(one.met),
    live: one.live === null ? null : judged(one.live),
  }));
}
