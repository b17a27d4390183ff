/** A season's long work: what the pages about progress have worked out beside them. The computing is in src/season. */
import { drillWork, type DrillWork } from "../../../src/season/drillWork.ts";
import { plansFor, seasons } from "../../../src/season/plan.ts";
import { judgedTogether, type HitterProgress } from "../../../src/season/progress.ts";
import type { Needed } from "../../../src/season/swingsNeeded.ts";
import { trialNames, trialResult, type TrialResult } from "../../../src/season/trial.ts";
import { trialSpread } from "../../../src/season/trialPlan.ts";
import {
  sessionShown,
  withinSession,
  type SessionShown,
  type WithinLine,
} from "../../../src/season/withinSession.ts";
import type { SwingScope } from "../../../src/views/filter.ts";
import type { Work } from "../apart.ts";
import { ofLatestScope } from "../latestScope.ts";

/** The seasons of a library's hitters. */
const seasonsIn = ofLatestScope<HitterProgress[]>(seasons);

/** Every hitter's season, all lines looked at together. */
export const groupSeasons: Work<[SwingScope], HitterProgress[]> = {
  name: "seasons",
  what: "the season of every hitter",
  run: (library, scope) => judgedTogether(seasonsIn(library, scope)),
};

/** What it takes to see a change in a hitter. */
export const plans: Work<[string, SwingScope], Needed[]> = {
  name: "plans",
  what: "how many more swings it takes, from how much all hitters’ days differ",
  run(library, hitter, scope) {
    const all = seasonsIn(library, scope);
    const one = all.find((season) => season.hitter === hitter);
    return one === undefined ? [] : plansFor(one, all);
  },
};

/** How one swing off the tee differs from the next, of these hitters. */
export const trialSpreads: Work<[readonly string[], SwingScope], number | null> = {
  name: "trial spread",
  what: "how many rounds it takes, from how much all hitters’ swings differ",
  run: (library, hitters, scope) => trialSpread(seasonsIn(library, scope), hitters),
};

/** What happens within a session, and the session that is drawn. */
export const withinSessions: Work<
  [string, SwingScope],
  { readonly lines: WithinLine[]; readonly session: SessionShown | null }
> = {
  name: "within a session",
  what: "what happens from swing to swing",
  run(library, hitter, scope) {
    const lines = withinSession(library, hitter, scope);
    return { lines, session: sessionShown(library, hitter, lines, scope) };
  },
};

/** Whether a hitter's drills show. */
export const drillsShown: Work<[string, SwingScope], DrillWork[]> = {
  name: "drills",
  what: "whether the drills show",
  run: (library, hitter, scope) => drillWork(library, library.targets, hitter, scope),
};

/** What every trial among the swings came to. */
export const trials: Work<[], TrialResult[]> = {
  name: "trials",
  what: "what trials came to",
  run: (library) => trialNames(library.swings).flatMap((name) => trialResult(library, name) ?? []),
};
