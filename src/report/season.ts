/** What has changed over the season, in a report: the answer, and what stands. */
import { fewestSessions, standingLines, type HitterProgress } from "../season/progress.ts";
import { progressAnswer, standingSentence } from "../views/sentences/progress.ts";
import type { UnitSystem } from "../units/system.ts";
import { html, type Markup } from "./html.ts";

/** Changes that a report has room for. */
const most = 3;

/** The section; none where no kind of work has sessions enough. */
export function seasonSection(season: HitterProgress, system: UnitSystem): Markup | false {
  const looked = season.lines.filter((l) => l.change.value !== null).length;
  if (looked === 0) return false;
  const standing = standingLines(season.lines);
  const { text } = progressAnswer(
    season.hitter,
    standing,
    looked,
    { weeks: season.weeks, fewest: fewestSessions },
    system,
  );
  const told = standing.slice(0, most).map((line) => standingSentence(line, system)!);
  return html`<section class="row season">
    <h2>Over the season</h2>
    <p>${[text, ...told].join(" ")}</p>
    <p class="note">
      <span class="screen"
        >Each kind of work by itself, the pitch's part taken out, over all sessions up to here; told only
        where it stands with all ${looked} lines looked at together, days counted.</span
      >
      A change has no cause here, and a child who grows hits harder.
    </p>
  </section>`;
}
