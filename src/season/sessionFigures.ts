/** A measure session by session: each session's figure, and the variance that its swings give it. */
import type { Thresholds } from "../contact/thresholds.ts";
import { t95 } from "../stats/beta.ts";
import { fewestForSpread, mean, quantile, spread } from "../stats/bootstrap.ts";
import { normalQuantile } from "../stats/normal.ts";
import { shareOf } from "../stats/share.ts";
import type { SessionSwings } from "../views/sessions.ts";
import type { MeasureKind } from "../views/measures.ts";
import type { EvenedSwing } from "./evened.ts";
import { fewestInSession, type SeasonMeasure } from "./measures.ts";

/** One session's figure. */
export interface SessionFigure {
  readonly session: string;
  /** ISO 8601. */
  readonly date: string;
  /** Weeks since the first session of the list. */
  readonly weeks: number;
  readonly n: number;
  readonly value: number;
  /** 95 % interval by its swings alone: a session can't show how days differ. */
  readonly low: number;
  readonly high: number;
  /** What its swings leave uncertain. */
  readonly variance: number;
}

/** A measure's sessions, and how much swings differ within them. */
export interface SessionFigures {
  readonly figures: readonly SessionFigure[];
  /** Standard deviation of one swing within its session, and its degrees of freedom; null where nothing varies. */
  readonly swing: { readonly sd: number; readonly freedom: number } | null;
}

const week_ms = 7 * 86_400_000;

/**
 * Each dated session's figure, oldest first. How much swings differ is pooled over the sessions, so that a session of
 * seven swings has a usable variance too. Sessions with too few swings and those without a date are left out.
 * @param days the swings session by session, oldest first
 * @example sessionFigures([], { name: "a", title: "A", unit: "mph", better: "up", kind: "mean", first: true, values: () => [] }, {}) // { figures: [], swing: null }
 */
export function sessionFigures(
  days: readonly SessionSwings<EvenedSwing>[],
  measure: SeasonMeasure,
  thresholds: Thresholds,
): SessionFigures {
  const { kind } = measure;
  const fewest =
    kind === "spread" ? fewestForSpread : typeof kind === "object" ? kind.fewest : fewestInSession;
  const known = days.flatMap(({ session, date, rows: own }) => {
    if (date === null) return [];
    const values = Float64Array.from(measure.values(own, thresholds));
    return values.length < fewest ? [] : [{ session, date, values }];
  });
  const first = known[0];
  if (first === undefined) return { figures: [], swing: null };
  const freedom = known.reduce((sum, { values }) => sum + values.length - 1, 0);
  const all = known.flatMap(({ values }) => [...values]);
  const p = mean(Float64Array.from(all), all.length);
  const within =
    kind === "share"
      ? p * (1 - p)
      : known.reduce((sum, { values }) => sum + spread(values, values.length) ** 2 * (values.length - 1), 0) /
        freedom;
  const start = Date.parse(first.date);
  const figures = known.map(({ session, date, values }): SessionFigure => {
    const n = values.length;
    const variance = within * varianceOfOne(kind, n);
    const value = statistic(kind, values);
    const half = t95(freedom) * Math.sqrt(variance);
    const ends =
      kind === "share"
        ? shareOf(
            [...values].map((v) => v === 1),
            Array.from(values, () => session),
          )
        : { low: value - half, high: value + half };
    return {
      session,
      date,
      weeks: (Date.parse(date) - start) / week_ms,
      n,
      value,
      low: ends.low!,
      high: ends.high!,
      variance,
    };
  });
  return { figures, swing: within > 0 ? { sd: Math.sqrt(within), freedom } : null };
}

function statistic(kind: MeasureKind, values: Float64Array): number {
  // Statistics may reorder what they are given.
  const own = values.slice();
  if (kind === "spread") return spread(own, own.length);
  return (typeof kind === "object" ? quantile(kind.quantile) : mean)(own, own.length);
}

/**
 * A figure's variance where a swing's is 1: of a mean and a share exactly, of a spread and a quantile for a normal
 * distribution. A line through sessions takes its error from how they lie about it, so this only weighs them.
 */
function varianceOfOne(kind: MeasureKind, n: number): number {
  if (kind === "spread") return 1 / (2 * (n - 1));
  if (typeof kind === "string") return 1 / n;
  const z = normalQuantile(kind.quantile);
  const density = Math.exp(-(z * z) / 2) / Math.sqrt(2 * Math.PI);
  return (kind.quantile * (1 - kind.quantile)) / (n * density * density);
}
