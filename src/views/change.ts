/** What changed since the session before. */
import {
  meanDifference,
  medianDifference,
  noClearChange,
  shareDifference,
  spreadDifference,
  type Difference,
} from "../stats/difference.ts";
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
import { sessionsInOrder } from "./sessions.ts";
import { inPlay, isWellHit, ofInput, swungAt } from "./swings.ts";

type Rows = readonly EnrichedSwing[];

type Kind = "mean" | "median" | "spread" | "share";

interface Measure {
  readonly name: string;
  readonly title: string;
  readonly unit: UnitName;
  /** Which way a coach would call better; null: neither. */
  readonly better: "up" | "down" | null;
  readonly kind: Kind;
  /** The values it is taken of; for a share 1 or 0. */
  readonly values: (rows: Rows) => number[];
}

type Numeric = "exit_velocity_mph" | "launch_angle_deg" | "carry_ft" | "power_kept";

const ofBalls =
  (field: Numeric) =>
  (rows: Rows): number[] =>
    inPlay(rows)
      .map((r) => r[field])
      .filter((v) => v !== null);

/** What is compared from session to session, in the order it is shown. */
export const changeMeasures = [
  {
    name: "exit_velocity",
    title: "Exit velocity, mean",
    unit: "mph",
    better: "up",
    kind: "mean",
    values: ofBalls("exit_velocity_mph"),
  },
  {
    name: "power_kept",
    title: "Power kept, median",
    unit: "share",
    better: "up",
    kind: "median",
    values: ofBalls("power_kept"),
  },
  {
    name: "well_hit",
    title: "Clean or flush",
    unit: "share",
    better: "up",
    kind: "share",
    values: (rows) =>
      inPlay(rows)
        .map(isWellHit)
        .filter((well) => well !== null)
        .map(Number),
  },
  {
    name: "launch_angle",
    title: "Launch angle, mean",
    unit: "deg",
    better: null,
    kind: "mean",
    values: ofBalls("launch_angle_deg"),
  },
  {
    name: "launch_spread",
    title: "Spread of launch angle",
    unit: "deg",
    better: "down",
    kind: "spread",
    values: ofBalls("launch_angle_deg"),
  },
  {
    name: "carry",
    title: "Carry, mean",
    unit: "ft",
    better: null,
    kind: "mean",
    values: ofBalls("carry_ft"),
  },
  {
    name: "misses",
    title: "Misses of swings",
    unit: "share",
    better: "down",
    kind: "share",
    values: (rows) => swungAt(rows).map((r) => Number(r.outcome === "miss")),
  },
] as const satisfies readonly Measure[];

/** One measure's change. */
export interface Change {
  readonly measure: (typeof changeMeasures)[number]["name"];
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
        changes: changeMeasures.map((measure) => changeOf(measure, from.rows, to.rows, earlier)),
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

function changeOf(
  measure: (typeof changeMeasures)[number],
  from: Rows,
  to: Rows,
  earlier: readonly Rows[],
): Omit<Change, "stands"> {
  const { name, title, unit, better, kind } = measure;
  const swings = differences[kind](measure.values(from), measure.values(to));
  const fewest = kind === "spread" ? fewestForSpread : fewestForInterval;
  const figures = earlier.flatMap((session): DayFigure[] => {
    const values = Float64Array.from(measure.values(session));
    return values.length < fewest
      ? []
      : [{ n: values.length, value: statistics[kind](values, values.length) }];
  });
  const difference = withDays(swings, figures, unit === "share" ? 1 : Infinity);
  const days = difference === null ? 0 : figures.length;
  const marked = difference !== null && !noClearChange(difference);
  return { measure: name, title, unit, better, difference: difference ?? swings, days, marked };
}

const statistics: Readonly<Record<Kind, Statistic>> = {
  mean,
  median: quantile(0.5),
  spread,
  share: mean,
};

const differences: Readonly<Record<Kind, (from: number[], to: number[]) => Difference>> = {
  mean: (from, to) => meanDifference({ values: from }, { values: to }),
  median: (from, to) => medianDifference({ values: from }, { values: to }),
  spread: (from, to) => spreadDifference({ values: from }, { values: to }),
  share: (from, to) => shareDifference({ values: from }, { values: to }),
};
