/** What `batted gap` finds: every hitter's gap and timing, and what all hitters tell together. */
import type { SwingScope } from "../views/filter.ts";
import { acrossHitters, beyondPitch, type Across } from "../gap/across.ts";
import { gap, measureTable, type GapOptions, type HitterGap, type MeasureRow } from "../gap/gap.ts";
import { sidesOf, type Ready } from "../gap/rows.ts";
import { stabilizing, type Stabilizing } from "../gap/stabilizing.ts";
import { inputs, type Input } from "../swing/fields.ts";
import { measuresIn } from "../views/measures.ts";
import { timingView, type TimingView } from "../views/timing.ts";
import type { Source } from "./source.ts";

/** What `--json` prints. */
export interface GapReport {
  readonly source: string;
  readonly from: Input;
  readonly to: Input;
  readonly scope: Required<SwingScope>;
  readonly refused: number;
  /** Every measure of every hitter in each kind of work. */
  readonly table: readonly MeasureRow[];
  readonly hitters: readonly (HitterGap & {
    readonly timing: readonly Omit<TimingView, "balls">[];
  })[];
  /** All hitters together; empty for one hitter alone. */
  readonly across: readonly Across[];
  /** Likewise. */
  readonly stabilizing: readonly Stabilizing[];
}

/** What is compared. */
type Asked = GapOptions & GapReport["scope"] & { readonly from: Input; readonly to: Input };

/**
 * The report of some hitters.
 * @param alone whether it is of one hitter alone, without what is told across hitters
 */
export function gapReport(
  ready: Ready,
  source: Source,
  hitters: readonly string[],
  alone: boolean,
  asked: Asked,
): GapReport {
  const { from, to, measures, drill, pitch_type, pitch_speed_mph, pitcher, since, until } = asked;
  const scope = { drill, pitch_type, pitch_speed_mph, pitcher, since, until };
  return {
    source: source.name,
    from,
    to,
    scope,
    refused: source.refused,
    table: hitters.flatMap((hitter) => measureTable(ready, hitter, asked)),
    hitters: hitters.map((hitter) => ({
      ...gap(ready, hitter, asked),
      timing: timings(ready, source, hitter, asked),
    })),
    across:
      ready.hitters.length < 2
        ? []
        : (measures ?? groupMeasures()).map((measure) => acrossHitters(ready, measure, asked)),
    stabilizing: alone
      ? []
      : inputs
          .flatMap((input) => stabilizing(ready, input, scope))
          .filter((s) => measures === undefined || measures.includes(s.measure)),
  };
}

/** What is told of all hitters: exit velocity also beyond the pitch's part. */
const groupMeasures = () =>
  measuresIn("group").flatMap(({ name }) => (name === "exit_velocity" ? [name, beyondPitch] : [name]));

/** Against the tee whatever is compared: that is where a ball is met on time. */
function timings(ready: Ready, source: Source, hitter: string, { from, to, ...scope }: Asked) {
  const own = inputs.flatMap((input) => sidesOf(ready, hitter, { ...scope, from: input, to: input }).from);
  return ([from, to].filter((i) => i !== "tee") as ("flip" | "live")[]).map((input) => {
    const { balls: _, ...view } = timingView(own, input, {
      sessions: source.sessions,
      thresholds: ready.thresholds,
      zone: ready.thresholds,
      height_in: source.hitters.find((h) => h.hitter === hitter)?.height_in ?? null,
    });
    return view;
  });
}
