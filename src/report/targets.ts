/** Drills against their targets, as a table. */
import { windowWords } from "../views/window.ts";
import type { EnrichedSwing, TargetMeasure } from "../swing/fields.ts";
import { swingFields, type Field } from "../swing/fields.ts";
import type { TargetResult } from "../views/target.ts";
import type { UnitSystem } from "../units/system.ts";
import { shareFigure } from "./figures.ts";
import { html, type Markup } from "./html.ts";
import { turnedNote } from "./trust.ts";
import { counted } from "../swing/words.ts";

/** Drills shown: those with the most attempts; the others are counted. */
const mostDrills = 5;

/** The section; nothing when no drill of the swings has a target. */
export function targetsSection(
  results: readonly TargetResult[],
  system: UnitSystem,
  rows: readonly Pick<EnrichedSwing, "drill" | "flags">[],
): Markup | null {
  if (results.length === 0) return null;
  const drills = new Set<string | null>(results.map((r) => r.drill));
  const turned = turnedNote(rows.filter((r) => drills.has(r.drill)));
  const ordered = [...results].sort((a, b) => b.attempts - a.attempts);
  const rest = ordered.length - mostDrills;
  return html`<section class="row">
    <h2>Drill targets</h2>
    <table class="stack">
      <thead>
        <tr>
          <th>Drill</th>
          <th>Target</th>
          <th>Met, of attempts</th>
          <th>Longest run</th>
          <th>Off the window</th>
        </tr>
      </thead>
      <tbody>
        ${ordered.slice(0, mostDrills).map(
          (t) =>
            html`<tr>
              <th><bdi>${t.drill}</bdi></th>
              <td data-name="Target">
                ${t.window.map((w) => windowWords(w, system)).join("; ") || "no window given"}
              </td>
              <td data-name="Met, of attempts">
                ${shareFigure(t)}${t.unjudged > 0 && html` <span class="doubt">${t.unjudged} not judged</span>`}
              </td>
              <td data-name="Longest run">${t.longest_run}</td>
              <td data-name="Off the window">${offWords(t)}</td>
            </tr> `,
        )}
      </tbody>
    </table>
    ${rest > 0 && html`<p class="note">${counted(rest, "drill")} with fewer attempts not shown.</p>`}
    <p class="note">
      A miss or a foul is an attempt that did not meet the target. A run is counted within one session.
      ${turned}
    </p>
  </section>`;
}

const fieldOf = (measure: TargetMeasure): Field => swingFields.find((f) => f.name === measure)!;

/** "launch angle: 9 below, 4 above" */
function offWords({ window }: TargetResult): string {
  return (
    window
      .filter(({ below, above }) => below + above > 0)
      .map(({ measure, below, above }) => {
        const parts = [below > 0 && `${below} below`, above > 0 && `${above} above`]
          .filter(Boolean)
          .join(", ");
        return `${fieldOf(measure).title.toLowerCase()}: ${parts}`;
      })
      .join("; ") || "no ball in play"
  );
}
