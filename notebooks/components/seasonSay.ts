/** What the progress page says, as elements. */
import type { HitterProgress, TrendLine } from "../../src/season/progress.ts";
import { fewestSessions, standingLines } from "../../src/season/progress.ts";
import type { DrillWork } from "../../src/season/drillWork.ts";
import type { Needed } from "../../src/season/swingsNeeded.ts";
import { withinSession as withinChart, type SwingPanel } from "../../src/charts/withinSession.ts";
import { perSwings, type SessionShown, type WithinLine } from "../../src/season/withinSession.ts";
import type { TrialResult } from "../../src/season/trial.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { chanceSentence } from "../../src/views/sentences/changes.ts";
import {
  outsideSentence,
  planSentence,
  progressAnswer,
  seasonAnswer,
  seasonNote,
  secondOpinion,
  standingSentence,
  weeksWords,
  workWords,
} from "../../src/views/sentences/progress.ts";
import {
  alongSaid,
  fatigueCaution,
  liveContrastNote,
  noWorkShows,
  showsSentence,
  steadySentence,
  withinSentence,
  withinTitle,
} from "../../src/views/sentences/season.ts";
import { earlySentence, noTrialSentence, trialSentence } from "../../src/views/sentences/trial.ts";
import { capital } from "../../src/swing/words.ts";
import { changeWords, rangeNumbers, shortName, signedRange, signedWords } from "../../src/views/words.ts";
import { spanOf } from "./say.ts";
import { noted } from "./gapSay.ts";
import type { Figure, Opening } from "./opening.ts";
import { box, facts, figure, nothing, table } from "./show.ts";

/** Lines with enough sessions to be looked at. */
const looked = (lines: readonly TrendLine[]): TrendLine[] => lines.filter((l) => l.change.value !== null);

/** A line's change as a figure of the first screen. */
function figureOf(line: TrendLine, system: UnitSystem): Figure {
  const { value, low, high } = line.change;
  const sessions = `${line.sessions.length} sessions, n ${line.sessions.reduce((sum, s) => sum + s.n, 0)}`;
  return {
    name: capital(workWords(line.input)),
    value: value === null ? "–" : signedWords(value, line.unit, system),
    doubt:
      value === null
        ? (line.reason ?? "no trend")
        : `95%: ${rangeNumbers(low!, high!, line.unit, system, 1)} in ${weeksWords(line.weeks)}, ${sessions}`,
    ...spanOf(value, low, high, "difference"),
  };
}

/** The first screen: whether anything changes, the first measure for each kind of work, and what else stands. */
export function progressSaid(
  one: HitterProgress,
  system: UnitSystem,
): Required<Pick<Opening, "answer" | "told" | "figures">> {
  const standing = standingLines(one.lines);
  const span = { weeks: one.weeks, fewest: fewestSessions };
  const others = standing.slice(1, 4).map((line) => standingSentence(line, system)!);
  const second =
    standing[0] === undefined
      ? null
      : secondOpinion(standing[0].change, standing[0].second, standing[0].unit, system);
  return {
    answer: progressAnswer(one.hitter, standing, looked(one.lines).length, span, system),
    told: [...(second === null ? [] : [second]), ...others],
    figures: one.lines.filter((l) => l.first).map((line) => figureOf(line, system)),
  };
}

/** Every line, measure by measure, with what to know of so many. */
export function seasonTable(one: HitterProgress, system: UnitSystem): HTMLElement {
  const all = looked(one.lines);
  if (one.lines.length === 0) return nothing("There is no swing to follow.");
  const notes = [
    chanceSentence(all.length),
    seasonNote(all.length, standingLines(one.lines).length),
    outsideSentence(one.left_out, one.without_date),
  ];
  return box(
    "changes",
    table(
      ["Measure", "Work", "Sessions, n", "Change over the span", "", "By the median of slopes"],
      one.lines.map((line) => [
        line.title,
        capital(workWords(line.input)),
        `${line.sessions.length}, ${line.sessions.reduce((sum, s) => sum + s.n, 0)}`,
        line.change.value === null ? (line.reason ?? "–") : signedRange(line.change, line.unit, system),
        line.change.value === null ? "" : changeWords({ ...line.change, reason: null }, line.unit, system),
        line.second.value === null ? "" : signedRange(line.second, line.unit, system),
      ]),
    ),
    noted(notes.filter((text) => text !== null)),
  );
}

/** What it takes to see a change, a sentence for each kind of work and measure. */
export function planned(plans: readonly Needed[], system: UnitSystem): HTMLElement {
  if (plans.length === 0) return nothing("Nothing can be planned before there are sessions with swings.");
  return box(
    "plans",
    facts(
      plans.map((plan) => ({
        name: `${plan.title}, ${workWords(plan.input)}`,
        value: plan.eachSide === null ? "–" : `${plan.eachSide} sessions a side`,
        doubt: planSentence(plan, system),
      })),
    ),
  );
}

const withinNames = { exit_velocity: "Exit velocity", power_kept: "Power kept" } as const;

/** One session from swing to swing, with what all of them come to; a sentence where there is none to draw. */
export function withinPicture(
  lines: readonly WithinLine[],
  session: SessionShown | null,
  system: UnitSystem,
): HTMLElement {
  if (session === null) return nothing("No session has swings enough to draw.");
  const panels = lines
    .filter(({ input, by }) => input === session.input && by === "swings")
    .map((line): SwingPanel => ({
      name: withinNames[line.measure],
      unit: line.unit,
      said: alongSaid(line, system),
      swings: session.swings.flatMap((swing) => {
        const value = swing[line.measure];
        return value === null ? [] : [{ number: swing.number, value }];
      }),
      slope: line,
    }));
  const of = { ...session, work: workWords(session.input) };
  const title = withinTitle(lines.filter(({ input }) => input === session.input));
  return figure((width) => withinChart(panels, of, { units: system, title, width }));
}

/** What happens within a session: what stands in a sentence with its caution, the picture, then every line. */
export function withinSaid(
  hitter: string,
  lines: readonly WithinLine[],
  picture: HTMLElement,
  system: UnitSystem,
): HTMLElement {
  if (lines.length === 0) return nothing("There is no swing to follow.");
  const told = lines.flatMap((line) => withinSentence(hitter, line, system) ?? []);
  return box(
    "changes",
    noted([...(told.length > 0 ? told : [steadySentence(hitter)]), fatigueCaution]),
    picture,
    table(
      ["Measure", "Work", "Along", "Change", "Sessions, n"],
      lines.map((line) => [
        withinNames[line.measure],
        capital(workWords(line.input)),
        line.by === "swings" ? `each ${perSwings} swings more` : "each doubling of the rest",
        line.value === null ? (line.reason ?? "–") : signedRange(line, line.unit, system),
        `${line.sessions}, ${line.n}`,
      ]),
    ),
  );
}

/** Whether the work shows: each drill's target over the sessions, and live balls where the drill works. */
export function drillsSaid(work: readonly DrillWork[], system: UnitSystem): HTMLElement {
  if (work.length === 0) return nothing("No drill with a target is among these swings.");
  const told = work.flatMap(({ drill, met, live }) =>
    [standingSentence(met, system), live === null ? null : showsSentence(drill, live, system)].filter(
      (text) => text !== null,
    ),
  );
  return box(
    "changes",
    noted(told.length > 0 ? told : [noWorkShows]),
    table(
      ["Drill", "What", "Sessions, n", "Change"],
      work.flatMap(({ drill, met, live }) => [
        [
          drill,
          "target met, over the span",
          `${met.sessions.length}, ${met.sessions.reduce((sum, s) => sum + s.n, 0)}`,
          met.change.value === null ? (met.reason ?? "–") : signedRange(met.change, met.unit, system),
        ],
        ...(live === null
          ? []
          : [
              [
                "",
                "live, its cells less the others",
                `${live.before.sessions} and ${live.after.sessions}, ${live.before.n} and ${live.after.n}`,
                live.value === null ? (live.reason ?? "–") : signedRange(live, "mph", system),
              ],
            ]),
      ]),
    ),
    noted(work.some(({ live }) => live !== null) ? [liveContrastNote] : []),
  );
}

/** Fair trials, a sentence each, with what stopping early costs. */
export function trialsSaid(trials: readonly TrialResult[], system: UnitSystem): HTMLElement {
  if (trials.length === 0) return nothing(noTrialSentence);
  return noted(
    trials.flatMap((trial) => {
      const early = earlySentence(trial);
      return [trialSentence(trial, system), ...(early === null ? [] : [early])];
    }),
  );
}

/**
 * A group's season, all lines of all hitters looked at together.
 * @param one the hitter in the picture, whose first measure is given as figures
 */
export function groupSeasonSaid(
  all: readonly HitterProgress[],
  one: HitterProgress | undefined,
  system: UnitSystem,
): Required<Pick<Opening, "answer" | "told" | "figures">> {
  const changed = all.flatMap(({ hitter, lines }) => {
    const [line] = standingLines(lines);
    return line === undefined ? [] : [{ hitter, line }];
  });
  changed.sort((a, b) => a.line.change.p! - b.line.change.p!);
  const lines = all.flatMap((one) => looked(one.lines));
  const note = seasonNote(lines.length, lines.filter((l) => l.stands).length);
  const figures = (one?.lines ?? []).filter((l) => l.first).map((line) => figureOf(line, system));
  return {
    answer: seasonAnswer(all.length, changed, system),
    told: note === null ? [] : [note],
    figures: figures.map((figure) => ({
      ...figure,
      name: `${shortName(one!.hitter)}, ${figure.name.toLowerCase()}`,
    })),
  };
}

/** Each hitter's first measure, a line a kind of work. */
export function groupSeasonTable(all: readonly HitterProgress[], system: UnitSystem): HTMLElement {
  const rows = all.flatMap(({ hitter, lines }) =>
    lines
      .filter((l) => l.first)
      .map((line) => [
        hitter,
        capital(workWords(line.input)),
        `${line.sessions.length}, ${line.sessions.reduce((sum, s) => sum + s.n, 0)}`,
        line.change.value === null ? (line.reason ?? "–") : signedRange(line.change, line.unit, system),
        line.verdict ?? (line.change.value === null ? "" : "no clear change"),
      ]),
  );
  if (rows.length === 0) return nothing("There is no season here yet.");
  return table(
    ["Hitter", "Work", "Sessions, n", "Exit velocity, better half, over the span", "Together"],
    rows,
  );
}
