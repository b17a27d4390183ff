/**
 * After the sessions: which of them look moved. On tee and flip work hitters repeat themselves, so what all of a
 * session's hitters show at once, and none of their other sessions do, is the tracker; what one hitter shows alone
 * is the hitter.
 *
 * A turned or tilted tracker shows twice: in the ball's direction, and, as everything turns about the tracker, in
 * the place the ball was met at. The place is the sharper of the two, a tee being put down to within an inch or so,
 * and the direction tells a turn from a tracker, a plate or a tee put down elsewhere.
 */
import { trackerPlace } from "../field/tracker.ts";
import type { Estimate } from "../stats/estimate.ts";
import { z95 } from "../stats/normal.ts";
import type { Session, Swing } from "../swing/fields.ts";
import { deg } from "../units/index.ts";
import { sessionsInOrder } from "../views/sessions.ts";
import { offTrend, type OffTrend } from "./trend.ts";
import { tolerances, type Tolerances } from "./tolerances.ts";
import { twoWay, type HitterDay, type Observation, type TwoWay } from "./twoWay.ts";
import { largest } from "../swing/lists.ts";
import {
  directionAloneSentence,
  eitherOfTwoSentence,
  limitSentences,
  noPartnerSentence,
  placeShiftSentence,
  speedShiftSentence,
  tooFewSharedSentence,
  turnedSentence,
} from "../views/sentences/setup.ts";

/** What the checks say of a session. */
export const verdicts = ["sound", "look again", "hold back"] as const;
export type Verdict = (typeof verdicts)[number];

/** The measures a moved tracker shows in. */
const driftMeasures = [
  "spray_angle_deg",
  "launch_angle_deg",
  "exit_velocity_mph",
  "contact_side_ft",
  "contact_depth_ft",
  "contact_height_ft",
] as const;
export type DriftMeasure = (typeof driftMeasures)[number];

/** The fields of a swing that the comparison reads. */
export type DriftSwing = Pick<
  Swing,
  "session" | "time" | "hitter" | "bats" | "input" | "drill" | "outcome" | DriftMeasure
>;

/** The fields of a session that it reads. */
export type DriftSession = Pick<Session, "session" | "date" | "tracker_distance_ft" | "tracker_offset_in">;

/** One session against the others. */
export interface SessionDrift {
  readonly session: string;
  readonly date: string | null;
  /** Tee and flip swings compared, and whose. */
  readonly swings: number;
  readonly hitters: readonly string[];
  /** Shift of each measure against the middle of the sessions, with its 95 % interval. */
  readonly shifts: Readonly<Record<DriftMeasure, Estimate>>;
  /** The turn and the tilt that the shifts add up to, signs as in sessions.csv; null where they contradict it. */
  readonly yaw_deg: Estimate;
  readonly tilt_deg: Estimate;
  /** Null where nothing can be said; the reasons then say why. */
  readonly verdict: Verdict | null;
  readonly reasons: readonly string[];
}

/** A day on which one hitter differed from what the hitter's other days and the other hitters lead to expect. */
export interface HitterChange {
  readonly session: string;
  readonly hitter: string;
  readonly measure: DriftMeasure;
  readonly value: number;
  readonly n: number;
}

/** All sessions with tee or flip work. */
export interface Drift {
  /** Oldest first. */
  readonly sessions: readonly SessionDrift[];
  readonly changes: readonly HitterChange[];
  /** What can't be said of this library, in a sentence; null when it can be compared. */
  readonly limits: string | null;
}

const leastDays: Readonly<Record<DriftMeasure, keyof Tolerances>> = {
  spray_angle_deg: "day_spray_angle_deg",
  launch_angle_deg: "day_launch_angle_deg",
  exit_velocity_mph: "day_exit_velocity_mph",
  contact_side_ft: "day_contact_ft",
  contact_depth_ft: "day_contact_ft",
  contact_height_ft: "day_contact_ft",
};

interface Compared extends DriftSwing {
  readonly session: string;
}

const isCompared = (row: DriftSwing): row is Compared =>
  row.session !== null &&
  (row.input === "tee" || row.input === "flip") &&
  (row.outcome === "in_play" || row.outcome === null) &&
  row.exit_velocity_mph !== null;

/** The side of each hitter who has only one, for rows that don't say. */
function sidesOf(rows: readonly DriftSwing[]): Map<string, "L" | "R" | null> {
  const sides = new Map<string, "L" | "R" | null>();
  for (const { hitter, bats } of rows) {
    if (bats === null) continue;
    const known = sides.get(hitter);
    sides.set(hitter, known === undefined || known === bats ? bats : null);
  }
  return sides;
}

/** What each row is compared within: its hitter, side, input and drill. */
function strataOf(rows: readonly Compared[], sides: ReadonlyMap<string, "L" | "R" | null>): string[] {
  return rows.map((row) => {
    const bats = row.bats ?? sides.get(row.hitter) ?? "?";
    return [row.hitter, bats, row.input, row.drill ?? ""].join("\u0000");
  });
}

function observationsOf(
  rows: readonly Compared[],
  strata: readonly string[],
  measure: DriftMeasure,
): Observation[] {
  const observations: Observation[] = [];
  rows.forEach((row, i) => {
    const value = row[measure];
    if (value === null || !Number.isFinite(value)) return;
    observations.push({ value, stratum: strata[i]!, hitter: row.hitter, session: row.session });
  });
  return observations;
}

const unknown = (n: number, reason: string): Estimate => ({ n, value: null, low: null, high: null, reason });

const about = (n: number, value: number, error: number): Estimate => ({
  n,
  value,
  low: value - z95 * error,
  high: value + z95 * error,
  reason: null,
});

/** A shift with its standard error. */
interface Shift {
  readonly value: number;
  readonly error: number;
}

/** Two shifts of the same thing, each weighted by its error, and how many errors apart they are. */
function together(a: Shift | null, b: Shift | null): (Shift & { readonly apart: number }) | null {
  if (a === null || b === null) {
    const one = a ?? b;
    return one === null ? null : { ...one, apart: 0 };
  }
  const [wa, wb] = [1 / a.error ** 2, 1 / b.error ** 2];
  return {
    value: (wa * a.value + wb * b.value) / (wa + wb),
    error: 1 / Math.sqrt(wa + wb),
    apart: Math.abs(a.value - b.value) / Math.hypot(a.error, b.error),
  };
}

/** What a session's shifts mean. */
interface Finding {
  readonly estimate: Estimate;
  readonly verdict: Verdict;
  readonly reason: string | null;
}

/**
 * Compares the sessions of a library's tee and flip work.
 * @param rows swings, in which sessions that were corrected are corrected already
 * @param sessions the sessions table: dates, and how far off the tracker stood
 * @example drift([], []).limits // "There is no tee or flip work in a named session to compare."
 */
export function drift(
  rows: readonly DriftSwing[],
  sessions: readonly DriftSession[],
  table: Tolerances = tolerances,
): Drift {
  const compared = rows.filter(isCompared);
  const strata = strataOf(compared, sidesOf(rows));
  const fits = Object.fromEntries(
    driftMeasures.map((measure) => [
      measure,
      twoWay(observationsOf(compared, strata, measure), table[leastDays[measure]]),
    ]),
  ) as Record<DriftMeasure, TwoWay>;
  const effects = Object.fromEntries(
    driftMeasures.map((m) => [m, new Map(fits[m].sessions.map((s) => [s.session, s]))]),
  ) as unknown as Record<DriftMeasure, Map<string, TwoWay["sessions"][number]>>;
  const days = daysOf(compared);
  const placed = new Map(sessions.map((session) => [session.session, session]));
  const ordered = sessionsInOrder(compared, sessions);
  const speeds = speedsOf(
    ordered.map(({ session }) => effects.exit_velocity_mph.get(session)),
    table,
  );
  const judged = ordered.map(({ session, date, rows: own }, at): SessionDrift => {
    const place = placed.get(session) ?? null;
    const hitters = [...new Set(own.map((r) => r.hitter))];
    const shared = hitters.filter((hitter) => days.get(hitter)!.size > 1);
    const shifts = Object.fromEntries(
      driftMeasures.map((m) => [m, shiftOf(effects[m].get(session))]),
    ) as Record<DriftMeasure, Estimate>;
    const base = { session, date, swings: own.length, hitters, shifts };
    const partners = effects.exit_velocity_mph.get(session)?.compared ?? 1;
    const why = incomparable(shared.length, hitters, partners, table);
    if (why !== null) {
      const none = unknown(own.length, why);
      return { ...base, yaw_deg: none, tilt_deg: none, verdict: null, reasons: [why] };
    }
    const error = (m: DriftMeasure): Shift | null => {
      const effect = effects[m].get(session);
      return effect === undefined || effect.compared < 2 ? null : effect;
    };
    return { ...base, ...judge(own, place, error, speeds[at]!, partners, table) };
  });
  return { sessions: judged, changes: changesOf(fits, judged, table), limits: limitsOf(judged, days) };
}

/**
 * Exit velocity against the hitters' own trend and days. With too few sessions to know either, a session is odd only
 * where it lies farther off the middle than any trend goes.
 */
function speedsOf(
  effects: readonly (TwoWay["sessions"][number] | undefined)[],
  table: Tolerances,
): (OffTrend | null)[] {
  const known = effects.flatMap((effect, at) =>
    effect === undefined || effect.compared < 2 ? [] : [{ ...effect, at }],
  );
  const off = offTrend(known);
  const found = effects.map((): OffTrend | null => null);
  known.forEach((effect, i) => {
    found[effect.at] = off[i] ?? {
      value: effect.value,
      error: effect.error,
      clear: Math.abs(effect.value) >= table.hold_exit_velocity_mph && sure(effect, table),
    };
  });
  return found;
}

/** A shift of exit velocity alone: no comparison tells the tracker from the balls and the hitters, so nothing is held back. */
function speedFinding(n: number, speed: OffTrend | null, table: Tolerances): Finding {
  if (speed === null) return { estimate: unknown(n, "not measured"), verdict: "sound", reason: null };
  const estimate = about(n, speed.value, speed.error);
  const odd = speed.clear && sure(speed, table) && Math.abs(speed.value) >= table.look_exit_velocity_mph;
  return odd
    ? { estimate, verdict: "look again", reason: speedShiftSentence(speed.value) }
    : { estimate, verdict: "sound", reason: null };
}

function shiftOf(effect: TwoWay["sessions"][number] | undefined): Estimate {
  if (effect === undefined) return unknown(0, "not measured");
  if (effect.compared < 2) return unknown(effect.n, "no other session to compare with");
  return about(effect.n, effect.value, effect.error);
}

/** The sessions of each hitter. */
function daysOf(rows: readonly Compared[]): Map<string, Set<string>> {
  const days = new Map<string, Set<string>>();
  for (const { hitter, session } of rows) {
    const own = days.get(hitter);
    if (own === undefined) days.set(hitter, new Set([session]));
    else own.add(session);
  }
  return days;
}

function incomparable(
  shared: number,
  hitters: readonly string[],
  partners: number,
  table: Tolerances,
): string | null {
  if (partners < 2) return noPartnerSentence;
  if (shared >= table.drift_hitters) return null;
  return tooFewSharedSentence(shared, hitters);
}

function limitsOf(
  sessions: readonly SessionDrift[],
  days: ReadonlyMap<string, ReadonlySet<string>>,
): string | null {
  if (sessions.length === 0) return limitSentences.nothing;
  if (sessions.length === 1) return limitSentences.oneSession;
  if (days.size === 1) return limitSentences.oneHitter;
  if (sessions.every((s) => s.verdict === null)) return limitSentences.noneShared;
  return null;
}

function judge(
  own: readonly Compared[],
  place: DriftSession | null,
  shift: (measure: DriftMeasure) => Shift | null,
  speed: OffTrend | null,
  partners: number,
  table: Tolerances,
): Pick<SessionDrift, "yaw_deg" | "tilt_deg" | "verdict" | "reasons"> {
  const n = own.length;
  const { aside, along } = leversOf(own, place);
  const direction = (m: DriftMeasure): Shift | null => {
    const found = shift(m);
    return found && { value: found.value, error: Math.hypot(found.error, table.shared_deg) };
  };
  const fromPlace = (m: DriftMeasure, lever_ft: number | null): Shift | null => {
    const found = shift(m);
    if (found === null || lever_ft === null || Math.abs(lever_ft) < table.least_lever_ft) return null;
    const sine = Math.max(-1, Math.min(1, found.value / lever_ft));
    return {
      value: Math.asin(sine) / deg,
      error: Math.hypot(found.error, table.placed_ft) / Math.abs(lever_ft) / deg,
    };
  };
  // A turn moves the place across the line from tracker to ball: aside of one before or behind, along beside it.
  const isBeside = aside !== null && along !== null && Math.abs(aside) > Math.abs(along);
  const turns = [
    turnFinding(
      n,
      direction("spray_angle_deg"),
      isBeside ? fromPlace("contact_depth_ft", -aside) : fromPlace("contact_side_ft", along),
      table,
      {
        plus: "toward right field",
        minus: "toward left field",
        what: "turned",
      },
    ),
    turnFinding(n, direction("launch_angle_deg"), fromPlace("contact_height_ft", along), table, {
      plus: "up",
      minus: "down",
      what: "tilted",
    }),
  ] as const;
  const findings: Finding[] = [...turns, speedFinding(n, speed, table)];
  const moved = (m: DriftMeasure, turn: Finding, plus: string, minus: string): void => {
    // A turn explains the place already.
    if (turn.verdict !== "sound" && turn.estimate.value !== null) return;
    findings.push(
      plainFinding(n, shift(m), table.placed_ft, table.look_contact_ft, table.hold_contact_ft, table, (v) =>
        placeShiftSentence(v, plus, minus),
      ),
    );
  };
  moved("contact_side_ft", turns[0], "farther to first base's side", "farther to third base's side");
  moved("contact_height_ft", turns[1], "higher", "lower");
  moved("contact_depth_ft", turns[0], "farther forward", "farther back");
  const worst = verdicts[largest(findings.map((f) => verdicts.indexOf(f.verdict)))]!;
  const reasons = findings.flatMap((f) => (f.reason === null ? [] : [f.reason]));
  const undecided = partners === 2 && worst !== "sound";
  return {
    yaw_deg: turns[0].estimate,
    tilt_deg: turns[1].estimate,
    // Of two sessions that differ, nothing tells which is the one that moved.
    verdict: undecided ? "look again" : worst,
    reasons: undecided ? [...reasons, eitherOfTwoSentence] : reasons,
  };
}

/**
 * From the tracker to where a session's balls are met, ft, toward first base's side and toward center field; null
 * where no distance of the tracker is logged.
 */
function leversOf(
  own: readonly Compared[],
  place: DriftSession | null,
): { aside: number | null; along: number | null } {
  const distance_ft = place?.tracker_distance_ft ?? null;
  if (distance_ft === null) return { aside: null, along: null };
  const [x, y] = trackerPlace({ distance_ft, offset_in: place!.tracker_offset_in ?? 0 });
  const middle = (values: readonly (number | null)[], otherwise: number): number => {
    const known = values.filter((v) => v !== null).sort((a, b) => a - b);
    return known[Math.floor(known.length / 2)] ?? otherwise;
  };
  return {
    aside:
      middle(
        own.map((r) => r.contact_side_ft),
        0,
      ) - x!,
    along:
      middle(
        own.map((r) => r.contact_depth_ft),
        1.5,
      ) - y!,
  };
}

interface TurnWords {
  readonly plus: string;
  readonly minus: string;
  readonly what: "turned" | "tilted";
}

function turnFinding(
  n: number,
  direction: Shift | null,
  place: Shift | null,
  table: Tolerances,
  words: TurnWords,
): Finding {
  const both = together(direction, place);
  if (both === null) return { estimate: unknown(n, "not measured"), verdict: "sound", reason: null };
  if (both.apart > table.drift_agreement) {
    // The place moved and the direction did not, or the other way round: no turn does that.
    const alone = direction!;
    const large =
      Math.abs(alone.value) >= table.hold_turn_deg &&
      Math.abs(alone.value) >= table.direction_alone_sureness * alone.error;
    return {
      estimate: unknown(n, "the ball's direction and the contact point contradict each other"),
      verdict: large ? "look again" : "sound",
      reason: large ? directionAloneSentence(alone.value, words.what) : null,
    };
  }
  const estimate = about(n, both.value, both.error);
  const size = Math.abs(both.value);
  if (size < table.look_turn_deg || !sure(both, table)) return { estimate, verdict: "sound", reason: null };
  const way = both.value < 0 ? words.minus : words.plus;
  return {
    estimate,
    verdict: size >= table.hold_turn_deg ? "hold back" : "look again",
    reason: turnedSentence({ value: both.value, low: estimate.low!, high: estimate.high! }, words.what, way),
  };
}

const sure = ({ value, error }: Shift, table: Tolerances): boolean =>
  Math.abs(value) >= table.drift_sureness * error;

function plainFinding(
  n: number,
  shift: Shift | null,
  natural: number,
  look: number,
  hold: number,
  table: Tolerances,
  say: (value: number) => string,
): Finding {
  if (shift === null) return { estimate: unknown(n, "not measured"), verdict: "sound", reason: null };
  const wide = { value: shift.value, error: Math.hypot(shift.error, natural) };
  const estimate = about(n, wide.value, wide.error);
  const size = Math.abs(wide.value);
  if (size < look || !sure(wide, table)) return { estimate, verdict: "sound", reason: null };
  return { estimate, verdict: size >= hold ? "hold back" : "look again", reason: say(wide.value) };
}

function changesOf(
  fits: Readonly<Record<DriftMeasure, TwoWay>>,
  sessions: readonly SessionDrift[],
  table: Tolerances,
): HitterChange[] {
  const order = new Map(sessions.map((s, i) => [s.session, i]));
  const comparable = new Set(sessions.filter((s) => s.verdict !== null).map((s) => s.session));
  return driftMeasures
    .flatMap((measure) =>
      fits[measure].days
        .filter(
          (day: HitterDay) =>
            comparable.has(day.session) && Math.abs(day.value) > table.changed_sureness * day.error,
        )
        .map(({ session, hitter, value, n }) => ({ session, hitter, measure, value, n })),
    )
    .sort((a, b) => order.get(a.session)! - order.get(b.session)!);
}
