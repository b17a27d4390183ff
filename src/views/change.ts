/** What changed since the session before. */
import { defaultThresholds } from "../contact/thresholds.ts";
import { noClearChange, type Difference } from "../stats/difference.ts";
import {
  fewestForInterval,
  fewestForSpread,
  mean,
  quantile,
  spread,
  type Statistic,
} from "../stats/bootstrap.ts";
import { withDays, type DayFigure } from "../stats/dayChange.ts";
import { pOf, standing } from "../stats/holm.ts";
import { inputs, type EnrichedSwing, type Input, type Session } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import { differenceIn, measuresIn, rowsOf, type Measure, type MeasureKind } from "./measures.ts";
import { sessionsInOrder } from "./sessions.ts";
import { ofInput } from "./swings.ts";

type Rows = readonly EnrichedSwing[];

/** One measure's change. */
export interface Change {
  readonly measure: string;
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down" | null;
  /** With the spread of days in it where that can be told; else of the two sessions' swings alone. */
  readonly difference: Difference;
  /** Earlier sessions that the spread of days was taken from; 0 where they are too few. */
  readonly days: number;
  /** Whether the table may call it a change: its interval leaves 0 out, and counts days. */
  readonly marked: boolean;
  /** Whether it stands after Holm over every line that counts days: only then it may be put in a sentence. */
  readonly stands: boolean;
}

/** What changed in one input, from the session before its latest to the latest. */
export interface SessionChange {
  readonly input: Input;
  readonly from: { readonly session: string; readonly date: string | null };
  readonly to: { readonly session: string; readonly date: string | null };
  readonly changes: readonly Change[];
}

/**
 * What changed in each input since the session before: the latest session with swings of that input against
 * the one before it. An input with fewer than two sessions is left out. The days' own spread is taken from all of
 * that input's sessions before the latest; with under three of them a line knows the swings' ups and downs alone, and
 * nothing is called a change.
 * @param rows one hitter's swings, of one drill where the table is of one
 * @param sessions the sessions table, for the dates
 * @param latest the session to look back from; the latest of each input when not given
 * @example changeSince([], []) // []
 */
export function changeSince(
  rows: Rows,
  sessions: readonly Pick<Session, "session" | "date">[],
  latest: string | null = null,
): SessionChange[] {
  const tables = inputs.flatMap((input) => {
    const ordered = sessionsInOrder(ofInput(rows, input), sessions);
    const at = latest === null ? ordered.length - 1 : ordered.findIndex((s) => s.session === latest);
    const [from, to] = [ordered[at - 1], ordered[at]];
    if (from === undefined || to === undefined) return [];
    const earlier = ordered.slice(0, at).map((s) => s.rows);
    return [
      {
        input,
        from: { session: from.session, date: from.date },
        to: { session: to.session, date: to.date },
        changes: measuresIn("changes").map((measure) => changeOf(measure, from.rows, to.rows, earlier)),
      },
    ];
  });
  // Which lines count days goes by the sessions there are, not by what they show: the others can't be picked.
  const looked = tables.flatMap((t) => t.changes).filter((c) => c.days > 0);
  const stands = standing(looked.map((c) => pOf(c.difference)));
  const standingLines = new Set(looked.filter((_, i) => stands[i]));
  return tables.map((table) => ({
    ...table,
    changes: table.changes.map((c) => ({ ...c, stands: standingLines.has(c) })),
  }));
}

function changeOf(measure: Measure, from: Rows, to: Rows, earlier: readonly Rows[]): Omit<Change, "stands"> {
  const { name, title, unit, better, kind } = measure;
  const values = (of: Rows): number[] =>
    rowsOf(measure, of).flatMap((row) => measure.value(row, defaultThresholds) ?? []);
  const swings = differenceIn(kind, { values: values(from) }, { values: values(to) });
  const fewest = kind === "spread" ? fewestForSpread : fewestForInterval;
  const figures = earlier.flatMap((session): DayFigure[] => {
    const known = Float64Array.from(values(session));
    return known.length < fewest ? [] : [{ n: known.length, value: statisticOf(kind)(known, known.length) }];
  });
  const difference = withDays(swings, figures, unit === "share" ? 1 : Infinity);
  const days = difference === null ? 0 : figures.length;
  const marked = difference !== null && !noClearChange(difference);
  return { measure: name, title, unit, better, difference: difference ?? swings, days, marked };
}

const statisticOf = (kind: MeasureKind): Statistic =>
  kind === "spread" ? spread : typeof kind === "object" ? quantile(kind.quantile) : mean;
