/** A month on one page, for a parent: what the child worked on, what changed and what didn't, and what that means. */
import { seasonTrends } from "../charts/seasonTrends.ts";
import type { Thresholds } from "../contact/thresholds.ts";
import { isDoubtful } from "../contact/flags.ts";
import { firstPanels } from "../season/panels.ts";
import { progress, standingLines } from "../season/progress.ts";
import type { EnrichedSwing, Hitter, Session } from "../swing/fields.ts";
import type { UnitSystem } from "../units/system.ts";
import {
  bestSentence,
  monthAnswer,
  monthMeaning,
  monthSteady,
  monthWorked,
  type BestBall,
  type MonthWork,
} from "../views/sentences/month.ts";
import { progressAnswer, standingSentence } from "../views/sentences/progress.ts";
import { fewestSessions } from "../season/progress.ts";
import { sessionsInOrder, type Span } from "../views/sessions.ts";
import { latestDay, namedSpans, weeksTo } from "../views/spans.ts";
import { inPlay, ofInput, swungAt } from "../views/swings.ts";
import { html, Markup } from "./html.ts";

/** What the page is made from. */
export interface MonthParts {
  readonly hitter: string;
  readonly listed: Hitter | null;
  /** The span's swings. */
  readonly rows: readonly EnrichedSwing[];
  /** All of the hitter's swings up to the span's end: the ceiling is read from them. */
  readonly known: readonly EnrichedSwing[];
  readonly sessions: readonly Session[];
  readonly thresholds: Thresholds;
  readonly span: Span;
  /** What to work on next, as the headline says it. */
  readonly next: string;
  readonly coach: Markup | null;
  readonly facility: string | null;
  readonly system: UnitSystem;
  readonly document: Document;
}

/** The days of a month's report: those that are asked for, else the four weeks up to the hitter's last one. */
export function monthSpan(
  { rows, sessions }: { readonly rows: readonly EnrichedSwing[]; readonly sessions: readonly Session[] },
  { since = null, until = null }: Span,
): Required<Span> {
  if (since !== null || until !== null) return { since, until };
  const latest = latestDay(rows, sessions);
  return latest === null ? { since, until } : weeksTo(latest, namedSpans["four-weeks"]);
}

/** Changes that the page has room for. */
const most = 3;

/** The picture's width, px: half of a printed page. */
const pictureWidth = 460;

/** The head of the page and all that it says; cautions and foot are the report's. */
export function monthOf(parts: MonthParts): Markup {
  const { hitter, rows, sessions, span, system, document } = parts;
  const swung = swungAt(rows);
  const days = sessionsInOrder(swung, sessions);
  const dates = days.flatMap(({ date }) => date ?? []);
  const work: MonthWork = {
    hitter,
    sessions: days.length,
    tee: ofInput(swung, "tee").length,
    flip: ofInput(swung, "flip").length,
    live: ofInput(swung, "live").length,
    most: days.reduce((top, day) => Math.max(top, day.rows.length), 0),
  };
  const season = progress(
    {
      swings: parts.known,
      sessions,
      hitters: parts.listed === null ? [] : [parts.listed],
      thresholds: parts.thresholds,
    },
    hitter,
    span,
  );
  const looked = season.lines.filter((l) => l.change.value !== null);
  const standing = standingLines(season.lines);
  const when = { weeks: season.weeks, fewest: fewestSessions };
  const changed =
    standing.length === 0
      ? []
      : [
          progressAnswer(hitter, standing, looked.length, when, system).text,
          ...standing.slice(1, most).map((line) => standingSentence(line, system)!),
        ];
  const answer = monthAnswer(work);
  const [before, after] = answer.text.split(answer.figure, 2) as [string, string?];
  const panels = firstPanels(season, system).filter(({ line }) => line.sessions.length > 1);
  return html`<header>
      ${parts.facility !== null && html`<p class="house"><bdi>${parts.facility}</bdi></p>`}
      <h1>A month of hitting: <bdi>${hitter}</bdi></h1>
      <p><b>${dates.length === 0 ? "no dates given" : `${dates[0]} to ${dates.at(-1)}`}</b></p>
    </header>
    <section class="first">
      <div class="say">
        <p class="answer">
          ${answer.figure === "" ? answer.text : html`${before}<em>${answer.figure}</em>${after}`}
        </p>
        <p class="sub">${monthWorked(work)}</p>
        <h2>What changed</h2>
        <p>${[...changed, monthSteady(standing.length, looked.length, season.weeks)].join(" ")}</p>
        ${said("The best ball", bestSentence(bestOf(rows, sessions), system))}
        ${said("What is next", parts.next)} ${parts.coach}
      </div>
      <div class="pic">
        ${
          panels.length > 0 &&
          html`<figure class="chart">
              ${new Markup(seasonTrends(panels, { document, width: pictureWidth, units: system }).outerHTML)}
            </figure>
            <p class="note">
              Each dot is one session: how hard the better half of its balls was hit. The line through a dot
              is how sure so few balls make it; the shaded band is how sure the trend is.
            </p>`
        }
      </div>
    </section>
    <section class="row">
      <h2>What these numbers mean, and what they don't</h2>
      <ul>
        ${monthMeaning.map((text) => html`<li>${text}</li>`)}
      </ul>
    </section>`;
}

const said = (title: string, text: string | null): Markup | false =>
  text !== null &&
  html`<h2>${title}</h2>
    <p>${text}</p>`;

function bestOf(rows: readonly EnrichedSwing[], sessions: readonly Session[]): BestBall | null {
  const balls = inPlay(rows).filter((row) => !isDoubtful(row));
  const best = balls.reduce<EnrichedSwing | null>(
    (top, row) => (top === null || row.exit_velocity_mph! > top.exit_velocity_mph! ? row : top),
    null,
  );
  if (best === null) return null;
  const day = sessions.find((s) => s.session === best.session)?.date ?? best.time?.slice(0, 10) ?? null;
  const { exit_velocity_mph, carry_ft, carry_low_ft, carry_high_ft } = best;
  // How soon a ball on the ground first touches it is nobody's pride.
  const far =
    best.category === "ground ball"
      ? { carry_ft: null, carry_low_ft: null, carry_high_ft: null }
      : { carry_ft, carry_low_ft, carry_high_ft };
  return { exit_velocity_mph: exit_velocity_mph!, ...far, day };
}
