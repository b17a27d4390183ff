/** What changed since the session before, as a table: measures down, inputs across. */
import type { Change, SessionChange } from "../views/change.ts";
import type { UnitSystem } from "../units/system.ts";
import { changeLine, changeNotes, nothingBefore } from "../views/sentences/changes.ts";
import { html, type Markup } from "./html.ts";

/**
 * The section; a sentence where there is no session before.
 * @param turned the sessions whose readings are corrected
 */
export function changesSection(
  changes: readonly SessionChange[],
  system: UnitSystem,
  turned: ReadonlySet<string>,
): Markup {
  if (changes.length === 0)
    return html`<section class="row">
      <h2>Since the session before</h2>
      <p>${nothingBefore}</p>
    </section>`;
  const titles = changes[0]!.changes.map((c) => c.title);
  return html`<section class="row">
    <h2>Since the session before</h2>
    <div class="scroll">
      <table class="stack">
        <thead>
          <tr>
            <th></th>
            ${changes.map((c) => html`<th>${heading(c, turned)}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${titles.map(
            (title, i) =>
              html`<tr>
                <th>${title}</th>
                ${changes.map((c) => cell(c.changes[i]!, `${c.input}, since ${c.from.date ?? c.from.session}`, system))}
              </tr> `,
          )}
        </tbody>
      </table>
    </div>
    <p class="note">${changeNotes(changes).join(" ")}</p>
  </section>`;
}

function heading({ input, from, to }: SessionChange, turned: ReadonlySet<string>): string {
  const day = ({ date, session }: SessionChange["from"]): string =>
    `${date ?? session}${turned.has(session) ? " (corrected)" : ""}`;
  return `${input}, ${day(from)} to ${day(to)}`;
}

function cell(change: Change, name: string, system: UnitSystem): Markup {
  const { difference, marked } = change;
  const words = changeLine(change, system);
  const n =
    difference.reason === null
      ? html` <span class="doubt">n ${difference.from.n}, ${difference.to.n}</span>`
      : null;
  return html`<td data-name="${name}"><span class="${marked ? "clear" : "unclear"}">${words}</span>${n}</td>`;
}
