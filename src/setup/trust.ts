/** Trust in a session: what its log, its rows and the comparison with other sessions say, in one word with reasons. */
import { flagsOf, isDoubtful } from "../contact/flags.ts";
import { straight, type Turn } from "../field/tracker.ts";
import { turnOf } from "../field/corrected.ts";
import { share } from "../stats/share.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { errorBudget, turnVerdict, type Tolerance } from "./budget.ts";
import { drift, verdicts, type Drift, type SessionDrift, type Verdict } from "./drift.ts";
import { tolerances, type Tolerances } from "./tolerances.ts";
import { largest } from "../swing/lists.ts";
import {
  calibratedBeforeSentence,
  inDoubtSentence,
  leftOutSentence,
  loggedTurnSentence,
  logSentences,
  notComparedSentence,
  turnedBackSentence,
} from "../views/sentences/setup.ts";

/** What can be said of a session's numbers. */
export interface Trust {
  readonly session: string;
  readonly verdict: Verdict;
  /** Whether the session could be compared with others; else the verdict rests on the log and the rows alone. */
  readonly compared: boolean;
  /** Whether its readings are corrected. */
  readonly turnedBack: boolean;
  /** Rows with a reading, and how many of them are in doubt. */
  readonly rows: number;
  readonly doubtful: number;
  /** Sentences: what speaks against it, then what is not known. Empty when there is nothing to say. */
  readonly reasons: readonly string[];
}

/** The rows that trust is judged from. */
export type TrustRow = Pick<EnrichedSwing, "exit_velocity_mph" | "flags">;

const asVerdict: Readonly<Record<Tolerance, Verdict>> = {
  fine: "sound",
  "tighten it": "look again",
  "redo it": "hold back",
};

const worst = (all: readonly Verdict[]): Verdict =>
  verdicts[
    largest(
      all.map((v) => verdicts.indexOf(v)),
      0,
    )
  ]!;

const placementFields = [
  "tracker_distance_ft",
  "tracker_offset_in",
  "tracker_yaw_deg",
  "tracker_tilt_deg",
  "tracker_roll_deg",
] as const;

/** What the log says: of the placement, and of the calibration. */
function fromLog(session: Session | null): { verdict: Verdict; against: string[]; unknown: string[] } {
  if (session === null)
    return {
      verdict: "sound",
      against: [],
      unknown: [logSentences.notListed],
    };
  const unknown: string[] = [];
  const missing = placementFields.filter((f) => session[f] === null);
  if (missing.length === placementFields.length) unknown.push(logSentences.noPlacement);
  else if (missing.length > 0) unknown.push(leftOutSentence(missing.map((f) => f.split("_")[1]!)));
  if (session.calibrated_at === null) unknown.push(logSentences.noCalibration);
  else if (session.date !== null && session.calibrated_at.slice(0, 10) < session.date)
    unknown.push(calibratedBeforeSentence(session.calibrated_at.slice(0, 10)));
  if (missing.length === placementFields.length) return { verdict: "sound", against: [], unknown };
  // The tracker was told the logged place. A turn that is corrected already is judged no more.
  const left = (logged: number | null, turned: number | null): number => (turned ? 0 : (logged ?? 0));
  const turn: Turn = {
    yaw_deg: left(session.tracker_yaw_deg, session.turned_back_yaw_deg),
    tilt_deg: left(session.tracker_tilt_deg, session.turned_back_tilt_deg),
    roll_deg: left(session.tracker_roll_deg, session.turned_back_roll_deg),
  };
  const { tracker_distance_ft: distance_ft, tracker_offset_in: offset_in } = session;
  const budget =
    distance_ft === null ? null : errorBudget({ ...turn, distance_ft, offset_in: offset_in ?? 0 });
  // Without a place, by the directions alone: what a turn does to the contact point depends on it.
  const verdictOf = (name: keyof Turn): Tolerance =>
    budget === null
      ? turnVerdict({ ...straight, [name]: turn[name] })
      : budget.causes.find((c) => c.cause === name)!.verdict;
  const against = (["yaw_deg", "tilt_deg", "roll_deg"] as const)
    .filter((name) => verdictOf(name) !== "fine")
    .map((name) => loggedTurnSentence(name.split("_")[0]!, turn[name], verdictOf(name)));
  return {
    verdict: asVerdict[budget === null ? turnVerdict(turn) : budget.verdict],
    against: [...against, ...(budget?.doubts ?? [])],
    unknown,
  };
}

/**
 * Trust in one session.
 * @param session its row of sessions.csv; null when there is none
 * @param rows its swings, enriched
 * @param compared what `drift` says of it; null when it wasn't compared
 * @example trustOf("a", null, [], null).compared // false
 */
export function trustOf(
  name: string,
  session: Session | null,
  rows: readonly TrustRow[],
  compared: Pick<SessionDrift, "verdict" | "reasons"> | null,
  table: Tolerances = tolerances,
): Trust {
  const log = fromLog(session);
  const read = rows.filter((r) => r.exit_velocity_mph !== null);
  const doubtful = read.filter(isDoubtful).length;
  const surely = share(doubtful, read.length).low ?? 0;
  const rowsVerdict: Verdict =
    surely >= table.hold_doubtful_share
      ? "hold back"
      : surely >= table.look_doubtful_share
        ? "look again"
        : "sound";
  const turn = session === null ? null : turnOf(session);
  const judged = compared !== null && compared.verdict !== null;
  const found = [log.verdict, rowsVerdict, judged ? compared.verdict! : "sound"];
  // Nothing logged and nothing compared: nothing speaks for the session.
  const blank = !judged && (session === null || placementFields.every((f) => session[f] === null));
  return {
    session: name,
    verdict: worst(blank ? [...found, "look again"] : found),
    compared: judged,
    turnedBack: turn !== null,
    rows: read.length,
    doubtful,
    reasons: [
      ...(judged ? compared.reasons : []),
      ...log.against,
      inDoubtSentence(doubtful, read.length, kindsOf(read)),
      turn === null
        ? null
        : turnedBackSentence(
            { yaw: turn.yaw_deg, tilt: turn.tilt_deg, roll: turn.roll_deg },
            session!.turned_back_why,
          ),
      ...log.unknown,
      judged ? null : (compared?.reasons[0] ?? notComparedSentence),
    ].filter((text) => text !== null),
  };
}

function kindsOf(rows: readonly TrustRow[]): string {
  const counts = new Map<string, number>();
  for (const row of rows.filter(isDoubtful))
    for (const flag of flagsOf(row))
      if (isDoubtful({ flags: flag })) counts.set(flag, (counts.get(flag) ?? 0) + 1);
  return [...counts].map(([flag, n]) => `${flag.replaceAll("_", " ")} ${n}`).join(", ");
}

/**
 * Trust in every session that has swings.
 * @param rows all swings of a library, enriched: sessions are compared with one another
 * @param found the comparison, where it has been made already, of the rows that are not in doubt
 * @example trustBySession([], []).size // 0
 */
export function trustBySession(
  rows: readonly EnrichedSwing[],
  sessions: readonly Session[],
  found: Drift = drift(
    rows.filter((r) => !isDoubtful(r)),
    sessions,
  ),
): Map<string, Trust> {
  const compared = new Map(found.sessions.map((s) => [s.session, s]));
  const logged = new Map(sessions.map((s) => [s.session, s]));
  const bySession = new Map<string, EnrichedSwing[]>();
  for (const row of rows) {
    if (row.session === null) continue;
    const own = bySession.get(row.session);
    if (own === undefined) bySession.set(row.session, [row]);
    else own.push(row);
  }
  return new Map(
    [...bySession].map(([name, own]) => [
      name,
      trustOf(name, logged.get(name) ?? null, own, compared.get(name) ?? null),
    ]),
  );
}
