/** What changed since the session before. */
import {
  meanDifference,
  medianDifference,
  shareDifference,
  spreadDifference,
  type Difference,
} from "../stats/difference.ts";
import { share, type Share } from "../stats/share.ts";
import { inputs, type EnrichedSwing, type Input, type Session } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import { sessionsInOrder } from "./sessions.ts";
import { inPlay, ofInput, swungAt, wellHitShare } from "./swings.ts";

type Rows = readonly EnrichedSwing[];

interface Measure {
  readonly name: string;
  readonly title: string;
  readonly unit: UnitName;
  /** Which way a coach would call better; null: neither. */
  readonly better: "up" | "down" | null;
  readonly difference: (from: Rows, to: Rows) => Difference;
}

const values = (
  rows: Rows,
  field: "exit_velocity_mph" | "launch_angle_deg" | "spray_angle_deg" | "carry_ft" | "power_kept",
) => ({
  values: inPlay(rows).map((r) => r[field]),
});

const wellHit = (rows: Rows): Share => wellHitShare(inPlay(rows));

const missed = (rows: Rows): Share => {
  const swings = swungAt(rows);
  return share(swings.filter((r) => r.outcome === "miss").length, swings.length);
};

/** What is compared from session to session, in the order it is shown. */
export const changeMeasures = [
  {
    name: "exit_velocity",
    title: "Exit velocity, mean",
    unit: "mph",
    better: "up",
    difference: (a, b) => meanDifference(values(a, "exit_velocity_mph"), values(b, "exit_velocity_mph")),
  },
  {
    name: "power_kept",
    title: "Power kept, median",
    unit: "share",
    better: "up",
    difference: (a, b) => medianDifference(values(a, "power_kept"), values(b, "power_kept")),
  },
  {
    name: "well_hit",
    title: "Clean or flush",
    unit: "share",
    better: "up",
    difference: (a, b) => shareDifference(wellHit(a), wellHit(b)),
  },
  {
    name: "launch_angle",
    title: "Launch angle, mean",
    unit: "deg",
    better: null,
    difference: (a, b) => meanDifference(values(a, "launch_angle_deg"), values(b, "launch_angle_deg")),
  },
  {
    name: "launch_spread",
    title: "Spread of launch angle",
    unit: "deg",
    better: "down",
    difference: (a, b) => spreadDifference(values(a, "launch_angle_deg"), values(b, "launch_angle_deg")),
  },
  {
    name: "carry",
    title: "Carry, mean",
    unit: "ft",
    better: null,
    difference: (a, b) => meanDifference(values(a, "carry_ft"), values(b, "carry_ft")),
  },
  {
    name: "misses",
    title: "Misses of swings",
    unit: "share",
    better: "down",
    difference: (a, b) => shareDifference(missed(a), missed(b)),
  },
] as const satisfies readonly Measure[];

/** One measure's change. */
export interface Change {
  readonly measure: (typeof changeMeasures)[number]["name"];
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down" | null;
  readonly difference: Difference;
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
 * the one before it. An input with fewer than two sessions is left out. Each side being one session, the
 * interval knows the swings' ups and downs and not those of the days.
 * @param rows one hitter's swings
 * @param sessions the sessions table, for the dates
 * @param latest the session to look back from; the latest of each input when not given
 * @example changeSince([], []) // []
 */
export function changeSince(
  rows: Rows,
  sessions: readonly Pick<Session, "session" | "date">[],
  latest: string | null = null,
): SessionChange[] {
  return inputs.flatMap((input) => {
    const ordered = sessionsInOrder(ofInput(rows, input), sessions);
    const at = latest === null ? ordered.length - 1 : ordered.findIndex((s) => s.session === latest);
    const [from, to] = [ordered[at - 1], ordered[at]];
    if (from === undefined || to === undefined) return [];
    return [
      {
        input,
        from: { session: from.session, date: from.date },
        to: { session: to.session, date: to.date },
        changes: changeMeasures.map(({ name, difference, ...rest }) => ({
          measure: name,
          title: rest.title,
          unit: rest.unit,
          better: rest.better,
          difference: difference(from.rows, to.rows),
        })),
      },
    ];
  });
}
